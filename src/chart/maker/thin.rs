//! Fewer corners where a line runs almost straight, without lines coming to cross.

use std::collections::BTreeSet;

use super::contour::Corner;

/// Corners by the square that they lie in.
struct Index {
    squares: Vec<Vec<Corner>>,
    columns: i32,
    rows: i32,
}

/// How often each line is gone over.
const PASSES: usize = 5;
/// No side grows longer than this, in metres.
const LONGEST: f64 = 400.0;
/// The index's squares have this side, in metres.
const SQUARE: i32 = 160;

impl Index {
    fn new(size: Corner) -> Self {
        let (columns, rows) = (size.0 / SQUARE + 1, size.1 / SQUARE + 1);
        let squares = vec![Vec::new(); (columns * rows) as usize];
        Self { squares, columns, rows }
    }

    fn square(&self, (x, y): Corner) -> (i32, i32) {
        ((x / SQUARE).clamp(0, self.columns - 1), (y / SQUARE).clamp(0, self.rows - 1))
    }

    fn slot(&mut self, corner: Corner) -> &mut Vec<Corner> {
        let (column, row) = self.square(corner);
        &mut self.squares[(row * self.columns + column) as usize]
    }

    /// Whether any corner but its own three lies in or on a triangle.
    fn touches(&self, triangle: [Corner; 3]) -> bool {
        let [a, b, c] = triangle;
        let least = (a.0.min(b.0).min(c.0), a.1.min(b.1).min(c.1));
        let most = (a.0.max(b.0).max(c.0), a.1.max(b.1).max(c.1));
        // A triangle without an area covers all of the straight line that it lies on.
        let flat = turn(a, b, c) == 0;
        let may = |p: &Corner| {
            let within = (least.0..=most.0).contains(&p.0) && (least.1..=most.1).contains(&p.1);
            flat || within
        };
        let touched = |p: &Corner| may(p) && !triangle.contains(p) && covers(triangle, *p);
        let (low, high) = (self.square(least), self.square(most));
        (low.1..=high.1).any(|row| {
            (low.0..=high.0).any(|column| {
                self.squares[(row * self.columns + column) as usize].iter().any(touched)
            })
        })
    }
}

/// Twice the signed area of a triangle.
fn turn(a: Corner, b: Corner, c: Corner) -> i64 {
    let (ux, uy) = (i64::from(b.0 - a.0), i64::from(b.1 - a.1));
    let (vx, vy) = (i64::from(c.0 - a.0), i64::from(c.1 - a.1));
    ux * vy - uy * vx
}

fn covers([a, b, c]: [Corner; 3], p: Corner) -> bool {
    let turns = [turn(a, b, p), turn(b, c, p), turn(c, a, p)];
    turns.iter().all(|t| *t >= 0) || turns.iter().all(|t| *t <= 0)
}

/// A closed line to be thinned.
pub(super) struct Line<'a> {
    pub(super) corners: &'a mut Vec<Corner>,
    /// How far the line may move, in metres.
    pub(super) tolerance: f64,
}

/// Leaves out corners that lie within each line's tolerance of the straight line between their
/// neighbours. A corner goes only if no other lies in the triangle with its neighbours: then no
/// line can come to cross another, for to pass the new side it would need a corner in there.
/// `kept` corners stay. All lines must be given at once.
pub(super) fn thin(lines: &mut [Line<'_>], kept: &BTreeSet<Corner>, size: Corner) {
    let mut index = Index::new(size);
    for line in lines.iter() {
        line.corners.iter().for_each(|c| index.slot(*c).push(*c));
    }
    kept.iter().for_each(|c| index.slot(*c).push(*c));
    for _ in 0..PASSES {
        for line in lines.iter_mut() {
            pass(line, kept, &mut index);
        }
    }
}

/// One round along a line, in which no two neighbours go.
fn pass(line: &mut Line<'_>, kept: &BTreeSet<Corner>, index: &mut Index) {
    let corners = std::mem::take(line.corners);
    let mut left = corners.len();
    let mut before: Option<Corner> = None;
    for (i, corner) in corners.iter().enumerate() {
        let ahead = corners[(i + 1) % corners.len()];
        let goes = before.is_some_and(|before| {
            left > 6
                && i + 1 < corners.len()
                && is_near(before, *corner, ahead, line.tolerance)
                && !kept.contains(corner)
                && !index.touches([before, *corner, ahead])
        });
        if goes {
            left -= 1;
            index.slot(*corner).retain(|c| c != corner);
            before = None;
        } else {
            line.corners.push(*corner);
            before = Some(*corner);
        }
    }
}

/// Whether a corner lies within a tolerance of the line between its neighbours.
fn is_near(before: Corner, corner: Corner, ahead: Corner, tolerance: f64) -> bool {
    let (dx, dy) = (f64::from(ahead.0 - before.0), f64::from(ahead.1 - before.1));
    let double = turn(before, corner, ahead) as f64;
    let square = dx * dx + dy * dy;
    let between = {
        let (ex, ey) = (f64::from(corner.0 - before.0), f64::from(corner.1 - before.1));
        let along = ex * dx + ey * dy;
        along > 0.0 && along < square
    };
    between && square < LONGEST * LONGEST && double * double <= tolerance * tolerance * square
}
