//! Puts a chart together from its coast and what is found on it.

use geo::Rect;
use nav::{Grid, GridPoint};

use super::afloat::{self, Breaking, Danger};
use super::ashore::{self, Beach, Spot, Town};
use super::body::Body;
use super::coast::Coast;
use super::contour::Loop;
use super::dice::Xy;
use super::finds::contains;
use super::flats::Flat;
use super::gates::{self, Door};
use super::scene::Scene;
use super::sketch::{Sketch, distance};
use super::survey::Survey;
use super::tides::{self, Gauge, Set, Wave};
use super::{MakeError, SOUTH_WEST, Wishes, ocean_grid};
use crate::model::{
    Chart, DepthArea, Drying, Gate, Ground, Hazard, Land, Landing, Mark, MarkKind, Place,
    PlaceKind, Point, Port, Race, Ring, Stream,
};

/// The chart of a coast.
pub(super) fn assemble(
    seed: u64,
    wishes: &Wishes,
    sketch: &Sketch,
    survey: &Survey<'_>,
    coast: &Coast,
) -> Result<Chart, MakeError> {
    let grid = ocean_grid()?;
    let convergence = convergence(&grid, sketch.size)?;
    let mut scene = Scene::new(seed, wishes, survey, coast, sketch.k);
    let name = scene.name(scene.words().title).full;
    let title = wishes.title.clone().unwrap_or_else(|| format!("{name} (invented)"));
    let found = Found::new(&mut scene, sketch, convergence);
    let corner = sketch.size;
    let land = lands(&scene, &found);
    // The shore is thinner than the relief: an end that lay on a rock may stand in the water now.
    let doors = gates::doors(&scene, &found.sets);
    let gates = doors.iter().map(gate).filter(|gate| is_ashore(gate, &land)).collect();
    Ok(Chart {
        title,
        invented: true,
        source: source(seed, wishes),
        grid,
        extent: Rect::new(point((0.0, 0.0)), point(corner)),
        land,
        shorelines: Vec::new(),
        drying: scene.coast.flats.iter().zip(&scene.grounds).map(|f| drying(survey, f)).collect(),
        depths: scene.coast.depths.iter().map(depth_area).collect(),
        landings: found.beaches.iter().map(landing).collect(),
        hazards: found.dangers.iter().map(hazard).collect(),
        races: found.races.iter().filter_map(|breaking| race(breaking, &found.sets)).collect(),
        gates,
        places: found.places(&scene),
        marks: found.marks(&scene),
        ports: found.gauges.iter().map(port).collect(),
        streams: found.sets.iter().map(stream).collect(),
    })
}

/// Where a chart comes from, and what was wished of it, but for what is usual.
fn source(seed: u64, wishes: &Wishes) -> String {
    let usual = Wishes::default();
    let Wishes { character, tide, difficulty, .. } = *wishes;
    let wished = (character, tide, difficulty) != (usual.character, usual.tide, usual.difficulty);
    let what = if wished {
        let (character, difficulty) = (character.name(), difficulty.name());
        format!(" (seed {seed}, {character}, tide {tide}, {difficulty})")
    } else {
        String::new()
    };
    format!("Made by Strandline{what}; no such place exists. Not for navigation.")
}

/// Grid north minus true north in the middle of the chart, in hundredths of a degree.
fn convergence(grid: &Grid, size: Xy) -> Result<f64, MakeError> {
    let middle = (SOUTH_WEST.0 + size.0 / 2.0, SOUTH_WEST.1 + size.1 / 2.0);
    let position = grid.inverse(GridPoint::from_metres(middle.0, middle.1)?)?.position;
    let degrees = grid.forward(position)?.convergence.as_degrees_east();
    Ok((degrees * 100.0).round() / 100.0)
}

/// What was found, before it is moved to the chart's grid.
struct Found {
    towns: Vec<Town>,
    isles: Vec<(usize, Spot, bool)>,
    capes: Vec<Spot>,
    bays: Vec<Spot>,
    hills: Vec<Spot>,
    narrows: Vec<Spot>,
    sounds: Vec<Spot>,
    beaches: Vec<Beach>,
    dangers: Vec<Danger>,
    races: Vec<Breaking>,
    gauges: Vec<Gauge>,
    sets: Vec<Set>,
    /// Marks that belong to no other thing.
    lights: Vec<(String, Xy, MarkKind)>,
}

