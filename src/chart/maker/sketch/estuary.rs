//! A big estuary: a mouth that narrows for miles to a river, banks along its middle, flats on its sides.

use super::parts::Run;
use super::{Channel, Sketch, Stop, Style};
use crate::maker::body::{Body, Course, Funnel, Profile};
use crate::maker::dice::{Dice, Noise, Xy};
use crate::maker::frame::Frame;
use crate::maker::wishes::Wishes;

const STYLE: Style = Style {
    hills: [0.42, 0.42, 0.42, 0.38, 0.3],
    bend: 0.6,
    stretch: 0.24,
    bank: 0.16,
    clear: true,
    sands: 1.0,
};

const PROFILE: Profile = Profile { height: 60.0, inland: 700.0, depth: 55.0, offshore: 500.0 };

impl Sketch {
    /// The bold lines of an estuary.
    pub(super) fn estuary(seed: u64, dice: &mut Dice, size: Xy, wishes: &Wishes) -> Self {
        let frame = Frame::up_country(dice, size);
        let (length, depth) = (frame.length(), frame.depth());
        let k = (size.0 * size.1 / (30_000.0 * 22_000.0)).sqrt();
        let axis = Course {
            off: length * dice.between(0.44, 0.56),
            slant: dice.between(-0.1, 0.1),
            middle: depth / 2.0,
            bends: [
                (Noise::new(seed, 51, 9_000.0 * k), 2_000.0 * k),
                (Noise::new(seed, 52, 3_800.0 * k), 600.0 * k),
                (Noise::new(seed, 53, 1_600.0 * k), 150.0 * k),
            ],
        };
        let funnel = Funnel {
            frame,
            axis,
            half: (dice.between(130.0, 180.0) * k.max(0.6), length * dice.between(0.17, 0.22)),
            ends: (depth * 0.06, depth * 0.68),
            profile: PROFILE,
            range: wishes.tide.as_metres(),
        };
        let up = frame.way(0.0, -1.0);
        let mut sketch = Self::empty(size, up, STYLE, Body::Funnel(funnel));
        for (aside, depth) in [(0.42, 1.0), (-0.55, 0.6)] {
            sketch.way_in(dice, &funnel, aside, depth, wishes);
        }
        sketch.river_creeks(dice, &funnel, wishes);
        sketch
    }

    /// A channel from the sea to the head, that swings from side to side.
    fn way_in(&mut self, dice: &mut Dice, funnel: &Funnel, aside: f64, deep: f64, wishes: &Wishes) {
        let low = 4.6 * wishes.tide.share();
        let (head, mouth) = funnel.ends;
        let steps = 30;
        let swing = Noise::new((dice.unit() * 1e9) as u64, 61, 5_200.0 * self.k);
        let mut path = Vec::new();
        for step in 0..=steps {
            let t = f64::from(step) / f64::from(steps);
            let off = head + (mouth * 1.12 - head) * t;
            let half = funnel.half_at(off);
            let across = (aside + 0.75 * swing.at((off, 0.3 * off))).clamp(-0.72, 0.72);
            let along = funnel.axis.at(off) + across * half * (0.35 + 0.65 * t);
            let reach = (0.16 * half).clamp(70.0, 520.0 * self.k.max(0.4)) * (0.6 + 0.4 * deep);
            let floor = -low - 0.6 - (2.0 + 9.0 * t) * deep;
            path.push(Stop { at: funnel.frame.place(along, off), reach, floor });
        }
        self.channels.push(Channel { path });
    }

    /// Creeks that lead from the flats into the land.
    fn river_creeks(&mut self, dice: &mut Dice, funnel: &Funnel, wishes: &Wishes) {
        let k = self.k.max(0.4);
        let low = 4.6 * wishes.tide.share();
        let (head, mouth) = funnel.ends;
        for number in 0..6 {
            let off = head + (mouth - head) * (0.25 + 0.12 * f64::from(number));
            let off = off + dice.between(-700.0, 700.0) * k;
            let side = if number % 2 == 0 { 1.0 } else { -1.0 };
            let half = funnel.half_at(off);
            let along = funnel.axis.at(off) + side * half * 0.72;
            let run = Run {
                length: half * 0.3 + dice.between(1_300.0, 3_600.0) * k,
                reach: (dice.between(130.0, 210.0) * k.max(0.6), 50.0),
                floor: (-low - 1.5, 0.4),
                wander: 0.35,
                sill: None,
            };
            let way = funnel.frame.way(side, dice.between(-0.7, 0.2));
            let path = run.path(dice, funnel.frame.place(along, off), way);
            self.channels.push(Channel { path });
        }
    }
}
