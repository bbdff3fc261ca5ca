//! A comparison as a page 80 columns wide.

use std::io::{self, Write};

use jiff::{SignedDuration, Timestamp};
use nav::text::{CAUTION, duration, kilometres, nautical_miles};
use plan::compare::{Figures, Passing, Stage};
use plan::table::fitted;

use super::{Report, words};
use crate::page::{COLUMNS, paragraph};
use crate::tide::Origin;
use crate::when;

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    head(report, to)?;
    writeln!(to)?;
    points(report, to)?;
    if !report.compared.stages.is_empty() {
        writeln!(to)?;
        stages(report, to)?;
    }
    writeln!(to)?;
    strays(report, to)?;
    listed("Stops", &words::stops(report), to)?;
    listed("Gaps", &words::gaps(report), to)?;
    writeln!(to)?;
    for line in words::paces(report).into_iter().chain(words::kept(report)) {
        paragraph("", &line, to)?;
    }
    writeln!(to)?;
    for note in words::notes(report) {
        paragraph("", &format!("Note: {note}"), to)?;
    }
    paragraph("", &words::method(report), to)?;
    if let (Some((from, _)), Some(tides)) = (report.compared.recorded, report.tides) {
        let date = from.to_zoned_datetime(report.zone.clone()).date();
        let told = tides.told(date);
        let told = told.iter().map(|told| format!("Tide and stream are told {told}."));
        let told = told.chain([Origin::of(&report.water.chart).said()]);
        paragraph("", &told.collect::<Vec<_>>().join(" "), to)?;
    }
    paragraph("", CAUTION, to)
}

fn head(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    let title = match report.route.title.as_str() {
        "" => "Route without a title",
        title => title,
    };
    writeln!(to, "{}", fitted(&format!("Track against plan: {title}"), COLUMNS))?;
    paragraph("", &format!("on the chart {}", report.water.chart.title), to)?;
    if report.water.chart.invented {
        paragraph("", "The chart is invented: the place does not exist.", to)?;
    }
    let name = match report.track.name() {
        "" => "Track without a name",
        name => name,
    };
    let when = report.compared.recorded.map(|(from, last)| {
        let zone = when::zone_name(from, &report.zone);
        let date = |at: Timestamp| at.to_zoned_datetime(report.zone.clone()).date();
        let to = match date(from) == date(last) {
            true => when::clock(last, &report.zone),
            false => when::day_and_clock(last, &report.zone),
        };
        format!(", {} to {to}, {zone}", when::day_and_clock(from, &report.zone))
    });
    paragraph("", &format!("{name}{}.", when.unwrap_or_else(|| ", without times".to_owned())), to)?;
    paragraph("", &words::cleaning(report), to)?;
    let whole = &report.compared.whole;
    let times = match report.compared.recorded {
        Some(_) => format!(
            ": {} moving, {} stopped, {} not seen",
            duration(whole.moving),
            duration(whole.stopped),
            duration(whole.unseen)
        ),
        None => String::new(),
    };
    let across = match whole.across.as_metres() {
        across if across < 1.0 => String::new(),
        _ => format!("; {} straight across gaps, not counted", words::both(whole.across)),
    };
    paragraph("", &format!("The whole track: {}{times}{across}.", words::both(whole.made)), to)
}

/// `+12 min`, `-3 min`, `0 min`.
fn late(actual: Option<Timestamp>, planned: Option<Timestamp>) -> String {
    let Some((actual, planned)) = actual.zip(planned) else { return "-".to_owned() };
    let late = actual.duration_since(planned);
    let said = duration(late.abs());
    match said.as_str() {
        "0 min" => said,
        _ if late.is_negative() => format!("-{said}"),
        _ => format!("+{said}"),
    }
}

