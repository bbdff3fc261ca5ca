//! Sea lochs: a high mainland cut by long inlets, islands and a sound before it.

use super::parts::{Run, Sill};
use super::{Channel, Shelf, Sketch, Style};
use crate::maker::body::{Body, Course, Profile};
use crate::maker::dice::{Dice, Noise, Xy};
use crate::maker::frame::Frame;
use crate::maker::wishes::Wishes;

const STYLE: Style = Style {
    hills: [1.0, 1.15, 1.4, 1.6, 1.6],
    bend: 0.9,
    stretch: 0.5,
    bank: 0.065,
    clear: true,
    sands: 1.0,
};

/// Steep to the water, deep off it.
const PROFILE: Profile = Profile { height: 150.0, inland: 1_500.0, depth: 75.0, offshore: 1_000.0 };

impl Sketch {
    /// The bold lines of a coast of sea lochs.
    pub(super) fn sea_lochs(seed: u64, dice: &mut Dice, size: Xy, wishes: &Wishes) -> Self {
        let frame = Frame::along_coast(dice, size);
        let (length, depth) = (frame.length(), frame.depth());
        let k = (size.0 * size.1 / (30_000.0 * 22_000.0)).sqrt();
        let line = Course {
            off: depth * dice.between(0.60, 0.66),
            slant: dice.between(-0.12, 0.12),
            middle: length / 2.0,
            bends: [
                (Noise::new(seed, 51, 9_000.0 * k), 1_500.0 * k),
                (Noise::new(seed, 52, 4_000.0 * k), 700.0 * k),
                (Noise::new(seed, 53, 1_700.0), 480.0 * k.max(0.4)),
            ],
        };
        // The lochs lead into the land aslant, and the ridges between them.
        let lean = dice.between(0.25, 0.7) * if dice.chance(0.5) { 1.0 } else { -1.0 };
        let grain = frame.way(lean, -1.0);
        let body = Body::Coast { frame, line, profile: PROFILE, barrier: None };
        let mut sketch = Self::empty(size, grain, STYLE, body);
        sketch.flood = frame.way(if dice.chance(0.5) { 1.0 } else { -1.0 }, 0.0);
        let apart = 4_300.0 * k.max(0.3);
        let count = (length / apart) as usize;
        for number in 0..count {
            let place = (number as f64 + dice.between(0.3, 0.7)) / count as f64 * length;
            let mouth = frame.place(place, line.at(place) + 900.0 * k);
            let reach = depth * dice.between(0.38, 0.62);
            sketch.loch(dice, mouth, grain, reach, wishes);
        }
        sketch.outer_isles(dice, &frame, &line, wishes);
        sketch
    }

    /// A loch with a sill near its mouth and an arm to either hand.
    fn loch(&mut self, dice: &mut Dice, mouth: Xy, way: Xy, length: f64, wishes: &Wishes) {
        let k = self.k.max(0.45);
        let low = 4.6 * wishes.tide.share();
        let wide = dice.between(330.0, 560.0) * k;
        let first = Sill {
            step: dice.between(2.0, 5.0).round(),
            share: dice.between(0.2, 0.4),
            floor: -low - dice.between(1.5, 7.0),
        };
        let run = Run {
            length,
            reach: (wide, dice.between(130.0, 190.0) * k.max(0.6)),
            floor: (-low - 60.0, -low - 1.0),
            wander: 0.42,
            sill: Some(first),
        };
        let path = run.path(dice, mouth, way);
        let aside = if dice.chance(0.5) { 1.0 } else { -1.0 };
        let arm = Run {
            length: length * dice.between(0.25, 0.42),
            reach: (wide * 0.55, 120.0 * k),
            floor: (-low - 22.0, 0.5),
            sill: Some(Sill { step: 3.0, share: 0.42, floor: -low - dice.between(1.5, 4.0) }),
            ..run
        };
        for (place, aside) in [(path.len() / 2, aside), (path.len() * 3 / 4, -aside)] {
            let lead = (way.0 - way.1 * aside * 1.1, way.1 + way.0 * aside * 1.1);
            let arm = arm.path(dice, path[place].at, lead);
            self.channels.push(Channel { path: arm });
        }
        self.channels.push(Channel { path });
    }

    /// A few large islands with a sound behind them, small ones and skerries farther out.
    fn outer_isles(&mut self, dice: &mut Dice, frame: &Frame, line: &Course, wishes: &Wishes) {
        let (k, shelter) = (self.k, wishes.difficulty.shelter());
        let room = frame.depth() - line.off;
        let large = (4.0 * shelter) as usize;
        for number in 0..large {
            let place = (number as f64 + dice.between(0.2, 0.8)) / large as f64 * frame.length();
            let off = line.at(place) + room * dice.between(0.34, 0.55);
            let long = dice.between(2_200.0, 4_600.0) * k;
            let wide = long * dice.between(0.3, 0.45);
            self.isle(dice, frame.place(place, off), long, wide);
        }
        for _ in 0..(12.0 * shelter) as usize {
            let place = dice.between(0.05, 0.95) * frame.length();
            let at = frame.place(place, line.at(place) + room * dice.between(0.25, 0.75));
            let long = dice.between(350.0, 1_100.0) * k;
            let wide = long * dice.between(0.4, 0.6);
            self.isle(dice, at, long, wide);
            if dice.chance(0.5) {
                let radius = dice.between(600.0, 1_200.0) * k;
                self.shelves.push(Shelf { middle: at, radius });
            }
        }
    }
}
