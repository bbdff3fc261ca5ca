//! The route that is built in, to show what the water does to a day.

use crate::Route;
use crate::format::{FormatError, read};

/// The file as it stands in `maps/`.
const TEXT: &str = include_str!("../../maps/demonstration.ron");

/// A day on the practice chart, past a race that runs with the ebb and in by a tidal gate, so that when
/// the group leaves decides how the day goes.
///
/// ```
/// let route = plan::demonstration()?;
/// assert_eq!(route.chart, chart::practice()?.title);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// Never with the file as it is: a test reads it.
pub fn demonstration() -> Result<Route, FormatError> {
    read(TEXT)
}

#[cfg(test)]
mod tests;
