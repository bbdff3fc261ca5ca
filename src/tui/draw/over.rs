//! What moves with the hand: the leg under the pencil and the cursor.

use super::sheet::{Sheet, Taken, ink};
use super::{Cursor, Scene};
use crate::theme::{Role, Theme};
use chart::Point;
use chart::dots::{Mask, path};
use ratatui::buffer::Buffer;
use ratatui::style::Style;

/// The length of the cursor's arms and of the gap at its middle, in columns.
const ARM: f64 = 4.0;
const GAP: f64 = 1.4;

/// Draws the pencil's line, then the cursor.
pub(super) fn draw(
    scene: &Scene<'_>,
    theme: &Theme,
    sheet: &Sheet,
    buffer: &mut Buffer,
    room: &mut Room,
) {
    let raster = &sheet.raster;
    let dots = room.empty(sheet);
    // Dashes of three parts, gaps of two.
    let part = u64::from(sheet.dots.size().0);
    path(raster, scene.pencil, |x, y, count| {
        if count / part % 5 < 3 {
            dots.set(x, y);
        }
    });
    room.lay(theme.ink(Role::Pencil), sheet, buffer);
    if let Some(cursor) = &scene.cursor {
        crosshair(cursor, theme, sheet, buffer, room);
    }
}

/// The room for dots that are laid over what is there.
#[derive(Debug, Clone, Default)]
pub(super) struct Room {
    dots: Mask,
    cells: Vec<u8>,
}

impl Room {
    /// The dots, none of them set.
    pub(super) fn empty(&mut self, sheet: &Sheet) -> &mut Mask {
        self.dots.reset(sheet.raster.width(), sheet.raster.height());
        &mut self.dots
    }

    /// Lays the dots over what is there, but not over words.
    pub(super) fn lay(&mut self, style: Style, sheet: &Sheet, buffer: &mut Buffer) {
        for row in 0..i32::from(sheet.cells.rows) {
            self.dots.cells(row as usize, sheet.dots.size(), &mut self.cells);
            for (column, bits) in (0..).zip(&self.cells).filter(|(_, bits)| **bits != 0) {
                let free = sheet.taken(column, row).is_some_and(|t| !t.has(Taken::WORDS));
                if free {
                    sheet.put((column, row), sheet.dots.glyph(*bits), style, buffer);
                }
            }
        }
    }

    /// The same of a line that names keep off.
    pub(super) fn lay_firmly(&mut self, style: Style, sheet: &mut Sheet, buffer: &mut Buffer) {
        self.lay(style, sheet, buffer);
        for row in 0..i32::from(sheet.cells.rows) {
            self.dots.cells(row as usize, sheet.dots.size(), &mut self.cells);
            for (column, _) in (0..).zip(&self.cells).filter(|(_, bits)| **bits != 0) {
                sheet.take(column, row, Taken::ROUTE);
            }
        }
    }
}

/// Draws the cursor: four arms that leave its middle open, the dot that it points at, and the sign
/// of the hand at a corner where no words stand.
fn crosshair(cursor: &Cursor, theme: &Theme, sheet: &Sheet, buffer: &mut Buffer, room: &mut Room) {
    let at = cursor.at;
    let raster = &sheet.raster;
    let style = theme.ink(Role::Cursor);
    let arms = room.empty(sheet);
    let reach = |columns: f64| columns * sheet.view.metres_per_column;
    for (east, north) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)] {
        let end = |columns: f64| Point {
            x: at.x + east * reach(columns),
            y: at.y + north * reach(columns),
        };
        path(raster, &[end(GAP), end(ARM)], |x, y, _| arms.set(x, y));
    }
    room.lay(style, sheet, buffer);
    let Some((column, row)) = sheet.cell_of(at) else { return };
    if let (Some((x, y)), Some(cell)) = (raster.dot(at), sheet.screen(column, row, buffer)) {
        let (across, down) = sheet.dots.size();
        let place = (y % usize::from(down)) * usize::from(across) + x % usize::from(across);
        let is_sign = sheet.taken(column, row).is_some_and(|t| t.has(Taken::WORDS));
        if !is_sign {
            cell.set_char(sheet.dots.glyph(1 << place));
        }
        ink(cell, style);
    }
    let corners = [(1, -1), (-1, -1), (1, 1), (-1, 1)].map(|(x, y)| (column + x, row + y));
    let is_free = |(x, y): &(i32, i32)| sheet.taken(*x, *y).is_some_and(|t| !t.has(Taken::WORDS));
    if let Some(corner) = corners.into_iter().find(is_free) {
        sheet.put(corner, cursor.hand, style, buffer);
    }
}
