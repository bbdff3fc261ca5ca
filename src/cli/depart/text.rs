//! Starts as a page 80 columns wide.

use std::io::{self, Write};

use jiff::SignedDuration;
use nav::text::{CAUTION, duration};
use plan::Limit;
use plan::depart::{Landing, Light, Start, Starts, Strip};
use plan::table::fitted;

use super::{Report, many, rows};
use crate::page::{COLUMNS, paragraph};
use crate::when;

/// How much time a column of the day's strip covers: 75 of them in the longest day.
const COLUMN: SignedDuration = SignedDuration::from_mins(20);

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    head(report, to)?;
    writeln!(to)?;
    match report.days.as_slice() {
        [day] => one(report, day, to)?,
        _ => many::write(report, to)?,
    }
    writeln!(to)?;
    for remark in super::remarks::of(report) {
        paragraph("", &remark, to)?;
    }
    paragraph("", CAUTION, to)
}

fn head(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    let title = match report.route.title.as_str() {
        "" => "Route without a title",
        title => title,
    };
    writeln!(to, "{}", fitted(&format!("When to leave: {title}"), COLUMNS))?;
    let chart = report.origin.chart.as_deref().unwrap_or_default();
    paragraph("", &format!("on the chart {chart}"), to)?;
    if report.origin.invented {
        writeln!(to, "The chart is invented: the place does not exist.")?;
    }
    let Some(day) = report.days.first() else { return Ok(()) };
    let from = day.date.strftime("%A %-d %B %Y");
    let span = match report.days.len() {
        1 => from.to_string(),
        count => format!("{count} days from {from}"),
    };
    let every = duration(report.every.duration());
    let zone = when::zone_name(day.from, &report.zone);
    let pace = report.route.pace;
    paragraph("", &format!("{span}, a start every {every}. Times are {zone}. Pace {pace}."), to)?;
    let set = |limit: &Limit| report.limits.written(*limit) != "none";
    let limits = Limit::ALL.into_iter().filter(set);
    let limits: Vec<String> =
        limits.map(|limit| format!("{limit} {}", report.limits.written(limit))).collect();
    paragraph("", &format!("Limits: {}.", limits.join(", ")), to)
}

/// A day: its strip, its best and latest, and every start.
fn one(report: &Report<'_>, day: &Starts, to: &mut dyn Write) -> io::Result<()> {
    let cells = Strip::of(day, COLUMN);
    for row in report.signs.rows(&cells) {
        writeln!(to, "{row}")?;
    }
    writeln!(to)?;
    legend(COLUMN, &report.signs.legend(&cells), to)?;
    let port = day.port.as_ref().map(|port| format!("high and low water at {}", port.name));
    let gate = day.gate.as_ref().map(|gate| format!("when {} is open", gate.name));
    let light = Some("day (=) and civil twilight (-)".to_owned());
    let rows: Vec<String> = [port, gate, light].into_iter().flatten().collect();
    paragraph("", &format!("Below them, by the clock: {}.", rows.join("; ")), to)?;
    writeln!(to)?;
    named(report, day, to)?;
    writeln!(to)?;
    rows::write(report, day, to)
}

/// What the signs of a strip with columns of so much time mean.
pub(super) fn legend(column: SignedDuration, signs: &str, to: &mut dyn Write) -> io::Result<()> {
    let column = duration(column);
    paragraph("", &format!("A column is {column}, and shows the worst of its starts: {signs}."), to)
}

/// The best and the latest start, in full.
fn named(report: &Report<'_>, day: &Starts, to: &mut dyn Write) -> io::Result<()> {
    let Some(best) = day.best() else {
        return paragraph("", "No start of the day keeps within the limits.", to);
    };
    full("Best", best, report, to)?;
    match day.latest() {
        Some(latest) if latest.at != best.at => {
            full("Latest within the limits", latest, report, to)
        }
        _ => writeln!(to, "It is the latest within the limits, too."),
    }
}

/// A start with its legs.
pub(super) fn full(
    what: &str,
    start: &Start,
    report: &Report<'_>,
    to: &mut dyn Write,
) -> io::Result<()> {
    let clock = |at| when::clock(at, &report.zone);
    let landing = start.landing.as_ref().map_or_else(String::new, |it| landed(it, report));
    let but = match start.reasons.as_slice() {
        [] => String::new(),
        reasons => {
            let words: Vec<String> = reasons.iter().map(|it| it.words(&report.zone)).collect();
            format!(" ({}: {})", start.verdict, words.join("; "))
        }
    };
    paragraph("", &format!("{what}: {}, {landing}{but}.", clock(start.at)), to)?;
    for (number, leg) in (1..).zip(&start.legs) {
        let (departs, arrives) = (clock(leg.departs), clock(leg.arrives));
        let time = duration(rows::under_way(leg));
        writeln!(to, "  leg {number:<3} {departs} to {arrives}  {time:>7}{}", rows::with(leg))?;
    }
    for (_, met) in start.races() {
        let (from, end) = (clock(met.from), clock(met.to));
        let state = met.state.map_or_else(|| "not known".to_owned(), |state| state.to_string());
        writeln!(
            to,
            "  {}",
            fitted(&format!("{} {state}, {from} to {end}", met.name), COLUMNS - 2)
        )?;
    }
    for (_, gate) in start.gates() {
        let open = match gate.open {
            Some(true) => "open",
            Some(false) => "shut",
            None => "not known",
        };
        writeln!(
            to,
            "  {}",
            fitted(&format!("{} {open}, {}", gate.name, clock(gate.at)), COLUMNS - 2)
        )?;
    }
    Ok(())
}

/// `2 h 05, lands 12:25 with 9 h 10 of light left and a tide of 3.2 m`.
fn landed(landing: &Landing, report: &Report<'_>) -> String {
    let light = match landing.light {
        Light::Left(left) => format!("with {} of light left", duration(left)),
        Light::AllDay => "in light that does not end".to_owned(),
        Light::Gone(gone) => format!("{} after the end of civil twilight", duration(gone)),
        Light::NoDay => "in the dark".to_owned(),
    };
    let height = landing.height.map(|height| format!(", the tide at {}", rows::metres(height)));
    let (took, at) = (duration(landing.took), when::clock(landing.at, &report.zone));
    format!("{took}, lands {at} {light}{}", height.unwrap_or_default())
}
