//! What lies in the water: hazards, races, the names of sounds and narrows, buoys.

use super::ashore::{Spot, Town};
use super::dice::{DIRECTIONS, Xy};
use super::finds::{Berth, contains, offings, spaced, summits};
use super::names::words;
use super::scene::Scene;
use super::sketch::distance;
use crate::model::HazardKind;

/// A hazard before it is moved to the chart's grid.
pub(super) struct Danger {
    pub(super) name: String,
    pub(super) at: Xy,
    pub(super) kind: HazardKind,
    pub(super) note: &'static str,
}

/// A race before it is moved to the chart's grid.
pub(super) struct Breaking {
    pub(super) name: String,
    pub(super) edge: Vec<Xy>,
    /// The name of the station in whose stream it breaks.
    pub(super) station: String,
    /// Whether it breaks with the flood as well as with the ebb.
    pub(super) both_ways: bool,
    pub(super) note: &'static str,
}

/// Rocks that dry, rocks that do not, banks, and what people have put there.
pub(super) fn dangers(scene: &mut Scene<'_>, towns: &[Town]) -> Vec<Danger> {
    let mut found = drying_rocks(scene);
    found.extend(shoals(scene, (-1.9, -0.4), HazardKind::SunkenRock));
    found.extend(shoals(scene, (-6.5, -2.2), HazardKind::BreakingBank));
    found.extend(works(scene, towns));
    found
}

fn drying_rocks(scene: &mut Scene<'_>) -> Vec<Danger> {
    let relief = scene.survey.relief;
    let half_tide = relief.high_water() * 0.5;
    let lone = scene.coast.flats.iter().filter(|f| f.edge.double_area() < 2 * 9_000);
    let tops = lone.filter_map(|flat| {
        let top = flat.nodes.iter().map(|n| (relief.place(*n), relief.heights[*n]));
        let top = top.max_by(|a, b| a.1.total_cmp(&b.1))?;
        // No land on it: the water reaches every way.
        let clear = scene.survey.clearance(top.0, 200.0) >= 120.0 && relief.within(top.0, 100.0);
        (clear && scene.survey.is_passed(top.0) && contains(&flat.edge, top.0)).then_some(top)
    });
    let worth = |top: &(Xy, f64)| scene.survey.clearance(top.0, 1_500.0);
    let chosen = spaced(tops, worth, |t| t.0, 1_100.0 * scene.scale, 16);
    let danger = |(at, height): (Xy, f64)| Danger {
        name: scene.name(words::SUNKEN).full,
        at,
        kind: HazardKind::DryingRock,
        note: if height > half_tide {
            "Shows from half tide down."
        } else {
            "Shows near low water only."
        },
    };
    chosen.into_iter().map(danger).collect()
}

fn shoals(scene: &mut Scene<'_>, (low, high): (f64, f64), kind: HazardKind) -> Vec<Danger> {
    let bank = kind == HazardKind::BreakingBank;
    let (spacing, count) = if bank { (3_200.0, 6) } else { (1_700.0, 12) };
    let survey = scene.survey;
    let tops = summits(survey.relief, low, high).into_iter().map(|t| t.0);
    let clear = if bank { 400.0 } else { 160.0 };
    let fit = |at: &Xy| survey.clearance(*at, 400.0) >= clear && survey.is_passed(*at);
    let open = |at: &Xy| survey.openness(*at);
    let chosen = spaced(tops.filter(fit), open, |t| *t, spacing * scene.scale, count);
    let (forms, note) = if bank {
        (words::SHOAL, "Swell breaks here, most on the ebb.")
    } else {
        (words::SUNKEN, "Never shows; breaks in swell near low water.")
    };
    // The low water line is thinned: what never shows may lie within ground that is drawn as drying.
    let dries = |at: &Xy| scene.coast.flats.iter().any(|flat| contains(&flat.edge, *at));
    let chosen: Vec<Xy> = chosen.into_iter().filter(|at| !dries(at)).collect();
    let danger = |at: Xy| Danger { name: scene.name(forms).full, at, kind, note };
    chosen.into_iter().map(danger).collect()
}

/// Two wrecks, some fixed gear in shelter, and the way of the ships to the harbour.
fn works(scene: &mut Scene<'_>, towns: &[Town]) -> Vec<Danger> {
    let survey = scene.survey;
    let waters = offings(survey);
    let mut found = Vec::new();
    let near = waters.iter().filter(|w| w.1 < 400.0).map(|w| (w.0, survey.openness(w.0)));
    let near: Vec<(Xy, f64)> = near.collect();
    for (at, _) in spaced(near.clone(), |w| w.1, |w| w.0, 9_000.0 * scene.scale, 2) {
        let name = format!("Wreck of the {}", scene.name(&["*"]).full);
        found.push(Danger {
            name,
            at,
            kind: HazardKind::Wreck,
            note: "Plates stand up at low water.",
        });
    }
    let sheltered = |w: &(Xy, f64)| -(w.1 - 0.16).abs();
    for (at, _) in spaced(near, sheltered, |w| w.0, 4_500.0 * scene.scale, 4) {
        let name = String::new();
        let note = "Floats and lines all over the bay.";
        found.push(Danger { name, at, kind: HazardKind::FixedGear, note });
    }
    if let Some(harbour) = towns.first() {
        let name = format!("{} approach", harbour.name.full);
        let note = "Ships keep to it and cannot stop.";
        let within = waters.iter().filter(|w| distance(w.0, harbour.berth.at) < 4_500.0);
        let wide = within.max_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((at, _)) = wide {
            found.push(Danger { name, at: *at, kind: HazardKind::Fairway, note });
        }
    }
    found
}

