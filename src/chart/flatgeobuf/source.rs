//! Bytes that are read where they lie.

use std::io;

/// A file that is read by position.
pub trait Bytes {
    /// How many bytes it has.
    fn size(&self) -> u64;

    /// Fills `into` from the bytes at `from`.
    ///
    /// # Errors
    /// The system's, and [`UnexpectedEof`](io::ErrorKind::UnexpectedEof) past the end.
    fn read_at(&self, from: u64, into: &mut [u8]) -> io::Result<()>;
}

impl Bytes for [u8] {
    fn size(&self) -> u64 {
        self.len() as u64
    }

    fn read_at(&self, from: u64, into: &mut [u8]) -> io::Result<()> {
        let past_the_end = || io::Error::from(io::ErrorKind::UnexpectedEof);
        let start = usize::try_from(from).map_err(|_| past_the_end())?;
        let rest = self.get(start..).and_then(|rest| rest.get(..into.len()));
        into.copy_from_slice(rest.ok_or_else(past_the_end)?);
        Ok(())
    }
}

/// How much is read at once where little pieces follow each other.
const AHEAD: u64 = 1 << 18;

/// The last piece that was read, so that neighbours cost no call of the system each.
pub(super) struct Window<'a, B: ?Sized> {
    from: &'a B,
    start: u64,
    held: Vec<u8>,
}

impl<'a, B: Bytes + ?Sized> Window<'a, B> {
    pub(super) fn new(from: &'a B) -> Window<'a, B> {
        Window { from, start: 0, held: Vec::new() }
    }

    pub(super) fn size(&self) -> u64 {
        self.from.size()
    }

    /// `count` bytes at `at`. Nothing is set aside for bytes that the file does not have.
    pub(super) fn bytes(&mut self, at: u64, count: u64, ahead: bool) -> io::Result<&[u8]> {
        let size = self.from.size();
        let end = at.checked_add(count).filter(|end| *end <= size);
        let end = end.ok_or(io::ErrorKind::UnexpectedEof)?;
        let held_end = self.start + self.held.len() as u64;
        if at < self.start || end > held_end {
            let wanted = if ahead { end.max(at.saturating_add(AHEAD)).min(size) } else { end };
            self.held.resize((wanted - at) as usize, 0);
            self.start = at;
            if let Err(error) = self.from.read_at(at, &mut self.held) {
                self.held.clear();
                return Err(error);
            }
        }
        let from = (at - self.start) as usize;
        self.held.get(from..from + count as usize).ok_or(io::ErrorKind::UnexpectedEof.into())
    }
}
