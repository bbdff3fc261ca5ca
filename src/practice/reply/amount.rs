//! Amounts: a number, and a unit if it is not the one asked for.

use nav::text::parse_duration;
use nav::{Length, Speed};

use super::{plainly, words};
use crate::Unit;

/// The amount in `unit` that a text means; nothing for what is none.
pub(super) fn read(text: &str, unit: Unit) -> Option<f64> {
    let text = text.to_lowercase();
    let text = plainly(&text);
    if unit == Unit::Minutes {
        return minutes(text);
    }
    let (number, written) = split(text)?;
    match (unit, written) {
        (_, "") => Some(number),
        (Unit::Knots, _) => speed(number, written).map(Speed::as_knots),
        (Unit::Miles, "m") => Some(number),
        _ => length(number, written).map(|length| match unit {
            Unit::Miles => length.as_nautical_miles(),
            Unit::Kilometres => length.as_kilometres(),
            _ => length.as_metres(),
        }),
    }
}

/// A number, not negative but for its own sign, and the word behind it. Words behind that say nothing: `4.3 NM straight across`.
fn split(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ',' | '-'));
    let (number, rest) = text.split_at(end.unwrap_or(text.len()));
    let number = number.replace(',', ".").parse().ok()?;
    let rest = rest.trim();
    let rest =
        ["nautical ", "sea "].iter().find_map(|word| rest.strip_prefix(word)).unwrap_or(rest);
    let (unit, more) = rest.split_once(' ').unwrap_or((rest, ""));
    words(more).then(|| (number, unit.trim_matches(['.', ','])))
}

fn length(number: f64, unit: &str) -> Option<Length> {
    match unit {
        "nm" | "nmi" | "mile" | "miles" => Length::from_nautical_miles(number).ok(),
        "km" | "kms" | "kilometre" | "kilometres" | "kilometer" | "kilometers" => {
            Length::from_kilometres(number).ok()
        }
        "m" | "metre" | "metres" | "meter" | "meters" => Length::from_metres(number).ok(),
        _ => None,
    }
}

fn speed(number: f64, unit: &str) -> Option<Speed> {
    match unit {
        "kn" | "kt" | "kts" | "knot" | "knots" => Speed::from_knots(number).ok(),
        "km/h" | "kmh" | "kph" => Speed::from_kmh(number).ok(),
        _ => None,
    }
}

/// `85`, `85 min`, `1h25`, `1:25`, `1 h 25 min`, `1.4 h`. A fraction without a unit is no answer: `1.25` may be meant for 1 h 25.
fn minutes(text: &str) -> Option<f64> {
    let mut short = text.to_owned();
    for (long, sign) in [
        ("minutes", "min"),
        ("minute", "min"),
        ("mins", "min"),
        ("hours", "h"),
        ("hour", "h"),
        ("hrs", "h"),
        ("hr", "h"),
        (" and ", " "),
    ] {
        short = short.replace(long, sign);
    }
    let short = short.trim();
    if let Ok(time) = parse_duration(short) {
        return Some(time.as_secs_f64() / 60.0);
    }
    match split(short)? {
        (number, "h") if number >= 0.0 => Some(number * 60.0),
        (number, "m" | "min") if number >= 0.0 => Some(number),
        (number, "") if number >= 0.0 && number.fract() == 0.0 => Some(number),
        _ => None,
    }
}
