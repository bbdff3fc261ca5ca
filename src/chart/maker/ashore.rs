//! What stands on and along the shore: settlements, landings, capes, bays, hills and marks.

use super::dice::Xy;
use super::finds::{Berth, contains, spaced, summits};
use super::names::{Name, words};
use super::scene::Scene;
use super::sketch::distance;
use super::wishes::Character;
use crate::model::{Ground, Serves};

/// A settlement with its slip.
pub(super) struct Town {
    pub(super) name: Name,
    pub(super) berth: Berth,
}

/// A landing before it is moved to the chart's grid.
pub(super) struct Beach {
    pub(super) name: String,
    pub(super) at: Xy,
    pub(super) ground: Ground,
    pub(super) serves: Serves,
    pub(super) note: &'static str,
}

/// A named place, and the berth it was found by, if any.
pub(super) struct Spot {
    pub(super) name: Name,
    pub(super) at: Xy,
    pub(super) berth: Option<Berth>,
}

/// Islands of at least this area are named, in square metres.
const ISLAND: f64 = 350_000.0;
/// Islets of at least this area are islands, not skerries.
const ISLET: f64 = 60_000.0;

/// Settlements: in shelter, with water to float a boat close by; the first is the harbour.
pub(super) fn towns(scene: &mut Scene<'_>) -> Vec<Town> {
    let worth = |b: &Berth| {
        let access = if b.openness < 0.05 { -0.25 } else { 0.0 };
        0.5 * b.share - b.openness + access
    };
    let fit = |b: &&Berth| {
        let out = (b.off.0 + b.seaward.0 * 160.0, b.off.1 + b.seaward.1 * 160.0);
        b.openness < 0.38
            && scene.survey.is_sea(out)
            && scene.survey.relief.height(out) < -1.5
            && scene.is_landing(b)
    };
    // Every chart has a port, though it be on an open beach.
    let any = |b: &&Berth| scene.survey.is_sea(b.off) && scene.is_landing(b);
    let spacing = 4_000.0 * scene.scale;
    let on = |land: usize, count: usize| {
        let berths = scene.berths.iter().filter(|b| b.land == land).filter(fit).copied();
        spaced(berths, worth, |b| b.at, spacing, count)
    };
    let mut chosen = on(0, 5);
    for land in 1..scene.islands.len().min(4) {
        chosen.extend(on(land, 1));
    }
    if chosen.is_empty() {
        chosen = spaced(scene.berths.iter().filter(any).copied(), worth, |b| b.at, spacing, 1);
    }
    let chosen = spaced(chosen, |_| 0.0, |b| b.at, 2_000.0 * scene.scale, 8);
    chosen.into_iter().map(|berth| Town { name: scene.name(words::SETTLEMENT), berth }).collect()
}

/// Landings: a slip at each settlement, then the kindest places all round.
pub(super) fn beaches(scene: &mut Scene<'_>, towns: &[Town], bays: &[Spot]) -> Vec<Beach> {
    let mut found: Vec<Beach> = towns.iter().map(|town| slip(scene, town)).collect();
    let clear = 900.0 * scene.scale;
    let sparse = scene.wishes.difficulty.landings();
    let most = (42.0 / sparse) as usize;
    let worth = |b: &Berth| 0.4 * b.share - 0.6 * b.openness;
    // A cliff is no landing: only where it draws back is there a beach.
    let steep = scene.wishes.character == Character::Cliffs;
    let foot = |b: &Berth| !steep || b.land > 0 || b.share > 0.56;
    let free = |b: &&Berth| foot(b) && towns.iter().all(|t| distance(t.berth.at, b.at) > clear);
    let mut firsts = Vec::new();
    for (land, island) in scene.islands.iter().enumerate() {
        if island.area >= ISLET {
            let here = scene.berths.iter().filter(|b| b.land == land).filter(free).copied();
            firsts.extend(spaced(here, worth, |b| b.at, clear, 1));
        }
    }
    firsts.truncate((14.0 / sparse) as usize);
    // Coves on the open side too: far apart, but the only way ashore for miles.
    let open = scene.berths.iter().filter(|b| b.openness > 0.27 && b.share > 0.5).filter(free);
    let open = spaced(open.copied(), |b| b.share, |b| b.at, 3_200.0 * scene.scale * sparse, 12);
    let rest = scene.berths.iter().filter(free).copied();
    let rest = spaced(rest, worth, |b| b.at, 1_500.0 * scene.scale * sparse, 60);
    for berth in firsts.into_iter().chain(open).chain(rest) {
        let near = |b: &Beach| distance(b.at, berth.at) < 1_300.0 * scene.scale * sparse;
        if found.len() < most && !found.iter().any(near) && scene.is_landing(&berth) {
            found.push(beach(scene, &berth, bays));
        }
    }
    found
}

