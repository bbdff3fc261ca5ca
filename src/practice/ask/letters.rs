//! The letters of a square of 100 km.

use nav::{ChartGrid, Figures, Grid, GridPoint, Lettering, Position};

use super::Throw;
use crate::figure::{self, Figure};
use crate::{Answer, MistakeKind, Question, Table, Tolerance};

/// The side of a lettered square, in metres.
const SIDE: i64 = 100_000;

/// An index of lettered squares, as it stands in the margin of a map.
struct Index {
    grid: Grid,
    /// Letters from north to south, each row from west to east.
    rows: Vec<Vec<String>>,
    /// The south-west corner, in metres.
    corner: (i64, i64),
}

/// Which letters has the square of these coordinates?
pub(super) fn letters(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let across = throw.level.of([2, 3, 4]);
    let index = index(throw, across)?;
    let mut along = || {
        let square = throw.dice.below(across) as i64 * SIDE;
        // At the third level close to an edge, where the wrong square is nearer at hand.
        let within = match (throw.level.number(), throw.dice.coin()) {
            (3, true) => throw.dice.between(93_000, 99_900),
            (3, false) => throw.dice.between(100, 7000),
            _ => throw.dice.stepped(10_000, 90_000, 100),
        };
        square + within
    };
    let (east, north) = (along(), along());
    let (east, north) = (index.corner.0 + east, index.corner.1 + north);
    let right = index.letters(east, north)?;
    let text = format!(
        "These squares of 100 km are lettered so, north at the top; the south-west corner of them all has easting \
         {} and northing {}. A place has easting {east} and northing {north}. Which letters has its square?",
        index.corner.0, index.corner.1
    );
    let near = Tolerance::Exact;
    let mut question = Question::new(text, Answer::Letters(right.clone()), near, &index.grid);
    question.basis = "read, not measured";
    question.given = Some(Table { head: vec![String::new(); across], rows: index.rows.clone() });
    question.hints = vec![
        "How many whole hundreds of kilometres lie between the corner and the place, along and up?"
            .to_owned(),
        "Count the columns from the west, the rows from the south.".to_owned(),
    ];
    let counted = |value: i64, from: i64| (value - from) / SIDE + 1;
    let whole =
        |squares: i64| format!("{squares} whole square{}", if squares == 1 { "" } else { "s" });
    let (column, row) = (counted(east, index.corner.0), counted(north, index.corner.1));
    question.hints.push(format!("It is column {column} from the west."));
    question.steps = vec![
        format!(
            "The place is {} m east of the corner, {}: column {column} from the west.",
            east - index.corner.0,
            whole(column - 1)
        ),
        format!(
            "It is {} m north of the corner, {}: row {row} from the south, {right}.",
            north - index.corner.1,
            whole(row - 1)
        ),
    ];
    question.figures = vec![Figure::Index(index.drawn(east, north))];
    index.mistakes(&mut question, east, north);
    Some(question)
}

/// Letters of two that a grid might have: each row its own first, each column its own second letter.
fn index(throw: &mut Throw<'_, '_>, across: usize) -> Option<Index> {
    let mut alphabet: Vec<char> =
        ('A'..='Z').filter(|letter| !matches!(letter, 'I' | 'O')).collect();
    throw.dice.shuffle(&mut alphabet);
    let (firsts, seconds) = alphabet.split_at_checked(across)?;
    let row = |first: &char| {
        seconds.iter().take(across).map(|second| format!("{first}{second}")).collect()
    };
    let rows: Vec<Vec<String>> = firsts.iter().map(row).collect();
    let corner = (throw.dice.between(1, 5) * SIDE, throw.dice.between(1, 9) * SIDE);
    let joined: Vec<String> = rows.iter().map(|row| row.join(" ")).collect();
    let south_west = GridPoint::from_metres(corner.0 as f64, corner.1 as f64).ok()?;
    let lettering = Lettering::rows(south_west, &joined).ok()?;
    let origin = Position::from_degrees(50.0, 0.0).ok()?;
    let grid = ChartGrid::new("index", origin, 1.0, south_west, lettering).ok()?;
    Some(Index { grid: Grid::Chart(grid), rows, corner })
}

impl Index {
    /// The letters of a place, by its reference.
    fn letters(&self, east: i64, north: i64) -> Option<String> {
        let point = GridPoint::from_metres(east as f64, north as f64).ok()?;
        let reference = self.grid.reference(point, Figures::Two).ok()?;
        reference.split(' ').next().map(str::to_owned)
    }

    /// The squares with the place among them.
    fn drawn(&self, east: i64, north: i64) -> figure::Index {
        let squares = |value: i64, from: i64| (value - from) as f64 / SIDE as f64;
        figure::Index {
            rows: self.rows.clone(),
            corner: (self.corner.0 / SIDE, self.corner.1 / SIDE),
            place: (squares(east, self.corner.0), squares(north, self.corner.1)),
        }
    }

    fn mistakes(&self, question: &mut Question, east: i64, north: i64) {
        let mut mistake = |kind, letters: Option<String>| {
            if let Some(letters) = letters {
                question.mistake(kind, Answer::Letters(letters));
            }
        };
        let (west, south) = self.corner;
        let turned = self.letters(west + north - south, south + east - west);
        mistake(MistakeKind::RowForColumn, turned);
        let half = SIDE / 2;
        mistake(MistakeKind::RoundedNotCounted, self.letters(east + half, north + half));
        for (aside, up) in [(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1), (1, -1), (-1, 1)] {
            let letters = self.letters(east + aside * SIDE, north + up * SIDE);
            mistake(MistakeKind::NeighbourLetters, letters);
        }
    }
}