/// The names of stretches of water: sounds and roads.
pub(super) fn sounds(scene: &mut Scene<'_>) -> Vec<Spot> {
    let survey = scene.survey;
    let scale = scene.scale.max(0.3);
    let fit = |w: &(Xy, f64)| w.1 > 450.0 * scale && (0.2..0.75).contains(&survey.openness(w.0));
    let waters = offings(survey).into_iter().filter(fit);
    let worth = |w: &(Xy, f64)| w.1.min(1_300.0) / 1_300.0 - survey.openness(w.0);
    let chosen = spaced(waters, worth, |w| w.0, 4_600.0 * scene.scale, 9);
    let spot = |(at, _): (Xy, f64)| Spot { name: scene.name(scene.words().sound), at, berth: None };
    chosen.into_iter().map(spot).collect()
}

/// The names of the narrows, in the order of the scene's straits.
pub(super) fn narrows(scene: &mut Scene<'_>) -> Vec<Spot> {
    let places: Vec<Xy> = scene.straits.iter().map(|s| s.at).collect();
    let spot = |at: Xy| Spot { name: scene.name(scene.words().narrows), at, berth: None };
    places.into_iter().map(spot).collect()
}

/// Races: in the tightest narrows and off the most exposed capes.
pub(super) fn races(scene: &mut Scene<'_>, narrows: &[Spot], capes: &[Spot]) -> Vec<Breaking> {
    let mut found = Vec::new();
    let small = scene.scale.clamp(0.4, 1.0);
    for (spot, strait) in narrows.iter().zip(scene.straits.clone()).take(3) {
        let name = scene.names.kin(&spot.name.root, words::RACE);
        let sides = (420.0 * small, strait.width * 0.42);
        let Some(edge) = patch(scene, strait.at, strait.through, sides) else { continue };
        found.push(Breaking {
            name,
            edge,
            station: spot.name.full.clone(),
            both_ways: true,
            note: "Runs hardest three hours after the turn, both ways.",
        });
    }
    for spot in exposed(scene, capes, 3) {
        let Some((at, along)) = off_cape(scene, spot) else { continue };
        let name = scene.names.kin(&spot.name.root, words::RACE);
        let sides = (780.0 * small, 330.0 * small);
        let Some(edge) = patch(scene, at, along, sides) else { continue };
        found.push(Breaking {
            name,
            edge,
            station: off(spot),
            both_ways: false,
            note: "Breaks when wind meets stream, worst at springs.",
        });
    }
    found
}

/// The capes that stand farthest out to sea, well apart.
pub(super) fn exposed<'s>(scene: &Scene<'_>, capes: &'s [Spot], count: usize) -> Vec<&'s Spot> {
    let openness = |s: &&Spot| s.berth.map_or(0.0, |b| b.openness - 0.4 * b.share);
    spaced(capes, openness, |s| s.at, 6_000.0 * scene.scale, count)
}

/// What the stream off a cape is called.
pub(super) fn off(cape: &Spot) -> String {
    format!("Off {}", cape.name.full)
}

/// The water some way off a cape, if it is clear and on the chart, and the direction past the cape.
pub(super) fn off_cape(scene: &Scene<'_>, cape: &Spot) -> Option<(Xy, Xy)> {
    let Berth { at, seaward, .. } = cape.berth?;
    let off = (at.0 + seaward.0 * 420.0, at.1 + seaward.1 * 420.0);
    let on_chart = scene.survey.to_frame(at, seaward) > 600.0;
    let clear = scene.survey.clearance(off, 200.0) >= 150.0;
    let deep = scene.survey.relief.height(off) < -0.5;
    (on_chart && clear && deep).then_some((off, (seaward.1, -seaward.0)))
}

/// A ragged oval about a place, clear of every shore: drawn in until none lies in it or across its edge,
/// if there is room for any.
fn patch(scene: &mut Scene<'_>, at: Xy, along: Xy, sides: (f64, f64)) -> Option<Vec<Xy>> {
    let edge = oval(scene, at, along, sides);
    (0..8).find_map(|step| {
        let drawn_in = |corner: &Xy| {
            let share = 1.0 - 0.1 * f64::from(step);
            let to = |at: f64, corner: f64| (at + (corner - at) * share).round();
            (to(at.0, corner.0), to(at.1, corner.1))
        };
        let edge: Vec<Xy> = edge.iter().map(drawn_in).collect();
        (!scene.drawn.is_in(&edge)).then_some(edge)
    })
}

/// A ragged oval about a place, its corners clear of every shore.
fn oval(scene: &mut Scene<'_>, at: Xy, along: Xy, (long, wide): (f64, f64)) -> Vec<Xy> {
    let mut edge = Vec::new();
    for turn in DIRECTIONS {
        let (ahead, aside) = (turn.0 * long, -turn.1 * wide);
        let (x, y) = (ahead * along.0 + aside * along.1, ahead * along.1 - aside * along.0);
        let oval = (x * x + y * y).sqrt();
        let way = (x / oval, y / oval);
        let wanted = oval * scene.dice.between(0.85, 1.12);
        let room = scene.survey.fetch(at, way, wanted + 80.0) - 80.0;
        let room = room.min(scene.survey.to_frame(at, way) - 50.0);
        let mut reach = wanted.min(room).max(12.0);
        let out = |reach: f64| (at.0 + way.0 * reach, at.1 + way.1 * reach);
        // A ray may pass a small rock unseen.
        while reach > 32.0 && scene.survey.clearance(out(reach), 80.0) < 60.0 {
            reach -= 20.0;
        }
        let corner = out(reach);
        let crowds = |other: Option<&Xy>| other.is_some_and(|o| distance(*o, corner) < 10.0);
        if !crowds(edge.last()) && !crowds(edge.first()) {
            edge.push(corner);
        }
    }
    edge
}
