//! Starts, as JSON: full precision, names with their unit, `null` for what there is not.

use std::io::Write;

use jiff::Timestamp;
use nav::text;
use plan::Limits;
use plan::depart::{GateHours, Light, Start, Starts};
use serde_json::{Value, json};

use super::{Report, csv, remarks, rows};
use crate::when;

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    let port = report.days.first().and_then(|day| day.port.as_ref());
    let document = json!({
        "route": report.route.title,
        "chart": report.origin.chart,
        "invented": report.origin.invented,
        "pace_kn": report.route.pace.speed().as_knots(),
        "every_s": report.every.duration().as_secs(),
        "limits": limits(&report.limits),
        "tide_port": port.map(|port| json!({
            "name": port.name,
            "away_m": port.away.as_metres(),
            "no_land_between": port.clear,
        })),
        "best": report.best().map(|best| when::utc(best.at)),
        "days": report.days.iter().map(|starts| day(report, starts)).collect::<Vec<_>>(),
        "remarks": remarks::of(report),
        "caution": text::CAUTION,
    });
    serde_json::to_writer_pretty(&mut *to, &document)?;
    writeln!(to)?;
    Ok(())
}

fn limits(limits: &Limits) -> Value {
    json!({
        "worst_race": limits.worst_race.to_string(),
        "light_left_s": limits.light_left.map(|time| time.as_secs()),
        "longest_wait_s": limits.longest_wait.as_secs(),
        "greatest_drift_kn": limits.greatest_drift.map(|rate| rate.as_knots()),
        "least_height_m": limits.least_height.map(|height| height.as_metres()),
        "longest_day_s": limits.longest_day.map(|time| time.as_secs()),
        "slow_percent": limits.slow_percent,
    })
}

fn day(report: &Report<'_>, day: &Starts) -> Value {
    let waters = day.waters.iter().map(|turn| {
        json!({
            "water": crate::tide::water_word(turn.water),
            "utc": when::utc(turn.at),
            "local": when::local(turn.at, &report.zone),
            "height_m": turn.height.as_metres(),
        })
    });
    let twilights = day.light.twilights(day.from, day.to).map(|crossing| {
        let begins = crossing.way == nav::sun::Way::Rising;
        json!({ "civil_twilight": if begins { "begins" } else { "ends" }, "utc": when::utc(crossing.at) })
    });
    json!({
        "date": day.date.to_string(),
        "from_utc": when::utc(day.from),
        "to_utc": when::utc(day.to),
        "best": day.best().map(|best| when::utc(best.at)),
        "latest_within_limits": day.latest().map(|latest| when::utc(latest.at)),
        "waters": waters.collect::<Vec<_>>(),
        "gate": day.gate.as_ref().map(gate),
        "light_at_launch": twilights.collect::<Vec<_>>(),
        "starts": day.starts.iter().map(|it| start(report, it)).collect::<Vec<_>>(),
    })
}

fn gate(gate: &GateHours) -> Value {
    let open = gate
        .open
        .iter()
        .map(|(from, to)| json!({ "from_utc": when::utc(*from), "to_utc": when::utc(*to) }));
    json!({ "name": *gate.name, "open": open.collect::<Vec<_>>() })
}

fn start(report: &Report<'_>, start: &Start) -> Value {
    let both =
        |at: Timestamp| json!({ "utc": when::utc(at), "local": when::local(at, &report.zone) });
    let legs = start.legs.iter().map(|leg| {
        json!({
            "departs_utc": when::utc(leg.departs),
            "arrives_utc": when::utc(leg.arrives),
            "under_way_s": rows::under_way(leg).as_secs_f64(),
            "waited_s": leg.waited.as_secs_f64(),
            "against_s": leg.times.against.as_secs_f64(),
        })
    });
    let races = start.races().into_iter().map(|(leg, met)| {
        json!({
            "name": *met.name,
            "leg": leg + 1,
            "from_utc": when::utc(met.from),
            "to_utc": when::utc(met.to),
            "state": met.state.map(|state| state.to_string()),
        })
    });
    let gates = start.gates().map(|(leg, gate)| {
        json!({
            "name": *gate.name,
            "leg": leg + 1,
            "utc": when::utc(gate.at),
            "open": gate.open,
        })
    });
    let reasons = start.reasons.iter().map(|reason| reason.words(&report.zone));
    json!({
        "utc": when::utc(start.at),
        "local": when::local(start.at, &report.zone),
        "verdict": start.verdict.to_string(),
        "reasons": reasons.collect::<Vec<_>>(),
        "lands": start.landing.map(|landing| both(landing.at)),
        "time_s": start.landing.map(|landing| landing.took.as_secs_f64()),
        "waited_s": start.waited().as_secs_f64(),
        "against_s": start.against().as_secs_f64(),
        "worst_drift": start.worst_drift().map(|(rate, leg)| json!({ "rate_kn": rate.as_knots(), "leg": leg + 1 })),
        "legs": legs.collect::<Vec<_>>(),
        "races": races.collect::<Vec<_>>(),
        "gates": gates.collect::<Vec<_>>(),
        "tide_at_landing_m": start.landing.and_then(|it| it.height).map(|height| height.as_metres()),
        "light": start.landing.map(|landing| light_word(landing.light)),
        "light_left_s": start.landing.and_then(|landing| csv::light_left_s(landing.light)),
    })
}

/// `left`.
pub(super) const fn light_word(light: Light) -> &'static str {
    match light {
        Light::Left(_) => "light",
        Light::AllDay => "light all day",
        Light::Gone(_) => "dark",
        Light::NoDay => "dark all day",
    }
}
