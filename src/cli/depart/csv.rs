//! Starts, as CSV: a row for each.

use std::io::Write;

use plan::depart::{Light, Start};

use super::{Report, json, rows};
use crate::when;

/// The columns before those of the legs.
const COLUMNS: [&str; 20] = [
    "utc",
    "local",
    "verdict",
    "best",
    "latest",
    "reasons",
    "lands_utc",
    "lands_local",
    "time_s",
    "waited_s",
    "against_s",
    "worst_drift_kn",
    "worst_drift_leg",
    "races",
    "worst_race",
    "gates",
    "tide_at_landing_m",
    "light",
    "light_left_s",
    "legs_made",
];

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    let mut csv = csv::Writer::from_writer(to);
    let legs = report.route.points.len().saturating_sub(1);
    let per_leg = (1..=legs).map(|leg| format!("leg_{leg}_s"));
    csv.write_record(COLUMNS.iter().map(|&name| name.to_owned()).chain(per_leg))?;
    for day in &report.days {
        for (index, start) in day.starts.iter().enumerate() {
            let of_day = [day.best == Some(index), day.latest == Some(index)];
            csv.write_record(row(report, start, of_day, legs))?;
        }
    }
    csv.flush()?;
    Ok(())
}

fn row(report: &Report<'_>, start: &Start, [best, latest]: [bool; 2], legs: usize) -> Vec<String> {
    let words: Vec<String> = start.reasons.iter().map(|it| it.words(&report.zone)).collect();
    let names = |names: Vec<&str>| names.join("; ");
    let landing = start.landing;
    let yes = |yes: bool| if yes { "yes" } else { "" }.to_owned();
    let at = landing.map(|landing| landing.at);
    let state = start.worst_race().flatten();
    let mut row = vec![
        when::utc(start.at),
        when::local(start.at, &report.zone),
        start.verdict.to_string(),
        yes(best),
        yes(latest),
        words.join("; "),
        at.map_or_else(String::new, when::utc),
        at.map_or_else(String::new, |at| when::local(at, &report.zone)),
        some(landing.map(|landing| landing.took.as_secs_f64())),
        start.waited().as_secs_f64().to_string(),
        start.against().as_secs_f64().to_string(),
        some(start.worst_drift().map(|(rate, _)| rate.as_knots())),
        some(start.worst_drift().map(|(_, leg)| leg + 1)),
        names(start.races().iter().map(|(_, met)| &*met.name).collect()),
        some(state),
        names(start.gates().map(|(_, gate)| &*gate.name).collect()),
        some(landing.and_then(|landing| landing.height).map(|height| height.as_metres())),
        landing.map_or("", |landing| json::light_word(landing.light)).to_owned(),
        some(landing.and_then(|landing| light_left_s(landing.light))),
        start.legs.len().to_string(),
    ];
    let times = start.legs.iter().map(|leg| rows::under_way(leg).as_secs_f64().to_string());
    row.extend(times.chain(std::iter::repeat(String::new())).take(legs));
    row
}

fn some<T: ToString>(value: Option<T>) -> String {
    value.map_or_else(String::new, |value| value.to_string())
}

/// The light left at a landing, below zero after the end of civil twilight; nothing where it does not
/// end or did not come.
pub(super) fn light_left_s(light: Light) -> Option<f64> {
    match light {
        Light::Left(left) => Some(left.as_secs_f64()),
        Light::Gone(gone) => Some(-gone.as_secs_f64()),
        Light::AllDay | Light::NoDay => None,
    }
}
