//! Barrier and lagoon: a low mainland, dunes before it with tidal inlets through them, drying flats and
//! creeks between.

use super::parts::Run;
use super::{Channel, Sketch, Style};
use crate::maker::body::{Barrier, Body, Course, Profile};
use crate::maker::dice::{Dice, Noise, Xy};
use crate::maker::frame::Frame;
use crate::maker::wishes::Wishes;

const STYLE: Style = Style {
    hills: [0.26, 0.26, 0.24, 0.2, 0.16],
    bend: 0.42,
    stretch: 0.7,
    bank: 0.16,
    clear: true,
    sands: 0.8,
};

/// Low ground; what lies under the sand off it does not matter.
const PROFILE: Profile = Profile { height: 26.0, inland: 900.0, depth: 60.0, offshore: 700.0 };

impl Sketch {
    /// The bold lines of a lagoon coast.
    pub(super) fn lagoon(seed: u64, dice: &mut Dice, size: Xy, wishes: &Wishes) -> Self {
        let frame = Frame::along_coast(dice, size);
        let (length, depth) = (frame.length(), frame.depth());
        let k = (size.0 * size.1 / (30_000.0 * 22_000.0)).sqrt();
        let slant = dice.between(-0.08, 0.08);
        let bends = |first: u64, by: f64| {
            [
                (Noise::new(seed, first, 9_000.0 * k), 1_300.0 * k * by),
                (Noise::new(seed, first + 1, 3_600.0 * k), 600.0 * k * by),
                (Noise::new(seed, first + 2, 1_500.0 * k.max(0.5)), 260.0 * k * by),
            ]
        };
        let off = depth * dice.between(0.30, 0.36);
        let line = Course { off, slant, middle: length / 2.0, bends: bends(51, 1.0) };
        let mut barrier = Barrier {
            line: Course { off: depth * dice.between(0.58, 0.64), bends: bends(54, 0.55), ..line },
            half: (120.0 * k.max(0.6), 560.0 * k),
            widths: Noise::new(seed, 57, 2_600.0 * k),
            deltas: Vec::new(),
            delta: 1_150.0 * k,
            range: wishes.tide.as_metres(),
        };
        let mut sketch = Self::empty(size, frame.way(1.0, 0.0), STYLE, Body::Isles);
        if dice.chance(0.5) {
            sketch.flood = frame.way(-1.0, 0.0);
        }
        // A larger tide keeps more inlets open.
        let apart = (9_500.0 - 700.0 * wishes.tide.as_metres()).max(4_500.0) * k.max(0.35);
        let count = ((length / apart) as usize).max(1);
        for number in 0..count {
            let place = (number as f64 + dice.between(0.3, 0.7)) / count as f64 * length;
            sketch.tidal_inlet(dice, &frame, (&line, &barrier.line), place, wishes);
            barrier.deltas.push((place, barrier.line.at(place) + 800.0 * k));
        }
        sketch.creeks(dice, &frame, &line, wishes);
        sketch.body = Body::Coast { frame, line, profile: PROFILE, barrier: Some(barrier) };
        sketch
    }

    /// A way through the dunes that parts behind them: an arm to either hand, and one to the mainland,
    /// where it leads a short way into the land.
    fn tidal_inlet(
        &mut self,
        dice: &mut Dice,
        frame: &Frame,
        (shore, dunes): (&Course, &Course),
        place: f64,
        wishes: &Wishes,
    ) {
        let k = self.k.max(0.45);
        let low = 4.6 * wishes.tide.share();
        let wide = dice.between(170.0, 235.0) * k.max(0.6);
        let back = dunes.at(place) - shore.at(place);
        let mouth = frame.place(place, dunes.at(place) + 1_300.0 * k);
        let throat = Run {
            length: 2_300.0 * k,
            reach: (wide * 1.1, wide),
            floor: (-low - 5.0, -low - 9.0),
            wander: 0.1,
            sill: None,
        };
        let way = frame.way(dice.between(-0.25, 0.25), -1.0);
        let path = throat.path(dice, mouth, way);
        let inside = path[path.len() - 1].at;
        self.channels.push(Channel { path });
        for aside in [-1.0, 1.0] {
            let arm = Run {
                length: dice.between(2_600.0, 4_200.0) * self.k.max(0.3),
                reach: (wide * 0.75, 45.0),
                floor: (-low - 6.0, -low * 0.7),
                wander: 0.45,
                sill: None,
            };
            let way = frame.way(aside, dice.between(-0.75, -0.35));
            let path = arm.path(dice, inside, way);
            self.channels.push(Channel { path });
        }
        let creek = Run {
            length: back * 1.0 + dice.between(300.0, 1_300.0) * k,
            reach: (wide * 0.7, 55.0),
            floor: (-low - 6.0, -low - 0.5),
            wander: 0.45,
            sill: None,
        };
        let way = frame.way(dice.between(-0.4, 0.4), -1.0);
        let path = creek.path(dice, inside, way);
        self.channels.push(Channel { path });
    }

    /// Small creeks from the flats into the mainland.
    fn creeks(&mut self, dice: &mut Dice, frame: &Frame, line: &Course, wishes: &Wishes) {
        let k = self.k.max(0.45);
        let low = 4.6 * wishes.tide.share();
        let count = (frame.length() / (2_600.0 * k)) as usize;
        for _ in 0..count {
            let place = dice.between(0.02, 0.98) * frame.length();
            let out = dice.between(700.0, 1_800.0) * k;
            let creek = Run {
                length: out + dice.between(500.0, 2_200.0) * k,
                reach: (dice.between(90.0, 150.0) * k.max(0.7), 45.0),
                floor: (-low - 0.8, -low * 0.3),
                wander: 0.5,
                sill: None,
            };
            let way = frame.way(dice.between(-0.6, 0.6), -1.0);
            let path = creek.path(dice, frame.place(place, line.at(place) + out), way);
            self.channels.push(Channel { path });
        }
    }
}
