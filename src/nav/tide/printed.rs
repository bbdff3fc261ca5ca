//! High and low waters typed in from a printed table, and the height between them.

use jiff::{SignedDuration, Timestamp};

use super::height::Height;
use super::turns::{Turn, Water};
use crate::Length;

/// The high and low waters of a printed table, in order and by turns.
///
/// ```
/// use nav::{Length, tide::{Height, Printed, Turn, Water}};
/// let turn = |at: &str, metres: f64, water| Turn {
///     at: at.parse().unwrap(),
///     height: Height::above_datum(metres * Length::METRE),
///     water,
/// };
/// let table = Printed::new(vec![
///     turn("2026-06-14T06:00Z", 5.0, Water::High),
///     turn("2026-06-14T12:00Z", 1.0, Water::Low),
/// ])
/// .unwrap();
/// // After two of the six hours a quarter has gone, by the cosine and by the twelfths alike.
/// let height = table.height("2026-06-14T08:00Z".parse().unwrap()).unwrap();
/// assert!((height.cosine.as_metres() - 4.0).abs() < 1e-12);
/// assert!(height.difference().abs() < 1e-12 * Length::METRE);
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Printed(Vec<Turn>);

/// Why turns make no table, or a table gives no height.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum PrintedError {
    /// There is no height between fewer than two.
    #[error("{0} high and low waters; at least two are needed")]
    TooFew(usize),
    /// A later one stands before an earlier one.
    #[error("{at} comes after {before} in the table, and is no later; times rise down a table")]
    OutOfOrder {
        /// The one before.
        before: Timestamp,
        /// The one that is no later.
        at: Timestamp,
    },
    /// Two high waters without a low one between them, or two low ones.
    #[error("two {} waters follow one another, the second at {at}; high and low come by turns", if *.water == Water::High { "high" } else { "low" })]
    NotByTurns {
        /// What both are.
        water: Water,
        /// The second.
        at: Timestamp,
    },
    /// A high water that is not higher than the low one beside it.
    #[error("the high water of {high} m is not above the low water of {low} m, about {at}")]
    HighBelowLow {
        /// The high water in metres.
        high: f64,
        /// The low water in metres.
        low: f64,
        /// The later of the two.
        at: Timestamp,
    },
    /// An instant that the table does not reach.
    #[error("{at} is outside the table, which goes from {from} to {to}")]
    Outside {
        /// The instant asked for.
        at: Timestamp,
        /// The table's first.
        from: Timestamp,
        /// The table's last.
        to: Timestamp,
    },
}

/// A height between a high and a low water, by two rules.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interpolated {
    /// By half a turn of a cosine.
    pub cosine: Height,
    /// By the rule of twelfths, in proportion within each sixth of the time. Common practice, no
    /// published source.
    pub twelfths: Height,
}

impl Interpolated {
    /// How far the twelfths are above the cosine: at most 0.0164 of the range at the full sixths, and
    /// 0.0256 between them.
    pub fn difference(self) -> Length {
        self.twelfths - self.cosine
    }
}

impl Printed {
    /// The table of these turns.
    ///
    /// # Errors
    /// [`PrintedError`] for fewer than two, times out of order, two of a kind beside one another, or
    /// a high water that is not above the low one beside it.
    pub fn new(turns: Vec<Turn>) -> Result<Printed, PrintedError> {
        if turns.len() < 2 {
            return Err(PrintedError::TooFew(turns.len()));
        }
        for pair in turns.windows(2) {
            let (before, after) = (pair[0], pair[1]);
            let at = after.at;
            if at <= before.at {
                return Err(PrintedError::OutOfOrder { before: before.at, at });
            }
            if after.water == before.water {
                return Err(PrintedError::NotByTurns { water: after.water, at });
            }
            let (high, low) =
                if after.water == Water::High { (after, before) } else { (before, after) };
            if high.height <= low.height {
                let (high, low) = (high.height.as_metres(), low.height.as_metres());
                return Err(PrintedError::HighBelowLow { high, low, at });
            }
        }
        Ok(Printed(turns))
    }

    /// Its turns.
    pub fn turns(&self) -> &[Turn] {
        &self.0
    }

    /// Its first and its last instant: outside them it tells nothing.
    pub fn span(&self) -> (Timestamp, Timestamp) {
        (self.0[0].at, self.0[self.0.len() - 1].at)
    }

    /// The height of tide at an instant, which is only what a curve through two points can be: where
    /// shallow water bends the true curve, both rules are wrong together.
    ///
    /// # Errors
    /// [`PrintedError::Outside`] before the first turn and after the last.
    pub fn height(&self, at: Timestamp) -> Result<Interpolated, PrintedError> {
        let next = self.0.partition_point(|turn| turn.at < at);
        let after = match self.0.get(next) {
            Some(first) if next == 0 && first.at == at => return Ok(exactly(first.height)),
            Some(after) if next > 0 => after,
            _ => return Err(self.outside(at)),
        };
        let before = &self.0[next - 1];
        let whole = after.at.duration_since(before.at);
        let part = fraction(at.duration_since(before.at), whole);
        let rise = after.height - before.height;
        Ok(Interpolated {
            cosine: before.height + rise * cosine(part),
            twelfths: before.height + rise * twelfths(part),
        })
    }

