//! Tide, light and moving water.

use ::chart::water::Gauge;
use jiff::civil::{Date, DateTime};
use jiff::tz::TimeZone;
use jiff::{Timestamp, TimestampRound, Unit};
use nav::sun::{self, Daylight};
use nav::triangle::{self, MadeGood, Steer, Stream};
use nav::{Bearing, Speed};

use super::question::{Answer, Answers, position};
use super::table::{Fault, Row};

/// `lat`, `lon`, `date`: a day's light.
pub(super) fn sun(row: &Row<'_>, answers: &mut Answers) -> Result<(), Fault> {
    let text = row.text(2)?;
    let date: Date = match text.parse() {
        // What stands behind a date would be left unread.
        Ok(date) if text.len() == "2026-06-21".len() => date,
        _ => return row.not_a(2, "date", "2026-06-21"),
    };
    let day = sun::day(position(row, 0)?, date).or_else(|error| row.fault(2, error.to_string()))?;
    let instants = [day.dawn, day.rise, Some(day.noon), day.set, day.dusk];
    answers.cells.extend(instants.map(|at| at.map_or(Answer::Empty, instant)));
    let state = match day.daylight {
        Daylight::DayAndNight => "day-and-night",
        Daylight::NeverRises => "never-rises",
        Daylight::NeverSets => "never-sets",
    };
    answers.cells.push(Answer::Text(state.to_owned()));
    Ok(())
}

/// An instant to the second, which is all that the air lets a rise be known to.
fn instant(at: Timestamp) -> Answer {
    let whole = at.round(TimestampRound::new().smallest(Unit::Second)).unwrap_or(at);
    Answer::Text(whole.to_string())
}

/// `track_deg`, `speed_kn`, `set_deg`, `drift_kn`: what to steer.
pub(super) fn heading(row: &Row<'_>, answers: &mut Answers) -> Result<(), Fault> {
    let (track, speed, stream) = triangle(row)?;
    let (heading, ground_speed, state) = match triangle::heading(track, speed, stream) {
        Steer::MakesWay { heading, ground_speed } => {
            (Some(heading), Some(ground_speed.as_knots()), "makes-way")
        }
        Steer::SetBack { heading, astern } => (Some(heading), Some(-astern.as_knots()), "set-back"),
        Steer::CannotHold => (None, None, "cannot-hold"),
    };
    answers.cells.extend([
        heading.map_or(Answer::Empty, |heading| Answer::Number(heading.as_degrees())),
        ground_speed.map_or(Answer::Empty, Answer::Number),
        Answer::Text(state.to_owned()),
    ]);
    Ok(())
}

/// `heading_deg`, `speed_kn`, `set_deg`, `drift_kn`: where a boat goes.
pub(super) fn made_good(row: &Row<'_>, answers: &mut Answers) -> Result<(), Fault> {
    let (heading, speed, stream) = triangle(row)?;
    let MadeGood { track, ground_speed } = triangle::made_good(heading, speed, stream);
    answers.cells.extend([
        track.map_or(Answer::Empty, |track| Answer::Number(track.as_degrees())),
        Answer::Number(ground_speed.as_knots()),
    ]);
    Ok(())
}

fn triangle(row: &Row<'_>) -> Result<(Bearing<nav::True>, Speed, Stream), Fault> {
    let stream = Stream {
        set: row.value(2, Bearing::from_degrees)?,
        drift: row.value(3, Speed::from_knots)?,
    };
    Ok((row.value(0, Bearing::from_degrees)?, row.value(1, Speed::from_knots)?, stream))
}

/// `time`: the height of tide at a port.
pub(super) fn tide(gauge: &Gauge, row: &Row<'_>, answers: &mut Answers) -> Result<(), Fault> {
    let text = row.text(0)?;
    let Some(at) = utc(&text) else { return row.not_a(0, "time", "2026-06-21T14:05Z") };
    let height = gauge.height(at).or_else(|error| row.fault(0, error.to_string()))?;
    let Some(height) = height else { return row.fault(0, not_known(gauge, at)) };
    answers.cells.push(Answer::Number(height.as_metres()));
    Ok(())
}

/// That a gauge has no height at an instant.
fn not_known(gauge: &Gauge, at: Timestamp) -> String {
    let name = gauge.name();
    match gauge.covers() {
        Some((from, to)) => {
            format!("{at} is outside the table of {name}, which goes from {from} to {to}")
        }
        None => format!("the differences of {name} turn its high and low waters about at {at}"),
    }
}

/// An instant in ISO 8601: with an offset, or in UTC where there is none.
fn utc(text: &str) -> Option<Timestamp> {
    text.parse().ok().or_else(|| {
        // An offset that is none, or a zone's name, would be left unread.
        let clock = text.get("2026-06-21".len()..)?;
        let civil: DateTime =
            if clock.contains(['+', '-', '[']) { None } else { text.parse().ok() }?;
        TimeZone::UTC.to_timestamp(civil).ok()
    })
}

#[cfg(test)]
mod tests;
