//! The table of a day's starts: those within the limits one by one, the refused together.

use std::io::{self, Write};

use jiff::SignedDuration;
use nav::text::duration;
use nav::tide::Height;
use plan::RaceState;
use plan::course::BriefLeg;
use plan::depart::{Cell, Group, Light, Reason, Start, Starts, Verdict};
use plan::table::fitted;

use super::Report;
use crate::page::{COLUMNS, paragraph};
use crate::when;

pub(super) fn write(report: &Report<'_>, day: &Starts, to: &mut dyn Write) -> io::Result<()> {
    if day.starts.iter().any(|start| start.verdict.is_acceptable()) {
        writeln!(to, "   leave    time land  against  drift  race      tide   light legs, min")?;
    }
    let mut first = 0;
    for group in day.groups() {
        let starts = day.starts.get(first..first + group.count).unwrap_or_default();
        if group.verdict == Verdict::Refused {
            refused(report, &group, to)?;
        } else {
            starts.iter().try_for_each(|start| row(report, day, start, to))?;
        }
        first += group.count;
    }
    Ok(())
}

/// `   03:10 to 05:20 refused: meets Quelild Tumble at its worst`
fn refused(report: &Report<'_>, group: &Group, to: &mut dyn Write) -> io::Result<()> {
    let clock = |at| when::clock(at, &report.zone);
    let span = match group.count {
        1 => clock(group.from),
        _ => format!("{} to {}", clock(group.from), clock(group.to)),
    };
    let why = group.words(&report.zone);
    paragraph("   ", &format!("{span} refused: {why}"), to)
}

fn row(report: &Report<'_>, day: &Starts, start: &Start, to: &mut dyn Write) -> io::Result<()> {
    let Some(landing) = start.landing else { return Ok(()) };
    let mark = mark(day, start).unwrap_or(' ');
    let (leave, land) =
        (when::clock(start.at, &report.zone), when::clock(landing.at, &report.zone));
    let (time, against) = (duration(landing.took), duration(start.against()));
    let drift =
        start.worst_drift().map_or_else(dash, |(rate, _)| format!("{:.1} kn", rate.as_knots()));
    let height = landing.height.map_or_else(dash, metres);
    let light = light(landing.light);
    let legs = legs(start);
    let figures = format!("{leave:5} {time:>7} {land:5} {against:>7} {drift:>7}");
    let there = format!("{:7} {height:>6} {light:>7} {}", worst_race(start), legs);
    let line = format!("{}{mark} {figures}  {there}", report.signs.shade(start.verdict));
    writeln!(to, "{}", fitted(&line, COLUMNS))
}

/// How many columns are left for the times of the legs.
const FOR_LEGS: usize = 18;

/// The minutes that each leg takes, or as many of them as there is room for.
fn legs(start: &Start) -> String {
    let minutes: Vec<String> =
        start.legs.iter().map(|leg| rounded_minutes(under_way(leg)).to_string()).collect();
    let all = minutes.join(" ");
    if all.len() <= FOR_LEGS {
        return all;
    }
    let fits = |count: &usize| {
        minutes.iter().take(*count).map(|it| it.len() + 1).sum::<usize>() + 2 <= FOR_LEGS
    };
    let count = (0..minutes.len()).take_while(fits).last().unwrap_or(0);
    format!("{} ..", minutes.get(..count).unwrap_or_default().join(" "))
}

/// The mark of a start, as in the strip.
fn mark(day: &Starts, start: &Start) -> Option<char> {
    if day.best().is_some_and(|best| best.at == start.at) {
        return Some(Cell::BEST);
    }
    if day.latest().is_some_and(|latest| latest.at == start.at) {
        return Some(Cell::LATEST);
    }
    start.reasons.first().map(Reason::kind).map(plan::depart::Kind::mark)
}

/// The worst state of the races met.
fn worst_race(start: &Start) -> &'static str {
    match start.worst_race() {
        None => "-",
        Some(None) => "unknown",
        Some(Some(RaceState::Quiet)) => "quiet",
        Some(Some(RaceState::Running)) => "running",
        Some(Some(RaceState::Worst)) => "worst",
    }
}

fn light(light: Light) -> String {
    match light {
        Light::Left(left) => duration(left),
        Light::AllDay => "all day".to_owned(),
        Light::Gone(gone) => format!("-{}", duration(gone)),
        Light::NoDay => "none".to_owned(),
    }
}

fn dash() -> String {
    "-".to_owned()
}

/// `3.2 m`.
pub(super) fn metres(height: Height) -> String {
    // Adding nothing takes the sign off a zero.
    format!("{:.1} m", (height.as_metres() * 10.0).round() / 10.0 + 0.0)
}

/// The time on a leg, the wait before it not counted.
pub(super) fn under_way(leg: &BriefLeg) -> SignedDuration {
    leg.arrives.duration_since(leg.departs)
}

fn rounded_minutes(time: SignedDuration) -> i64 {
    (time.as_secs() + 30) / 60
}

/// What a leg meets, behind its time: `, 25 min against the stream, 10 min of waiting`.
pub(super) fn with(leg: &BriefLeg) -> String {
    let minute = SignedDuration::from_secs(30);
    let said = |time: SignedDuration, what: &str| match time {
        time if time < minute => String::new(),
        time => format!(", {} {what}", duration(time)),
    };
    let (against, wait) =
        (said(leg.times.against, "against the stream"), said(leg.waited, "of waiting"));
    format!("{against}{wait}")
}
