//! How the drying ground or the landing at the cursor stands to the water at the moment. By the
//! tide alone: swell, wind and what the shore is like that day are for who looks at it.

use chart::Point;
use chart::model::{Landing, Serves};
use jiff::{SignedDuration, Timestamp};
use nav::tide::Water;

use crate::state::{PortDay, Stand, State};

/// How near the cursor has to be to a landing to be at it, in metres on the grid.
const NEAR: f64 = 400.0;

/// How long about high or low water a landing serves that does near it: "an hour or two".
const ABOUT: SignedDuration = SignedDuration::from_mins(90);

/// What is said of the drying ground under the cursor, else of the landing near it; empty where
/// there is neither.
pub(super) fn words(state: &State) -> String {
    if let Some(Stand { dries_m, over_m }) = state.stand_at(state.cursor) {
        return match over_m {
            over if over > 0.0 => format!("dries {dries_m:.1} m; {over:.1} m over it"),
            _ => format!("dries {dries_m:.1} m; bare"),
        };
    }
    let Some(landing) = near(state) else { return String::new() };
    let name = landing.name.as_str();
    let Some(serves) = serves(state, landing) else { return String::new() };
    let now = if serves { "now" } else { "not now" };
    format!("{}, {now}: {name}", landing.serves)
}

/// The landing near the cursor that hangs on the tide.
fn near(state: &State) -> Option<&Landing> {
    let away = |at: Point| (at.x - state.cursor.x).hypot(at.y - state.cursor.y);
    let landings = state.chart.landings.iter();
    let near = landings.map(|landing| (landing, away(landing.at))).filter(|near| near.1 <= NEAR);
    let (landing, _) = near.min_by(|a, b| a.1.total_cmp(&b.1))?;
    (landing.serves != Serves::AnyTide).then_some(landing)
}

/// Whether the tide is one at which a landing serves, by the port nearest to it; nothing where
/// that is not known.
fn serves(state: &State, landing: &Landing) -> Option<bool> {
    let port = state.water_day()?.ports().get(state.port_near(landing.at)?)?;
    serves_at(port, state.moment.at(), landing.serves)
}

fn serves_at(port: &PortDay, at: Timestamp, serves: Serves) -> Option<bool> {
    let (before, next) = (port.before(at)?, port.next(at)?);
    let half = before.height + (next.height - before.height) / 2.0;
    let about = |water: Water| {
        let turns = [before, next].into_iter().filter(move |turn| turn.water == water);
        turns.into_iter().any(|turn| turn.at.duration_since(at).abs() <= ABOUT)
    };
    Some(match serves {
        Serves::AnyTide => true,
        Serves::AboveHalfTide => port.height(at)? >= half,
        Serves::BelowHalfTide => port.height(at)? <= half,
        Serves::NearHighWater => about(Water::High),
        Serves::NearLowWater => about(Water::Low),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::WaterDay;
    use chart::water::Tides;
    use jiff::tz::TimeZone;

    #[test]
    fn landings_serve_by_the_turns_about_the_moment() {
        let tides = Tides::of(&chart::practice().unwrap()).unwrap();
        let day = WaterDay::of(&tides, jiff::civil::date(2026, 6, 14), &TimeZone::UTC).unwrap();
        let port = &day.ports()[0];
        let high = port.turns.iter().find(|turn| turn.water == Water::High).unwrap().at;
        let low = port.next(high).unwrap().at;
        let minutes = SignedDuration::from_mins;
        use Serves::*;
        let all = [AnyTide, AboveHalfTide, BelowHalfTide, NearHighWater, NearLowWater];
        let at = |at| all.map(|serves| serves_at(port, at, serves).unwrap());
        assert_eq!(at(high + minutes(60)), [true, true, false, true, false]);
        assert_eq!(at(high + minutes(100)), [true, true, false, false, false]);
        assert_eq!(at(low - minutes(60)), [true, false, true, false, true]);
        assert_eq!(at(low + minutes(60)), [true, false, true, false, true]);
        assert_eq!(at(low - minutes(100)), [true, false, true, false, false]);
    }
}
