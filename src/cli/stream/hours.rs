//! The hours in which a gate is open, and those in which a race lies down.

use std::io::Write;

use ::chart::Chart;
use ::chart::water::{Known, Openings, RaceState, RaceStates, TidalGate, TidalRace, Tides};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::text::CAUTION;
use serde_json::json;

use super::{StreamArgs, known_word, remarks_of};
use crate::page::paragraph;
use crate::tide::{Origin, pick, zone_of};
use crate::{Exit, Io, when};

/// Everything that is printed.
struct Hours {
    origin: Origin,
    name: String,
    /// `tidal gate` or `race`.
    what: &'static str,
    /// By what it goes.
    rule: String,
    /// The chart's own word of it, or empty.
    note: String,
    known: Known,
    told: Vec<String>,
    from: Timestamp,
    zone: TimeZone,
    /// From when to when it is what.
    stretches: Vec<(Timestamp, Timestamp, String)>,
}

/// What is asked for: a gate or a race, its station, and its rule in words.
enum Asked<'a> {
    Gate(&'a TidalGate),
    Race(&'a TidalRace, usize),
}

/// Prints the hours of a gate or a race.
pub(super) fn run(
    args: &StreamArgs,
    chart: &Chart,
    tides: &Tides,
    io: &mut Io<'_>,
) -> anyhow::Result<Exit> {
    let asked = match find(args, tides)? {
        Ok(asked) => asked,
        Err(unknown) => {
            writeln!(io.errors, "{}", crate::Harmless(unknown))?;
            return Ok(Exit::No);
        }
    };
    let hours = hours(args, chart, tides, &asked)?;
    if hours.stretches.is_empty() {
        let untold = format!("nothing is known of {} then: {}", hours.name, hours.told.join("; "));
        writeln!(io.errors, "{}", crate::Harmless(untold))?;
        return Ok(Exit::No);
    }
    match (args.json, args.csv) {
        (true, _) => json(&hours, io.output)?,
        (_, true) => csv(&hours, io.output)?,
        _ => page(&hours, io.output)?,
    }
    Ok(Exit::Done)
}

/// The gate or race that is meant, or that its hours are not known.
fn find<'a>(args: &StreamArgs, tides: &'a Tides) -> anyhow::Result<Result<Asked<'a>, String>> {
    if let Some(name) = &args.gate {
        let names: Vec<&str> = tides.gates().iter().map(TidalGate::name).collect();
        return Ok(Ok(Asked::Gate(&tides.gates()[pick("gate", &names, name)?])));
    }
    let names: Vec<&str> = tides.races().iter().map(TidalRace::name).collect();
    let race = &tides.races()[pick("race", &names, args.race.as_deref().unwrap_or_default())?];
    let note = if race.note().is_empty() { String::new() } else { format!(": {}", race.note()) };
    let unknown = || format!("the chart does not say in figures when {} runs{note}", race.name());
    let station = race.conditions().map(|conditions| conditions.station);
    Ok(station.map(|station| Asked::Race(race, station)).ok_or_else(unknown))
}

fn hours(
    args: &StreamArgs,
    chart: &Chart,
    tides: &Tides,
    asked: &Asked<'_>,
) -> anyhow::Result<Hours> {
    let zone = args.zone.clone().map_or_else(|| zone_of(chart), |zone| Ok(zone.0))?;
    let date = when::day(args.date, &zone);
    let start = |date: jiff::civil::Date| date.to_zoned_datetime(zone.clone());
    let (from, to) = (start(date)?.timestamp(), start(date.tomorrow()?)?.timestamp());
    let half = SignedDuration::from_hours(12);
    let flows = tides.flows(from.checked_sub(half)?, to.checked_add(half)?)?;
    let (index, stretches) = match asked {
        Asked::Gate(gate) => (gate.station(), doors(&gate.openings(tides, &flows)?, from, to)),
        Asked::Race(race, station) => {
            let states = race.states(&flows);
            (*station, states.map(|states| moods(&states, from, to)).unwrap_or_default())
        }
    };
    let station = &tides.stations()[index];
    let ports = tides.goes_by(&Tides::only(index));
    let gauges = ports.iter().filter_map(|port| tides.gauges().get(*port));
    let (name, what, note) = match asked {
        Asked::Gate(gate) => (gate.name(), "tidal gate", gate.note()),
        Asked::Race(race, _) => (race.name(), "race", race.note()),
    };
    Ok(Hours {
        origin: Origin::of(chart),
        name: name.to_owned(),
        what,
        rule: rule(asked, tides, station.name()),
        note: note.to_owned(),
        known: station.known(),
        told: gauges.map(|gauge| gauge.told(date)).collect(),
        from,
        zone,
        stretches,
    })
}

