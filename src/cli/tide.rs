//! The tide at a port, day by day.

mod csv;
mod curve;
mod json;
mod text;

#[cfg(test)]
mod tests;

use std::path::PathBuf;

use ::chart::Chart;
use ::chart::water::{Gauge, GaugeCurve, TideDay, Tides};
use anyhow::{Context, bail};
use clap::Args;
use files::{Source, Water};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Span, Timestamp};
use nav::tide::{MoonPhase, Phase, moon_phases};

use crate::when::{self, Day, Zone};
use crate::{Exit, Io};

/// Which port's tide, and when.
///
/// Times of high and low water, heights above the port's datum, the range beside mean springs and
/// neaps, the day's curve, and the month's springs, neaps and phases of the moon. Predicted here;
/// weather is left out, and the official tables come first.
#[derive(Debug, Args)]
pub struct TideArgs {
    /// The chart, or a port file; - for standard input; the built-in practice chart if none is given
    file: Option<PathBuf>,
    /// The port of the chart; its first if none is given
    #[arg(long, value_name = "NAME")]
    port: Option<String>,
    /// The first day; today if none is given
    #[arg(long, value_name = "DATE")]
    date: Option<Day>,
    /// How many days
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u16).range(1..=366))]
    days: u16,
    /// The clock's time zone, by name or offset; the nautical zone of the chart, or UTC, if none is
    /// given
    #[arg(long, value_name = "ZONE", allow_hyphen_values = true)]
    zone: Option<Zone>,
    /// Print JSON
    #[arg(long, conflicts_with = "csv")]
    json: bool,
    /// Print CSV
    #[arg(long)]
    csv: bool,
}

/// Where a tide is known from.
pub(crate) struct Origin {
    /// The chart's title; nothing of a port file.
    pub(crate) chart: Option<String>,
    pub(crate) invented: bool,
    /// What heights are above.
    pub(crate) datum: String,
    /// Where its constants came from; may be empty.
    pub(crate) source: String,
}

/// Everything that is printed.
struct Report<'a> {
    origin: Origin,
    gauge: &'a Gauge,
    /// The chart's other ports.
    others: Vec<&'a str>,
    zone: TimeZone,
    days: Vec<(Date, TideDay)>,
    /// The first day's.
    curve: GaugeCurve,
    springs: Vec<(Timestamp, Phase)>,
    moon: Vec<(Timestamp, MoonPhase)>,
}

/// Prints a port's tide.
pub(crate) fn run(args: TideArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let water = match &args.file {
        Some(path) => files::open_water(Source::or_input(path, &mut io.input))?,
        None => Water::Chart(Box::new(::chart::practice()?)),
    };
    let (origin, gauges, usual) = match water {
        Water::Chart(chart) => {
            let gauges = Tides::of(&chart)?.gauges().to_vec();
            (Origin::of(&chart), gauges, zone_of(&chart)?)
        }
        Water::Port(file) => {
            let (datum, source) = (file.datum.clone(), file.source.clone());
            let origin = Origin { chart: None, invented: false, datum, source };
            (origin, vec![Gauge::from(file)], TimeZone::UTC)
        }
    };
    let zone = args.zone.map_or(usual, |zone| zone.0);
    let first = when::day(args.date, &zone);
    let report = report(origin, &gauges, args.port.as_deref(), zone, (first, args.days))?;
    match (args.json, args.csv) {
        (true, _) => json::write(&report, io.output)?,
        (_, true) => csv::write(&report, io.output)?,
        _ => text::write(&report, io.output)?,
    }
    Ok(Exit::Done)
}

