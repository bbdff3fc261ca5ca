//! The tide at a port, day by day.

mod csv;
mod curve;
mod json;
mod report;
mod text;
mod words;

#[cfg(test)]
mod tests;

use std::path::PathBuf;

use ::chart::Chart;
use ::chart::water::{Gauge, Tides};
use anyhow::{Context, bail};
use clap::Args;
use files::{Source, Water};
use jiff::tz::TimeZone;
use nav::tide::AirPressure;

use crate::when::{self, Day, Month, Zone};
use crate::{Exit, Io};
use report::{PutOn, Report, Show};

pub(crate) use words::water as water_word;

/// Which port's tide, and when.
///
/// Times of high and low water, heights above the port's datum, the range between mean neaps and
/// mean springs, the day's curve, and the month's springs, neaps and phases of the moon. Predicted
/// here from constants or differences, or told from a printed table that was typed in; weather is
/// left out unless its pressure is given, and the official tables come first.
#[derive(Debug, Args)]
pub struct TideArgs {
    /// The chart, or a port file; - for standard input; the built-in practice chart if none is given
    file: Option<PathBuf>,
    /// The port of the chart; its first if none is given
    #[arg(long, value_name = "NAME")]
    port: Option<String>,
    /// The first day; today if none is given, or the first of a printed table that lacks today
    #[arg(long, value_name = "DATE")]
    date: Option<Day>,
    /// How many days
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u16).range(1..=366))]
    days: u16,
    /// A month's ranges in place of days: its greatest and least, springs, neaps and the moon
    #[arg(long, value_name = "MONTH", conflicts_with_all = ["date", "days", "hours", "pressure", "season"])]
    month: Option<Month>,
    /// The height at each hour, beside that by the rule of twelfths; a printed table always has it
    #[arg(long)]
    hours: bool,
    /// The air's pressure at sea level in hectopascals, which raises or lowers the water
    #[arg(long, value_name = "HPA", value_parser = pressure)]
    pressure: Option<AirPressure>,
    /// Put on the season's level, where the port states it for the months
    #[arg(long)]
    season: bool,
    /// The clock's time zone, by name or offset; a printed table's own, the nautical zone of the chart,
    /// or UTC, if none is given
    #[arg(long, value_name = "ZONE", allow_hyphen_values = true)]
    zone: Option<Zone>,
    /// Print JSON
    #[arg(long, conflicts_with = "csv")]
    json: bool,
    /// Print CSV
    #[arg(long)]
    csv: bool,
}

fn pressure(text: &str) -> Result<AirPressure, String> {
    let number: f64 = text.parse().map_err(|_| "write hectopascals, such as 990".to_owned())?;
    AirPressure::from_hectopascals(number).map_err(|error| error.to_string())
}

/// Where a tide is known from.
pub(crate) struct Origin {
    /// The chart's title; nothing of a port file.
    pub(crate) chart: Option<String>,
    pub(crate) invented: bool,
    /// What heights are above.
    pub(crate) datum: String,
    /// Where its figures came from; may be empty.
    pub(crate) source: String,
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
            (origin, vec![Gauge::from(*file)], TimeZone::UTC)
        }
    };
    let names: Vec<&str> = gauges.iter().map(Gauge::name).collect();
    let chosen = match args.port.as_deref() {
        Some(port) => pick("port", &names, port)?,
        None if gauges.is_empty() => bail!("the chart has no ports, and so no tide"),
        None => 0,
    };
    let gauge = &gauges[chosen];
    let zone = args.zone.clone().map(|zone| zone.0).or_else(|| gauge.zone().cloned());
    let zone = zone.unwrap_or(usual);
    let others = names.iter().enumerate().filter(|(index, _)| *index != chosen);
    let others: Vec<&str> = others.map(|(_, name)| *name).collect();
    let report = report(&args, Report::new(origin, gauge, others, zone))?;
    if let Some(nothing) = words::nothing(&report) {
        writeln!(io.errors, "{}", crate::Harmless(nothing))?;
        return Ok(Exit::No);
    }
    match (args.json, args.csv) {
        (true, _) => json::write(&report, io.output)?,
        (_, true) => csv::write(&report, io.output)?,
        _ => text::write(&report, io.output)?,
    }
    Ok(Exit::Done)
}

fn report<'a>(args: &TideArgs, mut report: Report<'a>) -> anyhow::Result<Report<'a>> {
    report.put_on = PutOn { pressure: args.pressure, season: args.season };
    if let Some(Month(first)) = args.month {
        report.show = Show::Month;
        let count = u16::try_from(first.days_in_month()).unwrap_or(31);
        report.fill(first, count)?;
        return Ok(report);
    }
    if args.hours || report.gauge.table().is_some() {
        report.show = Show::Hours;
    }
    let first = match args.date {
        Some(Day(date)) => date,
        None => report.first_day(when::day(None, &report.zone)),
    };
    report.fill(first, args.days)?;
    Ok(report)
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

    /// Where the chart's streams came from, in a sentence.
    pub(crate) fn said(&self) -> String {
        match (self.source.as_str(), self.invented) {
            (_, true) => "The streams are invented with the place.".to_owned(),
            ("", false) => "No source of the streams is stated.".to_owned(),
            (source, false) => {
                let source = source.trim_end_matches('.');
                format!("Source of the streams: {source}. How old they are is not stated.")
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
