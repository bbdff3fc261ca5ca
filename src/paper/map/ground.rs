//! Land, ground that dries and depths.

use chart::coast::{Coast, LineId, LineKind};
use chart::{Chart, Point, Ring};

use super::look::Inks;
use super::{Frame, clip, texture, thin};
use crate::draw::{Area, Group, Item, Mm, Outline, Spot};

/// How far beyond the frame lines are still drawn, so that their ends are not seen.
const BEYOND: Mm = Mm(1.0);

/// Water up to this depth, in metres, is hatched: it breaks in a swell.
const SHALLOW: f64 = 2.0;

/// Areas of depth and of drying ground whose width and height come to less are left out.
const SPECK: Mm = Mm(2.5);

/// Below this scale lines of depth are left out: they would be all that is seen.
const FOR_LINES: u32 = 120_000;

/// Below this scale what breaks in a swell is left out too: it is too small to be told.
const FOR_SHALLOWS: u32 = 400_000;

/// What lies under everything else.
pub(super) fn items(chart: &Chart, coast: &Coast, frame: &Frame, inks: Inks) -> Vec<Item> {
    let mut items = Vec::new();
    if frame.scale.one_to() <= FOR_SHALLOWS {
        items.push(shallows(chart, frame, inks));
    }
    if frame.scale.one_to() <= FOR_LINES {
        let all = rings(chart.depths.iter().map(|depth| &depth.edge), frame);
        items.push(Item::stroke(all, inks.depth_line()));
    }
    items.extend(drying(chart, frame, inks));
    items.push(Item::fill(land(coast, frame), inks.land()));
    items.push(Item::stroke(shores(coast, frame), inks.shore()));
    items
}

/// The area within which areas are drawn.
fn reach(frame: &Frame) -> Area {
    frame.area.inset(-BEYOND)
}

/// What of a ring is to be seen, thinned; nothing of one beyond the frame.
fn seen(ring: impl Iterator<Item = Point>, frame: &Frame) -> Vec<Spot> {
    let area = reach(frame);
    let gathered = clip::gathered(ring.map(|point| frame.spot(point)), area);
    let clipped = thin::ring(&clip::ring(&gathered, area));
    if clipped.len() < 3 { Vec::new() } else { clipped }
}

/// The rings that are large enough to be told from a speck.
fn rings<'a>(edges: impl Iterator<Item = &'a Ring>, frame: &Frame) -> Outline {
    let mut outline = Outline::default();
    for edge in edges {
        let ring = seen(edge.0.iter().copied(), frame);
        let area = Area::around(ring.iter().copied()).unwrap_or_default();
        if area.width + area.height > SPECK {
            outline.add(oriented(ring, true), true);
        }
    }
    outline
}

/// What breaks in a swell, hatched.
fn shallows(chart: &Chart, frame: &Frame, inks: Inks) -> Item {
    let shallow = chart.depths.iter().filter(|depth| depth.to_m <= SHALLOW);
    let shallow = rings(shallow.map(|depth| &depth.edge), frame);
    textured(shallow, texture::hatch(frame.area, inks.shallow()))
}

fn drying(chart: &Chart, frame: &Frame, inks: Inks) -> Vec<Item> {
    let all = rings(chart.drying.iter().map(|drying| &drying.edge), frame);
    vec![
        Item::fill(all.clone(), crate::draw::Ink::WHITE),
        textured(all.clone(), texture::dots(frame.area, inks.drying_dots())),
        Item::stroke(all, inks.drying_edge()),
    ]
}

/// A texture within an outline; nothing within none.
fn textured(clip: Outline, items: Vec<Item>) -> Item {
    let items = if clip.is_empty() { Vec::new() } else { items };
    Item::Group(Group { clip, items })
}

/// All land: rings of land run one way and rings of lakes the other, so that by the rule of winding
/// what is in more rings of land than of lakes is filled.
pub(super) fn land(coast: &Coast, frame: &Frame) -> Outline {
    let mut outline = Outline::default();
    for id in rings_in(coast, frame) {
        let Some(line) = coast.line(id) else { continue };
        let is_land = line.kind() == LineKind::Land;
        outline.add(oriented(seen(line.points(), frame), is_land), true);
    }
    outline
}

/// The rings that come into the frame or lie around it.
fn rings_in(coast: &Coast, frame: &Frame) -> Vec<LineId> {
    let mut found = Vec::new();
    let middle = frame.point(frame.area.middle());
    coast.rings_around(middle, &mut found);
    coast.for_runs_in(frame.extent_and(BEYOND), |run| {
        if found.last() != Some(&run.line) {
            found.push(run.line);
        }
    });
    found.sort_unstable();
    found.dedup();
    found.retain(|id| coast.line(*id).is_some_and(|line| line.is_closed()));
    found
}

/// A ring that runs counter-clockwise as seen on paper, or the other way.
fn oriented(mut ring: Vec<Spot>, counter_clockwise: bool) -> Vec<Spot> {
    let Some(&origin) = ring.first() else { return ring };
    let relative = |spot: Spot| ((spot.x - origin.x).0, (spot.y - origin.y).0);
    let cross = ring.windows(2).map(|side| {
        let ((ax, ay), (bx, by)) = (relative(side[0]), relative(side[1]));
        ax * by - bx * ay
    });
    // `y` runs down: what runs clockwise has a positive sum.
    if (cross.sum::<f64>() < 0.0) != counter_clockwise {
        ring.reverse();
    }
    ring
}

/// The shores that come into the frame. Land that is cut at the edge of a plane of the whole world has
/// none there.
fn shores(coast: &Coast, frame: &Frame) -> Outline {
    let mut outline = Outline::default();
    let mut line: Vec<Spot> = Vec::new();
    let mut next = None;
    coast.for_runs_in(frame.extent_and(BEYOND), |run| {
        if next != Some((run.line, run.first_side)) {
            outline.add(thin::line(&line), false);
            line.clear();
        }
        for point in run.points {
            let spot = frame.spot(*point);
            if is_rim(coast, *point) {
                outline.add(thin::line(&line), false);
                line.clear();
            } else if line.last() != Some(&spot) {
                line.push(spot);
            }
        }
        let sides = run.points.len().saturating_sub(1);
        next = Some((run.line, run.first_side.saturating_add(sides as u32)));
    });
    outline.add(thin::line(&line), false);
    outline
}

/// Whether a point lies on the edge of the plane of the whole world, at the 180th meridian.
fn is_rim(coast: &Coast, point: Point) -> bool {
    const HALF_AROUND: f64 = std::f64::consts::PI * 6_378_137.0;
    let whole_world = matches!(coast.grid(), nav::Grid::WorldMercator(_));
    whole_world && point.x.abs() > HALF_AROUND - 1.0
}
