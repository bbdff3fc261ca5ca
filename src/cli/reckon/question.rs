//! What can be reckoned: each with the columns that it reads and those that it appends.

use nav::geodesic;
use nav::magnetic::{DecimalYear, EllipsoidHeight, Field, FieldModel, FieldWarning};
use nav::{
    Accuracy, Bearing, Figures, Grid, GridPoint, Latitude, Length, Longitude, Position, True, rhumb,
};

use super::fix;
use super::sea;
use super::table::{Fault, Row};
use super::water::{self, TideAt};

/// One answer.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Answer {
    Number(f64),
    Text(String),
    /// There is none, and that is the answer.
    Empty,
}

/// The answers to one row, and what must be said of them.
#[derive(Debug, Default)]
pub(crate) struct Answers {
    pub(crate) cells: Vec<Answer>,
    pub(crate) remarks: Vec<String>,
}

impl Answers {
    pub(super) fn numbers<const N: usize>(&mut self, numbers: [f64; N]) {
        self.cells.extend(numbers.map(Answer::Number));
    }
}

/// A question that is put to each row.
#[derive(Debug)]
pub(crate) enum Question {
    Inverse,
    Direct,
    Rhumb,
    ToGrid(Grid),
    FromGrid(Grid),
    FromReference(Grid),
    Variation,
    Sun,
    Heading,
    MadeGood,
    /// By so many marks.
    Fix(usize),
    Waves,
    Horizon,
    Tide(Box<TideAt>),
}

impl Question {
    /// The columns read.
    pub(crate) const fn reads(&self) -> &'static [&'static str] {
        match self {
            Question::Inverse | Question::Rhumb => &["lat1", "lon1", "lat2", "lon2"],
            Question::Direct => &["lat1", "lon1", "bearing_deg", "distance_m"],
            Question::ToGrid(_) => &["lat", "lon"],
            Question::FromGrid(_) => &["easting_m", "northing_m"],
            Question::FromReference(_) => &["reference"],
            Question::Variation => &["lat", "lon", "height_km", "year"],
            Question::Sun => &["lat", "lon", "date"],
            Question::Heading => &["track_deg", "speed_kn", "set_deg", "drift_kn"],
            Question::MadeGood => &["heading_deg", "speed_kn", "set_deg", "drift_kn"],
            Question::Fix(marks) => fix::reads(*marks),
            Question::Waves => &["wind_ms", "fetch_m", "depth_m", "hours"],
            Question::Horizon => &["eye_m", "target_m"],
            Question::Tide(_) => &["time"],
        }
    }

    /// The same, for a reader.
    pub(crate) fn needs(&self) -> String {
        match self {
            Question::FromGrid(_) => "easting_m and northing_m, or reference".to_owned(),
            _ => self.reads().join(", "),
        }
    }

    /// The columns appended.
    pub(crate) const fn appends(&self) -> &'static [&'static str] {
        match self {
            Question::Inverse => &["distance_m", "bearing1_deg", "bearing2_deg"],
            Question::Direct => &["lat2", "lon2", "bearing2_deg"],
            Question::Rhumb => &["distance_m", "bearing_deg"],
            Question::ToGrid(_) => {
                &["easting_m", "northing_m", "convergence_deg", "scale", "reference"]
            }
            Question::FromGrid(_) | Question::FromReference(_) => &["lat", "lon"],
            Question::Variation => &[
                "variation_deg",
                "dip_deg",
                "horizontal_nt",
                "north_nt",
                "east_nt",
                "down_nt",
                "total_nt",
                "variation_per_year_deg",
                "variation_error_deg",
            ],
            Question::Sun => &["dawn_utc", "rise_utc", "noon_utc", "set_utc", "dusk_utc", "state"],
            Question::Heading => &["heading_deg", "ground_speed_kn", "state"],
            Question::MadeGood => &["track_deg", "ground_speed_kn"],
            Question::Fix(_) => &["lat", "lon", "error_m"],
            Question::Waves => &["height_m", "period_s"],
            Question::Horizon => &["distance_nm"],
            Question::Tide(_) => &["height_m"],
        }
    }

    /// Answers one row.
    pub(crate) fn answer(&self, row: &Row<'_>, answers: &mut Answers) -> Result<(), Fault> {
        match self {
            Question::Inverse => {
                let line = geodesic::inverse(position(row, 0)?, position(row, 2)?);
                let (start, end) = (line.bearing_at_start, line.bearing_at_end);
                answers.numbers([line.distance.as_metres(), start.as_degrees(), end.as_degrees()]);
            }
            Question::Direct => {
                let (bearing, distance) = (bearing(row, 2)?, distance(row, 3)?);
                let end = geodesic::direct(position(row, 0)?, bearing, distance);
                answers.numbers(degrees(end.position));
                answers.numbers([end.bearing_at_end.as_degrees()]);
            }
            Question::Rhumb => {
                let line = rhumb::inverse(position(row, 0)?, position(row, 2)?);
                answers.numbers([line.distance.as_metres(), line.bearing.as_degrees()]);
            }
            Question::ToGrid(grid) => to_grid(grid, row, answers)?,
            Question::FromGrid(grid) => {
                let easting = row.number(0)?;
                let point = row.value(1, |northing| GridPoint::from_metres(easting, northing))?;
                from_grid(grid, point, row, answers).map_err(|fault| northing_if(point, fault))?;
            }
            Question::FromReference(grid) => {
                let found = grid
                    .find(&row.text(0)?, None)
                    .or_else(|error| row.fault(0, error.to_string()))?;
                from_grid(&found.grid, found.square.centre(), row, answers)?;
            }
            Question::Variation => {
                let height = row.value(2, EllipsoidHeight::from_kilometres)?;
                let year = row.value(3, DecimalYear::new)?;
                variation(&FieldModel::wmm2025().at(position(row, 0)?, height, year), answers);
            }
            Question::Sun => water::sun(row, answers)?,
            Question::Heading => water::heading(row, answers)?,
            Question::MadeGood => water::made_good(row, answers)?,
            Question::Fix(marks) => fix::answer(*marks, row, answers)?,
            Question::Waves => sea::waves(row, answers)?,
            Question::Horizon => sea::horizon(row, answers)?,
            Question::Tide(tide) => tide.answer(row, answers)?,
        }
        Ok(())
    }
}

