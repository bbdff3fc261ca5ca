//! Words cut where their script changes: each script has rules of its own for the forms of its letters.

use std::ops::Range;

use unicode_script::{Script, UnicodeScript};
use unicode_segmentation::UnicodeSegmentation;

/// What figures, signs and marks have that go with any script, and letters that no script has yet.
const ANY: [Script; 3] = [Script::Common, Script::Inherited, Script::Unknown];

/// The parts of the words that are of one script each, in the order in which they are read.
///
/// What goes with any script goes with the word that it is in, so that a line is shaped as its words are alone;
/// within a word it goes with the letters before it. A mark is never parted from its letter.
pub(super) fn parts(words: &str) -> Vec<Range<usize>> {
    let mut parts = Vec::new();
    let (mut begin, mut script) = (0, None);
    // Where the word begins that no letter was read of yet.
    let mut word = None;
    for (start, letter) in words.grapheme_indices(true) {
        let Some(own) = of(letter) else {
            if letter.trim().is_empty() {
                word = Some(start + letter.len());
            }
            continue;
        };
        let cut = word.take().unwrap_or(start);
        if script.is_some_and(|script| script != own) {
            parts.push(begin..cut);
            begin = cut;
        }
        script = Some(own);
    }
    parts.push(begin..words.len());
    parts
}

/// The script of a letter with its marks; none of what goes with any.
fn of(letter: &str) -> Option<Script> {
    letter.chars().map(|c| c.script()).find(|script| !ANY.contains(script))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn cut(expected: &[&str]) {
        let words = expected.concat();
        let parts: Vec<&str> = parts(&words).into_iter().map(|part| &words[part]).collect();
        assert_eq!(parts, expected);
    }

    #[test]
    fn words_are_cut_where_the_script_changes() {
        cut(&[""]);
        cut(&["12°30′"]);
        cut(&["Ærø, 3 × Åland"]);
        cut(&["שלום ", "سلام"]);
        cut(&["שלום", "سلام"]);
        cut(&["Kirke ", "Москва ", "Ελλάδα ", "Kirke"]);
    }

    #[test]
    fn signs_go_with_their_word_and_marks_with_their_letter() {
        cut(&["(שלום) - ", "(سلام) 12 ", "[שלום"]);
        cut(&["12 שלום-", "سلام"]);
        // A tatweel, which goes with any script that joins, joins the letter after it.
        cut(&["שלום ", "\u{640}سلام"]);
        // A Hebrew vowel under a Latin letter.
        cut(&["a\u{5b0}b ", "ש\u{301}"]);
    }
}