    fn outside(&self, at: Timestamp) -> PrintedError {
        let (from, to) = self.span();
        PrintedError::Outside { at, from, to }
    }
}

fn exactly(height: Height) -> Interpolated {
    Interpolated { cosine: height, twelfths: height }
}

fn fraction(part: SignedDuration, whole: SignedDuration) -> f64 {
    part.as_secs_f64() / whole.as_secs_f64()
}

/// The part of a rise or fall that is over when `part` of its time is.
fn cosine(part: f64) -> f64 {
    (1.0 - (std::f64::consts::PI * part).cos()) / 2.0
}

/// The same by the rule of twelfths: in the sixths of the time 1, 2, 3, 3, 2, 1 twelfths.
fn twelfths(part: f64) -> f64 {
    const OVER: [f64; 7] = [0.0, 1.0, 3.0, 6.0, 9.0, 11.0, 12.0];
    let sixths = (part * 6.0).clamp(0.0, 6.0);
    // In range by the clamp.
    let whole = (sixths as usize).min(5);
    let (from, to) = (OVER[whole], OVER[whole + 1]);
    (from + (to - from) * (sixths - whole as f64)) / 12.0
}

#[cfg(test)]
mod tests {
    use super::super::tests::time;
    use super::*;

    fn turn(at: &str, metres: f64, water: Water) -> Turn {
        Turn { at: time(at), height: Height::metres(metres), water }
    }

    /// Common practice, no published source: the sums of the twelfths and the cosine's equivalents.
    #[test]
    fn twelfths_and_cosine_by_sixths() {
        let cosines = [0.0, 0.066_99, 0.25, 0.5, 0.75, 0.933_01, 1.0];
        for (sixth, (over, cosines)) in
            [0.0, 1.0, 3.0, 6.0, 9.0, 11.0, 12.0].iter().zip(cosines).enumerate()
        {
            let part = sixth as f64 / 6.0;
            assert!((twelfths(part) - over / 12.0).abs() < 1e-12);
            assert!((cosine(part) - cosines).abs() < 0.6e-5);
        }
        let most = |steps: i32| {
            let apart = |part: f64| (twelfths(part) - cosine(part)).abs();
            (0..=steps).map(|part| apart(f64::from(part) / f64::from(steps))).fold(0.0, f64::max)
        };
        assert!((most(6) - 0.016_35).abs() < 0.51e-4);
        assert!(most(6000) < 0.0256);
    }

    #[test]
    fn ends_and_turns_have_their_own_heights() {
        let table = Printed::new(vec![
            turn("2026-06-14T00:10Z", 0.7, Water::Low),
            turn("2026-06-14T06:20Z", 4.9, Water::High),
            turn("2026-06-14T12:40Z", 0.9, Water::Low),
        ])
        .unwrap();
        for turn in table.turns() {
            let height = table.height(turn.at).unwrap();
            assert!((height.cosine - turn.height).abs() < 1e-12 * Length::METRE);
            assert!((height.twelfths - turn.height).abs() < 1e-12 * Length::METRE);
        }
        let early = table.height(time("2026-06-14T00:09Z")).unwrap_err().to_string();
        assert_eq!(
            early,
            "2026-06-14T00:09:00Z is outside the table, which goes from 2026-06-14T00:10:00Z to \
             2026-06-14T12:40:00Z"
        );
        assert!(table.height(time("2026-06-14T12:41Z")).is_err());
    }

    #[test]
    fn what_is_typed_wrong_is_named() {
        let (low, high) = (
            turn("2026-06-14T00:10Z", 0.7, Water::Low),
            turn("2026-06-14T06:20Z", 4.9, Water::High),
        );
        let said = |turns: &[Turn]| Printed::new(turns.to_vec()).unwrap_err().to_string();
        assert_eq!(said(&[low]), "1 high and low waters; at least two are needed");
        assert_eq!(
            said(&[high, low]),
            "2026-06-14T00:10:00Z comes after 2026-06-14T06:20:00Z in the table, and is no later; \
             times rise down a table"
        );
        let second = Turn { at: high.at, ..low };
        assert_eq!(
            said(&[low, second]),
            "two low waters follow one another, the second at 2026-06-14T06:20:00Z; high and low \
             come by turns"
        );
        let sunk = Turn { height: Height::metres(0.5), ..high };
        assert_eq!(
            said(&[low, sunk]),
            "the high water of 0.5 m is not above the low water of 0.7 m, about 2026-06-14T06:20:00Z"
        );
    }
}
