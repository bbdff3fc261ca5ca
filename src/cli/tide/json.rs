//! The tide, as JSON: full precision, names with their unit, `null` for what there is not.

use std::io::Write;

use ::chart::water::TideDay;
use jiff::civil::Date;
use nav::text;
use serde_json::{Value, json};

use super::{Report, moon_word, springs_word, water_word};
use crate::when;

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    let ranges = report.gauge.ranges().ok();
    let moments = |at, what: &str| json!({ "what": what, "utc": when::utc(at), "local": when::local(at, &report.zone) });
    let springs = report.springs.iter().map(|&(at, phase)| moments(at, springs_word(phase)));
    let moon = report.moon.iter().map(|&(at, phase)| moments(at, moon_word(phase)));
    let document = json!({
        "chart": report.origin.chart,
        "invented": report.origin.invented,
        "port": report.gauge.name(),
        "constants_of": report.gauge.standard(),
        "other_ports": report.others,
        "datum": report.origin.datum,
        "source": report.origin.source,
        "mean_springs_range_m": ranges.map(|ranges| ranges.springs().as_metres()),
        "mean_neaps_range_m": ranges.map(|ranges| ranges.neaps().as_metres()),
        "days": report.days.iter().map(|(date, tide)| day(report, *date, tide)).collect::<Vec<_>>(),
        "springs_and_neaps": springs.collect::<Vec<_>>(),
        "moon": moon.collect::<Vec<_>>(),
        "remarks": super::text::remarks(report),
        "caution": text::CAUTION,
    });
    serde_json::to_writer_pretty(&mut *to, &document)?;
    writeln!(to)?;
    Ok(())
}

fn day(report: &Report<'_>, date: Date, tide: &TideDay) -> Value {
    let turns = tide.turns.iter().map(|turn| {
        json!({
            "water": water_word(turn.water),
            "utc": when::utc(turn.at),
            "local": when::local(turn.at, &report.zone),
            "height_m": turn.height.as_metres(),
        })
    });
    json!({
        "date": date.to_string(),
        "waters": turns.collect::<Vec<_>>(),
        "range_m": tide.range.map(|range| range.as_metres()),
        "factor": tide.factor,
    })
}
