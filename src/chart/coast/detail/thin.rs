//! Taking vertices out of lines without moving them far and without letting them meet.

use super::near::Vertices;
use crate::coast::flat;
use crate::coast::line::LineRecord;

/// The most vertices that may go between two that stay, so that looking them through stays cheap.
/// The next level goes on from there.
const SPAN: usize = 64;

/// Takes vertices out of a line: each place of it stays within `tolerance` of what is left.
///
/// A vertex goes if the side that takes its place keeps within the tolerance of all that went
/// between its ends, and if no other vertex lies in the triangle of the vertex and its neighbours.
/// Where lines do not cross, a side can come into that triangle by the new side alone, and would
/// have to end inside: so without a vertex there, the new side meets nothing.
pub(super) fn thin(line: &LineRecord, tolerance: f64, vertices: &mut Vertices<'_>) {
    let (first, closed) = (line.first as usize, line.is_closed());
    // A ring keeps three vertices, and its first; an open line its ends.
    let (mut stay, least) = if closed { (line.sides, 3) } else { (line.sides + 1, 2) };
    let last = first + line.sides as usize;
    let mut from = first;
    for at in first + 1..last {
        let to = if closed && at + 1 == last { first } else { at + 1 };
        let goes = stay > least
            && at - from < SPAN
            && is_near(vertices, from, at, to, tolerance)
            && vertices.is_alone([from, at, to], last);
        if goes {
            vertices.take_out(at);
            stay -= 1;
        } else {
            from = at;
        }
    }
}

/// Whether all vertices after `from` up to `at` lie within `tolerance` of the side to `to`.
fn is_near(vertices: &Vertices<'_>, from: usize, at: usize, to: usize, tolerance: f64) -> bool {
    let side = [vertices.point(from), vertices.point(to)];
    let near = |index| flat::foot(vertices.point(index), side).1 <= tolerance * tolerance;
    (from + 1..=at).rev().all(near)
}
