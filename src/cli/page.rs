//! Pages of text.

use std::io::{self, Write};

use plan::table::fitted;

/// As wide as every terminal and every sheet.
pub(crate) const COLUMNS: usize = 80;

/// Text broken between words to the width of the page, each line after `indent`.
pub(crate) fn paragraph(indent: &str, text: &str, to: &mut dyn Write) -> io::Result<()> {
    let mut line = String::new();
    for word in text.split_whitespace() {
        let longer = match line.as_str() {
            "" => format!("{indent}{word}"),
            line => format!("{line} {word}"),
        };
        if line.is_empty() || fitted(&longer, COLUMNS) == longer {
            line = longer;
        } else {
            writeln!(to, "{line}")?;
            line = format!("{indent}{word}");
        }
    }
    writeln!(to, "{line}")
}
