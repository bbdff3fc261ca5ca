//! An archipelago: a main island with long fingers, islands off them, a group far out.

use super::parts::off;
use super::{Channel, Ridge, Shelf, Sketch, Stop, Style, distance, to_segment};
use crate::maker::body::Body;
use crate::maker::dice::{Dice, Xy};
use crate::maker::wishes::Wishes;

/// The roughness that that of the others is told beside.
const STYLE: Style =
    Style { hills: [1.0; 5], bend: 1.0, stretch: 0.55, bank: 0.16, clear: false, sands: 1.0 };

impl Sketch {
    /// The bold lines of an archipelago.
    pub(super) fn archipelago(dice: &mut Dice, size: Xy, wishes: &Wishes) -> Self {
        let tilt = dice.between(0.55, 1.0) * if dice.chance(0.75) { 1.0 } else { -1.0 };
        let length = (1.0 + tilt * tilt).sqrt();
        let grain = (tilt / length, 1.0 / length);
        let mut sketch = Self::empty(size, grain, STYLE, Body::Isles);
        let k = sketch.k;
        let heart = (size.0 * dice.between(0.60, 0.65), size.1 * dice.between(0.52, 0.58));
        let tips = sketch.main_island(dice, heart, k);
        sketch.isles_off_the_tips(dice, &tips, k);
        sketch.outer_group(dice, k);
        sketch.stray_isles(dice, k, (14.0 * wishes.difficulty.shelter()) as usize);
        sketch
    }

    /// A body with long parallel fingers, inlets between them: gives the fingers' ends.
    fn main_island(&mut self, dice: &mut Dice, heart: Xy, k: f64) -> Vec<Xy> {
        let grain = self.grain;
        let fingers = 4;
        let mut tips = Vec::new();
        let mut roots = Vec::new();
        for finger in 0..fingers {
            let place = f64::from(finger) - 1.5;
            let across = (place * 3_000.0 + dice.between(-350.0, 350.0)) * k;
            let root = off(heart, grain, dice.between(2_200.0, 4_200.0) * k, across);
            let reach = dice.between(3_800.0, 7_800.0) * k;
            let tip = off(heart, grain, -reach, across + dice.between(-500.0, 500.0) * k);
            let radius = (dice.between(1_250.0, 1_600.0) * k, dice.between(800.0, 1_150.0) * k);
            self.ridges.push(Ridge {
                from: root,
                to: tip,
                radius,
                height: dice.between(70.0, 120.0),
            });
            tips.push(tip);
            roots.push((across, root));
        }
        let first = off(heart, grain, dice.between(1_000.0, 2_400.0) * k, roots[0].0);
        let last = off(heart, grain, dice.between(1_000.0, 2_400.0) * k, roots[3].0);
        let radius = (1_900.0 * k, 1_700.0 * k);
        self.ridges.push(Ridge { from: first, to: last, radius, height: 130.0 });
        self.inlets_behind(dice, heart, k);
        self.sound_through(dice, heart, roots[0].0, k);
        self.sound_through(dice, heart, roots[3].0, k);
        for across in [-6_600.0, -5_800.0] {
            let along = dice.between(-6_000.0, 3_000.0) * k;
            let middle = off(heart, grain, along, across * k);
            self.shelves.push(Shelf { middle, radius: dice.between(1_700.0, 2_600.0) * k });
        }
        tips
    }

    /// Inlets that enter the body from behind and wind between the hills.
    fn inlets_behind(&mut self, dice: &mut Dice, heart: Xy, k: f64) {
        for place in [-0.55, 0.5] {
            let across = (place + dice.between(-0.15, 0.15)) * 5_600.0 * k;
            let mouth = off(heart, self.grain, 6_300.0 * k, across);
            let way = (-self.grain.0, -self.grain.1);
            let length = dice.between(6_000.0, 7_500.0) * k;
            let main = self.inlet(dice, mouth, way, length, k);
            let branch = main[main.len() * 3 / 5].at;
            let side = if place < 0.0 { 1.0 } else { -1.0 };
            let aside = off((0.0, 0.0), self.grain, -0.5, 0.9 * side);
            let arm = self.inlet(dice, branch, aside, 2_800.0 * k, k * 0.75);
            self.channels.push(Channel { path: main });
            self.channels.push(Channel { path: arm });
        }
        // One from the side, across the grain.
        let mouth = off(heart, self.grain, dice.between(-600.0, 400.0) * k, 7_600.0 * k);
        let way = off((0.0, 0.0), self.grain, 0.25, -1.0);
        let path = self.inlet(dice, mouth, way, 4_800.0 * k, k * 0.8);
        self.channels.push(Channel { path });
    }

