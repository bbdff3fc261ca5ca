//! Roughness at every size from a hill down to a boulder field, and the waves of sand and mud.

use super::body::Soft;
use super::bold::{Ground, smooth_max};
use super::dice::{Noise, Sheet, Xy};
use super::relief::Relief;
use super::sketch::Sketch;

/// A channel that is kept clear has at least this share of its depth everywhere.
const CLEAR: f64 = 0.45;

/// Roughness at every size from a hill down to a boulder field.
pub(super) struct Detail {
    hills: [(Sheet, f64); 5],
    skerries: [(Sheet, f64); 4],
    sands: [(Sheet, f64); 3],
    grain: Xy,
    stretch: f64,
    clear: bool,
}

impl Detail {
    /// The roughness of a sketch's ground.
    pub(super) fn new(seed: u64, sketch: &Sketch, relief: &Relief) -> Self {
        let gains = sketch.style.hills;
        let (low, high) = relief.corners();
        let corners = [low, (high.0, low.1), (low.0, high.1), high];
        let (low, high) =
            about(corners.map(|at| along_grain(at, sketch.grain, sketch.style.stretch)));
        let layer = |purpose, wavelength, height| {
            (Sheet::new(Noise::new(seed, purpose, wavelength), low, high), height)
        };
        Self {
            hills: [
                layer(11, 1_700.0, 66.0 * gains[0]),
                layer(12, 800.0, 52.0 * gains[1]),
                layer(13, 390.0, 32.0 * gains[2]),
                layer(14, 190.0, 20.0 * gains[3]),
                layer(15, 95.0, 11.0 * gains[4]),
            ],
            skerries: [
                layer(21, 620.0, 11.0),
                layer(22, 280.0, 9.0),
                layer(23, 140.0, 5.0),
                layer(24, 80.0, 2.6),
            ],
            sands: [
                layer(41, 2_300.0 * sketch.style.sands, 0.9),
                layer(42, 900.0 * sketch.style.sands, 0.55),
                layer(43, 330.0 * sketch.style.sands, 0.3),
            ],
            grain: sketch.grain,
            stretch: sketch.style.stretch,
            clear: sketch.style.clear,
        }
    }

    /// The height above high water of ground with its roughness.
    pub(super) fn on(&self, ground: &Ground, at: Xy) -> f64 {
        let low = ground.base.min(ground.valley);
        if !(-66.0..150.0).contains(&low) && ground.shelf <= 0.0 && ground.soft.height < low {
            return low;
        }
        let laid = along_grain(at, self.grain, self.stretch);
        let layer = |(noise, height): &(Sheet, f64)| height * noise.at(laid);
        let layers = self.hills.each_ref().map(layer);
        let deep = (-ground.base - 8.0).max(0.0) / 26.0;
        let hills = sum(&layers) / (1.0 + deep * deep);
        let shelf = shelf_height(ground.shelf, || sum(&self.skerries.each_ref().map(layer)));
        let hard = smooth_max(ground.base + hills, shelf, 4.0);
        let open = hard.max(self.soft(&ground.soft, laid));
        // A channel keeps its floor: only the smaller roughness reaches it, most at the shores.
        let under = ground.valley / 6.0;
        let share = 0.25 + 0.4 / (1.0 + under * under);
        let bed = ground.valley + share * sum(&layers[2..]);
        let shut = self.clear && ground.valley < 0.0;
        open.min(if shut { bed.min(CLEAR * ground.valley) } else { bed })
    }

    /// The height of sand and mud above high water.
    fn soft(&self, soft: &Soft, laid: Xy) -> f64 {
        if soft.rough <= 0.0 {
            return soft.height;
        }
        let layers = self.sands.each_ref().map(|(noise, share)| share * noise.at(laid));
        soft.height + soft.rough * sum(&layers)
    }
}

/// A place along and across the grain. Ridges run with it: along it the roughness is drawn out.
fn along_grain(at: Xy, grain: Xy, stretch: f64) -> Xy {
    ((at.0 * grain.0 + at.1 * grain.1) * stretch, at.0 * grain.1 - at.1 * grain.0)
}

/// The corners of the box about some places.
fn about(places: [Xy; 4]) -> (Xy, Xy) {
    places.into_iter().fold((places[0], places[0]), |(low, high), at| {
        ((low.0.min(at.0), low.1.min(at.1)), (high.0.max(at.0), high.1.max(at.1)))
    })
}

fn sum(layers: &[f64]) -> f64 {
    layers.iter().fold(0.0, |sum, layer| sum + layer)
}

/// The height of a skerry shelf above high water, where there is one.
fn shelf_height(share: f64, rough: impl Fn() -> f64) -> f64 {
    if share <= 0.0 {
        return -400.0;
    }
    let rest = 1.0 - share;
    -6.5 - 30.0 * rest * rest + (0.35 + 0.65 * share) * rough()
}
