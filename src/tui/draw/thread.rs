//! The line of a trace: a beaded thread with its anchors, the piece to the cursor, and what the
//! cursor has caught.

use super::over::Room;
use super::sheet::{Sheet, Taken};
use super::{AnchorMark, Scene};
use crate::glyphs::DotSet;
use crate::theme::{Role, Theme};
use chart::Point;
use chart::dots::path;
use ratatui::buffer::Buffer;
use ratatui::style::{Modifier, Style};

/// Every so many columns a bead.
const BEADS: u64 = 3;

/// Draws the thread.
pub(super) fn draw(
    scene: &Scene<'_>,
    theme: &Theme,
    sheet: &mut Sheet,
    buffer: &mut Buffer,
    room: &mut Room,
) {
    let tracing = &scene.tracing;
    if tracing.anchors.is_empty() && tracing.caught.is_none() {
        return;
    }
    let style = theme.ink(Role::Thread);
    let part = u64::from(sheet.dots.size().0);
    // Dots with gaps for the piece to the cursor, beads on a whole line for what is laid.
    let loose = room.empty(sheet);
    path(&sheet.raster, tracing.live, |x, y, count| {
        if count / part % 2 == 0 {
            loose.set(x, y);
        }
    });
    room.lay(style, sheet, buffer);
    let laid = room.empty(sheet);
    path(&sheet.raster, tracing.line, |x, y, count| {
        laid.set(x, y);
        if count % (BEADS * part) < part {
            for (dx, dy) in [(-1, 0), (1, 0), (0, -1), (0, 1)] {
                laid.set(x + dx, y + dy);
            }
        }
    });
    room.lay(style, sheet, buffer);
    for (at, mark) in tracing.anchors {
        let lit = if *mark == AnchorMark::Chosen { Modifier::REVERSED } else { Modifier::empty() };
        sign(*at, anchor(*mark, sheet.dots), style.add_modifier(lit), sheet, buffer);
    }
    if let Some(at) = tracing.caught {
        let style = theme.ink(Role::Cursor).add_modifier(Modifier::REVERSED);
        sign(at, '×', style, sheet, buffer);
    }
}

/// The sign of an anchor.
fn anchor(mark: AnchorMark, dots: DotSet) -> char {
    match (mark, dots == DotSet::Ascii) {
        (AnchorMark::Shore | AnchorMark::Chosen, false) => '◉',
        (AnchorMark::Free, false) => '◎',
        (AnchorMark::Shore | AnchorMark::Chosen, true) => '#',
        (AnchorMark::Free, true) => '%',
    }
}

/// Puts a sign down, which the cursor then leaves as it is.
pub(super) fn sign(at: Point, glyph: char, style: Style, sheet: &mut Sheet, buffer: &mut Buffer) {
    if let Some(cell) = sheet.cell_of(at) {
        sheet.put(cell, glyph, style, buffer);
        sheet.take(cell.0, cell.1, Taken::WORDS.and(Taken::SIGN));
    }
}
