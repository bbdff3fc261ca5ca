//! Times as foreign files write them: XML Schema's `dateTime`, which is ISO 8601 with a zone or without one.

use jiff::Timestamp;
use jiff::civil::Date;

/// The zone that a time is written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Zone {
    /// `Z`, or no offset.
    Utc,
    /// An offset from UTC.
    Other,
    /// None; GPX has every time in UTC.
    None,
}

/// The moment that `text` names, and the zone that it is written in.
///
/// The second 60 of a leap second is the first of the next minute, 24:00 the first of the next day, and a
/// time without a zone is UTC.
pub(super) fn parse(text: &str) -> Option<(Timestamp, Zone)> {
    let bytes = text.as_bytes();
    let (head, rest) = bytes.split_at_checked(19)?;
    let number = |range: std::ops::Range<usize>| digits(head.get(range)?);
    let stops = [(4, b'-'), (7, b'-'), (10, b'T'), (13, b':'), (16, b':')];
    if stops.iter().any(|&(at, stop)| head.get(at) != Some(&stop)) {
        return None;
    }
    let (hour, minute, second) = (number(11..13)?, number(14..16)?, number(17..19)?);
    let end_of_day = (hour, minute, second) == (24, 0, 0);
    if (hour > 23 && !end_of_day) || minute > 59 || second > 60 {
        return None;
    }
    let day = days(number(0..4)?, number(5..7)?, number(8..10)?)?;
    let (nanoseconds, rest) = fraction(rest)?;
    if end_of_day && nanoseconds != 0 {
        return None;
    }
    let (offset, zone) = offset(rest)?;
    let seconds = day * 86_400 + hour * 3600 + minute * 60 + second - offset;
    Some((Timestamp::new(seconds, nanoseconds).ok()?, zone))
}

fn digits(text: &[u8]) -> Option<i64> {
    text.iter().try_fold(0, |number, &byte| {
        byte.is_ascii_digit().then(|| number * 10 + i64::from(byte - b'0'))
    })
}

/// Days from 1970.
fn days(year: i64, month: i64, day: i64) -> Option<i64> {
    let (year, month, day) = (year as i16, month as i8, day as i8);
    let date = Date::new(year, month, day).ok()?;
    let midnight = date.at(0, 0, 0, 0);
    Some(jiff::tz::Offset::UTC.to_timestamp(midnight).ok()?.as_second() / 86_400)
}

/// Nanoseconds after a point, and what follows them; further digits are dropped.
fn fraction(text: &[u8]) -> Option<(i32, &[u8])> {
    let Some(rest) = text.strip_prefix(b".") else { return Some((0, text)) };
    let count = rest.iter().take_while(|byte| byte.is_ascii_digit()).count();
    let (figures, rest) = rest.split_at(count);
    let nine = figures.iter().chain(std::iter::repeat(&b'0')).take(9);
    let nanoseconds = nine.fold(0, |number, &byte| number * 10 + i32::from(byte - b'0'));
    (count > 0).then_some((nanoseconds, rest))
}

/// Seconds east of UTC.
fn offset(text: &[u8]) -> Option<(i64, Zone)> {
    match text {
        b"Z" => Some((0, Zone::Utc)),
        b"" => Some((0, Zone::None)),
        [sign @ (b'+' | b'-'), hours @ .., b':', ten, one] if hours.len() == 2 => {
            let minutes = digits(hours)? * 60 + digits(&[*ten, *one]).filter(|&m| m < 60)?;
            let east = if *sign == b'-' { -minutes } else { minutes };
            let zone = if east == 0 { Zone::Utc } else { Zone::Other };
            // As far as XML Schema lets a zone be.
            (minutes <= 14 * 60).then_some((east * 60, zone))
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_in_every_zone_that_the_schema_knows() {
        for (text, same, zone) in [
            ("2026-06-14T09:30:00Z", "2026-06-14T09:30:00Z", Zone::Utc),
            ("2026-06-14T09:30:00.25Z", "2026-06-14T09:30:00.25Z", Zone::Utc),
            ("2026-06-14T09:30:00.1234567891Z", "2026-06-14T09:30:00.123456789Z", Zone::Utc),
            ("2026-06-14T09:30:00", "2026-06-14T09:30:00Z", Zone::None),
            ("2026-06-14T09:30:00+00:00", "2026-06-14T09:30:00Z", Zone::Utc),
            ("2026-06-14T09:30:00+02:00", "2026-06-14T07:30:00Z", Zone::Other),
            ("2026-06-14T09:30:00.5-03:30", "2026-06-14T13:00:00.5Z", Zone::Other),
            ("2016-12-31T23:59:60Z", "2017-01-01T00:00:00Z", Zone::Utc),
            ("2026-06-14T24:00:00Z", "2026-06-15T00:00:00Z", Zone::Utc),
            ("2024-02-29T00:00:00Z", "2024-02-29T00:00:00Z", Zone::Utc),
            ("1969-07-20T20:17:40Z", "1969-07-20T20:17:40Z", Zone::Utc),
            ("0001-01-01T00:00:00Z", "0001-01-01T00:00:00Z", Zone::Utc),
        ] {
            let same: Timestamp = same.parse().unwrap();
            assert_eq!(parse(text), Some((same, zone)), "{text}");
        }
    }

    #[test]
    fn what_is_no_time_is_none() {
        for text in [
            "",
            "yesterday",
            "2026-06-14",
            "2026-06-14 09:30:00Z",
            "2026-06-14T09:30Z",
            "2026-06-14T09:30:61Z",
            "2026-06-14T25:00:00Z",
            "2026-06-14T24:00:01Z",
            "2026-06-14T24:00:00.5Z",
            "2026-02-29T00:00:00Z",
            "2026-13-01T00:00:00Z",
            "2026-00-10T00:00:00Z",
            "2026-06-14T09:30:00.Z",
            "2026-06-14T09:30:00z",
            "2026-06-14T09:30:00+2:00",
            "2026-06-14T09:30:00+15:00",
            "2026-06-14T09:30:00+02:60",
            "2026-06-14T09:30:00+0200",
            "26-06-14T09:30:00Z",
            "-026-06-14T09:30:00Z",
            "2026-06-14T09:30:00Zé",
            "９０２６-06-14T09:30:00Z",
        ] {
            assert_eq!(parse(text), None, "{text}");
        }
    }
}
