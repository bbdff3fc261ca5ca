//! The bytes of a file: mapped, read whole, or read where they lie.

use std::fs::File;
use std::io::{self, Read};

use bytemuck::cast_slice_mut;
use chart::coast::SharedBytes;
use chart::flatgeobuf::Bytes;
use std::sync::Arc;

/// The bytes of a file of our own cache, mapped: only what is looked at is read.
///
/// Files there are written whole under another name and then renamed, and never changed in their
/// place: whoever makes one anew or takes one away leaves the bytes that are mapped as they are.
/// Nothing else may be handed to this function, since bytes of a mapped file that somebody changes
/// or cuts short are not what the language takes a slice to be.
pub(crate) fn map(file: &File) -> io::Result<SharedBytes> {
    #[allow(
        unsafe_code,
        reason = "a mapped shore opens in milliseconds and leaves memory free; \
                                   the files are only ever renamed into their place, see above"
    )]
    // SAFETY: the file is one of the cache, which nobody changes in its place.
    let mapped = unsafe { memmap2::Mmap::map(file)? };
    Ok(Arc::new(mapped))
}

/// Bytes in memory, aligned as a mapped file's are.
struct Aligned {
    words: Vec<u64>,
    bytes: usize,
}

impl AsRef<[u8]> for Aligned {
    fn as_ref(&self) -> &[u8] {
        bytemuck::cast_slice(&self.words).get(..self.bytes).unwrap_or_default()
    }
}

/// The bytes of a file of that size, read whole.
pub(crate) fn whole(mut file: &File, size: u64) -> io::Result<SharedBytes> {
    let bytes = usize::try_from(size).map_err(|_| io::ErrorKind::OutOfMemory)?;
    let mut words = Vec::new();
    words.try_reserve_exact(bytes.div_ceil(8)).map_err(|_| io::ErrorKind::OutOfMemory)?;
    words.resize(bytes.div_ceil(8), 0);
    file.read_exact(cast_slice_mut(&mut words).get_mut(..bytes).unwrap_or_default())?;
    Ok(Arc::new(Aligned { words, bytes }))
}

/// A file that is read by position.
pub(crate) struct Positional {
    pub(crate) file: File,
    pub(crate) size: u64,
}

impl Bytes for Positional {
    fn size(&self) -> u64 {
        self.size
    }

    #[cfg(unix)]
    fn read_at(&self, from: u64, into: &mut [u8]) -> io::Result<()> {
        std::os::unix::fs::FileExt::read_exact_at(&self.file, into, from)
    }

    #[cfg(not(unix))]
    fn read_at(&self, from: u64, into: &mut [u8]) -> io::Result<()> {
        use std::io::{Seek, SeekFrom};
        let mut file = &self.file;
        file.seek(SeekFrom::Start(from))?;
        file.read_exact(into)
    }
}
