//! A route's readings as JSON: full precision, and beside it the text that is printed of it.
//!
//! Names carry their unit: `distance_m`, `bearing_true_deg`, `elapsed_s`. What is not known is
//! `null`; in `text` it is empty. A leg `runs` straight, or along the shore: then it has no bearing of
//! its own, and `along` holds the rest. `passage` is the route through the stream, `null` where no
//! departure is set or the chart has no streams. Moments are RFC 9557, local time with offset and zone.

mod along;
mod passage;

use std::io::Write;

use jiff::SignedDuration;
use nav::magnetic::VariationSource;
use plan::Bearings;
use plan::table::{LegRow, PointRow, TotalRow};
use serde::Serialize;

use super::{Shown, runs};
use along::Along;
use passage::PassageOut;

#[derive(Serialize)]
struct Document<'a> {
    title: &'a str,
    chart: &'a str,
    invented: bool,
    grid: String,
    pace: String,
    pace_kn: f64,
    rest_min_per_hour: i64,
    departure: Option<String>,
    departure_assumed: bool,
    variation: &'static str,
    points: Vec<Point<'a>>,
    legs: Vec<Leg>,
    total: Total,
    passage: Option<PassageOut>,
    warnings: Vec<String>,
    caution: &'static str,
}

#[derive(Serialize)]
struct Point<'a> {
    number: usize,
    name: &'a str,
    note: &'a str,
    lat_deg: f64,
    lon_deg: f64,
    easting_m: Option<f64>,
    northing_m: Option<f64>,
    stop_s: f64,
    elapsed_s: Option<f64>,
    arrives: Option<String>,
    text: PointText,
}

#[derive(Serialize)]
struct PointText {
    reference: String,
    position: String,
    stop: String,
    elapsed: String,
    clock: String,
}

#[derive(Serialize)]
struct Leg {
    number: usize,
    runs: &'static str,
    distance_m: f64,
    bearing_true_deg: Option<f64>,
    bearing_grid_deg: Option<f64>,
    bearing_magnetic_deg: Option<f64>,
    convergence_deg: Option<f64>,
    variation_deg: Option<f64>,
    variation_error_deg: Option<f64>,
    geodesic_m: f64,
    time_s: Option<f64>,
    departs: Option<String>,
    arrives: Option<String>,
    along: Option<Along>,
    text: LegText,
}

#[derive(Serialize)]
struct LegText {
    from_true: String,
    from_grid: String,
    from_magnetic: String,
    back_true: String,
    back_grid: String,
    back_magnetic: String,
    nautical_miles: String,
    kilometres: String,
    time: String,
    departs: String,
    arrives: String,
}

#[derive(Serialize)]
struct Total {
    distance_m: f64,
    under_way_s: Option<f64>,
    stops_s: f64,
    elapsed_s: Option<f64>,
    text: TotalText,
}

#[derive(Serialize)]
struct TotalText {
    nautical_miles: String,
    kilometres: String,
    under_way: String,
    stops: String,
    elapsed: String,
    clock: String,
}

pub(super) fn write(shown: &Shown<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    serde_json::to_writer_pretty(&mut *to, &document(shown))?;
    writeln!(to)?;
    Ok(())
}

fn document<'a>(shown: &Shown<'a>) -> Document<'a> {
    let route = shown.route;
    Document {
        title: &route.title,
        chart: &route.chart,
        invented: shown.chart.invented,
        grid: shown.chart.grid.name(),
        pace: route.pace.to_string(),
        pace_kn: route.pace.speed().as_knots(),
        rest_min_per_hour: route.pace.rest_per_hour().as_mins(),
        departure: route.departure.as_ref().map(ToString::to_string),
        departure_assumed: shown.assumed,
        variation: match route.variation {
            VariationSource::Model => "model",
            VariationSource::Printed(_) => "printed",
        },
        points: points(shown),
        legs: legs(shown),
        total: total(shown),
        passage: shown.through.map(|through| PassageOut::of(through, route.limits.longest_wait)),
        warnings: shown.warnings(),
        caution: nav::text::CAUTION,
    }
}

