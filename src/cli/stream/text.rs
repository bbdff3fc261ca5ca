//! The stream, as a page.

use std::io::{self, Write};

use jiff::Timestamp;
use nav::text::{CAUTION, kilometres};
use nav::{Length, Speed};

use super::{Report, known_word, remarks};
use crate::page::paragraph;
use crate::when;

pub(super) fn write(report: &Report, to: &mut dyn Write) -> io::Result<()> {
    head(report, to)?;
    writeln!(to)?;
    for (at, stream) in &report.hours {
        let rate = knots(stream.drift);
        // What is still sets nowhere.
        let set = if rate == "0.0 kn" { "still".to_owned() } else { stream.set.to_string() };
        writeln!(to, "  {}  {set}  {rate:>7}", clock(report, *at))?;
    }
    if report.whole {
        writeln!(to)?;
        events(report, to)?;
    }
    writeln!(to)?;
    for remark in remarks(report) {
        paragraph("", &remark, to)?;
    }
    paragraph("", CAUTION, to)
}

fn head(report: &Report, to: &mut dyn Write) -> io::Result<()> {
    let chart = report.origin.chart.as_deref().unwrap_or_default();
    let name = &report.name;
    let place = match report.reference.as_str() {
        "" => name.clone(),
        reference if reference == name => name.clone(),
        reference => format!("{name}, {reference}"),
    };
    paragraph("", &format!("{place}, on the chart {chart}"), to)?;
    if report.origin.invented {
        writeln!(to, "An invented place: it does not exist.")?;
    }
    let day = report.from.to_zoned_datetime(report.zone.clone()).strftime("%A %-d %B %Y");
    let zone = when::zone_name(report.from, &report.zone);
    paragraph(
        "",
        &format!("{day}; times are {zone}. Where the stream sets to, and its rate."),
        to,
    )?;
    for part in &report.parts {
        let (share, away) = (part.part * 100.0, kilometres(part.away));
        let known = known_word(part.known);
        let said = match report.parts.len() {
            1 if part.away == Length::ZERO => format!("known by {known}"),
            _ => format!("{share:.0} % of {}, {away} off, known by {known}", part.name),
        };
        paragraph("  ", &said, to)?;
    }
    Ok(())
}

/// Turns, slack water and the greatest rates.
fn events(report: &Report, to: &mut dyn Write) -> io::Result<()> {
    for turn in &report.turns {
        writeln!(to, "  turns     {}, then {}", clock(report, turn.at), turn.then)?;
    }
    for it in &report.slack {
        let [from, end, least_at] = [it.from, it.to, it.least_at].map(|at| clock(report, at));
        let (limit, least) = (knots(report.limit), knots(it.least));
        writeln!(to, "  slack     {from} to {end} under {limit}; least {least} at {least_at}")?;
    }
    for it in &report.greatest {
        let (at, rate) = (clock(report, it.at), knots(it.stream.drift));
        writeln!(to, "  greatest  {at}, {} {rate}", it.stream.set)?;
    }
    Ok(())
}

fn clock(report: &Report, at: Timestamp) -> String {
    when::clock(at, &report.zone)
}

/// `3.2 kn`.
fn knots(speed: Speed) -> String {
    format!("{:.1} kn", speed.as_knots())
}
