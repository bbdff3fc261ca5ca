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
    room: &mut Mask,
) {
    let raster = &sheet.raster;
    room.reset(raster.width(), raster.height());
    // Dashes of three parts, gaps of two.
    let part = u64::from(sheet.dots.size().0);
    path(raster, scene.pencil, |x, y, count| {
        if count / part % 5 < 3 {
            room.set(x, y);
        }
    });
    lay(room, theme.ink(Role::Pencil), sheet, buffer);
    if let Some(cursor) = &scene.cursor {
        crosshair(cursor, theme, sheet, buffer, room);
    }
}

/// Lays dots over what is there, but not over words.
pub(super) fn lay(dots: &Mask, style: Style, sheet: &Sheet, buffer: &mut Buffer) {
    let mut cells = Vec::new();
    for row in 0..i32::from(sheet.cells.rows) {
        dots.cells(row as usize, sheet.dots.size(), &mut cells);
        for (column, bits) in (0..).zip(&cells).filter(|(_, bits)| **bits != 0) {
            let free = sheet.taken(column, row).is_some_and(|t| !t.has(Taken::WORDS));
            if free {
                sheet.put((column, row), sheet.dots.glyph(*bits), style, buffer);
            }
        }
    }
}

/// Draws the cursor: four arms that leave its middle open, the dot that it points at, and the sign
/// of the hand at a corner where no words stand.
fn crosshair(cursor: &Cursor, theme: &Theme, sheet: &Sheet, buffer: &mut Buffer, arms: &mut Mask) {
    let at = cursor.at;
    let raster = &sheet.raster;
    let style = theme.ink(Role::Cursor);
    arms.reset(raster.width(), raster.height());
    let reach = |columns: f64| columns * sheet.view.metres_per_column;
    for (east, north) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)] {
        let end = |columns: f64| Point {
            x: at.x + east * reach(columns),
            y: at.y + north * reach(columns),
        };
        path(raster, &[end(GAP), end(ARM)], |x, y, _| arms.set(x, y));
    }
    lay(arms, style, sheet, buffer);
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
