//! What the usual mistakes make of a reference.

use chart::Point;
use nav::{Figures, Grid, Square};

use super::{halves, square};
use crate::ground::{on_chart, on_grid};
use crate::{Answer, MistakeKind, Question};

/// Notes the mistakes that are made in giving the reference of a point.
pub(crate) fn mistakes(question: &mut Question, at: Point, figures: Figures) {
    let grid = question.grid.clone();
    for (kind, text, square) in wrong(&grid, at, figures) {
        let at = on_chart(square.centre());
        question.mistake(kind, Answer::Reference { text, square, at });
    }
    for other in Figures::ALL {
        if other == figures || other == Figures::Ten {
            continue;
        }
        let kind =
            if other < figures { MistakeKind::FiguresTooFew } else { MistakeKind::FiguresTooMany };
        if let Some(answer) = super::reference(&grid, at, other) {
            question.mistake(kind, answer);
        }
    }
}

/// The same where a square is looked for: the mistake leads to a place.
pub(super) fn squares(question: &mut Question, name: &str, at: Point, figures: Figures) {
    let grid = question.grid.clone();
    for (kind, text, square) in wrong(&grid, at, figures) {
        if text != name {
            question.mistake(kind, Answer::Square { name: text, square });
        }
    }
}

/// Every usual wrong reference of a point, the likeliest mistakes first.
fn wrong(grid: &Grid, at: Point, figures: Figures) -> Vec<(MistakeKind, String, Square)> {
    let side = figures.side().as_metres();
    let mut found = Vec::new();
    let mut note = |kind, text: Option<String>| {
        let named = text.and_then(|text| Some((square(grid, &text)?, text)));
        found.extend(named.map(|(square, text)| (kind, text, square)));
    };
    let moved = |east: f64, north: f64| {
        let there = on_grid(Point { x: at.x + east, y: at.y + north })?;
        grid.reference(there, figures).ok()
    };
    note(MistakeKind::EastingNorthingSwapped, moved(0.0, 0.0).and_then(|right| swapped(&right)));
    let half = side / 2.0;
    for (east, north) in [(half, half), (half, 0.0), (0.0, half)] {
        note(MistakeKind::RoundedNotCounted, moved(east, north));
    }
    note(MistakeKind::NorthEastCorner, moved(side, side));
    if figures > Figures::Four {
        for (east, north) in AROUND {
            note(MistakeKind::TenthsOffByOne, moved(east * side, north * side));
        }
    }
    for (east, north) in AROUND {
        note(MistakeKind::NextSquare, moved(east * 1000.0, north * 1000.0));
    }
    for (east, north) in AROUND.into_iter().take(4) {
        let there = Point { x: at.x + east * 1e5, y: at.y + north * 1e5 };
        let letters = on_grid(there).and_then(|there| grid.square_letters(there));
        let right = moved(0.0, 0.0).and_then(|right| figures_of(&right));
        let other = letters.zip(right).map(|(letters, right)| format!("{letters} {right}"));
        note(MistakeKind::NeighbourLetters, other);
    }
    found
}

/// The squares beside one, and those at its corners.
const AROUND: [(f64, f64); 8] = [
    (1.0, 0.0),
    (-1.0, 0.0),
    (0.0, 1.0),
    (0.0, -1.0),
    (1.0, 1.0),
    (-1.0, -1.0),
    (1.0, -1.0),
    (-1.0, 1.0),
];

/// `QB 508 731` of `QB 731 508`.
fn swapped(reference: &str) -> Option<String> {
    let (letters, east, north) = halves(reference)?;
    Some(format!("{letters} {north} {east}"))
}

/// `731 508` of `QB 731 508`.
fn figures_of(reference: &str) -> Option<String> {
    let (_, east, north) = halves(reference)?;
    Some(format!("{east} {north}"))
}
