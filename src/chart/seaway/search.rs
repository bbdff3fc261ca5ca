//! The way from cell to cell: the shortest in sixteen directions, by the best bound first.

use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashMap};

use super::cells::{Cell, Cells};
use crate::Point;
use crate::coast::Coast;

/// The steps from a cell: beside, over the corner, and like a knight.
const STEPS: [Cell; 16] = [
    (1, 0),
    (0, 1),
    (-1, 0),
    (0, -1),
    (1, 1),
    (-1, 1),
    (-1, -1),
    (1, -1),
    (2, 1),
    (1, 2),
    (-1, 2),
    (-2, 1),
    (-2, -1),
    (-1, -2),
    (1, -2),
    (2, -1),
];

/// A cell that was come to from a place, not from a cell.
const BEGUN: u8 = 17;

/// What stands for the goal among the numbers of cells.
const GOAL: u32 = u32::MAX;

/// How each cell was come to: 0 where it was not, else the number of the step from one, or [`BEGUN`].
#[derive(Debug)]
pub(super) struct Field(Vec<u8>);

/// How far from each other the middles are that a place is joined to, in cells, where none nearer can be.
const JOINED: i32 = 3;

/// The places of the short way from one of `from` to `to`, from the middle of one cell to the next; of a way that there is
/// not, all that hangs together with `from`, if that was all looked at.
pub(super) fn way(
    coast: &Coast,
    cells: &Cells,
    closed: &[Field],
    (from, to): (&[Point], Point),
    most: f64,
) -> Result<Vec<Point>, Option<Field>> {
    let goals: HashMap<u32, f32> = joined(coast, cells, to).into_iter().collect();
    let mut search = Search::new(coast, cells, to);
    for (number, place) in from.iter().enumerate() {
        for (cell, cost) in joined(coast, cells, *place) {
            search.begin(cell, cost, number);
        }
    }
    let apart = |field: &Field| {
        let is_in = |cell: u32| field.0[cell as usize] != 0;
        search.seeds.keys().all(|cell| is_in(*cell)) && !goals.keys().any(|cell| is_in(*cell))
    };
    if goals.is_empty() || search.seeds.is_empty() || closed.iter().any(apart) {
        return Err(None);
    }
    // Steps from cell to cell are a little longer than the way that is drawn tight.
    let most = (most * (1.0 + super::DETOUR)) as f32 + cells.side as f32 * 4.0;
    match search.run(&goals, most) {
        Ended::At(cell) => Ok(search.back(cell, from, to)),
        Ended::TooLong => Err(None),
        Ended::Nowhere => Err(Some(Field(search.came))),
    }
}

/// The cells about a place whose middles it has a clear way to, each with how far that is: the nearest ring of them that
/// has any.
fn joined(coast: &Coast, cells: &Cells, place: Point) -> Vec<(u32, f32)> {
    let (column, row) = cells.cell(place);
    let mut found = Vec::new();
    for reach in 1..=JOINED {
        for y in row - reach..=row + reach {
            for x in column - reach..=column + reach {
                if !cells.has((x, y)) {
                    continue;
                }
                let middle = cells.middle((x, y));
                if !coast.touches(place, middle) {
                    let away = (middle.x - place.x).hypot(middle.y - place.y);
                    found.push((cells.index((x, y)) as u32, away as f32));
                }
            }
        }
        if !found.is_empty() {
            break;
        }
    }
    found
}

/// How a search ended.
enum Ended {
    /// With the goal, from this cell.
    At(u32),
    /// With ways that are all longer than they may be.
    TooLong,
    /// With nowhere left to go.
    Nowhere,
}

struct Search<'a> {
    coast: &'a Coast,
    cells: &'a Cells,
    to: Point,
    /// How far each cell is, and one metre more; 0 where that is not known.
    far: Vec<f32>,
    came: Vec<u8>,
    /// By the bits of a bound that is never negative, so that they are in its order, and the cell.
    open: BinaryHeap<Reverse<(u32, u32)>>,
    /// The place that each cell was begun from.
    seeds: HashMap<u32, usize>,
}

