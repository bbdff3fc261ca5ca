//! A stream that gives UTF-8 text alone, counts lines and columns, and stops where a piece has no end.

use std::io::{self, BufRead, Read};

use super::fault::{Fault, Place, Why};

/// How many bytes are read at once.
const STRIDE: usize = 1 << 17;

/// The longest piece of XML: a tag, a text, a comment.
pub(super) const LONGEST: usize = 1 << 20;

/// See the module. After an error of its own, [`Guard::why`] says what it was and [`Guard::place`] where.
pub(super) struct Guard<R> {
    from: R,
    chunk: Box<[u8]>,
    /// What is next, in the chunk.
    at: usize,
    /// Where whole characters end in the chunk.
    whole: usize,
    /// Where what has been read ends in the chunk.
    filled: usize,
    ended: bool,
    place: Place,
    /// How many bytes of a piece have been taken, and how many it may have.
    taken: usize,
    longest: usize,
    why: Option<Why>,
}

impl<R: Read> Guard<R> {
    /// A stream whose pieces, from one [`Guard::begin`] to the next, are bounded.
    pub(super) fn new(from: R, longest: usize) -> Guard<R> {
        Guard {
            from,
            chunk: vec![0; STRIDE].into_boxed_slice(),
            at: 0,
            whole: 0,
            filled: 0,
            ended: false,
            place: Place::START,
            taken: 0,
            longest,
            why: None,
        }
    }

    /// Why a reading failed, and where.
    pub(super) fn fault(&mut self, error: io::Error) -> Fault {
        let place = self.place;
        self.why().unwrap_or(Why::Read(error)).at(place)
    }

    /// The place of what is next.
    pub(super) const fn place(&self) -> Place {
        self.place
    }

    /// Begins a piece, whose length is bounded.
    pub(super) const fn begin(&mut self) {
        self.taken = 0;
    }

    /// Why the last reading failed, if it was this guard that ended it.
    pub(super) const fn why(&mut self) -> Option<Why> {
        self.why.take()
    }

    fn stop(&mut self, why: Why) -> io::Error {
        self.why = Some(why);
        io::Error::from(io::ErrorKind::InvalidInput)
    }

    /// Reads on, keeping the beginning of a character that is not whole yet.
    fn refill(&mut self) -> io::Result<()> {
        self.chunk.copy_within(self.whole..self.filled, 0);
        self.filled -= self.whole;
        (self.at, self.whole) = (0, 0);
        while self.whole == 0 && !self.ended {
            let room = self.chunk.get_mut(self.filled..).unwrap_or_default();
            match self.from.read(room) {
                Ok(0) => self.ended = true,
                Ok(count) => self.filled += count,
                Err(error) if error.kind() == io::ErrorKind::Interrupted => continue,
                Err(error) => return Err(self.stop(Why::Read(error))),
            }
            let read = self.chunk.get(..self.filled).unwrap_or_default();
            let (whole, broken) = match std::str::from_utf8(read) {
                Ok(_) => (self.filled, false),
                Err(error) => (error.valid_up_to(), error.error_len().is_some() || self.ended),
            };
            self.whole = whole;
            // What comes before it is given out first.
            if broken && whole == 0 {
                let byte = read.first().copied().unwrap_or_default();
                let marked = self.place == Place::START
                    && matches!(read, [0xFE, 0xFF, ..] | [0xFF, 0xFE, ..]);
                let utf16 = || Why::Encoding("UTF-16".to_owned());
                return Err(self.stop(if marked { utf16() } else { Why::NotText(byte) }));
            }
        }
        Ok(())
    }
}

impl<R: Read> Read for Guard<R> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        let count = self.fill_buf()?.read(into)?;
        self.consume(count);
        Ok(count)
    }
}

impl<R: Read> BufRead for Guard<R> {
    fn fill_buf(&mut self) -> io::Result<&[u8]> {
        if self.taken > self.longest {
            return Err(self.stop(Why::Long { most: self.longest }));
        }
        if self.at == self.whole {
            self.refill()?;
        }
        Ok(self.chunk.get(self.at..self.whole).unwrap_or_default())
    }

    fn consume(&mut self, count: usize) {
        let end = (self.at + count).min(self.whole);
        self.place = self.place.after(self.chunk.get(self.at..end).unwrap_or_default());
        self.taken += count;
        self.at = end;
    }
}
