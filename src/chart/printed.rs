//! Tide tables typed in: the high and low waters that a printed table gives for some days.
//!
//! A line is a time and a height in metres, `("2026-06-14T03:27", 4.4)`, and `High` or `Low` behind
//! them if one likes: without it the kinds are told by their turns, the higher of the first two
//! being high water. A time is ISO 8601, with its offset from UTC or on the clock of the table's zone.

use std::fmt;

use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::Length;
use nav::tide::{Height, MeanRanges, Printed, RangesError, Turn, Water};
use serde::de::{Error, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};

use crate::clean::{NAME, clean};
use crate::clock::{self, ClockError};
use crate::format::Step::{self, Element, Field};
use crate::format::fields::some;

/// The heights that a tide has, in metres above datum.
const HEIGHTS: std::ops::RangeInclusive<f64> = -30.0..=30.0;

/// High and low water follow one another within this, even where there is one of each a day.
const LONGEST: SignedDuration = SignedDuration::from_hours(24);

/// A high or low water as it was typed in.
#[derive(Debug, Clone, PartialEq)]
pub struct PrintedWater {
    /// When, in ISO 8601.
    pub time: String,
    /// How high, in metres above datum.
    pub height_m: f64,
    /// High or low water, if that is stated.
    pub water: Option<Water>,
}

/// The mean figures of a port that a printed table states.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Means {
    /// The mean range at springs, in metres.
    pub springs_m: f64,
    /// The mean range at neaps, in metres.
    pub neaps_m: f64,
    /// Mean level above datum, in metres, if it is stated: differences on this port need it.
    #[serde(default, deserialize_with = "some")]
    pub level_m: Option<f64>,
}

/// What is wrong with a table; what would be right.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Misprint {
    /// The zone is none.
    #[error("{0:?} is no time zone; write Europe/Oslo, UTC, UTC-3 or +05:30")]
    Zone(String),
    /// A time is none.
    #[error(transparent)]
    Time(#[from] ClockError),
    /// A time outside the years of tides.
    #[error("{0} is not within the years 1900 to 2100, for which tides are reckoned")]
    Year(String),
    /// A height that no tide has.
    #[error("height {0} is out of range; -30 to 30 m are right")]
    Height(f64),
    /// There is nothing to tell heights between.
    #[error("{0} high and low waters; at least two are needed, heights are told between them")]
    TooFew(usize),
    /// A line that is no later than the one before it.
    #[error("{time} comes after {before} in the table, and is no later; times rise down a table")]
    OutOfOrder {
        /// The line before.
        before: String,
        /// The line.
        time: String,
    },
    /// More than a day without a line.
    #[error(
        "{time} is more than a day after {before}; high and low water follow one another within a day: \
         type in the days between, or make two tables"
    )]
    Gap {
        /// The line before.
        before: String,
        /// The line.
        time: String,
    },
    /// Two of a kind, one after the other.
    #[error("a second {} water in a row at {time}; high and low come by turns", word(*.water))]
    NotByTurns {
        /// What both are.
        water: Water,
        /// The second.
        time: String,
    },
    /// High water below the low water beside it.
    #[error(
        "the {} water of {height} m at {time} does not fit the {} water of {before} m before it: high \
         water stands above the low waters beside it", word(*.water), word(other(*.water))
    )]
    HighBelowLow {
        /// What it is.
        water: Water,
        /// When.
        time: String,
        /// Its height in metres.
        height: f64,
        /// The height before it.
        before: f64,
    },
    /// Mean ranges that are none.
    #[error(transparent)]
    Means(#[from] RangesError),
}

/// A misprint, and the way to it from the table.
pub(crate) type Found = (Vec<Step>, Misprint);

const fn word(water: Water) -> &'static str {
    match water {
        Water::High => "high",
        Water::Low => "low",
    }
}

const fn other(water: Water) -> Water {
    match water {
        Water::High => Water::Low,
        Water::Low => Water::High,
    }
}

/// The zone of a table, if it states one.
pub(crate) fn zone(name: &str) -> Result<Option<TimeZone>, Found> {
    let wrong = || (vec![Field("zone")], Misprint::Zone(name.to_owned()));
    match name {
        "" => Ok(None),
        name => clock::zone(name).map(Some).ok_or_else(wrong),
    }
}

