//! Rows of words: broken to a width, with lists, tables and what can be clicked in them.
//!
//! They are laid out before anything is drawn, since the pointer and the size of the pane hang on them too, and borrow
//! what they say.

use std::borrow::Cow;

use ratatui::style::{Modifier, Style};
use unicode_segmentation::UnicodeSegmentation;

use super::super::ink::{self, Pen};
use super::super::inks::Inks;
use super::super::line;
use crate::state::Line;

/// The part that words play in the pane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    /// What is read.
    Plain,
    /// What is to be noticed: figures, what was answered.
    Figure,
    /// What stands back.
    Quiet,
    /// A heading.
    Heading,
    /// A verdict that is good.
    Right,
    /// One that is not, and what could not be done.
    Wrong,
    /// A word of caution.
    Warn,
    /// A key, or the letter of a choice.
    Key,
    /// The right answer, as on the chart.
    Answer,
    /// The reader's own, as on the chart.
    Yours,
    /// What is lit.
    Lit,
}

impl Part {
    fn style(self, inks: &Inks) -> Style {
        match self {
            Part::Plain => inks.plain,
            Part::Figure => inks.figure,
            Part::Quiet => inks.quiet,
            Part::Heading => inks.heading,
            Part::Right => inks.with.add_modifier(Modifier::BOLD),
            Part::Wrong => inks.wrong,
            Part::Warn => inks.warn,
            Part::Key => inks.key,
            Part::Answer => inks.answer,
            Part::Yours => inks.yours,
            Part::Lit => inks.chosen,
        }
    }
}

/// Words in a row.
#[derive(Debug, Clone)]
pub(super) struct Piece<'a> {
    /// Where they begin.
    pub(super) column: u16,
    pub(super) text: Cow<'a, str>,
    pub(super) part: Part,
    /// The choice that they are of.
    pub(super) choice: Option<usize>,
}

/// A row; blank without pieces.
#[derive(Debug, Clone, Default)]
pub(super) struct Row<'a> {
    pub(super) pieces: Vec<Piece<'a>>,
    /// A line of text that is being written, behind the last piece.
    pub(super) line: Option<&'a Line>,
}

impl Row<'_> {
    /// Draws it into the pen's line.
    pub(super) fn draw(&self, pen: &mut Pen<'_>, inks: &Inks) {
        for piece in &self.pieces {
            pen.to(piece.column).write(&piece.text, piece.part.style(inks));
        }
        if let Some(text) = self.line {
            line::draw(pen, text, inks.figure);
        }
    }

    /// The choice at a column.
    pub(super) fn choice_at(&self, column: u16) -> Option<usize> {
        let holds = |piece: &&Piece<'_>| {
            (piece.column..piece.column + ink::width(&piece.text)).contains(&column)
        };
        self.pieces.iter().filter(|piece| piece.choice.is_some()).find(holds)?.choice
    }
}

/// What stands behind a cell of a table or a choice, at least.
pub(super) const GAP: u16 = 2;

/// Rows of a width.
#[derive(Debug, Clone)]
pub(super) struct Rows<'a> {
    pub(super) rows: Vec<Row<'a>>,
    /// The columns that words have.
    pub(super) room: u16,
    /// Whether there is room for blank rows.
    pub(super) airy: bool,
}