/// By what it is open or runs.
fn rule(asked: &Asked<'_>, tides: &Tides, station: &str) -> String {
    match asked {
        Asked::Gate(gate) => {
            let limit = gate.limit().as_knots();
            let height = gate.sill().and_then(|(gauge, least)| {
                let port = tides.gauges().get(gauge)?.name();
                let metres = least.as_metres();
                Some(format!(", and the tide at {port} stands at {metres:.1} m or more"))
            });
            let height = height.unwrap_or_default();
            format!("Open while the stream at {station} is under {limit:.1} kn{height}.")
        }
        Asked::Race(race, _) => {
            let Some(conditions) = race.conditions() else { return String::new() };
            let (quiet, worst) = (conditions.quiet_under, conditions.worst_over);
            let set = |set: &(nav::Bearing<nav::True>, nav::Bearing<nav::True>)| {
                format!("{} to {}", set.0, set.1)
            };
            let sets: Vec<String> = conditions.sets.iter().map(set).collect();
            let sets = match sets.as_slice() {
                [] => String::new(),
                sets => format!(", and whenever that does not set {}", sets.join(" or ")),
            };
            format!(
                "Lies down while the stream at {station} is under {:.1} kn{sets}; at its worst \
                 over {:.1} kn.",
                quiet.as_knots(),
                worst.as_knots()
            )
        }
    }
}

/// From when to when a gate is open and shut; nothing where that is not known all through.
fn doors(
    openings: &Openings,
    from: Timestamp,
    to: Timestamp,
) -> Vec<(Timestamp, Timestamp, String)> {
    let mut found = Vec::new();
    if openings.is_open(from).is_none() || openings.is_open(to).is_none() {
        return found;
    }
    let mut at = from;
    for (opens, shuts) in openings.between(from, to) {
        if opens > at {
            found.push((at, opens, "shut".to_owned()));
        }
        found.push((opens, shuts, "open".to_owned()));
        at = shuts;
    }
    if at < to {
        found.push((at, to, "shut".to_owned()));
    }
    found
}

/// From when to when a race is in which state; nothing where that is not known all through.
fn moods(
    states: &RaceStates,
    from: Timestamp,
    to: Timestamp,
) -> Vec<(Timestamp, Timestamp, String)> {
    let (Some(first), Some(_)) = (states.at(from), states.at(to)) else { return Vec::new() };
    let within = states.changes().iter().filter(|change| change.0 > from && change.0 < to);
    let mut changes: Vec<(Timestamp, RaceState)> = vec![(from, first)];
    changes.extend(within);
    let ends = changes.iter().skip(1).map(|change| change.0).chain([to]);
    changes.iter().zip(ends).map(|(&(at, state), end)| (at, end, state.to_string())).collect()
}

fn remarks(hours: &Hours) -> Vec<String> {
    remarks_of(hours.known == Known::GreatestRate, &hours.told, &hours.origin)
}

fn page(hours: &Hours, to: &mut dyn Write) -> std::io::Result<()> {
    let Hours { origin, name, what, zone, .. } = hours;
    let chart = origin.chart.as_deref().unwrap_or_default();
    paragraph("", &format!("{name}, a {what}, on the chart {chart}"), to)?;
    if origin.invented {
        writeln!(to, "An invented place: it does not exist.")?;
    }
    let day = hours.from.to_zoned_datetime(zone.clone()).strftime("%A %-d %B %Y");
    paragraph("", &format!("{day}; times are {}.", when::zone_name(hours.from, zone)), to)?;
    paragraph("  ", &hours.rule, to)?;
    paragraph("  ", &format!("The stream is known by {}.", known_word(hours.known)), to)?;
    if !hours.note.is_empty() {
        paragraph("  ", &hours.note, to)?;
    }
    writeln!(to)?;
    for (from, end, word) in &hours.stretches {
        let [from, end] = [from, end].map(|at| when::clock(*at, zone));
        writeln!(to, "  {from} to {end}  {word}")?;
    }
    writeln!(to)?;
    for remark in remarks(hours) {
        paragraph("", &remark, to)?;
    }
    paragraph("", CAUTION, to)
}

fn csv(hours: &Hours, to: &mut dyn Write) -> anyhow::Result<()> {
    let mut csv = csv::Writer::from_writer(to);
    csv.write_record(["from_utc", "to_utc", "from_local", "to_local", "state"])?;
    for (from, end, word) in &hours.stretches {
        let (utc, local) = (when::utc, |at| when::local(at, &hours.zone));
        csv.write_record([utc(*from), utc(*end), local(*from), local(*end), word.clone()])?;
    }
    csv.flush()?;
    Ok(())
}

fn json(hours: &Hours, to: &mut dyn Write) -> anyhow::Result<()> {
    let stretch = |(from, end, word): &(Timestamp, Timestamp, String)| {
        json!({
            "from_utc": when::utc(*from),
            "to_utc": when::utc(*end),
            "from_local": when::local(*from, &hours.zone),
            "to_local": when::local(*end, &hours.zone),
            "state": word,
        })
    };
    let document = json!({
        "chart": hours.origin.chart,
        "invented": hours.origin.invented,
        "name": hours.name,
        "kind": hours.what,
        "rule": hours.rule,
        "note": hours.note,
        "known_by": known_word(hours.known),
        "stretches": hours.stretches.iter().map(stretch).collect::<Vec<_>>(),
        "remarks": remarks(hours),
        "caution": CAUTION,
    });
    serde_json::to_writer_pretty(&mut *to, &document)?;
    writeln!(to)?;
    Ok(())
}