/// The table of these lines, whose times without an offset are on the clock of `zone`, which may be
/// empty.
pub(crate) fn table(zone: &str, waters: &[PrintedWater]) -> Result<Printed, Found> {
    let zone = self::zone(zone)?;
    if waters.len() < 2 {
        return Err((vec![Field("waters")], Misprint::TooFew(waters.len())));
    }
    let kinds = kinds(waters);
    let mut turns: Vec<Turn> = Vec::with_capacity(waters.len());
    for (index, (line, water)) in waters.iter().zip(kinds).enumerate() {
        let way = |part: usize| vec![Field("waters"), Element(index), Element(part)];
        let at = time(line, zone.as_ref()).map_err(|error| (way(0), error))?;
        let height = height(line.height_m).map_err(|error| (way(1), error))?;
        let turn = Turn { at, height, water };
        if let Some((before, typed)) = turns.last().zip(index.checked_sub(1)) {
            follows(before, &turn, [&waters[typed], line])
                .map_err(|(part, error)| (way(part), error))?;
        }
        turns.push(turn);
    }
    let few = |_| (vec![Field("waters")], Misprint::TooFew(waters.len()));
    Printed::new(turns).map_err(few)
}

/// High or low: as stated, by turns from what is stated, or else by the first two heights.
fn kinds(waters: &[PrintedWater]) -> Vec<Water> {
    let by_turns =
        |from: Water, steps: usize| if steps.is_multiple_of(2) { from } else { other(from) };
    let stated = waters.iter().enumerate().find_map(|(index, line)| Some((index, line.water?)));
    let first = match stated {
        Some((index, water)) => by_turns(water, index),
        None => match waters {
            [one, two, ..] if two.height_m > one.height_m => Water::Low,
            _ => Water::High,
        },
    };
    let mut last = other(first);
    let each = waters.iter().map(|line| {
        last = line.water.unwrap_or(other(last));
        last
    });
    each.collect()
}

fn time(line: &PrintedWater, zone: Option<&TimeZone>) -> Result<Timestamp, Misprint> {
    let at = clock::instant(&line.time, zone)?;
    let year = TimeZone::UTC.to_datetime(at).year();
    let within = (1900..=2100).contains(&year);
    within.then_some(at).ok_or_else(|| Misprint::Year(line.time.clone()))
}

fn height(metres: f64) -> Result<Height, Misprint> {
    let length = Length::from_metres(metres).ok().filter(|_| HEIGHTS.contains(&metres));
    length.map(Height::above_datum).ok_or(Misprint::Height(metres))
}

/// Holds that one line may follow another, or says which part of it is wrong.
fn follows(
    before: &Turn,
    turn: &Turn,
    [typed_before, typed]: [&PrintedWater; 2],
) -> Result<(), (usize, Misprint)> {
    let (earlier, time) = (typed_before.time.clone(), typed.time.clone());
    if turn.at <= before.at {
        return Err((0, Misprint::OutOfOrder { before: earlier, time }));
    }
    if turn.at.duration_since(before.at) > LONGEST {
        return Err((0, Misprint::Gap { before: earlier, time }));
    }
    let water = turn.water;
    if water == before.water {
        return Err((2, Misprint::NotByTurns { water, time }));
    }
    if (turn.height > before.height) != (water == Water::High) || turn.height == before.height {
        let (height, before) = (typed.height_m, typed_before.height_m);
        return Err((1, Misprint::HighBelowLow { water, time, height, before }));
    }
    Ok(())
}

impl Means {
    /// The mean ranges.
    pub(crate) fn ranges(&self) -> Result<MeanRanges, RangesError> {
        let metres = |metres| Length::from_metres(metres).unwrap_or(Length::ZERO);
        MeanRanges::new(metres(self.springs_m), metres(self.neaps_m))
    }
}

/// `("2026-06-14T03:27", 4.4)` or `("2026-06-14T03:27", 4.4, High)`.
impl<'de> Deserialize<'de> for PrintedWater {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<PrintedWater, D::Error> {
        struct Line;

        #[derive(Deserialize)]
        enum Kind {
            High,
            Low,
        }

        impl<'de> Visitor<'de> for Line {
            type Value = PrintedWater;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a time and a height, (\"2026-06-14T03:27\", 4.4)")
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<PrintedWater, A::Error> {
                let time: Option<String> = seq.next_element()?;
                let time = time.ok_or_else(|| A::Error::invalid_length(0, &self))?;
                let height: Option<f64> = seq.next_element()?;
                let height_m = height.ok_or_else(|| A::Error::invalid_length(1, &self))?;
                let water = seq.next_element::<Kind>()?.map(|kind| match kind {
                    Kind::High => Water::High,
                    Kind::Low => Water::Low,
                });
                Ok(PrintedWater { time: clean(&time, NAME), height_m, water })
            }
        }

        from.deserialize_tuple(3, Line)
    }
}

#[cfg(test)]
mod tests;
