//! Answers as people write them, read as the question asks.

mod amount;
mod bearing;
#[cfg(test)]
mod tests;

use chart::Point;
use nav::text::{PositionError, parse_position};
use nav::{Position, ReferenceError, Square};

use crate::ground::{on_chart, on_grid};
use crate::question::letter;
use crate::{Answer, NorthOf, Question, Unit};

/// An answer that was given.
#[derive(Debug, Clone, PartialEq)]
pub enum Reply {
    /// The square of a grid reference.
    Reference(Square),
    /// A place on the chart: where the cursor was put, or what a reference or a position names.
    At(Point),
    /// Letters.
    Letters(String),
    /// A direction.
    Bearing {
        /// In degrees, from 0 up to 360.
        degrees: f64,
        /// From which north, if that was said.
        north: Option<NorthOf>,
    },
    /// An amount, in the unit that was asked for.
    Amount(f64),
    /// A time of day, in minutes from midnight.
    Clock(i64),
    /// Latitude and longitude.
    Position(Position),
    /// The number of a choice, from 0.
    Choice(usize),
}

/// Why an answer could not be read; what would be right.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NotUnderstood {
    /// There is nothing.
    #[error("there is no answer yet")]
    Empty,
    /// Not a grid reference.
    #[error("“{text}” is no grid reference: {why}")]
    Reference {
        /// What was written.
        text: String,
        /// What is wrong with it.
        why: ReferenceError,
    },
    /// Not a latitude and longitude.
    #[error("“{text}” is no position: {why}")]
    Position {
        /// What was written.
        text: String,
        /// What is wrong with it.
        why: PositionError,
    },
    /// Neither a reference nor a position.
    #[error("“{0}” is no place; write a grid reference, or latitude and longitude")]
    Place(String),
    /// Not a bearing.
    #[error("“{0}” is no bearing; write three figures from 000 to 360, such as 047")]
    Bearing(String),
    /// Not an amount of what was asked for.
    #[error("“{text}” is no answer here; write a number of {unit}, such as {example}")]
    Amount {
        /// What was written.
        text: String,
        /// The unit that is asked for.
        unit: &'static str,
        /// How an answer looks.
        example: &'static str,
    },
    /// Not a time of day.
    #[error("“{0}” is no time of day; write hours and minutes, such as 14:05")]
    Clock(String),
    /// Not letters.
    #[error("“{0}” are no letters of a square; write them alone, such as QB")]
    Letters(String),
    /// Not one of the choices.
    #[error("“{text}” is none of the answers; write a letter from a to {last}")]
    Choice {
        /// What was written.
        text: String,
        /// The letter of the last one.
        last: char,
    },
}

impl Question {
    /// Reads an answer. A unit, a north or the letters of the square that are left out are those asked for.
    ///
    /// # Errors
    /// [`NotUnderstood`], which says what would be understood.
    pub fn read(&self, text: &str) -> Result<Reply, NotUnderstood> {
        let text = text.trim();
        if text.is_empty() {
            return Err(NotUnderstood::Empty);
        }
        match &self.answer {
            Answer::Reference { at, .. } => self.reference(text, *at).map(Reply::Reference),
            Answer::Square { square, .. } => {
                self.choice(text).or_else(|_| self.place(text, on_chart(square.centre())))
            }
            Answer::Place { at, .. } => self.place(text, *at),
            Answer::Letters(_) => letters(text),
            Answer::Bearing { .. } => {
                bearing::read(text).ok_or_else(|| NotUnderstood::Bearing(text.to_owned()))
            }
            Answer::Amount { unit, .. } => amount::read(text, *unit)
                .map(Reply::Amount)
                .ok_or_else(|| amount_error(text, *unit)),
            Answer::Clock(_) => {
                clock(text).map(Reply::Clock).ok_or_else(|| NotUnderstood::Clock(text.to_owned()))
            }
            Answer::Position(_) => position(text)
                .map(Reply::Position)
                .map_err(|why| NotUnderstood::Position { text: text.to_owned(), why }),
            Answer::Choice(_) => self.choice(text),
        }
    }

    fn reference(&self, text: &str, near: Point) -> Result<Square, NotUnderstood> {
        let read = |text| self.grid.parse_reference(text, on_grid(near));
        let found = shortened(text).find_map(|text| read(text).ok()).map_or_else(|| read(text), Ok);
        found.map_err(|why| NotUnderstood::Reference { text: text.to_owned(), why })
    }

    /// A place by its reference or its position.
    fn place(&self, text: &str, near: Point) -> Result<Reply, NotUnderstood> {
        if let Ok(square) = self.reference(text, near) {
            return Ok(Reply::At(on_chart(square.centre())));
        }
        let position = position(text).ok();
        let found = position.and_then(|position| self.grid.forward(position).ok());
        let found = found.map(|there| Reply::At(on_chart(there.point)));
        found.ok_or_else(|| NotUnderstood::Place(text.to_owned()))
    }

