//! Which vertices lie near a place.

use crate::Point;
use crate::coast::flat;

/// The most squares that are looked through for one triangle; a larger one is taken for full.
const SQUARES: f64 = 256.0;

/// The vertices of all lines of a level in the making, found by the square that they lie in.
///
/// Squares share lists by a hash: a list may hold vertices of several, which costs time and
/// changes no answer.
#[derive(Debug)]
pub(super) struct Vertices {
    points: Vec<Point>,
    /// Which of them are still there.
    there: Vec<bool>,
    /// The side of a square.
    side: f64,
    /// Where each list begins in `members`, and where the last one ends.
    starts: Vec<u32>,
    members: Vec<u32>,
}

impl Vertices {
    /// Vertices, those that are there in squares of that side.
    pub(super) fn new(points: Vec<Point>, there: Vec<bool>, side: f64) -> Vertices {
        let lists = (points.len() / 2).next_power_of_two();
        let mut all = Vertices { points, there, side, starts: vec![0; lists + 1], members: vec![] };
        let list_of = |all: &Vertices, index: usize| {
            let (x, y) = all.square(all.points[index]);
            all.list(x, y)
        };
        let those = |all: &Vertices| all.there.clone().into_iter().enumerate().filter(|(_, t)| *t);
        for (index, _) in those(&all) {
            let list = list_of(&all, index);
            all.starts[list] += 1;
        }
        let mut end = 0;
        for start in &mut all.starts {
            end += *start;
            *start = end;
        }
        all.members = vec![0; end as usize];
        // Each list is filled from its end, which leaves its start behind.
        for (index, _) in those(&all) {
            let list = list_of(&all, index);
            all.starts[list] -= 1;
            let place = all.starts[list] as usize;
            all.members[place] = index as u32;
        }
        all
    }

    pub(super) fn point(&self, index: usize) -> Point {
        self.points[index]
    }

    pub(super) fn is_there(&self, index: usize) -> bool {
        self.there[index]
    }

    pub(super) fn take_out(&mut self, index: usize) {
        self.there[index] = false;
    }

    /// Whether no vertex lies in a triangle of three of them or on its sides, but these.
    pub(super) fn is_alone(&self, corners: [usize; 3]) -> bool {
        let triangle = corners.map(|index| self.points[index]);
        let [a, b, c] = triangle;
        let low = Point { x: a.x.min(b.x).min(c.x), y: a.y.min(b.y).min(c.y) };
        let high = Point { x: a.x.max(b.x).max(c.x), y: a.y.max(b.y).max(c.y) };
        let ((west, south), (east, north)) = (self.square(low), self.square(high));
        if ((east - west + 1) as f64) * ((north - south + 1) as f64) > SQUARES {
            return false;
        }
        let blocks = |index: usize| {
            let p = self.points[index];
            let in_reach = p.x >= low.x && p.x <= high.x && p.y >= low.y && p.y <= high.y;
            in_reach && self.there[index] && !corners.contains(&index) && holds(triangle, p)
        };
        let mut squares = (south..=north).flat_map(|y| (west..=east).map(move |x| (x, y)));
        !squares.any(|(x, y)| self.members_of(x, y).iter().any(|index| blocks(*index as usize)))
    }

    fn square(&self, point: Point) -> (i64, i64) {
        ((point.x / self.side).floor() as i64, (point.y / self.side).floor() as i64)
    }

    fn list(&self, x: i64, y: i64) -> usize {
        // Fibonacci hashing of both numbers (Knuth, The Art of Computer Programming 3, section 6.4).
        let mixed = (x as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ (y as u64).rotate_left(32);
        let mixed = mixed.wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 32;
        mixed as usize & (self.starts.len() - 2)
    }

    fn members_of(&self, x: i64, y: i64) -> &[u32] {
        let list = self.list(x, y);
        &self.members[self.starts[list] as usize..self.starts[list + 1] as usize]
    }
}

/// Whether a point lies in a triangle or on its sides.
fn holds([a, b, c]: [Point; 3], p: Point) -> bool {
    let hands = [flat::hand(a, b, p), flat::hand(b, c, p), flat::hand(c, a, p)];
    !(hands.contains(&1) && hands.contains(&-1))
}
