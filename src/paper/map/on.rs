//! What stands on the chart: signs and names.

use chart::model::{Place, PlaceKind, Stream, StreamRates};
use chart::{Chart, Point};

use super::look::{Inks, LEAST};
use super::names::{Name, Room};
use super::signs::{self, REACH};
use super::{Asked, Frame, clip};
use crate::draw::{Group, Item, Mm, Outline, Pt, Spot};
use crate::font::Face;

/// Signs of what the frame shows, each of which then takes its room; two that would lie on each other are
/// drawn all the same: a rock is not left out for a name or a mark.
pub(super) fn signs(chart: &Chart, frame: &Frame, inks: Inks, room: &mut Room) -> Vec<Item> {
    let shown = |at: Point| Some(frame.spot(at)).filter(|spot| frame.area.contains(*spot));
    let mut items = races(chart, frame, inks);
    let mut add = |at: Spot, sign: Vec<Item>| {
        room.take_sign(at, REACH);
        items.extend(sign);
    };
    for stream in &chart.streams {
        if let Some(at) = shown(stream.at) {
            add(at, signs::stream(at, along(stream, frame)));
        }
    }
    for hazard in &chart.hazards {
        if let Some(at) = shown(hazard.at) {
            add(at, signs::hazard(at, hazard.kind));
        }
    }
    for mark in &chart.marks {
        if let Some(at) = shown(mark.at) {
            add(at, signs::mark(at, mark.kind));
        }
    }
    for landing in &chart.landings {
        if let Some(at) = shown(landing.at) {
            add(at, signs::landing(at, landing.serves));
        }
    }
    items
}

/// Races: waves within a broken line.
fn races(chart: &Chart, frame: &Frame, inks: Inks) -> Vec<Item> {
    let mut clip = Outline::default();
    for race in &chart.races {
        let spots: Vec<Spot> = race.edge.0.iter().map(|point| frame.spot(*point)).collect();
        clip.add(clip::ring(&spots, frame.area.inset(Mm(-1.0))), true);
    }
    if clip.is_empty() {
        return Vec::new();
    }
    let waves = Group { clip: clip.clone(), items: signs::waves(frame.area, inks) };
    vec![Item::Group(waves), Item::stroke(clip, inks.race().dashed(1.2, 0.7))]
}

/// The line along which a stream runs, in degrees from the top of the page; nothing of one that never runs.
fn along(stream: &Stream, frame: &Frame) -> Option<f64> {
    let from_true = match &stream.rates {
        StreamRates::Axis { flood_deg, .. } | StreamRates::Greatest { flood_deg, .. } => *flood_deg,
        StreamRates::Hourly { rows, .. } => {
            let strongest = rows.iter().max_by(|a, b| a.springs_kn.total_cmp(&b.springs_kn))?;
            Some(strongest).filter(|row| row.springs_kn > 0.0)?.set_deg
        }
    };
    Some(from_true - frame.convergence.as_degrees_east())
}

/// Below this scale marks and rocks have signs but no names: their names would crowd out those of the ground.
const FOR_ALL: u32 = 250_000;

/// Below this scale what is not asked about has no name on a chart to work on, but for what one finds one's way by: settlements,
/// islands, waters, races.
const CROWDED: u32 = 100_000;

/// Whether a sign stands at a point.
pub(super) fn has_sign(chart: &Chart, at: Point) -> bool {
    let marks = chart.marks.iter().map(|it| it.at);
    let landings = chart.landings.iter().map(|it| it.at);
    let hazards = chart.hazards.iter().map(|it| it.at);
    marks.chain(landings).chain(hazards).any(|sign| sign == at)
}

/// Names, the greater things first; what has no room is left out, and what is named already as one that is asked about.
pub(super) fn names(
    chart: &Chart,
    frame: &Frame,
    room: &mut Room,
    asked: Option<&Asked>,
) -> Vec<Item> {
    let crowded = asked.is_some() && frame.scale.one_to() > CROWDED;
    let named = |name: &str| asked.is_some_and(|asked| asked.names(name));
    let greater = |place: &&Place| {
        matches!(place.kind, PlaceKind::Settlement | PlaceKind::Island | PlaceKind::Water)
    };
    let mut places: Vec<_> =
        chart.places.iter().filter(|place| !crowded || greater(place)).collect();
    places.sort_by_key(|place| place.kind);
    let places = places.into_iter().map(|place| {
        let (size, face, clear) = type_of(place.kind);
        (place.name.as_str(), place.at, size, face, clear)
    });
    let beside = |at: Point, name| -> (&str, Point, Pt, Face, Option<Mm>) {
        (name, at, LEAST, Face::Regular, Some(REACH + Mm(0.2)))
    };
    let landings = chart.landings.iter().filter(|_| !crowded);
    let landings = landings.map(|it| beside(it.at, &it.name));
    let marks = chart.marks.iter().map(|it| beside(it.at, &it.name));
    let hazards = chart.hazards.iter().map(|it| beside(it.at, &it.name));
    let races = chart.races.iter().filter_map(|it| {
        let sum = it.edge.0.iter().copied().reduce(|a, b| a + b)?;
        let middle = sum / it.edge.0.len() as f64;
        Some((it.name.as_str(), middle, LEAST, Face::Regular, None))
    });
    let finer = marks.chain(hazards);
    let finer = finer.filter(|_| !crowded && frame.scale.one_to() <= FOR_ALL);
    let all = races.chain(places).chain(landings).chain(finer);
    let mut items = Vec::new();
    for (words, at, size, face, clear) in all {
        let at = frame.spot(at);
        if words.is_empty() || named(words) || !frame.area.contains(at) {
            continue;
        }
        items.extend(room.place(&Name { words, at, size, face, clear }).map(Item::from));
    }
    items
}

/// The type of a place's name, and how far from its place it begins: islands and waters are written across.
const fn type_of(kind: PlaceKind) -> (Pt, Face, Option<Mm>) {
    match kind {
        PlaceKind::Settlement => (Pt(8.0), Face::Bold, Some(Mm(0.8))),
        PlaceKind::Island => (Pt(9.0), Face::Bold, None),
        PlaceKind::Water => (Pt(9.0), Face::Regular, None),
        PlaceKind::Narrows | PlaceKind::Hill => (Pt(7.5), Face::Regular, None),
        PlaceKind::Headland | PlaceKind::Inlet | PlaceKind::Skerry => {
            (LEAST, Face::Regular, Some(Mm(0.6)))
        }
    }
}
