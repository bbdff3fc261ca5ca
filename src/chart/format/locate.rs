//! Finds where in a RON text a value stands, given the way to it.
//!
//! What is wrong with a chart is found on the value, where rings and streams are whole; the way to
//! it is then followed through the text, so that the message can point at the very number.
//! The text has been parsed before: the walk need not judge it, only never run past its end.

/// One step of the way to a value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// Into the field of this name.
    Field(&'static str),
    /// Into the element of this number, from 0, of a list or a tuple.
    Element(usize),
}

/// The line and column, in characters from 1, at a byte of the text.
pub(crate) fn line_and_column(text: &str, byte: usize) -> (usize, usize) {
    let before = text.get(..byte).unwrap_or(text);
    let line = before.bytes().filter(|&b| b == b'\n').count() + 1;
    let start = before.rfind('\n').map_or(0, |newline| newline + 1);
    (line, before.get(start..).unwrap_or("").chars().count() + 1)
}

/// The byte at which the value at the end of the way begins; where the text does not go so far
/// (a field left out), the last value on the way that it has.
pub(crate) fn locate(text: &str, way: &[Step]) -> usize {
    match follow(text, way) {
        Ok(at) | Err(at) => at,
    }
}

/// The byte at which the value at the end of the way begins, or as an error the byte of the last
/// value on the way that there is.
pub(crate) fn follow(text: &str, way: &[Step]) -> Result<usize, usize> {
    let mut cursor = Cursor { bytes: text.as_bytes(), at: 0 };
    cursor.skip_space();
    for step in way {
        let here = cursor.at;
        if !cursor.enter() || !cursor.go_to(*step) {
            return Err(here);
        }
    }
    Ok(cursor.at)
}

/// A reading position in a RON text.
struct Cursor<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl Cursor<'_> {
    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    fn starts(&self, with: &[u8]) -> bool {
        self.bytes.get(self.at..).is_some_and(|rest| rest.starts_with(with))
    }

    fn skip_while(&mut self, wanted: impl Fn(u8) -> bool) {
        while self.peek().is_some_and(&wanted) {
            self.at += 1;
        }
    }

    /// Skips to behind the next occurrence of `end`.
    fn skip_behind(&mut self, end: &[u8]) {
        while self.at < self.bytes.len() && !self.starts(end) {
            self.at += 1;
        }
        self.at = (self.at + end.len()).min(self.bytes.len());
    }

    /// Skips white space and comments.
    fn skip_space(&mut self) {
        loop {
            self.skip_while(|b| b.is_ascii_whitespace());
            if self.starts(b"//") {
                self.skip_while(|b| b != b'\n');
            } else if self.starts(b"/*") {
                self.skip_block_comment();
            } else {
                return;
            }
        }
    }

    fn skip_block_comment(&mut self) {
        let mut depth = 0usize;
        while self.at < self.bytes.len() {
            if self.starts(b"/*") {
                depth += 1;
                self.at += 2;
            } else if self.starts(b"*/") {
                depth = depth.saturating_sub(1);
                self.at += 2;
                if depth == 0 {
                    return;
                }
            } else {
                self.at += 1;
            }
        }
    }

    /// Goes in behind the opening bracket of the value here, and past the name before it.
    fn enter(&mut self) -> bool {
        self.skip_while(|b| b.is_ascii_alphanumeric() || b == b'_');
        self.skip_space();
        let opens = matches!(self.peek(), Some(b'(' | b'['));
        if opens {
            self.at += 1;
            self.skip_space();
        }
        opens
    }

    /// Goes from the first value in a bracket to the one that is meant.
    fn go_to(&mut self, step: Step) -> bool {
        let mut number = 0;
        while !matches!(self.peek(), None | Some(b')' | b']')) {
            match step {
                Step::Element(wanted) if wanted == number => return true,
                Step::Field(name) if self.is_field(name) => return true,
                _ => self.skip_value(),
            }
            if self.peek() == Some(b',') {
                self.at += 1;
            }
            self.skip_space();
            number += 1;
        }
        false
    }

    /// Whether `name:` stands here; if so, goes to its value.
    fn is_field(&mut self, name: &str) -> bool {
        let start = self.at;
        if self.starts(name.as_bytes()) {
            self.at += name.len();
            self.skip_space();
            if self.peek() == Some(b':') {
                self.at += 1;
                self.skip_space();
                return true;
            }
        }
        self.at = start;
        false
    }

    /// Skips to the comma or bracket that ends the value here.
    fn skip_value(&mut self) {
        let mut depth = 0usize;
        loop {
            self.skip_space();
            match self.peek() {
                None => return,
                Some(b',' | b')' | b']' | b'}') if depth == 0 => return,
                Some(b'(' | b'[' | b'{') => depth += 1,
                Some(b')' | b']' | b'}') => depth -= 1,
                Some(b'"') => {
                    self.skip_string();
                    continue;
                }
                Some(b'r') if self.starts(b"r\"") || self.starts(b"r#") => {
                    self.skip_raw_string();
                    continue;
                }
                Some(_) => {}
            }
            self.at += 1;
        }
    }

    fn skip_string(&mut self) {
        self.at += 1;
        loop {
            match self.peek() {
                None => return,
                Some(b'"') => break,
                Some(b'\\') => self.at += 2,
                Some(_) => self.at += 1,
            }
        }
        self.at += 1;
    }

    fn skip_raw_string(&mut self) {
        self.at += 1;
        let start = self.at;
        self.skip_while(|b| b == b'#');
        let hashes = self.at - start;
        self.at += 1;
        let end: Vec<u8> = std::iter::once(b'"').chain(std::iter::repeat_n(b'#', hashes)).collect();
        self.skip_behind(&end);
    }
}

