//! A leg along the shore in words.

use nav::{Grid, Length, text};

use super::{Style, bearings, reference};
use crate::{Along, Bearings, LegReading, Stretch};

/// A leg along the shore in words, besides what every leg has.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct AlongRow {
    /// The shortest line between its ends, `2.5 NM`.
    pub straight_nautical_miles: String,
    /// `4.7 km`.
    pub straight_kilometres: String,
    /// How many times longer the leg is, `3.21`; empty where its ends are one point.
    pub times_longer: String,
    /// `50 m`, empty for a line on the shore itself.
    pub stand_off: String,
    /// The step of its smoothing, `200 m`; empty for every vertex.
    pub step: String,
    /// The farthest that the line strays from its stretches, `240 m`.
    pub strays: String,
    /// Its main stretches, from the first to the last.
    pub stretches: Vec<StretchRow>,
}

/// A main stretch of a leg along the shore in words. What is not known is empty.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct StretchRow {
    /// The number of the leg and a letter, `2a`.
    pub number: String,
    /// `057°T`.
    pub from_true: String,
    /// `055°G`.
    pub from_grid: String,
    /// `066°M`.
    pub from_magnetic: String,
    /// `237°T`.
    pub back_true: String,
    /// `235°G`.
    pub back_grid: String,
    /// `246°M`.
    pub back_magnetic: String,
    /// Along the line, `2.0 NM`.
    pub nautical_miles: String,
    /// `3.7 km`.
    pub kilometres: String,
    /// The reference of its end.
    pub to: String,
}

impl AlongRow {
    /// The words of a leg that was read along its line; nothing of another. Its number is written
    /// before the letters of its stretches.
    pub fn new(
        number: &str,
        along: &Along,
        leg: &LegReading,
        grid: &Grid,
        style: Style,
    ) -> Option<AlongRow> {
        let read = leg.along.as_ref()?;
        let farthest = read.stretches.iter().map(|stretch| stretch.strays);
        let letters = ('a'..='z').zip(&read.stretches);
        Some(AlongRow {
            straight_nautical_miles: text::nautical_miles(read.straight),
            straight_kilometres: text::kilometres(read.straight),
            times_longer: leg.times_longer().map(|times| format!("{times:.2}")).unwrap_or_default(),
            stand_off: if_any(along.stand_off),
            step: if_any(along.step),
            strays: text::kilometres(farthest.fold(Length::ZERO, Length::max)),
            stretches: letters
                .map(|(letter, stretch)| StretchRow {
                    number: format!("{number}{letter}"),
                    ..StretchRow::new(stretch, grid, style)
                })
                .collect(),
        })
    }
}

impl StretchRow {
    fn new(stretch: &Stretch, grid: &Grid, style: Style) -> StretchRow {
        let [from_true, from_grid, from_magnetic] = bearings(stretch.bearings);
        let [back_true, back_grid, back_magnetic] = bearings(stretch.bearings.map(Bearings::back));
        StretchRow {
            number: String::new(),
            from_true,
            from_grid,
            from_magnetic,
            back_true,
            back_grid,
            back_magnetic,
            nautical_miles: text::nautical_miles(stretch.distance),
            kilometres: text::kilometres(stretch.distance),
            to: reference(&grid.forward(stretch.to), grid, style),
        }
    }
}

fn if_any(length: Length) -> String {
    if length > Length::ZERO { text::kilometres(length) } else { String::new() }
}
