//! What there is to know about the day: times, distance, pace, wind, light, variation.

use jiff::Timestamp;
use nav::magnetic::{PrintedVariation, VariationAt, VariationSource};
use nav::sun::{self, Daylight};
use nav::text;
use plan::table::{self, TotalRow};
use plan::{Departure, Reckoning};

use super::Plan;

/// The facts in their order, each with what it is called.
pub(super) fn of(plan: &Plan<'_>, reckoning: &Reckoning) -> Vec<(String, String)> {
    let total = table::total(reckoning);
    let departure = plan.route.departure.as_ref();
    let mut facts = Vec::new();
    let mut add = |name: &str, words: Option<String>| {
        facts.extend(words.map(|words| (name.to_owned(), words)));
    };
    add("Leave", departure.map(leave));
    if !reckoning.legs.is_empty() {
        add("Arrive", arrive(plan, &total));
        add("Distance", Some(format!("{}, {}", total.nautical_miles, total.kilometres)));
        add("Time", time(plan, &total));
    }
    add("Stream", streams(plan));
    add("Pace", Some(pace(plan)));
    add(
        "Wind",
        plan.route.wind.map(|weather| {
            let wind = weather.wind;
            format!("from {}, {:.0} kn", wind.from, wind.speed.as_knots())
        }),
    );
    add("Light", departure.and_then(|departure| light(plan, departure)));
    add("Variation", variation(plan, reckoning));
    facts
}

fn leave(departure: &Departure) -> String {
    let moment = departure.moment();
    let day = moment.strftime("%A %-d %B %Y");
    format!("{} on {day}, {}", text::clock(moment), departure.zone_name())
}

fn arrive(plan: &Plan<'_>, total: &TotalRow) -> Option<String> {
    let Some((course, passage)) = plan.passage else {
        return Some(total.clock.clone()).filter(|clock| !clock.is_empty());
    };
    let arrives = passage.arrives()?.to_zoned_datetime(course.zone().clone());
    Some(text::clock(&arrives))
}

fn time(plan: &Plan<'_>, total: &TotalRow) -> Option<String> {
    let (whole, stops) = match plan.passage {
        Some((_, passage)) => {
            let waits = Some(passage.waited()).filter(|wait| !wait.is_zero());
            let waits = waits.map(|wait| format!(", waits {}", text::duration(wait)));
            (text::duration(passage.time()?), waits.unwrap_or_default())
        }
        None => (total.elapsed.clone(), String::new()),
    };
    let stays =
        if total.stops.is_empty() { String::new() } else { format!(", stops {}", total.stops) };
    Some(format!("{whole}{stays}{stops}")).filter(|words| !words.is_empty())
}

/// How long the stream is with the group and against it.
fn streams(plan: &Plan<'_>) -> Option<String> {
    let (_, passage) = plan.passage?;
    let times = passage.sums().times;
    let parts = [
        ("with", times.with),
        ("against", times.against),
        ("across", times.across),
        ("slack", times.slack),
        ("not known", times.without_data),
    ];
    let some = parts.into_iter().filter(|(_, time)| time.as_secs() >= 30);
    let words: Vec<String> =
        some.map(|(name, time)| format!("{name} {}", text::duration(time))).collect();
    (!words.is_empty()).then(|| words.join(", "))
}

/// `3.1 kn, as “Thursdays” made on 4 trips`.
fn pace(plan: &Plan<'_>) -> String {
    let pace = plan.route.pace.to_string();
    let made = plan.profile.and_then(|profile| {
        let own = profile.pace()?;
        let trips = if own.trips == 1 { "trip" } else { "trips" };
        let ground = if own.through_water { "" } else { ", over the ground" };
        Some(format!(", as “{}” made on {} {trips}{ground}", profile.name(), own.trips))
    });
    pace + &made.unwrap_or_default()
}

/// Light at the start of the route.
fn light(plan: &Plan<'_>, departure: &Departure) -> Option<String> {
    let place = plan.route.points.first()?.at;
    let date = departure.moment().date();
    let day = sun::day(place, date).ok()?;
    let zone = departure.zone();
    let clock = |at: Timestamp| text::clock(&at.to_zoned_datetime(zone.clone()));
    let words = match day.daylight {
        Daylight::NeverRises => "the sun does not rise".to_owned(),
        Daylight::NeverSets => "the sun does not set".to_owned(),
        Daylight::DayAndNight => {
            let parts = [("sunrise", day.rise), ("sunset", day.set)];
            let some =
                parts.into_iter().filter_map(|(name, at)| Some(format!("{name} {}", clock(at?))));
            some.collect::<Vec<_>>().join(", ")
        }
    };
    let twilight = match (day.dawn, day.dusk) {
        (Some(dawn), Some(dusk)) => format!("; twilight from {} to {}", clock(dawn), clock(dusk)),
        _ => String::new(),
    };
    Some(format!("{words}{twilight}"))
}

/// The variation of the bearings; nothing where there is no leg to have one.
fn variation(plan: &Plan<'_>, reckoning: &Reckoning) -> Option<String> {
    let Some(departure) = &plan.route.departure else {
        let unknown = "not known without a date: bearings are from true north (T)";
        return (!reckoning.legs.is_empty()).then(|| unknown.to_owned());
    };
    let mut seen: Vec<&VariationAt> = Vec::new();
    for at in reckoning.legs.iter().filter_map(|leg| leg.variation.as_ref()) {
        if seen.last().is_none_or(|last| last.variation.to_string() != at.variation.to_string()) {
            seen.push(at);
        }
    }
    let angle = match &seen[..] {
        [] => return None,
        [only] => only.variation.to_string(),
        [first, .., last] => format!("{} to {}", first.variation, last.variation),
    };
    let source = match plan.route.variation {
        VariationSource::Model => "World Magnetic Model 2025".to_owned(),
        VariationSource::Printed(PrintedVariation { year, .. }) => {
            format!("as printed for {:.0}", year.as_years())
        }
    };
    let date = departure.moment().strftime("%-d %B %Y");
    Some(format!("{angle} on {date} ({source})"))
}
