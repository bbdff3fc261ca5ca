//! Days, clock times and zones as they are typed.

use std::str::FromStr;

use anyhow::anyhow;
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, TimestampRound, Unit};

/// A day, `2026-06-14`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Day(pub(crate) Date);

impl FromStr for Day {
    type Err = String;

    fn from_str(text: &str) -> Result<Day, String> {
        // What stands behind a date would be left unread.
        let whole = text.len() == "2026-06-14".len();
        let date = text.parse().ok().filter(|_| whole);
        date.map(Day).ok_or_else(|| "write a day as 2026-06-14".to_owned())
    }
}

/// A month, `2026-06`, by its first day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Month(pub(crate) Date);

impl FromStr for Month {
    type Err = String;

    fn from_str(text: &str) -> Result<Month, String> {
        let whole = text.len() == "2026-06".len();
        let first = format!("{text}-01").parse().ok().filter(|_| whole);
        first.map(Month).ok_or_else(|| "write a month as 2026-06".to_owned())
    }
}

/// A time of day, `09:30`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Clock(pub(crate) Time);

impl FromStr for Clock {
    type Err = String;

    fn from_str(text: &str) -> Result<Clock, String> {
        let time = || {
            let (hours, minutes) = text.split_once(':')?;
            let plain = |part: &str| part.len() == 2 && part.bytes().all(|b| b.is_ascii_digit());
            let both = plain(hours) && plain(minutes);
            Time::new(hours.parse().ok()?, minutes.parse().ok()?, 0, 0).ok().filter(|_| both)
        };
        time().map(Clock).ok_or_else(|| "write a time as 09:30".to_owned())
    }
}

/// A time zone by its name or its offset: `Europe/Oslo`, `UTC`, `UTC-3`, `+05:30`.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Zone(pub(crate) TimeZone);

impl FromStr for Zone {
    type Err = String;

    fn from_str(text: &str) -> Result<Zone, String> {
        let wrong = || format!("{text} is no time zone; write Europe/Oslo, UTC, UTC-3 or +05:30");
        ::chart::clock::zone(text).map(Zone).ok_or_else(wrong)
    }
}

/// The day that is asked for, or else today.
pub(crate) fn day(asked: Option<Day>, zone: &TimeZone) -> Date {
    let today = || Timestamp::now().to_zoned_datetime(zone.clone()).date();
    asked.map_or_else(today, |day| day.0)
}

/// The instant at which a clock in the zone shows this time.
pub(crate) fn instant(date: Date, clock: Clock, zone: &TimeZone) -> anyhow::Result<Timestamp> {
    let local = date.to_datetime(clock.0);
    let one = zone.to_ambiguous_zoned_datetime(local).unambiguous();
    let shown = format!("{:02}:{:02}", clock.0.hour(), clock.0.minute());
    one.map(|moment| moment.timestamp()).map_err(|_| {
        anyhow!("{shown} on {date} is not one instant: the zone's clocks change then; give another")
    })
}

/// An instant in UTC to the second, for a program.
pub(crate) fn utc(at: Timestamp) -> String {
    let second = TimestampRound::new().smallest(Unit::Second);
    at.round(second).unwrap_or(at).to_string()
}

/// The same on the zone's clock, to the minute.
pub(crate) fn local(at: Timestamp, zone: &TimeZone) -> String {
    let minute = TimestampRound::new().smallest(Unit::Minute);
    let at = at.round(minute).unwrap_or(at).to_zoned_datetime(zone.clone());
    at.strftime("%Y-%m-%dT%H:%M%:z").to_string()
}

/// `14:05` on the zone's clock.
pub(crate) fn clock(at: Timestamp, zone: &TimeZone) -> String {
    nav::text::clock(&at.to_zoned_datetime(zone.clone()))
}

/// `Mon 15 June 02:54` on the zone's clock.
pub(crate) fn day_and_clock(at: Timestamp, zone: &TimeZone) -> String {
    let minute = TimestampRound::new().smallest(Unit::Minute);
    let at = at.round(minute).unwrap_or(at).to_zoned_datetime(zone.clone());
    at.strftime("%a %-d %B %H:%M").to_string()
}

/// What a zone's clock is called on a day: its name, or its offset.
pub(crate) fn zone_name(at: Timestamp, zone: &TimeZone) -> String {
    let at = at.to_zoned_datetime(zone.clone());
    let offset = at.strftime("UTC%:z").to_string();
    match zone.iana_name() {
        Some("UTC") => "UTC".to_owned(),
        Some(name) => format!("{name} ({offset})"),
        None => offset,
    }
}

/// One after another, so often.
pub(crate) fn every(
    from: Timestamp,
    to: Timestamp,
    step: SignedDuration,
) -> impl Iterator<Item = Timestamp> {
    std::iter::successors(Some(from), move |at| at.checked_add(step).ok())
        .take_while(move |at| *at <= to)
}
