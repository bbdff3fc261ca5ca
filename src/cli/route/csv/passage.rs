//! The columns of the passage: empty without one, and of legs that it does not come to.

use jiff::Timestamp;
use plan::passage::LegPassage;

use super::number;
use crate::day::Through;

pub(super) const COLUMNS: [&str; 19] = [
    "passage_waits_s",
    "passage_departs",
    "passage_arrives",
    "passage_time_s",
    "ground_speed_kn",
    "heading_true_deg",
    "heading_magnetic_deg",
    "first_heading_magnetic_deg",
    "last_heading_magnetic_deg",
    "set_true_deg",
    "drift_kn",
    "greatest_kn",
    "with_s",
    "against_s",
    "across_s",
    "slack_s",
    "without_data_s",
    "races",
    "gates",
];

/// The cells of leg `index`, counted from 0.
pub(super) fn cells(through: Option<&Through>, index: usize) -> Vec<String> {
    let leg = through.and_then(|through| Some((through, through.passage.legs.get(index)?)));
    leg.map_or_else(|| vec![String::new(); COLUMNS.len()], |(through, leg)| of(through, leg))
}

fn of(through: &Through, leg: &LegPassage) -> Vec<String> {
    let zone = through.course.zone();
    let moment = |at: Timestamp| at.to_zoned_datetime(zone.clone()).to_string();
    let seconds = |time: jiff::SignedDuration| time.as_secs_f64().to_string();
    let headings = leg.headings.as_ref();
    let mean = headings.and_then(|headings| headings.mean);
    let (sums, stream, times) = (&leg.sums, leg.sums.mean(), leg.sums.times);
    let races = leg.races.iter().map(|race| match race.state {
        Some(state) => format!("{} {state}", race.name),
        None => format!("{} not known", race.name),
    });
    let gates = leg.gates.iter().map(|gate| match gate.open {
        Some(true) => format!("{} open", gate.name),
        Some(false) => format!("{} shut", gate.name),
        None => format!("{} not known", gate.name),
    });
    vec![
        seconds(leg.waited),
        moment(leg.departs),
        moment(leg.arrives),
        seconds(leg.time()),
        number(leg.ground_speed().map(|speed| speed.as_knots())),
        number(mean.map(|mean| mean.from_true.as_degrees())),
        number(mean.map(|mean| mean.from_magnetic.as_degrees())),
        number(headings.map(|headings| headings.first.from_magnetic.as_degrees())),
        number(headings.map(|headings| headings.last.from_magnetic.as_degrees())),
        number(stream.map(|stream| stream.set.as_degrees())),
        number(stream.map(|stream| stream.drift.as_knots())),
        number(sums.greatest.map(|greatest| greatest.stream.drift.as_knots())),
        seconds(times.with),
        seconds(times.against),
        seconds(times.across),
        seconds(times.slack),
        seconds(times.without_data),
        races.collect::<Vec<_>>().join("; "),
        gates.collect::<Vec<_>>().join("; "),
    ]
}