fn report<'a>(
    origin: Origin,
    gauges: &'a [Gauge],
    port: Option<&str>,
    zone: TimeZone,
    (first, count): (Date, u16),
) -> anyhow::Result<Report<'a>> {
    let names: Vec<&str> = gauges.iter().map(Gauge::name).collect();
    let chosen = match port {
        Some(port) => pick("port", &names, port)?,
        None if gauges.is_empty() => bail!("the chart has no ports, and so no tide"),
        None => 0,
    };
    let gauge = &gauges[chosen];
    let mut days = Vec::with_capacity(usize::from(count));
    let mut date = first;
    for _ in 0..count {
        days.push((date, gauge.day(date, &zone)?));
        date = date.tomorrow()?;
    }
    let (from, to) = month(first, &zone)?;
    let others =
        names.iter().enumerate().filter(|(index, _)| *index != chosen).map(|(_, name)| *name);
    let (day_from, day_to) = (days[0].1.from, days[0].1.to);
    Ok(Report {
        origin,
        gauge,
        others: others.collect(),
        zone,
        curve: gauge.curve(day_from, day_to)?,
        // A port whose springs cannot be told has none.
        springs: gauge.springs_and_neaps(from, to).unwrap_or_default(),
        moon: moon_phases(from, to)?,
        days,
    })
}

/// When the month of a day begins and ends.
fn month(date: Date, zone: &TimeZone) -> anyhow::Result<(Timestamp, Timestamp)> {
    let first = date.first_of_month();
    let next = first.checked_add(Span::new().months(1))?;
    let start = |date: Date| date.to_zoned_datetime(zone.clone()).map(|start| start.timestamp());
    Ok((start(first)?, start(next)?))
}

impl Origin {
    pub(crate) fn of(chart: &Chart) -> Origin {
        Origin {
            chart: Some(chart.title.clone()),
            invented: chart.invented,
            datum: "chart datum".to_owned(),
            source: chart.source.clone(),
        }
    }

    /// Where the constants came from, in a sentence.
    pub(crate) fn said(&self) -> String {
        match (self.source.as_str(), self.invented) {
            ("", true) => "They are invented with the place.".to_owned(),
            ("", false) => "Where they came from, and how old they are, is not said.".to_owned(),
            (source, _) => {
                let source = source.trim_end_matches('.');
                format!("Source: {source}. How old they are is not said.")
            }
        }
    }
}

/// The nautical zone of a chart's middle.
pub(crate) fn zone_of(chart: &Chart) -> anyhow::Result<TimeZone> {
    let middle = (chart.extent.min() + chart.extent.max()) / 2.0;
    Ok(plan::nautical_zone(chart.position(middle).context("the chart's middle")?.lon))
}

/// The number of the name that is wanted: the whole of it, else the one that begins with it.
pub(crate) fn pick(what: &str, names: &[&str], wanted: &str) -> anyhow::Result<usize> {
    let wanted = wanted.trim().to_lowercase();
    let lower: Vec<String> = names.iter().map(|name| name.to_lowercase()).collect();
    if let Some(whole) = lower.iter().position(|name| *name == wanted) {
        return Ok(whole);
    }
    let begins = |name: &String| !wanted.is_empty() && name.starts_with(&wanted);
    let found: Vec<usize> = (0..lower.len()).filter(|index| begins(&lower[*index])).collect();
    let listed = |of: Vec<&str>| of.join(", ");
    match found.as_slice() {
        [one] => Ok(*one),
        [] if names.is_empty() => bail!("the chart has no {what}s"),
        [] => bail!("no {what} is named “{wanted}”; there is {}", listed(names.to_vec())),
        many => {
            let many = many.iter().map(|index| names[*index]).collect();
            bail!("several {what}s begin with “{wanted}”: {}; give all of one", listed(many))
        }
    }
}

/// `new moon`.
fn moon_word(phase: MoonPhase) -> &'static str {
    match phase {
        MoonPhase::New => "new moon",
        MoonPhase::FirstQuarter => "first quarter",
        MoonPhase::Full => "full moon",
        MoonPhase::LastQuarter => "last quarter",
    }
}

/// `springs`.
fn springs_word(phase: Phase) -> &'static str {
    match phase {
        Phase::Springs => "springs",
        Phase::Neaps => "neaps",
    }
}

/// `high`.
pub(crate) fn water_word(water: nav::tide::Water) -> &'static str {
    match water {
        nav::tide::Water::High => "high",
        nav::tide::Water::Low => "low",
    }
}
