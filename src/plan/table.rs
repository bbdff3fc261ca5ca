//! The rows of the legs table as text: the one place that the screen, the command line and later
//! the card take them from, so that all print the same.

mod along;
mod passage;

pub use along::{AlongRow, StretchRow};
pub use passage::{
    PassageRow, PassageTotalRow, knots, mostly, off_line, passage, passage_total, set_and_drift,
};

use jiff::SignedDuration;
use nav::text::{self, AngleForm, AngleStyle};
use nav::{Bearing, Figures, Grid, GridError, North, OnGrid};

use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

use crate::reckon::{PointReading, Reckoning};
use crate::{Bearings, LegReading, Route};

/// How references and positions are written.
#[derive(Debug, Clone, Copy)]
pub struct Style {
    /// How fine the grid references are.
    pub figures: Figures,
    /// How latitude and longitude are written.
    pub angles: AngleStyle,
}

impl Style {
    /// References of so many figures, and angles of this form about as fine. The last digit of a
    /// latitude comes to 11, 19 and 31 m in the three forms, beside ten figures to 1, 2 and 3 m.
    pub fn new(figures: Figures, form: AngleForm) -> Style {
        let finer = u8::from(figures > Figures::Eight);
        let decimals = match form {
            AngleForm::Degrees => 4,
            AngleForm::DegreesMinutes => 2,
            AngleForm::DegreesMinutesSeconds => 0,
        };
        Style { figures, angles: AngleStyle::new(form, decimals + finer) }
    }
}

/// Six figures, degrees and minutes, as on a card.
impl Default for Style {
    fn default() -> Style {
        Style::new(Figures::Six, AngleForm::default())
    }
}

/// A point of the route in words. What is not known is empty.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PointRow {
    /// Its number, from one.
    pub number: String,
    /// Its name, or empty.
    pub name: String,
    /// `QB 731 508`.
    pub reference: String,
    /// `57°09.30′N  002°04.80′W`.
    pub position: String,
    /// `20 min`, empty where the group does not stay.
    pub stop: String,
    /// From the start, `1 h 25`.
    pub elapsed: String,
    /// `14:05`; at the first point the departure.
    pub clock: String,
}

/// A leg of the route in words. What is not known is empty.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct LegRow {
    /// Its number, from one: it ends at the point of the next number.
    pub number: String,
    /// `057°T`.
    pub from_true: String,
    /// `066°M`.
    pub from_magnetic: String,
    /// `055°G`.
    pub from_grid: String,
    /// `237°T`.
    pub back_true: String,
    /// `246°M`.
    pub back_magnetic: String,
    /// `235°G`.
    pub back_grid: String,
    /// `2.0 NM`.
    pub nautical_miles: String,
    /// `3.7 km`.
    pub kilometres: String,
    /// `40 min`.
    pub time: String,
    /// When the group sets out on it, after the stop.
    pub departs: String,
    /// The point that it ends at.
    pub to: PointRow,
    /// A leg along the shore in words. Such a leg has no bearings of its own; its stretches have.
    pub along: Option<AlongRow>,
}

/// The route's sums in words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct TotalRow {
    /// `4.6 NM`.
    pub nautical_miles: String,
    /// `8.5 km`.
    pub kilometres: String,
    /// The time under way.
    pub under_way: String,
    /// The stops, empty where there are none.
    pub stops: String,
    /// The time from start to end.
    pub elapsed: String,
    /// When the group gets to the last point.
    pub clock: String,
}

/// The rows of the route's legs.
pub fn legs(route: &Route, reckoning: &Reckoning, grid: &Grid, style: Style) -> Vec<LegRow> {
    let points = points(route, reckoning, grid, style);
    let ends = points.into_iter().skip(1);
    let rows = reckoning.legs.iter().zip(ends).enumerate();
    rows.map(|(index, (leg, to))| {
        let departs = reckoning.departs(index).map(|moment| text::clock(&moment));
        let number = (index + 1).to_string();
        let along = route.points.get(index + 1).and_then(|end| end.along.as_ref());
        LegRow {
            along: along.and_then(|along| AlongRow::new(&number, along, leg, grid, style)),
            number,
            departs: departs.unwrap_or_default(),
            to,
            ..leg_row(leg)
        }
    })
    .collect()
}

