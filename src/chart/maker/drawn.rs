//! The shores as they are drawn. Their lines are thinner than the relief's: a place beside one may lie on
//! its other side on the chart.

use super::contour::Loop;
use super::dice::Xy;
use super::finds::{contains, xy};

/// The squares by which sides are found have this side, in metres.
const SQUARE: f64 = 200.0;

type Side = (Xy, Xy);

/// A closed line with the corners of its box.
struct Boxed<'a> {
    line: &'a Loop,
    low: Xy,
    high: Xy,
}

impl<'a> Boxed<'a> {
    fn new(line: &'a Loop) -> Self {
        let corners = || line.corners.iter().map(|corner| xy(*corner));
        let low = corners().fold((f64::MAX, f64::MAX), |l, c| (l.0.min(c.0), l.1.min(c.1)));
        let high = corners().fold((f64::MIN, f64::MIN), |h, c| (h.0.max(c.0), h.1.max(c.1)));
        Self { line, low, high }
    }

    fn contains(&self, at: Xy) -> bool {
        (self.low.0..=self.high.0).contains(&at.0)
            && (self.low.1..=self.high.1).contains(&at.1)
            && contains(self.line, at)
    }
}

/// The drawn shores, with what finds their sides quickly.
pub(super) struct Drawn<'a> {
    shores: Vec<Boxed<'a>>,
    lakes: Vec<Boxed<'a>>,
    squares: Vec<Vec<Side>>,
    columns: usize,
}

impl<'a> Drawn<'a> {
    /// The shores and the lakes of a chart of a size.
    pub(super) fn new(shores: &'a [Loop], lakes: &'a [Loop], size: Xy) -> Self {
        let columns = (size.0 / SQUARE) as usize + 1;
        let rows = (size.1 / SQUARE) as usize + 1;
        let squares = vec![Vec::new(); columns * rows];
        let boxed = |lines: &'a [Loop]| lines.iter().map(Boxed::new).collect();
        let mut drawn = Self { shores: boxed(shores), lakes: boxed(lakes), squares, columns };
        for shore in shores {
            let ahead = shore.corners.iter().cycle().skip(1);
            for (a, b) in shore.corners.iter().zip(ahead) {
                let side = (xy(*a), xy(*b));
                for square in drawn.squares_about(side) {
                    drawn.squares[square].push(side);
                }
            }
        }
        drawn
    }

    /// The squares in the box about a line, as far as they lie on the chart.
    fn squares_about(&self, (a, b): Side) -> impl Iterator<Item = usize> + use<> {
        let (columns, rows) = (self.columns, self.squares.len() / self.columns);
        let range = |a: f64, b: f64, count: usize| {
            let low = (a.min(b) / SQUARE).max(0.0) as usize;
            let end = if a.max(b) < 0.0 { 0 } else { (a.max(b) / SQUARE) as usize + 1 };
            low..end.min(count)
        };
        let across = range(a.0, b.0, columns);
        range(a.1, b.1, rows).flat_map(move |row| across.clone().map(move |c| row * columns + c))
    }

    /// Whether a place lies within a shore, by the whole metres at which it is drawn: one beside a shore
    /// may be rounded to its other side.
    pub(super) fn is_land(&self, at: Xy) -> bool {
        let at = whole(at);
        self.shores.iter().any(|shore| shore.contains(at))
    }

    /// Whether a place lies within a shore and in no lake: what is built stands there.
    pub(super) fn is_ground(&self, at: Xy) -> bool {
        self.is_land(at) && !self.lakes.iter().any(|lake| lake.contains(whole(at)))
    }

    /// Whether a straight line meets a shore.
    pub(super) fn bars(&self, from: Xy, to: Xy) -> bool {
        self.squares_about((from, to))
            .any(|square| self.squares[square].iter().any(|side| meet((from, to), *side)))
    }

    /// Whether a closed line meets a shore or has one within.
    pub(super) fn is_in(&self, edge: &[Xy]) -> bool {
        let ahead = edge.iter().cycle().skip(1);
        let corners = edge.iter().map(|at| (at.0 as i32, at.1 as i32)).collect();
        let within = Loop { corners };
        edge.iter().zip(ahead).any(|(a, b)| self.bars(*a, *b))
            || self.shores.iter().any(|shore| contains(&within, xy(shore.line.corners[0])))
    }
}

/// A place as it is drawn.
fn whole(at: Xy) -> Xy {
    (at.0.round(), at.1.round())
}

/// Twice the area of a triangle, above nought where it turns left.
fn turn(a: Xy, b: Xy, c: Xy) -> f64 {
    (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)
}

/// Whether two lines cross or touch.
fn meet((a, b): Side, (c, d): Side) -> bool {
    let apart = |a: f64, b: f64, c: f64, d: f64| a.max(b) < c.min(d) || c.max(d) < a.min(b);
    !apart(a.0, b.0, c.0, d.0)
        && !apart(a.1, b.1, c.1, d.1)
        && turn(a, b, c) * turn(a, b, d) <= 0.0
        && turn(c, d, a) * turn(c, d, b) <= 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A square of 200 m whose south-west corner lies 300 m east and north.
    fn square() -> Vec<Loop> {
        vec![Loop { corners: vec![(300, 300), (500, 300), (500, 500), (300, 500)] }]
    }

    #[test]
    fn places_lines_and_closed_lines_know_the_shore() {
        let shores = square();
        let lakes = [Loop { corners: vec![(380, 380), (420, 380), (420, 420), (380, 420)] }];
        let drawn = Drawn::new(&shores, &lakes, (1_000.0, 800.0));
        assert!(drawn.is_land((400.0, 400.0)) && !drawn.is_land((510.0, 400.0)));
        assert!(drawn.is_land((299.6, 400.0)) && !drawn.is_land((499.6, 400.0)));
        assert!(!drawn.is_ground((400.0, 400.0)) && drawn.is_ground((350.0, 400.0)));
        assert!(drawn.bars((100.0, 400.0), (900.0, 400.0)));
        assert!(drawn.bars((500.0, 600.0), (500.0, 450.0)), "it ends on the shore");
        assert!(!drawn.bars((100.0, 100.0), (900.0, 250.0)));
        let about = |half: f64| {
            [(-half, -half), (half, -half), (half, half), (-half, half)]
                .map(|(x, y)| (400.0 + x, 400.0 + y))
        };
        assert!(drawn.is_in(&about(150.0)) && drawn.is_in(&about(120.0)[..3]));
        let beside = about(90.0).map(|at| (at.0 + 350.0, at.1));
        assert!(!drawn.is_in(&beside));
    }
}