impl<'a> Rows<'a> {
    pub(super) fn new(room: u16, airy: bool) -> Rows<'a> {
        Rows { rows: Vec::new(), room, airy }
    }

    /// A row of these pieces.
    pub(super) fn row(&mut self, pieces: Vec<Piece<'a>>) {
        self.rows.push(Row { pieces, line: None });
    }

    /// A blank row between two parts, where there is room for such.
    pub(super) fn gap(&mut self) {
        if self.airy && self.rows.last().is_some_and(|row| !row.pieces.is_empty()) {
            self.row(Vec::new());
        }
    }

    /// Words in as many rows as they need.
    pub(super) fn words(&mut self, text: impl Into<Cow<'a, str>>, part: Part) {
        self.led("", text, part);
    }

    /// Words behind a word or sign, to which the rows that follow stand in.
    pub(super) fn led(
        &mut self,
        lead: impl Into<Cow<'a, str>>,
        text: impl Into<Cow<'a, str>>,
        part: Part,
    ) {
        self.led_by((lead.into(), Part::Key), text, part);
    }

    /// The same behind a word of another part.
    pub(super) fn led_by(
        &mut self,
        (lead, by): (Cow<'a, str>, Part),
        text: impl Into<Cow<'a, str>>,
        part: Part,
    ) {
        let column = ink::width(&lead);
        let room = self.room.saturating_sub(column);
        let mut first = (!lead.is_empty()).then(|| piece(0, lead, by));
        for line in broken(text.into(), room) {
            let pieces = first.take().into_iter().chain([piece(column, line, part)]);
            self.row(pieces.collect());
        }
    }

    /// Puts other rows beside these, from a column on.
    pub(super) fn beside(&mut self, others: Rows<'a>, column: u16) {
        let more = others.rows.len().max(self.rows.len());
        self.rows.resize_with(more, Row::default);
        for (row, other) in self.rows.iter_mut().zip(others.rows) {
            let moved = |piece: Piece<'a>| Piece { column: piece.column + column, ..piece };
            row.pieces.extend(other.pieces.into_iter().map(moved));
        }
    }

    /// A heading of a part within.
    pub(super) fn heading(&mut self, text: &'static str) {
        self.gap();
        self.row(vec![piece(0, text, Part::Heading)]);
    }

    /// Choices by their letters, one lit: each in a row of its own where there is room for blank ones, else as many in a row as fit
    /// with their whole words.
    pub(super) fn choices(&mut self, texts: impl Iterator<Item = &'a str>, lit: Option<usize>) {
        let mut row: Vec<Piece<'a>> = Vec::new();
        let mut column = 0;
        for (index, (letter, text)) in ('a'..='z').zip(texts).enumerate() {
            let lead = format!("{letter}) ");
            let indent = ink::width(&lead);
            let needed = indent + ink::width(text);
            if column > 0 && (self.airy || column + needed > self.room) {
                self.row(std::mem::take(&mut row));
                column = 0;
            }
            let parts = match lit == Some(index) {
                true => (Part::Lit, Part::Lit),
                false => (Part::Key, Part::Plain),
            };
            let mut lead = Some(of_choice(column, lead.into(), parts.0, index));
            let lines = broken(Cow::Borrowed(text), self.room.saturating_sub(indent));
            let many = lines.len() > 1;
            for line in lines {
                if lead.is_none() {
                    self.row(std::mem::take(&mut row));
                }
                row.extend(lead.take());
                row.push(of_choice(column + indent, line, parts.1, index));
            }
            column = if many { self.room } else { column + needed + GAP };
        }
        if !row.is_empty() {
            self.row(row);
        }
    }

    /// A table. Where its columns do not fit side by side, each of its rows takes several, those after the first standing in.
    pub(super) fn table(&mut self, head: &'a [String], rows: &'a [Vec<String>]) {
        let headed = head.iter().any(|cell| !cell.is_empty());
        let widths: Vec<u16> = (0..head.len().max(rows.first().map_or(0, Vec::len)))
            .map(|column| {
                let cells = rows.iter().map(Vec::as_slice).chain([head]);
                let cells = cells.filter_map(|row| row.get(column));
                cells.map(|cell| ink::width(cell)).max().unwrap_or(0)
            })
            .collect();
        let places = self.places(&widths);
        if headed {
            self.cells(head, &places, Part::Quiet);
        }
        for row in rows {
            self.cells(row, &places, Part::Figure);
        }
    }

    /// Where each column begins, and in which of the rows: side by side if they fit so, else in two rows after the widest, else
    /// wherever there is no room for another.
    fn places(&self, widths: &[u16]) -> Vec<(usize, u16)> {
        let widest = (0..widths.len()).max_by_key(|column| widths[*column]).unwrap_or(0);
        let split = widths.split_at(widths.len().min(widest + 1));
        let fits = |widths: &[u16], indent: u16, gap: u16| {
            let gaps = gap * u16::try_from(widths.len().saturating_sub(1)).unwrap_or(0);
            indent + gaps + widths.iter().sum::<u16>() <= self.room
        };
        let side_by_side = |gap: &u16| fits(widths, 0, *gap);
        let in_two = |gap: &u16| fits(split.0, 0, *gap) && fits(split.1, GAP, *gap);
        let gaps = [GAP, 1];
        if let Some(gap) = gaps.into_iter().find(side_by_side) {
            return self.laid(widths, gap, None);
        }
        match gaps.into_iter().find(in_two) {
            Some(gap) => self.laid(widths, gap, Some(widest + 1)),
            None => self.laid(widths, GAP, None),
        }
    }

    /// Columns one behind the other, a new row begun at one of them or wherever there is no room.
    fn laid(&self, widths: &[u16], gap: u16, next: Option<usize>) -> Vec<(usize, u16)> {
        let (mut row, mut from) = (0, 0);
        let mut places = Vec::with_capacity(widths.len());
        for (column, width) in widths.iter().enumerate() {
            if next == Some(column) || from > 0 && from + width > self.room {
                (row, from) = (row + 1, GAP);
            }
            places.push((row, from));
            from += width + gap;
        }
        places
    }

    fn cells(&mut self, cells: &'a [String], places: &[(usize, u16)], part: Part) {
        let mut row = 0;
        let mut pieces = Vec::new();
        for (cell, (of, column)) in cells.iter().zip(places) {
            if *of > row {
                self.row(std::mem::take(&mut pieces));
                row = *of;
            }
            pieces.push(piece(*column, cell.as_str(), part));
        }
        self.row(pieces);
    }
}

/// Words from a column on.
pub(super) fn piece<'a>(column: u16, text: impl Into<Cow<'a, str>>, part: Part) -> Piece<'a> {
    Piece { column, text: text.into(), part, choice: None }
}

