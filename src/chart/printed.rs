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
mod tests {
    use rstest::rstest;

    use super::*;

    fn lines(text: &str) -> Vec<PrintedWater> {
        ron::from_str(text).unwrap()
    }

    fn said(zone: &str, text: &str) -> (Vec<Step>, String) {
        let (way, misprint) = table(zone, &lines(text)).unwrap_err();
        (way, misprint.to_string())
    }

    const DAY: &str = r#"[
        ("2026-06-14T03:27", 4.4), ("2026-06-14T09:28", 0.8), ("2026-06-14T15:47", 4.5),
        ("2026-06-14T21:54", 0.6),
    ]"#;

    #[rstest]
    #[case(DAY)]
    #[case(&DAY.replacen("0.8)", "0.8, Low)", 1))]
    #[case(&DAY.replace("4.4)", "4.4, High)").replace("0.6)", "0.6, Low)"))]
    #[case(&DAY.replace('T', " "))]
    fn kinds_are_told_by_their_turns_or_stated(#[case] text: &str) {
        let table = table("UTC-2", &lines(text)).unwrap();
        let kinds: Vec<Water> = table.turns().iter().map(|turn| turn.water).collect();
        assert_eq!(kinds, [Water::High, Water::Low, Water::High, Water::Low]);
        let (from, to) = table.span();
        assert_eq!(from, "2026-06-14T05:27Z".parse().unwrap());
        assert_eq!(to, "2026-06-14T23:54Z".parse().unwrap());
    }

    #[rstest]
    #[case(
        "4.5",
        "0.7",
        2,
        1,
        "the high water of 0.7 m at 2026-06-14T15:47 does not fit the low \
         water of 0.8 m before it: high water stands above the low waters beside it"
    )]
    #[case("0.6", "4.9", 3, 1, "the low water of 4.9 m at 2026-06-14T21:54 does not fit the high")]
    #[case("T15:47", "T09:28", 2, 0, "2026-06-14T09:28 comes after 2026-06-14T09:28 in the table")]
    #[case("-14T21", "-16T21", 3, 0, "2026-06-16T21:54 is more than a day after 2026-06-14T15:47;")]
    #[case("4.5)", "4.5, Low)", 1, 1, "the high water of 0.8 m at 2026-06-14T09:28 does not fit")]
    #[case("2026-06-14T21", "2101-06-14T21", 3, 0, "2101-06-14T21:54 is not within the years 1900")]
    #[case("0.6", "60", 3, 1, "height 60 is out of range; -30 to 30 m are right")]
    #[case("0.6", "NaN", 3, 1, "height NaN is out of range")]
    #[case("T03:27", "T25:27", 0, 0, "\"2026-06-14T25:27\" is no time; write")]
    fn misprints_are_named(
        #[case] was: &str,
        #[case] is: &str,
        #[case] line: usize,
        #[case] part: usize,
        #[case] wanted: &str,
    ) {
        let (way, misprint) = said("UTC-2", &DAY.replacen(was, is, 1));
        assert!(misprint.starts_with(wanted), "{misprint}");
        assert_eq!(way, [Field("waters"), Element(line), Element(part)]);
    }

    #[test]
    fn two_of_a_kind_are_named() {
        let twice = DAY.replacen("4.4)", "4.4, High)", 1).replacen("0.8)", "0.8, High)", 1);
        let (way, misprint) = said("UTC", &twice);
        assert_eq!(way, [Field("waters"), Element(1), Element(2)]);
        assert_eq!(
            misprint,
            "a second high water in a row at 2026-06-14T09:28; high and low come by turns"
        );
    }

    #[test]
    fn a_table_needs_a_zone_or_offsets_and_two_lines() {
        let (way, misprint) = said("", DAY);
        assert_eq!(way, [Field("waters"), Element(0), Element(0)]);
        assert!(misprint.contains("no zone is stated; write 2026-06-14T03:27+01:00"), "{misprint}");
        let (way, misprint) = said("Nowhere", DAY);
        assert_eq!(way, [Field("zone")]);
        assert!(misprint.starts_with("\"Nowhere\" is no time zone;"), "{misprint}");
        for few in ["[]", "[(\"2026-06-14T03:27Z\", 4.4)]"] {
            assert!(said("", few).1.contains("at least two are needed"), "{few}");
        }
        // Clocks are put forward at one that morning.
        let spring = r#"[("2026-03-29T01:30", 4.4), ("2026-03-29T07:30", 1)]"#;
        assert!(said("Europe/London", spring).1.contains("does not exist in Europe/London"));
    }
}
