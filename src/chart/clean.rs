//! Makes text from outside harmless to show.
//!
//! A file can carry characters that steer a terminal (controls, escape sequences), turn the line
//! around (bidirectional overrides), hide (zero width) or pile up (stacks of combining marks).
//! Every string that comes from a file passes through [`clean`] once, where it is read, so that
//! nothing behind the readers has to think about it.

/// The most characters in a name.
pub const NAME: usize = 80;

/// The most characters in a note, a title's source or a message.
pub const NOTE: usize = 400;

/// What stands in place of a character that is not let through.
pub const REPLACEMENT: char = '\u{FFFD}';

/// How many combining marks may follow one character; names in living scripts need three at most.
const MOST_MARKS: usize = 4;

/// The text with every character that does not simply show replaced by `�`, without white space
/// at its ends, and cut with `…` to `at_most` characters.
///
/// Cleaning what is clean changes nothing.
///
/// ```
/// use chart::clean::{clean, NAME};
/// assert_eq!(clean("Skarv Øy", NAME), "Skarv Øy");
/// assert_eq!(clean("\u{1b}[2J\u{202e}yaB", NAME), "�[2J�yaB");
/// ```
pub fn clean(text: &str, at_most: usize) -> String {
    let mut marks = 0;
    let mut kept = text.trim().chars().map(|c| {
        marks = if is_combining(c) { marks + 1 } else { 0 };
        if hides_or_steers(c) || marks > MOST_MARKS { REPLACEMENT } else { c }
    });
    let mut cleaned: String = kept.by_ref().take(at_most).collect();
    if kept.next().is_some() {
        cleaned.pop();
        // What stood before the cut may have been a space, which would now be at the end.
        cleaned.truncate(cleaned.trim_end().len());
        cleaned.push('…');
    }
    cleaned
}

/// Whether a character does anything but show itself.
fn hides_or_steers(c: char) -> bool {
    c.is_control() // C0 with ESC, DEL, C1
        || matches!(c,
            '\u{00AD}' // soft hyphen
            | '\u{034F}' // combining grapheme joiner
            | '\u{061C}' // Arabic letter mark
            | '\u{115F}' | '\u{1160}' | '\u{3164}' | '\u{FFA0}' // Hangul fillers
            | '\u{17B4}' | '\u{17B5}' // Khmer inherent vowels
            | '\u{180B}'..='\u{180F}' // Mongolian selectors and vowel separator
            | '\u{200B}'..='\u{200F}' // zero width, joiners, direction marks
            | '\u{2028}'..='\u{202E}' // line and paragraph separators, embeddings and overrides
            | '\u{2060}'..='\u{206F}' // word joiner, invisible operators, isolates
            | '\u{FE00}'..='\u{FE0F}' // variation selectors
            | '\u{FEFF}' // byte order mark
            | '\u{FFF0}'..='\u{FFFB}' // interlinear annotation
            | '\u{FFFE}' | '\u{FFFF}'
            | '\u{1BCA0}'..='\u{1BCA3}' | '\u{1D173}'..='\u{1D17A}' // format controls
            | '\u{E0000}'..='\u{E0FFF}' // tags, further variation selectors
            | '\u{E000}'..='\u{F8FF}' | '\u{F0000}'..='\u{10FFFF}' // private use: fonts decide
        )
}

/// Whether a character is drawn over the one before it, in the blocks kept for such marks.
fn is_combining(c: char) -> bool {
    matches!(c,
        '\u{0300}'..='\u{036F}'
        | '\u{0483}'..='\u{0489}'
        | '\u{1AB0}'..='\u{1AFF}'
        | '\u{1DC0}'..='\u{1DFF}'
        | '\u{20D0}'..='\u{20FF}'
        | '\u{FE20}'..='\u{FE2F}')
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_steers_a_terminal_is_replaced_and_stays_visible() {
        for (dirty, shown) in [
            ("a\u{1b}[31mb", "a�[31mb"),
            ("a\u{9b}31mb", "a�31mb"),
            ("a\u{7}\u{8}\u{7f}b", "a���b"),
            ("a\nb\r\tc", "a�b��c"),
            ("a\u{2028}b\u{2029}c", "a�b�c"),
            ("\u{202a}\u{202b}\u{202c}\u{202d}\u{202e}", "�����"),
            ("\u{2066}\u{2067}\u{2068}\u{2069}", "����"),
            ("a\u{200b}b\u{200d}c\u{feff}d\u{2060}e", "a�b�c�d�e"),
            ("flag\u{e0067}\u{e007f}", "flag��"),
        ] {
            assert_eq!(clean(dirty, NAME), shown, "{dirty:?}");
        }
    }

    #[test]
    fn names_in_living_scripts_pass() {
        for name in
            ["Öxarárfoss", "Đảo Cát Bà", "Ἰθάκη", "礁", "Inner Skerry (N)", "a\u{0301}\u{0323}"]
        {
            assert_eq!(clean(name, NAME), name);
        }
    }

    #[test]
    fn stacks_of_marks_are_cut() {
        let stack = format!("a{}", "\u{0301}".repeat(50));
        let cleaned = clean(&stack, NAME);
        assert_eq!(cleaned.chars().filter(|&c| c == '\u{0301}').count(), MOST_MARKS);
    }

    #[test]
    fn what_is_too_long_is_cut_with_a_sign() {
        assert_eq!(clean("abcdef", 4), "abc…");
        assert_eq!(clean("abcd", 4), "abcd");
        assert_eq!(clean("ab cdef", 4), "ab…");
        assert_eq!(clean("anything", 0), "…");
    }

    proptest! {
        #[test]
        fn cleaning_is_done_once(text in "\\PC{0,30}|.{0,30}", at_most in 1usize..40) {
            let once = clean(&text, at_most);
            prop_assert_eq!(&clean(&once, at_most), &once);
            prop_assert!(once.chars().count() <= at_most);
            prop_assert!(!once.chars().any(char::is_control));
        }
    }
}
