//! A user's own keys, in RON:
//!
//! ```ron
//! (
//!     version: 1,
//!     keys: {
//!         "drop": ["Enter", "x"],
//!         "undo": ["Ctrl-U"],
//!     },
//! )
//! ```
//!
//! An action named there has the keys given there and no others; all others keep theirs. A clash
//! of two actions that can have the keys in one place is an error, as is an unknown name or key.

use std::collections::BTreeMap;
use std::fmt;

use serde::Deserialize;
use serde::de::{Deserializer, MapAccess, Visitor};

use super::{Act, Action, Context, Key, Keymap, table};

/// What is wrong with a key file, and where.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{line}:{column}: {message}")]
pub struct KeyFileError {
    /// The line, from one.
    pub line: usize,
    /// The column in characters, from one.
    pub column: usize,
    /// What is wrong, and what would be right.
    pub message: String,
}

const VERSION: u32 = 1;

const EXAMPLE: &str = r#"`(version: 1, keys: {"drop": ["Enter", "x"]})`"#;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    version: u32,
    keys: Entries,
}

/// The entries in the order of the file, which a map would lose.
struct Entries(Vec<(String, Vec<String>)>);

impl<'de> Deserialize<'de> for Entries {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Entries, D::Error> {
        struct InOrder;
        impl<'de> Visitor<'de> for InOrder {
            type Value = Entries;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a map from the names of actions to lists of keys")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Entries, A::Error> {
                let mut entries = Vec::new();
                while let Some(entry) = map.next_entry()? {
                    entries.push(entry);
                }
                Ok(Entries(entries))
            }
        }
        deserializer.deserialize_map(InOrder)
    }
}

/// A key of the file with the number of its string in it.
struct Placed {
    key: Key,
    string: usize,
}

impl Keymap {
    /// The keys of the table with those of a key file in their place.
    ///
    /// # Errors
    /// [`KeyFileError`] when `text` is no key file, names an action or a key that there is not,
    /// or gives two actions one key where both can be done.
    pub fn with_file(&self, text: &str) -> Result<Keymap, KeyFileError> {
        let file: File = ron::from_str(text).map_err(|error| KeyFileError {
            line: error.span.start.line,
            column: error.span.start.col,
            message: format!("{}; a key file reads {EXAMPLE}", error.code),
        })?;
        if file.version != VERSION {
            let at = text.find("version").unwrap_or(0);
            let message =
                format!("version {} is not known; this program reads {VERSION}", file.version);
            return Err(at_byte(text, at, message));
        }
        self.overridden(&file.keys.0).map_err(|(string, message)| {
            at_byte(text, strings(text).get(string).copied().unwrap_or(0), message)
        })
    }

    /// The keys with `entries` in their place; on an error, the number of the string at fault.
    fn overridden(&self, entries: &[(String, Vec<String>)]) -> Result<Keymap, (usize, String)> {
        let mut map = self.clone();
        let mut given: BTreeMap<Act, Vec<Placed>> = BTreeMap::new();
        let mut string = 0;
        for (name, keys) in entries {
            let row = row(name).ok_or_else(|| (string, unknown(name)))?;
            if given.contains_key(&row.act) {
                return Err((
                    string,
                    format!("`{name}` stands twice; give all its keys in one list"),
                ));
            }
            let mut placed = Vec::new();
            for text in keys {
                string += 1;
                let key = text.parse::<Key>().map_err(|error| (string, error.to_string()))?;
                placed.push(Placed { key, string });
            }
            string += 1;
            map.set(row, placed.iter().map(|placed| placed.key).collect());
            given.insert(row.act, placed);
        }
        map.clash(&given).map_or(Ok(map), Err)
    }

    /// The first key of the file that two actions share where both can have it.
    fn clash(&self, given: &BTreeMap<Act, Vec<Placed>>) -> Option<(usize, String)> {
        let mut found: Vec<(usize, String)> = Vec::new();
        for (act, placed) in given {
            for Placed { key, string } in placed {
                if let Some((other, context)) = self.rival(*act, *key) {
                    let (name, other) = (act.row().name, other.row().name);
                    let context = context.word();
                    found.push((
                        *string,
                        format!("`{key}` cannot do both `{name}` and `{other}` in {context}; give one of them another key"),
                    ));
                }
            }
        }
        found.into_iter().min_by_key(|(string, _)| *string)
    }

    /// Another action that has `key` where `act` can have it.
    fn rival(&self, act: Act, key: Key) -> Option<(Act, Context)> {
        let others =
            table().iter().filter(|row| row.act != act && self.keys(row.act).contains(&key));
        others
            .filter_map(|row| {
                let shared = row.contexts.iter().find(|c| act.row().contexts.contains(c))?;
                Some((row.act, *shared))
            })
            .next()
    }
}

fn row(name: &str) -> Option<&'static Action> {
    table().iter().find(|row| row.name == name)
}

fn unknown(name: &str) -> String {
    let start: String = name.chars().take(3).collect();
    let close: Vec<_> =
        table().iter().map(|row| row.name).filter(|n| n.starts_with(&start)).collect();
    match close.as_slice() {
        [] => format!("no action is called `{name}`; the action list shows the names"),
        close => format!("no action is called `{name}`; there is `{}`", close.join("`, `")),
    }
}

