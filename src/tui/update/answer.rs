//! Answers, read and written: stop, pace, departure, variation.

use chart::trace::{MOST_STAND_OFF, MOST_STEP};
use jiff::SignedDuration;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::TimeZone;
use nav::magnetic::{DecimalYear, PerYear, PrintedVariation, VariationSource};
use nav::{Length, Pace, Variation, text};
use plan::{Departure, Edit, profile};

use crate::State;
use crate::state::{Answer, Change};

/// A stop: minutes (`20`, `20 min`) or hours and minutes (`1 h`, `1 h 10`, `1:10`).
pub(super) fn stop(answer: &str, index: usize) -> Result<Answer, String> {
    let wrong = || format!("“{answer}” is no stop; write minutes, 20, or 1 h 10, or 0 for none");
    let number = |part: &str| -> Result<i64, String> {
        match part.trim() {
            "" => Ok(0),
            part => part.parse::<u16>().map(i64::from).map_err(|_| wrong()),
        }
    };
    let lower = answer.to_lowercase();
    let bare = lower.trim().trim_end_matches("min").trim_end_matches('m').trim();
    let minutes = match bare.split_once(['h', ':']) {
        Some((hours, minutes)) => number(hours)? * 60 + number(minutes)?,
        None => number(bare)?,
    };
    let stop = SignedDuration::from_mins(minutes);
    let words = if minutes == 0 { "no stop".to_owned() } else { text::duration(stop) };
    Ok(Answer { change: Edit::SetStop { index, stop }.into(), words })
}

/// A pace, or the name of a profile that has one; the rests of the one before stay.
pub(super) fn pace(answer: &str, state: &State) -> Result<Answer, String> {
    let kept = profile::pace_of(&state.profiles, answer);
    let pace: Pace = match kept {
        Some(pace) => pace,
        None => answer.parse().map_err(|error: nav::PaceError| error.to_string())?,
    };
    let rest = state.document.route().pace.rest_per_hour();
    let pace = pace.with_rest_per_hour(rest).map_err(|error| error.to_string())?;
    let speed = pace.speed();
    let from = if kept.is_some() { format!("{}: ", answer.trim()) } else { String::new() };
    let words = format!("{from}{:.1} kn, {:.1} km/h", speed.as_knots(), speed.as_kmh());
    Ok(Answer { change: Edit::SetPace(pace).into(), words })
}

/// How far off the shore a trace is laid.
pub(super) fn stand_off(answer: &str) -> Result<Answer, String> {
    let most = Length::from_metres(MOST_STAND_OFF).unwrap_or(Length::ZERO);
    let length = length(answer, most)?;
    let words = match length {
        Length::ZERO => "along the shore itself".to_owned(),
        length => format!("{} off the shore", text::kilometres(length)),
    };
    Ok(Answer { change: Change::StandOff(length), words })
}

/// By what step a trace is smoothed.
pub(super) fn smoothing(answer: &str) -> Result<Answer, String> {
    let most = Length::from_metres(MOST_STEP).unwrap_or(Length::ZERO);
    let length = length(answer, most)?;
    let words = match length {
        Length::ZERO => "through every point of the shore".to_owned(),
        length => format!("cut across what is narrower than {}", text::kilometres(length)),
    };
    Ok(Answer { change: Change::Smoothing(length), words })
}

/// A length as its question writes it.
pub(super) fn length_text(length: Length) -> String {
    format!("{} m", length.as_metres())
}

/// A length in metres, kilometres or nautical miles, metres if it does not say, from zero to `most`.
fn length(answer: &str, most: Length) -> Result<Length, String> {
    let wrong = || format!("“{answer}” is no length; write, say, 50 m, 0.2 km or 0.1 NM");
    let end = answer.find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ',' | '-' | '+'));
    let (number, unit) = answer.split_at(end.unwrap_or(answer.len()));
    let unit = match unit.trim().to_lowercase().as_str() {
        "" | "m" => Length::METRE,
        "km" => Length::KILOMETRE,
        "nm" | "nmi" => Length::NAUTICAL_MILE,
        _ => return Err(wrong()),
    };
    let number: f64 = number.replace(',', ".").parse().map_err(|_| wrong())?;
    let length = number * unit;
    if (Length::ZERO..=most).contains(&length) {
        return Ok(length);
    }
    Err(format!("“{answer}” is not within 0 m to {}", text::kilometres(most)))
}

/// A departure as its question writes it.
pub(super) fn departure_text(departure: Option<&Departure>) -> String {
    match departure {
        Some(departure) => departure.moment().strftime("%Y-%m-%d %H:%M").to_string(),
        None => "none".to_owned(),
    }
}

