//! Amounts: a number, and a unit if it is not the one asked for.

use nav::text::parse_duration;
use nav::{Length, Speed};

use crate::Unit;

/// The amount in `unit` that a text means; nothing for what is none.
pub(super) fn read(text: &str, unit: Unit) -> Option<f64> {
    let text = text.to_lowercase();
    if unit == Unit::Minutes {
        return minutes(&text);
    }
    let (number, written) = split(&text)?;
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

/// A number, not negative but for its own sign, and what stands behind it.
fn split(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ',' | '-'));
    let (number, unit) = text.split_at(end.unwrap_or(text.len()));
    let number = number.replace(',', ".").parse().ok()?;
    Some((number, unit.trim()))
}

fn length(number: f64, unit: &str) -> Option<Length> {
    match unit {
        "nm" | "nmi" | "mile" | "miles" | "sea miles" | "nautical miles" => {
            Length::from_nautical_miles(number).ok()
        }
        "km" | "kilometre" | "kilometres" | "kilometer" | "kilometers" => {
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

/// `85`, `85 min`, `1h25`, `1:25`, `1 h 25 min`, `1.4 h`.
fn minutes(text: &str) -> Option<f64> {
    let short = text
        .replace("minutes", "min")
        .replace("minute", "min")
        .replace("mins", "min")
        .replace("hours", "h")
        .replace("hour", "h")
        .replace("hrs", "h");
    let short = short.trim();
    if let Ok(time) = parse_duration(short) {
        return Some(time.as_secs_f64() / 60.0);
    }
    match split(short)? {
        (number, "h") if number >= 0.0 => Some(number * 60.0),
        (number, "m" | "min" | "") if number >= 0.0 => Some(number),
        _ => None,
    }
}
