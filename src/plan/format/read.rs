//! A route from the text of a file.

use std::fmt::Display;

use jiff::SignedDuration;
use nav::magnetic::{DecimalYear, PerYear, PrintedVariation, VariationSource};
use nav::{Latitude, Longitude, Pace, PaceError, Position, Variation};
use ron::error::{Error as Ron, SpannedError};
use serde::Deserialize;
use serde::de::{Deserializer, Error as _};

use super::along::{self, AlongFile};
use super::limits::LimitsFile;
use super::list::bounded_list;
use super::words::{in_words, is_over};
use super::{VERSION, VERSION_STRAIGHT, kept, weather};
use crate::route::bounded_vertices;
use crate::{Departure, EditError, Kept, Route, Steering, Waypoint, Weather, written_pace};

/// What is wrong with a route file, and where.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{line}:{column}: {message}")]
pub struct FormatError {
    /// The line, from one.
    pub line: usize,
    /// The column in characters, from one.
    pub column: usize,
    /// What is wrong; what would be right.
    pub message: String,
}

/// The route that the text of a file describes, its names cleaned.
///
/// # Errors
/// [`FormatError`] when the text is not RON, is of another version, lacks a field, has one that
/// is not known, or has a value out of its bounds.
pub fn read(text: &str) -> Result<Route, FormatError> {
    ron::from_str::<RouteFile>(text).map(Route::from).map_err(|error| described(&error, text))
}

/// The point that one line of a route file describes, as [`super::write_point`] writes it, its name cleaned.
///
/// # Errors
/// As [`read`].
pub fn read_point(text: &str) -> Result<Waypoint, FormatError> {
    let read = |text| ron::from_str::<PointFile>(text).map(Waypoint::from);
    let point = read(text).map_err(|error| described(&error, text))?;
    let wrong = |error: EditError| FormatError { line: 1, column: 1, message: error.to_string() };
    point.check_steering().map_err(wrong)?;
    Ok(point)
}

#[derive(Deserialize)]
#[serde(rename = "Route", deny_unknown_fields)]
struct RouteFile {
    #[serde(rename = "version", deserialize_with = "version")]
    _version: (),
    #[serde(default, deserialize_with = "title")]
    title: String,
    #[serde(deserialize_with = "chart_title")]
    chart: String,
    #[serde(default, deserialize_with = "pace")]
    pace: Option<Pace>,
    #[serde(default, deserialize_with = "rest")]
    rest_min: SignedDuration,
    #[serde(default)]
    variation: VariationFile,
    #[serde(default, deserialize_with = "departure")]
    departure: Option<Departure>,
    #[serde(default, deserialize_with = "weather::read")]
    wind: Option<Weather>,
    #[serde(default)]
    limits: LimitsFile,
    #[serde(deserialize_with = "points")]
    points: Vec<Waypoint>,
}

#[derive(Deserialize, Default)]
#[serde(rename = "Variation", deny_unknown_fields)]
enum VariationFile {
    #[default]
    Model,
    Printed {
        #[serde(deserialize_with = "variation")]
        deg_east: Variation,
        #[serde(deserialize_with = "year")]
        year: DecimalYear,
        #[serde(default, deserialize_with = "per_year")]
        deg_east_per_year: PerYear<Variation>,
    },
}

#[derive(Deserialize)]
#[serde(rename = "Waypoint", deny_unknown_fields)]
struct PointFile {
    #[serde(default, deserialize_with = "name")]
    name: String,
    #[serde(deserialize_with = "latitude")]
    lat: Latitude,
    #[serde(deserialize_with = "longitude")]
    lon: Longitude,
    #[serde(default, deserialize_with = "stop")]
    stop_min: SignedDuration,
    #[serde(default, deserialize_with = "note")]
    note: String,
    #[serde(default, deserialize_with = "along::read")]
    along: Option<AlongFile>,
    #[serde(default)]
    steer: SteerFile,
    #[serde(default, deserialize_with = "kept::read")]
    kept: Option<Box<Kept>>,
}

#[derive(Deserialize, Default)]
#[serde(rename = "Steer")]
enum SteerFile {
    #[default]
    Line,
    OneHeading,
}

impl From<RouteFile> for Route {
    fn from(file: RouteFile) -> Route {
        let usual = Route::new(&file.chart);
        let pace = file.pace.unwrap_or(usual.pace);
        Route {
            title: file.title,
            points: file.points,
            // The rest was checked where it was read.
            pace: pace.with_rest_per_hour(file.rest_min).unwrap_or(pace),
            variation: file.variation.into(),
            departure: file.departure,
            wind: file.wind,
            limits: file.limits.into(),
            ..usual
        }
    }
}