/// The readings of any leg: bearings, distance and time.
fn leg_row(leg: &LegReading) -> LegRow {
    let [from_true, from_grid, from_magnetic] = bearings(leg.bearings);
    let [back_true, back_grid, back_magnetic] = bearings(leg.bearings.map(Bearings::back));
    LegRow {
        from_true,
        from_magnetic,
        from_grid,
        back_true,
        back_magnetic,
        back_grid,
        nautical_miles: text::nautical_miles(leg.distance),
        kilometres: text::kilometres(leg.distance),
        time: duration(leg.time),
        ..LegRow::default()
    }
}

/// The rows of the route's points.
pub fn points(route: &Route, reckoning: &Reckoning, grid: &Grid, style: Style) -> Vec<PointRow> {
    let points = route.points.iter().zip(&reckoning.points).enumerate();
    points
        .map(|(index, (waypoint, reading))| PointRow {
            number: (index + 1).to_string(),
            name: waypoint.name.clone(),
            ..point_row(reading, grid, style)
        })
        .collect()
}

fn point_row(reading: &PointReading, grid: &Grid, style: Style) -> PointRow {
    PointRow {
        reference: reference(&reading.on_grid, grid, style),
        position: text::position(reading.at, style.angles),
        stop: stay(reading.stop),
        elapsed: duration(reading.elapsed),
        clock: reading.arrives.as_ref().map(text::clock).unwrap_or_default(),
        ..PointRow::default()
    }
}

fn reference(at: &Result<OnGrid, GridError>, grid: &Grid, style: Style) -> String {
    let reference = at.as_ref().ok().and_then(|at| grid.reference(at.point, style.figures).ok());
    reference.unwrap_or_default()
}

/// The route's sums.
pub fn total(reckoning: &Reckoning) -> TotalRow {
    let end = reckoning.points.last().and_then(|point| point.arrives.as_ref());
    TotalRow {
        nautical_miles: text::nautical_miles(reckoning.distance),
        kilometres: text::kilometres(reckoning.distance),
        under_way: duration(reckoning.under_way),
        stops: stay(reckoning.stops),
        elapsed: duration(reckoning.elapsed),
        clock: end.map(text::clock).unwrap_or_default(),
    }
}

/// `text` in at most so many columns of a terminal, cut with `…` where it is longer.
pub fn fitted(text: &str, columns: usize) -> String {
    if text.width() <= columns {
        return text.to_owned();
    }
    let mut fitted = String::new();
    let mut width = 1;
    for cluster in text.graphemes(true) {
        width += cluster.width();
        if width > columns {
            break;
        }
        fitted.push_str(cluster);
    }
    if columns > 0 {
        fitted.push('…');
    }
    fitted
}

/// Bearings by true, grid and magnetic north.
fn bearings(bearings: Option<Bearings>) -> [String; 3] {
    [
        bearing(bearings.map(|b| b.from_true)),
        bearing(bearings.and_then(|b| b.from_grid)),
        bearing(bearings.and_then(|b| b.from_magnetic)),
    ]
}

fn bearing<N: North>(bearing: Option<Bearing<N>>) -> String {
    bearing.map(|bearing| bearing.to_string()).unwrap_or_default()
}

fn duration(time: Option<SignedDuration>) -> String {
    time.map(text::duration).unwrap_or_default()
}

fn stay(time: SignedDuration) -> String {
    if time.is_zero() { String::new() } else { text::duration(time) }
}

#[cfg(test)]
mod tests;
