//! A line of text being written, with the place in it.

use ratatui::style::{Modifier, Style};
use unicode_segmentation::UnicodeSegmentation;

use super::ink::{self, Pen};
use crate::state::Line;

/// Writes `line` into what is left of the pen's line. The place in it is a reversed cell and is
/// always seen; what is left out on either side is marked by an ellipsis.
pub(super) fn draw(pen: &mut Pen<'_>, line: &Line, style: Style) {
    let (before, after) = line.parts();
    let mut behind = after.graphemes(true);
    let under = behind.next().unwrap_or(" ");
    // A character that takes no column of its own still needs one to be reversed in.
    let under = if ink::width(under) == 0 { " " } else { under };
    let room = pen.room().saturating_sub(ink::width(under));
    // What stands behind the place keeps a third of the line, or what it needs.
    let kept = ink::width(behind.as_str()).min(room / 3);
    let shown = tail(before, room - kept);
    pen.write(&shown, style);
    pen.write(under, style.add_modifier(Modifier::REVERSED));
    pen.write(behind.as_str(), style);
}

/// `text`, or as much of its end as fits into `columns` together with an ellipsis.
fn tail(text: &str, columns: u16) -> String {
    if ink::width(text) <= columns {
        return text.to_owned();
    }
    let mut start = text.len();
    for (at, _) in text.grapheme_indices(true).rev() {
        if ink::width(&text[at..]) >= columns {
            break;
        }
        start = at;
    }
    if columns == 0 { String::new() } else { format!("…{}", &text[start..]) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use ratatui::buffer::Buffer;
    use ratatui::layout::Rect;

    /// The line as shown in eleven columns, the reversed cell in brackets.
    fn shown(line: &Line) -> String {
        let mut buffer = Buffer::empty(Rect::new(0, 0, 11, 1));
        draw(&mut Pen::new(&mut buffer, Rect::new(0, 0, 11, 1)), line, Style::new());
        let cell = |cell: &ratatui::buffer::Cell| match cell.modifier.contains(Modifier::REVERSED) {
            true => format!("[{}]", cell.symbol()),
            false => cell.symbol().to_owned(),
        };
        buffer.content().iter().map(cell).collect::<String>().trim_end().to_owned()
    }

    #[test]
    fn the_place_in_a_line_is_always_seen() {
        let mut line = Line::new("Teal");
        assert_eq!(shown(&line), "Teal[ ]");
        line.left();
        assert_eq!(shown(&line), "Tea[l]");
        line.insert(" Bight and on");
        assert_eq!(shown(&line), "…ht and on[l]");
        line.start();
        assert_eq!(shown(&line), "[T]ea Bight…");
        for _ in 0..9 {
            line.right();
        }
        assert_eq!(shown(&line), "… Bight[ ]an…");
    }

    #[test]
    fn nothing_fits_into_nothing() {
        let mut buffer = Buffer::empty(Rect::new(0, 0, 3, 1));
        draw(&mut Pen::new(&mut buffer, Rect::new(0, 0, 0, 1)), &Line::new("x"), Style::new());
        assert_eq!(tail("abc", 0), "");
        assert_eq!(tail("abc", 1), "…");
    }
}