/// The position in the columns read as number `read` and the one after; a longitude may have
/// whole turns in it.
pub(super) fn position(row: &Row<'_>, read: usize) -> Result<Position, Fault> {
    let lat = row.value(read, Latitude::from_degrees)?;
    turns(row, read + 1)?;
    let lon = row.value(read + 1, Longitude::wrapping)?;
    Ok(Position::new(lat, lon))
}

/// The bearing in a column, which may have whole turns in it.
pub(super) fn bearing(row: &Row<'_>, read: usize) -> Result<Bearing<True>, Fault> {
    turns(row, read)?;
    row.value(read, Bearing::from_degrees)
}

/// How many degrees an angle may have: of one with more turns in it little is left but how it was rounded.
const MOST_DEGREES: f64 = 360_000.0;

fn turns(row: &Row<'_>, read: usize) -> Result<(), Fault> {
    let degrees = row.number(read)?;
    if degrees.abs() <= MOST_DEGREES {
        return Ok(());
    }
    let (name, _) = row.columns.read[read];
    row.fault(read, format!("{name} {degrees:e} is not within -360,000 to 360,000 degrees"))
}

/// How long a line may be, in metres: its end is known to a millimetre after so many times round the Earth.
const MOST_METRES: f64 = 1e12;

fn distance(row: &Row<'_>, read: usize) -> Result<Length, Fault> {
    let metres = row.number(read)?;
    if metres.abs() > MOST_METRES {
        let (name, _) = row.columns.read[read];
        let what = format!("{name} {metres:e} is not within -1e12 to 1e12 metres");
        return row.fault(read, what);
    }
    row.value(read, Length::from_metres)
}

/// A grid point that is nowhere for its northing is so by the northing's column, whatever the grid says of it.
fn northing_if(point: GridPoint, fault: Fault) -> Fault {
    const MOST: f64 = 20_100_000.0;
    let (easting, northing) = (point.easting.as_metres(), point.northing.as_metres());
    if easting.abs() > MOST || northing.abs() <= MOST {
        return fault;
    }
    Fault { read: 1, what: format!("northing_m {northing} is not within ±20,100,000 metres") }
}

pub(super) fn degrees(position: Position) -> [f64; 2] {
    [position.lat.as_degrees(), position.lon.as_degrees()]
}

fn to_grid(grid: &Grid, row: &Row<'_>, answers: &mut Answers) -> Result<(), Fault> {
    let place = position(row, 0)?;
    let plane = grid.at(place);
    let on = plane.forward(place).or_else(|error| row.fault(0, error.to_string()))?;
    let reference =
        plane.reference(on.point, Figures::Ten).or_else(|error| row.fault(0, error.to_string()))?;
    answers.numbers([
        on.point.easting.as_metres(),
        on.point.northing.as_metres(),
        on.convergence.as_degrees_east(),
        on.scale,
    ]);
    answers.cells.push(Answer::Text(reference));
    remark_on(on.accuracy, answers);
    Ok(())
}

fn from_grid(
    grid: &Grid,
    point: GridPoint,
    row: &Row<'_>,
    answers: &mut Answers,
) -> Result<(), Fault> {
    let from = grid.inverse(point).or_else(|error| row.fault(0, error.to_string()))?;
    answers.numbers(degrees(from.position));
    remark_on(from.accuracy, answers);
    Ok(())
}

/// What is not exact says so.
fn remark_on(accuracy: Accuracy, answers: &mut Answers) {
    if matches!(accuracy, Accuracy::SevenParameter { .. }) {
        answers.remarks.push(format!("good {accuracy}"));
    }
}

fn variation(field: &Field, answers: &mut Answers) {
    answers.numbers([
        field.variation.as_degrees_east(),
        field.dip.as_degrees(),
        field.horizontal.as_nanotesla(),
        field.north.as_nanotesla(),
        field.east.as_nanotesla(),
        field.down.as_nanotesla(),
        field.total.as_nanotesla(),
        field.rates.variation.0.as_degrees_east(),
        field.variation_error.as_degrees(),
    ]);
    let remark = |warning: FieldWarning| match warning {
        FieldWarning::Year(_) => {
            "Outside the magnetic model's years, 2025.0 to 2030.0: extrapolated."
        }
        FieldWarning::Height(_) => "Outside the magnetic model's heights, -1 km to 850 km.",
        FieldWarning::Caution(_) => {
            "Caution zone, horizontal field under 6000 nT: a compass is inaccurate."
        }
        FieldWarning::Blackout(_) => {
            "Blackout zone, horizontal field under 2000 nT: no compass is to be relied on."
        }
    };
    answers.remarks.extend(field.warnings().into_iter().map(|warning| remark(warning).to_owned()));
}
