//! How long words are, remembered: a page is tried in many sizes of type, and the same words are as long in each, as a
//! part of the size.

use std::cell::RefCell;
use std::collections::HashMap;

use super::{Face, shape};

/// So many words of a face are remembered, then all are forgotten: a page has some hundreds.
const MOST: usize = 8_192;

thread_local! {
    static KNOWN: RefCell<[HashMap<String, f64>; 2]> = RefCell::default();
}

/// How long these words are, as a part of the size of type.
pub(super) fn of(face: Face, words: &str) -> f64 {
    KNOWN.with_borrow_mut(|known| {
        let known = &mut known[face as usize];
        if let Some(width) = known.get(words) {
            return *width;
        }
        let width = shape(face, words).width;
        if known.len() >= MOST {
            known.clear();
        }
        known.insert(words.to_owned(), width);
        width
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_remembered_is_what_was_measured() {
        let all = || (0..MOST + 10).map(|n| format!("Ærøskøbing {n}"));
        for face in Face::ALL {
            for words in all().chain(all().take(20)) {
                assert_eq!(of(face, &words), shape(face, &words).width, "{words}");
            }
        }
    }
}
