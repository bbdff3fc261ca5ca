//! Zones and times as people type them.

use jiff::Timestamp;
use jiff::civil::DateTime;
use jiff::tz::{AmbiguousOffset, Offset, TimeZone};

/// Why a text is no instant; what would be right.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ClockError {
    /// It is no date and time.
    #[error(
        "{0:?} is no time; write 2026-06-14T03:27, or with its offset from UTC 2026-06-14T03:27+01:00"
    )]
    NotATime(String),
    /// A clock time, and nothing says whose.
    #[error(
        "{0:?} has no offset from UTC, and no zone is stated; write {0}+01:00, or give the zone"
    )]
    NoZone(String),
    /// The zone's clocks are put forward over it.
    #[error(
        "{time} does not exist in {zone}: its clocks are put forward over it; write the time that is \
         meant with its offset from UTC"
    )]
    Skipped {
        /// The time.
        time: String,
        /// The zone.
        zone: String,
    },
    /// The zone's clocks are put back over it.
    #[error(
        "{time} comes twice in {zone}: its clocks are put back; write it with its offset, {first} or \
         {second}"
    )]
    Twice {
        /// The time.
        time: String,
        /// The zone.
        zone: String,
        /// The offset of the first.
        first: String,
        /// The offset of the second.
        second: String,
    },
}

/// The time zone of a name or an offset: `Europe/Oslo`, `UTC`, `UTC-3`, `+05:30`; nothing for what is
/// neither.
pub fn zone(text: &str) -> Option<TimeZone> {
    match text {
        "UTC" | "Z" => Some(TimeZone::UTC),
        _ => offset(text.strip_prefix("UTC").unwrap_or(text))
            .map(TimeZone::fixed)
            .or_else(|| TimeZone::get(text).ok()),
    }
}

/// An offset with its sign.
fn offset(text: &str) -> Option<Offset> {
    let sign = match text.chars().next()? {
        '+' => 1,
        '-' => -1,
        _ => return None,
    };
    let rest = text.get(1..)?;
    let (hours, minutes) = rest.split_once(':').unwrap_or((rest, "0"));
    let number = |part: &str| {
        let plain = part.bytes().all(|b| b.is_ascii_digit());
        part.parse::<i32>().ok().filter(|_| plain)
    };
    let (hours, minutes) = (number(hours)?, number(minutes)?);
    let within = hours <= 14 && minutes < 60;
    Offset::from_seconds(sign * (hours * 3600 + minutes * 60)).ok().filter(|_| within)
}

/// The instant that a date and time in ISO 8601 stands for: by its own offset, or else by the clock of
/// `zone`. A space in place of the `T` will do.
///
/// # Errors
/// [`ClockError`] for what is no time, or none in its zone, or two.
pub fn instant(text: &str, zone: Option<&TimeZone>) -> Result<Timestamp, ClockError> {
    let text = text.trim();
    if let Ok(at) = text.parse() {
        return Ok(at);
    }
    let wrong = || ClockError::NotATime(text.to_owned());
    // An offset that is none, or a zone's name, would be left unread, and so would a day be midnight.
    let clock = text.get("2026-06-14".len()..).unwrap_or_default();
    if clock.is_empty() || clock.contains(['+', '-', '[']) {
        return Err(wrong());
    }
    let civil: DateTime = text.parse().map_err(|_| wrong())?;
    let zone = zone.ok_or_else(|| ClockError::NoZone(text.to_owned()))?;
    let found = zone.to_ambiguous_zoned_datetime(civil);
    let (time, name) = (|| text.to_owned(), || zone_name(zone));
    match found.offset() {
        AmbiguousOffset::Unambiguous { offset } => offset.to_timestamp(civil).map_err(|_| wrong()),
        AmbiguousOffset::Gap { .. } => Err(ClockError::Skipped { time: time(), zone: name() }),
        AmbiguousOffset::Fold { before, after } => {
            let [first, second] = [before, after].map(written);
            Err(ClockError::Twice { time: time(), zone: name(), first, second })
        }
    }
}

/// `Europe/Oslo`, or the offset of a zone without a name.
fn zone_name(zone: &TimeZone) -> String {
    match (zone.iana_name(), zone.to_fixed_offset()) {
        (Some(name), _) => name.to_owned(),
        (None, Ok(offset)) => written(offset),
        (None, Err(_)) => "its zone".to_owned(),
    }
}

/// `+05:30`.
fn written(offset: Offset) -> String {
    let minutes = offset.seconds().abs() / 60;
    let sign = if offset.seconds() < 0 { '-' } else { '+' };
    format!("{sign}{:02}:{:02}", minutes / 60, minutes % 60)
}

#[cfg(test)]
mod tests {
    use rstest::rstest;

    use super::*;

    #[rstest]
    #[case("2026-06-14T03:27+01:00", "", "2026-06-14T02:27Z")]
    #[case("2026-06-14 03:27Z", "Europe/London", "2026-06-14T03:27Z")]
    #[case("2026-06-14T03:27", "Europe/London", "2026-06-14T02:27Z")]
    #[case(" 2026-06-14 03:27 ", "UTC-3", "2026-06-14T06:27Z")]
    #[case("2026-06-14T03:27:30", "+05:30", "2026-06-13T21:57:30Z")]
    fn instants_are_read(#[case] text: &str, #[case] whose: &str, #[case] at: &str) {
        let whose = zone(whose);
        assert_eq!(instant(text, whose.as_ref()).unwrap(), at.parse().unwrap());
    }

    #[rstest]
    #[case("2026-06-14", "UTC", "\"2026-06-14\" is no time; write 2026-06-14T03:27,")]
    #[case("2026-06-14T24:10", "UTC", "\"2026-06-14T24:10\" is no time;")]
    #[case("2026-02-30T03:10", "UTC", "\"2026-02-30T03:10\" is no time;")]
    #[case("2026-06-14T03:27+30:00", "UTC", "\"2026-06-14T03:27+30:00\" is no time;")]
    #[case("", "UTC", "\"\" is no time;")]
    #[case("2026-06-14T03:27", "", "\"2026-06-14T03:27\" has no offset from UTC, and no zone")]
    #[case(
        "2026-03-29T01:30",
        "Europe/London",
        "2026-03-29T01:30 does not exist in Europe/London: its clocks are put forward over it;"
    )]
    #[case(
        "2026-10-25T01:30",
        "Europe/London",
        "2026-10-25T01:30 comes twice in Europe/London: its clocks are put back; write it with its \
         offset, +01:00 or +00:00"
    )]
    fn what_is_no_instant_is_said(#[case] text: &str, #[case] whose: &str, #[case] said: &str) {
        let whose = zone(whose);
        let error = instant(text, whose.as_ref()).unwrap_err().to_string();
        assert!(error.starts_with(said), "{error}");
    }

    #[rstest]
    #[case("Nowhere")]
    #[case("+15:00")]
    #[case("UTC+")]
    #[case("")]
    fn what_is_no_zone_is_none(#[case] text: &str) {
        assert_eq!(zone(text), None);
    }
}
