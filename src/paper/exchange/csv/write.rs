//! Points written as CSV.

use plan::{Limits, Route, Steering, Waypoint};

use super::{Column, POINT};
use crate::exchange::export::{Export, Written};

const COLUMNS: [&str; 7] = [
    Column::Name.heading(),
    Column::Lat.heading(),
    Column::Lon.heading(),
    Column::Reference.heading(),
    Column::Stop.heading(),
    Column::Note.heading(),
    Column::Kind.heading(),
];

/// The points of a route, then the things of the chart that go with it.
pub(crate) fn write(export: &Export<'_>) -> Written {
    let mut text = row(COLUMNS.map(str::to_owned));
    for (point, stage) in export.route.points.iter().zip(export.stages()) {
        let stop = point.stop.as_mins().to_string();
        let (lat, lon) = degrees(point.at);
        text += &row([
            point.name.clone(),
            lat,
            lon,
            stage.reference,
            stop,
            point.note.clone(),
            POINT.to_owned(),
        ]);
    }
    for thing in export.things() {
        let (lat, lon) = degrees(thing.at);
        text += &row([thing.name, lat, lon, String::new(), String::new(), thing.note, thing.kind]);
    }
    Written { text, left_out: left_out(export) }
}

fn degrees(at: nav::Position) -> (String, String) {
    (at.lat.as_degrees().to_string(), at.lon.as_degrees().to_string())
}

fn row<const N: usize>(cells: [String; N]) -> String {
    cells.map(|cell| quoted(&cell)).join(",") + "\r\n"
}

/// A cell, in quotes where it needs them.
fn quoted(cell: &str) -> String {
    if cell.contains([',', '"', '\r', '\n']) || cell.trim() != cell {
        return format!("\"{}\"", cell.replace('"', "\"\""));
    }
    cell.to_owned()
}

/// What a table of points cannot hold of this route.
fn left_out(export: &Export<'_>) -> Vec<String> {
    let route = export.route;
    let any = |of: fn(&Waypoint) -> bool| route.points.iter().any(of);
    let mut left = Vec::new();
    let mut say = |what: &str, there: bool| {
        if there {
            left.push(format!("{what} left out: CSV has points alone"));
        }
    };
    say("the lines of traced legs are", any(|point| point.along.is_some()));
    say("how legs are steered is", any(|point| point.steer != Steering::Line));
    say("heights, signs, classes, descriptions and links are", any(|point| point.kept.is_some()));
    say("the title and the chart's are", !route.title.is_empty() || !route.chart.is_empty());
    say("the pace is", route.pace != Route::new("").pace);
    say("the departure is", route.departure.is_some());
    say("the printed variation is", route.variation != Route::new("").variation);
    say("the wind is", route.wind.is_some());
    say("the limits are", route.limits != Limits::default());
    say("the track is", export.track);
    left
}
