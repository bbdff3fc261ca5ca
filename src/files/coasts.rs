//! Charts opened together with their shores, indexed; shores imported and saved.

use std::fs::File;
use std::io::{self, Read};
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::{Arc, mpsc};
use std::thread;

use chart::Chart;
use chart::coast::Coast;
use chart::coast::detail::Shores;
use chart::coast::file::{self, About, Crossed, Gatherer, ShoreFileError, Told, Trust};
use chart::flatgeobuf::{self, FlatGeobufError};
use chart::geojson::{self, ImportError};

use crate::cache::Kept;
use crate::charts::open_whole;
use crate::crew::Threads;
use crate::mapped::{Positional, whole};
use crate::read;
use crate::write::{Overwrite, save_with};
use crate::{FileError, Folders, Source, Why};

/// A chart with its shore, indexed.
#[derive(Debug, Clone)]
pub struct OpenedChart {
    /// The chart. Of a file that holds a shore alone, its lists of land and shorelines are empty:
    /// the shore is in `shores`.
    pub chart: Chart,
    /// The shore, at full detail.
    pub coast: Arc<Coast>,
    /// The shore at all levels of detail.
    pub shores: Arc<Shores>,
    /// What was odd about a shore that was taken as it is given.
    pub told: Told,
}

/// A shore from a file of a shore alone.
#[derive(Debug, Clone)]
pub struct Imported {
    /// The shore at all levels of detail.
    pub shores: Shores,
    /// What is said of it.
    pub about: About,
}

/// Told now and then how far a long opening is: the bytes read and, where it is known, the size of
/// the file. It may break the opening off.
pub type Progress<'p> = dyn FnMut(u64, Option<u64>) -> ControlFlow<()> + 'p;

/// What a file holds, by its first bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Holds {
    /// A chart, or something else: the chart's reader will say.
    Chart,
    GeoJson,
    FlatGeobuf,
    Shore,
}

impl Holds {
    pub(crate) fn of(path: &Path) -> Holds {
        let mut start = Vec::new();
        // A pipe gives its bytes once.
        let is_file = path.metadata().is_ok_and(|known| known.is_file());
        let opened = if is_file { File::open(path) } else { Err(io::ErrorKind::Other.into()) };
        let read = opened.and_then(|file| file.take(64).read_to_end(&mut start));
        let text = start.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(&start).trim_ascii_start();
        let named = |ending: &str| path.extension().is_some_and(|e| e.eq_ignore_ascii_case(ending));
        match read {
            Ok(_) if start.starts_with(&file::MAGIC) || named(file::ENDING) => Holds::Shore,
            Ok(_) if start.starts_with(b"fgb") || named("fgb") => Holds::FlatGeobuf,
            Ok(_) if text.starts_with(b"{") || named("geojson") => Holds::GeoJson,
            _ => Holds::Chart,
        }
    }
}

/// The chart in a file or on an input, whole, with its shore indexed: a chart file, or a shore alone
/// as GeoJSON, FlatGeobuf or the program's own shore file, which is opened as a chart on World
/// Mercator (EPSG:3395).
///
/// `folders` is where the program keeps what it made of GeoJSON and FlatGeobuf, so that it opens at
/// once the next time; without them nothing is kept.
///
/// # Errors
/// As [`open_chart`](crate::open_chart).
pub fn open_coast<'a>(
    from: impl Into<Source<'a>>,
    folders: Option<&Folders>,
    progress: &mut Progress<'_>,
) -> Result<OpenedChart, FileError> {
    let from = from.into();
    let path = match &from {
        Source::File(path) if Holds::of(path) != Holds::Chart => *path,
        _ => {
            let chart = open_whole(from)?;
            let coast = Arc::new(Coast::of(&chart));
            let shores = Arc::new(Shores::of(coast.clone()));
            return Ok(OpenedChart { chart, coast, shores, told: Told::default() });
        }
    };
    let Imported { shores, about } = open_kept(path, folders, progress)?;
    let (chart, told) = (about.chart(), about.told);
    Ok(OpenedChart { chart, coast: shores.full().clone(), shores: Arc::new(shores), told })
}

