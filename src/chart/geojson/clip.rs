//! Lines and rings cut to a rectangle of longitude and latitude.

use super::coordinates::Flat;
use super::parse::Geometry;
use crate::Point;
use crate::flatgeobuf::Bounds;

/// What of a geometry lies within: rings closed along the rectangle's edge where they leave it,
/// lines cut there. Rings that enclose nothing of it are gone.
pub(crate) fn clipped(geometry: Geometry, within: &Bounds) -> Geometry {
    let Geometry { kind, flat } = geometry;
    match flat.depth {
        Some(2) if kind == "Polygon" => polygons(std::iter::once(flat.lines().collect()), within),
        Some(3) => polygons(flat.polygons(), within),
        Some(2) => lines(flat.lines(), within),
        Some(1) if kind == "LineString" => {
            lines(std::iter::once(flat.positions.as_slice()), within)
        }
        _ => Geometry { kind, flat },
    }
}

/// What of a ring lies beyond the 180th meridian, moved to its other side and closed along it.
pub(crate) fn part_beyond(ring: &[Point]) -> Option<Vec<Point>> {
    let world = Bounds { west: -180.0, south: -90.0, east: 180.0, north: 90.0 };
    let beyond = |sign: f64| ring.iter().any(|p| p.x * sign > 180.0).then_some(-360.0 * sign);
    let part = ring_within(ring, beyond(1.0).or(beyond(-1.0))?, &world);
    (part.len() >= 3).then_some(part)
}

/// By how many turns a line is moved to meet the rectangle, which may reach beyond 180 degrees.
fn turns<'a>(line: &[Point], within: &'a Bounds) -> impl Iterator<Item = f64> + use<'a> {
    let (mut west, mut east) = (f64::INFINITY, f64::NEG_INFINITY);
    let (mut south, mut north) = (f64::INFINITY, f64::NEG_INFINITY);
    for point in line {
        (west, east) = (west.min(point.x), east.max(point.x));
        (south, north) = (south.min(point.y), north.max(point.y));
    }
    let meets = move |turn: &f64| {
        Bounds { west: west + turn, south, east: east + turn, north }.meets(within)
    };
    [-360.0, 0.0, 360.0].into_iter().filter(meets)
}

fn polygons<'p>(all: impl Iterator<Item = Vec<&'p [Point]>>, within: &Bounds) -> Geometry {
    let mut flat = Flat::default();
    for polygon in all {
        let Some(outer) = polygon.first() else { continue };
        for turn in turns(outer, within) {
            let before = flat.positions.len();
            for ring in &polygon {
                let cut = ring_within(ring, turn, within);
                if cut.len() < 3 {
                    if flat.positions.len() == before {
                        break;
                    }
                    continue;
                }
                flat.positions.extend(cut.iter().chain(cut.first()).map(wrapped));
                flat.end_line(flat.positions.len());
            }
            if flat.positions.len() > before {
                flat.end_polygon();
            }
        }
    }
    flat.settle((!flat.positions.is_empty()).then_some(3));
    Geometry { kind: "MultiPolygon".to_owned(), flat }
}

fn lines<'p>(all: impl Iterator<Item = &'p [Point]>, within: &Bounds) -> Geometry {
    let mut flat = Flat::default();
    for line in all {
        for turn in turns(line, within) {
            let mut open = false;
            for pair in line.windows(2) {
                let [a, b] = [pair[0], pair[1]].map(|p| Point { x: p.x + turn, y: p.y });
                let side = Bounds {
                    west: a.x.min(b.x),
                    south: a.y.min(b.y),
                    east: a.x.max(b.x),
                    north: a.y.max(b.y),
                };
                if side.meets(within) {
                    if !open {
                        flat.positions.push(wrapped(&a));
                    }
                    flat.positions.push(wrapped(&b));
                    open = true;
                } else if open {
                    flat.end_line(flat.positions.len());
                    open = false;
                }
            }
            if open {
                flat.end_line(flat.positions.len());
            }
        }
    }
    flat.settle((!flat.positions.is_empty()).then_some(2));
    Geometry { kind: "MultiLineString".to_owned(), flat }
}

/// With a longitude from -180 to 180.
fn wrapped(point: &Point) -> Point {
    let turn =
        if point.x > 180.0 { -360.0 } else { f64::from(i16::from(point.x < -180.0)) * 360.0 };
    Point { x: point.x + turn, y: point.y }
}

/// A ring cut by one edge after the other (Sutherland and Hodgman 1974), without its last point.
fn ring_within(ring: &[Point], turn: f64, within: &Bounds) -> Vec<Point> {
    let open = if ring.first() == ring.last() { ring.get(1..).unwrap_or_default() } else { ring };
    let mut points: Vec<Point> = open.iter().map(|p| Point { x: p.x + turn, y: p.y }).collect();
    let Bounds { west, south, east, north } = *within;
    let edges: [(bool, f64, f64); 4] =
        [(true, west, 1.0), (true, east, -1.0), (false, south, 1.0), (false, north, -1.0)];
    for (is_meridian, edge, sign) in edges {
        let depth = |p: &Point| sign * (if is_meridian { p.x } else { p.y } - edge);
        let mut kept = Vec::with_capacity(points.len());
        let mut last = points.last().copied();
        for point in points {
            if let Some(before) = last {
                let (from, to) = (depth(&before), depth(&point));
                if (from < 0.0) != (to < 0.0) {
                    let part = from / (from - to);
                    let mut at = before + (point - before) * part;
                    *(if is_meridian { &mut at.x } else { &mut at.y }) = edge;
                    kept.push(at);
                }
                if to >= 0.0 {
                    kept.push(point);
                }
            }
            last = Some(point);
        }
        kept.dedup();
        points = kept;
    }
    points
}
