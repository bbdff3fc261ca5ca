//! What can be wrong with races and gates.

use std::collections::HashSet;

use super::water::{DIRECTION, RATE, known, named_port};
use super::{Fault, walk::Walk};
use crate::format::Step::Element;
use crate::model::{Chart, Gate, Runs};

pub(super) fn races(walk: &mut Walk, chart: &Chart) {
    walk.field("races", |walk| {
        walk.each(&chart.races, |walk, race| {
            walk.name("a race", &race.name);
            walk.field("edge", |walk| walk.ring(&race.edge));
            if let Some(runs) = &race.runs {
                walk.field("runs", |walk| conditions(walk, chart, runs));
            }
        });
    });
}

fn conditions(walk: &mut Walk, chart: &Chart, runs: &Runs) {
    let Runs { station, quiet_under_kn: quiet, worst_over_kn: worst, sets_deg } = runs;
    named_station(walk, chart, station);
    walk.number("quiet_under_kn", "rate", *quiet, RATE, "knots");
    walk.number("worst_over_kn", "rate", *worst, RATE, "knots");
    if quiet > worst {
        let (quiet, worst) = (*quiet, *worst);
        walk.field("quiet_under_kn", |walk| walk.fault(Fault::Conditions { quiet, worst }));
    }
    walk.field("sets_deg", |walk| {
        walk.each(sets_deg, |walk, set| {
            for (end, degrees) in [set.0, set.1].into_iter().enumerate() {
                walk.step(Element(end), |walk| {
                    walk.within("direction", degrees, DIRECTION, "degrees");
                });
            }
        });
    });
}

pub(super) fn gates(walk: &mut Walk, chart: &Chart) {
    let mut seen = HashSet::new();
    walk.field("gates", |walk| {
        walk.each(&chart.gates, |walk, gate| {
            walk.name("a gate", &gate.name);
            if !seen.insert(gate.name.clone()) {
                walk.same_name("gates", &gate.name);
            }
            walk.field("line", |walk| line(walk, gate));
            named_station(walk, chart, &gate.station);
            walk.number("limit_kn", "limit", gate.limit_kn, RATE, "knots");
            if let Some(sill) = &gate.sill {
                walk.field("sill", |walk| {
                    named_port(walk, chart, &sill.port);
                    walk.number("least_m", "height of tide", sill.least_m, (-20.0, 30.0), "m");
                });
            }
        });
    });
}

fn line(walk: &mut Walk, gate: &Gate) {
    let (one, other) = gate.line;
    for (end, at) in [one, other].into_iter().enumerate() {
        walk.step(Element(end), |walk| walk.on_chart("an end of a gate's line", at));
    }
    if one == other {
        walk.fault(Fault::NoLine { at: one });
    }
}

/// Holds that the field `station` names a stream of the chart.
fn named_station(walk: &mut Walk, chart: &Chart, name: &str) {
    if chart.streams.iter().any(|stream| stream.name == name) {
        return;
    }
    let known = known(chart.streams.iter().map(|stream| stream.name.as_str()), "streams");
    let fault = Fault::UnknownStream { name: name.to_owned(), known };
    walk.field("station", |walk| walk.fault(fault));
}