fn slip(scene: &mut Scene<'_>, town: &Town) -> Beach {
    let dries = scene.flat_at(&town.berth).is_some();
    let (serves, note) = if dries {
        (Serves::AboveHalfTide, "The foot of the slip dries; mud below it.")
    } else {
        (Serves::AnyTide, "Public slip; leave room for boats.")
    };
    let name = scene.names.kin(&town.name.root, words::SLIP);
    Beach { name, at: town.berth.at, ground: Ground::Slip, serves, note }
}

fn beach(scene: &mut Scene<'_>, berth: &Berth, bays: &[Spot]) -> Beach {
    let flat = scene.flat_at(berth).map(|(flat, ground)| (flat.nodes.len(), ground));
    let ground = match flat {
        Some((_, ground @ (Ground::Sand | Ground::Mud | Ground::Shingle))) => ground,
        _ if berth.openness < 0.08 => Ground::Sand,
        _ if berth.openness < 0.24 => Ground::Shingle,
        _ if berth.openness < 0.42 => Ground::Boulders,
        _ => Ground::Rock,
    };
    let wide = flat.is_some_and(|(nodes, _)| nodes >= 25);
    let (serves, note) = terms(scene, ground, wide);
    let forms = match ground {
        Ground::Sand => words::SAND,
        Ground::Mud => words::MUD,
        Ground::Shingle => words::SHINGLE,
        Ground::Boulders | Ground::Rock | Ground::Slip => words::COVE,
    };
    // A beach in a bay that has a name is known by it.
    let bay = bays.iter().find(|bay| distance(bay.at, berth.off) < 350.0);
    let name = match bay {
        Some(bay) => scene.names.kin(&bay.name.root, forms),
        None => scene.name(forms).full,
    };
    Beach { name, at: berth.at, ground, serves, note }
}

/// When a beach serves, with a word of advice.
fn terms(scene: &mut Scene<'_>, ground: Ground, wide: bool) -> (Serves, &'static str) {
    let terms: &[(Serves, &'static str)] = match (ground, wide) {
        (Ground::Mud, _) => &[
            (Serves::NearHighWater, "Soft mud on the ebb: be off in time."),
            (Serves::NearHighWater, "Follow the burn; mud on either side."),
        ],
        (Ground::Sand, true) => &[
            (Serves::AboveHalfTide, "A long carry over the sand at low water."),
            (Serves::AboveHalfTide, "Firm sand; dries far out."),
            (Serves::NearHighWater, "Dries half a mile; come with the flood."),
            (Serves::AboveHalfTide, "Ribbed sand with pools; a stream keeps one way open longer."),
        ],
        (Ground::Sand, false) => &[
            (Serves::AnyTide, "Clean sand, steep to."),
            (Serves::AnyTide, "Grass behind, water in the burn."),
            (Serves::AnyTide, "Shell sand below a green bank."),
            (Serves::AnyTide, "Room for a dozen boats above the weed."),
            (Serves::AnyTide, ""),
            (Serves::BelowHalfTide, "The sand covers at half tide."),
        ],
        (Ground::Shingle, _) => &[
            (Serves::AnyTide, "Steep shingle; dumps in swell."),
            (Serves::AnyTide, ""),
            (Serves::AnyTide, "Sheltered corner at the north end."),
            (Serves::AnyTide, "Three steps in the shingle; land on the lowest."),
            (Serves::AnyTide, "Driftwood and a fank behind the bank."),
            (Serves::AboveHalfTide, "Weed and stones below half tide."),
        ],
        (Ground::Boulders, _) => &[
            (Serves::AboveHalfTide, "Boulders: a calm day only."),
            (Serves::AboveHalfTide, "One gap in the boulders, under the cleft."),
            (Serves::AnyTide, "Smooth stones; carry, do not drag."),
            (Serves::BelowHalfTide, "Sand between the boulders at low water."),
        ],
        (Ground::Rock | Ground::Slip, _) => &[
            (Serves::NearLowWater, "A ledge in the cleft; no swell."),
            (Serves::AnyTide, "Slab; seal landing in calm only."),
        ],
    };
    terms[scene.dice.below(terms.len())]
}

/// Capes, the most prominent first.
pub(super) fn capes(scene: &mut Scene<'_>) -> Vec<Spot> {
    let worth = |b: &Berth| (0.5 - b.share) + 0.45 * b.openness;
    let large = |b: &&Berth| scene.islands[b.land].area > ISLAND && b.share < 0.36;
    let berths = scene.berths.iter().filter(large).copied();
    let chosen = spaced(berths, worth, |b| b.at, 1_700.0 * scene.scale, 24);
    let headland = scene.words().headland;
    let inland = |b: Berth| (b, (b.at.0 - b.seaward.0 * 50.0, b.at.1 - b.seaward.1 * 50.0));
    spots(scene, chosen.into_iter().map(inland), |_| headland)
}

/// Bays and inlets.
pub(super) fn bays(scene: &mut Scene<'_>, towns: &[Town]) -> Vec<Spot> {
    let far = 1_100.0 * scene.scale;
    let fit = |b: &&Berth| {
        (0.6..0.93).contains(&b.share) && towns.iter().all(|t| distance(t.berth.at, b.at) > far)
    };
    let worth = |b: &Berth| b.share - 0.3 * (b.openness - 0.15).abs();
    let berths: Vec<Berth> = scene.berths.iter().filter(fit).copied().collect();
    let chosen = spaced(berths, worth, |b| b.at, 1_600.0 * scene.scale, 26);
    let (deep, open): (Vec<Berth>, Vec<Berth>) =
        chosen.into_iter().partition(|b| b.openness < 0.11);
    let at = |berths: Vec<Berth>| -> Vec<(Berth, Xy)> {
        berths.into_iter().map(|b| (b, scene.afloat_by(b.off))).collect()
    };
    let (deep, open) = (at(deep), at(open));
    let (main, off) = (scene.words().inlet, scene.words().island_inlet);
    let inlet = |b: &Berth| if b.land == 0 { main } else { off };
    let mut found = spots(scene, deep, inlet);
    found.extend(spots(scene, open, |_| words::BAY));
    found
}

fn spots(
    scene: &mut Scene<'_>,
    berths: impl IntoIterator<Item = (Berth, Xy)>,
    forms: impl Fn(&Berth) -> &'static [&'static str],
) -> Vec<Spot> {
    let spot = |(b, at): (Berth, Xy)| Spot { name: scene.name(forms(&b)), at, berth: Some(b) };
    berths.into_iter().map(spot).collect()
}

