//! Words made to fit a width.

use unicode_segmentation::UnicodeSegmentation;

use crate::draw::{Mm, Pt};
use crate::font::{self, Face};
use crate::map::LEAST;

/// The words in at most this width, cut between what a reader calls characters and ended with `…` where
/// they are longer. Nothing where not even that has room.
#[must_use]
pub fn cut(face: Face, words: &str, size: Pt, width: Mm) -> String {
    if font::width(face, words, size) <= width {
        return words.to_owned();
    }
    let starts: Vec<usize> = words.grapheme_indices(true).map(|(at, _)| at).collect();
    let cut_at = |count: usize| {
        let end = starts.get(count).copied().unwrap_or(words.len());
        format!("{}…", words.get(..end).unwrap_or_default().trim_end())
    };
    let fits = |count: usize| font::width(face, &cut_at(count), size) <= width;
    // Longer text is wider: the most that fits is found by halving.
    let (mut least, mut most) = (0, starts.len());
    if !fits(0) {
        return String::new();
    }
    while most - least > 1 {
        let middle = (least + most) / 2;
        if fits(middle) {
            least = middle;
        } else {
            most = middle;
        }
    }
    cut_at(least)
}

/// The largest size from `size` down, in halves of a point, at which the words have room; the least size on
/// paper, [`LEAST`], where they have room at none.
#[must_use]
pub fn shrunk(face: Face, words: &str, size: Pt, width: Mm) -> Pt {
    let mut size = size;
    while size > LEAST && font::width(face, words, size) > width {
        size = (size - Pt(0.5)).max(LEAST);
    }
    size
}

/// The words in lines of at most this width, broken at spaces, and within a word that has no room in a line of its
/// own between what a reader calls characters.
#[must_use]
pub fn lines(face: Face, words: &str, size: Pt, width: Mm) -> Vec<String> {
    let fits = |text: &str| font::width(face, text.trim_end(), size) <= width;
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in words.split_inclusive(' ') {
        if fits(&format!("{line}{word}")) {
            line.push_str(word);
            continue;
        }
        end(&mut lines, &mut line);
        if fits(word) {
            line.push_str(word);
            continue;
        }
        for letter in word.graphemes(true) {
            if !line.is_empty() && !fits(&format!("{line}{letter}")) {
                end(&mut lines, &mut line);
            }
            line.push_str(letter);
        }
    }
    end(&mut lines, &mut line);
    lines
}

fn end(lines: &mut Vec<String>, line: &mut String) {
    let whole = line.trim_end();
    if !whole.is_empty() {
        lines.push(whole.to_owned());
    }
    line.clear();
}
