//! Names, landings, hazards and marks: each where what it names can be.

use std::collections::BTreeSet;

use super::{About, apart};
use crate::maker::names::real_within;
use crate::model::{Chart, HazardKind, MarkKind, Place, PlaceKind};

pub(super) fn hold(about: &About<'_>, found: &mut Vec<String>) {
    let chart = about.chart;
    ports(about, found);
    landings(about, found);
    for place in &chart.places {
        if let Some(why) = misplaced(about, place) {
            found.push(format!("{} {why}", place.name));
        }
    }
    hazards(about, found);
    marks(about, found);
    let mut seen = BTreeSet::new();
    let twice = names(chart).filter(|name| !seen.insert(*name));
    found.extend(twice.map(|name| format!("{name} stands twice")));
    let real = names(chart).filter_map(|name| Some((name, real_within(name)?)));
    found.extend(real.map(|(name, real)| format!("{name} has the real place {real} in it")));
}

fn ports(about: &About<'_>, found: &mut Vec<String>) {
    let chart = about.chart;
    if !about.sea.open {
        found.push("the first port lies on no open sea".to_owned());
    }
    for port in &chart.ports {
        if about.is_land(port.at) {
            found.push(format!("the port {} is on land", port.name));
        }
        if !about.sea.reaches(port.at) {
            found.push(format!("no water leads from the first port to {}", port.name));
        }
        let town = chart.places.iter().find(|p| p.name == port.name);
        let at = town.filter(|p| p.kind == PlaceKind::Settlement).map(|p| apart(p.at, port.at));
        if at.is_none_or(|metres| metres > 200.0) {
            found.push(format!("the port {} has no settlement by it", port.name));
        }
    }
}

fn landings(about: &About<'_>, found: &mut Vec<String>) {
    let chart = about.chart;
    for landing in &chart.landings {
        let off = about.off_shore(landing.at);
        if off > 1.0 {
            found.push(format!("{} is {off} m off the shore", landing.name));
        }
        if !about.sea.lands_at(landing.at) {
            found.push(format!("no water leads to {}", landing.name));
        }
    }
    for town in chart.places.iter().filter(|p| p.kind == PlaceKind::Settlement) {
        if chart.landings.iter().all(|l| apart(l.at, town.at) > 100.0) {
            found.push(format!("{} has no landing", town.name));
        }
    }
}

/// What is wrong with where a name stands.
fn misplaced(about: &About<'_>, place: &Place) -> Option<String> {
    let (name, at) = (&place.name, place.at);
    let off = about.off_shore(at);
    match place.kind {
        PlaceKind::Island | PlaceKind::Skerry => {
            let own = about.chart.land.iter().find(|l| l.name == *name);
            let inside = own.is_some_and(|l| l.shore.encloses(at));
            (!inside).then(|| "is not on its island".to_owned())
        }
        PlaceKind::Water | PlaceKind::Narrows | PlaceKind::Inlet => {
            let why = if about.is_land(at) { "is on land" } else { "names water that is shut off" };
            (!about.sea.reaches(at)).then(|| why.to_owned())
        }
        PlaceKind::Headland => (off > 70.0).then(|| format!("is {off} m off the shore")),
        PlaceKind::Settlement => {
            let wrong = off > 70.0 || !(about.is_land(at) || off < 1.0);
            wrong.then(|| format!("is no settlement ashore, {off} m off the shore"))
        }
        PlaceKind::Hill => (!about.is_land(at)).then(|| "is in the water".to_owned()),
    }
}

fn hazards(about: &About<'_>, found: &mut Vec<String>) {
    for hazard in &about.chart.hazards {
        let said = format!("{:?} {}", hazard.kind, hazard.name);
        if !about.sea.reaches(hazard.at) {
            found.push(format!("{said} is on land or in water that is shut off"));
        }
        let dries = about.chart.drying.iter().any(|flat| flat.edge.encloses(hazard.at));
        match hazard.kind {
            HazardKind::DryingRock if !dries => found.push(format!("{said} does not dry")),
            HazardKind::SunkenRock | HazardKind::Wreck | HazardKind::BreakingBank if dries => {
                found.push(format!("{said} dries"));
            }
            _ => {}
        }
    }
}

fn marks(about: &About<'_>, found: &mut Vec<String>) {
    for mark in &about.chart.marks {
        let said = format!("{:?} {}", mark.kind, mark.name);
        match mark.kind {
            MarkKind::Buoy if !about.sea.reaches(mark.at) => {
                found.push(format!("{said} floats in no water that is reached"));
            }
            MarkKind::Buoy => {}
            // A pier's light stands on the shore's line.
            _ if about.is_land(mark.at) || about.off_shore(mark.at) < 1.0 => {}
            _ => found.push(format!("{said} stands in the water")),
        }
    }
}

/// Every name of a thing of its own; a station has that of the water it lies in, a gate that of its
/// narrows, a port that of its settlement.
fn names(chart: &Chart) -> impl Iterator<Item = &str> {
    let hazards = chart.hazards.iter().map(|h| h.name.as_str()).filter(|n| !n.is_empty());
    chart
        .places
        .iter()
        .map(|p| p.name.as_str())
        .chain(chart.landings.iter().map(|l| l.name.as_str()))
        .chain(hazards)
        .chain(chart.races.iter().map(|r| r.name.as_str()))
        .chain(chart.marks.iter().map(|m| m.name.as_str()))
}