/// A departure: a date, a time or both, and a zone behind them if it changes; or `none`.
pub(super) fn departure(answer: &str, state: &State) -> Result<Answer, String> {
    if answer.eq_ignore_ascii_case("none") {
        let words = "no departure: no clock times".to_owned();
        return Ok(Answer { change: Edit::SetDeparture(None).into(), words });
    }
    let departure = match answer.parse() {
        Ok(departure) => departure,
        Err(_) => by_parts(answer, state)?,
    };
    let words = departure.moment().strftime("%A %-d %B %Y, %H:%M, %:Q").to_string();
    Ok(Answer { change: Edit::SetDeparture(Some(departure)).into(), words })
}

fn by_parts(answer: &str, state: &State) -> Result<Departure, String> {
    let now = state.document.route().departure.as_ref().map(Departure::moment);
    let mut date = now.map_or(state.today, |now| now.date());
    let mut time = now.map_or_else(|| Time::constant(9, 0, 0, 0), |now| now.time());
    let mut zone = now.map_or_else(|| state.zone.clone(), |now| now.time_zone().clone());
    for (count, word) in answer.split([' ', 'T', ',']).filter(|word| !word.is_empty()).enumerate() {
        if let Ok(read) = word.parse::<Date>() {
            date = read;
        } else if let Some(read) = clock_time(word) {
            time = read;
        } else if let Some(read) = time_zone(word).filter(|_| count > 0) {
            zone = read;
        } else {
            return Err(format!(
                "“{word}” is no date, time or zone; write 2026-06-14 09:30, or with a zone: 2026-06-14 09:30 Europe/Oslo"
            ));
        }
    }
    Departure::new(DateTime::from_parts(date, time), zone).map_err(|error| error.to_string())
}

/// `09:30`, `9:30` or `0930`, to the minute.
fn clock_time(word: &str) -> Option<Time> {
    let (hour, minute) = match word.split_once(':') {
        Some(parts) => parts,
        None if word.len() == 4 => word.split_at_checked(2)?,
        None => return None,
    };
    Time::new(hour.parse().ok()?, minute.parse().ok()?, 0, 0).ok()
}

/// `Europe/Oslo`, `UTC`, `+02:00` or `-1`.
fn time_zone(word: &str) -> Option<TimeZone> {
    let word = word.trim_matches(['[', ']']);
    if let Some(hours) = word.strip_prefix(['+', '-']) {
        let (hours, minutes) = hours.split_once(':').unwrap_or((hours, "0"));
        let seconds = hours.parse::<i32>().ok()? * 3600 + minutes.parse::<i32>().ok()? * 60;
        let seconds = if word.starts_with('-') { -seconds } else { seconds };
        return Some(jiff::tz::Offset::from_seconds(seconds).ok()?.to_time_zone());
    }
    TimeZone::get(word).ok()
}

/// A source of variation as its question writes it.
pub(super) fn variation_text(source: &VariationSource) -> String {
    match source {
        VariationSource::Model => "model".to_owned(),
        VariationSource::Printed(printed) => {
            let year = printed.year.as_years();
            let change = printed.change_per_year.0.as_degrees_east() * 60.0;
            let (variation, east) =
                (printed.variation.as_degrees_east(), |it: f64| if it < 0.0 { 'W' } else { 'E' });
            let minutes = (variation.abs() * 60.0).round();
            let (degrees, minutes) = ((minutes / 60.0).floor(), minutes % 60.0);
            format!(
                "{degrees}°{minutes:02}′{} {year} {}′{}",
                east(variation),
                (change.abs() * 10.0).round() / 10.0,
                east(change)
            )
        }
    }
}

/// `model`, or a printed variation: value, year and yearly change, `4°30′W 2019 8′E`.
pub(super) fn variation(answer: &str, state: &State) -> Result<Answer, String> {
    let source = if answer.eq_ignore_ascii_case("model") {
        VariationSource::Model
    } else {
        VariationSource::Printed(printed(answer, state.year())?)
    };
    let words = match state.position() {
        Some(here) => format!("{} here on the day", source.at(here, state.year()).variation),
        None => variation_text(&source),
    };
    Ok(Answer { change: Edit::SetVariation(source).into(), words })
}

