//! What is land.

use super::line::LineRecord;
use super::points::{ROOM, Room};
use super::runs::{Arrays, Run};
use super::tree::{Block, FAN, Node, down, up};
use super::{Coast, LineId, LineKind, flat};
use crate::Point;
use std::ops::ControlFlow;

/// What a point lies on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ashore {
    /// Water: the sea, or a lake.
    Water,
    /// The shore itself, of this line.
    Shore(LineId),
    /// Land within this ring; of several, that of the fewest sides.
    Land(LineId),
}

impl Coast {
    /// Whether `point` is on land, that is, inside more rings of land than of lakes, or on the
    /// shore itself. Exact. A ring that crosses itself encloses what a ray out of it leaves an odd
    /// number of times. Open lines enclose nothing.
    #[must_use]
    pub fn on_land(&self, point: Point) -> bool {
        self.cells.at(point).unwrap_or_else(|| self.ashore(point) != Ashore::Water)
    }

    /// What `point` lies on. Exact; see [`on_land`](Self::on_land).
    #[must_use]
    pub fn ashore(&self, point: Point) -> Ashore {
        if !(point.x.is_finite() && point.y.is_finite()) {
            return Ashore::Water;
        }
        let mut ray = Ray { point, line: 0, inside: false, within: Vec::new() };
        let mut room = ROOM;
        let arrays = self.arrays();
        let Some(root) = arrays.search.levels.root() else { return Ashore::Water };
        if let ControlFlow::Break(line) = ray.block(&arrays, root, &mut room) {
            return Ashore::Shore(LineId(line));
        }
        ray.leave_line();
        innermost(arrays.lines, &ray.within).map_or(Ashore::Water, Ashore::Land)
    }

    /// Puts every ring that has `point` inside into `into`, in the order of their numbers; of a ring
    /// on which the point lies, and of those after it, either may be said.
    pub fn rings_around(&self, point: Point, into: &mut Vec<LineId>) {
        into.clear();
        let arrays = self.arrays();
        let Some(root) = arrays.search.levels.root() else { return };
        let mut ray = Ray { point, line: 0, inside: false, within: std::mem::take(into) };
        let mut room = ROOM;
        // Broken off at a shore under the point, which leaves nothing to tell.
        let _ = ray.block(&arrays, root, &mut room);
        ray.leave_line();
        let closed = |id: &LineId| arrays.lines[id.0 as usize].kind() != LineKind::Open;
        *into = ray.within;
        into.retain(closed);
    }
}

/// The land to which the inside of all these lines belongs, if it is land.
fn innermost(lines: &[LineRecord], within: &[LineId]) -> Option<LineId> {
    let of = |kind: LineKind| {
        let numbered = within.iter().map(|number| (*number, &lines[number.0 as usize]));
        numbered.filter(move |(_, line)| line.kind() == kind)
    };
    if of(LineKind::Land).count() <= of(LineKind::Lake).count() {
        return None;
    }
    // An island in a lake is within the land around the lake too.
    let in_own_lake =
        |land: &LineRecord| of(LineKind::Lake).any(|(_, l)| l.feature == land.feature);
    let least = of(LineKind::Land).min_by_key(|(_, land)| (in_own_lake(land), land.sides));
    least.map(|(number, _)| number)
}

/// A ray from the point due east, and what it has crossed so far.
///
/// A side has its lower end and not its upper one, so that a ray through a vertex counts once. A
/// stretch of shore that lies wholly to the east is crossed an odd number of times exactly if its
/// ends lie on both sides of the ray: of what does not reach around the point, only the ends are
/// looked at, however long it is.
struct Ray {
    point: Point,
    /// The line whose crossings are being counted, and whether they are odd so far.
    line: u32,
    inside: bool,
    /// The lines that were left with an odd number.
    within: Vec<LineId>,
}

/// What of a child of a block concerns the ray.
#[derive(Clone, Copy, PartialEq)]
enum Look {
    Nothing,
    Ends,
    Sides,
}

impl Ray {
    /// The crossings of all that is below a block; breaks with the line that the point is on.
    fn block(&mut self, arrays: &Arrays<'_>, block: usize, room: &mut Room) -> ControlFlow<u32> {
        let levels = arrays.search.levels;
        let Some(bounds) = arrays.search.blocks.get(block) else {
            return ControlFlow::Continue(());
        };
        let looks = self.looks(bounds);
        let (first, count) = levels.children(block);
        for (child, look) in looks.into_iter().enumerate().take(count) {
            match (look, first) {
                (Look::Nothing, _) => {}
                (Look::Ends, Node::Run(run)) => self.pass(arrays, run + child, run + child),
                (Look::Ends, Node::Block(block)) => {
                    let (first, end) = levels.runs_below(block + child);
                    self.pass(arrays, first, end - 1);
                }
                (Look::Sides, Node::Run(run)) => {
                    self.sides(&arrays.run(run + child, room))?;
                }
                (Look::Sides, Node::Block(block)) => self.block(arrays, block + child, room)?,
            }
        }
        ControlFlow::Continue(())
    }

    fn looks(&self, block: &Block) -> [Look; FAN] {
        let (west, east) = (down(self.point.x), up(self.point.x));
        let (south, north) = (down(self.point.y), up(self.point.y));
        std::array::from_fn(|i| {
            let beside =
                (block.south[i] > north) | (block.north[i] < south) | (block.east[i] < west);
            match (beside, block.west[i] > east) {
                (true, _) => Look::Nothing,
                (_, true) => Look::Ends,
                _ => Look::Sides,
            }
        })
    }

    /// The crossings of a stretch of runs, the last one included, that lies to the east. Lines that
    /// begin and end in it are crossed an even number of times.
    fn pass(&mut self, arrays: &Arrays<'_>, first: usize, last: usize) {
        let (first, last) = (&arrays.runs[first], &arrays.runs[last]);
        let end_line = &arrays.lines[last.line as usize];
        let end = last.first + end_line.sides_from(last.first) as u32;
        if first.line == last.line {
            return self.step(arrays, first.line, [first.first, end]);
        }
        let line = &arrays.lines[first.line as usize];
        self.step(arrays, first.line, [first.first, line.first + line.sides]);
        self.step(arrays, last.line, [end_line.first, end]);
    }

    fn step(&mut self, arrays: &Arrays<'_>, line: u32, ends: [u32; 2]) {
        let above = |vertex: u32| arrays.reader.at(vertex as usize).y > self.point.y;
        if above(ends[0]) != above(ends[1]) {
            self.cross(line);
        }
    }

    /// The crossings of the sides of a run.
    fn sides(&mut self, run: &Run<'_>) -> ControlFlow<u32> {
        let p = self.point;
        for (_, [a, b]) in run.sides() {
            let beside = p.y < a.y.min(b.y) || p.y > a.y.max(b.y) || p.x > a.x.max(b.x);
            if beside {
                continue;
            }
            let hand = flat::hand(a, b, p);
            if hand == 0 && p.x >= a.x.min(b.x) {
                return ControlFlow::Break(run.line.0);
            }
            let spans = (a.y > p.y) != (b.y > p.y);
            if spans && hand == (if a.y < b.y { 1 } else { -1 }) {
                self.cross(run.line.0);
            }
        }
        ControlFlow::Continue(())
    }

    fn cross(&mut self, line: u32) {
        if line != self.line {
            self.leave_line();
            self.line = line;
        }
        self.inside = !self.inside;
    }

    /// Notes a line that has been crossed an odd number of times: there is no more of it to come.
    fn leave_line(&mut self) {
        if std::mem::take(&mut self.inside) {
            self.within.push(LineId(self.line));
        }
    }
}