    /// One of the choices, by letter, by its last number, or by its words.
    fn choice(&self, text: &str) -> Result<Reply, NotUnderstood> {
        let wanted = text.trim_matches(['(', ')', '.']).to_lowercase();
        let says = |index: usize, words: &str| {
            let words = words.to_lowercase();
            let number = words.rsplit(' ').next().filter(|end| end.parse::<u32>().is_ok());
            wanted == letter(index).to_string() || wanted == words || number == Some(&wanted)
        };
        let mut choices = self.choices.iter().enumerate();
        let found = choices.find(|(index, choice)| says(*index, &choice.text));
        let last = letter(self.choices.len().saturating_sub(1));
        let (index, choice) =
            found.ok_or_else(|| NotUnderstood::Choice { text: text.to_owned(), last })?;
        Ok(choice.at.map_or(Reply::Choice(index), Reply::At))
    }
}

/// A position, whatever words stand behind it.
fn position(text: &str) -> Result<Position, PositionError> {
    let mut texts = shortened(text);
    texts.find_map(|text| parse_position(text).ok()).map_or_else(|| parse_position(text), Ok)
}

fn letters(text: &str) -> Result<Reply, NotUnderstood> {
    let letters: String = text.chars().filter(|c| !c.is_whitespace()).collect();
    let usual =
        (1..=3).contains(&letters.len()) && letters.bytes().all(|b| b.is_ascii_alphabetic());
    let wrong = || NotUnderstood::Letters(text.to_owned());
    usual.then(|| Reply::Letters(letters.to_ascii_uppercase())).ok_or_else(wrong)
}

/// `14:05`, `1405`, `14.05`, `14h05`, `9:05`, `1405 hrs`, `14:05 UTC`; of an afternoon also `2:05 pm`.
fn clock(text: &str) -> Option<i64> {
    let lower = text.to_lowercase();
    let lower = plainly(&lower);
    let end =
        lower.find(|c: char| !(c.is_ascii_digit() || c.is_whitespace() || ":.,h".contains(c)));
    let (time, rest) = lower.split_at(end.unwrap_or(lower.len()));
    let figures: String = time.chars().filter(char::is_ascii_digit).collect();
    let number: i64 = figures.parse().ok().filter(|_| (3..=4).contains(&figures.len()))?;
    let (hours, minutes) = (number / 100, number % 100);
    let noon = match rest.trim() {
        "pm" if (1..12).contains(&hours) => 12,
        other if words(other) => 0,
        _ => return None,
    };
    (hours < 24 && minutes < 60).then_some((hours + noon) * 60 + minutes)
}

/// Without what says that it is not exact, and without a full stop at the end.
fn plainly(text: &str) -> &str {
    let text = text.trim().trim_end_matches(['.', '!']).trim_end();
    let about =
        ["about ", "approx. ", "approx ", "ca. ", "ca ", "c. ", "roughly ", "around ", "~", "≈"];
    about.iter().find_map(|word| text.strip_prefix(word)).unwrap_or(text).trim_start()
}

/// Whether a text is made of words alone, or of nothing.
fn words(text: &str) -> bool {
    text.chars().all(|c| c.is_alphabetic() || c.is_whitespace() || "()'’,-/+".contains(c))
}

/// A text, and what is left of it when its last words are left out one by one.
fn shortened(text: &str) -> impl Iterator<Item = &str> {
    std::iter::successors(Some(text), |text| without_last_word(text))
}

fn without_last_word(text: &str) -> Option<&str> {
    let (rest, last) = text.rsplit_once(char::is_whitespace)?;
    // A letter alone is a hemisphere.
    let word = last.chars().count() > 1 && words(last);
    word.then_some(rest.trim_end_matches([',', ';', ' ']))
}

fn amount_error(text: &str, unit: Unit) -> NotUnderstood {
    let (unit, example) = match unit {
        Unit::Miles => ("nautical miles", "4.3 or 4.3 NM"),
        Unit::Kilometres => ("kilometres", "8 or 8 km"),
        Unit::Metres => ("metres", "2.4 or 2.4 m"),
        Unit::Minutes => ("minutes", "85, 85 min or 1 h 25"),
        Unit::Knots => ("knots", "1.8 or 1.8 kn"),
    };
    NotUnderstood::Amount { text: text.to_owned(), unit, example }
}

impl Answer {
    /// This answer as somebody would give it.
    pub(crate) fn reply(&self) -> Reply {
        match self {
            Answer::Reference { square, .. } => Reply::Reference(*square),
            Answer::Square { square, .. } => Reply::At(on_chart(square.centre())),
            Answer::Place { at, .. } => Reply::At(*at),
            Answer::Letters(letters) => Reply::Letters(letters.clone()),
            Answer::Bearing { degrees, north } => {
                Reply::Bearing { degrees: *degrees, north: Some(*north) }
            }
            Answer::Amount { value, .. } => Reply::Amount(*value),
            Answer::Clock(minute) => Reply::Clock(*minute),
            Answer::Position(at) => Reply::Position(*at),
            Answer::Choice(index) => Reply::Choice(*index),
        }
    }
}
