//! Rows with their answers, as CSV or as JSON lines.

use std::io::{self, Write};

use super::question::Answer;
use super::table::Columns;
use paper::exchange::record::Record;

/// How rows are written.
pub(crate) enum Output {
    /// The rows as they came, with the answers' cells at their ends.
    Csv {
        /// For a row that has no line ending of its own.
        ending: Vec<u8>,
    },
    /// An object for each row, a line each.
    Json,
}

impl Output {
    /// For a table with this header.
    pub(crate) fn new(json: bool, header: &Record) -> Output {
        if json {
            return Output::Json;
        }
        let own = header.ending();
        Output::Csv { ending: if own.is_empty() { b"\n".to_vec() } else { own.to_vec() } }
    }

    /// Writes the header, where there is one.
    pub(crate) fn header(
        &self,
        header: &Record,
        appends: &[&str],
        to: &mut dyn Write,
    ) -> io::Result<()> {
        let Output::Csv { ending } = self else { return Ok(()) };
        to.write_all(header.text())?;
        for name in appends {
            write!(to, ",{name}")?;
        }
        to.write_all(ending)
    }

    /// Writes a row; `answers` is empty for one that could not be answered.
    pub(crate) fn row(
        &self,
        record: &Record,
        columns: &Columns,
        appends: &[&str],
        answers: &[Answer],
        to: &mut dyn Write,
    ) -> io::Result<()> {
        match self {
            Output::Csv { ending } => {
                to.write_all(record.text())?;
                // The answers of a row that is too short still go under their names.
                let missing = columns.names.len().saturating_sub(record.count());
                (0..missing).try_for_each(|_| to.write_all(b","))?;
                for index in 0..appends.len() {
                    to.write_all(b",")?;
                    answers.get(index).map_or(Ok(()), |answer| csv_cell(answer, to))?;
                }
                to.write_all(if record.ending().is_empty() { ending } else { record.ending() })
            }
            Output::Json => json_line(record, columns, appends, answers, to),
        }
    }
}

fn csv_cell(answer: &Answer, to: &mut dyn Write) -> io::Result<()> {
    match answer {
        // The shortest figures that read back as the same number; a zero has no sign.
        Answer::Number(number) => write!(to, "{}", number + 0.0),
        Answer::Text(text) if text.contains([',', '"', '\n', '\r']) => {
            write!(to, "\"{}\"", text.replace('"', "\"\""))
        }
        Answer::Text(text) => to.write_all(text.as_bytes()),
        Answer::Empty => Ok(()),
    }
}

fn json_line(
    record: &Record,
    columns: &Columns,
    appends: &[&str],
    answers: &[Answer],
    to: &mut dyn Write,
) -> io::Result<()> {
    let mut before = "{";
    for (index, name) in columns.names.iter().enumerate() {
        // The answer stands in for a column of its name.
        if appends.contains(&name.as_str()) {
            continue;
        }
        json_name(before, name, to)?;
        before = ",";
        let cell = record.cell(index);
        let cell = String::from_utf8_lossy(&cell);
        let is_read = columns.read.iter().any(|&(_, read)| read == index);
        match cell.trim().parse::<f64>() {
            Ok(number) if is_read && number.is_finite() => write!(to, "{}", number + 0.0)?,
            _ => serde_json::to_writer(&mut *to, &*cell)?,
        }
    }
    for (index, name) in appends.iter().enumerate() {
        json_name(before, name, to)?;
        before = ",";
        match answers.get(index) {
            Some(Answer::Number(number)) => write!(to, "{}", number + 0.0)?,
            Some(Answer::Text(text)) => serde_json::to_writer(&mut *to, text)?,
            Some(Answer::Empty) | None => to.write_all(b"null")?,
        }
    }
    to.write_all(b"}\n")
}

fn json_name(before: &str, name: &str, to: &mut dyn Write) -> io::Result<()> {
    to.write_all(before.as_bytes())?;
    serde_json::to_writer(&mut *to, name)?;
    to.write_all(b":")
}
