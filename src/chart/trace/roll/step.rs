//! One step of the disc: past one side or vertex, up to where it rolls on along another.

use std::convert::Infallible;
use std::f64::consts::{PI, TAU};
use std::ops::ControlFlow;

use super::super::near::Side;
use super::super::taut::cross;
use super::outline::Outline;
use super::{Disc, Past, Spot, Stretch, TINY, angle};
use crate::Point;

/// Directions closer than this are one, in radians: a shore that is straight but for rounding.
const STRAIGHT: f64 = 1e-7;

/// The disc is not turned aside by shore that it would graze by less than this turn, in radians:
/// at a radius of 2 km that is a nanometre deep.
const GRAZE: f64 = 1e-6;

/// The first place where the way meets an outline.
#[derive(Debug, Clone, Copy)]
struct Hit {
    /// How far on, in metres or radians.
    along: f64,
    spot: Spot,
}

impl Disc<'_> {
    /// The stretch that begins at `spot`, and where the disc rolls on from its end.
    pub(in super::super) fn step(&self, spot: &Spot) -> (Stretch, Spot) {
        match spot.past {
            Past::Side(ends) => self.past_side(spot, ends),
            Past::Vertex(vertex) => self.round_vertex(spot, vertex),
        }
    }

    fn past_side(&self, spot: &Spot, ends: [Point; 2]) -> (Stretch, Spot) {
        let end = self.outline(ends).edge.map_or(spot.at, |edge| edge.to);
        let way = end - spot.at;
        let length = way.x.hypot(way.y);
        let next = Spot { past: Past::Vertex(ends[1]), at: end, ..*spot };
        let mut first = Hit { along: length, spot: next };
        if length > 0.0 {
            let way = way / length;
            self.others([spot.at, end], 1.0, |side| {
                if side.ends == ends || side.ends == [ends[1], ends[0]] {
                    return;
                }
                for (vertex, radius) in discs(side) {
                    if !ends.contains(&vertex)
                        && let Some(along) = into_disc(spot.at, way, vertex, radius)
                    {
                        take(&mut first, along, Past::Vertex(vertex), side, |at| {
                            spot.at + way * at
                        });
                    }
                }
                for other in &side.outlines {
                    if let Some(along) = over_edge(spot.at, way, other) {
                        take(&mut first, along, Past::Side(other.ends), side, |at| {
                            spot.at + way * at
                        });
                    }
                }
            });
        }
        (Stretch { from: *spot, to: first.spot.at, turn: 0.0 }, first.spot)
    }

    fn round_vertex(&self, spot: &Spot, vertex: Point) -> (Stretch, Spot) {
        let arm = spot.at - vertex;
        let radius = self.radius_at(vertex);
        let start = angle(arm);
        let at = |turn: f64| {
            let (sin, cos) = (start + turn).sin_cos();
            vertex + Point { x: cos, y: sin } * radius
        };
        let mut first = Hit { along: TAU, spot: Spot { at: at(0.0), ..*spot } };
        self.others([vertex, vertex], 2.0, |side| {
            for (other, other_radius) in discs(side) {
                if other != vertex
                    && let Some(enters) = round_into_disc(vertex, radius, other, other_radius)
                {
                    let turn = norm(enters - start, TINY / radius);
                    take(&mut first, turn, Past::Vertex(other), side, at);
                }
            }
            for other in &side.outlines {
                let Some(edge) = other.edge else { continue };
                let turn = if other.ends[0] == vertex {
                    // The side's own edge begins here.
                    norm(angle(edge.out) - start, STRAIGHT)
                } else if other.ends[1] == vertex {
                    continue;
                } else if let Some(enters) = round_over_edge(vertex, radius, other) {
                    norm(enters - start, TINY / radius)
                } else {
                    continue;
                };
                take(&mut first, turn, Past::Side(other.ends), side, at);
            }
        });
        (Stretch { from: *spot, to: first.spot.at, turn: first.along }, first.spot)
    }

    /// Every side within so many radii of the way between two points.
    fn others(&self, between: [Point; 2], radii: f64, mut with: impl FnMut(&Side)) {
        let reach = self.reach(between[0]) * radii;
        let _: ControlFlow<Infallible> = self.near.visit(between, reach, |side| {
            with(side);
            ControlFlow::Continue(())
        });
    }
}

fn discs(side: &Side) -> [(Point, f64); 2] {
    let ([a, b], [r, s]) = (side.ends, side.outlines[0].radii);
    [(a, r), (b, s)]
}

/// Takes a hit if it is the first.
fn take(first: &mut Hit, along: f64, past: Past, side: &Side, at: impl Fn(f64) -> Point) {
    if along < first.along {
        let along = along.max(0.0);
        *first = Hit { along, spot: Spot { past, line: side.line, at: at(along) } };
    }
}

/// Where a straight way enters a disc.
fn into_disc(from: Point, way: Point, centre: Point, radius: f64) -> Option<f64> {
    let to = centre - from;
    let foot = way.x * to.x + way.y * to.y;
    let aside = cross(way, to);
    if foot <= 0.0 || aside.abs() >= radius {
        return None;
    }
    let along = foot - (radius * radius - aside * aside).sqrt();
    (along >= -TINY).then_some(along)
}

/// Where a straight way crosses an outline's right hand edge from the right to the left.
fn over_edge(from: Point, way: Point, outline: &Outline) -> Option<f64> {
    let edge = outline.edge?;
    let along_edge = edge.to - edge.from;
    let length = along_edge.x.hypot(along_edge.y);
    let along_edge = along_edge / length;
    let sine = cross(way, along_edge);
    // To the left of the edge, and not along it.
    if sine >= -1e-9 {
        return None;
    }
    let to = edge.from - from;
    let along = cross(to, along_edge) / sine;
    let on_edge = cross(to, way) / sine;
    ((-TINY..=length + TINY).contains(&on_edge) && along >= -TINY).then_some(along)
}

/// The direction from the middle of a disc in which the way round it, to the left, enters another.
fn round_into_disc(centre: Point, radius: f64, other: Point, other_radius: f64) -> Option<f64> {
    let to = other - centre;
    let apart = to.x.hypot(to.y);
    let cosine =
        (apart * apart + radius * radius - other_radius * other_radius) / (2.0 * apart * radius);
    let half = (cosine.abs() < 1.0).then(|| cosine.acos())?;
    (half > GRAZE && half < PI - GRAZE).then(|| angle(to) - half)
}

/// The direction from the middle of a disc in which the way round it crosses an edge.
fn round_over_edge(centre: Point, radius: f64, outline: &Outline) -> Option<f64> {
    let edge = outline.edge?;
    let along = edge.to - edge.from;
    let length = along.x.hypot(along.y);
    let along = along / length;
    let inwards = Point { x: -edge.out.x, y: -edge.out.y };
    let to = edge.from - centre;
    let cosine = (inwards.x * to.x + inwards.y * to.y) / radius;
    let half = (cosine.abs() < 1.0).then(|| cosine.acos())?;
    if half <= GRAZE || half >= PI - GRAZE {
        return None;
    }
    let enters = angle(inwards) - half;
    let (sin, cos) = enters.sin_cos();
    let place = Point { x: cos, y: sin } * radius - to;
    let on_edge = place.x * along.x + place.y * along.y;
    (-TINY..=length + TINY).contains(&on_edge).then_some(enters)
}

/// An angle as 0 to a whole turn; one just short of a whole turn is none.
pub(in super::super) fn norm(angle: f64, tiny: f64) -> f64 {
    let angle = angle.rem_euclid(TAU);
    if angle >= TAU - tiny { 0.0 } else { angle }
}
