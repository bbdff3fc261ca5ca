//! The forms of file, and which one a file is of.

use std::io::Read;

use nav::Grid;

use super::{Fault, Foreign, Place, Why, csv, geojson, gpx};

/// A form of file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// GPX.
    Gpx,
    /// GeoJSON.
    GeoJson,
    /// CSV.
    Csv,
}

impl Form {
    /// The form that the ending of a file's name stands for, if it stands for one.
    #[must_use]
    pub fn of_name(name: &str) -> Option<Form> {
        let ending = name.rsplit_once('.')?.1.to_ascii_lowercase();
        match ending.as_str() {
            "gpx" => Some(Form::Gpx),
            "geojson" | "json" => Some(Form::GeoJson),
            "csv" => Some(Form::Csv),
            _ => None,
        }
    }
}

/// What a file holds, of a form that is given or else told by how it begins. References in a table are read on
/// `grid`.
///
/// # Errors
/// [`Fault`] with line and column when it is not of that form, or not within the bounds of what is read.
pub fn read(
    mut from: impl Read,
    form: Option<Form>,
    grid: Option<&Grid>,
) -> Result<Foreign, Fault> {
    let mut begins = Vec::new();
    let form = match form {
        Some(form) => form,
        None => {
            // More space than this before its contents no file has.
            let read = from.by_ref().take(4096).read_to_end(&mut begins);
            read.map_err(|error| Why::Read(error).at(Place::START))?;
            told(&begins)
        }
    };
    let from = begins.as_slice().chain(from);
    match form {
        Form::Gpx => gpx::read(from),
        Form::GeoJson => geojson::read(from),
        Form::Csv => csv::read(from, grid),
    }
}

/// The form of a file that begins so: both halves of a UTF-16 mark are read as XML, which then says so.
fn told(begins: &[u8]) -> Form {
    let text = begins.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(begins).trim_ascii_start();
    match text.first() {
        Some(b'<' | 0xFE | 0xFF) => Form::Gpx,
        Some(b'{') => Form::GeoJson,
        _ => Form::Csv,
    }
}