impl Found {
    fn new(scene: &mut Scene<'_>, sketch: &Sketch, convergence: f64) -> Self {
        let towns = ashore::towns(scene);
        let isles = ashore::isles(scene);
        let capes = ashore::capes(scene);
        let bays = ashore::bays(scene, &towns);
        let hills = ashore::hills(scene);
        let narrows = afloat::narrows(scene);
        let sounds = afloat::sounds(scene);
        let beaches = ashore::beaches(scene, &towns, &bays);
        let dangers = afloat::dangers(scene, &towns);
        let races = afloat::races(scene, &narrows, &capes);
        let lights = lights(scene, &towns, &capes, &isles, &dangers);
        let (mut gauges, mut sets) = (Vec::new(), Vec::new());
        if let Some(harbour) = towns.first() {
            let wave = Wave {
                flood: sketch.flood,
                fills: matches!(sketch.body, Body::Funnel(_)),
                tide: scene.wishes.tide,
                convergence,
                standard: &harbour.name.full,
                origin: harbour.berth.at,
            };
            gauges = tides::gauges(scene, &towns, &wave);
            sets = tides::sets(scene, &wave, &narrows, &capes, &sounds);
        }
        Self {
            towns,
            isles,
            capes,
            bays,
            hills,
            narrows,
            sounds,
            beaches,
            dangers,
            races,
            gauges,
            sets,
            lights,
        }
    }

    /// Every name, in the order in which they matter.
    fn places(&self, scene: &Scene<'_>) -> Vec<Place> {
        let town = |t: &Town| {
            // A street's length inland.
            let at =
                (t.berth.at.0 - t.berth.seaward.0 * 60.0, t.berth.at.1 - t.berth.seaward.1 * 60.0);
            let at = if scene.drawn.is_ground(at) { at } else { t.berth.at };
            place(&t.name.full, at, PlaceKind::Settlement)
        };
        let all = |spots: &[Spot], kind: PlaceKind| -> Vec<Place> {
            spots.iter().map(|s| place(&s.name.full, s.at, kind)).collect()
        };
        let isle = |(_, spot, skerry): &(usize, Spot, bool)| {
            let kind = if *skerry { PlaceKind::Skerry } else { PlaceKind::Island };
            place(&spot.name.full, spot.at, kind)
        };
        let mut places: Vec<Place> = self.towns.iter().map(town).collect();
        places.extend(self.isles.iter().filter(|i| !i.2).map(isle));
        places.extend(all(&self.sounds, PlaceKind::Water));
        places.extend(all(&self.capes, PlaceKind::Headland));
        places.extend(all(&self.bays, PlaceKind::Inlet));
        places.extend(all(&self.narrows, PlaceKind::Narrows));
        places.extend(self.isles.iter().filter(|i| i.2).map(isle));
        places.extend(all(&self.hills, PlaceKind::Hill));
        places
    }

    fn marks(&self, scene: &Scene<'_>) -> Vec<Mark> {
        let mut marks: Vec<(String, Xy, MarkKind)> = self.lights.clone();
        for hill in self.hills.iter().step_by(2) {
            marks.push((format!("{} cairn", hill.name.full), hill.at, MarkKind::Cairn));
        }
        for town in self.towns.iter().step_by(2) {
            let back = town.berth.seaward;
            let at = (town.berth.at.0 - back.0 * 130.0, town.berth.at.1 - back.1 * 130.0);
            if !scene.survey.is_sea(at) && scene.drawn.is_ground(at) {
                marks.push((format!("{} chapel", town.name.full), at, MarkKind::Tower));
            }
        }
        marks.into_iter().map(|(name, at, kind)| Mark { name, at: point(at), kind }).collect()
    }
}

/// Lights on capes, beacons on rocks, buoys by rocks that never show.
fn lights(
    scene: &Scene<'_>,
    towns: &[Town],
    capes: &[Spot],
    isles: &[(usize, Spot, bool)],
    dangers: &[Danger],
) -> Vec<(String, Xy, MarkKind)> {
    let mut found = Vec::new();
    for cape in afloat::exposed(scene, capes, 7) {
        // A cape may be too narrow to stand back from its point.
        let point = cape.berth.filter(|_| !scene.drawn.is_ground(cape.at)).map(|berth| berth.at);
        let at = point.unwrap_or(cape.at);
        found.push((format!("{} light", cape.name.full), at, MarkKind::Light));
    }
    if let Some(harbour) = towns.first() {
        let name = format!("{} pier light", harbour.name.full);
        found.push((name, harbour.berth.at, MarkKind::Light));
    }
    let mut busy: Vec<Xy> = towns.iter().map(|t| t.berth.off).collect();
    busy.extend(scene.straits.iter().map(|s| s.at));
    for rock in ashore::beacon_rocks(scene, &busy) {
        let named = isles.iter().find(|(_, spot, _)| distance(spot.at, rock) < 1.0);
        if let Some((_, spot, _)) = named {
            found.push((format!("{} beacon", spot.name.full), rock, MarkKind::Beacon));
        }
    }
    let sunken = |d: &&Danger| d.kind == crate::model::HazardKind::SunkenRock;
    let near = |d: &&Danger| -busy.iter().fold(f64::MAX, |n, b| n.min(distance(*b, d.at)));
    let rocks = dangers.iter().filter(sunken);
    for rock in super::finds::spaced(rocks, near, |d| d.at, 2_000.0 * scene.scale, 5) {
        let out = scene.survey.axis(rock.at);
        let sides = [90.0, -90.0].map(|off| (rock.at.0 + out.0 * off, rock.at.1 + out.1 * off));
        if let Some(at) = sides.into_iter().find(|at| scene.is_afloat(*at)) {
            found.push((format!("{} buoy", rock.name), at, MarkKind::Buoy));
        }
    }
    found
}

