//! A line of text being written, edited by what a reader counts as characters.

use unicode_segmentation::UnicodeSegmentation;

/// A line of text with a place in it. Control characters never enter it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Line {
    before: String,
    after: String,
}

impl Line {
    /// The most bytes that a line takes.
    pub const MOST: usize = 1_000;

    /// A line that holds `text`, its place at the end.
    pub fn new(text: &str) -> Line {
        let mut line = Line::default();
        line.insert(text);
        line
    }

    /// All of its text.
    pub fn text(&self) -> String {
        format!("{}{}", self.before, self.after)
    }

    /// The text before and behind the place.
    pub fn parts(&self) -> (&str, &str) {
        (&self.before, &self.after)
    }

    /// Puts `text` in at the place; line ends become spaces, other control characters and text
    /// past the bound are dropped.
    pub fn insert(&mut self, text: &str) {
        for c in text.chars() {
            let c = if matches!(c, '\n' | '\r' | '\t') { ' ' } else { c };
            let room = self.before.len() + self.after.len() + c.len_utf8() <= Line::MOST;
            if !c.is_control() && room {
                self.before.push(c);
            }
        }
    }

    /// Goes left by one character.
    pub fn left(&mut self) {
        if let Some(last) = last(&self.before) {
            self.after.insert_str(0, &self.before[last..]);
            self.before.truncate(last);
        }
    }

    /// Goes right by one character.
    pub fn right(&mut self) {
        let first = first(&self.after);
        self.before.push_str(&self.after[..first]);
        self.after.drain(..first);
    }

    /// Goes to the start.
    pub fn start(&mut self) {
        self.after.insert_str(0, &self.before);
        self.before.clear();
    }

    /// Goes to the end.
    pub fn end(&mut self) {
        self.before.push_str(&self.after);
        self.after.clear();
    }

    /// Erases the character before the place.
    pub fn erase_left(&mut self) {
        if let Some(last) = last(&self.before) {
            self.before.truncate(last);
        }
    }

    /// Erases the character behind the place.
    pub fn erase_right(&mut self) {
        self.after.drain(..first(&self.after));
    }

    /// Erases back to the start of the word before the place.
    pub fn erase_word(&mut self) {
        let end = self.before.trim_end();
        let start = end
            .rfind(char::is_whitespace)
            .map_or(0, |at| at + end[at..].chars().next().map_or(0, char::len_utf8));
        self.before.truncate(start);
    }

    /// Erases everything.
    pub fn clear(&mut self) {
        *self = Line::default();
    }
}

/// Where the last character of `text` begins.
fn last(text: &str) -> Option<usize> {
    text.grapheme_indices(true).next_back().map(|(at, _)| at)
}

/// How many bytes the first character of `text` takes.
fn first(text: &str) -> usize {
    text.graphemes(true).next().map_or(0, str::len)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_character_is_what_a_reader_sees() {
        let mut line = Line::new("ae\u{301}x");
        line.left();
        line.erase_left();
        assert_eq!(line.parts(), ("a", "x"));
        line.insert("👩‍🚀");
        line.left();
        assert_eq!(line.parts(), ("a", "👩‍🚀x"));
        line.erase_right();
        assert_eq!(line.text(), "ax");
    }

    #[test]
    fn words_ends_and_the_whole_line() {
        let mut line = Line::new("north of  Skerry ");
        line.erase_word();
        assert_eq!(line.text(), "north of  ");
        line.start();
        line.right();
        assert_eq!(line.parts(), ("n", "orth of  "));
        line.end();
        line.erase_word();
        line.erase_word();
        line.erase_word();
        line.erase_left();
        line.left();
        assert_eq!(line, Line::default());
    }

    #[test]
    fn control_characters_stay_out() {
        assert_eq!(Line::new("a\u{1b}[31m\nb\u{7}").text(), "a[31m b");
        assert_eq!(Line::new(&"é".repeat(Line::MOST)).text().len(), Line::MOST);
    }
}
