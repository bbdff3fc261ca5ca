//! Charts on the disk.

use std::io::Read;
use std::ops::ControlFlow;
use std::path::Path;

use chart::check::doubts;
use chart::flatgeobuf::{self, Outcome};
use chart::format::{ChartFile, MOST_BYTES, ShoreBeside};
use chart::geojson::{self, BadRings, Import, ImportError};
use chart::{Chart, Extent};

use crate::coasts::{Holds, check_shore, flat, open_coast};
use crate::mapped::Positional;
use crate::read::{self, Kind};
use crate::write::folder_of;
use crate::{FileError, Folders, Overwrite, Source, Why, save_text};

pub(crate) const CHART: Kind = Kind {
    what: "chart",
    most: MOST_BYTES,
    hint: "; a shore of that size belongs in a GeoJSON file beside the chart",
};

/// The chart in a file or on an input, whole. Of a file that holds a shore alone, it is the chart
/// that [`open_coast`] gives, kept in this user's cache; the shore itself is not in it. A shore that lies in a file beside it is read too,
/// from the folder of the chart (of a link to it, the link's own), or from the working folder for
/// an input.
///
/// # Errors
/// [`FileError`] when a file cannot be read or is not what it should be; with the name of the
/// file that it is about, and line and column where it is about the contents.
pub fn open_chart<'a>(from: impl Into<Source<'a>>) -> Result<Chart, FileError> {
    let from = from.into();
    match &from {
        Source::File(path) if Holds::of(path) != Holds::Chart => {
            let folders = Folders::of_user().ok();
            let go_on = &mut |_, _| ControlFlow::Continue(());
            Ok(open_coast(*path, folders.as_ref(), go_on)?.chart)
        }
        _ => open_whole(from),
    }
}

/// The chart in a chart file or on an input.
pub(crate) fn open_whole(from: Source<'_>) -> Result<Chart, FileError> {
    let path = from.path();
    let text = read::text(from, CHART)?;
    chart_of(&path, &text)
}

/// The chart in the text of a chart file.
pub(crate) fn chart_of(path: &Path, text: &str) -> Result<Chart, FileError> {
    match chart::format::read(text) {
        Ok(ChartFile::Whole(chart)) => Ok(chart),
        Ok(ChartFile::ShoreBeside(waiting)) => with_shore(path, waiting).map(|(chart, _)| chart),
        Err(error) => {
            let why = Why::Contents(error.why.to_string());
            Err(FileError::at(path, text, error.line, error.column, why))
        }
    }
}

/// Everything that is wrong with or odd about the chart in a file or on an input, each with its
/// line and column; nothing if there is nothing.
///
/// # Errors
/// [`FileError`] when the file cannot be read, or not as a chart at all, right or wrong.
pub fn check_chart<'a>(from: impl Into<Source<'a>>) -> Result<Vec<FileError>, FileError> {
    let from = from.into();
    if let Source::File(path) = &from
        && Holds::of(path) != Holds::Chart
    {
        return check_shore(path);
    }
    let path = from.path();
    let text = read::text(from, CHART)?;
    let located =
        |line, column, why: String| FileError::at(&path, &text, line, column, Why::Contents(why));
    let (file, faults) = chart::format::examine(&text)
        .map_err(|error| located(error.line, error.column, error.why.to_string()))?;
    let mut found: Vec<FileError> = faults
        .into_iter()
        .map(|fault| located(fault.line, fault.column, fault.why.to_string()))
        .collect();
    let chart = match file {
        ChartFile::Whole(chart) => Ok((chart, None)),
        ChartFile::ShoreBeside(waiting) => with_shore(&path, waiting),
    };
    let chart = chart.map(|(chart, passed_over)| {
        found.extend(passed_over);
        chart
    });
    match chart {
        // Distances and what lies where mean something only where every number does.
        Ok(chart) if found.is_empty() => found.extend(doubts(&chart).into_iter().map(|doubt| {
            let (line, column) = chart::format::line_and_column(&text, &doubt.way);
            located(line, column, doubt.fault.to_string())
        })),
        Ok(_) => {}
        Err(error) => found.push(error),
    }
    Ok(found)
}

