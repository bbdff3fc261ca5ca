//! The stream, as JSON: full precision, names with their unit.

use std::io::Write;

use jiff::Timestamp;
use nav::text;
use nav::triangle::Stream;
use serde_json::{Value, json};

use super::{Report, known_word, remarks};
use crate::when;

pub(super) fn write(report: &Report, to: &mut dyn Write) -> anyhow::Result<()> {
    let row = |at: Timestamp, stream: Stream| {
        json!({
            "utc": when::utc(at),
            "local": when::local(at, &report.zone),
            "set_deg": stream.set.as_degrees(),
            "rate_kn": stream.drift.as_knots(),
        })
    };
    let parts = report.parts.iter().map(|part| {
        json!({
            "name": part.name,
            "part": part.part,
            "away_m": part.away.as_metres(),
            "known_by": known_word(part.known),
        })
    });
    let hours = report.hours.iter().map(|&(at, stream)| row(at, stream));
    let mut document = json!({
        "chart": report.origin.chart,
        "invented": report.origin.invented,
        "place": report.name,
        "reference": report.reference,
        "stations": parts.collect::<Vec<_>>(),
        "hours": hours.collect::<Vec<_>>(),
        "remarks": remarks(report),
        "caution": text::CAUTION,
    });
    if report.whole {
        let greatest = report.greatest.iter().map(|it| row(it.at, it.stream));
        document["turns"] = turns(report);
        document["slack_under_kn"] = json!(report.limit.as_knots());
        document["slack"] = slack(report);
        document["greatest"] = greatest.collect();
    }
    serde_json::to_writer_pretty(&mut *to, &document)?;
    writeln!(to)?;
    Ok(())
}

fn turns(report: &Report) -> Value {
    let turn = |turn: &nav::stream::StreamTurn| {
        json!({
            "utc": when::utc(turn.at),
            "local": when::local(turn.at, &report.zone),
            "then_deg": turn.then.as_degrees(),
        })
    };
    report.turns.iter().map(turn).collect()
}

fn slack(report: &Report) -> Value {
    let slack = |it: &nav::stream::Under| {
        json!({
            "from_utc": when::utc(it.from),
            "to_utc": when::utc(it.to),
            "least_at_utc": when::utc(it.least_at),
            "least_kn": it.least.as_knots(),
        })
    };
    report.slack.iter().map(slack).collect()
}
