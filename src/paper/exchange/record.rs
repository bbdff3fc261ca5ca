//! CSV records (RFC 4180), a record at a time, as they were written and where they stand.
//!
//! A record is kept as it came, so that it goes out byte for byte, and each of its cells knows
//! its line and column for an error's sake; no general reader gives both.

use std::borrow::Cow;
use std::io::{self, BufRead, ErrorKind};
use std::ops::Range;

use super::Place;

/// The longest record: more than any table has, and little enough to hold.
const MOST: usize = 1 << 20;

/// The records of an input. Empty lines are none.
pub struct Records<'a> {
    input: &'a mut dyn BufRead,
    /// How many lines have been read.
    lines: usize,
}

/// One record.
#[derive(Debug, Default)]
pub struct Record {
    /// As it was written, with its line ending.
    raw: Vec<u8>,
    cells: Vec<Range<usize>>,
    /// Where the text ends and the line ending begins.
    end: usize,
    /// The line that it begins in, from one.
    pub line: usize,
}

/// Why there is no next record.
#[derive(Debug, thiserror::Error)]
pub enum RecordError {
    /// The input cannot be read on.
    #[error(transparent)]
    Read(#[from] io::Error),
    /// It is no CSV.
    #[error("{what}")]
    Malformed {
        /// Where.
        place: Place,
        /// What is wrong.
        what: &'static str,
    },
}

impl<'a> Records<'a> {
    /// The records of an input.
    pub fn new(input: &'a mut dyn BufRead) -> Records<'a> {
        Records { input, lines: 0 }
    }

    /// Reads the next record into `record`; false at the end.
    ///
    /// # Errors
    /// [`RecordError`] when the input cannot be read on, or is no CSV.
    pub fn read(&mut self, record: &mut Record) -> Result<bool, RecordError> {
        loop {
            record.clear(self.lines + 1);
            if !self.line(record)? {
                return Ok(false);
            }
            if self.lines == 1 && record.raw.starts_with("\u{feff}".as_bytes()) {
                record.raw.drain(..3);
            }
            if !matches!(record.raw.as_slice(), b"\n" | b"\r\n" | b"\r") {
                break;
            }
        }
        let mut scan = Scan::default();
        while scan.on(record)? {
            // A line break between quotes belongs to the cell.
            if !self.line(record)? {
                return Err(record.malformed(scan.start, "this quote is never closed"));
            }
        }
        Ok(true)
    }

    /// Appends the next line to a record; false at the end of the input.
    fn line(&mut self, record: &mut Record) -> Result<bool, RecordError> {
        let mut any = false;
        loop {
            let found = match self.input.fill_buf() {
                Ok(found) => found,
                Err(error) if error.kind() == ErrorKind::Interrupted => continue,
                Err(error) => return Err(error.into()),
            };
            let newline = found.iter().position(|&byte| byte == b'\n');
            let length = newline.map_or(found.len(), |at| at + 1);
            record.raw.extend_from_slice(&found[..length]);
            self.input.consume(length);
            if record.raw.len() > MOST {
                let what =
                    "this row is longer than 1 MiB; is a quote left open, or is it no table?";
                return Err(record.malformed(0, what));
            }
            any |= length > 0;
            if newline.is_some() || length == 0 {
                self.lines += usize::from(any);
                return Ok(any);
            }
        }
    }
}

impl Record {
    fn clear(&mut self, line: usize) {
        self.raw.clear();
        self.cells.clear();
        self.end = 0;
        self.line = line;
    }

    /// How many cells it has.
    pub fn count(&self) -> usize {
        self.cells.len()
    }

    /// The text as it was written, without its line ending.
    pub fn text(&self) -> &[u8] {
        &self.raw[..self.end]
    }

    /// The line ending, or nothing at the end of an input without one.
    pub fn ending(&self) -> &[u8] {
        &self.raw[self.end..]
    }

    /// What a cell holds, quotes taken off.
    pub fn cell(&self, index: usize) -> Cow<'_, [u8]> {
        let written = self.cells.get(index).map_or(&[][..], |range| &self.raw[range.clone()]);
        let Some(quoted) = written.strip_prefix(b"\"") else { return Cow::Borrowed(written) };
        let inner = quoted.strip_suffix(b"\"").unwrap_or(quoted);
        if !inner.contains(&b'"') {
            return Cow::Borrowed(inner);
        }
        let mut second = false;
        let single = |&&byte: &&u8| {
            second = byte == b'"' && !second;
            byte != b'"' || second
        };
        Cow::Owned(inner.iter().filter(single).copied().collect())
    }

    /// Where a cell begins, or, past the last, where the record ends.
    pub fn place(&self, index: usize) -> Place {
        self.place_of(self.cells.get(index).map_or(self.end, |range| range.start))
    }

    fn place_of(&self, byte: usize) -> Place {
        let before = &self.raw[..byte.min(self.raw.len())];
        let newlines = before.iter().filter(|&&byte| byte == b'\n').count();
        let last = before.iter().rposition(|&byte| byte == b'\n').map_or(0, |at| at + 1);
        let column = String::from_utf8_lossy(&before[last..]).chars().count() + 1;
        Place { line: self.line + newlines, column }
    }

    fn malformed(&self, byte: usize, what: &'static str) -> RecordError {
        RecordError::Malformed { place: self.place_of(byte), what }
    }
}

/// Where the scan of a record for its cells stands.
#[derive(Default)]
struct Scan {
    at: usize,
    /// Where the present cell begins.
    start: usize,
    state: State,
}

#[derive(Default, Clone, Copy, PartialEq, Eq)]
enum State {
    /// At the beginning of a cell, or in one without quotes.
    #[default]
    Plain,
    Quoted,
    /// Behind a quote that closes the cell, or is the first of two that stand for one.
    Closed,
}

impl Scan {
    /// Scans what has been read; true if the record goes on in the next line.
    fn on(&mut self, record: &mut Record) -> Result<bool, RecordError> {
        record.end = record.raw.len() - ending(&record.raw);
        let plain_end = record.end;
        while self.at < record.raw.len() {
            if self.state != State::Quoted && self.at >= plain_end {
                break;
            }
            let byte = record.raw[self.at];
            self.state = match (self.state, byte) {
                (State::Plain, b'"') if self.at == self.start => State::Quoted,
                (State::Quoted, b'"') => State::Closed,
                (State::Closed, b'"') => State::Quoted,
                (State::Plain | State::Closed, b',') => {
                    record.cells.push(self.start..self.at);
                    self.start = self.at + 1;
                    State::Plain
                }
                (State::Closed, _) => {
                    let what =
                        "text behind a closing quote; a quote within quotes is written twice";
                    return Err(record.malformed(self.at, what));
                }
                (state, _) => state,
            };
            self.at += 1;
        }
        if self.state == State::Quoted {
            return Ok(true);
        }
        record.cells.push(self.start..record.end);
        Ok(false)
    }
}

/// The length of the line ending.
fn ending(raw: &[u8]) -> usize {
    match raw {
        [.., b'\r', b'\n'] => 2,
        [.., b'\n' | b'\r'] => 1,
        _ => 0,
    }
}