impl<'a> Search<'a> {
    fn new(coast: &'a Coast, cells: &'a Cells, to: Point) -> Search<'a> {
        let (far, came) = (vec![0.0; cells.len()], vec![0; cells.len()]);
        let (open, seeds) = (BinaryHeap::new(), HashMap::new());
        Search { coast, cells, to, far, came, open, seeds }
    }

    /// Begins at a cell.
    fn begin(&mut self, cell: u32, cost: f32, number: usize) {
        if self.offer(cell, cost + 1.0, BEGUN) {
            self.seeds.insert(cell, number);
        }
    }

    /// Comes to a cell, unless there is a way to it that is no longer.
    fn offer(&mut self, cell: u32, far: f32, came: u8) -> bool {
        let known = &mut self.far[cell as usize];
        if *known > 0.0 && *known <= far {
            return false;
        }
        *known = far;
        self.came[cell as usize] = came;
        let middle = self.cells.middle(self.cells.numbered(cell as usize));
        let left = (self.to.x - middle.x).hypot(self.to.y - middle.y) as f32;
        self.open.push(Reverse(((far + left).to_bits(), cell)));
        true
    }

    fn run(&mut self, goals: &HashMap<u32, f32>, most: f32) -> Ended {
        let mut ends = (f32::INFINITY, GOAL);
        let mut done = vec![false; self.cells.len()];
        while let Some(Reverse((bound, cell))) = self.open.pop() {
            let bound = f32::from_bits(bound);
            if bound >= ends.0 {
                break;
            }
            if bound - 1.0 > most {
                return Ended::TooLong;
            }
            if std::mem::replace(&mut done[cell as usize], true) {
                continue;
            }
            let far = self.far[cell as usize];
            if let Some(rest) = goals.get(&cell)
                && far + rest < ends.0
            {
                ends = (far + rest, cell);
            }
            self.spread(cell, far);
        }
        if ends.1 == GOAL { Ended::Nowhere } else { Ended::At(ends.1) }
    }

    /// Comes to all cells that are a step away.
    fn spread(&mut self, cell: u32, far: f32) {
        let at = self.cells.numbered(cell as usize);
        for (number, step) in (1..).zip(STEPS) {
            let next = (at.0 + step.0, at.1 + step.1);
            if !self.cells.has(next) {
                continue;
            }
            let index = self.cells.index(next);
            let length = ((step.0 * step.0 + step.1 * step.1) as f32).sqrt();
            let there = far + length * self.cells.side as f32;
            let known = self.far[index];
            if (known == 0.0 || there < known) && self.is_clear(at, step) {
                self.offer(index as u32, there, number);
            }
        }
    }

    /// Whether a step meets no shore: it does not where the shore comes into none of the cells that it goes through.
    fn is_clear(&self, at: Cell, step: Cell) -> bool {
        let to = (at.0 + step.0, at.1 + step.1);
        let (x, y) = (step.0.signum(), step.1.signum());
        let between = match (step.0.abs(), step.1.abs()) {
            (2, _) => [(x, 0), (x, y)],
            (_, 2) => [(0, y), (x, y)],
            _ => [(x, 0), (0, y)],
        };
        let through = between.map(|(x, y)| (at.0 + x, at.1 + y));
        let marked = |cell: Cell| self.cells.has(cell) && self.cells.is_marked(cell);
        let clear = !marked(at) && !marked(to) && !through.into_iter().any(marked);
        clear || !self.coast.touches(self.cells.middle(at), self.cells.middle(to))
    }

    /// The places from the one that was begun from to the goal.
    fn back(&self, last: u32, from: &[Point], to: Point) -> Vec<Point> {
        let mut places = vec![to];
        let mut cell = last;
        loop {
            let at = self.cells.numbered(cell as usize);
            places.push(self.cells.middle(at));
            let came = self.came[cell as usize];
            let Some(step) = STEPS.get(usize::from(came).wrapping_sub(1)) else { break };
            cell = self.cells.index((at.0 - step.0, at.1 - step.1)) as u32;
        }
        places.extend(self.seeds.get(&cell).and_then(|number| from.get(*number)));
        places.reverse();
        places
    }
}