/// The shore in a file, from the cache if it is there.
fn open_kept(
    path: &Path,
    folders: Option<&Folders>,
    progress: &mut Progress<'_>,
) -> Result<Imported, FileError> {
    let known = read::open(path, "shore")?.1;
    let folders = folders.filter(|_| known.is_file() && Holds::of(path) != Holds::Shore);
    let kept = folders.map(|folders| Kept::new(folders, path, &known));
    if let Some((about, shores)) = kept.as_ref().and_then(Kept::open) {
        return Ok(Imported { shores, about });
    }
    let imported = import_coast(path, progress)?;
    let Some(kept) = kept else { return Ok(imported) };
    // A cache that cannot be written costs the next start some seconds, and nothing else.
    match kept.keep(&imported.shores, &imported.about).ok().and_then(|()| kept.open()) {
        Some((about, shores)) => Ok(Imported { shores, about }),
        None => Ok(imported),
    }
}

/// The shore in a GeoJSON, FlatGeobuf or shore file, as it is given, on World Mercator.
///
/// # Errors
/// [`FileError`] when the file cannot be read, holds no shore, or `progress` breaks it off.
pub fn import_coast(path: &Path, progress: &mut Progress<'_>) -> Result<Imported, FileError> {
    let fail = |why| FileError::new(path, why);
    let (opened, known) = read::open(path, "shore")?;
    let size = known.is_file().then_some(known.len());
    let name = path.file_stem().unwrap_or_default().to_string_lossy();
    let mut crew = Threads::new(progress, size);
    let gatherer = match Holds::of(path) {
        Holds::Shore => {
            let bytes = whole(&opened, known.len()).map_err(|e| fail(Why::Unreadable(e)))?;
            let (about, shores) = file::open(bytes, Trust::Nothing).map_err(|e| fail(shore(e)))?;
            return Ok(Imported { shores, about });
        }
        Holds::FlatGeobuf => {
            let bytes = Positional { file: opened, size: known.len() };
            Gatherer::flatgeobuf(&bytes, |read| crew.read(read))
                .map_err(|error| fail(flat(error)))?
        }
        Holds::GeoJson | Holds::Chart => {
            let read = gathered(opened, |read| crew.read(read));
            read.map_err(|ImportError { line, column, why }| {
                FileError::located(path, line, column, Why::Contents(why.to_string()))
            })?
        }
    };
    let stopped = || fail(Why::Contents(STOPPED.to_owned()));
    let (coast, extent, told) = gatherer.finish_by(&mut crew).ok_or_else(stopped)?;
    let shores = Shores::made_by(Arc::new(coast), &mut crew).ok_or_else(stopped)?;
    let title = chart::clean::clean(&name, chart::clean::NAME);
    let source = chart::clean::clean(&format!("Imported from {name}"), chart::clean::NOTE);
    let title = if title.is_empty() { "Shore".to_owned() } else { title };
    Ok(Imported { shores, about: About { title, source, extent, told } })
}

/// How many features wait between the thread that reads them and the one that gathers them.
const WAITING: usize = 256;

/// What is in a GeoJSON file: read by this thread, and put on the plane by another meanwhile.
fn gathered(
    from: File,
    progress: impl FnMut(u64) -> ControlFlow<()>,
) -> Result<Gatherer, ImportError> {
    thread::scope(|scope| {
        let (give, taken) = mpsc::sync_channel(WAITING);
        let gather = move || {
            let mut gatherer = Gatherer::new();
            taken.into_iter().try_for_each(|feature| gatherer.take(feature))?;
            gatherer.whole()
        };
        let Ok(gathering) = thread::Builder::new().spawn_scoped(scope, gather) else {
            // Without another thread this one does both.
            return Gatherer::geojson(from, progress);
        };
        let read = Gatherer::read_geojson(from, progress, |feature| {
            // The other has given up: what it says comes in place of this.
            give.send(feature).map_err(|_| geojson::Why::Cancelled)
        });
        drop(give);
        let gatherer = gathering.join().unwrap_or(Err(geojson::Why::Cancelled));
        match (read, gatherer) {
            (Ok(()), Ok(gatherer)) => Ok(gatherer),
            (Ok(()), Err(why)) => Err(ImportError { line: 1, column: 1, why }),
            (Err(error), Err(why @ geojson::Why::TooLarge(_))) => Err(ImportError { why, ..error }),
            (Err(error), _) => Err(error),
        }
    })
}

