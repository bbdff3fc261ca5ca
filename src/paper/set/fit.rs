//! Words made to fit a width.

use unicode_segmentation::UnicodeSegmentation;

use crate::draw::{Mm, Pt};
use crate::font::{self, Face};
use crate::map::LEAST;

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
    let long = |text: &str| font::width(face, text.trim_end(), size);
    let mut lines = Vec::new();
    let (mut line, mut so_far) = (String::new(), Mm::ZERO);
    for word in words.split_inclusive(' ') {
        let own = font::width(face, word, size);
        // Words beside each other are about as long as each alone: only where it is close are they set together.
        let about = so_far + own;
        let clear = (about - width).abs() > Mm::from(size) * CLOSE;
        let fits = if clear { about < width } else { long(&format!("{line}{word}")) <= width };
        if fits {
            line.push_str(word);
            so_far += own;
            continue;
        }
        end(&mut lines, &mut line);
        so_far = own;
        if long(word) <= width {
            line.push_str(word);
            continue;
        }
        for letter in word.graphemes(true) {
            if !line.is_empty() && long(&format!("{line}{letter}")) > width {
                end(&mut lines, &mut line);
            }
            line.push_str(letter);
        }
        so_far = font::width(face, &line, size);
    }
    end(&mut lines, &mut line);
    lines
}

/// By how much the length of a line may differ from that of its words, a space at its end among it, as a part of the
/// size of type.
const CLOSE: f64 = 1.0;

fn end(lines: &mut Vec<String>, line: &mut String) {
    let whole = line.trim_end();
    if !whole.is_empty() {
        lines.push(whole.to_owned());
    }
    line.clear();
}

/// Words in several faces in lines of at most this width, broken at spaces, and within a word that has no room in a
/// line of its own.
#[must_use]
pub fn runs(runs: &[(Face, String)], size: Pt, width: Mm) -> Vec<Vec<(Face, String)>> {
    let words = runs.iter().flat_map(|(face, words)| {
        words.split_inclusive(' ').map(move |word| (*face, word, font::width(*face, word, size)))
    });
    let mut lines: Vec<Vec<(Face, String)>> = Vec::new();
    let mut left = Mm::ZERO;
    for (face, word, wide) in words {
        let seen = font::width(face, word.trim_end(), size);
        if seen > left || lines.is_empty() {
            let mut parts = self::lines(face, word, size, width);
            let last = parts.pop().unwrap_or_default();
            lines.extend(parts.into_iter().map(|part| vec![(face, part)]));
            left = width - font::width(face, &last, size) - (wide - seen);
            let spaces = word.get(word.trim_end().len()..).unwrap_or_default();
            lines.push(vec![(face, last + spaces)]);
            continue;
        }
        left -= wide;
        let Some(line) = lines.last_mut() else { continue };
        match line.last_mut().filter(|(last, _)| *last == face) {
            Some((_, words)) => words.push_str(word),
            None => line.push((face, word.to_owned())),
        }
    }
    lines
}
