//! How a leg runs, in a route file.

use std::fmt::Write;

use nav::{Latitude, Length, Longitude, Position};
use serde::Deserialize;
use serde::de::{Deserializer, Error as _};

use super::list::bounded_list;
use super::read::{by, latitude, longitude};
use crate::along::{bounded, within};
use crate::{Along, EditError, Line, Through};

/// Positions in a row: about a hundred characters.
const IN_A_ROW: usize = 3;

#[derive(Deserialize)]
#[serde(rename = "Along", deny_unknown_fields)]
pub(super) struct AlongFile {
    #[serde(default, deserialize_with = "stand_off")]
    stand_off_m: Length,
    #[serde(default, deserialize_with = "step")]
    step_m: Length,
    #[serde(default)]
    free_start: bool,
    #[serde(default)]
    free_end: bool,
    #[serde(default)]
    other_way: bool,
    #[serde(default, deserialize_with = "through")]
    through: Vec<Through>,
    #[serde(deserialize_with = "line")]
    line: Line,
}

#[derive(Deserialize)]
#[serde(rename = "Through", deny_unknown_fields)]
struct ThroughFile {
    #[serde(deserialize_with = "latitude")]
    lat: Latitude,
    #[serde(deserialize_with = "longitude")]
    lon: Longitude,
    #[serde(default)]
    free: bool,
    #[serde(default)]
    other_way: bool,
}

/// A vertex: (latitude, longitude).
#[derive(Deserialize)]
#[serde(rename = "position", expecting = "a position (latitude, longitude)")]
struct Vertex(
    #[serde(deserialize_with = "latitude")] Latitude,
    #[serde(deserialize_with = "longitude")] Longitude,
);

impl From<AlongFile> for Along {
    fn from(file: AlongFile) -> Along {
        Along {
            line: file.line,
            through: file.through,
            free_start: file.free_start,
            free_end: file.free_end,
            other_way: file.other_way,
            stand_off: file.stand_off_m,
            step: file.step_m,
        }
    }
}

pub(super) fn read<'de, D: Deserializer<'de>>(d: D) -> Result<Option<AlongFile>, D::Error> {
    AlongFile::deserialize(d).map(Some)
}

fn stand_off<'de, D: Deserializer<'de>>(d: D) -> Result<Length, D::Error> {
    length(d, "stand-off", Along::most_stand_off())
}

fn step<'de, D: Deserializer<'de>>(d: D) -> Result<Length, D::Error> {
    length(d, "step", Along::most_step())
}

fn length<'de, D: Deserializer<'de>>(
    d: D,
    what: &'static str,
    most: Length,
) -> Result<Length, D::Error> {
    by(d, |metres: f64| -> Result<Length, String> {
        let length = Length::from_metres(metres).map_err(|error| error.to_string())?;
        within(what, length, most).map_err(|error| error.to_string())?;
        Ok(length)
    })
}

fn through<'de, D: Deserializer<'de>>(d: D) -> Result<Vec<Through>, D::Error> {
    bounded_list(d, |before: &Vec<Through>, point: ThroughFile| {
        let ThroughFile { lat, lon, free, other_way } = point;
        bounded(Along::THROUGH, before.len() + 1, Along::MOST_THROUGH)?;
        let at = crate::rounded(Position::new(lat, lon));
        Ok::<_, EditError>(Through { at, free, other_way })
    })
}

fn line<'de, D: Deserializer<'de>>(d: D) -> Result<Line, D::Error> {
    let vertices = bounded_list(d, |before: &Vec<Position>, Vertex(lat, lon)| {
        bounded(Line::VERTICES, before.len() + 1, Line::MOST)?;
        Ok::<_, EditError>(Position::new(lat, lon))
    })?;
    Line::new(vertices).map_err(D::Error::custom)
}

/// The field of a point that says how its leg runs.
pub(super) fn written(along: &Along) -> String {
    const INDENT: &str = "            ";
    let mut text = format!("along: (\n{INDENT}");
    let _ = write!(text, "stand_off_m: {:?}, ", along.stand_off.as_metres());
    let _ = write!(text, "step_m: {:?},", along.step.as_metres());
    text.push_str(&said("free_start", along.free_start));
    text.push_str(&said("free_end", along.free_end));
    text.push_str(&said("other_way", along.other_way));
    if !along.through.is_empty() {
        let _ = writeln!(text, "\n{INDENT}through: [");
        for Through { at, free, other_way } in &along.through {
            let (free, way) = (said("free", *free), said("other_way", *other_way));
            let (lat, lon) = (at.lat.as_degrees(), at.lon.as_degrees());
            let flags = format!("{free}{way}");
            let flags = flags.trim_end_matches(',');
            let comma = if flags.is_empty() { "" } else { "," };
            let _ = writeln!(text, "{INDENT}    (lat: {lat:?}, lon: {lon:?}{comma}{flags}),");
        }
        let _ = write!(text, "{INDENT}],");
    }
    let _ = writeln!(text, "\n{INDENT}line: [");
    for row in along.line.chunks(IN_A_ROW) {
        let _ = writeln!(
            text,
            "{INDENT}    {},",
            row.iter().map(vertex).collect::<Vec<_>>().join(", ")
        );
    }
    let _ = write!(text, "{INDENT}],\n        )");
    text
}

/// ` name: true,`, or nothing where it is false.
fn said(name: &str, value: bool) -> String {
    if value { format!(" {name}: true,") } else { String::new() }
}

fn vertex(at: &Position) -> String {
    format!("({:?}, {:?})", at.lat.as_degrees(), at.lon.as_degrees())
}