fn printed(answer: &str, this_year: DecimalYear) -> Result<PrintedVariation, String> {
    let wrong = |what: &str| {
        format!("{what}; write model, or value, year and yearly change as printed: 4°30′W 2019 8′E")
    };
    let (value, rest) =
        quarter(answer).ok_or_else(|| wrong("the variation needs E or W behind it"))?;
    let rest = rest.trim_matches([' ', '(', ')', ',']);
    let (year, change) = match rest.split_once(' ') {
        Some((year, change)) => (year, change.trim_matches([' ', '(', ')', ','])),
        None => (rest, ""),
    };
    let year = match year {
        "" => this_year,
        year => year
            .parse()
            .ok()
            .filter(|year| (1900.0..2200.0).contains(year))
            .and_then(|year| DecimalYear::new(year).ok())
            .ok_or_else(|| wrong(&format!("“{year}” is no year from 1900 to 2199")))?,
    };
    let change = match change {
        "" => 0.0,
        change => {
            // The change is printed in minutes; the sign of degrees says otherwise.
            let unit = if change.contains('°') { 1.0 } else { 60.0 };
            quarter(change).ok_or_else(|| wrong("the yearly change needs E or W behind it"))?.0
                / unit
        }
    };
    Ok(PrintedVariation {
        variation: Variation::from_degrees_east(value).map_err(|error| error.to_string())?,
        year,
        change_per_year: PerYear::from_degrees_east(change).map_err(|error| error.to_string())?,
    })
}

/// A number, or degrees and minutes, with E or W behind it, east positive; and what follows.
fn quarter(text: &str) -> Option<(f64, &str)> {
    let at = text.find(['E', 'W', 'e', 'w'])?;
    let (angle, rest) = text.split_at(at);
    let parts =
        angle.split(|c: char| !c.is_ascii_digit() && c != '.').filter(|part| !part.is_empty());
    let parts = parts.map(|part| part.parse().ok()).collect::<Option<Vec<f64>>>()?;
    let angle = match parts.as_slice() {
        [degrees] => *degrees,
        [degrees, minutes] if *minutes < 60.0 => degrees + minutes / 60.0,
        _ => return None,
    };
    let west = rest.starts_with(['W', 'w']);
    Some((if west { -angle } else { angle }, &rest[1..]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stops_in_minutes_and_in_hours() {
        for (text, minutes) in [
            ("20", 20),
            ("20 min", 20),
            ("1 h 10", 70),
            ("1h", 60),
            ("1:10", 70),
            ("0", 0),
            ("", 0),
        ] {
            let Change::Route(Edit::SetStop { stop, .. }) = stop(text, 0).unwrap().change else {
                panic!("{text}")
            };
            assert_eq!(stop.as_mins(), minutes, "{text}");
        }
        assert!(stop("a while", 0).unwrap_err().contains("a while"));
        assert!(stop("-5", 0).is_err());
    }

    #[test]
    fn lengths_in_every_unit_within_their_bounds() {
        let metres = |text: &str| length(text, 2.0 * Length::KILOMETRE).map(Length::as_metres);
        for (text, expected) in
            [("50", 50.0), ("50 m", 50.0), ("0,2km", 200.0), ("0.1 NM", 185.2), ("0", 0.0)]
        {
            assert!((metres(text).unwrap() - expected).abs() < 1e-9, "{text}");
        }
        assert!(metres("3 km").unwrap_err().contains("2.0 km"));
        for bad in ["", "m", "-5", "5 furlongs", "NaN", "1e3"] {
            assert!(metres(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn a_printed_variation_is_read_as_it_is_written() {
        let this_year = DecimalYear::new(2026.5).unwrap();
        let read = |text: &str| printed(text, this_year).unwrap();
        let rose = read("4°30′W 2019 8′E");
        assert_eq!(rose.variation.as_degrees_east(), -4.5);
        assert_eq!(rose.year.as_years(), 2019.0);
        assert!((rose.change_per_year.0.as_degrees_east() - 8.0 / 60.0).abs() < 1e-12);
        assert_eq!(variation_text(&VariationSource::Printed(rose)), "4°30′W 2019 8′E");
        for same in ["4 30 W 2019 8E", "4.5W 2019 (8'E)", "4.5°w, 2019 8′ E"] {
            assert_eq!(read(same), rose, "{same}");
        }
        assert_eq!(read("3E").year, this_year);
        for bad in ["4.5", "4 75 W", "x W", "4W soon", "4W 20", "4W 2019 8"] {
            assert!(printed(bad, this_year).is_err(), "{bad}");
        }
    }

    #[test]
    fn clock_times_and_zones() {
        assert_eq!(clock_time("9:30"), Some(Time::constant(9, 30, 0, 0)));
        assert_eq!(clock_time("0930"), Some(Time::constant(9, 30, 0, 0)));
        assert_eq!(clock_time("24:30"), None);
        assert!(time_zone("Europe/Oslo").is_some() && time_zone("-1").is_some());
        assert_eq!(time_zone("Nowhere"), None);
    }
}
