//! What is said of a comparison, beside its tables.

use jiff::SignedDuration;
use nav::text::{duration, kilometres, nautical_miles};
use nav::{Figures, Length, Position, Speed};
use plan::compare::{self, Beside, Cleaning, FASTEST_KN, GapWhy, Mean, Stray};
use plan::profile::OwnPace;

use super::Report;
use crate::when;

/// `2.95 kn`.
pub(super) fn knots(speed: Speed) -> String {
    format!("{:.2} kn", speed.as_knots())
}

/// What was left out of the track.
pub(super) fn cleaning(report: &Report<'_>) -> String {
    let Cleaning { fixes, untimed, same_time, backwards, wild, used } = report.compared.cleaning;
    let timed = report.compared.recorded.is_some();
    let why = [
        (untimed, if timed { "without a time" } else { "" }),
        (same_time, "at the same time as another"),
        (backwards, "with times that run backwards"),
        (wild, "wild (faster than 20 kn there and back)"),
    ];
    debug_assert!((FASTEST_KN - 20.0).abs() < f64::EPSILON);
    let left = why.iter().filter(|(count, why)| *count > 0 && !why.is_empty());
    let left: Vec<String> = left.map(|(count, why)| format!("{count} {why}")).collect();
    let left = if left.is_empty() { "none".to_owned() } else { left.join(", ") };
    format!("Fixes: {fixes} recorded, {used} used. Left out: {left}.")
}

/// A place by its reference, or by latitude and longitude where the grid does not reach.
pub(super) fn place(report: &Report<'_>, at: Position) -> String {
    let reference = report.water.chart.grid.reference_at(at, Figures::Six);
    reference.unwrap_or_else(|_| nav::text::position(at, nav::text::AngleStyle::default()))
}

/// `leg 2, 1.2 NM along it`.
fn on_leg(beside: &Beside) -> String {
    format!("leg {}, {} along it", beside.leg + 1, nautical_miles(beside.along))
}

fn at_time(report: &Report<'_>, beside: &Beside) -> String {
    let at = beside.when.map(|when| format!("at {}, ", when::clock(when, &report.zone)));
    format!("{}{}", at.unwrap_or_default(), place(report, beside.at))
}

/// A time off the line, in a sentence.
pub(super) fn stray(report: &Report<'_>, stray: &Stray) -> String {
    let side = if stray.right { "right" } else { "left" };
    let back = match &stray.back {
        Some(back) => format!("back {} ({})", at_time(report, back), on_leg(back)),
        None => "not back before the end".to_owned(),
    };
    format!(
        "left {} ({}); farthest {}, {} to the {side}; {back}.",
        at_time(report, &stray.left),
        on_leg(&stray.left),
        at_time(report, &stray.farthest),
        kilometres(stray.off),
    )
}

/// The stops, a sentence each.
pub(super) fn stops(report: &Report<'_>) -> Vec<String> {
    let clock = |at| when::clock(at, &report.zone);
    let stop = |stop: &compare::Stop| {
        let long = duration(stop.to.duration_since(stop.from));
        let at = place(report, stop.at);
        format!("{} to {}, {long}, at {at}", clock(stop.from), clock(stop.to))
    };
    report.compared.stops.iter().map(stop).collect()
}

/// The gaps, a sentence each.
pub(super) fn gaps(report: &Report<'_>) -> Vec<String> {
    let gap = |gap: &compare::Gap| {
        let when = gap.from.zip(gap.to).map(|(from, to)| {
            let clock = |at| when::clock(at, &report.zone);
            let long = duration(to.duration_since(from));
            format!("{} to {}, {long}, ", clock(from), clock(to))
        });
        let why = match gap.why {
            GapWhy::NoFix => "no fix",
            GapWhy::Jump => "the track goes on elsewhere",
            GapWhy::Parted => "the receiver began anew",
        };
        let (when, at) = (when.unwrap_or_default(), place(report, gap.at));
        format!("{when}from {at}: {why}; {} straight across", kilometres(gap.straight))
    };
    report.compared.gaps.iter().map(gap).collect()
}