/// A place on the chart's grid, to the metre.
fn point(at: Xy) -> Point {
    Point { x: SOUTH_WEST.0 + at.0.round(), y: SOUTH_WEST.1 + at.1.round() }
}

fn ring(edge: &Loop) -> Ring {
    Ring(edge.corners.iter().map(|c| point((f64::from(c.0), f64::from(c.1)))).collect())
}

fn lands(scene: &Scene<'_>, found: &Found) -> Vec<Land> {
    let mut lands: Vec<Land> = scene
        .coast
        .shores
        .iter()
        .map(|shore| Land { name: String::new(), shore: ring(shore), lakes: Vec::new() })
        .collect();
    for (number, spot, _) in &found.isles {
        if let Some(land) = lands.get_mut(*number) {
            land.name.clone_from(&spot.name.full);
        }
    }
    for lake in &scene.coast.lakes {
        let at = super::finds::xy(lake.corners[0]);
        // Shores stand largest first: the last that holds the lake is the one about it.
        let about = scene.coast.shores.iter().rposition(|shore| contains(shore, at));
        if let Some(land) = about.and_then(|number| lands.get_mut(number)) {
            land.lakes.push(ring(lake));
        }
    }
    lands
}

fn drying(survey: &Survey<'_>, (flat, ground): (&Flat, &Ground)) -> Drying {
    let heights: Vec<f64> = flat.nodes.iter().map(|n| survey.relief.heights[*n]).collect();
    let sum: f64 = heights.iter().sum();
    let mean = if heights.is_empty() { 1.2 } else { sum / heights.len() as f64 };
    let range = survey.relief.high_water() / 4.6;
    let height_m = (mean.clamp(0.2 * range, 4.2 * range) * 10.0).round() / 10.0;
    Drying { height_m, ground: *ground, edge: ring(&flat.edge) }
}

fn depth_area(depth: &super::coast::Depth) -> DepthArea {
    DepthArea { from_m: depth.from_m + 0.0, to_m: depth.to_m, edge: ring(&depth.edge) }
}

fn place(name: &str, at: Xy, kind: PlaceKind) -> Place {
    Place { name: name.to_owned(), at: point(at), kind }
}

fn landing(beach: &Beach) -> Landing {
    Landing {
        name: beach.name.clone(),
        at: point(beach.at),
        ground: beach.ground,
        serves: beach.serves,
        note: beach.note.to_owned(),
    }
}

fn hazard(danger: &Danger) -> Hazard {
    Hazard {
        name: danger.name.clone(),
        at: point(danger.at),
        kind: danger.kind,
        note: danger.note.to_owned(),
    }
}

/// A race, if its stream is strong enough to break.
fn race(race: &Breaking, sets: &[Set]) -> Option<Race> {
    let edge = Ring(race.edge.iter().map(|at| point(*at)).collect());
    let runs = Some(gates::runs(race, sets)?);
    Some(Race { name: race.name.clone(), edge, runs, note: race.note.to_owned() })
}

fn gate(door: &Door) -> Gate {
    Gate {
        name: door.name.clone(),
        line: (point(door.line.0), point(door.line.1)),
        station: door.name.clone(),
        limit_kn: door.limit,
        sill: None,
        note: door.note.to_owned(),
    }
}

/// Whether both ends of a gate's line stand on land.
fn is_ashore(gate: &Gate, land: &[Land]) -> bool {
    let on_land = |at| {
        let within =
            |it: &Land| it.shore.encloses(at) && !it.lakes.iter().any(|lake| lake.encloses(at));
        land.iter().any(within)
    };
    on_land(gate.line.0) && on_land(gate.line.1)
}

fn port(gauge: &Gauge) -> Port {
    Port {
        name: gauge.name.clone(),
        at: point(gauge.at),
        // Invented with the chart, which says so of all that is on it.
        source: String::new(),
        years: None,
        seasonal_m: Vec::new(),
        tide: gauge.tide.clone(),
    }
}

fn stream(set: &Set) -> Stream {
    Stream { name: set.name.clone(), at: point(set.at), rates: set.rates.clone() }
}
