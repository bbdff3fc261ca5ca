//! The least bytes that turn one picture on the terminal into the next.
//!
//! A slow link, or the terminal's own reading of what it gets, takes longer than making a frame.
//! So a cell that looks as it did is not sent, the cursor goes the shortest way, a style says only
//! what is new about it, and cells of one style are written together where that saves changes of
//! style. What a pan leaves in another place is moved there by the terminal. Of all ways the
//! shortest is taken, by trying. Only what terminals do alike is used: no repeated characters, no
//! erasing in a colour (ECMA-48, "Control functions for coded character sets").

mod cells;
mod moves;
mod pen;
mod shift;

#[cfg(test)]
mod tests;

use cells::{Row, Tile};
use moves::Cursor;
use pen::Pen;
use ratatui::buffer::{Buffer, Cell};
pub(super) use shift::Shift;

/// What is drawn between these two is shown at once by terminals that know them.
const BEGIN: &[u8] = b"\x1b[?2026h";
const END: &[u8] = b"\x1b[?2026l";

/// The usual pen, and with it the screen cleared.
const PLAIN: &[u8] = b"\x1b[m";
const CLEAR: &[u8] = b"\x1b[2J";

/// The fewest blanks at the end of a row, and before other cells, that are erased and not written.
const ERASE_TO_END: usize = 4;
const ERASE: usize = 11;

/// Makes the bytes of one frame after the other and keeps the room for them.
#[derive(Debug, Default)]
pub(super) struct Wire {
    out: Vec<u8>,
    row: Row,
    hand: Hand,
    /// The screen, and a row of it, after something has been moved.
    moved: Buffer,
    moved_row: Vec<Cell>,
}

impl Wire {
    /// The bytes that turn `shown` into `next`, both of one size: none when they look alike.
    ///
    /// With `cleared`, the terminal is cleared first, and `shown` has to be empty cells. `shift`
    /// says what may have moved; nothing goes wrong if it did not.
    pub(super) fn frame(
        &mut self,
        cleared: bool,
        shown: &Buffer,
        next: &Buffer,
        shift: Option<Shift>,
    ) -> &[u8] {
        self.out.clear();
        self.out.extend_from_slice(BEGIN);
        self.out.extend_from_slice(PLAIN);
        if cleared {
            self.out.extend_from_slice(CLEAR);
        }
        // Whatever wrote to the terminal since the last frame, nothing is taken for granted.
        self.hand = Hand::default();
        let nothing = self.out.len();
        self.rows(shown, next, shift);
        if let Some(shift) = shift.filter(|shift| shift.rows != 0) {
            self.scrolled(nothing, shown, next, shift);
        }
        if self.out.len() == nothing && !cleared {
            self.out.clear();
        } else {
            self.out.extend_from_slice(END);
        }
        &self.out
    }

    /// Takes what moves lines in place of what is there since `start`, if it is shorter.
    fn scrolled(&mut self, start: usize, shown: &Buffer, next: &Buffer, shift: Shift) {
        let middle = self.out.len();
        self.hand = Hand::default();
        let mut moved = std::mem::take(&mut self.moved);
        moved.area = shown.area;
        moved.content.clone_from(&shown.content);
        if shift.scroll(&mut moved, &mut self.out) {
            self.rows(&moved, next, Some(shift));
            shorter(&mut self.out, start, middle);
        }
        self.moved = moved;
    }

    /// Sends what is new in every row.
    fn rows(&mut self, shown: &Buffer, next: &Buffer, shift: Option<Shift>) {
        let width = usize::from(next.area.width).max(1);
        let rows = shown.content.chunks(width).zip(next.content.chunks(width));
        for (y, (before, after)) in (0..).zip(rows) {
            if before == after || !self.row.compare(before, after) {
                continue;
            }
            let (start, hand) = (self.out.len(), self.hand);
            self.row(y);
            if let Some(shift) = shift.filter(|shift| shift.columns != 0) {
                let (middle, written) = (self.out.len(), self.hand);
                self.hand = hand;
                self.moved_row.clear();
                self.moved_row.extend_from_slice(before);
                let (row, cursor) = (&mut self.moved_row, &mut self.hand.cursor);
                if shift.slide(y, row, after, cursor, &mut self.out) {
                    if self.row.compare(&self.moved_row, after) {
                        self.row(y);
                    }
                    if shorter(&mut self.out, start, middle) {
                        continue;
                    }
                }
                self.hand = written;
            }
        }
    }

