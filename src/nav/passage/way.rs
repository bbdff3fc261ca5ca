//! What a boat makes good along its line while the stream changes evenly.

use super::LEAST_WAY;
use super::boat::{Axes, Boat};
use super::hold::Why;
use super::piece::Piece;
use crate::stream::Vector;

const LEAST: f64 = LEAST_WAY.as_metres_per_second();

/// How a boat is steered, with its speed through the water in metres per second.
#[derive(Debug, Clone, Copy)]
pub(super) enum Steering {
    /// So that it stays on the line.
    Line(f64),
    /// With the bow in one direction: what that makes along the line, and across it to the right.
    Bow(Vector),
}

/// The stream along and across the line over a piece of time in which it changes evenly.
#[derive(Debug, Clone, Copy)]
pub(super) struct Way {
    pub(super) steering: Steering,
    /// How long, in seconds; infinite for ever.
    pub(super) span: f64,
    /// The water along and across at the beginning, in metres per second, and its change in a second;
    /// still where nothing is known.
    pub(super) water: (Vector, Vector),
    /// Whether the water is known.
    pub(super) known: bool,
    /// The wind's push, along and across.
    pub(super) push: Vector,
}

/// How far a boat gets in a piece of time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Step {
    /// To the end of the piece, with so many metres made good.
    Through(f64),
    /// To the end of the stretch, after so many seconds.
    Leaves(f64),
    /// Nowhere after so many seconds, with so many metres made good.
    Halts(f64, f64, Why),
}

impl Way {
    pub(super) fn new(piece: Piece, steering: Steering, boat: Boat, axes: Axes) -> Way {
        let (known, (flow, change)) = (piece.flow.is_some(), piece.flow.unwrap_or_default());
        Way {
            steering,
            span: piece.span,
            water: (axes.onto(flow), axes.onto(change)),
            known,
            push: axes.onto(boat.push()),
        }
    }

    /// The water along and across after so many seconds.
    pub(super) fn water_after(&self, seconds: f64) -> Vector {
        let (flow, change) = self.water;
        (flow.0 + change.0 * seconds, flow.1 + change.1 * seconds)
    }

    /// All that carries the boat, along and across.
    pub(super) fn carried(&self, seconds: f64) -> Vector {
        let water = self.water_after(seconds);
        (water.0 + self.push.0, water.1 + self.push.1)
    }

    /// What the boat itself makes along the line; nothing where it cannot hold it.
    fn ahead(&self, across: f64) -> Option<f64> {
        match self.steering {
            Steering::Line(boat) => {
                (across.abs() <= boat).then(|| ((boat - across) * (boat + across)).sqrt())
            }
            Steering::Bow((ahead, _)) => Some(ahead),
        }
    }

    /// The speed along the line after so many seconds.
    pub(super) fn speed(&self, seconds: f64) -> Option<f64> {
        let (along, across) = self.carried(seconds);
        Some(self.ahead(across)? + along)
    }

    /// What is made good along the line in the first `seconds`, through which the line is held: the
    /// integral of the speed in closed form.
    pub(super) fn covered(&self, seconds: f64) -> f64 {
        let ((along, across), (further, aside)) = (self.carried(0.0), self.carried(seconds));
        let ahead = match self.steering {
            Steering::Line(boat) => mean_ahead(boat, across, aside),
            Steering::Bow((ahead, _)) => ahead,
        };
        seconds * (ahead + f64::midpoint(along, further))
    }

    /// How far to the right of the line the boat is carried in the first `seconds`; nothing while it
    /// holds the line.
    pub(super) fn set_aside(&self, seconds: f64) -> f64 {
        let Steering::Bow((_, aside)) = self.steering else { return 0.0 };
        seconds * (aside + self.carried(seconds / 2.0).1)
    }

    fn makes_way(&self, seconds: f64) -> bool {
        self.speed(seconds).is_some_and(|speed| speed > LEAST)
    }

    /// How far the boat gets of `left` metres.
    ///
    /// The speed is an arc of an ellipse on a straight line, so it bends one way only: a boat that makes
    /// way at both ends does so all between, and one that makes none at the far end has lost it once.
    pub(super) fn step(&self, left: f64) -> Step {
        let Some(speed) = self.speed(0.0).filter(|speed| *speed > LEAST) else {
            return Step::Halts(0.0, 0.0, self.why(0.0));
        };
        if self.span.is_infinite() {
            // Nothing changes any more.
            return Step::Leaves(left / speed);
        }
        let until = if self.makes_way(self.span) { self.span } else { self.way_lost() };
        let covered = self.covered(until);
        if covered >= left {
            Step::Leaves(self.time_for(left, until))
        } else if until < self.span || !self.makes_way(self.span) {
            Step::Halts(until, covered, self.why(until))
        } else {
            Step::Through(covered)
        }
    }

    /// The last instant at which the boat makes way, to rounding.
    fn way_lost(&self) -> f64 {
        let (mut makes, mut not) = (0.0, self.span);
        // To the last bit.
        for _ in 0..64 {
            let middle = f64::midpoint(makes, not);
            if self.makes_way(middle) { makes = middle } else { not = middle }
        }
        makes
    }

    /// Why a boat makes no way just after so many seconds.
    fn why(&self, seconds: f64) -> Why {
        let (_, across) = self.carried(seconds * (1.0 + 4.0 * f64::EPSILON));
        if self.ahead(across).is_some() { Why::NoWay } else { Why::CannotHold }
    }

    /// The seconds after which `left` metres are made good, no more than `until`: Newton's method with
    /// its ends held, to 1e-9 s or rounding.
    fn time_for(&self, left: f64, until: f64) -> f64 {
        let (mut low, mut high) = (0.0, until);
        let mut at = left * until / self.covered(until).max(left);
        // It takes three or four; the bound is for rounding.
        for _ in 0..64 {
            let over = self.covered(at) - left;
            if over > 0.0 {
                high = at
            } else {
                low = at
            }
            let next = self.speed(at).map_or(f64::NAN, |speed| at - over / speed);
            let next = if (low..=high).contains(&next) { next } else { f64::midpoint(low, high) };
            let moved = (next - at).abs();
            at = next;
            if moved <= 1e-9 {
                break;
            }
        }
        at
    }
}

/// The mean of √(boat² - x²) as x goes evenly from one number to another, both within the boat's speed.
///
/// With x = boat·sin θ the integral is boat²/2 (Δθ + sin Δθ cos 2θ'), Δθ the change of θ and θ' its
/// middle, for which tan(Δθ/2) = Δx/(h + h'), h the root at the ends: without any difference of
/// numbers that lie close together.
fn mean_ahead(boat: f64, from: f64, to: f64) -> f64 {
    // Rounding may put the end at which way is lost a little outside.
    let root = |x: f64| ((boat - x) * (boat + x)).max(0.0).sqrt();
    let (change, roots, sum) = (to - from, root(from) + root(to), from + to);
    if change == 0.0 {
        return roots / 2.0;
    }
    let (change2, roots2, sum2) = (change * change, roots * roots, sum * sum);
    let turn = 2.0 * change.atan2(roots);
    let sine = 2.0 * change * roots / (change2 + roots2);
    // Over the whole arc both are nothing, and so is the sine.
    let double = (roots2 - sum2) / (roots2 + sum2).max(f64::MIN_POSITIVE);
    boat * boat / 2.0 * (turn + sine * double) / change
}

#[cfg(test)]
mod tests;
