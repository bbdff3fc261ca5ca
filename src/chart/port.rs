//! Port files: what a port's tide is told from, as RON text: its constants, or a printed table.
//!
//! ```ron
//! (
//!     version: 1,
//!     name: "Hollow Harbour",
//!     datum: "chart datum",
//!     mean_level_m: 2.31,
//!     ahead_of_utc_h: 0,
//!     node_factors: MidYear,
//!     source: "invented",
//!     years: (1998, 2004),
//!     constituents: [
//!         ("M2", 1.32, 161.5),
//!         ("S2", 0.44, 203.0),
//!     ],
//! )
//! ```
//!
//! A constituent is its name, its amplitude in metres and its phase in degrees on Greenwich, as
//! printed for clocks `ahead_of_utc_h` hours ahead of UTC. `mean_level_m` is metres above `datum`,
//! and so are the heights that come out. `node_factors` are `MidYear`, which is the agencies'
//! practice and what is meant when the field is left out, or `Daily`.
//!
//! In place of the constituents, and of the three fields that belong to them, may stand the high and
//! low waters of a printed table, outside whose time nothing is told:
//!
//! ```ron
//! (
//!     version: 1,
//!     name: "Hollow Harbour",
//!     datum: "chart datum",
//!     zone: "Europe/Oslo",
//!     means: (springs_m: 3.5, neaps_m: 1.8),
//!     source: "the harbour office's tables",
//!     years: (2026, 2026),
//!     waters: [
//!         ("2026-06-14T03:27", 4.4),
//!         ("2026-06-14T09:28", 0.8),
//!         ("2026-06-14T15:47", 4.5),
//!     ],
//! )
//! ```
//!
//! A line is a time in ISO 8601 on the clock of `zone`, or with its own offset from UTC, and a height
//! in metres; see [`printed`](mod@crate::printed). `means` are the mean ranges at springs and at neaps, if the
//! table states them.
//!
//! `source` says where the figures come from, `years` the first and the last year that they are of,
//! and `seasonal_m` what the middle of each of the twelve months adds to mean level; all three may be left
//! out. Unknown fields are refused.

use jiff::SignedDuration;
use jiff::tz::TimeZone;
use nav::tide::{Constituent, Harmonic, Height, MeanRanges, NodalFactors, PhaseLag, Port, Printed};
use nav::{Length, OutOfRange};
use serde::{Deserialize, Deserializer};

use crate::check::{check_months, check_years};
use crate::clean::{NOTE, clean};
use crate::format::fields::{name, note, some};
use crate::format::{Step, line_and_column};
use crate::printed::{self, Means, PrintedWater};

/// The version that is read.
pub const VERSION: u32 = 1;

/// The size, in bytes, above which a port file is not read.
pub const MOST_BYTES: u64 = 1 << 20;

/// What a port file holds.
#[derive(Debug, Clone, PartialEq)]
pub struct PortFile {
    /// The port's name.
    pub name: String,
    /// What its tide is told from.
    pub tide: FileTide,
    /// What its heights are above.
    pub datum: String,
    /// Where its constants or its table came from; may be empty.
    pub source: String,
    /// The first and the last year that they are of, if that is stated.
    pub years: Option<(i16, i16)>,
    /// What the middle of each month adds to mean level, in metres; empty if that is not stated.
    pub seasonal_m: Vec<f64>,
}

/// What the tide of a port file is told from.
#[derive(Debug, Clone, PartialEq)]
pub enum FileTide {
    /// Constants.
    Constants(Port),
    /// A printed table.
    Printed {
        /// Its high and low waters.
        table: Printed,
        /// Its mean ranges, if they are stated.
        ranges: Option<MeanRanges>,
        /// The zone whose clock its times are on, if it is stated.
        zone: Option<TimeZone>,
    },
}

/// Why a text is not a port file, and where in it; lines and columns are counted in characters from 1.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{line}:{column}: {why}")]
pub struct PortFileError {
    /// The line.
    pub line: usize,
    /// The column.
    pub column: usize,
    /// What is wrong; what would be right.
    pub why: String,
}

/// The port that a text holds.
///
/// # Errors
/// [`PortFileError`] at the first thing that is wrong.
///
/// ```
/// let text = r#"(version: 1, name: "Skarv", datum: "chart datum", mean_level_m: 2.0,
///     constituents: [("M2", 1.3, 161.5)])"#;
/// let file = chart::port::read(text).unwrap();
/// assert_eq!(file.name, "Skarv");
/// let error = chart::port::read(&text.replace("M2", "M99")).unwrap_err();
/// assert!(error.to_string().starts_with("2:26: no constituent is called \"M99\""));
/// ```
pub fn read(text: &str) -> Result<PortFile, PortFileError> {
    let file: File = ron::from_str(text).map_err(|error| PortFileError {
        line: error.span.end.line,
        column: error.span.end.col,
        why: clean(&error.code.to_string(), NOTE),
    })?;
    file.port().map_err(|(way, why)| {
        let (line, column) = line_and_column(text, &way);
        PortFileError { line, column, why }
    })
}

#[derive(Deserialize)]
#[serde(rename = "Port", deny_unknown_fields)]
struct File {
    #[serde(deserialize_with = "version")]
    #[allow(dead_code, reason = "read for its check alone")]
    version: u32,
    #[serde(deserialize_with = "name")]
    name: String,
    #[serde(deserialize_with = "note")]
    datum: String,
    #[serde(default, deserialize_with = "some")]
    mean_level_m: Option<f64>,
    #[serde(default, deserialize_with = "some")]
    ahead_of_utc_h: Option<f64>,
    #[serde(default, deserialize_with = "some")]
    node_factors: Option<Factors>,
    #[serde(default, deserialize_with = "note")]
    source: String,
    #[serde(default, deserialize_with = "some")]
    years: Option<(i16, i16)>,
    #[serde(default)]
    seasonal_m: Vec<f64>,
    #[serde(default, deserialize_with = "some")]
    constituents: Option<Vec<Line>>,
    #[serde(default, deserialize_with = "name")]
    zone: String,
    #[serde(default, deserialize_with = "some")]
    means: Option<Means>,
    #[serde(default, deserialize_with = "some")]
    waters: Option<Vec<PrintedWater>>,
}

