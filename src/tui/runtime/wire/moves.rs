//! The shortest way of the cursor.

use std::io::Write as _;

/// Where the cursor is, as far as that is certain; counted from zero.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Cursor {
    row: Option<u16>,
    /// Known only with the row.
    column: Option<u16>,
}

impl Cursor {
    /// The column of a cursor that is known to be in row `y`.
    pub(super) fn column_in(self, y: u16) -> Option<usize> {
        self.column.filter(|_| self.row == Some(y)).map(usize::from)
    }

    /// One column on.
    pub(super) fn forward(&mut self) {
        self.column = self.column.map(|column| column.saturating_add(1));
    }

    /// The column is no longer certain.
    pub(super) fn lose_column(&mut self) {
        self.column = None;
    }

    /// Goes to a cell.
    pub(super) fn go(&mut self, x: usize, y: u16, out: &mut Vec<u8>) {
        let before = *self;
        *self = Cursor { row: Some(y), column: u16::try_from(x).ok() };
        if before == *self {
            return;
        }
        let start = out.len();
        absolute(x, y, out);
        let Some(row) = before.row.filter(|row| *row <= y) else { return };
        let down = usize::from(y - row);
        shorter(out, start, |out| {
            out.push(b'\r');
            out.extend((0..down).map(|_| b'\n'));
            step(out, x, b'C');
        });
        let Some(column) = before.column.map(usize::from) else { return };
        match (down, x.cmp(&column)) {
            (0, std::cmp::Ordering::Greater) => {
                shorter(out, start, |out| step(out, x - column, b'C'));
            }
            (0, _) => {
                shorter(out, start, |out| out.extend((x..column).map(|_| 8)));
                shorter(out, start, |out| step(out, column - x, b'D'));
            }
            (_, std::cmp::Ordering::Equal) => shorter(out, start, |out| step(out, down, b'B')),
            _ => {}
        }
    }
}

/// Goes to a cell from anywhere; what is 1 need not be said.
fn absolute(x: usize, y: u16, out: &mut Vec<u8>) {
    let _ = match (x, y) {
        (0, 0) => write!(out, "\x1b[H"),
        (0, _) => write!(out, "\x1b[{}H", y + 1),
        (_, 0) => write!(out, "\x1b[;{}H", x + 1),
        _ => write!(out, "\x1b[{};{}H", y + 1, x + 1),
    };
}

fn step(out: &mut Vec<u8>, count: usize, what: u8) {
    if count > 0 {
        sequence(out, count, what);
    }
}

/// A control sequence with a count; 1 need not be said.
pub(super) fn sequence(out: &mut Vec<u8>, count: usize, what: u8) {
    // Writing to a vector cannot fail.
    let _ = match count {
        1 => write!(out, "\x1b["),
        _ => write!(out, "\x1b[{count}"),
    };
    out.push(what);
}

/// Keeps what `write` adds in place of what stands there since `start`, if it is shorter.
fn shorter(out: &mut Vec<u8>, start: usize, write: impl FnOnce(&mut Vec<u8>)) {
    let middle = out.len();
    write(out);
    super::shorter(out, start, middle);
}
