//! Where a point lies, in the chart's own names.

use chart::Point;
use chart::model::Ground;
use chart::whereabouts::{On, Whereabouts};
use nav::{geodesic, text};

use crate::state::State;

/// A word for where `point` lies: `near Teal Bight, 240 m`; nothing where the chart names nothing.
pub(super) fn words(state: &State, point: Point) -> String {
    let Whereabouts { on, nearest } = state.chart.whereabouts(point);
    match on {
        On::Land(name) | On::Race(name) if !name.is_empty() => return format!("on {name}"),
        _ => {}
    }
    let near = nearest.and_then(|(name, at)| {
        let (here, there) = (state.position_of(point)?, state.position_of(at)?);
        let distance = geodesic::inverse(here, there).distance;
        Some(format!("near {name}, {}", text::kilometres(distance)))
    });
    let parts = [ground(on).map(str::to_owned), near];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

fn ground(on: On<'_>) -> Option<&'static str> {
    Some(match on {
        On::Water => return None,
        On::Race(_) => "in a race",
        On::Land(_) => "on land",
        On::Drying(Ground::Sand) => "on drying sand",
        On::Drying(Ground::Shingle) => "on drying shingle",
        On::Drying(Ground::Boulders) => "on drying boulders",
        On::Drying(Ground::Rock) => "on drying rock",
        On::Drying(Ground::Mud) => "on drying mud",
        On::Drying(Ground::Slip) => "on a slip",
    })
}
