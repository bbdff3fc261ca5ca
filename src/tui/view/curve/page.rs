//! The cells of the plot, and which of them are taken.

use chart::dots::Mask;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

use super::super::ink::{Pen, width};
use super::super::inks::Inks;
use crate::glyphs::DotSet;

/// The plot with what stands around it.
pub(super) struct Page<'a> {
    pub(super) plot: Rect,
    pub(super) dots: DotSet,
    pub(super) inks: &'a Inks,
    buffer: &'a mut Buffer,
    /// Whether something stands in a cell of the plot, row by row.
    taken: Vec<bool>,
}

impl<'a> Page<'a> {
    pub(super) fn new(
        plot: Rect,
        dots: DotSet,
        inks: &'a Inks,
        buffer: &'a mut Buffer,
    ) -> Page<'a> {
        let taken = vec![false; usize::from(plot.width) * usize::from(plot.height)];
        Page { plot, dots, inks, buffer, taken }
    }

    /// An empty set of dots of the plot.
    pub(super) fn mask(&self) -> Mask {
        let (across, down) = self.dots.size();
        Mask::new(
            usize::from(self.plot.width) * usize::from(across),
            usize::from(self.plot.height) * usize::from(down),
        )
    }

    /// Lays dots into the cells that are free, and takes them.
    pub(super) fn lay(&mut self, mask: &Mask, style: Style) {
        let mut cells = Vec::new();
        for row in 0..self.plot.height {
            mask.cells(usize::from(row), self.dots.size(), &mut cells);
            for (column, bits) in (0..self.plot.width).zip(&cells) {
                if *bits != 0 && self.is_free(column, row, 1) {
                    self.put(column, row, &self.dots.glyph(*bits).to_string(), style);
                }
            }
        }
    }

    fn index(&self, column: u16, row: u16) -> Option<usize> {
        let inside = column < self.plot.width && row < self.plot.height;
        inside.then(|| usize::from(row) * usize::from(self.plot.width) + usize::from(column))
    }

    /// Whether so many cells from this one on are in the plot and hold nothing.
    pub(super) fn is_free(&self, column: u16, row: u16, width: u16) -> bool {
        (column..column.saturating_add(width)).all(|column| {
            self.index(column, row).is_some_and(|index| self.taken.get(index) == Some(&false))
        })
    }

    /// Writes into the plot and takes the cells.
    pub(super) fn put(&mut self, column: u16, row: u16, text: &str, style: Style) {
        for taken in column..column.saturating_add(width(text)) {
            if let Some(taken) = self.index(taken, row).and_then(|index| self.taken.get_mut(index))
            {
                *taken = true;
            }
        }
        let plot = self.plot;
        self.write(plot.x + column, plot.y + row, text, style);
    }

    /// Writes into the plot where the first of these places is free; whether one was.
    pub(super) fn put_first(
        &mut self,
        places: impl IntoIterator<Item = (u16, u16)>,
        text: &str,
        style: Style,
    ) -> bool {
        let columns = width(text);
        let free = places.into_iter().find(|(column, row)| self.is_free(*column, *row, columns));
        if let Some((column, row)) = free {
            self.put(column, row, text, style);
        }
        free.is_some()
    }

    /// Writes anywhere on the screen.
    pub(super) fn write(&mut self, x: u16, y: u16, text: &str, style: Style) {
        let area = Rect::new(x, y, width(text), 1);
        Pen::new(self.buffer, area).write(text, style);
    }
}
