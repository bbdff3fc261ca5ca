//! Published values for tests: the tables of `tests/data`.

use std::collections::HashMap;

/// One row of a table, by column.
pub(crate) struct Row {
    /// The table's row as written, to name it when it fails.
    pub(crate) text: String,
    cells: HashMap<String, String>,
}

impl Row {
    pub(crate) fn text(&self, column: &str) -> &str {
        self.cells.get(column).unwrap_or_else(|| panic!("no column {column} in {}", self.text))
    }

    /// The number in a column.
    pub(crate) fn number(&self, column: &str) -> f64 {
        self.maybe(column).unwrap_or_else(|| panic!("{column} is no number in {}", self.text))
    }

    /// The number in a column that may be empty.
    pub(crate) fn maybe(&self, column: &str) -> Option<f64> {
        self.text(column).parse().ok()
    }

    /// Half of the last digit printed in a column.
    pub(crate) fn half_digit(&self, column: &str) -> f64 {
        let decimals = self.text(column).split_once('.').map_or(0, |(_, tail)| tail.len());
        0.5 * 0.1_f64.powi(i32::try_from(decimals).unwrap())
    }

    /// Fails, naming the row, unless `value` rounds to what is printed in the column.
    pub(crate) fn check_printed(&self, column: &str, value: f64) {
        // A hair more than half a digit, for values that fall on the half.
        self.check(column, value, self.half_digit(column) * (1.0 + 1e-3));
    }

    /// Fails, naming the row, unless `value` is within `tolerance` of what the column says.
    pub(crate) fn check(&self, column: &str, value: f64, tolerance: f64) {
        let expected = self.number(column);
        assert!(
            (value - expected).abs() <= tolerance,
            "{column}: {value} is not within {tolerance:e} of {expected} in row {}",
            self.text
        );
    }
}

/// The rows of a table in CSV with a header line, `#` before comments.
pub(crate) fn rows(table: &str) -> Vec<Row> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(table.as_bytes());
    let header = reader.headers().unwrap().clone();
    let row = |record: csv::StringRecord| Row {
        text: record.iter().collect::<Vec<_>>().join(","),
        cells: header.iter().map(str::to_owned).zip(record.iter().map(str::to_owned)).collect(),
    };
    let rows: Vec<Row> = reader.records().map(|record| row(record.unwrap())).collect();
    assert!(!rows.is_empty(), "a table without rows");
    rows
}
