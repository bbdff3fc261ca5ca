//! What can be wrong with tides and streams.

use std::collections::HashSet;

use super::{Fault, walk::Walk};
use crate::clean::{NOTE, clean};
use crate::model::{Chart, Constituent, PortTide, StreamRates, StreamRow};

pub(super) const DIRECTION: (f64, f64) = (0.0, 360.0);
pub(super) const RATE: (f64, f64) = (0.0, 30.0);

/// How many rows an hourly table has: six hours before high water to six after.
const ROWS: usize = 13;

pub(super) fn ports(walk: &mut Walk, chart: &Chart) {
    let mut seen = HashSet::new();
    walk.field("ports", |walk| {
        walk.each(&chart.ports, |walk, port| {
            walk.name("a port", &port.name);
            walk.at("a port", port.at);
            if !seen.insert(port.name.clone()) {
                walk.same_name("ports", &port.name);
            }
            walk.field("tide", |walk| tide(walk, chart, &port.tide));
        });
    });
}

fn tide(walk: &mut Walk, chart: &Chart, tide: &PortTide) {
    match tide {
        PortTide::Constants { mean_level_m, constituents: all } => {
            walk.number("mean_level_m", "mean level", *mean_level_m, (-30.0, 30.0), "m");
            constituents(walk, all, "m");
        }
        PortTide::Differences {
            standard,
            high_water_min,
            low_water_min,
            high_water_m,
            low_water_m,
        } => {
            walk.field("standard", |walk| standard_port(walk, chart, standard));
            let times = (-720.0, 720.0);
            pair(walk, "high_water_min", "time difference", *high_water_min, times, "minutes");
            pair(walk, "low_water_min", "time difference", *low_water_min, times, "minutes");
            let heights = (-20.0, 20.0);
            pair(walk, "high_water_m", "height difference", *high_water_m, heights, "m");
            pair(walk, "low_water_m", "height difference", *low_water_m, heights, "m");
        }
    }
}

fn pair(
    walk: &mut Walk,
    name: &'static str,
    what: &'static str,
    (springs, neaps): (f64, f64),
    range: (f64, f64),
    unit: &'static str,
) {
    walk.number(name, what, springs, range, unit);
    walk.number(name, what, neaps, range, unit);
}

fn standard_port(walk: &mut Walk, chart: &Chart, name: &str) {
    match chart.ports.iter().find(|port| port.name == name) {
        None => unknown_port(walk, chart, name),
        Some(port) if matches!(port.tide, PortTide::Differences { .. }) => {
            walk.fault(Fault::NotStandard { name: name.to_owned() });
        }
        Some(_) => {}
    }
}

/// Holds that the field `port` names a port of the chart.
pub(super) fn named_port(walk: &mut Walk, chart: &Chart, name: &str) {
    if !chart.ports.iter().any(|port| port.name == name) {
        walk.field("port", |walk| unknown_port(walk, chart, name));
    }
}

fn unknown_port(walk: &mut Walk, chart: &Chart, name: &str) {
    let known = known(chart.ports.iter().map(|port| port.name.as_str()), "ports");
    walk.fault(Fault::UnknownPort { name: name.to_owned(), known });
}

/// The names that would be right, for a message.
pub(super) fn known<'a>(names: impl Iterator<Item = &'a str>, list: &str) -> String {
    let names: Vec<_> = names.collect();
    if names.is_empty() {
        format!("it has none: add it to {list}")
    } else {
        clean(&format!("it has {}", names.join(", ")), NOTE)
    }
}

pub(super) fn streams(walk: &mut Walk, chart: &Chart) {
    walk.field("streams", |walk| {
        walk.each(&chart.streams, |walk, stream| {
            walk.name("a stream", &stream.name);
            walk.at("a stream", stream.at);
            walk.field("rates", |walk| rates(walk, chart, &stream.rates));
        });
    });
}

fn rates(walk: &mut Walk, chart: &Chart, rates: &StreamRates) {
    match rates {
        StreamRates::Hourly { port, rows } => {
            named_port(walk, chart, port);
            walk.field("rows", |walk| hourly(walk, rows));
        }
        StreamRates::Axis { flood_deg, constituents: all } => {
            walk.number("flood_deg", "direction", *flood_deg, DIRECTION, "degrees");
            constituents(walk, all, "knots");
        }
        StreamRates::Greatest { flood_deg, port, flood_begins_h, springs_kn } => {
            walk.number("flood_deg", "direction", *flood_deg, DIRECTION, "degrees");
            named_port(walk, chart, port);
            walk.number("flood_begins_h", "start", *flood_begins_h, (-13.0, 13.0), "hours");
            walk.number("springs_kn", "rate", *springs_kn, RATE, "knots");
        }
    }
}

fn hourly(walk: &mut Walk, rows: &[StreamRow]) {
    if rows.len() != ROWS {
        walk.fault(Fault::StreamRows { rows: rows.len() });
    }
    walk.each(rows, |walk, row| {
        walk.number("set_deg", "direction", row.set_deg, DIRECTION, "degrees");
        walk.number("springs_kn", "rate", row.springs_kn, RATE, "knots");
        walk.number("neaps_kn", "rate", row.neaps_kn, RATE, "knots");
    });
}

fn constituents(walk: &mut Walk, all: &[Constituent], unit: &'static str) {
    walk.field("constituents", |walk| {
        if all.is_empty() {
            walk.fault(Fault::Nothing { what: "constituents" });
        }
        walk.each(all, |walk, one| {
            walk.name("a constituent", &one.name);
            walk.number("amplitude", "amplitude", one.amplitude, (0.0, 30.0), unit);
            walk.number("phase_deg", "phase", one.phase_deg, (-360.0, 360.0), "degrees");
        });
    });
}
