//! Names: which are written at a scale, in which order, and where there is room for each.
//!
//! Every name has a row of places to stand, the best first. In order of rank each takes the place
//! that costs least, and is left out if none is free. What a place costs depends on the ground
//! alone and not on the edge of the view, so that names stay where they are while it is panned.

use super::Scene;
use super::ground::Grounds;
use super::sheet::{Sheet, Taken, columns};
use crate::theme::{Ground, Role, Theme};
use chart::model::PlaceKind;
use chart::{Extent, Point};
use ratatui::buffer::Buffer;

/// A name that asks for room.
struct Name<'a> {
    words: &'a str,
    at: Point,
    role: Role,
    /// The smaller is served first.
    rank: u8,
    /// Whether it stands on what it names, rather than beside it.
    upon: bool,
    /// Whether it should stand on water.
    on_water: bool,
    /// Whether it should rather stand near than leave shores and lines free.
    near: bool,
}

/// The cost beyond which a name is rather left out.
const DEAREST: i32 = 60;

/// A word beside something that is drawn over the chart.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Label {
    pub(super) words: String,
    pub(super) at: Point,
    pub(super) role: Role,
}

/// Writes the labels, the names of waypoints and the clock times of the passage, then the names of the chart.
pub(super) fn draw(
    scene: &Scene<'_>,
    theme: &Theme,
    ground: &Grounds,
    labels: &[Label],
    sheet: &mut Sheet,
    buffer: &mut Buffer,
) {
    let mut names = wanted(scene, labels, sheet.view.metres_per_column);
    names.sort_by_key(|name| name.rank);
    for name in &names {
        let Some(cell) = sheet.cell_of(name.at) else { continue };
        let near = (-40..i32::from(sheet.cells.columns) + 40).contains(&cell.0);
        if !near
            || sheet.taken(0.max(cell.0.min(i32::from(sheet.cells.columns) - 1)), cell.1).is_none()
        {
            continue;
        }
        let places = places(cell, columns(name.words), name.upon);
        let priced = places
            .into_iter()
            .filter_map(|(at, price)| Some((at, price + cost(name, at, ground, sheet)?)));
        if let Some((at, price)) = priced.min_by_key(|(_, price)| *price)
            && (price <= DEAREST || name.near)
        {
            clear(at, columns(name.words), sheet, buffer);
            sheet.write(at, name.words, theme.ink(name.role), buffer);
        }
    }
}

/// The names that are wanted at a scale.
fn wanted<'a>(scene: &Scene<'a>, labels: &'a [Label], scale: f64) -> Vec<Name<'a>> {
    let beside = |words: &'a str, at, role, rank| Name {
        words,
        at,
        role,
        rank,
        upon: false,
        on_water: false,
        near: false,
    };
    let labels = labels
        .iter()
        .map(|label| Name { near: true, ..beside(&label.words, label.at, label.role, 0) });
    let clocks = scene.sailing.clocks.iter();
    let clocks = clocks.map(|clock| beside(&clock.words, clock.at, Role::Waypoint, 1));
    if !scene.names {
        return labels.chain(clocks).collect();
    }
    let is_label = |words: &str| labels.clone().any(|label| label.words == words);
    let waypoints = scene.waypoints.iter().map(|w| beside(w.name, w.at, Role::Waypoint, 0));
    let places = scene.chart.places.iter().filter_map(|place| {
        let (rank, farthest, role, upon) = manner(place.kind);
        let farthest = match place.kind {
            PlaceKind::Island => {
                island_width(scene, &place.name).map_or(farthest, |width| width / 5.0)
            }
            _ => farthest,
        };
        let on_water = role == Role::WaterName;
        let name =
            Name { words: &place.name, at: place.at, role, rank, upon, on_water, near: false };
        (scale <= farthest).then_some(name)
    });
    let chart = scene.chart;
    let races = chart.races.iter().filter(|_| scale <= 90.0);
    let races = races.filter_map(|r| Some(beside(&r.name, middle(&r.edge.0)?, Role::Race, 6)));
    let hazards = chart.hazards.iter().filter(|_| scale <= 35.0);
    let hazards = hazards.map(|h| beside(&h.name, h.at, Role::Hazard, 7));
    let landings = chart.landings.iter().filter(|_| scale <= 28.0);
    let landings = landings.map(|l| beside(&l.name, l.at, Role::Landing, 9));
    let marks = chart.marks.iter().filter(|_| scale <= 28.0);
    let marks = marks.map(|m| beside(&m.name, m.at, Role::Mark, 8));
    let all = waypoints
        .chain(clocks)
        .chain(places)
        .chain(races)
        .chain(hazards)
        .chain(landings)
        .chain(marks);
    // What is labelled is not named a second time.
    let all = all.filter(|name| !name.words.is_empty() && !is_label(name.words));
    labels.clone().filter(|label| !label.words.is_empty()).chain(all).collect()
}

