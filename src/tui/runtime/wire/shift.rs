//! What a pan leaves on the terminal in another place is moved there, and not sent again.
//!
//! The terminal deletes characters where the picture goes out of the drawing and inserts as many
//! where it comes in, so that what stands beside the drawing is back in its place; up and down it
//! does so with lines, within margins (ECMA-48: DCH, ICH, DL, IL; DEC STD 070: DECSTBM). What
//! comes in free is taken for unknown: terminals fill it each in their own way.

use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::Rect;

use super::cells::is_wide;
use super::moves::{Cursor, sequence};
use std::io::Write as _;

/// By how much the picture in a part of the screen has moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::runtime) struct Shift {
    /// The part.
    pub(in crate::runtime) area: Rect,
    /// How many columns it has moved to the left, and rows up.
    pub(in crate::runtime) columns: i32,
    pub(in crate::runtime) rows: i32,
}

impl Shift {
    /// Moves lines, and `shown` with them. Returns whether there is anything to move.
    pub(super) fn scroll(&self, shown: &mut Buffer, out: &mut Vec<u8>) -> bool {
        let (top, foot) = (usize::from(self.area.top()), usize::from(self.area.bottom()));
        let by = self.rows.unsigned_abs() as usize;
        if by == 0 || by >= foot - top || foot > usize::from(shown.area.height) {
            return false;
        }
        let what = if self.rows > 0 { b'M' } else { b'L' };
        // Setting margins takes the cursor somewhere.
        let _ = write!(out, "\x1b[{};{foot}r", top + 1);
        Cursor::default().go(0, self.area.top(), out);
        sequence(out, by, what);
        out.extend_from_slice(b"\x1b[r");
        let width = usize::from(shown.area.width);
        slide(&mut shown.content[top * width..foot * width], by * width, self.rows > 0);
        true
    }

    /// Moves characters of row `y`, and `before` with them. Returns whether there is anything to
    /// move.
    pub(super) fn slide(
        &self,
        y: u16,
        before: &mut [Cell],
        after: &[Cell],
        cursor: &mut Cursor,
        out: &mut Vec<u8>,
    ) -> bool {
        let (left, right) = (usize::from(self.area.left()), usize::from(self.area.right()));
        let by = self.columns.unsigned_abs() as usize;
        let within = (self.area.top()..self.area.bottom()).contains(&y) && right <= before.len();
        // Half of a wide character would be left.
        let splits = || before.iter().chain(after).any(|cell| is_wide(cell.symbol()));
        if by == 0 || !within || by >= right - left || splits() {
            return false;
        }
        let ends = [left, right - by];
        let [delete, insert] = if self.columns > 0 { ends } else { [ends[1], ends[0]] };
        for (at, what) in [(delete, b'P'), (insert, b'@')] {
            cursor.go(at, y, out);
            sequence(out, by, what);
        }
        slide(&mut before[left..right], by, self.columns > 0);
        true
    }
}

/// Moves cells to the front, or to the back; what comes free is unknown.
fn slide(cells: &mut [Cell], by: usize, to_front: bool) {
    let free = if to_front {
        cells.rotate_left(by);
        cells.len() - by..cells.len()
    } else {
        cells.rotate_right(by);
        0..by
    };
    for cell in &mut cells[free] {
        // No cell of a picture is like this.
        cell.set_symbol("\0");
    }
}
