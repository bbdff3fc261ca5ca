//! What keeps a file in RON from being read, in words: of every such file of ours, its own words first.

use ron::error::{Error as Ron, SpannedError};

/// What is wrong with the text of a file, such as a `route`, in the words that hold for all of them.
#[must_use]
pub fn in_words(error: &SpannedError, text: &str, what: &str) -> String {
    match &error.code {
        Ron::Message(said) => said.clone(),
        Ron::TrailingCharacters => format!("text after the {what}'s closing `)`"),
        _ if is_over(text, error.span.end.line) => {
            format!("the file ends in the middle; a {what} ends with `)`")
        }
        Ron::MissingStructField { field, .. } => format!("`{field}` is missing here"),
        Ron::NoSuchStructField { expected, found, .. }
        | Ron::NoSuchEnumVariant { expected, found, .. } => {
            format!("`{found}` is not known here; known are `{}`", expected.join("`, `"))
        }
        Ron::DuplicateStructField { field, .. } => {
            format!("`{field}` is given twice; once would be right")
        }
        other => other.to_string(),
    }
}

/// Whether nothing but space follows from the end of `line` on, though the file is not closed.
#[must_use]
pub fn is_over(text: &str, line: usize) -> bool {
    !text.trim_end().ends_with(')') && text.lines().skip(line).all(|rest| rest.trim().is_empty())
}
