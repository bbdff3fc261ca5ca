//! The table of actions as text: for the README and for the manual page.

use std::fmt::Write;

use super::{Action, Group, Key, table};

/// The keys of an action as the table gives them, joined by commas.
fn keys(row: &Action) -> String {
    let shown = |key: &&str| key.parse::<Key>().map_or_else(|_| key.to_string(), |k| k.to_string());
    row.keys.iter().map(shown).collect::<Vec<_>>().join(", ")
}

fn rows(group: Group) -> impl Iterator<Item = &'static Action> {
    table().iter().filter(move |row| row.group == group)
}

/// What an action does, when it can be done, and what the pointer does for it.
fn sentence(row: &Action) -> String {
    let mut text = row.help.to_owned();
    if !row.when.words().is_empty() {
        let _ = write!(text, " ({})", row.when.words());
    }
    if !row.mouse.is_empty() {
        let _ = write!(text, "; pointer: {}", row.mouse);
    }
    text
}

/// The table in Markdown, one part for each group.
pub fn key_table_markdown() -> String {
    let mut text = String::new();
    for group in Group::ALL {
        let _ =
            write!(text, "### {}\n\n| keys | name | what |\n| --- | --- | --- |\n", group.title());
        for row in rows(group) {
            let keys = row.keys.iter().map(|key| format!("`{key}`")).collect::<Vec<_>>().join(" ");
            let _ = writeln!(text, "| {keys} | `{}` | {} |", row.name, sentence(row));
        }
        text.push('\n');
    }
    text.truncate(text.trim_end().len());
    text.push('\n');
    text
}

/// The parts of the manual page about keys: a heading for each group, with keys and what they do.
pub fn sections() -> Vec<(String, Vec<(String, String)>)> {
    let entry = |row: &Action| (keys(row), format!("{}: {}", row.name, sentence(row)));
    Group::ALL
        .into_iter()
        .map(|group| (format!("Keys: {}", group.title()), rows(group).map(entry).collect()))
        .collect()
}
