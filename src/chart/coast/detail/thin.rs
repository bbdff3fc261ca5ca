//! Taking vertices out of lines without moving them far and without letting them meet.

use super::near::Vertices;
use crate::Point;
use crate::coast::flat;

/// The most vertices that may go between two that stay, so that looking them through stays cheap.
/// The next level goes on from there.
const SPAN: usize = 64;

/// A line among the vertices of all lines.
#[derive(Debug, Clone, Copy)]
pub(super) struct Chain {
    pub(super) first: usize,
    /// How many vertices it has; the first one of a ring counts once.
    pub(super) count: usize,
    pub(super) closed: bool,
}

/// Takes vertices out of a line: each place of it stays within `tolerance` of what is left.
///
/// A vertex goes if the side that takes its place keeps within the tolerance of all that went
/// between its ends, and if no other vertex lies in the triangle of the vertex and its neighbours.
/// Where lines do not cross, a side can come into that triangle by the new side alone, and would
/// have to end inside: so without a vertex there, the new side meets nothing.
pub(super) fn thin(chain: &Chain, tolerance: f64, vertices: &mut Vertices) {
    let Chain { first, count, closed } = *chain;
    let end = first + count;
    // A ring keeps three vertices, and its first; an open line its ends.
    let (mut stay, least) = (count, if closed { 3 } else { 2 });
    let last = if closed { end } else { end.saturating_sub(1) };
    let mut from = first;
    for at in first + 1..last {
        let to = if at + 1 < end { at + 1 } else { first };
        let goes = stay > least
            && at - from < SPAN
            && is_near(vertices, from, at, to, tolerance)
            && vertices.is_alone([from, at, to]);
        if goes {
            vertices.take_out(at);
            stay -= 1;
        } else {
            from = at;
        }
    }
}

/// Whether all vertices after `from` up to `at` lie within `tolerance` of the side to `to`.
fn is_near(vertices: &Vertices, from: usize, at: usize, to: usize, tolerance: f64) -> bool {
    let side = [vertices.point(from), vertices.point(to)];
    let near = |p: Point| flat::foot(p, side).1 <= tolerance * tolerance;
    (from + 1..=at).rev().all(|index| near(vertices.point(index)))
}
