//! Keys written as text: `--keys "Enter Right*20 Enter / QB731508 Enter"`.
//!
//! Words stand apart by white space. A word is
//! - a key by its name: `Enter`, `q`, `Ctrl-P`, `Shift-Right`;
//! - text in quotes, typed character by character: `'Otter Sound'` or `"it's"`; a word of letters
//!   and digits with a digit in it needs no quotes: `QB731508`;
//! - what the pointer does at a column and row counted from zero: `Click@40,12`,
//!   `Drag@40,12>50,14`, `Hover@40,12`, `WheelUp@40,12`, `WheelDown@40,12`.
//!
//! `*` and a number behind a word repeat it: `Right*20`.

use super::{Key, KeyError};

/// One step of a script.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Step {
    /// A key pressed.
    Key(Key),
    /// The button pressed at the first place and released at the second.
    Drag((u16, u16), (u16, u16)),
    /// The pointer moved to a place with its button up.
    Hover((u16, u16)),
    /// The wheel turned at a place, up if `true`.
    Wheel((u16, u16), bool),
}

/// What is wrong with a script of keys.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ScriptError {
    /// A quote that is not closed.
    #[error("column {column}: the quote {quote} is not closed")]
    Open {
        /// Where it stands, from one.
        column: usize,
        /// Which quote.
        quote: char,
    },
    /// A word that is no key.
    #[error("column {column}: {error}; put text to be typed in quotes")]
    Key {
        /// Where the word begins, from one.
        column: usize,
        /// What is wrong with it.
        error: KeyError,
    },
    /// A place that is none.
    #[error(
        "column {column}: `{word}` is no pointer step; write `Click@40,12`, `Drag@40,12>50,14`, `Hover@40,12`, `WheelUp@40,12` or `WheelDown@40,12`"
    )]
    Place {
        /// Where the word begins, from one.
        column: usize,
        /// The word.
        word: String,
    },
    /// A count that is too large.
    #[error("column {column}: a word is repeated at most {most} times", most = MOST)]
    Count {
        /// Where the word begins, from one.
        column: usize,
    },
}

const MOST: usize = 10_000;

/// The steps that `text` writes.
///
/// # Errors
/// [`ScriptError`] with the column of the word that is none.
pub fn script(text: &str) -> Result<Vec<Step>, ScriptError> {
    let mut steps = Vec::new();
    let mut rest = text;
    loop {
        rest = rest.trim_start();
        let Some(first) = rest.chars().next() else { return Ok(steps) };
        let column = text[..text.len() - rest.len()].chars().count() + 1;
        let quoted = matches!(first, '\'' | '"');
        let close = if quoted { rest[1..].find(first).map(|at| at + 1) } else { None };
        if quoted && close.is_none() && rest.len() > 1 {
            return Err(ScriptError::Open { column, quote: first });
        }
        let (word, count) = match close {
            Some(at) => {
                let tail = &rest[at + 1..];
                let end = tail.find(char::is_whitespace).unwrap_or(tail.len());
                (&rest[..=at], &rest[at + 1..at + 1 + end])
            }
            None => split_count(&rest[..rest.find(char::is_whitespace).unwrap_or(rest.len())]),
        };
        rest = &rest[word.len() + count.len()..];
        let one = match close {
            Some(_) => typed(&word[1..word.len() - 1]),
            None => steps_of(word, column)?,
        };
        for _ in 0..times(count, column)? {
            steps.extend(one.iter().cloned());
        }
    }
}

/// The word and the `*20` behind it.
fn split_count(word: &str) -> (&str, &str) {
    match word.rfind('*') {
        Some(at) if at > 0 && word[at + 1..].parse::<usize>().is_ok() => word.split_at(at),
        _ => (word, ""),
    }
}

fn times(count: &str, column: usize) -> Result<usize, ScriptError> {
    if count.is_empty() {
        return Ok(1);
    }
    match count.strip_prefix('*').map(str::parse::<usize>) {
        Some(Ok(n)) if n <= MOST => Ok(n),
        _ => Err(ScriptError::Count { column }),
    }
}

fn typed(text: &str) -> Vec<Step> {
    text.chars().map(|c| Step::Key(Key::plain(super::Code::Char(c)))).collect()
}

fn steps_of(word: &str, column: usize) -> Result<Vec<Step>, ScriptError> {
    if let Some((what, places)) = word.split_once('@').filter(|(what, _)| !what.is_empty()) {
        return pointer(what, places)
            .map(|step| vec![step])
            .ok_or_else(|| ScriptError::Place { column, word: word.to_owned() });
    }
    match word.parse() {
        Ok(key) => Ok(vec![Step::Key(key)]),
        Err(_) if is_plain_text(word) => Ok(typed(word)),
        Err(error) => Err(ScriptError::Key { column, error }),
    }
}

fn is_plain_text(word: &str) -> bool {
    word.chars().all(char::is_alphanumeric) && word.chars().any(|c| c.is_ascii_digit())
}

fn pointer(what: &str, places: &str) -> Option<Step> {
    let place = |text: &str| {
        let (x, y) = text.split_once(',')?;
        Some((x.parse().ok()?, y.parse().ok()?))
    };
    match what {
        "Click" => place(places).map(|at| Step::Drag(at, at)),
        "Drag" => {
            let (from, to) = places.split_once('>')?;
            Some(Step::Drag(place(from)?, place(to)?))
        }
        "Hover" => place(places).map(Step::Hover),
        "WheelUp" => place(places).map(|at| Step::Wheel(at, true)),
        "WheelDown" => place(places).map(|at| Step::Wheel(at, false)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(name: &str) -> Step {
        Step::Key(name.parse().unwrap())
    }

    #[test]
    fn keys_repeats_and_text() {
        let steps = script("Enter Right*3 / QB73 'a b' Ctrl-P").unwrap();
        let names = [
            "Enter", "Right", "Right", "Right", "/", "Q", "B", "7", "3", "a", "Space", "b",
            "Ctrl-P",
        ];
        assert_eq!(steps, names.map(key));
    }

    #[test]
    fn quotes_stars_and_points_of_the_pointer() {
        assert_eq!(script("* ' ").unwrap_err(), ScriptError::Open { column: 3, quote: '\'' });
        assert_eq!(script("\"it's\"*2").unwrap().len(), 8);
        assert_eq!(script("Click@4,5").unwrap(), [Step::Drag((4, 5), (4, 5))]);
        assert_eq!(script("Drag@4,5>6,7 WheelUp@1,2").unwrap()[0], Step::Drag((4, 5), (6, 7)));
        assert_eq!(script("@").unwrap(), [key("@")]);
    }

    #[test]
    fn errors_name_the_column() {
        assert!(matches!(script("Enter Entr"), Err(ScriptError::Key { column: 7, .. })));
        assert!(matches!(script("é Click@4"), Err(ScriptError::Place { column: 3, .. })));
        assert!(matches!(script("Right*99999999"), Err(ScriptError::Count { column: 1 })));
    }
}