/// How the name of a kind of place is written: its rank, the metres across a column up to which
/// it is, its ink, and whether it stands on what it names.
fn manner(kind: PlaceKind) -> (u8, f64, Role, bool) {
    match kind {
        PlaceKind::Settlement => (1, 600.0, Role::Settlement, false),
        PlaceKind::Water => (2, 400.0, Role::WaterName, true),
        PlaceKind::Island => (3, 120.0, Role::Name, true),
        PlaceKind::Headland => (4, 110.0, Role::Name, false),
        PlaceKind::Narrows => (5, 90.0, Role::WaterName, false),
        PlaceKind::Inlet => (6, 70.0, Role::WaterName, true),
        PlaceKind::Skerry => (7, 45.0, Role::Name, false),
        PlaceKind::Hill => (8, 60.0, Role::Name, false),
    }
}

/// How wide the island of a name is, in metres, if its shore carries the name.
fn island_width(scene: &Scene<'_>, name: &str) -> Option<f64> {
    let land = scene.chart.land.iter().find(|land| land.name == name)?;
    let extent = extent_of(&land.shore.0)?;
    Some(extent.width().max(extent.height()))
}

fn extent_of(points: &[Point]) -> Option<Extent> {
    let first = *points.first()?;
    let (low, high) = points.iter().fold((first, first), |(low, high), p| {
        let low = Point { x: low.x.min(p.x), y: low.y.min(p.y) };
        (low, Point { x: high.x.max(p.x), y: high.y.max(p.y) })
    });
    Some(Extent::new(low, high))
}

fn middle(points: &[Point]) -> Option<Point> {
    extent_of(points).map(|extent| extent.center())
}

/// The places for a name so many columns wide, each with what it costs to stand there.
fn places((column, row): (i32, i32), width: i32, upon: bool) -> Vec<((i32, i32), i32)> {
    let mut places = Vec::with_capacity(48);
    let centred = column - width / 2;
    if upon {
        for (away, down) in [0, -1, 1, -2, 2, -3, 3].into_iter().enumerate() {
            for (aside, across) in [0, -3, 3, -6, 6, -10, 10].into_iter().enumerate() {
                places.push(((centred + across, row + down), away as i32 * 3 + aside as i32 * 2));
            }
        }
        return places;
    }
    let (right, left) = (column + 2, column - width - 1);
    let beside = [
        (right, 0),
        (left, 0),
        (column + 1, -1),
        (column + 1, 1),
        (column - width, -1),
        (column - width, 1),
    ];
    let over =
        [(centred, -1), (centred, 1), (right + 1, 0), (left - 1, 0), (centred, -2), (centred, 2)];
    let far = [
        (right + 1, -1),
        (right + 1, 1),
        (left - 1, -1),
        (left - 1, 1),
        (right, -2),
        (right, 2),
        (left, -2),
        (left, 2),
    ];
    for (index, (x, down)) in beside.into_iter().chain(over).chain(far).enumerate() {
        places.push(((x, row + down), index as i32 + if index > 11 { 6 } else { 0 }));
    }
    places
}

/// What it costs a name to stand at a place; nothing if it cannot.
fn cost(name: &Name<'_>, at: (i32, i32), ground: &Grounds, sheet: &Sheet) -> Option<i32> {
    let width = columns(name.words);
    // What must stand near its point may lie on a line.
    let kept = if name.near { Taken::WORDS } else { Taken::WORDS.and(Taken::ROUTE) };
    if sheet.is_taken(at, width, kept) {
        return None;
    }
    let taken = |column: i32| sheet.taken(column, at.1).unwrap_or(Taken::NOTHING);
    let (before, behind) = (at.0 - 1, at.0 + width);
    if taken(before).has(Taken::WORDS) || taken(behind).has(Taken::WORDS) {
        return None;
    }
    // Words side by side read as one name.
    let is_word = |column| taken(column).has(Taken::WORDS) && !taken(column).has(Taken::SIGN);
    let near = [before - 1, before - 2, behind + 1, behind + 2];
    let mut cost = 8 * i32::from(near.into_iter().any(is_word));
    for column in at.0..at.0 + width {
        let taken = sheet.taken(column, at.1)?;
        if taken.has(Taken::ROUTE) || taken.has(Taken::SHORE) && !name.near {
            cost += 7;
        } else if taken.has(Taken::FAINT) {
            cost += 1;
        }
        // Words right above or below would read as one name of two lines.
        let stacked = [-1, 1]
            .iter()
            .any(|n| sheet.taken(column, at.1 + n).is_some_and(|taken| taken.has(Taken::WORDS)));
        cost += i32::from(stacked);
        if name.on_water && ground.at(column, at.1) == Some(Ground::Land) {
            cost += 5;
        }
    }
    Some(cost)
}

/// Blanks the texture beside a name, so that no dot reads as a letter.
fn clear(at: (i32, i32), width: i32, sheet: &Sheet, buffer: &mut Buffer) {
    for column in [at.0 - 1, at.0 + width] {
        if sheet.taken(column, at.1) == Some(Taken::NOTHING)
            && let Some(cell) = sheet.screen(column, at.1, buffer)
        {
            cell.set_char(' ');
        }
    }
}
