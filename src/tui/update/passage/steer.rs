//! How legs are steered, and the wind.

use nav::leeway::{Leeway, Wind};
use nav::{Bearing, Speed};
use plan::{Edit, Limit, Steering, Weather};

use crate::state::{Answer, Change};
use crate::update::route;
use crate::{Command, State};

/// Steers the leg that is lit on one heading, or on its line again.
pub(in crate::update) fn steer(state: &mut State) -> Vec<Command> {
    let Some(leg) = state.lit_leg() else {
        state.refuse("no leg is chosen or under the cursor");
        return Vec::new();
    };
    let index = leg + 1;
    let now = state.document.route().points.get(index).map(|point| point.steer);
    let (steer, words) = match now {
        Some(Steering::OneHeading) => (Steering::Line, "holds its line"),
        _ => (Steering::OneHeading, "is steered on one heading"),
    };
    let commands = route::edit(state, Edit::SetSteering { index, steer });
    if !commands.is_empty() {
        state.say(format!("leg {index} {words}"));
    }
    commands
}

/// The wind as its question writes it; nothing for no wind, so that one can be typed at once.
pub(in crate::update) fn wind_text(weather: Option<Weather>) -> String {
    let Some(Weather { wind, leeway }) = weather else { return String::new() };
    let factor = match leeway.factor() {
        1.0 => String::new(),
        factor => format!(" x{factor}"),
    };
    format!("{} {} kn{factor}", wind.from.as_degrees(), wind.speed.as_knots())
}

/// A wind: the direction that it comes from and its speed, `240 12 kn`, and behind them by how much more
/// or less than the rule it pushes, `x1.5`; nothing, or `none`, for no wind.
pub(in crate::update) fn wind(answer: &str) -> Result<Answer, String> {
    if answer.is_empty() || answer.eq_ignore_ascii_case("none") {
        let words = "no wind: the stream alone".to_owned();
        return Ok(Answer { change: Edit::SetWind(None).into(), words });
    }
    let wrong = || format!("“{answer}” is no wind; write from and speed, 240 12 kn, or none");
    let lower = answer.to_lowercase().replace(',', ".");
    let mut words = lower.split([' ', '°', '/']).filter(|word| !matches!(*word, "" | "t"));
    let from = words.next().and_then(|word| word.trim_end_matches('t').parse::<f64>().ok());
    let from = from.filter(|from| (0.0..=360.0).contains(from)).ok_or_else(wrong)?;
    let rest: String = words.collect();
    let (rest, factor) = match rest.split_once(['x', '×']) {
        Some((rest, factor)) => (rest.to_owned(), factor.parse::<f64>().map_err(|_| wrong())?),
        None => (rest, 1.0),
    };
    let from = Bearing::from_degrees(from % 360.0).map_err(|error| error.to_string())?;
    let wind = Wind { from, speed: speed(&rest).ok_or_else(wrong)? };
    let leeway = Leeway::from_factor(factor).map_err(|error| error.to_string())?;
    let weather = Weather { wind, leeway }.checked().map_err(|error| error.to_string())?;
    let push = weather.drift().map_err(|error| error.to_string())?;
    let words = format!(
        "from {from} at {:.1} kn: pushes {:.1} kn towards {}, by a rule of thumb",
        weather.wind.speed.as_knots(),
        push.drift.as_knots(),
        push.set
    );
    Ok(Answer { change: Edit::SetWind(Some(weather)).into(), words })
}

/// A speed in knots, if it does not say otherwise.
fn speed(text: &str) -> Option<Speed> {
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
    let (number, unit) = text.split_at(end);
    let number: f64 = number.parse().ok()?;
    match unit {
        "" | "kn" | "kt" | "kts" => Speed::from_knots(number).ok(),
        "m/s" | "ms" => Speed::from_metres_per_second(number).ok(),
        "km/h" | "kmh" => Speed::from_kmh(number).ok(),
        _ => None,
    }
}

/// One of the limits, as its question asks for it.
pub(in crate::update) fn limit(
    answer: &str,
    limit: Limit,
    state: &State,
) -> Result<Answer, String> {
    let limits = state.document.route().limits.with(limit, answer);
    let limits = limits.map_err(|error| error.to_string())?;
    let words = format!("{}: {}", limits.written(limit), limit.meaning());
    Ok(Answer { change: Change::Route(Edit::SetLimits(limits)), words })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Option<Weather> {
        let Change::Route(Edit::SetWind(wind)) = wind(text).unwrap().change else {
            panic!("{text}")
        };
        wind
    }

    #[test]
    fn winds_are_read_as_they_are_written() {
        for text in ["240 12 kn", "240°T 12kn", "240 12", "240/12", "240t 12 kt"] {
            assert_eq!(wind_text(read(text)), "240 12 kn", "{text}");
        }
        assert_eq!(wind_text(read("360 5 m/s x1.5")), "0 9.72 kn x1.5");
        assert_eq!(wind_text(read("005 7,5 kn")), "5 7.5 kn");
        assert_eq!((read(""), read("none")), (None, None));
        for bad in ["west 12", "240", "400 12", "240 12 furlongs", "240 12 kn xa", "x"] {
            assert!(wind(bad).unwrap_err().contains(bad), "{bad}");
        }
        assert!(wind("240 25 kn").unwrap_err().contains("force 4"));
        assert!(wind("240 10 kn x9").unwrap_err().contains("0 to 3"));
    }
}