#[cfg(test)]
mod tests {
    use super::{
        Step::{Element, Field},
        line_and_column, locate,
    };

    const TEXT: &str = r####"// a comment with (brackets] and "quotes
Chart( version: 1, /* nested /* ) */ , */ title: "Øy \") , (", raw: r#"a", (b"#,
  shore: Here([ (name: "a", shore: [(1, 2), (3, 4)]),
                (name: "b", shore: [(5, 6), (7, 8)],), ]),
  nowhere: (),
)"####;

    #[test]
    fn values_are_found_behind_comments_and_strings() {
        for (way, begins) in [
            (vec![], "Chart("),
            (vec![Field("version")], "1, /*"),
            (vec![Field("title")], "\"Øy"),
            (vec![Field("raw")], "r#"),
            (vec![Field("shore")], "Here"),
            (
                vec![
                    Field("shore"),
                    Element(0),
                    Element(1),
                    Field("shore"),
                    Element(1),
                    Element(0),
                ],
                "7, 8",
            ),
            (vec![Field("nowhere"), Field("further")], "()"),
            (vec![Field("missing")], "Chart("),
        ] {
            let at = locate(TEXT, &way);
            assert!(TEXT[at..].starts_with(begins), "{way:?}: {}", &TEXT[at..]);
        }
    }

    #[test]
    fn columns_are_counted_in_characters() {
        let at = locate(TEXT, &[Field("raw")]);
        assert_eq!(line_and_column(TEXT, at), (2, 69));
        assert_eq!(line_and_column("", 0), (1, 1));
        assert_eq!(line_and_column("a\n", 2), (2, 1));
    }

    #[test]
    fn a_text_that_is_cut_off_is_never_overrun() {
        let way = [Field("shore"), Element(0), Element(1), Field("shore")];
        for end in (0..TEXT.len()).filter(|&end| TEXT.is_char_boundary(end)) {
            let text = &TEXT[..end];
            assert!(locate(text, &way) <= text.len());
        }
    }
}
