//! Lettered squares, as in the margin of a map: the right one outlined, with its south-west corner and the place in it.

use super::canvas::{Canvas, GIVEN, Ink, RIGHT};
use crate::Reply;

/// Squares of 100 km.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Index {
    /// Letters from north to south, each row from west to east.
    pub(crate) rows: Vec<Vec<String>>,
    /// The figures of the first grid lines, west and south, in hundreds of kilometres.
    pub(crate) corner: (i64, i64),
    /// The place, in squares east and north of the corner.
    pub(crate) place: (f64, f64),
}

/// How wide a square is within its sides.
const WIDEST: usize = 7;
const NARROWEST: usize = 3;

/// The rows of a square, one of its sides with them.
const HIGH: usize = 3;

/// The columns of the figures at the left, and those that the last figure takes after the squares.
const LEFT: usize = 5;
const AFTER: usize = 3;

/// The characters of an outline: along, up, and the corners from the north-west clockwise.
struct Outline([&'static str; 6]);

const RIGHT_ONE: Outline = Outline(["═", "║", "╔", "╗", "╝", RIGHT]);
const GIVEN_ONE: Outline = Outline(["╍", "╏", "┌", "┐", "┘", GIVEN]);

/// Where the squares stand.
struct Laid {
    /// How wide each is, with one of its sides.
    wide: usize,
    /// How many there are from north to south.
    count: usize,
}

impl Laid {
    /// The cell of the corner where a column's west side and the south side of a row meet, both counted from the south-west.
    fn corner(&self, column: usize, row: usize) -> (usize, usize) {
        (LEFT + column * self.wide, (self.count - row) * HIGH)
    }
}

impl Index {
    pub(super) fn drawn(&self, given: Option<&Reply>, room: usize) -> Canvas {
        let across = self.rows.first().map_or(1, Vec::len).max(1);
        let inner = (room.saturating_sub(LEFT + AFTER) / across).saturating_sub(1);
        let laid = Laid { wide: inner.clamp(NARROWEST, WIDEST) + 1, count: self.rows.len() };
        let mut canvas = Canvas::new(LEFT + across * laid.wide + AFTER, laid.count * HIGH + 2);
        self.lines(across, &laid, &mut canvas);
        let given = given.and_then(|given| self.square(given));
        if let Some(square) = given {
            outline(&GIVEN_ONE, square, Ink::Yours, &laid, &mut canvas);
        }
        let (east, north) = self.place;
        let within = |at: f64| (at.floor().max(0.0) as usize, at.rem_euclid(1.0));
        let ((column, along), (row, up)) = (within(east), within(north));
        let right = (column, row);
        outline(&RIGHT_ONE, right, Ink::Answer, &laid, &mut canvas);
        if let Some((column, row)) = given {
            // A corner of the right one may stand on it.
            let (x, y) = laid.corner(column, row);
            canvas.put(x, y, GIVEN, Ink::Yours);
        }
        for (from_north, letters) in self.rows.iter().enumerate() {
            for (column, letters) in letters.iter().enumerate() {
                let (x, y) = laid.corner(column, laid.count - 1 - from_north);
                // Where the place is not.
                let of_place = (column, laid.count - 1 - from_north) == right;
                let lower = of_place && up >= 0.5;
                let middle = (laid.wide - letters.chars().count()) / 2;
                canvas.put(x + middle.max(1), y - if lower { 1 } else { 2 }, letters, Ink::Plain);
            }
        }
        let (x, y) = laid.corner(column, row);
        // Within the sides.
        let along = 1 + (along * (laid.wide - 1) as f64) as usize;
        let lower = up < 0.5;
        canvas.put(x + along, y - if lower { 1 } else { 2 }, "×", Ink::Answer);
        canvas
    }

    /// The grid lines, with their figures in hundreds of kilometres.
    fn lines(&self, across: usize, laid: &Laid, canvas: &mut Canvas) {
        let (west, south) = self.corner;
        for row in 0..=laid.count {
            let (x, y) = laid.corner(0, row);
            canvas.fill((x, y), across * laid.wide + 1, "─", Ink::Quiet);
            let figure = format!("{:>4}", (south + row as i64) * 100);
            canvas.put(0, y, &figure, Ink::Quiet);
        }
        for column in 0..=across {
            let (x, foot) = laid.corner(column, 0);
            for row in 0..=foot {
                let sign = if row % HIGH == 0 { "┼" } else { "│" };
                canvas.put(x, row, sign, Ink::Quiet);
            }
            let figure = ((west + column as i64) * 100).to_string();
            canvas.put(x.saturating_sub(1), foot + 1, &figure, Ink::Quiet);
        }
    }

    /// Which square has the letters of an answer, by its column and row from the south-west.
    fn square(&self, reply: &Reply) -> Option<(usize, usize)> {
        let Reply::Letters(letters) = reply else { return None };
        self.rows.iter().rev().enumerate().find_map(|(row, of_row)| {
            let column = of_row.iter().position(|it| it == letters)?;
            Some((column, row))
        })
    }
}

fn outline(
    Outline([along, up, north_west, north_east, south_east, south_west]): &Outline,
    (column, row): (usize, usize),
    ink: Ink,
    laid: &Laid,
    canvas: &mut Canvas,
) {
    let ((west, south), (east, north)) =
        (laid.corner(column, row), laid.corner(column + 1, row + 1));
    for y in [north, south] {
        canvas.fill((west, y), east - west, along, ink);
    }
    for x in [west, east] {
        for y in north + 1..south {
            canvas.put(x, y, up, ink);
        }
    }
    for (x, y, corner) in [
        (west, north, north_west),
        (east, north, north_east),
        (east, south, south_east),
        (west, south, south_west),
    ] {
        canvas.put(x, y, corner, ink);
    }
}
