//! A route as the text of a file.

use std::fmt::Write;

use nav::magnetic::VariationSource;

use super::{VERSION, VERSION_MOVING, VERSION_STRAIGHT, VERSION_TRACED};
use super::{along, kept, limits, weather};
use crate::{Limits, Route, Steering, Waypoint};

/// The text of `route`'s file; [`super::read`] gives the same route back.
#[must_use]
pub fn write(route: &Route) -> String {
    let mut text = format!("(\n    version: {},\n", version(route));
    line(&mut text, "title", &quoted(&route.title));
    line(&mut text, "chart", &quoted(&route.chart));
    line(&mut text, "pace", &quoted(&route.pace.to_string()));
    if !route.pace.rest_per_hour().is_zero() {
        line(&mut text, "rest_min", &route.pace.rest_per_hour().as_mins().to_string());
    }
    line(&mut text, "variation", &variation(route.variation));
    if let Some(departure) = &route.departure {
        line(&mut text, "departure", &quoted(&departure.to_string()));
    }
    if let Some(wind) = &route.wind {
        line(&mut text, "wind", &weather::written(wind));
    }
    if route.limits != Limits::default() {
        line(&mut text, "limits", &limits::written(&route.limits));
    }
    text.push_str("    points: [\n");
    for waypoint in &route.points {
        // Writing to a string cannot fail.
        let _ = writeln!(text, "        {},", write_point(waypoint));
    }
    text.push_str("    ],\n)\n");
    text
}

/// The oldest version that has everything of the route.
fn version(route: &Route) -> u32 {
    let any = |of: fn(&Waypoint) -> bool| route.points.iter().any(of);
    let moves = route.wind.is_some() || route.limits != Limits::default();
    if any(|point| point.kept.is_some()) {
        VERSION
    } else if moves || any(|point| point.steer != Steering::Line) {
        VERSION_MOVING
    } else if any(|point| point.along.is_some()) {
        VERSION_TRACED
    } else {
        VERSION_STRAIGHT
    }
}

fn line(text: &mut String, field: &str, value: &str) {
    // Writing to a string cannot fail.
    let _ = writeln!(text, "    {field}: {value},");
}

fn variation(source: VariationSource) -> String {
    match source {
        VariationSource::Model => "Model".to_owned(),
        VariationSource::Printed(printed) => format!(
            "Printed(deg_east: {:?}, year: {:?}, deg_east_per_year: {:?})",
            printed.variation.as_degrees_east(),
            printed.year.as_years(),
            printed.change_per_year.0.as_degrees_east(),
        ),
    }
}

/// A point as a route file has it, on its own; [`super::read_point`] gives the same point back.
#[must_use]
pub fn write_point(waypoint: &Waypoint) -> String {
    let mut fields = Vec::new();
    if !waypoint.name.is_empty() {
        fields.push(format!("name: {}", quoted(&waypoint.name)));
    }
    fields.push(format!("lat: {:?}", waypoint.at.lat.as_degrees()));
    fields.push(format!("lon: {:?}", waypoint.at.lon.as_degrees()));
    if !waypoint.stop.is_zero() {
        fields.push(format!("stop_min: {}", waypoint.stop.as_mins()));
    }
    if !waypoint.note.is_empty() {
        fields.push(format!("note: {}", quoted(&waypoint.note)));
    }
    if let Some(leg) = &waypoint.along {
        fields.push(along::written(leg));
    }
    if waypoint.steer == Steering::OneHeading {
        fields.push("steer: OneHeading".to_owned());
    }
    if let Some(said) = &waypoint.kept {
        fields.push(kept::written(said));
    }
    format!("({})", fields.join(", "))
}

/// `text` in quotation marks, with what would end or break it escaped.
pub(super) fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => quoted.extend(['\\', c]),
            c if c.is_control() => quoted.extend(c.escape_unicode()),
            c => quoted.push(c),
        }
    }
    quoted.push('"');
    quoted
}