/// The chart with its shore, and what of the shore's file was wrong and passed over.
fn with_shore(chart: &Path, waiting: ShoreBeside) -> Result<(Chart, Option<FileError>), FileError> {
    let shore = folder_of(chart).join(&waiting.path);
    let go_on = |_, _| ControlFlow::Continue(());
    let (grid, within) = (waiting.grid(), Some(waiting.extent()));
    if Holds::of(&shore) == Holds::FlatGeobuf {
        let read = import_flatgeobuf(&shore, grid, BadRings::Refuse, within, go_on)?;
        let passed_over = read.1.wrong_index.map(|why| {
            let why = format!("its index is wrong, and the whole file was read: {why}");
            FileError::new(&shore, Why::Contents(why))
        });
        return Ok((waiting.with_shore(read.0.shore), passed_over));
    }
    let import = import_shore(&shore, grid, BadRings::Refuse, go_on)?;
    Ok((waiting.with_shore(import.shore), None))
}

/// The shore in a FlatGeobuf file, on `grid`: all of it, or what is about `within`.
fn import_flatgeobuf(
    path: &Path,
    grid: &nav::Grid,
    bad: BadRings,
    within: Option<Extent>,
    mut progress: impl FnMut(u64, Option<u64>) -> ControlFlow<()>,
) -> Result<(Import, Outcome), FileError> {
    let (file, known) = read::open(path, "shore")?;
    let bytes = Positional { file, size: known.len() };
    let go_on = |read| progress(read, Some(known.len()));
    let read = flatgeobuf::read(&bytes, grid, bad, within, go_on);
    read.map_err(|error| FileError::new(path, flat(error)))
}

/// The shore in a GeoJSON or FlatGeobuf file or on an input, on `grid`.
///
/// `progress` is called now and then with the bytes read so far and, where it is known, the size
/// of the file; it may break the reading off.
///
/// # Errors
/// As [`open_chart`].
pub fn import_shore<'a>(
    from: impl Into<Source<'a>>,
    grid: &nav::Grid,
    bad: BadRings,
    mut progress: impl FnMut(u64, Option<u64>) -> ControlFlow<()>,
) -> Result<Import, FileError> {
    let from = from.into();
    let path = from.path();
    match from {
        Source::Input(input) => import(&path, input, grid, bad, |read| progress(read, None)),
        Source::File(file) if Holds::of(file) == Holds::FlatGeobuf => {
            Ok(import_flatgeobuf(file, grid, bad, None, progress)?.0)
        }
        Source::File(file) => {
            let (file, known) = read::open(file, "shore")?;
            let size = known.is_file().then_some(known.len());
            import(&path, file, grid, bad, |read| progress(read, size))
        }
    }
}

fn import(
    path: &Path,
    from: impl Read,
    grid: &nav::Grid,
    bad: BadRings,
    progress: impl FnMut(u64) -> ControlFlow<()>,
) -> Result<Import, FileError> {
    geojson::read(from, grid, bad, progress).map_err(|error| {
        let ImportError { line, column, why } = error;
        // The text is not kept: it may be larger than the memory.
        FileError::located(path, line, column, Why::Contents(why.to_string()))
    })
}

/// Saves `chart` in the file at `path`: whole, on the disk, or not at all.
///
/// # Errors
/// [`FileError`] when it cannot be saved, or when a file is there that may not be overwritten;
/// that file is as it was.
pub fn save_chart(path: &Path, chart: &Chart, overwrite: Overwrite) -> Result<(), FileError> {
    save_text(path, &chart::format::write(chart), overwrite)
}

#[cfg(test)]
mod tests;