fn mean(mean: &Mean) -> String {
    let spread = knots(mean.spread);
    format!("{}, spread {spread}, over {} of moving", knots(mean.speed), duration(mean.time))
}

/// The group's own pace.
pub(super) fn paces(report: &Report<'_>) -> Vec<String> {
    let compared = report.compared;
    let Some(ground) = &compared.ground_pace else {
        return vec!["Pace: none, since the track has no times.".to_owned()];
    };
    let water = match &compared.water_pace {
        Some(water) => format!("Pace through the water: {}.", mean(water)),
        None => format!("Pace through the water: not known; {}.", no_stream(report)),
    };
    let planned = format!("Planned with: {}.", report.route.pace);
    vec![format!("Pace over the ground: {}.", mean(ground)), water, planned]
}

/// Why no stream is known for part or all of the way.
fn no_stream(report: &Report<'_>) -> String {
    if let Some(why) = &report.untold {
        return format!("the chart's tides cannot be told: {why}");
    }
    match report.tides {
        Some(tides) if !tides.stations().is_empty() => {
            let stream = report.compared.stream;
            if stream.other_day > stream.no_station {
                "the chart's tide tables do not cover that day".to_owned()
            } else {
                "no station of the chart tells the stream there".to_owned()
            }
        }
        _ => "the chart has no streams".to_owned(),
    }
}

/// What the profile says now.
pub(super) fn kept(report: &Report<'_>) -> Option<String> {
    let profile = report.kept?;
    let pace = profile.pace()?;
    Some(format!("Kept in the profile {}: {}", profile.name(), own_pace(&pace)))
}

pub(super) fn own_pace(pace: &OwnPace) -> String {
    let trips = if pace.trips == 1 { "trip" } else { "trips" };
    let through = if pace.through_water { "through the water" } else { "over the ground" };
    format!(
        "{} {through}, the mean of {} {trips} by their hours ({}); the slowest {}.",
        knots(pace.mean),
        pace.trips,
        duration(pace.time),
        knots(pace.slowest),
    )
}

/// What the reader should know.
pub(super) fn notes(report: &Report<'_>) -> Vec<String> {
    let compared = report.compared;
    let mut notes = Vec::new();
    if compared.runs_back {
        notes.push(
            "the track runs along the route from its end to its beginning; compare it with the route reversed."
                .to_owned(),
        );
    }
    if compared.recorded.is_none() {
        notes.push(
            "the track has no times: distances and figures off the line alone; jumps and stops cannot be told."
                .to_owned(),
        );
    }
    if report.route.departure.is_none() {
        notes.push("the route has no departure, and so no planned times.".to_owned());
    }
    let stream = compared.stream;
    let without = stream.no_station.saturating_add(stream.other_day);
    if compared.water_pace.is_some() && without > SignedDuration::from_mins(1) {
        let (without, why) = (duration(without), no_stream(report));
        notes.push(format!("for {without} of moving the stream is not known: {why}."));
    }
    notes
}

/// How it was found, and what it leaves out.
pub(super) fn method(report: &Report<'_>) -> String {
    let off = kilometres(report.settings.off);
    format!(
        "Fixes are taken together over ten seconds and the way is measured between places 20 m apart or \
         more: noise of 5 m adds about six thousandths, a bend closer than that is cut. A stop is 3 min or \
         more within 30 m, also of a group that paddles and makes no way over the ground; a gap is 5 min \
         without a fix, across which nothing is made up. By a point is within {off} of it, in the route's \
         order; off the plan is farther than {off} from the line for 2 min or more. Through the water is \
         the way over the ground less the stream of the chart's stations, predicted and not measured; the \
         wind's push is not taken off."
    )
}

/// A length in the two units of the house.
pub(super) fn both(length: Length) -> String {
    format!("{} ({})", nautical_miles(length), kilometres(length))
}

/// A speed in a column: `2.9`, or a dash.
pub(super) fn column(speed: Option<Speed>) -> String {
    speed.map_or_else(|| "-".to_owned(), |speed| format!("{:.2}", speed.as_knots()))
}
