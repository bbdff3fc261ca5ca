//! What can be wrong with tides and streams.

use std::collections::HashSet;

use super::{Fault, walk::Walk};
use crate::clean::{NOTE, clean};
use crate::model::{Chart, Constituent, Port, PortTide, StreamRates, StreamRow};
use crate::printed::{self, Means, PrintedWater};

pub(super) const DIRECTION: (f64, f64) = (0.0, 360.0);
pub(super) const RATE: (f64, f64) = (0.0, 30.0);

/// Years of which constants, differences and tables may be.
const YEARS: std::ops::RangeInclusive<i16> = 1700..=2100;

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
            basis(walk, port);
            walk.field("tide", |walk| tide(walk, chart, &port.tide));
        });
    });
}

/// What a port states beside its tide.
fn basis(walk: &mut Walk, port: &Port) {
    if let Some((first, last)) = port.years
        && let Err(fault) = check_years(first, last)
    {
        walk.field("years", |walk| walk.fault(fault));
    }
    if let Err(fault) = check_months(&port.seasonal_m) {
        walk.field("seasonal_m", |walk| walk.fault(fault));
    }
}

/// Holds that a first and a last year are years, in their order.
pub(crate) fn check_years(first: i16, last: i16) -> Result<(), Fault> {
    match first <= last && YEARS.contains(&first) && YEARS.contains(&last) {
        true => Ok(()),
        false => Err(Fault::Years { first, last }),
    }
}

/// Holds that there is a level for each month, or none for any.
pub(crate) fn check_months(levels: &[f64]) -> Result<(), Fault> {
    let one = |level: &f64| (-3.0..=3.0).contains(level);
    match levels.len() {
        0 => Ok(()),
        12 if levels.iter().all(one) => Ok(()),
        months => Err(Fault::Months { months }),
    }
}

fn table(walk: &mut Walk, zone: &str, means: Option<&Means>, waters: &[PrintedWater]) {
    if let Some(Err(why)) = means.map(Means::ranges) {
        walk.field("means", |walk| walk.fault(Fault::Printed(why.into())));
    }
    if let Some(level) = means.and_then(|means| means.level_m) {
        walk.field("means", |walk| {
            walk.number("level_m", "mean level", level, (-30.0, 30.0), "m");
        });
    }
    if let Err((way, misprint)) = printed::table(zone, waters) {
        walk.along(&way, |walk| walk.fault(Fault::Printed(misprint)));
    }
}

fn tide(walk: &mut Walk, chart: &Chart, tide: &PortTide) {
    match tide {
        PortTide::Constants { mean_level_m, constituents: all } => {
            walk.number("mean_level_m", "mean level", *mean_level_m, (-30.0, 30.0), "m");
            constituents(walk, all, "m");
        }
        PortTide::Printed { zone, means, waters } => {
            table(walk, zone, means.as_ref(), waters);
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
        Some(port) if lacks_means(&port.tide) => {
            walk.fault(Fault::NoMeans { name: name.to_owned() });
        }
        Some(_) => {}
    }
}

/// Whether a table lacks the figures that differences on it need.
fn lacks_means(tide: &PortTide) -> bool {
    let PortTide::Printed { means, .. } = tide else { return false };
    means.is_none_or(|means| means.level_m.is_none())
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
        StreamRates::Axis { flood_deg, constituents: all, across } => {
            walk.number("flood_deg", "direction", *flood_deg, DIRECTION, "degrees");
            constituents(walk, all, "knots");
            walk.field("across", |walk| each_constituent(walk, across, "knots"));
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
        each_constituent(walk, all, unit);
    });
}

fn each_constituent(walk: &mut Walk, all: &[Constituent], unit: &'static str) {
    let mut seen = HashSet::new();
    walk.each(all, |walk, one| {
        match nav::tide::Constituent::named(&one.name) {
            Err(unknown) => {
                walk.field("name", |walk| walk.fault(Fault::Constituent(unknown)));
            }
            Ok(known) if !seen.insert(known.name()) => {
                walk.same_name("constituents", known.name());
            }
            Ok(_) => {}
        }
        walk.number("amplitude", "amplitude", one.amplitude, (0.0, 30.0), unit);
        walk.number("phase_deg", "phase", one.phase_deg, (-360.0, 360.0), "degrees");
    });
}
