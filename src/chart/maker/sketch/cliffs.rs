//! Cliffs: a steep mainland of long headlands and shallow bays, a few coves, stacks off the capes.

use super::parts::Run;
use super::{Channel, Shelf, Sketch, Style};
use crate::maker::body::{Body, Course, Profile};
use crate::maker::dice::{Dice, Noise, Xy};
use crate::maker::frame::Frame;
use crate::maker::wishes::Wishes;

const STYLE: Style = Style {
    hills: [0.3, 0.36, 0.46, 0.6, 0.7],
    bend: 0.45,
    stretch: 0.7,
    bank: 0.16,
    clear: true,
    sands: 1.0,
};

/// A wall, and deep water close to it.
const PROFILE: Profile = Profile { height: 110.0, inland: 110.0, depth: 48.0, offshore: 420.0 };

impl Sketch {
    /// The bold lines of a coast of cliffs.
    pub(super) fn cliffs(seed: u64, dice: &mut Dice, size: Xy, wishes: &Wishes) -> Self {
        let frame = Frame::along_coast(dice, size);
        let (length, depth) = (frame.length(), frame.depth());
        let k = (size.0 * size.1 / (30_000.0 * 22_000.0)).sqrt();
        let line = Course {
            off: depth * dice.between(0.46, 0.54),
            slant: dice.between(-0.2, 0.2),
            middle: length / 2.0,
            bends: [
                (Noise::new(seed, 51, 11_000.0 * k), 2_600.0 * k),
                (Noise::new(seed, 52, 4_200.0 * k), 1_000.0 * k),
                (Noise::new(seed, 53, 1_900.0 * k.max(0.5)), 330.0 * k.max(0.4)),
            ],
        };
        let grain = frame.way(dice.between(-0.4, 0.4), -1.0);
        let body = Body::Coast { frame, line, profile: PROFILE, barrier: None };
        let mut sketch = Self::empty(size, grain, STYLE, body);
        sketch.flood = frame.way(if dice.chance(0.5) { 1.0 } else { -1.0 }, 0.0);
        sketch.coves(dice, &frame, &line, wishes);
        sketch.stacks(dice, &frame, &line, wishes);
        sketch
    }

    /// The few ways through the wall: narrow coves, and wider bays with a beach at the head.
    fn coves(&mut self, dice: &mut Dice, frame: &Frame, line: &Course, wishes: &Wishes) {
        let k = self.k.max(0.4);
        let low = 4.6 * wishes.tide.share();
        let count = ((frame.length() / (3_600.0 * k)) as usize).max(2);
        for number in 0..count {
            let place = (number as f64 + dice.between(0.25, 0.75)) / count as f64 * frame.length();
            let mouth = frame.place(place, line.at(place) + 350.0 * k);
            let way = frame.way(dice.between(-0.5, 0.5), -1.0);
            // The first is the harbour: long enough to hide in.
            let (length, wide, head) = match number % 3 {
                0 => (dice.between(2_300.0, 3_400.0), dice.between(170.0, 240.0), 110.0),
                1 => (dice.between(900.0, 1_500.0), dice.between(90.0, 130.0), 70.0),
                _ => (dice.between(1_200.0, 1_700.0), dice.between(420.0, 620.0), 330.0),
            };
            let run = Run {
                length: length * k,
                reach: (wide * k, head * k),
                floor: (-low - 11.0, 0.6),
                wander: 0.25,
                sill: None,
            };
            let path = run.path(dice, mouth, way);
            self.channels.push(Channel { path });
        }
    }

    /// Stacks and ledges where the line stands out, and an island or two off it.
    fn stacks(&mut self, dice: &mut Dice, frame: &Frame, line: &Course, wishes: &Wishes) {
        let (k, shelter) = (self.k.max(0.4), wishes.difficulty.shelter());
        let step = 500.0 * k;
        let mut place = step * 3.0;
        while place < frame.length() - step * 3.0 {
            let here = line.at(place);
            let stands_out = here > line.at(place - step) && here > line.at(place + step);
            if stands_out && dice.chance(0.75) {
                let middle = frame.place(place, here + dice.between(350.0, 700.0) * k);
                let radius = dice.between(300.0, 620.0) * k;
                self.shelves.push(Shelf { middle, radius });
            }
            place += step;
        }
        for _ in 0..(2.0 * shelter) as usize {
            let place = dice.between(0.1, 0.9) * frame.length();
            let off = line.at(place) + dice.between(2_200.0, 4_200.0) * self.k;
            let long = dice.between(500.0, 1_200.0) * k;
            let at = frame.place(place, off);
            let wide = long * dice.between(0.4, 0.6);
            self.isle(dice, at, long, wide);
            self.shelves.push(Shelf { middle: at, radius: long * 0.7 });
        }
    }
}
