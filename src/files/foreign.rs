//! Files that other tools wrote, read as streams.

use std::io::Read;
use std::ops::ControlFlow;

use nav::Grid;
use paper::exchange::{Fault, Foreign, Form, Why as Wrong};

use crate::{FileError, Source, Why, read};

/// Told how many bytes have been read and, where it is known, of how many; it may ask to stop.
pub type Told<'a> = &'a mut dyn FnMut(u64, Option<u64>) -> ControlFlow<()>;

/// What a file or an input of another tool holds. Where its form is not given, the ending of the file's name tells,
/// and else how it begins.
///
/// # Errors
/// [`FileError`] when it cannot be read or is not of that form; with line and column where it is about the
/// contents.
pub fn open_foreign<'a>(
    from: impl Into<Source<'a>>,
    form: Option<Form>,
    told: Told<'_>,
) -> Result<Foreign, FileError> {
    open_foreign_on(from, form, None, told)
}

/// As [`open_foreign`], the references in a table read on `grid`.
///
/// # Errors
/// As [`open_foreign`].
pub fn open_foreign_on<'a>(
    from: impl Into<Source<'a>>,
    form: Option<Form>,
    grid: Option<&Grid>,
    told: Told<'_>,
) -> Result<Foreign, FileError> {
    let from = from.into();
    let path = from.path();
    let form = form.or_else(|| Form::of_name(&path.to_string_lossy()));
    let fault = |Fault { place, why }| match why {
        Wrong::Read(error) => FileError::new(&path, Why::Unreadable(error)),
        why => FileError::located(&path, place.line, place.column, Why::Contents(why.to_string())),
    };
    let (size, input): (_, Box<dyn Read + '_>) = match from {
        Source::Input(input) => (None, Box::new(input)),
        Source::File(path) => {
            let (file, known) = read::open(path, "file of points")?;
            (Some(known.len()), Box::new(file))
        }
    };
    let counted = Counted { from: input, read: 0, size, told };
    paper::exchange::read(counted, form, grid).map_err(fault)
}

/// A stream that tells how far it is.
struct Counted<'a, 't> {
    from: Box<dyn Read + 'a>,
    read: u64,
    size: Option<u64>,
    told: Told<'t>,
}

impl Read for Counted<'_, '_> {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        if (self.told)(self.read, self.size).is_break() {
            return Err(std::io::Error::other("stopped before the end"));
        }
        let count = self.from.read(into)?;
        self.read += count as u64;
        Ok(count)
    }
}
