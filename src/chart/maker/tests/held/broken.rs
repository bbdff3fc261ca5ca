//! The checks can fail: each is given a chart in which what it looks for is broken.

use super::*;
use crate::model::{HazardKind, MarkKind, Ring};

/// A chart with something of everything, which holds.
fn whole() -> Chart {
    let chart = make(4, &Wishes { width_km: 12, height_km: 9, ..Wishes::default() }).unwrap();
    assert_eq!(wrong(&chart), [""; 0]);
    chart
}

/// The middle of the largest land: well ashore.
fn ashore(chart: &Chart) -> Point {
    let isle = chart.places.iter().find(|p| p.kind == PlaceKind::Island).unwrap();
    isle.at
}

/// A place in open water.
fn afloat(chart: &Chart) -> Point {
    chart.extent.min() + Point { x: 100.0, y: 100.0 }
}

/// A square of land about a place.
fn block(at: Point, half: f64) -> crate::model::Land {
    let corners = [(-half, -half), (half, -half), (half, half), (-half, half)];
    let shore = Ring(corners.iter().map(|(x, y)| at + Point { x: *x, y: *y }).collect());
    crate::model::Land { shore, ..Default::default() }
}

#[track_caller]
fn says(chart: &Chart, words: &str) {
    let found = wrong_by(chart, DOTS[0]);
    assert!(found.iter().any(|one| one.contains(words)), "{words}: {found:#?}");
}

#[test]
fn things_that_are_out_of_place_are_found() {
    let whole = whole();
    let (land, sea) = (ashore(&whole), afloat(&whole));
    let broken = |change: &dyn Fn(&mut Chart), words: &str| {
        let mut chart = whole.clone();
        change(&mut chart);
        says(&chart, words);
    };
    let place = |chart: &mut Chart, kind: PlaceKind, at: Point| {
        chart.places.iter_mut().find(|p| p.kind == kind).unwrap().at = at;
    };
    broken(&|c| c.ports[1].at = land, "is on land");
    broken(&|c| c.ports[1].at = sea, "has no settlement by it");
    broken(&|c| c.landings[5].at.x += 3.0, "m off the shore");
    broken(&|c| c.landings.clear(), "has no landing");
    broken(&|c| place(c, PlaceKind::Inlet, land), "is on land");
    broken(&|c| place(c, PlaceKind::Water, land), "is on land");
    broken(&|c| place(c, PlaceKind::Headland, sea), "m off the shore");
    broken(&|c| place(c, PlaceKind::Settlement, sea), "is no settlement ashore");
    broken(&|c| place(c, PlaceKind::Island, sea), "is not on its island");
    broken(&|c| place(c, PlaceKind::Hill, sea), "is in the water");
    broken(&|c| c.hazards[0].at = land, "is on land or in water that is shut off");
    let hazard =
        |c: &mut Chart, kind, at| c.hazards.iter_mut().find(|h| h.kind == kind).unwrap().at = at;
    broken(&|c| hazard(c, HazardKind::DryingRock, sea), "does not dry");
    let mark =
        |c: &mut Chart, kind, at| c.marks.iter_mut().find(|m| m.kind == kind).unwrap().at = at;
    broken(&|c| mark(c, MarkKind::Buoy, land), "floats in no water");
    broken(&|c| mark(c, MarkKind::Light, sea), "stands in the water");
    broken(&|c| c.landings[3].name = c.places[0].name.clone(), "stands twice");
    broken(&|c| c.places[2].name = "North Bergenay".to_owned(), "the real place bergen");
    broken(&|c| c.places[2].name = "Man Rock".to_owned(), "the real place man");
    broken(&|c| c.streams[0].at = land, "runs on land");
    broken(&|c| c.races[0].edge = block(land, 300.0).shore, "has land in it");
    broken(&|c| c.races[0].edge = block(sea, 60.0).shore, "lies off its stream");
    broken(&|c| c.gates[0].line.0 = c.streams[0].at, "ends in the water");
    broken(&|c| c.gates[0].line.0 = land, "does not lie across its stream");
}

#[test]
fn lines_that_are_wrong_are_found() {
    let whole = whole();
    let mut chart = whole.clone();
    chart.land[0].shore.0.reverse();
    says(&chart, "inside on the right");
    let mut chart = whole.clone();
    chart.land[0].shore.0[9].x += 0.5;
    says(&chart, "whole metre");
    let mut chart = whole.clone();
    chart.land.push(block(ashore(&whole), 50.0));
    says(&chart, "lies within another");
    let mut chart = whole.clone();
    let corner = chart.depths[0].edge.0[0];
    chart.land.push(block(corner, 50.0));
    says(&chart, "crosses");
    let mut chart = whole.clone();
    let shallow = chart.depths.iter().position(|d| d.from_m == 0.0).unwrap();
    (chart.depths[shallow].from_m, chart.depths[shallow].to_m) = (7.0, 8.0);
    says(&chart, "skip some");
}

/// A wall of land without a gap, two metres thick, shuts a port off, and so does one with a gap that is
/// farther off than the chart's edge.
#[test]
fn water_that_is_shut_off_is_found() {
    let whole = whole();
    let port = whole.ports.last().unwrap().clone();
    let (low, high) = (whole.extent.min(), whole.extent.max());
    let first = whole.ports[0].at;
    // Between the two ports, from south to north.
    let x = ((port.at.x + first.x) / 2.0).round();
    let wall = |gap: f64| {
        let corners = [
            (x, low.y - 90.0),
            (x + 2.0, low.y - 90.0),
            (x + 2.0, high.y + gap),
            (x, high.y + gap),
        ];
        let shore = Ring(corners.iter().map(|(x, y)| Point { x: *x, y: *y }).collect());
        let mut chart = whole.clone();
        chart.land.push(crate::model::Land { shore, ..Default::default() });
        chart
    };
    says(&wall(90.0), &format!("no water leads from the first port to {}", port.name));
    says(&wall(0.0), &format!("no water leads from the first port to {}", port.name));
    let leads = wrong_by(&wall(-100.0), DOTS[0]);
    assert!(!leads.iter().any(|one| one.starts_with("no water leads from")), "{leads:#?}");
}
