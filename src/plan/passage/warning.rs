//! What the reader of a passage should know.

use std::collections::BTreeSet;
use std::fmt;
use std::sync::Arc;

use nav::leeway::TooMuchWind;
use nav::triangle::Stream;
use nav::{Length, text};

use super::LegPassage;
use crate::Course;
use crate::course::Dry;

/// A word about the figures of a passage.
#[derive(Debug, Clone, PartialEq)]
pub enum PassageWarning {
    /// Nothing is known of the stream on part of the way, where still water is reckoned with.
    NoData {
        /// How much of the way.
        length: Length,
        /// How long the way is.
        of: Length,
        /// On which legs, from one.
        legs: Vec<usize>,
    },
    /// Legs that lie off the chart in part.
    OffChart {
        /// Which, from one.
        legs: Vec<usize>,
        /// How much of them.
        length: Length,
    },
    /// Legs that lie on land in part.
    Ashore {
        /// Which, from one.
        legs: Vec<usize>,
        /// How much of them.
        length: Length,
    },
    /// Stations that are known by their greatest rate alone.
    GreatestRate(Vec<Arc<str>>),
    /// The wind's push, which is in the figures.
    Leeway(Stream),
    /// The wind's push, which is not.
    TooMuchWind(TooMuchWind),
    /// A race of which it is not known when it runs.
    Race(Arc<str>),
    /// A gate of which it is not known when it is open.
    Gate(Arc<str>),
}

impl fmt::Display for PassageWarning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        use PassageWarning as W;
        match self {
            W::NoData { length, of, .. } if length == of => f.write_str(
                "nothing is known of the stream anywhere on the way: still water is reckoned with",
            ),
            W::NoData { length, of, legs } => write!(
                f,
                "nothing is known of the stream on {} of {}, on {}: still water is reckoned with there",
                text::kilometres(*length),
                text::kilometres(*of),
                numbered(legs)
            ),
            W::OffChart { legs, length } => {
                write!(
                    f,
                    "{} of the way lies off the chart, on {}",
                    text::kilometres(*length),
                    numbered(legs)
                )
            }
            W::Ashore { legs, length } => {
                write!(
                    f,
                    "{} of the way lies on land, on {}",
                    text::kilometres(*length),
                    numbered(legs)
                )
            }
            W::GreatestRate(names) => write!(
                f,
                "of the stream at {} only the greatest rate is known; how it grows and falls is a rule of thumb",
                names.join(", ")
            ),
            W::Leeway(Stream { set, drift }) => write!(
                f,
                "the wind pushes the group at {:.1} kn towards {set}: a rule of thumb, no better than half or twice",
                drift.as_knots()
            ),
            W::TooMuchWind(why) => write!(f, "the wind is left out: {why}"),
            W::Race(name) => write!(f, "when {name} runs is not known in figures"),
            W::Gate(name) => write!(f, "when {name} is open is not known"),
        }
    }
}

/// `leg 3`, `legs 1, 3 and 4`.
fn numbered(legs: &[usize]) -> String {
    let numbers: Vec<String> = legs.iter().map(usize::to_string).collect();
    match numbers.as_slice() {
        [] => String::new(),
        [only] => format!("leg {only}"),
        [first @ .., last] => format!("legs {} and {last}", first.join(", ")),
    }
}

/// The warnings about a passage, each kind once.
pub(super) fn of(course: &Course, legs: &[LegPassage]) -> Vec<PassageWarning> {
    let mut warnings = Vec::new();
    let lengths = legs.iter().map(|leg| leg.sums.length_without_data).enumerate();
    if let Some((legs, length)) = numbers(lengths) {
        warnings.push(PassageWarning::NoData { length, of: course.distance(), legs });
    }
    let dry = |why| numbers(course.legs().iter().map(|leg| leg.dry(why)).enumerate());
    let off = dry(Dry::OffChart);
    warnings.extend(off.map(|(legs, length)| PassageWarning::OffChart { legs, length }));
    let ashore = dry(Dry::Ashore);
    warnings.extend(ashore.map(|(legs, length)| PassageWarning::Ashore { legs, length }));
    let by_rule = course.known_by_rule();
    if !by_rule.is_empty() {
        warnings.push(PassageWarning::GreatestRate(by_rule));
    }
    if let Some(why) = course.windy() {
        warnings.push(PassageWarning::TooMuchWind(why));
    } else if course.boat().leeway().drift.as_knots() > 0.0 {
        warnings.push(PassageWarning::Leeway(course.boat().leeway()));
    }
    let races = legs.iter().flat_map(|leg| &leg.races).filter(|race| race.state.is_none());
    let races: BTreeSet<Arc<str>> = races.map(|race| race.name.clone()).collect();
    warnings.extend(races.into_iter().map(PassageWarning::Race));
    let gates = legs.iter().flat_map(|leg| &leg.gates).filter(|gate| gate.open.is_none());
    let gates: BTreeSet<Arc<str>> = gates.map(|gate| gate.name.clone()).collect();
    warnings.extend(gates.into_iter().map(PassageWarning::Gate));
    warnings
}

/// The numbers of those that have a length to speak of, half a metre, and the sum of it.
fn numbers(lengths: impl Iterator<Item = (usize, Length)>) -> Option<(Vec<usize>, Length)> {
    let some = lengths.filter(|(_, length)| length.as_metres() >= 0.5);
    let (legs, lengths): (Vec<usize>, Vec<Length>) =
        some.map(|(index, length)| (index + 1, length)).unzip();
    (!legs.is_empty()).then(|| (legs, lengths.into_iter().sum()))
}
