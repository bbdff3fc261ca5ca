//! How near is right, as a coach says it.

use std::fmt;

use crate::words::plain;
use crate::{Answer, Kind, Tolerance, Unit};

/// What a coach's tolerance is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Measure {
    /// Metres: of the ground, or of a height of tide.
    Metres,
    /// Kilometres.
    Kilometres,
    /// Nautical miles.
    Miles,
    /// Degrees of a bearing.
    Degrees,
    /// Minutes of latitude, and of longitude.
    ArcMinutes,
    /// Minutes of time.
    Minutes,
    /// Knots.
    Knots,
    /// Hundredths of the right answer.
    Percent,
}

impl Measure {
    /// Its name in a set's file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Measure::Metres => "Metres",
            Measure::Kilometres => "Kilometres",
            Measure::Miles => "Miles",
            Measure::Degrees => "Degrees",
            Measure::ArcMinutes => "ArcMinutes",
            Measure::Minutes => "Minutes",
            Measure::Knots => "Knots",
            Measure::Percent => "Percent",
        }
    }
}

/// A coach's tolerance: positive, and within bounds that fit what it is said of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Near {
    measure: Measure,
    amount: f64,
}

/// It is never NaN.
impl Eq for Near {}

/// A tolerance that is none.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NearError {
    /// The kind has none.
    #[error("“{0}” is right or wrong without a tolerance; leave it out, or take another kind")]
    None(Kind),
    /// The kind is measured in something else.
    #[error("a tolerance in {} does not fit “{kind}”; right is {}", said.name(), listed(*kind))]
    Unfit {
        /// The kind.
        kind: Kind,
        /// What was said.
        said: Measure,
    },
    /// Beyond what makes sense.
    #[error("{}({amount}) is no tolerance for “{kind}”; right is {}", measure.name(), listed(*kind))]
    Beyond {
        /// The kind.
        kind: Kind,
        /// In what.
        measure: Measure,
        /// What was said.
        amount: f64,
    },
}

/// A measure with its least and its greatest amount.
type Bounds = (Measure, f64, f64);

const ANGLE: &[Bounds] = &[(Measure::Degrees, 0.5, 45.0)];
const LENGTH: &[Bounds] =
    &[(Measure::Percent, 1.0, 50.0), (Measure::Kilometres, 0.05, 5.0), (Measure::Miles, 0.05, 3.0)];
/// As a place is written, by six figures, it is up to 71 m off.
const PLACE: &[Bounds] = &[(Measure::Metres, 75.0, 5000.0), (Measure::Kilometres, 0.075, 5.0)];

/// In what the tolerance of a kind can be said, the usual measure first; nothing of a kind that has none.
pub(super) const fn bounds(kind: Kind) -> &'static [Bounds] {
    match kind {
        Kind::Figures | Kind::Find | Kind::Letters | Kind::Card => &[],
        Kind::Reference => &[(Measure::Metres, 1.0, 500.0)],
        Kind::LatLon => &[(Measure::ArcMinutes, 0.1, 2.0)],
        Kind::ByEye
        | Kind::Bearing
        | Kind::Back
        | Kind::ToMagnetic
        | Kind::ToGrid
        | Kind::Heading => ANGLE,
        Kind::DistanceByEye | Kind::DistanceBySquares | Kind::AlongShore | Kind::Distance => LENGTH,
        Kind::Time => &[(Measure::Minutes, 0.5, 60.0), (Measure::Percent, 1.0, 50.0)],
        Kind::Twelfths => &[(Measure::Metres, 0.05, 2.0), (Measure::Percent, 1.0, 50.0)],
        Kind::Rate => &[(Measure::Knots, 0.05, 2.0), (Measure::Percent, 1.0, 50.0)],
        Kind::Fix | Kind::Where => PLACE,
        Kind::Leave => &[(Measure::Minutes, 1.0, 60.0)],
    }
}

/// `Degrees(0.5 to 45)`, with what else there is for a kind.
fn listed(kind: Kind) -> String {
    let one = |(measure, least, most): &Bounds| {
        format!("{}({} to {})", measure.name(), plain(*least, 3), plain(*most, 3))
    };
    bounds(kind).iter().map(one).collect::<Vec<_>>().join(" or ")
}

impl Near {
    /// So much of a measure, for all of these kinds.
    ///
    /// # Errors
    /// [`NearError`] of the first kind that it does not fit.
    pub fn new(measure: Measure, amount: f64, kinds: &[Kind]) -> Result<Near, NearError> {
        for &kind in kinds {
            if bounds(kind).is_empty() {
                return Err(NearError::None(kind));
            }
            let mut found = bounds(kind).iter().filter(|it| it.0 == measure);
            let Some((_, least, most)) = found.next() else {
                return Err(NearError::Unfit { kind, said: measure });
            };
            // What is no number is in no range.
            if !(*least..=*most).contains(&amount) {
                return Err(NearError::Beyond { kind, measure, amount });
            }
        }
        Ok(Near { measure, amount })
    }

    /// As a set's file has it, to the last bit.
    pub(super) fn exact(self) -> String {
        format!("{}({:?})", self.measure.name(), self.amount)
    }

    /// The tolerance of a question with this answer; nothing where it does not fit it.
    pub(super) fn of(self, answer: &Answer) -> Option<Tolerance> {
        let amount = self.amount;
        let metres = match self.measure {
            Measure::Metres => Some(amount),
            Measure::Kilometres => Some(amount * 1000.0),
            Measure::Miles => Some(amount * 1852.0),
            _ => None,
        };
        Some(match (answer, self.measure) {
            (Answer::Reference { .. } | Answer::Place { .. }, _) => Tolerance::Metres(metres?),
            (Answer::Bearing { .. }, Measure::Degrees) => Tolerance::Degrees(amount),
            (Answer::Position(_), Measure::ArcMinutes) => Tolerance::ArcMinutes(amount),
            (Answer::Clock(_), Measure::Minutes) => Tolerance::Units(amount),
            (Answer::Amount { .. }, Measure::Percent) => Tolerance::Share(amount / 100.0),
            (Answer::Amount { unit, .. }, measure) => Tolerance::Units(match (unit, measure) {
                (Unit::Metres, _) => metres?,
                (Unit::Kilometres, _) => metres? / 1000.0,
                (Unit::Miles, _) => metres? / 1852.0,
                (Unit::Minutes, Measure::Minutes) | (Unit::Knots, Measure::Knots) => amount,
                _ => return None,
            }),
            _ => return None,
        })
    }
}

/// As it stands in a set's file: `Degrees(3)`.
impl fmt::Display for Near {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}({})", self.measure.name(), plain(self.amount, 3))
    }
}
