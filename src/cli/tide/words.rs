//! What is said of a tide, on the page and in JSON alike.

use ::chart::water::Shifted;
use jiff::Timestamp;
use jiff::civil::Date;
use nav::Length;
use nav::tide::{MoonPhase, Phase, Water};

use super::report::{DayOfTide, Report, Show};
use crate::when;

/// `new moon`.
pub(super) fn moon(phase: MoonPhase) -> &'static str {
    match phase {
        MoonPhase::New => "new moon",
        MoonPhase::FirstQuarter => "first quarter",
        MoonPhase::Full => "full moon",
        MoonPhase::LastQuarter => "last quarter",
    }
}

/// `springs`.
pub(super) fn springs(phase: Phase) -> &'static str {
    match phase {
        Phase::Springs => "springs",
        Phase::Neaps => "neaps",
    }
}

/// `high`.
pub(crate) fn water(water: Water) -> &'static str {
    match water {
        Water::High => "high",
        Water::Low => "low",
    }
}

/// `4.52 m`.
pub(super) fn metres(length: Length) -> String {
    // Adding nothing takes the sign off a zero.
    let hundredths = (length.as_metres() * 100.0).round() / 100.0 + 0.0;
    format!("{hundredths:.2} m")
}

/// `+0.05 m`.
pub(super) fn more(length: Length) -> String {
    let hundredths = (length.as_metres() * 100.0).round() / 100.0 + 0.0;
    format!("{hundredths:+.2} m")
}

/// The moon on a day: `new moon 00:54`, or `waning, new moon in 2 days`.
pub(super) fn moon_on(report: &Report<'_>, day: &DayOfTide) -> Option<String> {
    let (at, phase) = day.moon?;
    if at < day.tide.to {
        return Some(format!("{} {}", moon(phase), when::clock(at, &report.zone)));
    }
    let way = match phase {
        MoonPhase::FirstQuarter | MoonPhase::Full => "waxing",
        MoonPhase::LastQuarter | MoonPhase::New => "waning",
    };
    let then = at.to_zoned_datetime(report.zone.clone()).date();
    let days = (then - day.date).get_days();
    let when = if days == 1 { "tomorrow".to_owned() } else { format!("in {days} days") };
    Some(format!("{way}, {} {when}", moon(phase)))
}

/// The differences used: `-10 min, -0.17 m on 03:27, 4.40 m`.
pub(super) fn differences(report: &Report<'_>, both: &Shifted) -> String {
    let clock = when::clock(both.standard.at, &report.zone);
    let (minutes, height) = (minutes(both), metres(both.standard.height.above()));
    format!("{minutes:+.0} min, {} on {clock}, {height}", more(both.higher))
}

/// The difference of time used.
pub(super) fn minutes(both: &Shifted) -> f64 {
    both.later.as_secs_f64() / 60.0
}

/// Why there is nothing to show: a printed table that lacks all the days.
pub(super) fn nothing(report: &Report<'_>) -> Option<String> {
    let covers = report.gauge.covers()?;
    let (first, last) = (report.days.first()?, report.days.last()?);
    let outside = last.tide.to <= covers.0 || covers.1 < first.tide.from;
    outside.then(|| {
        let asked = match report.show {
            Show::Month => first.date.strftime("%B %Y").to_string(),
            _ if first.date == last.date => first.date.to_string(),
            _ => format!("{} to {}", first.date, last.date),
        };
        format!("nothing is known of {asked}: {}", table_goes(report, covers))
    })
}

fn table_goes(report: &Report<'_>, covers: (Timestamp, Timestamp)) -> String {
    let [from, to] = [covers.0, covers.1].map(|at| {
        at.to_zoned_datetime(report.zone.clone()).strftime("%-d %B %Y %H:%M").to_string()
    });
    format!("the table of {} goes from {from} to {to}", report.gauge.standard())
}

/// What is put on the heights, in sentences.
pub(super) fn put_on(report: &Report<'_>) -> Vec<String> {
    let mut said = Vec::new();
    if let (Some(pressure), Some(raised)) = (report.put_on.pressure, report.put_on.by_air()) {
        let way = if raised < Length::ZERO { "lowered" } else { "raised" };
        said.push(format!(
            "Heights are {way} by {} for air of {} hPa at sea level: a centimetre for each hectopascal \
             from 1013, once it has lasted. Wind is left out.",
            metres(raised.abs()),
            pressure.as_hectopascals(),
        ));
    }
    if report.put_on.season {
        said.push(
            "Heights have the season's level in them, by the port's levels for the months.".into(),
        );
        let taken = report.days.first().and_then(|day| day.season).map(|season| season.taken_off);
        if let Some(taken) = taken.filter(|taken| *taken != Length::ZERO) {
            said.push(format!(
                "The season at {}, {}, was taken off before the differences.",
                report.gauge.standard(),
                more(taken)
            ));
        }
    }
    said
}

/// What must be said of the figures.
pub(super) fn remarks(report: &Report<'_>) -> Vec<String> {
    let gauge = report.gauge;
    let on = report.days.first().map_or(Date::MIN, |day| day.date);
    let mut how = format!("Told {}.", gauge.said(on));
    if gauge.is_secondary() || gauge.table().is_some() {
        how.push_str(" Between high and low water by half a turn of a cosine.");
    }
    if let Some(covers) = gauge.covers() {
        how = format!("{how} Outside its time nothing is known: {}.", table_goes(report, covers));
    }
    let mut said = vec![how];
    if report.show == Show::Hours {
        said.push(
            "The rule of twelfths is common practice, without a published source; the difference is how \
             far it stands above the height beside it."
                .to_owned(),
        );
    }
    said.extend(put_on(report));
    let weather = if report.put_on.pressure.is_some() { "wind" } else { "weather" };
    said.push(format!(
        "Left out: {weather}, surge, a river in flood. Weather alone moves heights by decimetres and \
         times by many minutes. The official tide tables come first."
    ));
    if !report.others.is_empty() {
        said.push(format!("Other ports of the chart: {}.", report.others.join(", ")));
    }
    said
}