/// Named islands by their number, largest first, with whether each is a mere skerry.
pub(super) fn isles(scene: &mut Scene<'_>) -> Vec<(usize, Spot, bool)> {
    let numbered: Vec<(usize, f64, Xy)> = scene
        .islands
        .iter()
        .enumerate()
        .filter(|l| l.1.whole)
        .map(|(i, l)| (i, l.area, l.middle))
        .collect();
    let small = numbered.iter().filter(|l| l.1 < ISLAND).copied();
    let chosen = spaced(small, |l| l.1, |l| l.2, 1_150.0 * scene.scale, 34);
    let large = numbered.iter().filter(|l| l.1 >= ISLAND).copied();
    let mut found = Vec::new();
    for (number, area, at) in large.chain(chosen).collect::<Vec<_>>() {
        let forms = match area {
            a if a >= ISLAND => scene.words().island,
            a if a >= ISLET => words::ISLET,
            _ => words::SKERRY,
        };
        let spot = Spot { name: scene.name(forms), at, berth: None };
        found.push((number, spot, area < ISLET));
    }
    found
}

/// Hills that show from the water, the highest first.
pub(super) fn hills(scene: &mut Scene<'_>) -> Vec<Spot> {
    let tops = summits(scene.survey.relief, 40.0, f64::MAX);
    // Islands in lakes are not drawn.
    let in_lake = |at: Xy| scene.coast.lakes.iter().any(|lake| contains(lake, at));
    let tops: Vec<(Xy, f64)> = tops.into_iter().filter(|t| !in_lake(t.0)).collect();
    let chosen = spaced(tops, |t| t.1, |t| t.0, 2_600.0 * scene.scale, 9);
    let spot = |(at, _): (Xy, f64)| Spot { name: scene.name(scene.words().hill), at, berth: None };
    chosen.into_iter().map(spot).collect()
}

/// Small skerries that a beacon suits: those nearest to where boats pass.
pub(super) fn beacon_rocks(scene: &Scene<'_>, busy: &[Xy]) -> Vec<Xy> {
    let rocks = scene.islands.iter().filter(|l| (700.0..12_000.0).contains(&l.area));
    let rocks = rocks.map(|l| l.middle);
    let worth = |at: &Xy| -busy.iter().fold(f64::MAX, |least, b| least.min(distance(*at, *b)));
    spaced(rocks, worth, |at| *at, 1_500.0 * scene.scale, 7)
}