fn at_byte(text: &str, byte: usize, message: String) -> KeyFileError {
    let before = &text[..byte];
    let start = before.rfind('\n').map_or(0, |at| at + 1);
    let line = before.matches('\n').count() + 1;
    KeyFileError { line, column: before[start..].chars().count() + 1, message }
}

/// Where each string of a RON text begins, comments left out. The text has been read before, so
/// that every string and comment is closed.
fn strings(text: &str) -> Vec<usize> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(rest) = text.get(at..).filter(|rest| !rest.is_empty()) {
        at += if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if rest.starts_with("/*") {
            block_comment(rest)
        } else if rest.starts_with('"') {
            found.push(at);
            quoted(rest)
        } else if let Some(hashes) = raw(rest) {
            found.push(at);
            let close = format!("\"{}", "#".repeat(hashes));
            let open = hashes + 2;
            rest[open..].find(&close).map_or(rest.len(), |end| open + end + close.len())
        } else {
            rest.chars().next().map_or(1, char::len_utf8)
        };
    }
    found
}

/// How many bytes a string in quotes takes.
fn quoted(text: &str) -> usize {
    let mut escaped = false;
    for (at, c) in text.char_indices().skip(1) {
        match c {
            '"' if !escaped => return at + 1,
            '\\' => escaped = !escaped,
            _ => escaped = false,
        }
    }
    text.len()
}

/// How many `#` stand before the quote of a raw string, if one begins here.
fn raw(text: &str) -> Option<usize> {
    let tail = text.strip_prefix('r')?;
    let hashes = tail.bytes().take_while(|b| *b == b'#').count();
    tail[hashes..].starts_with('"').then_some(hashes)
}

/// How many bytes a block comment takes; they nest.
fn block_comment(text: &str) -> usize {
    let (mut depth, mut at) = (0, 0);
    while at < text.len() {
        if text[at..].starts_with("/*") {
            (depth, at) = (depth + 1, at + 2);
        } else if text[at..].starts_with("*/") {
            (depth, at) = (depth - 1, at + 2);
            if depth == 0 {
                return at;
            }
        } else {
            at += text[at..].chars().next().map_or(1, char::len_utf8);
        }
    }
    text.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Keymap, KeyFileError> {
        Keymap::standard().unwrap().with_file(text)
    }

    fn error(text: &str) -> (usize, usize, String) {
        let KeyFileError { line, column, message } = read(text).unwrap_err();
        (line, column, message)
    }

    #[test]
    fn an_action_gets_the_keys_of_the_file_and_no_others() {
        let map = read("(version: 1, keys: {\"undo\": [\"F8\", \"F9\"]})").unwrap();
        assert_eq!(map.act(Context::Look, "F8".parse().unwrap()), Some(Act::Undo));
        assert_eq!(map.act(Context::Plot, "F9".parse().unwrap()), Some(Act::Undo));
        assert_eq!(map.act(Context::Look, "u".parse().unwrap()), None);
        assert_eq!(map.shown(Act::Undo).as_deref(), Some("F8"));
    }

    #[test]
    fn two_actions_can_change_keys() {
        let map = read("(version: 1, keys: {\"undo\": [\"U\"], \"redo\": [\"u\"]})").unwrap();
        assert_eq!(map.act(Context::Look, "u".parse().unwrap()), Some(Act::Redo));
    }

    #[test]
    fn a_clash_is_named_where_it_stands() {
        let text = "(\n  version: 1, // \"not a string\"\n  keys: {\n    \"undo\": [\"x\"],\n    \"jump\": [\"é\", \"x\"],\n  },\n)";
        let (line, column, message) = error(text);
        assert_eq!((line, column), (4, 14));
        assert!(message.contains("`x` cannot do both `undo` and `jump` in look"), "{message}");
        let (line, column, message) = error("(version: 1, keys: {\"undo\": [\"é\", \"q\"]})");
        assert_eq!((line, column), (1, 35));
        assert!(message.contains("`quit`"), "{message}");
    }

    #[test]
    fn unknown_names_and_keys_are_named_where_they_stand() {
        let (line, column, message) = error("(version: 1,\n keys: {\"undoo\": []})");
        assert_eq!((line, column), (2, 9));
        assert!(message.contains("there is `undo`"), "{message}");
        let (line, column, message) =
            error("(version: 1, /* \" /* */ */ keys: {r#\"undo\"#: [\"Ctl-x\"]})");
        assert_eq!((line, column), (1, 47));
        assert!(message.contains("`Ctl` is no modifier"), "{message}");
        assert_eq!(error("(version: 1, keys: {\"undo\": [], \"undo\": []})").1, 33);
    }

    #[test]
    fn what_is_no_key_file_is_refused_with_its_place() {
        assert_eq!(
            error("(version: 2, keys: {})").2,
            "version 2 is not known; this program reads 1"
        );
        assert_eq!(error("(version: 1,\n  kees: {})").0, 2);
        assert_eq!(error("").0, 1);
        assert_eq!(error("(version: 1, keys: {\"a\": ").0, 1);
    }
}
