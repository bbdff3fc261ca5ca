//! A drawn screen as text, for people and for tests that compare.

use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier};
use std::fmt::Write as _;
use unicode_width::UnicodeWidthStr;

/// The characters of the screen, a line for each row without its trailing blanks, and a last line
/// that tells the size: `== 80x24`.
#[must_use]
pub fn text(buffer: &Buffer) -> String {
    let mut out = String::new();
    for row in rows(buffer) {
        let mut line = String::new();
        let mut hidden = 0;
        for cell in row {
            // A wide character covers the cell behind it.
            if hidden > 0 {
                hidden -= 1;
                continue;
            }
            line.push_str(cell.symbol());
            hidden = cell.symbol().width().saturating_sub(1);
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
    let _ = writeln!(out, "== {}x{}", buffer.area.width, buffer.area.height);
    out
}

/// The styles of the screen: a line for each run of cells of one row that look alike and not
/// plain, as `row:first-last ink on ground weight`.
#[must_use]
pub fn styles(buffer: &Buffer) -> String {
    let mut out = String::new();
    for (row, cells) in rows(buffer).enumerate() {
        let mut start = 0;
        for run in cells.chunk_by(|a, b| look(a) == look(b)) {
            let end = start + run.len() - 1;
            if let Some(words) = words(&run[0]) {
                let _ = writeln!(out, "{row}:{start}-{end} {words}");
            }
            start = end + 1;
        }
    }
    out
}

pub(super) fn rows(buffer: &Buffer) -> impl Iterator<Item = &[Cell]> {
    buffer.content.chunks(usize::from(buffer.area.width).max(1))
}

pub(super) fn look(cell: &Cell) -> (Color, Color, Modifier) {
    (cell.fg, cell.bg, cell.modifier)
}

fn words(cell: &Cell) -> Option<String> {
    let (ink, ground, weight) = look(cell);
    if (ink, ground, weight) == (Color::Reset, Color::Reset, Modifier::empty()) {
        return None;
    }
    let mut words = format!("{ink} on {ground}");
    for (name, _) in weight.iter_names() {
        let _ = write!(words, " {}", name.to_lowercase());
    }
    Some(words)
}