fn points(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    line(to, "   #  point                   plan  by start    came    went       late  nearest")?;
    let clock = |at: Option<Timestamp>| {
        at.map_or_else(|| "-".to_owned(), |at| when::clock(at, &report.zone))
    };
    let planned = |times: &Option<plan::compare::Times>, index: usize| {
        times.as_ref().and_then(|times| times.arrives.get(index).copied().flatten())
    };
    let compared = report.compared;
    for (index, point) in compared.points.iter().enumerate() {
        let Passing { nearest, passed, arrives, leaves } = *point;
        let name = report.route.points.get(index).map_or("", |point| point.name.as_str());
        let plan = planned(&compared.planned, index);
        let (came, went) = match (passed, index) {
            (false, _) => ("not".to_owned(), "passed".to_owned()),
            // Where the day begins, nobody comes.
            (true, 0) => (String::new(), clock(leaves)),
            (true, last) if last + 1 == compared.points.len() => (clock(arrives), String::new()),
            (true, _) => (clock(arrives), clock(leaves)),
        };
        let actual = if index == 0 { leaves } else { arrives };
        let row = format!(
            " {:>3}  {}  {:>6}  {:>8}  {came:>6}  {went:>6}  {:>9}  {:>7}",
            index + 1,
            column(name, 20),
            clock(plan),
            clock(planned(&compared.from_start, index)),
            late(actual, plan),
            nearest.map_or_else(|| "-".to_owned(), kilometres),
        );
        line(to, &row)?;
    }
    Ok(())
}

fn stages(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    line(to, "       way                        time              knots over/through")?;
    line(to, " leg    planned     made   across   moving  stopped   ground  water       off")?;
    for stage in &report.compared.stages {
        let Stage { from, to: end, planned, figures, off, .. } = stage;
        let legs = if end - from == 1 { format!("{end}") } else { format!("{}-{end}", from + 1) };
        row(to, &legs, &nautical_miles(*planned), figures, &kilometres(*off))?;
    }
    let planned = report.compared.stages.iter().map(|stage| stage.planned).sum();
    row(to, "all", &nautical_miles(planned), &report.compared.on_route, "")?;
    let whole = report.compared.stages.iter().all(|stage| !partly(&stage.figures));
    if !whole || partly(&report.compared.on_route) {
        writeln!(to, " * through the water as far as the stream is known")?;
    }
    Ok(())
}

/// Whether the stream is known for a part of it, and not for all.
fn partly(figures: &Figures) -> bool {
    figures.through_water().is_some() && !figures.is_water_whole()
}

fn row(
    to: &mut dyn Write,
    legs: &str,
    planned: &str,
    figures: &Figures,
    off: &str,
) -> io::Result<()> {
    let time = |time: SignedDuration| match time.is_zero() {
        true => "-".to_owned(),
        false => duration(time),
    };
    let across = match figures.across.as_metres() {
        across if across < 1.0 => "-".to_owned(),
        _ => nautical_miles(figures.across),
    };
    let partly =
        if figures.is_water_whole() || figures.through_water().is_none() { " " } else { "*" };
    let text = format!(
        " {legs:<5} {planned:>8} {:>8} {across:>8} {:>8} {:>8} {:>8} {:>6}{partly} {off:>8}",
        nautical_miles(figures.made),
        time(figures.moving),
        time(figures.stopped),
        words::column(figures.over_ground()),
        words::column(figures.through_water()),
    );
    line(to, &text)
}

fn strays(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    let strays: Vec<String> =
        report.compared.strays.iter().map(|stray| words::stray(report, stray)).collect();
    if strays.is_empty() {
        let off = kilometres(report.settings.off);
        return paragraph(
            "",
            &format!("Never farther than {off} from the line for 2 min or more."),
            to,
        );
    }
    listed("Off the plan", &strays, to)
}

/// So many of a list are printed: a page is read by people.
const MOST_LISTED: usize = 30;

fn listed(what: &str, all: &[String], to: &mut dyn Write) -> io::Result<()> {
    if all.is_empty() {
        return Ok(());
    }
    writeln!(to, "{what}: {}", all.len())?;
    for (number, one) in (1..).zip(all.iter().take(MOST_LISTED)) {
        paragraph("   ", &format!("{number}. {one}"), to)?;
    }
    if all.len() > MOST_LISTED {
        writeln!(to, "   and {} more; JSON has them all", all.len() - MOST_LISTED)?;
    }
    Ok(())
}

/// A text as wide as a column, cut or filled up.
fn column(text: &str, wide: usize) -> String {
    let cut = fitted(text, wide);
    let short = wide.saturating_sub(width(&cut));
    cut + &" ".repeat(short)
}

/// How many columns a text takes, found by what fits.
fn width(text: &str) -> usize {
    (0..=COLUMNS).find(|&wide| fitted(text, wide) == text).unwrap_or(COLUMNS)
}

/// A line of a table, cut to the page, without spaces at its end.
fn line(to: &mut dyn Write, text: &str) -> io::Result<()> {
    writeln!(to, "{}", fitted(text, COLUMNS).trim_end())
}
