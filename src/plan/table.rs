//! The rows of the legs table as text: the one place that the screen, the command line and later
//! the card take them from, so that all print the same.

use jiff::SignedDuration;
use nav::text::{self, AngleForm, AngleStyle};
use nav::{Bearing, Figures, Grid, North};

use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

use crate::reckon::{PointReading, Reckoning};
use crate::{LegReading, Route};

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
        LegRow {
            number: (index + 1).to_string(),
            departs: departs.unwrap_or_default(),
            to,
            ..leg_row(leg)
        }
    })
    .collect()
}

/// The readings of any leg, also the one under the pencil: bearings, distance and time.
pub fn leg_row(leg: &LegReading) -> LegRow {
    LegRow {
        from_true: bearing(leg.bearings.map(|b| b.from_true)),
        from_magnetic: bearing(leg.bearings.and_then(|b| b.from_magnetic)),
        from_grid: bearing(leg.bearings.and_then(|b| b.from_grid)),
        back_true: bearing(leg.bearings.map(|b| b.back().from_true)),
        back_magnetic: bearing(leg.bearings.and_then(|b| b.back().from_magnetic)),
        back_grid: bearing(leg.bearings.and_then(|b| b.back().from_grid)),
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
    let at = reading.on_grid.as_ref().ok();
    let reference = at.and_then(|at| grid.reference(at.point, style.figures).ok());
    PointRow {
        reference: reference.unwrap_or_default(),
        position: text::position(reading.at, style.angles),
        stop: stay(reading.stop),
        elapsed: duration(reading.elapsed),
        clock: reading.arrives.as_ref().map(text::clock).unwrap_or_default(),
        ..PointRow::default()
    }
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
mod tests {
    use super::*;
    use crate::reckon;

    #[test]
    fn text_is_cut_to_the_columns_that_it_takes() {
        for (text, columns, fits) in [
            ("Skerry", 6, "Skerry"),
            ("Skerry", 5, "Sker…"),
            ("礁礁礁", 5, "礁礁…"),
            ("礁礁礁", 4, "礁…"),
            ("e\u{301}e\u{301}", 1, "…"),
            ("Skerry", 0, ""),
        ] {
            assert_eq!(fitted(text, columns), fits);
        }
    }

    #[test]
    fn every_figure_of_a_leg_is_in_its_row() {
        let text = r#"(version: 1, chart: "C", pace: "3 kn", departure: "2026-06-14T09:30[-02:00]", points: [
            (name: "Slip", lat: 57.0, lon: -3.0), (lat: 57.05, lon: -3.0, stop_min: 20),
            (name: "Bay", lat: 57.05, lon: -3.0, stop_min: 60)])"#;
        let route = crate::format::read(text).unwrap();
        let grid = Grid::parse("UTM:30N").unwrap();
        let reckoning = reckon(&route, &grid);
        let [first, second] = &legs(&route, &reckoning, &grid, Style::default())[..] else {
            panic!("two legs")
        };
        let shown =
            [format!("{first:#?}"), format!("{second:#?}"), format!("{:#?}", total(&reckoning))];
        let shown = shown.join("\n").replace(['"', ','], "");
        insta::assert_snapshot!(shown, @r"
        LegRow {
            number: 1
            from_true: 000°T
            from_magnetic: 000°M
            from_grid: 000°G
            back_true: 180°T
            back_magnetic: 180°M
            back_grid: 180°G
            nautical_miles: 3.0 NM
            kilometres: 5.6 km
            time: 1 h 00
            departs: 09:30
            to: PointRow {
                number: 2
                name: 
                reference: 30V WJ 000 229
                position: 57°03.00′N  003°00.00′W
                stop: 20 min
                elapsed: 1 h 00
                clock: 10:30
            }
        }
        LegRow {
            number: 2
            from_true: 
            from_magnetic: 
            from_grid: 
            back_true: 
            back_magnetic: 
            back_grid: 
            nautical_miles: 0.0 NM
            kilometres: 0 m
            time: 0 min
            departs: 10:50
            to: PointRow {
                number: 3
                name: Bay
                reference: 30V WJ 000 229
                position: 57°03.00′N  003°00.00′W
                stop: 
                elapsed: 1 h 20
                clock: 10:50
            }
        }
        TotalRow {
            nautical_miles: 3.0 NM
            kilometres: 5.6 km
            under_way: 1 h 00
            stops: 20 min
            elapsed: 1 h 20
            clock: 10:50
        }
        ");
    }
}