#[derive(Deserialize, Clone, Copy)]
enum Factors {
    MidYear,
    Daily,
}

/// A constituent's line.
#[derive(Deserialize)]
struct Line(#[serde(deserialize_with = "constituent")] Constituent, f64, f64);

fn version<'de, D: Deserializer<'de>>(from: D) -> Result<u32, D::Error> {
    match u32::deserialize(from)? {
        VERSION => Ok(VERSION),
        found => Err(serde::de::Error::custom(format!(
            "version {found} of the port format; this program reads version {VERSION}"
        ))),
    }
}

fn constituent<'de, D: Deserializer<'de>>(from: D) -> Result<Constituent, D::Error> {
    let name = clean(&String::deserialize(from)?, 20);
    Constituent::named(&name).map_err(serde::de::Error::custom)
}

/// What is wrong, and the way to it.
type Fault = (Vec<Step>, String);

fn at_field(field: &'static str, error: impl ToString) -> Fault {
    (vec![Step::Field(field)], error.to_string())
}

impl File {
    fn port(self) -> Result<PortFile, Fault> {
        let tide = match (&self.constituents, &self.waters) {
            (Some(lines), None) => FileTide::Constants(self.constants(lines)?),
            (None, Some(waters)) => self.printed(waters)?,
            (Some(_), Some(_)) => {
                let why = "a port file has constituents or the waters of a table, not both";
                return Err(at_field("waters", why));
            }
            (None, None) => {
                let why = "the port has neither constituents nor the waters of a table; give one of \
                           them";
                return Err((Vec::new(), why.to_owned()));
            }
        };
        if let Some((first, last)) = self.years {
            check_years(first, last).map_err(|error| at_field("years", error))?;
        }
        check_months(&self.seasonal_m).map_err(|error| at_field("seasonal_m", error))?;
        let File { name, datum, source, years, seasonal_m, .. } = self;
        Ok(PortFile { name, tide, datum, source, years, seasonal_m })
    }

    fn constants(&self, lines: &[Line]) -> Result<Port, Fault> {
        const CLOCKS: std::ops::RangeInclusive<f64> = -14.0..=14.0;
        let others = [("zone", !self.zone.is_empty()), ("means", self.means.is_some())];
        self.none_of(others, "a printed table")?;
        let ahead = self.ahead_of_utc_h.unwrap_or(0.0);
        if !CLOCKS.contains(&ahead) {
            let why = format!("ahead_of_utc_h {ahead} is not within -14 to 14 hours");
            return Err(at_field("ahead_of_utc_h", why));
        }
        let ahead = SignedDuration::from_secs((ahead * 3600.0).round() as i64);
        let harmonic = |(index, line): (usize, &Line)| {
            let way = || vec![Step::Field("constituents"), Step::Element(index)];
            line.harmonic(ahead).map_err(|error| (way(), error.to_string()))
        };
        let harmonics = lines.iter().enumerate().map(harmonic).collect::<Result<_, Fault>>()?;
        let level = self.mean_level_m.ok_or_else(|| {
            let why = "a port of constituents needs mean_level_m, its mean level above datum";
            (Vec::new(), why.to_owned())
        })?;
        let level = Length::from_metres(level).map_err(|error| at_field("mean_level_m", error))?;
        let port = Port::new(self.name.as_str(), Height::above_datum(level), harmonics)
            .map_err(|error| at_field("constituents", error))?;
        Ok(port.with_nodal_factors(match self.node_factors {
            Some(Factors::Daily) => NodalFactors::Daily,
            Some(Factors::MidYear) | None => NodalFactors::MidYear,
        }))
    }

    fn printed(&self, waters: &[PrintedWater]) -> Result<FileTide, Fault> {
        let others = [
            ("mean_level_m", self.mean_level_m.is_some()),
            ("ahead_of_utc_h", self.ahead_of_utc_h.is_some()),
            ("node_factors", self.node_factors.is_some()),
        ];
        self.none_of(others, "constituents")?;
        let ranges = self.means.as_ref().map(Means::ranges).transpose();
        let ranges = ranges.map_err(|error| at_field("means", error))?;
        let said = |(way, misprint): printed::Found| (way, misprint.to_string());
        let table = printed::table(&self.zone, waters).map_err(said)?;
        let zone = printed::zone(&self.zone).map_err(said)?;
        Ok(FileTide::Printed { table, ranges, zone })
    }

    /// Holds that no field stands there which belongs to another kind of tide.
    fn none_of<const N: usize>(
        &self,
        fields: [(&'static str, bool); N],
        belongs: &str,
    ) -> Result<(), Fault> {
        match fields.into_iter().find(|(_, given)| *given) {
            None => Ok(()),
            Some((field, _)) => {
                let why =
                    format!("{field} belongs to {belongs}, which this port has not; leave it out");
                Err(at_field(field, why))
            }
        }
    }
}

impl Line {
    fn harmonic(&self, ahead: SignedDuration) -> Result<Harmonic, OutOfRange> {
        let &Line(constituent, amplitude, phase) = self;
        Ok(Harmonic {
            constituent,
            amplitude: Length::from_metres(amplitude)?,
            phase: PhaseLag::in_zone(phase, constituent, ahead)?,
        })
    }
}

#[cfg(test)]
mod tests;
