//! Lines of position from marks, and the fix where they cross.

use chart::Point;
use chart::dots::path;
use ratatui::buffer::Buffer;
use ratatui::style::Modifier;

use super::Scene;
use super::over::Room;
use super::sheet::Sheet;
use super::thread::sign;
use crate::glyphs::DotSet;
use crate::theme::{Role, Theme};

/// A line of position.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FixLine {
    /// The mark that it comes from.
    pub from: Point,
    /// Where it ends, past the fix.
    pub to: Point,
    /// Whether it is chosen.
    pub chosen: bool,
}

/// Bearings of marks.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Fixing<'a> {
    /// Their lines.
    pub lines: &'a [FixLine],
    /// Where they cross.
    pub place: Option<Point>,
    /// The mark that the cursor has caught.
    pub caught: Option<Point>,
}

/// Long dashes with a dot between, in parts of a column.
const PATTERN: [bool; 10] = [true, true, true, true, true, true, false, false, true, false];

/// Draws the lines, whole where chosen, then the fix and what is caught.
pub(super) fn draw(
    scene: &Scene<'_>,
    theme: &Theme,
    sheet: &mut Sheet,
    buffer: &mut Buffer,
    room: &mut Room,
) {
    let fixing = &scene.fixing;
    let style = theme.ink(Role::Thread);
    let part = u64::from(sheet.dots.size().0);
    if !fixing.lines.is_empty() {
        let dots = room.empty(sheet);
        for line in fixing.lines {
            path(&sheet.raster, &[line.from, line.to], |x, y, count| {
                if line.chosen || PATTERN[(count / part % 10) as usize] {
                    dots.set(x, y);
                }
            });
        }
        room.lay(style, sheet, buffer);
    }
    if let Some(at) = fixing.place {
        let glyph = if sheet.dots == DotSet::Ascii { '@' } else { '⊙' };
        sign(at, glyph, style.add_modifier(Modifier::BOLD), sheet, buffer);
    }
    if let Some(at) = fixing.caught {
        let style = theme.ink(Role::Cursor).add_modifier(Modifier::REVERSED);
        sign(at, '×', style, sheet, buffer);
    }
}
