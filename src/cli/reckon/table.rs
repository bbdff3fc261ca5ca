//! A table's header, and the cells that a question reads.

use chart::clean::clean;

use paper::exchange::Place;
use paper::exchange::record::Record;

/// How many characters of a cell an error shows.
const SHOWN: usize = 40;

/// What is wrong with one of the cells that are read.
#[derive(Debug)]
pub(crate) struct Fault {
    /// Which of the columns read, by its place among them.
    pub(crate) read: usize,
    pub(crate) what: String,
}

/// Where the columns that a question reads stand in a table.
#[derive(Debug)]
pub(crate) struct Columns {
    /// The names of all the table's columns.
    pub(crate) names: Vec<String>,
    /// The columns read, by their names and their places in the table.
    pub(crate) read: Vec<(&'static str, usize)>,
}

impl Columns {
    /// The header's names.
    pub(crate) fn names(header: &Record) -> Vec<String> {
        let name = |index| String::from_utf8_lossy(&header.cell(index)).trim().to_owned();
        (0..header.count()).map(name).collect()
    }

    /// Finds the columns that are read.
    ///
    /// # Errors
    /// Where in the header something is wrong, and what.
    pub(crate) fn find(
        header: &Record,
        reads: &'static [&'static str],
        needs: &str,
    ) -> Result<Columns, (Place, String)> {
        let names = Columns::names(header);
        let mut read = Vec::new();
        for &wanted in reads {
            let mut places = (0..names.len()).filter(|&index| names[index] == wanted);
            match (places.next(), places.next()) {
                (Some(index), None) => read.push((wanted, index)),
                (Some(_), Some(second)) => {
                    return Err((
                        header.place(second),
                        format!("a second column {wanted}; one is read"),
                    ));
                }
                (None, _) => {
                    let hint = match names.as_slice() {
                        [one] if one.contains([';', '\t']) => "; columns are divided by commas",
                        _ => "",
                    };
                    let what = format!("no column {wanted}; the header must name {needs}{hint}");
                    return Err((header.place(0), what));
                }
            }
        }
        Ok(Columns { names, read })
    }
}

/// The cells of one record that a question reads.
pub(crate) struct Row<'a> {
    pub(crate) record: &'a Record,
    pub(crate) columns: &'a Columns,
}

impl Row<'_> {
    /// The text of the cell in the column read as number `read`.
    pub(crate) fn text(&self, read: usize) -> Result<String, Fault> {
        let (name, index) = self.columns.read[read];
        let cell = self.record.cell(index);
        match std::str::from_utf8(&cell) {
            Ok(text) if text.trim().is_empty() => {
                self.fault(read, format!("{name} is empty; write {}", right(name)))
            }
            Ok(text) => Ok(text.trim().to_owned()),
            Err(_) => self.fault(read, format!("{name} is not UTF-8 text")),
        }
    }

    /// Whether there is nothing in that cell.
    pub(crate) fn is_empty(&self, read: usize) -> bool {
        let (_, index) = self.columns.read[read];
        self.record.cell(index).iter().all(u8::is_ascii_whitespace)
    }

    /// The number in that cell.
    pub(crate) fn number(&self, read: usize) -> Result<f64, Fault> {
        let (_, index) = self.columns.read[read];
        let cell = self.record.cell(index);
        let number = std::str::from_utf8(&cell).ok().and_then(|text| text.trim().parse().ok());
        match number {
            Some(number) if f64::is_finite(number) => Ok(number),
            _ => self.not_a(read, "number"),
        }
    }

    /// What a constructor makes of the number in that cell.
    pub(crate) fn value<T, E: std::fmt::Display>(
        &self,
        read: usize,
        make: impl FnOnce(f64) -> Result<T, E>,
    ) -> Result<T, Fault> {
        make(self.number(read)?).or_else(|error| self.fault(read, error.to_string()))
    }

    /// That the text of that cell is not what it should be.
    pub(crate) fn not_a<T>(&self, read: usize, what: &str) -> Result<T, Fault> {
        let (name, _) = self.columns.read[read];
        let text = clean(&self.text(read)?, SHOWN);
        self.fault(read, format!("{name} “{text}” is not a {what}; write {}", right(name)))
    }

    /// That something is wrong with that cell.
    pub(crate) fn fault<T>(&self, read: usize, what: String) -> Result<T, Fault> {
        Err(Fault { read, what })
    }
}

/// What is right in the column of a name, in its unit.
fn right(name: &str) -> &'static str {
    let ends = |end: &str| name.ends_with(end);
    match name {
        "date" => "a day: 2026-06-21",
        "time" => "an instant: 2026-06-21T14:05Z",
        "reference" => "the grid's letters and figures",
        "year" => "a year: 2026.5",
        "hours" => "hours: 6",
        _ if ends("_deg") => "degrees: 132.5",
        _ if ends("_kn") => "knots: 3.5",
        _ if ends("_ms") => "metres per second: 8.5",
        _ if ends("_km") => "kilometres: 0.1",
        _ if ends("_m") => "metres: 1250",
        _ => "degrees: 57.155",
    }
}
