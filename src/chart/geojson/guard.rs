//! A reader that watches what passes through it: how much, how long its tokens are, and where.
//!
//! The JSON parser keeps whole tokens in memory. A gigabyte without a quote or a comma would be
//! one token; the guard ends it long before. A gigabyte of short tokens on one line is no matter.

use std::cell::Cell;
use std::io::{self, BufReader, ErrorKind, Read};
use std::ops::ControlFlow;
use std::rc::Rc;

/// The longest string or number, in bytes.
pub(super) const LONGEST_TOKEN: usize = 1 << 20;

/// The deepest nesting of lists and objects: a collection's feature's polygons come to seven.
pub(super) const DEEPEST: usize = 100;

/// How many bytes pass between two calls of the progress function.
const STRIDE: u64 = 1 << 18;

/// Why the guard stopped the reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stop {
    /// The progress function asked for it.
    Cancelled,
    /// A token is too long.
    LongToken,
    /// The nesting is too deep.
    TooDeep,
}

/// The line, from 1, and the column in characters of what was read last, for whoever wants to know.
pub(super) type Place = Rc<Cell<(usize, usize)>>;

/// See the module.
pub(super) struct Guard<R, P> {
    from: BufReader<R>,
    progress: P,
    bytes: u64,
    token: usize,
    depth: usize,
    in_string: bool,
    escaped: bool,
    place: Place,
    /// Bytes of the line that continue a character: the parser counts them as columns.
    pub(super) continuations: usize,
    /// Why the reading was stopped, if it was.
    pub(super) stop: Option<Stop>,
}

impl<R: Read, P: FnMut(u64) -> ControlFlow<()>> Guard<R, P> {
    pub(super) fn new(from: R, progress: P, place: Place) -> Guard<R, P> {
        Guard {
            from: BufReader::with_capacity(1 << 16, from),
            progress,
            bytes: 0,
            token: 0,
            depth: 0,
            place,
            in_string: false,
            escaped: false,
            continuations: 0,
            stop: None,
        }
    }

    fn watch(&mut self, byte: u8) -> io::Result<()> {
        self.bytes += 1;
        if self.bytes.is_multiple_of(STRIDE) && (self.progress)(self.bytes).is_break() {
            return self.stop(Stop::Cancelled);
        }
        self.follow_line(byte);
        self.follow_token(byte);
        if self.token > LONGEST_TOKEN {
            return self.stop(Stop::LongToken);
        }
        if self.depth > DEEPEST {
            return self.stop(Stop::TooDeep);
        }
        Ok(())
    }

    fn follow_line(&mut self, byte: u8) {
        let (line, column) = self.place.get();
        match byte {
            b'\n' => {
                self.continuations = 0;
                self.place.set((line + 1, 0));
            }
            0x80..=0xBF => self.continuations += 1,
            _ => self.place.set((line, column + 1)),
        }
    }

    fn follow_token(&mut self, byte: u8) {
        let ends = if self.in_string {
            let ends = byte == b'"' && !self.escaped;
            self.escaped = byte == b'\\' && !self.escaped;
            self.in_string = !ends;
            ends
        } else {
            self.in_string = byte == b'"';
            match byte {
                b'[' | b'{' => self.depth += 1,
                b']' | b'}' => self.depth = self.depth.saturating_sub(1),
                _ => {}
            }
            byte.is_ascii_whitespace() || b"[]{},:".contains(&byte)
        };
        self.token = if ends { 0 } else { self.token + 1 };
    }

    fn stop(&mut self, why: Stop) -> io::Result<()> {
        self.stop = Some(why);
        // Not `Interrupted`: that would be tried again.
        Err(io::Error::from(ErrorKind::Other))
    }
}

impl<R: Read, P: FnMut(u64) -> ControlFlow<()>> Read for Guard<R, P> {
    /// Serves a byte at a time: the parser asks for no more, and so what has been watched is what
    /// has been parsed.
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let Some(first) = buffer.get_mut(..1) else { return Ok(0) };
        let count = self.from.read(first)?;
        if count == 1 {
            let byte = first[0];
            self.watch(byte)?;
        }
        Ok(count)
    }
}
