//! Routes on the disk.

use std::fs;
use std::path::{Path, PathBuf};

use plan::Route;

use crate::read::{self, Kind};
use crate::{FileError, Overwrite, Source, Why, save_text};

/// A thousand points with the longest notes, each letter escaped, come to less.
const ROUTE: Kind = Kind { what: "route", most: 8 << 20, hint: "" };

/// The route in a file or on an input.
///
/// # Errors
/// [`FileError`] when the file cannot be read or is not a route; with line and column where it
/// is about the contents.
pub fn open_route<'a>(from: impl Into<Source<'a>>) -> Result<Route, FileError> {
    let from = from.into();
    let path = from.path();
    let text = read::text(from, ROUTE)?;
    route_of(&path, &text)
}

fn route_of(path: &Path, text: &str) -> Result<Route, FileError> {
    plan::format::read(text).map_err(|error| {
        FileError::at(path, text, error.line, error.column, Why::Contents(error.message))
    })
}

/// Saves `route` in the file at `path`: whole, on the disk, or not at all.
///
/// # Errors
/// [`FileError`] when it cannot be saved; the file is as it was.
pub fn save_route(path: &Path, route: &Route) -> Result<(), FileError> {
    save_text(path, &plan::format::write(route), Overwrite::Yes)
}

/// A route's file while it is open, with what this program last saw in it, so that what another
/// program writes there meanwhile is not lost.
#[derive(Debug)]
pub struct RouteFile {
    path: PathBuf,
    seen: Option<String>,
}

/// How many versions of a file are kept beside it before saving is refused.
const MOST_KEPT: usize = 99;

impl RouteFile {
    /// The file at `path` with the route in it, if there is a file.
    ///
    /// # Errors
    /// [`FileError`] as [`open_route`] has it, but for a file that is not there.
    pub fn open(path: &Path) -> Result<(RouteFile, Option<Route>), FileError> {
        let file = |seen| RouteFile { path: path.to_owned(), seen };
        match read::text(Source::from(path), ROUTE) {
            Ok(text) => {
                let route = route_of(path, &text)?;
                Ok((file(Some(text)), Some(route)))
            }
            Err(FileError { why: Why::Missing, .. }) => Ok((file(None), None)),
            Err(error) => Err(error),
        }
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Saves `route` as [`save_route`] does. If another program has changed the file since it was
    /// last seen, what it wrote is first copied beside it; the answer says where to.
    ///
    /// # Errors
    /// [`FileError`] when it cannot be saved or what is there not copied; the file is as it was.
    pub fn save(&mut self, route: &Route) -> Result<Option<PathBuf>, FileError> {
        let changed = match read::text(Source::from(&self.path), ROUTE) {
            Ok(text) => self.seen.as_deref() != Some(&text),
            Err(FileError { why: Why::Missing, .. }) => false,
            // What cannot be read as a route's text is not what was seen.
            Err(_) => self.path.is_file(),
        };
        let kept = if changed { Some(self.keep_other()?) } else { None };
        let text = plan::format::write(route);
        save_text(&self.path, &text, Overwrite::Yes)?;
        self.seen = Some(text);
        Ok(kept)
    }

    /// Copies the file as another program left it to the first free name beside it.
    fn keep_other(&self) -> Result<PathBuf, FileError> {
        let fail = |error| FileError::new(&self.path, Why::Unwritable(error));
        let name = |number: usize| self.path.with_extension(format!("other-{number}.ron"));
        let free = (1..=MOST_KEPT).map(name).find(|path| !path.exists());
        let to = free.ok_or_else(|| fail(std::io::ErrorKind::AlreadyExists.into()))?;
        fs::copy(&self.path, &to).map_err(fail)?;
        Ok(to)
    }
}

#[cfg(test)]
mod tests;
