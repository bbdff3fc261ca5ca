//! Streams, races, gates and drying ground: in the water, and by streams that make them.

use super::{About, apart, sketch};
use crate::model::{Ring, Stream, StreamRates};

pub(super) fn hold(about: &About<'_>, found: &mut Vec<String>) {
    streams(about, found);
    races(about, found);
    gates(about, found);
    drying(about, found);
}

/// The greatest rate at springs that a stream is told with, roughly for constituents.
pub(in super::super) fn springs(rates: &StreamRates) -> f64 {
    match rates {
        StreamRates::Hourly { rows, .. } => rows.iter().fold(0.0, |most, r| r.springs_kn.max(most)),
        StreamRates::Axis { constituents, .. } => {
            constituents.iter().take(2).map(|part| part.amplitude).sum()
        }
        StreamRates::Greatest { springs_kn, .. } => *springs_kn,
    }
}

fn streams(about: &About<'_>, found: &mut Vec<String>) {
    for stream in &about.chart.streams {
        let (name, springs) = (&stream.name, springs(&stream.rates));
        if !about.sea.reaches(stream.at) {
            found.push(format!("the stream {name} runs on land or in water that is shut off"));
        }
        if !(0.1..=8.0).contains(&springs) {
            found.push(format!("the stream {name} runs at {springs} knots"));
        }
    }
}

fn station<'a>(about: &'a About<'_>, name: &str) -> Option<&'a Stream> {
    about.chart.streams.iter().find(|stream| stream.name == name)
}

/// A race lies in water alone, by a stream that is strong enough and runs in it.
fn races(about: &About<'_>, found: &mut Vec<String>) {
    for race in &about.chart.races {
        let mut say = |what: &str| found.push(format!("{} {what}", race.name));
        if race.edge.sides().any(|(a, b)| about.sea.meets_shore(a, b)) {
            say("breaks over a shore");
        }
        let lands = about.chart.land.iter().map(|land| land.shore.0[0]);
        if race.edge.0.iter().any(|at| !about.sea.reaches(*at))
            || lands.into_iter().any(|at| race.edge.encloses(at))
        {
            say("has land in it");
        }
        let station = race.runs.as_ref().and_then(|runs| station(about, &runs.station));
        match station {
            None => say("runs by no stream"),
            Some(stream) => {
                // Half a printed digit of each constituent.
                if springs(&stream.rates) <= 1.4 {
                    say("breaks in a weak stream");
                }
                if !race.edge.encloses(stream.at) {
                    say("lies off its stream");
                }
            }
        }
    }
}

/// A gate leads from land to land over a stream that shuts it.
fn gates(about: &About<'_>, found: &mut Vec<String>) {
    for gate in &about.chart.gates {
        let mut say = |what: &str| found.push(format!("{} {what}", gate.name));
        let (one, other) = gate.line;
        if !about.is_land(one) || !about.is_land(other) {
            say("ends in the water");
        }
        let Some(stream) = station(about, &gate.station) else {
            say("is shut by no stream");
            continue;
        };
        if springs(&stream.rates) <= 2.9 {
            say("is shut by a weak stream");
        }
        let of = |at: crate::Point| (at.x, at.y);
        let (off, _) = sketch::to_segment(of(stream.at), of(one), of(other));
        if off > 60.0 || apart(one, other) > 900.0 {
            say("does not lie across its stream");
        }
    }
}

/// Drying ground lies off the land: its corners on no land but at the shore itself.
fn drying(about: &About<'_>, found: &mut Vec<String>) {
    for flat in &about.chart.drying {
        let Ring(corners) = &flat.edge;
        let ashore = |at: &&crate::Point| about.is_land(**at) && about.off_shore(**at) > 0.0;
        if let Some(at) = corners.iter().find(ashore) {
            found.push(format!("ground dries on land at {at:?}"));
        }
    }
}
