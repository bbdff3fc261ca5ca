//! What the table of actions promises.

use std::collections::BTreeSet;

use super::*;

#[test]
fn every_key_of_the_table_parses_and_is_written_as_it_is_shown() {
    for row in table() {
        for key in row.keys {
            assert_eq!(key.parse::<Key>().unwrap().to_string(), *key, "of `{}`", row.name);
        }
    }
}

#[test]
fn no_key_does_two_things_in_one_place() {
    // A key is one press, so none can be the beginning of another but by being the same.
    for context in Context::ALL {
        let mut seen = BTreeSet::new();
        for row in table().iter().filter(|row| row.contexts.contains(context)) {
            for key in row.keys {
                assert!(seen.insert(key.parse::<Key>().unwrap()), "{key} twice in {context:?}");
            }
        }
    }
}

#[test]
fn no_key_of_a_line_of_text_types_a_character() {
    for row in table().iter().filter(|row| row.contexts.iter().any(|c| c.takes_text())) {
        for key in row.keys {
            assert_eq!(key.parse::<Key>().unwrap().types(), None, "`{}`", row.name);
        }
    }
}

#[test]
fn every_action_is_reached_by_a_key() {
    let map = Keymap::standard().unwrap();
    for row in table() {
        assert!(!row.keys.is_empty() && !row.contexts.is_empty(), "`{}`", row.name);
        for context in row.contexts {
            for key in row.keys {
                assert_eq!(map.act(*context, key.parse().unwrap()), Some(row.act));
            }
        }
        assert_eq!(row.act.row().name, row.name);
    }
}

#[test]
fn names_are_kebab_case_and_their_own() {
    let mut seen = BTreeSet::new();
    for row in table() {
        assert!(row.name.chars().all(|c| c.is_ascii_lowercase() || c == '-'), "{}", row.name);
        assert!(seen.insert(row.name), "{} twice", row.name);
    }
}

#[test]
fn help_is_one_sentence_in_one_line() {
    for row in table() {
        assert!(row.help.starts_with(char::is_uppercase), "{}", row.help);
        assert!(!row.help.ends_with('.') && row.help.chars().count() <= 90, "{}", row.help);
    }
}

#[test]
fn the_texts_hold_every_action() {
    let table_text = key_table_markdown();
    let manual: Vec<String> =
        sections().into_iter().flat_map(|s| s.1).map(|entry| entry.1).collect();
    for row in table() {
        assert!(table_text.contains(&format!("| `{}` |", row.name)));
        assert!(manual.iter().any(|entry| entry.starts_with(&format!("{}: ", row.name))));
    }
}
