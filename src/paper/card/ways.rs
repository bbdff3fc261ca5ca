//! The ways out: where the group can land, leg by leg.

use nav::{Figures, GridPoint, Length, text};
use plan::unrolled::{Ground, Passed, Unrolled};

use super::Plan;

/// A landing that a leg passes.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WayOut {
    /// The number of the point at which the leg begins, and of that at which it ends: `2–3`.
    pub leg: String,
    /// Its name.
    pub name: String,
    /// Its reference.
    pub reference: String,
    /// Where along the leg it comes abeam, `1.2 km`.
    pub along: String,
    /// How far off it is there, `0.4 km`.
    pub off: String,
    /// Its ground and the tide at which it serves: `shingle, any tide`.
    pub serves: String,
}

/// The most landings of a leg: those nearest to it; of a route of many legs, each of which is short, one.
const fn most(legs: usize) -> usize {
    if legs > 8 { 1 } else { 2 }
}

/// At so many places of a leg landings are looked for.
const PLACES: usize = 40;

/// The landings in sight of each leg, within a nautical mile, the nearest of each; none where a leg passes none.
pub(super) fn of(plan: &Plan<'_>) -> Vec<WayOut> {
    let ground = Ground { chart: plan.chart, coast: plan.coast, tides: None };
    let count = plan.route.points.len().saturating_sub(1);
    let legs = 0..count;
    legs.flat_map(|leg| {
        let unrolled = plan.route.line_of(leg).and_then(|line| Unrolled::of(line, &ground, PLACES));
        let mut passed = unrolled.map(|unrolled| unrolled.landings).unwrap_or_default();
        let metres = |length: Length| length.as_metres();
        passed.sort_by(|a, b| metres(a.away).total_cmp(&metres(b.away)));
        passed.truncate(most(count));
        passed.sort_by(|a, b| metres(a.along).total_cmp(&metres(b.along)));
        passed.into_iter().filter_map(move |passed| way(plan, leg, &passed)).collect::<Vec<_>>()
    })
    .collect()
}

fn way(plan: &Plan<'_>, leg: usize, passed: &Passed) -> Option<WayOut> {
    let landing = plan.chart.landings.get(passed.landing)?;
    let at = GridPoint::from_metres(landing.at.x, landing.at.y).ok()?;
    let reference = plan.chart.grid.reference(at, Figures::Six).unwrap_or_default();
    Some(WayOut {
        leg: format!("{}–{}", leg + 1, leg + 2),
        name: landing.name.clone(),
        reference,
        along: text::kilometres(passed.along),
        off: text::kilometres(passed.away),
        serves: format!("{}, {}", landing.ground, landing.serves),
    })
}
