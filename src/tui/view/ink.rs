//! Text put into cells: measured by what a terminal shows, and cut with an ellipsis, never without.

use std::borrow::Cow;

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// The sign of something left out.
const ELLIPSIS: &str = "…";

/// How many columns `text` takes.
pub(super) fn width(text: &str) -> u16 {
    u16::try_from(text.width()).unwrap_or(u16::MAX)
}

/// `text`, or as much of its beginning as fits into `columns` together with an ellipsis.
pub(super) fn fit(text: &str, columns: u16) -> Cow<'_, str> {
    if width(text) <= columns {
        return Cow::Borrowed(text);
    }
    let Some(room) = columns.checked_sub(1) else {
        return Cow::Borrowed("");
    };
    let mut taken = String::new();
    for cluster in text.graphemes(true) {
        if width(&taken).saturating_add(width(cluster)) > room {
            break;
        }
        taken.push_str(cluster);
    }
    taken.truncate(taken.trim_end().len());
    taken.push_str(ELLIPSIS);
    Cow::Owned(taken)
}

/// `text` broken between words into lines of at most `room` columns, where its words allow it.
pub(super) fn wrapped(text: &str, room: u16) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match lines.last_mut() {
            Some(line) if width(line) + 1 + width(word) <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// A pen that writes lines into one rectangle, from the top down, and never outside it.
pub(super) struct Pen<'a> {
    buffer: &'a mut Buffer,
    area: Rect,
    row: u16,
    column: u16,
}

impl<'a> Pen<'a> {
    /// A pen at the top left of `area`, of which only the part within the buffer counts.
    pub(super) fn new(buffer: &'a mut Buffer, area: Rect) -> Pen<'a> {
        let area = area.intersection(buffer.area);
        Pen { buffer, area, row: 0, column: 0 }
    }

    /// How many columns are left in this line.
    pub(super) const fn room(&self) -> u16 {
        self.area.width.saturating_sub(self.column)
    }

    /// How many lines are left, this one with them.
    pub(super) const fn lines_left(&self) -> u16 {
        self.area.height.saturating_sub(self.row)
    }

    /// Writes `text` on; what does not fit in the line is cut.
    pub(super) fn write(&mut self, text: &str, style: Style) -> &mut Self {
        if self.lines_left() > 0 && self.room() > 0 {
            let text = fit(text, self.room());
            let (x, y) = (self.area.x + self.column, self.area.y + self.row);
            // What was there leaves nothing behind, not even its weight.
            self.buffer.set_style(Rect::new(x, y, width(&text), 1), Style::reset());
            self.buffer.set_string(x, y, &text, style);
            self.column += width(&text);
        }
        self
    }

    /// Writes `text` so that it ends where the rectangle does, if there is room for a gap before it.
    pub(super) fn write_last(&mut self, text: &str, style: Style) -> &mut Self {
        if let Some(gap) = self.room().checked_sub(width(text)).filter(|gap| *gap > 0) {
            self.skip(gap).write(text, style);
        }
        self
    }

    /// Leaves `columns` as they are.
    pub(super) fn skip(&mut self, columns: u16) -> &mut Self {
        self.column = self.column.saturating_add(columns).min(self.area.width);
        self
    }

    /// Moves to `column`, counted from the left of the rectangle.
    pub(super) fn to(&mut self, column: u16) -> &mut Self {
        self.column = column.min(self.area.width);
        self
    }

    /// Fills the rest of the line with `symbol`, one column wide.
    pub(super) fn rule(&mut self, symbol: &str, style: Style) -> &mut Self {
        let text = symbol.repeat(usize::from(self.room()));
        self.write(&text, style)
    }

    /// Writes words, wrapped into as many lines as they need.
    pub(super) fn words(&mut self, text: &str, style: Style) {
        for line in wrapped(text, self.room()) {
            self.write(&line, style).down();
        }
    }

    /// Goes back to the beginning of the line before.
    pub(super) fn up(&mut self) -> &mut Self {
        self.row = self.row.saturating_sub(1);
        self.column = 0;
        self
    }

    /// Goes to the beginning of the next line.
    pub(super) fn down(&mut self) -> &mut Self {
        self.row = self.row.saturating_add(1);
        self.column = 0;
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_fits_is_left_and_what_does_not_ends_in_an_ellipsis() {
        assert_eq!(fit("Teal Bight", 10), "Teal Bight");
        assert_eq!(fit("Teal Bight", 9), "Teal Big…");
        assert_eq!(fit("Teal Bight", 6), "Teal…", "no blank before the ellipsis");
        assert_eq!(fit("Teal", 1), "…");
        assert_eq!(fit("Teal", 0), "");
    }

    #[test]
    fn wide_and_combining_characters_count_as_what_they_take() {
        assert_eq!(width("潮見"), 4);
        assert_eq!(fit("潮見", 3), "潮…");
        assert_eq!(fit("潮見", 2), "…", "half a wide character is none");
        assert_eq!(width("e\u{301}"), 1);
        assert_eq!(fit("e\u{301}a\u{308}o", 2), "e\u{301}…", "a letter keeps its accent");
    }

    #[test]
    fn a_pen_stays_in_its_rectangle() {
        let mut buffer = Buffer::filled(Rect::new(0, 0, 8, 3), ratatui::buffer::Cell::new("."));
        let mut pen = Pen::new(&mut buffer, Rect::new(2, 1, 4, 9));
        pen.write("abcdefg", Style::new()).write("x", Style::new());
        pen.down().write("z", Style::new()).write_last("k", Style::new());
        pen.down().write("below the buffer", Style::new());
        let rows: Vec<String> =
            (0..3).map(|y| (0..8).map(|x| buffer[(x, y)].symbol().to_owned()).collect()).collect();
        assert_eq!(rows, ["........", "..abc…..", "..z..k.."]);
    }

    proptest! {
        #[test]
        fn nothing_is_ever_wider_than_its_room(text in "\\PC{0,40}", room in 0u16..30) {
            prop_assert!(width(&fit(&text, room)) <= room);
        }
    }
}