fn of_choice(column: u16, text: Cow<'_, str>, part: Part, choice: usize) -> Piece<'_> {
    Piece { column, text, part, choice: Some(choice) }
}

/// A text in lines.
fn broken(text: Cow<'_, str>, room: u16) -> Vec<Cow<'_, str>> {
    match text {
        Cow::Borrowed(text) => lines(text, room).into_iter().map(Cow::Borrowed).collect(),
        Cow::Owned(text) => {
            lines(&text, room).into_iter().map(|line| Cow::Owned(line.to_owned())).collect()
        }
    }
}

/// `text` in lines of at most `room` columns, broken between words; a word that is longer is broken within.
pub(super) fn lines(text: &str, room: u16) -> Vec<&str> {
    let mut lines = Vec::new();
    let mut rest = text.trim();
    while !rest.is_empty() {
        let (line, others) = rest.split_at(line_end(rest, room));
        lines.push(line.trim_end());
        rest = others.trim_start();
    }
    lines
}

/// Where the first line of `text` ends, which begins with a word.
fn line_end(text: &str, room: u16) -> usize {
    let (mut used, mut end) = (0_u16, 0);
    for word in text.split(' ') {
        let (gap, width) = (u16::from(end > 0), ink::width(word));
        used = used.saturating_add(gap).saturating_add(width);
        if used > room {
            return if end > 0 { end } else { part_of(word, room) };
        }
        end += usize::from(gap) + word.len();
    }
    end
}

/// How much of a word has room, one character at the least.
fn part_of(word: &str, room: u16) -> usize {
    let mut used = 0_u16;
    let mut clusters = word.grapheme_indices(true);
    let over = clusters.find(|(_, cluster)| {
        used = used.saturating_add(ink::width(cluster));
        used > room
    });
    match over {
        Some((0, first)) => first.len(),
        Some((at, _)) => at,
        None => word.len(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn shown(rows: &Rows<'_>) -> Vec<String> {
        let row = |row: &Row<'_>| {
            row.pieces.iter().fold(String::new(), |text, piece| {
                let gap = usize::from(piece.column).saturating_sub(usize::from(ink::width(&text)));
                format!("{text}{}{}", " ".repeat(gap), piece.text)
            })
        };
        rows.rows.iter().map(row).collect()
    }

    #[test]
    fn words_are_broken_between_and_long_ones_within() {
        assert_eq!(lines("Give the  reference", 9), ["Give the", "reference"]);
        assert_eq!(lines("ab cdefgh", 4), ["ab", "cdef", "gh"]);
        assert_eq!(lines("潮見", 1), ["潮", "見"], "never without end");
        assert!(lines("  ", 4).is_empty());
    }

    #[test]
    fn choices_share_rows_and_a_long_one_has_several() {
        let mut rows = Rows::new(16, false);
        rows.choices(["leg 1", "leg 2", "the old quay of Teal"].into_iter(), None);
        assert_eq!(shown(&rows), ["a) leg 1", "b) leg 2", "c) the old quay", "   of Teal"]);
        let mut rows = Rows::new(18, false);
        rows.choices(["leg 1", "leg 2", "x"].into_iter(), Some(1));
        assert_eq!(shown(&rows), ["a) leg 1  b) leg 2", "c) x"]);
        assert_eq!(rows.rows[0].choice_at(12), Some(1));
        let mut tall = Rows::new(18, true);
        tall.choices(["leg 1", "leg 2", "x"].into_iter(), None);
        assert_eq!(shown(&tall), ["a) leg 1", "b) leg 2", "c) x"]);
        assert_eq!(rows.rows[0].choice_at(8), None);
    }

    #[test]
    fn a_table_that_is_too_wide_takes_more_rows() {
        let row = |cells: [&str; 4]| cells.map(str::to_owned).to_vec();
        let (head, body) =
            (row(["leg", "to", "°T", "min"]), [row(["1", "Long Ness", "047", "46"])]);
        let mut rows = Rows::new(40, false);
        rows.table(&head, &body);
        assert_eq!(shown(&rows), ["leg  to         °T   min", "1    Long Ness  047  46"]);
        for room in [18, 14] {
            let mut rows = Rows::new(room, false);
            rows.table(&head, &body);
            assert_eq!(shown(&rows), ["leg  to", "  °T   min", "1    Long Ness", "  047  46"]);
        }
        let mut rows = Rows::new(21, false);
        rows.table(&head, &body);
        assert_eq!(shown(&rows), ["leg to        °T  min", "1   Long Ness 047 46"]);
        let mut rows = Rows::new(9, false);
        rows.table(&head, &body);
        let narrow = ["leg", "  to", "  °T", "  min", "1", "  Long Ness", "  047", "  46"];
        assert_eq!(shown(&rows), narrow);
    }

    proptest! {
        #[test]
        fn no_line_is_too_long_and_nothing_is_lost(text in "[a-z潮é ]{0,60}", room in 2u16..20) {
            let lines = lines(&text, room);
            prop_assert!(lines.iter().all(|line| ink::width(line) <= room));
            let letters = |text: &str| text.chars().filter(|c| *c != ' ').collect::<String>();
            prop_assert_eq!(letters(&lines.concat()), letters(&text));
        }
    }
}
