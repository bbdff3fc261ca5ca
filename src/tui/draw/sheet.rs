//! The cells of the chart within its frame, and what already stands in each.

use crate::glyphs::DotSet;
use chart::dots::Raster;
use chart::{Cells, Point, View};
use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};
use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// What stands in a cell. A cell can hold several.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Taken(u8);

impl Taken {
    /// Nothing but ground and its texture.
    pub(super) const NOTHING: Taken = Taken(0);
    /// A grid line or the edge of drying ground, which may be interrupted.
    pub(super) const FAINT: Taken = Taken(1);
    /// A shore.
    pub(super) const SHORE: Taken = Taken(2);
    /// A leg of the route.
    pub(super) const ROUTE: Taken = Taken(4);
    /// A sign, a name or figures.
    pub(super) const WORDS: Taken = Taken(8);
    /// A sign; together with [`Taken::WORDS`].
    pub(super) const SIGN: Taken = Taken(16);

    pub(super) fn and(self, other: Taken) -> Taken {
        Taken(self.0 | other.0)
    }

    pub(super) fn has(self, other: Taken) -> bool {
        self.0 & other.0 != 0
    }
}

/// The chart's cells.
pub(super) struct Sheet {
    /// Where they are on the screen.
    pub(super) area: Rect,
    pub(super) cells: Cells,
    pub(super) view: View,
    pub(super) raster: Raster,
    pub(super) dots: DotSet,
    taken: Vec<Taken>,
}

impl Sheet {
    /// The cells of `area`, all free; `taken` is the room for what stands in them.
    pub(super) fn new(view: &View, area: Rect, dots: DotSet, mut taken: Vec<Taken>) -> Sheet {
        taken.clear();
        taken.resize(usize::from(area.width) * usize::from(area.height), Taken::NOTHING);
        let cells = Cells { columns: area.width, rows: area.height };
        let (across, down) = dots.size();
        Sheet {
            area,
            cells,
            view: *view,
            raster: Raster::new(view, cells, across, down),
            dots,
            taken,
        }
    }

    /// Gives the room back.
    pub(super) fn into_taken(self) -> Vec<Taken> {
        self.taken
    }

    fn index(&self, column: i32, row: i32) -> Option<usize> {
        let (column, row) = (u16::try_from(column).ok()?, u16::try_from(row).ok()?);
        let inside = column < self.cells.columns && row < self.cells.rows;
        inside.then(|| usize::from(row) * usize::from(self.cells.columns) + usize::from(column))
    }

    /// What stands in a cell; nothing outside the sheet.
    pub(super) fn taken(&self, column: i32, row: i32) -> Option<Taken> {
        self.index(column, row).and_then(|index| self.taken.get(index)).copied()
    }

    pub(super) fn take(&mut self, column: i32, row: i32, what: Taken) {
        let cell = self.index(column, row).and_then(|index| self.taken.get_mut(index));
        if let Some(cell) = cell {
            *cell = cell.and(what);
        }
    }

    /// The cell in which a point lies, inside the sheet or not far outside.
    pub(super) fn cell_of(&self, point: Point) -> Option<(i32, i32)> {
        let (x, y) = self.view.cells_of(self.cells, point);
        let (x, y) = (x.floor(), y.floor());
        let near = x.abs() < 1e4 && y.abs() < 1e4;
        near.then_some((x as i32, y as i32))
    }

    /// The buffer's cell, if it has one there.
    pub(super) fn screen<'b>(
        &self,
        column: i32,
        row: i32,
        buffer: &'b mut Buffer,
    ) -> Option<&'b mut Cell> {
        self.index(column, row)?;
        let x = self.area.x.checked_add(u16::try_from(column).ok()?)?;
        let y = self.area.y.checked_add(u16::try_from(row).ok()?)?;
        buffer.cell_mut((x, y))
    }

    /// Puts a character into a cell, over the tint that is there.
    pub(super) fn put(
        &self,
        (column, row): (i32, i32),
        glyph: char,
        style: Style,
        buffer: &mut Buffer,
    ) {
        if let Some(cell) = self.screen(column, row, buffer) {
            cell.set_char(glyph);
            ink(cell, style);
        }
    }

    /// Writes words from a cell on, over the tint that is there, and takes their cells; what
    /// does not fit is left out.
    pub(super) fn write(
        &mut self,
        (column, row): (i32, i32),
        words: &str,
        style: Style,
        buffer: &mut Buffer,
    ) {
        let mut column = column;
        for letter in words.graphemes(true) {
            let width = columns(letter);
            if width == 0 {
                continue;
            }
            for covered in column..column + width {
                self.take(covered, row, Taken::WORDS);
                if let Some(cell) = self.screen(covered, row, buffer) {
                    // A wide letter covers the cell behind it.
                    cell.set_symbol(if covered == column { letter } else { " " });
                    ink(cell, style);
                }
            }
            column += width;
        }
    }

    /// Whether some of the cells from `column` on hold any of `what`, or lie outside the sheet.
    pub(super) fn is_taken(&self, (column, row): (i32, i32), width: i32, what: Taken) -> bool {
        (column..column + width).any(|c| self.taken(c, row).is_none_or(|taken| taken.has(what)))
    }
}

/// How many columns a text takes.
pub(super) fn columns(text: &str) -> i32 {
    i32::try_from(text.width()).unwrap_or(i32::MAX / 4)
}

/// Gives a cell the ink and weight of `style`, and its ground if it has one.
pub(super) fn ink(cell: &mut Cell, style: Style) {
    cell.modifier = Modifier::empty();
    cell.fg = style.fg.unwrap_or_default();
    cell.set_style(style);
}
