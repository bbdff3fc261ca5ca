//! The tide, as a page.

use std::io::{self, Write};

use jiff::civil::Date;
use nav::Length;
use nav::text::{CAUTION, springs_or_neaps};

use super::curve;
use super::report::{DayOfTide, Report, Show};
use super::words::{self, metres, more};
use crate::page::paragraph;
use crate::when;

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    head(report, to)?;
    match report.show {
        Show::Month => month_of_days(report, to)?,
        Show::Days | Show::Hours => {
            days(report, to)?;
            month(report, to)?;
        }
    }
    writeln!(to)?;
    for remark in words::remarks(report) {
        paragraph("", &remark, to)?;
    }
    paragraph("", CAUTION, to)
}

fn head(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    let name = report.gauge.name();
    match &report.origin.chart {
        Some(chart) => paragraph("", &format!("{name}, on the chart {chart}"), to)?,
        None => paragraph("", name, to)?,
    }
    if report.origin.invented {
        writeln!(to, "An invented place: it does not exist.")?;
    }
    let from = report.days.first().map(|day| day.tide.from);
    let zone = from.map_or_else(String::new, |from| when::zone_name(from, &report.zone));
    let datum = match report.origin.datum.as_str() {
        "" => "a datum that is not named",
        datum => datum,
    };
    paragraph("", &format!("Times are {zone}. Heights are above {datum}."), to)?;
    if let Ok(means) = report.gauge.ranges() {
        let (springs, neaps) = (metres(means.springs()), metres(means.neaps()));
        writeln!(to, "Mean range {springs} at springs, {neaps} at neaps.")?;
    }
    Ok(())
}

fn days(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    for of_tide in &report.days {
        writeln!(to)?;
        day(report, of_tide, to)?;
    }
    let ([only], Some(curve)) = (report.days.as_slice(), &report.curve) else { return Ok(()) };
    let lines = curve::lines(curve, only.tide.from, only.tide.to, &report.zone);
    if !lines.is_empty() {
        writeln!(to)?;
    }
    lines.iter().try_for_each(|line| writeln!(to, "{line}"))
}

fn day(report: &Report<'_>, day: &DayOfTide, to: &mut dyn Write) -> io::Result<()> {
    writeln!(to, "{}", day.date.strftime("%A %-d %B %Y"))?;
    for (index, turn) in day.tide.turns.iter().enumerate() {
        let (word, clock) = (words::water(turn.water), when::clock(turn.at, &report.zone));
        write!(to, "  {word:<5} {clock}  {:>7}", metres(turn.height.above()))?;
        match day.shifted.get(index) {
            Some(both) => writeln!(to, "   {}", words::differences(report, both))?,
            None => writeln!(to)?,
        }
    }
    if !day.shifted.is_empty() {
        let standard = report.gauge.standard();
        paragraph("  ", &format!("differences on the waters of {standard}, beside them"), to)?;
    }
    if day.tide.turns.is_empty() {
        writeln!(to, "  neither high nor low water")?;
    }
    covered(report, day, to)?;
    match (day.tide.range, day.tide.factor) {
        (Some(range), Some(factor)) => {
            writeln!(to, "  range {}, {}", metres(range), springs_or_neaps(factor))?;
        }
        (Some(range), None) => writeln!(to, "  range {}", metres(range))?,
        (None, _) => {}
    }
    if let Some(season) = day.season {
        writeln!(to, "  season {}, in the heights", more(season.added))?;
    }
    if let Some(moon) = words::moon_on(report, day) {
        writeln!(to, "  moon {moon}")?;
    }
    hours(report, day, to)
}

/// How much of the day a printed table has, where that is not the whole of it.
fn covered(report: &Report<'_>, day: &DayOfTide, to: &mut dyn Write) -> io::Result<()> {
    let Some((from, end)) = report.gauge.covers() else { return Ok(()) };
    let clock = |at| when::clock(at, &report.zone);
    if from >= day.tide.to || end < day.tide.from {
        return writeln!(to, "  not in the table");
    }
    if from > day.tide.from {
        writeln!(to, "  nothing is known before {}", clock(from))?;
    }
    if end < day.tide.to {
        writeln!(to, "  nothing is known after {}", clock(end))?;
    }
    Ok(())
}

/// The height at each hour that has one.
fn hours(report: &Report<'_>, day: &DayOfTide, to: &mut dyn Write) -> io::Result<()> {
    if !day.hours.iter().any(|hour| hour.height.is_some()) {
        return Ok(());
    }
    let by_constants = report.gauge.table().is_none() && !report.gauge.is_secondary();
    let how = if by_constants { "predicted" } else { "by cosine" };
    writeln!(to, "\n  hour   {how}   by twelfths   difference")?;
    for hour in &day.hours {
        let Some(height) = hour.height else { continue };
        let height = metres(height.above());
        let cell = |length: Option<Length>, written: fn(Length) -> String| {
            length.map_or_else(String::new, written)
        };
        let twelfths = cell(hour.twelfths.map(nav::tide::Height::above), metres);
        let difference = cell(hour.difference(), more);
        let clock = when::clock(hour.at, &report.zone);
        let line = format!("  {clock}  {height:>10}    {twelfths:>10}   {difference:>10}");
        writeln!(to, "{}", line.trim_end())?;
    }
    Ok(())
}

/// What comes in the month, in order.
fn month(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    let Some(first) = report.days.first() else { return Ok(()) };
    let springs = report.springs.iter().map(|&(at, phase)| (at, words::springs(phase)));
    let moon = report.moon.iter().map(|&(at, phase)| (at, words::moon(phase)));
    let mut all: Vec<_> = springs.chain(moon).collect();
    all.sort_by_key(|&(at, _)| at);
    writeln!(to, "\n{}", first.date.strftime("%B %Y"))?;
    for (at, what) in all {
        writeln!(to, "  {what:<14} {}", when::day_and_clock(at, &report.zone))?;
    }
    Ok(())
}

/// A month's ranges, a day to a line, with what comes on it.
fn month_of_days(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    let Some(first) = report.days.first() else { return Ok(()) };
    writeln!(to, "\n{}", first.date.strftime("%B %Y"))?;
    for day in &report.days {
        let range = day.tide.range.map_or_else(|| "unknown".to_owned(), metres);
        let size = day.tide.factor.map_or_else(String::new, springs_or_neaps);
        let events = events(report, day);
        let line = format!("  {}  {range:>7}  {size:<40}  {events}", day.date.strftime("%a %e"));
        writeln!(to, "{}", line.trim_end())?;
    }
    writeln!(to)?;
    let said = |what: &str, day: Option<(Date, Length)>, to: &mut dyn Write| match day {
        Some((date, range)) => {
            writeln!(to, "{what} range {} on {}.", metres(range), date.strftime("%A %-d %B"))
        }
        None => Ok(()),
    };
    said("Greatest", report.extreme(f64::total_cmp), to)?;
    said("Least", report.extreme(|a, b| b.total_cmp(a)), to)
}

/// `springs 12:46, new moon 00:54`.
fn events(report: &Report<'_>, day: &DayOfTide) -> String {
    let within = |at: &jiff::Timestamp| (day.tide.from..day.tide.to).contains(at);
    let springs = report.springs.iter().map(|&(at, phase)| (at, words::springs(phase)));
    let moon = report.moon.iter().map(|&(at, phase)| (at, words::moon(phase)));
    let all = springs.chain(moon).filter(|(at, _)| within(at));
    let said = all.map(|(at, what)| format!("{what} {}", when::clock(at, &report.zone)));
    said.collect::<Vec<_>>().join(", ")
}