    /// Sends what is new in a row: from left to right, or style after style if that is shorter.
    fn row(&mut self, y: u16) {
        let start = self.out.len();
        let before = self.hand;
        self.hand.across(&self.row, y, &mut self.out);
        if self.row.has_one_look() {
            return;
        }
        let (middle, across) = (self.out.len(), self.hand);
        self.hand = before;
        self.hand.by_style(&mut self.row, y, &mut self.out);
        if !shorter(&mut self.out, start, middle) {
            self.hand = across;
        }
    }
}

/// Keeps of what stands from `start` to `middle` and from there on the shorter; returns whether
/// that is the latter.
fn shorter(out: &mut Vec<u8>, start: usize, middle: usize) -> bool {
    let is_shorter = out.len() - middle < middle - start;
    if is_shorter {
        out.drain(start..middle);
    } else {
        out.truncate(middle);
    }
    is_shorter
}

/// Where the terminal writes next, and how.
#[derive(Debug, Clone, Copy, Default)]
struct Hand {
    cursor: Cursor,
    pen: Pen,
}

impl Hand {
    /// Writes the new cells of a row from left to right.
    fn across(&mut self, row: &Row, y: u16, out: &mut Vec<u8>) {
        let mut x = 0;
        while let Some(found) = row.next_new(x) {
            x = self.put(row, found, y, out);
        }
    }

    /// Writes the new cells of a row, all of one style before those of the next.
    fn by_style(&mut self, row: &mut Row, y: u16, out: &mut Vec<u8>) {
        row.begin_passes();
        let mut look = row.first_left_in(&self.pen);
        while let Some(now) = look {
            let mut x = 0;
            while let Some(found) = row.next_left(x, &now) {
                let end = self.put(row, found, y, out);
                row.done(found, end);
                x = end;
            }
            look = row.first_left();
        }
    }

    /// Writes the new tile at `x`, or erases the blanks from there on; returns where it ended.
    fn put(&mut self, row: &Row, x: usize, y: u16, out: &mut Vec<u8>) -> usize {
        let tile = row.tile(x);
        self.approach(row, x, y, out);
        self.pen.take(&tile.look, out);
        let blanks = if tile.look.is_bare() { row.new_blanks(x) } else { 0 };
        let to_end = blanks >= ERASE_TO_END && row.is_blank_from(x);
        if to_end {
            out.extend_from_slice(b"\x1b[K");
            return row.width();
        } else if blanks >= ERASE {
            moves::sequence(out, blanks, b'X');
            return x + blanks;
        }
        self.write(row, x, tile, y, out);
        x + usize::from(tile.width)
    }

    /// Takes the cursor to a tile, over the cells before it where writing them again is shorter.
    fn approach(&mut self, row: &Row, x: usize, y: u16, out: &mut Vec<u8>) {
        let start = out.len();
        let before = self.cursor;
        self.cursor.go(x, y, out);
        let Some(from) = before.column_in(y).filter(|from| *from < x) else { return };
        let between = || (from..x).map(|at| row.tile(at));
        let plain = between().all(|tile| tile.is_plain() && self.pen.fits(&tile.look));
        let bytes = || between().map(|tile| row.symbol(tile).len()).sum::<usize>();
        if plain && bytes() <= out.len() - start {
            out.truncate(start);
            between().for_each(|tile| out.extend_from_slice(row.symbol(tile)));
        }
    }

    fn write(&mut self, row: &Row, x: usize, tile: Tile, y: u16, out: &mut Vec<u8>) {
        let wide = tile.width > 1;
        if wide {
            // What a terminal takes for narrower leaves its second half as it was.
            out.extend((0..tile.width).map(|_| b' '));
            self.cursor = Cursor::default();
            self.cursor.go(x, y, out);
        }
        out.extend_from_slice(row.symbol(tile));
        // Terminals do not agree on how far the cursor moves past such characters, nor on where
        // it is after the last column.
        if !tile.is_plain() {
            self.cursor = Cursor::default();
        } else if x + 1 == row.width() {
            self.cursor.lose_column();
        } else {
            self.cursor.forward();
        }
    }
}
