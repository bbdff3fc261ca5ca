//! What several coasts are drawn with: inlets, channels that wander, islands.

use super::{Ridge, Sketch, Stop};
use crate::maker::dice::{Dice, Xy};

/// `from` and then `along` the grain and `across` it to the right.
pub(super) fn off(from: Xy, grain: Xy, along: f64, across: f64) -> Xy {
    (from.0 + grain.0 * along + grain.1 * across, from.1 + grain.1 * along - grain.0 * across)
}

/// A channel that wanders: at its mouth and at its head.
#[derive(Debug, Clone, Copy)]
pub(super) struct Run {
    pub(super) length: f64,
    /// Half its width.
    pub(super) reach: (f64, f64),
    /// Its floor, above high water.
    pub(super) floor: (f64, f64),
    /// How far it turns at each of its twelve steps.
    pub(super) wander: f64,
    pub(super) sill: Option<Sill>,
}

/// Where a channel is narrow and shallow.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sill {
    /// At which step of its channel.
    pub(super) step: f64,
    /// To which share of its channel's width it is narrowed.
    pub(super) share: f64,
    /// Its height above high water.
    pub(super) floor: f64,
}

impl Run {
    /// The line of the channel from its mouth.
    pub(super) fn path(&self, dice: &mut Dice, mouth: Xy, way: Xy) -> Vec<Stop> {
        let steps = 12;
        let norm = (way.0 * way.0 + way.1 * way.1).sqrt();
        let straight = (way.0 / norm, way.1 / norm);
        let (mut way, mut at) = (straight, mouth);
        let stride = self.length / f64::from(steps);
        let mut path = Vec::new();
        for step in 0..=steps {
            let t = f64::from(step) / f64::from(steps);
            let mut reach = self.reach.0 + (self.reach.1 - self.reach.0) * t;
            let mut floor = self.floor.0 + (self.floor.1 - self.floor.0) * t;
            if let Some(sill) = self.sill {
                let off = f64::from(step) - sill.step;
                let near = 1.0 / (1.0 + off * off * 1.5);
                reach *= 1.0 - (1.0 - sill.share) * near;
                floor += (sill.floor.max(floor) - floor) * near;
            }
            path.push(Stop { at, reach, floor });
            // Back to its course after each turn, so that it gets somewhere.
            let turn = dice.between(-self.wander, self.wander);
            let bent = (way.0 + straight.0 * 0.35, way.1 + straight.1 * 0.35);
            let bent = (bent.0 - bent.1 * turn, bent.1 + bent.0 * turn);
            let norm = (bent.0 * bent.0 + bent.1 * bent.1).sqrt();
            way = (bent.0 / norm, bent.1 / norm);
            at = (at.0 + way.0 * stride, at.1 + way.1 * stride);
        }
        path
    }
}

impl Sketch {
    /// The line of an inlet: wide and deep at the mouth, a sill, a basin, flats at the head.
    pub(super) fn inlet(
        &self,
        dice: &mut Dice,
        mouth: Xy,
        way: Xy,
        length: f64,
        k: f64,
    ) -> Vec<Stop> {
        let steps = 12;
        let norm = (way.0 * way.0 + way.1 * way.1).sqrt();
        let mut way = (way.0 / norm, way.1 / norm);
        let mut at = mouth;
        let sill = dice.between(3.0, 6.0);
        let mut path = Vec::new();
        for step in 0..=steps {
            let t = f64::from(step) / f64::from(steps);
            let near_sill = 1.0 / (1.0 + (f64::from(step) - sill) * (f64::from(step) - sill));
            let reach = (430.0 - 290.0 * t) * (1.0 - 0.55 * near_sill) * k.max(0.45);
            let floor = -34.0 * (1.0 - t) * (1.0 - 0.6 * near_sill) - 3.2 + 4.0 * t * t * t;
            path.push(Stop { at, reach, floor });
            let turn = dice.between(-0.33, 0.33);
            way = (way.0 - way.1 * turn, way.1 + way.0 * turn);
            let norm = (way.0 * way.0 + way.1 * way.1).sqrt();
            way = (way.0 / norm, way.1 / norm);
            let stride = length / f64::from(steps);
            at = (at.0 + way.0 * stride, at.1 + way.1 * stride);
        }
        path
    }

    /// An island along the grain.
    pub(super) fn isle(&mut self, dice: &mut Dice, middle: Xy, length: f64, width: f64) {
        let skew = dice.between(-0.25, 0.25);
        let half = (length / 2.0 - width / 2.0).max(1.0);
        let from = off(middle, self.grain, half, half * skew);
        let to = off(middle, self.grain, -half, -half * skew);
        let radius = (width / 2.0 * dice.between(0.7, 1.1), width / 2.0 * dice.between(0.7, 1.1));
        self.ridges.push(Ridge {
            from,
            to,
            radius,
            height: 9.0 + width * dice.between(0.02, 0.035),
        });
    }
}