fn points<'a>(shown: &Shown<'a>) -> Vec<Point<'a>> {
    let rows = plan::table::points(shown.route, shown.reckoning, &shown.chart.grid, shown.style);
    let points = shown.route.points.iter().zip(&shown.reckoning.points).zip(rows);
    points
        .enumerate()
        .map(|(index, ((waypoint, reading), row))| {
            let on_grid = reading.on_grid.as_ref().ok();
            Point {
                number: index + 1,
                name: &waypoint.name,
                note: &waypoint.note,
                lat_deg: reading.at.lat.as_degrees(),
                lon_deg: reading.at.lon.as_degrees(),
                easting_m: on_grid.map(|at| at.point.easting.as_metres()),
                northing_m: on_grid.map(|at| at.point.northing.as_metres()),
                stop_s: reading.stop.as_secs_f64(),
                elapsed_s: seconds(reading.elapsed),
                arrives: reading.arrives.as_ref().map(ToString::to_string),
                text: row.into(),
            }
        })
        .collect()
}

fn legs(shown: &Shown<'_>) -> Vec<Leg> {
    let Shown { route, chart, reckoning, style, .. } = *shown;
    let rows = plan::table::legs(route, reckoning, &chart.grid, style);
    let legs = reckoning.legs.iter().zip(rows).enumerate();
    legs.map(|(index, (leg, row))| {
        let [bearing_true_deg, bearing_grid_deg, bearing_magnetic_deg] = degrees(leg.bearings);
        let variation = leg.variation.as_ref();
        let end = reckoning.points.get(index + 1).and_then(|point| point.arrives.as_ref());
        Leg {
            number: index + 1,
            runs: runs(leg.along.is_some()),
            distance_m: leg.distance.as_metres(),
            bearing_true_deg,
            bearing_grid_deg,
            bearing_magnetic_deg,
            convergence_deg: leg.convergence.as_ref().ok().map(|c| c.as_degrees_east()),
            variation_deg: variation.map(|at| at.variation.as_degrees_east()),
            variation_error_deg: variation.and_then(|at| at.error).map(|e| e.as_degrees()),
            geodesic_m: leg.geodesic().distance.as_metres(),
            time_s: seconds(leg.time),
            departs: reckoning.departs(index).map(|moment| moment.to_string()),
            arrives: end.map(ToString::to_string),
            along: Along::of(route, index, leg, row.along.as_ref()),
            text: row.into(),
        }
    })
    .collect()
}

fn total(shown: &Shown<'_>) -> Total {
    let reckoning = shown.reckoning;
    Total {
        distance_m: reckoning.distance.as_metres(),
        under_way_s: seconds(reckoning.under_way),
        stops_s: reckoning.stops.as_secs_f64(),
        elapsed_s: seconds(reckoning.elapsed),
        text: plan::table::total(reckoning).into(),
    }
}

/// Degrees from true, grid and magnetic north.
fn degrees(bearings: Option<Bearings>) -> [Option<f64>; 3] {
    [
        bearings.map(|b| b.from_true.as_degrees()),
        bearings.and_then(|b| b.from_grid).map(|b| b.as_degrees()),
        bearings.and_then(|b| b.from_magnetic).map(|b| b.as_degrees()),
    ]
}

fn seconds(time: Option<SignedDuration>) -> Option<f64> {
    time.map(|time| time.as_secs_f64())
}

impl From<PointRow> for PointText {
    fn from(row: PointRow) -> PointText {
        let PointRow { reference, position, stop, elapsed, clock, number: _, name: _ } = row;
        PointText { reference, position, stop, elapsed, clock }
    }
}

impl From<LegRow> for LegText {
    fn from(row: LegRow) -> LegText {
        LegText {
            from_true: row.from_true,
            from_grid: row.from_grid,
            from_magnetic: row.from_magnetic,
            back_true: row.back_true,
            back_grid: row.back_grid,
            back_magnetic: row.back_magnetic,
            nautical_miles: row.nautical_miles,
            kilometres: row.kilometres,
            time: row.time,
            departs: row.departs,
            arrives: row.to.clock,
        }
    }
}

impl From<TotalRow> for TotalText {
    fn from(row: TotalRow) -> TotalText {
        let TotalRow { nautical_miles, kilometres, under_way, stops, elapsed, clock } = row;
        TotalText { nautical_miles, kilometres, under_way, stops, elapsed, clock }
    }
}
