//! Port files: the constants from which a port's tide is predicted, as RON text.
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
//! practice and what is meant when the field is left out, or `Daily`; `source` and `ahead_of_utc_h`
//! may be left out too. Unknown fields are refused.

use jiff::SignedDuration;
use nav::tide::{Constituent, Harmonic, Height, NodalFactors, PhaseLag, Port};
use nav::{Length, OutOfRange};
use serde::{Deserialize, Deserializer};

use crate::clean::{NOTE, clean};
use crate::format::fields::{name, note};
use crate::format::{Step, line_and_column};

/// The version that is read.
pub const VERSION: u32 = 1;

/// The size, in bytes, above which a port file is not read.
pub const MOST_BYTES: u64 = 1 << 20;

/// What a port file holds.
#[derive(Debug, Clone, PartialEq)]
pub struct PortFile {
    /// The port, to be predicted from.
    pub port: Port,
    /// What its heights are above.
    pub datum: String,
    /// Where its constants came from; may be empty.
    pub source: String,
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
/// assert_eq!(file.port.name(), "Skarv");
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
    mean_level_m: f64,
    #[serde(default)]
    ahead_of_utc_h: f64,
    #[serde(default)]
    node_factors: Factors,
    #[serde(default, deserialize_with = "note")]
    source: String,
    constituents: Vec<Line>,
}

#[derive(Deserialize, Default)]
enum Factors {
    #[default]
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
        const CLOCKS: std::ops::RangeInclusive<f64> = -14.0..=14.0;
        if !CLOCKS.contains(&self.ahead_of_utc_h) {
            let why =
                format!("ahead_of_utc_h {} is not within -14 to 14 hours", self.ahead_of_utc_h);
            return Err(at_field("ahead_of_utc_h", why));
        }
        let ahead = SignedDuration::from_secs((self.ahead_of_utc_h * 3600.0).round() as i64);
        let lines = self.constituents.iter().enumerate();
        let harmonics = lines
            .map(|(index, line)| {
                let way = || vec![Step::Field("constituents"), Step::Element(index)];
                line.harmonic(ahead).map_err(|error| (way(), error.to_string()))
            })
            .collect::<Result<_, Fault>>()?;
        let mean_level = Length::from_metres(self.mean_level_m)
            .map_err(|error| at_field("mean_level_m", error))?;
        let port = Port::new(self.name, Height::above_datum(mean_level), harmonics)
            .map_err(|error| at_field("constituents", error))?;
        let factors = match self.node_factors {
            Factors::MidYear => NodalFactors::MidYear,
            Factors::Daily => NodalFactors::Daily,
        };
        let port = port.with_nodal_factors(factors);
        Ok(PortFile { port, datum: self.datum, source: self.source })
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
mod tests {
    use rstest::rstest;

    use super::*;

    const WHOLE: &str = r#"(
    version: 1,
    name: "Skarv",
    datum: "NAP",
    mean_level_m: 0.09,
    ahead_of_utc_h: 1,
    constituents: [
        ("M2", 0.78924, 85.75),
        ("S2", 0.19218, 147.27),
    ],
)"#;

    #[test]
    fn a_whole_one_is_read() {
        let PortFile { port, datum, source } = read(WHOLE).unwrap();
        assert_eq!((port.name(), datum.as_str(), source.as_str()), ("Skarv", "NAP", ""));
        assert_eq!(port.nodal_factors(), NodalFactors::MidYear);
        // An hour of S2 is 30 degrees.
        let s2 = port.harmonics()[1].phase.as_degrees();
        assert!((s2 - 117.27).abs() < 1e-9, "{s2}");
    }

    #[rstest]
    #[case(
        "version: 1",
        "version: 2",
        "2:15: version 2 of the port format; this program reads version 1"
    )]
    #[case("NAP", "NAP\", color: \"red", "4:24: Unexpected field named `color` in `Port`")]
    #[case(
        "\"M2\"",
        "\"MX2\"",
        "8:15: no constituent is called \"MX2\"; the names are those of the"
    )]
    #[case("\"S2\"", "\"M2\"", "7:19: the port \"Skarv\" has two lines for M2; one is needed")]
    #[case("0.78924", "-0.78924", "7:19: the amplitude of M2 at \"Skarv\", -0.78924 m, is not")]
    #[case("147.27", "inf", "9:9: phase in degrees inf is not within the finite numbers")]
    #[case("ahead_of_utc_h: 1", "ahead_of_utc_h: 20", "6:21: ahead_of_utc_h 20 is not within")]
    fn faults_are_named(#[case] was: &str, #[case] is: &str, #[case] said: &str) {
        let error = read(&WHOLE.replacen(was, is, 1)).unwrap_err().to_string();
        assert!(error.starts_with(said), "{error}");
    }

    #[test]
    fn a_port_needs_constituents() {
        let text = "(version: 1, name: \"Skarv\", datum: \"\", mean_level_m: 0, constituents: [])";
        let error = read(text).unwrap_err().to_string();
        assert_eq!(error, "1:71: the port \"Skarv\" has no constituents; at least one is needed");
    }
}
