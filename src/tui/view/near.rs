//! Where a point lies, in the chart's own names, and how far from the shore.

use chart::Point;
use chart::model::{Ground, Race};
use chart::whereabouts::{On, Whereabouts};
use nav::{geodesic, text};

use crate::state::State;

/// A leg may begin and end on a shore: land this near to its ends is none that it touches, in
/// metres.
const AT_AN_END: f64 = 30.0;

/// A word for where `point` lies: `near Teal Bight, 1.2 km`; nothing where the chart names nothing.
pub(super) fn words(state: &State, point: Point) -> String {
    let Whereabouts { on, nearest } = state.chart.whereabouts(state.coast(), point);
    match on {
        On::Land(name) if !name.is_empty() => return format!("on {name}"),
        On::Race(race) => return self::race(race),
        On::Gate(gate) => return format!("{}, shut over {:.1} kn", gate.name, gate.limit_kn),
        _ => {}
    }
    let away = |at| Some(text::kilometres(distance(state, point, at)?));
    let near = nearest.and_then(|(name, at)| Some(format!("near {name}, {}", away(at)?)));
    let parts = [ground(on).map(str::to_owned), near];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// How far the nearest shore is from a point on the water: `shore 240 m`.
pub(super) fn shore(state: &State, point: Point) -> String {
    if state.coast().on_land(point) {
        return String::new();
    }
    let near = state.coast().nearest(point, f64::INFINITY);
    let away = near.and_then(|near| distance(state, point, near.on.at));
    away.map(|away| format!("shore {}", text::kilometres(away))).unwrap_or_default()
}

fn distance(state: &State, a: Point, b: Point) -> Option<nav::Length> {
    Some(geodesic::inverse(state.position_of(a)?, state.position_of(b)?).distance)
}

/// Where the straight leg from `a` to `b` first comes to land that is not the shore at which it
/// begins or ends.
pub(super) fn land_on_the_way(state: &State, a: Point, b: Point) -> Option<Point> {
    let coast = state.coast();
    let apart = |p: Point, q: Point| (p.x - q.x).hypot(p.y - q.y);
    let on_the_way = |at: &Point| apart(a, *at).min(apart(b, *at)) > AT_AN_END;
    let touch = coast.crossings(a, b).into_iter().map(|touch| touch.on.at).find(on_the_way);
    // A leg that is ashore from end to end touches no shore.
    let middle = (a + b) / 2.0;
    touch.or_else(|| (on_the_way(&middle) && coast.on_land(middle)).then_some(middle))
}

/// `on Teal Race, quiet under 1.0 kn`.
fn race(race: &Race) -> String {
    match &race.runs {
        Some(runs) => format!("on {}, quiet under {:.1} kn", race.name, runs.quiet_under_kn),
        None => format!("on {}", race.name),
    }
}

fn ground(on: On<'_>) -> Option<&'static str> {
    Some(match on {
        On::Water => return None,
        On::Race(_) | On::Gate(_) => return None,
        On::Land(_) => "on land",
        On::Drying(Ground::Sand) => "on drying sand",
        On::Drying(Ground::Shingle) => "on drying shingle",
        On::Drying(Ground::Boulders) => "on drying boulders",
        On::Drying(Ground::Rock) => "on drying rock",
        On::Drying(Ground::Mud) => "on drying mud",
        On::Drying(Ground::Slip) => "on a slip",
    })
}