fn shore(error: ShoreFileError) -> Why {
    Why::Contents(error.to_string())
}

pub(crate) fn flat(error: FlatGeobufError) -> Why {
    match error {
        FlatGeobufError::Read(error) => Why::Unreadable(error),
        error => Why::Contents(error.to_string()),
    }
}

/// Everything that is wrong with or odd about the shore in a file.
pub(crate) fn check_shore(path: &Path) -> Result<Vec<FileError>, FileError> {
    let fail = |why| FileError::new(path, why);
    if Holds::of(path) == Holds::Shore {
        let (opened, known) = read::open(path, "shore")?;
        let bytes = whole(&opened, known.len()).map_err(|error| fail(Why::Unreadable(error)))?;
        let faults: Vec<_> = file::check((*bytes).as_ref()).into_iter().map(shore).collect();
        if !faults.is_empty() {
            return Ok(faults.into_iter().map(fail).collect());
        }
    }
    let imported = import_coast(path, &mut |_, _| ControlFlow::Continue(()))?;
    let told = imported.about.told.to_string();
    let coast = imported.shores.full();
    let crossed = rings_that_cross_themselves(coast);
    let said = [told].into_iter().chain(crossed).filter(|said| !said.is_empty());
    Ok(said.map(|said| fail(Why::Contents(said))).collect())
}

/// How many rings of a shore cross themselves and where the first does, in words; nothing if none
/// does.
#[must_use]
pub fn rings_that_cross_themselves(coast: &Coast) -> Option<String> {
    let Crossed { rings, first } = file::crossed(coast)?;
    let point = nav::GridPoint::from_metres(first.x, first.y).ok();
    let place = point.and_then(|point| coast.grid().inverse(point).ok());
    let at = place.map_or_else(String::new, |place| {
        let (lat, lon) = (place.position.lat.as_degrees(), place.position.lon.as_degrees());
        format!(" at [{lon:.6}, {lat:.6}]")
    });
    Some(match rings {
        1 => format!("1 ring crosses itself{at}; it is measured as it is given"),
        _ => format!(
            "{rings} rings cross themselves, the first{at}; they are measured as they are given"
        ),
    })
}

/// Saves a shore in the file at `path`: as FlatGeobuf where its name ends in `.fgb`, as a shore file
/// otherwise; whole, on the disk, or not at all. `go_on` may break the writing off.
///
/// # Errors
/// [`FileError`] when it cannot be saved; what was there is as it was.
pub fn save_coast(
    path: &Path,
    imported: &Imported,
    overwrite: Overwrite,
    go_on: &mut dyn FnMut() -> ControlFlow<()>,
) -> Result<(), FileError> {
    let is_flat = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("fgb"));
    save_with(path, overwrite, |new| {
        let new = Breakable { new, go_on };
        if is_flat {
            flatgeobuf::write(imported.shores.full(), &imported.about.title, new)
        } else {
            file::write(&imported.shores, &imported.about, new)
        }
    })
}

/// What is said of what was broken off.
const STOPPED: &str = "stopped before the end";

/// A writer that can be broken off.
struct Breakable<'a> {
    new: &'a mut dyn io::Write,
    go_on: &'a mut dyn FnMut() -> ControlFlow<()>,
}

/// How much is written between two looks, in bytes.
const STRIDE: usize = 1 << 20;

impl io::Write for Breakable<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if (self.go_on)().is_break() {
            return Err(io::Error::other(STOPPED));
        }
        self.new.write(bytes.get(..STRIDE).unwrap_or(bytes))
    }

    fn flush(&mut self) -> io::Result<()> {
        self.new.flush()
    }
}

#[cfg(test)]
mod tests;
