//! The tide, as a page.

use std::io::{self, Write};

use ::chart::water::TideDay;
use jiff::civil::Date;
use nav::Length;
use nav::text::CAUTION;

use super::{Report, curve, moon_word, springs_word, water_word};
use crate::page::paragraph;
use crate::when;

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    head(report, to)?;
    let many = report.days.len() > 1;
    for (date, tide) in &report.days {
        writeln!(to)?;
        day(report, *date, tide, to)?;
    }
    if let (Some((_, tide)), false) = (report.days.first(), many) {
        writeln!(to)?;
        for line in curve::lines(&report.curve, tide.from, tide.to, &report.zone) {
            writeln!(to, "{line}")?;
        }
    }
    month(report, to)?;
    writeln!(to)?;
    for remark in remarks(report) {
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
    let from = report.days.first().map(|(_, day)| day.from);
    let zone = from.map_or_else(String::new, |from| when::zone_name(from, &report.zone));
    let datum = match report.origin.datum.as_str() {
        "" => "a datum that is not named",
        datum => datum,
    };
    paragraph("", &format!("Times are {zone}. Heights are above {datum}."), to)
}

fn day(report: &Report<'_>, date: Date, tide: &TideDay, to: &mut dyn Write) -> io::Result<()> {
    writeln!(to, "{}", date.strftime("%A %-d %B %Y"))?;
    for turn in &tide.turns {
        let (word, clock) = (water_word(turn.water), when::clock(turn.at, &report.zone));
        writeln!(to, "  {word:<5} {clock}  {:>7}", metres(turn.height.above()))?;
    }
    if tide.turns.is_empty() {
        writeln!(to, "  neither high nor low water")?;
    }
    let Some(range) = tide.range else { return Ok(()) };
    match (report.gauge.ranges(), tide.factor) {
        (Ok(means), Some(factor)) => {
            let (springs, neaps) = (metres(means.springs()), metres(means.neaps()));
            writeln!(to, "  range {}; mean springs {springs}, mean neaps {neaps}", metres(range))?;
            writeln!(to, "  factor {factor:.2}, where 0 is mean neaps and 1 mean springs")
        }
        _ => writeln!(to, "  range {}", metres(range)),
    }
}

/// What comes in the month, in order.
fn month(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    let Some((first, _)) = report.days.first() else { return Ok(()) };
    let springs = report.springs.iter().map(|&(at, phase)| (at, springs_word(phase)));
    let moon = report.moon.iter().map(|&(at, phase)| (at, moon_word(phase)));
    let mut all: Vec<_> = springs.chain(moon).collect();
    all.sort_by_key(|&(at, _)| at);
    writeln!(to, "\n{}", first.strftime("%B %Y"))?;
    for (at, what) in all {
        writeln!(to, "  {what:<14} {}", when::day_and_clock(at, &report.zone))?;
    }
    Ok(())
}

/// `4.52 m`.
fn metres(length: Length) -> String {
    // Adding nothing takes the sign off a zero.
    let hundredths = (length.as_metres() * 100.0).round() / 100.0 + 0.0;
    format!("{hundredths:.2} m")
}

/// What must be said of the figures.
pub(super) fn remarks(report: &Report<'_>) -> Vec<String> {
    let gauge = report.gauge;
    let on = report.days.first().map_or(Date::MIN, |(date, _)| *date);
    let how = format!("Told {}.", gauge.said(on));
    let mut said = vec![
        how,
        "Left out: weather, surge, a river in flood. Weather alone moves heights by decimetres and \
         times by many minutes. The official tide tables come first."
            .to_owned(),
    ];
    if !report.others.is_empty() {
        said.push(format!("Other ports of the chart: {}.", report.others.join(", ")));
    }
    said
}
