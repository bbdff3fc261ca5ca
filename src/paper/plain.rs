//! Plain text of 80 columns: paragraphs, and words that hang under what begins their line.

use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// How wide the text is.
pub(crate) const COLUMNS: usize = 80;

/// Words in lines, each after `before`.
pub(crate) fn paragraph(out: &mut Vec<String>, before: &str, words: &str) {
    out.extend(lines(words, COLUMNS - before.width()).map(|line| format!("{before}{line}")));
}

/// Words in lines, the first after `before`, the others under it.
pub(crate) fn hanging(out: &mut Vec<String>, before: &str, words: &str) {
    let width = before.width();
    let under = if before.contains('|') { before.to_owned() } else { " ".repeat(width) };
    for (index, line) in lines(words, COLUMNS - width).enumerate() {
        let before = if index == 0 { before } else { &under };
        out.push(format!("{before}{line}"));
    }
}

/// Words broken at spaces, and within a word that is too long between what a reader calls characters.
pub(crate) fn lines(words: &str, columns: usize) -> std::vec::IntoIter<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut end = |line: &mut String| {
        let whole = line.trim_end();
        if !whole.is_empty() {
            lines.push(whole.to_owned());
        }
        line.clear();
    };
    for word in words.split_inclusive(' ') {
        if line.width() + word.trim_end().width() > columns {
            end(&mut line);
        }
        if word.trim_end().width() <= columns {
            line.push_str(word);
            continue;
        }
        for letter in word.graphemes(true) {
            if line.width() + letter.width() > columns {
                end(&mut line);
            }
            line.push_str(letter);
        }
    }
    end(&mut line);
    lines.into_iter()
}
