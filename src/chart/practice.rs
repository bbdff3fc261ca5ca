//! The practice chart that is built in.

use crate::format::{self, ChartFile, FormatError};
use crate::model::Chart;

/// The seed from which [`maker::make`](crate::maker::make) makes the practice chart, with its
/// default wishes; a test holds that `maps/practice.ron` is that chart.
pub const SEED: u64 = 11;

/// The file as it stands in `maps/`.
pub const TEXT: &str = include_str!("../../maps/practice.ron");

/// The practice chart: an archipelago in mid-ocean that does not exist.
///
/// ```
/// let chart = chart::practice()?;
/// assert!(chart.invented);
/// assert_eq!((chart.extent.width(), chart.extent.height()), (30_000.0, 22_000.0));
/// # Ok::<(), chart::format::FormatError>(())
/// ```
///
/// # Errors
/// Never with the file as it is: a test reads it.
pub fn practice() -> Result<Chart, FormatError> {
    match format::read(TEXT)? {
        ChartFile::Whole(chart) => Ok(chart),
        ChartFile::ShoreBeside(beside) => Ok(beside.with_shore(Default::default())),
    }
}
