//! A skerry guard: a low mainland behind islands that grow smaller and sparser seawards, with leads
//! between them.

use super::parts::{Run, Sill};
use super::{Channel, Shelf, Sketch, Style};
use crate::maker::body::{Body, Course, Profile};
use crate::maker::dice::{Dice, Noise, Xy};
use crate::maker::frame::Frame;
use crate::maker::wishes::Wishes;

const STYLE: Style = Style {
    hills: [0.45, 0.55, 0.75, 1.0, 1.1],
    bend: 0.8,
    stretch: 0.5,
    bank: 0.16,
    clear: true,
    sands: 1.0,
};

/// A shallow strand before a hilly land.
const PROFILE: Profile = Profile { height: 70.0, inland: 900.0, depth: 42.0, offshore: 1_300.0 };

impl Sketch {
    /// The bold lines of a skerry guard.
    pub(super) fn skerries(seed: u64, dice: &mut Dice, size: Xy, wishes: &Wishes) -> Self {
        let frame = Frame::along_coast(dice, size);
        let (length, depth) = (frame.length(), frame.depth());
        let k = (size.0 * size.1 / (30_000.0 * 22_000.0)).sqrt();
        let line = Course {
            off: depth * dice.between(0.24, 0.30),
            slant: dice.between(-0.1, 0.1),
            middle: length / 2.0,
            bends: [
                (Noise::new(seed, 51, 8_000.0 * k), 1_300.0 * k),
                (Noise::new(seed, 52, 3_500.0 * k), 800.0 * k),
                (Noise::new(seed, 53, 1_500.0), 350.0 * k.max(0.4)),
            ],
        };
        let lean = dice.between(0.6, 1.4) * if dice.chance(0.5) { 1.0 } else { -1.0 };
        let grain = frame.way(lean, -1.0);
        let body = Body::Coast { frame, line, profile: PROFILE, barrier: None };
        let mut sketch = Self::empty(size, grain, STYLE, body);
        sketch.flood = frame.way(if dice.chance(0.5) { 1.0 } else { -1.0 }, 0.0);
        let shelter = wishes.difficulty.shelter();
        let band = (line.off, depth - 2_200.0 * k.max(0.6));
        for _ in 0..(46.0 * shelter) as usize {
            // The square sets more of them near the mainland.
            let t = dice.unit() * dice.unit();
            let place = dice.between(-0.02, 1.02) * length;
            let at = frame.place(place, band.0 + (band.1 - band.0) * (0.06 + 0.94 * t));
            let long = dice.between(500.0, 2_600.0) * (1.0 - 0.72 * t) * k.max(0.4);
            let wide = long * dice.between(0.35, 0.6);
            sketch.isle(dice, at, long, wide);
        }
        for _ in 0..(44.0 * shelter) as usize {
            let place = dice.between(0.0, 1.0) * length;
            let middle = frame.place(place, band.0 + (band.1 - band.0) * dice.between(0.12, 1.0));
            let radius = dice.between(700.0, 1_900.0) * k.max(0.4);
            sketch.shelves.push(Shelf { middle, radius });
        }
        sketch.leads(dice, &frame, band, wishes);
        sketch.fjords(dice, &frame, &line, wishes);
        sketch
    }

    /// Deep ways: one along the coast inside the guard, others out to sea.
    fn leads(&mut self, dice: &mut Dice, frame: &Frame, band: (f64, f64), wishes: &Wishes) {
        let k = self.k.max(0.4);
        let low = 4.6 * wishes.tide.share();
        let wide = dice.between(260.0, 360.0) * k;
        let lead = Run {
            length: frame.length() * 1.25,
            reach: (wide, wide),
            floor: (-low - 26.0, -low - 26.0),
            wander: 0.35,
            sill: None,
        };
        let inside = frame.place(-500.0, band.0 + (band.1 - band.0) * 0.16);
        let path = lead.path(dice, inside, frame.way(1.0, 0.0));
        self.channels.push(Channel { path });
        let count = (frame.length() / (9_000.0 * k)) as usize;
        for number in 0..count {
            let place = (number as f64 + dice.between(0.2, 0.8)) / count as f64 * frame.length();
            let out = Run { length: (band.1 - band.0) * 1.1, ..lead };
            let mouth = frame.place(place, band.1 + 1_000.0 * k);
            let way = frame.way(dice.between(-0.5, 0.5), -1.0);
            let path = out.path(dice, mouth, way);
            self.channels.push(Channel { path });
        }
    }

    /// Short inlets into the mainland.
    fn fjords(&mut self, dice: &mut Dice, frame: &Frame, line: &Course, wishes: &Wishes) {
        let k = self.k.max(0.45);
        let low = 4.6 * wishes.tide.share();
        let count = ((frame.length() / (7_500.0 * k)) as usize).max(1);
        for number in 0..count {
            let place = (number as f64 + dice.between(0.2, 0.8)) / count as f64 * frame.length();
            let run = Run {
                length: line.off * dice.between(0.45, 0.8),
                reach: (dice.between(220.0, 340.0) * k, 110.0 * k),
                floor: (-low - 24.0, 0.3),
                wander: 0.35,
                sill: Some(Sill { step: 4.0, share: 0.45, floor: -low - dice.between(2.0, 8.0) }),
            };
            let mouth = frame.place(place, line.at(place) + 300.0);
            let path = run.path(dice, mouth, self.grain);
            self.channels.push(Channel { path });
        }
    }
}