impl From<VariationFile> for VariationSource {
    fn from(file: VariationFile) -> VariationSource {
        match file {
            VariationFile::Model => VariationSource::Model,
            VariationFile::Printed { deg_east, year, deg_east_per_year } => {
                VariationSource::Printed(PrintedVariation {
                    variation: deg_east,
                    year,
                    change_per_year: deg_east_per_year,
                })
            }
        }
    }
}

impl From<PointFile> for Waypoint {
    fn from(file: PointFile) -> Waypoint {
        Waypoint {
            name: file.name,
            stop: file.stop_min,
            note: file.note,
            along: file.along.map(Into::into),
            steer: match file.steer {
                SteerFile::Line => Steering::Line,
                SteerFile::OneHeading => Steering::OneHeading,
            },
            kept: file.kept,
            ..Waypoint::new(Position::new(file.lat, file.lon))
        }
    }
}

// Bounds are checked while a value is read, so that the error stands at its place in the file.

/// `value` read by `convert`, whose error becomes the file's.
pub(super) fn by<'de, D, T, U, E>(
    d: D,
    convert: impl FnOnce(T) -> Result<U, E>,
) -> Result<U, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
    E: Display,
{
    convert(T::deserialize(d)?).map_err(D::Error::custom)
}

fn version<'de, D: Deserializer<'de>>(d: D) -> Result<(), D::Error> {
    by(d, |version: u32| match version {
        VERSION_STRAIGHT..=VERSION => Ok(()),
        other => Err(format!(
            "version {other} is not known here; this program reads versions {VERSION_STRAIGHT} to {VERSION}"
        )),
    })
}

fn title<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    by(d, |text: String| crate::route::text("title", &text, Route::MOST_TITLE))
}

fn chart_title<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    by(d, |text: String| crate::route::text("chart's title", &text, Route::MOST_TITLE))
}

fn name<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    by(d, |text: String| crate::route::text("name", &text, Waypoint::MOST_NAME))
}

fn note<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    by(d, |text: String| crate::route::text("note", &text, Waypoint::MOST_NOTE))
}

pub(super) fn latitude<'de, D: Deserializer<'de>>(d: D) -> Result<Latitude, D::Error> {
    by(d, Latitude::from_degrees)
}

pub(super) fn longitude<'de, D: Deserializer<'de>>(d: D) -> Result<Longitude, D::Error> {
    by(d, Longitude::from_degrees)
}

fn stop<'de, D: Deserializer<'de>>(d: D) -> Result<SignedDuration, D::Error> {
    by(d, |minutes: i32| crate::route::stop(SignedDuration::from_mins(minutes.into())))
}

fn pace<'de, D: Deserializer<'de>>(d: D) -> Result<Option<Pace>, D::Error> {
    by(d, |text: String| -> Result<_, String> {
        let pace = text.parse().map_err(|error: PaceError| error.to_string())?;
        written_pace(pace).map(Some).map_err(|error| error.to_string())
    })
}

fn rest<'de, D: Deserializer<'de>>(d: D) -> Result<SignedDuration, D::Error> {
    by(d, |minutes: i32| {
        let rest = SignedDuration::from_mins(minutes.into());
        Route::new("").pace.with_rest_per_hour(rest).map(|_| rest)
    })
}

fn variation<'de, D: Deserializer<'de>>(d: D) -> Result<Variation, D::Error> {
    by(d, Variation::from_degrees_east)
}

fn year<'de, D: Deserializer<'de>>(d: D) -> Result<DecimalYear, D::Error> {
    by(d, DecimalYear::new)
}

fn per_year<'de, D: Deserializer<'de>>(d: D) -> Result<PerYear<Variation>, D::Error> {
    by(d, PerYear::from_degrees_east)
}

fn departure<'de, D: Deserializer<'de>>(d: D) -> Result<Option<Departure>, D::Error> {
    by(d, |text: String| text.parse().map(Some))
}

fn points<'de, D: Deserializer<'de>>(d: D) -> Result<Vec<Waypoint>, D::Error> {
    let mut vertices = 0;
    bounded_list(d, |points: &Vec<Waypoint>, point: PointFile| {
        let point = Waypoint::from(point);
        vertices += point.along.as_ref().map_or(0, |along| along.line.len());
        bounded_vertices(vertices)?;
        point.check_steering()?;
        match points.len() {
            0 => point.check_first()?,
            Route::MOST_POINTS.. => return Err(EditError::TooManyPoints),
            _ => {}
        }
        Ok(point)
    })
}

fn described(error: &SpannedError, text: &str) -> FormatError {
    let (line, column) = (error.span.start.line, error.span.start.col);
    let message = match &error.code {
        Ron::MissingStructField { field, outer } if !is_over(text, error.span.end.line) => {
            let of = outer.as_deref().unwrap_or("file").to_lowercase();
            format!("`{field}` is missing; every {of} has it")
        }
        _ => in_words(error, text, "route"),
    };
    FormatError { line, column, message }
}
