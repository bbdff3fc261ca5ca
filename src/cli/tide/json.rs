//! The tide, as JSON: full precision, names with their unit, `null` for what there is not.

use std::io::Write;

use ::chart::water::Shifted;
use jiff::Timestamp;
use jiff::civil::Date;
use nav::tide::{AirPressure, Height, Turn};
use nav::{Length, text};
use serde_json::{Value, json};

use super::report::{DayOfTide, Report, Show};
use super::words;
use crate::when;

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    let (gauge, ranges) = (report.gauge, report.gauge.ranges().ok());
    let basis = gauge.basis();
    let moments = |at, what: &str| json!({ "what": what, "utc": when::utc(at), "local": when::local(at, &report.zone) });
    let springs = report.springs.iter().map(|&(at, phase)| moments(at, words::springs(phase)));
    let moon = report.moon.iter().map(|&(at, phase)| moments(at, words::moon(phase)));
    let on = report.days.first().map_or(Date::MIN, |day| day.date);
    let mut document = json!({
        "chart": report.origin.chart,
        "invented": report.origin.invented,
        "port": gauge.name(),
        "standard_port": gauge.is_secondary().then(|| gauge.standard()),
        "told": gauge.said(on),
        "other_ports": report.others,
        "datum": report.origin.datum,
        "source": basis.source,
        "years": basis.years.map(|(first, last)| json!([first, last])),
        "known": gauge.covers().map(|(from, to)| json!([when::utc(from), when::utc(to)])),
        "mean_springs_range_m": ranges.map(|ranges| ranges.springs().as_metres()),
        "mean_neaps_range_m": ranges.map(|ranges| ranges.neaps().as_metres()),
        "pressure_hpa": report.put_on.pressure.map(AirPressure::as_hectopascals),
        "raised_by_pressure_m": report.put_on.by_air().map(Length::as_metres),
        "days": report.days.iter().map(|of_tide| day(report, of_tide)).collect::<Vec<_>>(),
        "springs_and_neaps": springs.collect::<Vec<_>>(),
        "moon": moon.collect::<Vec<_>>(),
        "remarks": words::remarks(report),
        "caution": text::CAUTION,
    });
    if report.show == Show::Month {
        let extreme = |found: Option<(Date, Length)>| {
            found.map(
                |(date, range)| json!({ "date": date.to_string(), "range_m": range.as_metres() }),
            )
        };
        document["greatest"] = json!(extreme(report.extreme(f64::total_cmp)));
        document["least"] = json!(extreme(report.extreme(|a, b| b.total_cmp(a))));
    }
    serde_json::to_writer_pretty(&mut *to, &document)?;
    writeln!(to)?;
    Ok(())
}

fn day(report: &Report<'_>, day: &DayOfTide) -> Value {
    let waters = day.tide.turns.iter().enumerate().map(|(index, turn)| {
        let mut it = water(report, turn);
        if let Some(both) = day.shifted.get(index) {
            it["standard"] = standard(report, both);
        }
        it
    });
    let mut found = json!({
        "date": day.date.to_string(),
        "waters": waters.collect::<Vec<_>>(),
        "range_m": day.tide.range.map(Length::as_metres),
        "factor": day.tide.factor,
        "size": day.tide.factor.map(text::springs_or_neaps),
        "moon": words::moon_on(report, day),
        "season_m": day.season.map(|season| season.added.as_metres()),
    });
    if report.show == Show::Hours {
        found["hours"] = day
            .hours
            .iter()
            .map(|hour| {
                json!({
                    "utc": when::utc(hour.at),
                    "local": when::local(hour.at, &report.zone),
                    "height_m": hour.height.map(Height::as_metres),
                    "twelfths_m": hour.twelfths.map(Height::as_metres),
                    "difference_m": hour.difference().map(Length::as_metres),
                })
            })
            .collect();
    }
    found
}

fn water(report: &Report<'_>, turn: &Turn) -> Value {
    let at: Timestamp = turn.at;
    json!({
        "water": words::water(turn.water),
        "utc": when::utc(at),
        "local": when::local(at, &report.zone),
        "height_m": turn.height.as_metres(),
    })
}

/// The standard port's water, and the differences that were used.
fn standard(report: &Report<'_>, both: &Shifted) -> Value {
    let mut it = water(report, &both.standard);
    it["later_min"] = json!(words::minutes(both));
    it["higher_m"] = json!(both.higher.as_metres());
    it
}
