//! Tide, light and moving water.

use std::cell::RefCell;

use ::chart::clock::instant;
use ::chart::water::{Gauge, GaugeCurve};
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Span, Timestamp, TimestampRound, Unit};
use nav::sun::{self, Daylight};
use nav::tide::Height;
use nav::triangle::{self, MadeGood, Steer, Stream};
use nav::{Bearing, DateOutside, Speed};

use super::question::{Answer, Answers, bearing, position};
use super::table::{Fault, Row};

/// `lat`, `lon`, `date`: a day's light.
pub(super) fn sun(row: &Row<'_>, answers: &mut Answers) -> Result<(), Fault> {
    let text = row.text(2)?;
    let date: Date = match text.parse() {
        // What stands behind a date would be left unread.
        Ok(date) if text.len() == "2026-06-21".len() => date,
        _ => return row.not_a(2, "date"),
    };
    let day = sun::day(position(row, 0)?, date).or_else(|error| row.fault(2, error.to_string()))?;
    let instants = [day.dawn, day.rise, Some(day.noon), day.set, day.dusk];
    answers.cells.extend(instants.map(|at| at.map_or(Answer::Empty, to_the_second)));
    let state = match day.daylight {
        Daylight::DayAndNight => "day-and-night",
        Daylight::NeverRises => "never-rises",
        Daylight::NeverSets => "never-sets",
    };
    answers.cells.push(Answer::Text(state.to_owned()));
    Ok(())
}

/// To the second, which is all that the air lets a rise be known to.
fn to_the_second(at: Timestamp) -> Answer {
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
    let stream = Stream { set: bearing(row, 2)?, drift: row.value(3, Speed::from_knots)? };
    Ok((bearing(row, 0)?, row.value(1, Speed::from_knots)?, stream))
}

/// `time`: the height of tide at a port.
#[derive(Debug)]
pub(super) struct TideAt {
    gauge: Gauge,
    /// The month asked for last, ready for more of it: rows mostly follow one another. It is a
    /// month of the calendar, so that no answer hangs on the rows before it.
    month: RefCell<Option<(Date, GaugeCurve)>>,
}

impl TideAt {
    pub(super) fn new(gauge: Gauge) -> TideAt {
        TideAt { gauge, month: RefCell::new(None) }
    }

    pub(super) fn answer(&self, row: &Row<'_>, answers: &mut Answers) -> Result<(), Fault> {
        let text = row.text(0)?;
        let Ok(at) = instant(&text, Some(&TimeZone::UTC)) else {
            return row.not_a(0, "time");
        };
        let height = self.height(at).or_else(|error| row.fault(0, error.to_string()))?;
        let Some(height) = height else { return row.fault(0, self.not_known(at)) };
        answers.cells.push(Answer::Number(height.as_metres()));
        Ok(())
    }

    fn height(&self, at: Timestamp) -> Result<Option<Height>, DateOutside> {
        let first = TimeZone::UTC.to_datetime(at).date().first_of_month();
        let mut month = self.month.borrow_mut();
        if month.as_ref().is_none_or(|(of, _)| *of != first) {
            let start = |date: Date| TimeZone::UTC.to_timestamp(date.to_datetime(Time::midnight()));
            let next = first.checked_add(Span::new().months(1));
            let (Ok(from), Some(to)) = (start(first), next.ok().and_then(|next| start(next).ok()))
            else {
                return Err(DateOutside { at });
            };
            // Before the next month, which may be that of 2101, by as little as an instant may be.
            let curve = self.gauge.curve(from, to - SignedDuration::from_nanos(1));
            *month = Some((first, curve.map_err(|_| DateOutside { at })?));
        }
        Ok(month.as_ref().and_then(|(_, curve)| curve.height(at)))
    }

    /// That the gauge has no height at an instant.
    fn not_known(&self, at: Timestamp) -> String {
        let name = self.gauge.name();
        match self.gauge.covers() {
            Some((from, to)) => {
                format!("{at} is outside the table of {name}, which goes from {from} to {to}")
            }
            None => format!("the differences of {name} turn its high and low waters about at {at}"),
        }
    }
}

#[cfg(test)]
mod tests;
