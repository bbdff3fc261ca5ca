//! Bytes and text from a file or an input, within bounds.

use std::fs::{File, Metadata};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use crate::{FileError, Why};

/// The name that stands for standard input where a file is expected.
pub const STANDARD_INPUT: &str = "-";

/// Where something is read from.
pub enum Source<'a> {
    /// A file.
    File(&'a Path),
    /// An input that is open already, such as standard input.
    Input(&'a mut dyn Read),
}

impl<'a> Source<'a> {
    /// The file at `path`; for `-`, `input`.
    pub fn or_input(path: &'a Path, input: &'a mut dyn Read) -> Source<'a> {
        if path == Path::new(STANDARD_INPUT) { Source::Input(input) } else { Source::File(path) }
    }

    /// What messages call it, and what it is beside.
    pub(crate) fn path(&self) -> PathBuf {
        match self {
            Source::File(path) => path.to_path_buf(),
            Source::Input(_) => PathBuf::from("standard input"),
        }
    }
}

impl<'a, P: AsRef<Path> + ?Sized> From<&'a P> for Source<'a> {
    fn from(path: &'a P) -> Source<'a> {
        Source::File(path.as_ref())
    }
}

/// What a file should be.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Kind {
    /// In one word, for messages.
    pub(crate) what: &'static str,
    /// The most bytes that one has: what is larger is not read, so that no file, device or pipe
    /// can fill the memory.
    pub(crate) most: u64,
    /// What would be right for something larger, or empty.
    pub(crate) hint: &'static str,
}

/// The text of a source, without a byte order mark.
pub(crate) fn text(from: Source<'_>, kind: Kind) -> Result<String, FileError> {
    let path = from.path();
    let mut bytes = bytes(from, &path, kind)?;
    if bytes.starts_with(BYTE_ORDER_MARK) {
        bytes.drain(..BYTE_ORDER_MARK.len());
    }
    String::from_utf8(bytes)
        .map_err(|error| not_text(&path, kind, error.as_bytes(), error.utf8_error()))
}

const BYTE_ORDER_MARK: &[u8] = b"\xEF\xBB\xBF";

fn bytes(from: Source<'_>, path: &Path, kind: Kind) -> Result<Vec<u8>, FileError> {
    let fail = |why| FileError::new(path, why);
    let too_big = || fail(Why::TooBig { what: kind.what, most: kind.most, hint: kind.hint });
    let read = match from {
        Source::Input(input) => up_to(input, kind.most),
        Source::File(path) => {
            let (file, known) = open(path, kind.what)?;
            if known.len() > kind.most {
                return Err(too_big());
            }
            up_to(file, kind.most)
        }
    };
    read.map_err(|error| fail(unread(error)))?.ok_or_else(too_big)
}

/// The file at `path`, open, with what is known about it; a folder is refused.
pub(crate) fn open(path: &Path, what: &'static str) -> Result<(File, Metadata), FileError> {
    let fail = |error| FileError::new(path, unread(error));
    let file = File::open(path).map_err(fail)?;
    let known = file.metadata().map_err(fail)?;
    if known.is_dir() {
        return Err(FileError::new(path, Why::Folder(what)));
    }
    Ok((file, known))
}

/// The table at `path`, open to be read as a stream.
///
/// # Errors
/// [`FileError`] when it cannot be opened or is a folder.
pub fn open_table(path: &Path) -> Result<File, FileError> {
    open(path, "table").map(|(file, _)| file)
}

/// Everything that `from` gives, or nothing if that is more than `most` bytes.
fn up_to(from: impl Read, most: u64) -> io::Result<Option<Vec<u8>>> {
    let mut bytes = Vec::new();
    let read = from.take(most + 1).read_to_end(&mut bytes)?;
    Ok((read as u64 <= most).then_some(bytes))
}

fn unread(error: io::Error) -> Why {
    match error.kind() {
        io::ErrorKind::NotFound => Why::Missing,
        _ => Why::Unreadable(error),
    }
}

fn not_text(path: &Path, kind: Kind, bytes: &[u8], error: std::str::Utf8Error) -> FileError {
    let (valid, rest) = bytes.split_at(error.valid_up_to());
    let before = String::from_utf8_lossy(valid);
    let line = before.matches('\n').count() + 1;
    let column = before.rsplit('\n').next().unwrap_or("").chars().count() + 1;
    let byte = rest.first().copied().unwrap_or_default();
    FileError::at(path, &before, line, column, Why::NotText(byte, kind.what))
}
