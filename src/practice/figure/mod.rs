//! Small drawings in cells of text that stand beside an answer: what a chart has no place for.
//!
//! Steps of a tide, a line of time, an index of letters: as an instructor draws them on the margin, with the right answer and the
//! learner's own on them. Shapes tell them apart: ◎ is right and ⊗ is given, a double outline is right and a broken one given. Screen
//! and command line lay out the same rows.

mod canvas;
mod index;
mod line;
mod steps;
#[cfg(test)]
mod tests;

pub use canvas::{Ink, Piece};
pub(crate) use index::Index;
pub(crate) use line::{Line, Part, Read, Tick};
pub(crate) use steps::{Column, Steps};

use crate::{Question, Reply};

/// The least columns in which anything can be drawn.
const LEAST: usize = 24;

/// The most that any of them is drawn in.
const MOST: usize = 60;

/// A drawing.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Figure {
    /// A height or a rate, step by step.
    Steps(Steps),
    /// A line of time, or of a scale.
    Line(Line),
    /// Lettered squares.
    Index(Index),
}

impl Question {
    /// Whether the answer is drawn in cells of text ([`Question::figure`]).
    #[must_use]
    pub fn has_figure(&self) -> bool {
        !self.figures.is_empty()
    }

    /// The answer drawn in rows of text of at most `room` columns, with one that was given beside it; nothing where the chart
    /// alone shows it ([`Question::drawn`]), or in fewer than 24 columns. `plain` uses the characters of every keyboard.
    ///
    /// ```
    /// use practice::{Ground, Kind, Level, ask};
    /// let chart = chart::practice()?;
    /// let coast = chart::coast::Coast::of(&chart);
    /// let ground = Ground::new(&chart, &coast);
    /// let question = ask(Kind::Twelfths, &ground, 7, Level::First).unwrap();
    /// let wrong = question.read(&question.mistakes[0].answer.to_string())?;
    /// let rows = question.figure(Some(&wrong), 40, false);
    /// let text: String = rows.iter().flatten().map(|piece| piece.text.as_str()).collect();
    /// assert!(text.contains('◎') && text.contains('⊗'));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn figure(&self, given: Option<&Reply>, room: usize, plain: bool) -> Vec<Vec<Piece>> {
        let mut rows = Vec::new();
        if room < LEAST {
            return rows;
        }
        let room = room.min(MOST);
        for figure in &self.figures {
            if !rows.is_empty() {
                rows.push(Vec::new());
            }
            let drawn = match figure {
                Figure::Steps(steps) => steps.drawn(given, room),
                Figure::Line(line) => line.drawn(given, &self.answer, room),
                Figure::Index(index) => index.drawn(given, room),
            };
            rows.extend(drawn.rows(plain));
        }
        rows
    }
}