    /// A channel from sea to sea across a finger, that makes its end an island.
    fn sound_through(&mut self, dice: &mut Dice, heart: Xy, across: f64, k: f64) {
        let along = dice.between(-3_600.0, -1_800.0) * k;
        let slant = dice.between(-900.0, 900.0) * k;
        let reach = 3_000.0 * k;
        let narrow = dice.between(95.0, 150.0) * k.max(0.6);
        let path = (-4..=4)
            .map(|step| {
                let t = f64::from(step) / 4.0;
                let wander = dice.between(-160.0, 160.0) * k;
                let at = off(heart, self.grain, along + slant * t + wander, across + reach * t);
                let reach = narrow * (1.0 + 3.0 * t * t);
                Stop { at, reach, floor: -11.0 - 18.0 * t * t }
            })
            .collect();
        self.channels.push(Channel { path });
    }

    fn isles_off_the_tips(&mut self, dice: &mut Dice, tips: &[Xy], k: f64) {
        for tip in tips {
            let mut at = *tip;
            let mut length = dice.between(1_500.0, 2_600.0) * k;
            for _ in 0..2 {
                at = off(at, self.grain, -(length * 0.5 + dice.between(1_300.0, 1_700.0) * k), 0.0);
                at = off(at, self.grain, 0.0, dice.between(-700.0, 700.0) * k);
                let width = length * dice.between(0.4, 0.6);
                self.isle(dice, at, length, width);
                length *= 0.6;
            }
            self.shelves.push(Shelf { middle: at, radius: dice.between(900.0, 1_500.0) * k });
        }
    }

    /// Islands far out in the west, about a sheltered pool.
    fn outer_group(&mut self, dice: &mut Dice, k: f64) {
        let middle =
            (self.size.0 * dice.between(0.15, 0.19), self.size.1 * dice.between(0.42, 0.62));
        for (along, across, length, width) in [
            (900.0, -1_500.0, 4_200.0, 1_500.0),
            (-300.0, 1_100.0, 3_400.0, 1_300.0),
            (-3_100.0, -200.0, 2_200.0, 1_100.0),
            (3_600.0, 900.0, 1_700.0, 900.0),
            (-2_000.0, 2_700.0, 900.0, 500.0),
        ] {
            let jog = dice.between(-350.0, 350.0);
            let at = off(middle, self.grain, (along + jog) * k, (across - jog) * k);
            self.isle(dice, at, length * k, width * k);
        }
        for (along, across) in [(2_000.0, -3_000.0), (-3_600.0, -1_900.0)] {
            let at = off(middle, self.grain, along * k, across * k);
            self.shelves.push(Shelf { middle: at, radius: dice.between(1_300.0, 2_000.0) * k });
        }
    }

    /// Islands here and there, each well off the next one.
    fn stray_isles(&mut self, dice: &mut Dice, k: f64, most: usize) {
        let mut placed: Vec<Xy> = Vec::new();
        for _ in 0..60 {
            let at = (self.size.0 * dice.between(0.08, 0.92), self.size.1 * dice.between(0.1, 0.9));
            let clear = placed.iter().all(|p| distance(*p, at) > 3_200.0 * k);
            let length = dice.between(350.0, 1_500.0) * k;
            if clear && self.nearest_ridge(at) > 1.15 * length && placed.len() < most {
                placed.push(at);
                let width = length * dice.between(0.35, 0.6);
                self.isle(dice, at, length, width);
                if dice.chance(0.6) {
                    self.shelves
                        .push(Shelf { middle: at, radius: dice.between(700.0, 1_300.0) * k });
                }
            }
        }
    }

    /// How far the nearest ridge's foot is.
    fn nearest_ridge(&self, at: Xy) -> f64 {
        self.ridges.iter().fold(f64::MAX, |least, ridge| {
            let (d, t) = to_segment(at, ridge.from, ridge.to);
            least.min(d - (ridge.radius.0 + (ridge.radius.1 - ridge.radius.0) * t))
        })
    }
}
