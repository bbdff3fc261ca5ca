//! An array of plain numbers, owned or in a mapped file.

use bytemuck::Pod;
use std::fmt;
use std::marker::PhantomData;
use std::ops::{Deref, Range};
use std::sync::Arc;

/// Bytes that somebody else holds, a mapped file as a rule, shared by the arrays in them.
pub type SharedBytes = Arc<dyn AsRef<[u8]> + Send + Sync>;

/// Why some bytes are not an array.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SlabError {
    /// The stretch of bytes is not all there.
    #[error("bytes {start} to {end} are asked for, of {len}")]
    Short {
        /// Where the array begins.
        start: usize,
        /// Where it ends.
        end: usize,
        /// How many bytes there are.
        len: usize,
    },
    /// No whole number of elements fits, or they do not begin where the machine can read them.
    #[error("{len} bytes at {start} are no array of elements of {size} bytes: {why}")]
    Shape {
        /// Where the array begins.
        start: usize,
        /// How many bytes it has.
        len: usize,
        /// How many bytes an element has.
        size: usize,
        /// What does not fit.
        why: String,
    },
}

/// An array of plain numbers: owned, or a part of a mapped file that is read where it lies.
#[derive(Clone)]
pub struct Slab<T: Pod>(Held<T>);

#[derive(Clone)]
enum Held<T: Pod> {
    Owned(Vec<T>),
    Mapped { bytes: SharedBytes, range: Range<usize>, of: PhantomData<T> },
}

impl<T: Pod> Slab<T> {
    /// The array in a range of bytes.
    ///
    /// # Errors
    /// [`SlabError`] if the range reaches beyond the bytes, or if length or alignment do not fit
    /// the elements.
    pub fn mapped(bytes: SharedBytes, range: Range<usize>) -> Result<Slab<T>, SlabError> {
        let all = (*bytes).as_ref();
        let (start, end, len) = (range.start, range.end, all.len());
        let part = all.get(range.clone()).ok_or(SlabError::Short { start, end, len })?;
        bytemuck::try_cast_slice::<u8, T>(part).map_err(|why| SlabError::Shape {
            start,
            len: part.len(),
            size: size_of::<T>(),
            why: why.to_string(),
        })?;
        Ok(Slab(Held::Mapped { bytes, range, of: PhantomData }))
    }

    /// The array as bytes, in the machine's own order.
    #[must_use]
    pub fn as_bytes(&self) -> &[u8] {
        bytemuck::cast_slice(self)
    }
}

impl<T: Pod> From<Vec<T>> for Slab<T> {
    fn from(owned: Vec<T>) -> Slab<T> {
        Slab(Held::Owned(owned))
    }
}

impl<T: Pod> Default for Slab<T> {
    fn default() -> Slab<T> {
        Slab::from(Vec::new())
    }
}

impl<T: Pod> Deref for Slab<T> {
    type Target = [T];

    fn deref(&self) -> &[T] {
        match &self.0 {
            Held::Owned(owned) => owned,
            // Both were found to fit when the slab was made; bytes that change under it since are
            // an empty array, not a panic.
            Held::Mapped { bytes, range, .. } => {
                let part = (**bytes).as_ref().get(range.clone()).unwrap_or(&[]);
                bytemuck::try_cast_slice(part).unwrap_or(&[])
            }
        }
    }
}

impl<T: Pod + PartialEq> PartialEq for Slab<T> {
    fn eq(&self, other: &Slab<T>) -> bool {
        **self == **other
    }
}

impl<T: Pod> fmt::Debug for Slab<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let held = match self.0 {
            Held::Owned(_) => "owned",
            Held::Mapped { .. } => "mapped",
        };
        write!(f, "Slab({} {held})", self.len())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Bytes that begin where a number of eight bytes may.
    struct Aligned(Vec<u64>);

    impl AsRef<[u8]> for Aligned {
        fn as_ref(&self) -> &[u8] {
            bytemuck::cast_slice(&self.0)
        }
    }

    fn shared() -> SharedBytes {
        Arc::new(Aligned(vec![1, 2, 3]))
    }

    #[test]
    fn owned_and_mapped_are_alike() {
        let mapped = Slab::<u64>::mapped(shared(), 8..24).unwrap();
        assert_eq!(&*mapped, [2, 3]);
        assert_eq!(mapped, Slab::from(vec![2, 3]));
        assert_eq!(mapped.as_bytes(), Slab::from(vec![2_u64, 3]).as_bytes());
    }

    #[test]
    fn what_does_not_fit_is_refused() {
        let short = Slab::<u64>::mapped(shared(), 16..32).unwrap_err();
        assert_eq!(short.to_string(), "bytes 16 to 32 are asked for, of 24");
        #[allow(clippy::reversed_empty_ranges, reason = "what a damaged file may ask for")]
        let backwards = Slab::<u64>::mapped(shared(), 16..8);
        assert!(matches!(backwards, Err(SlabError::Short { .. })));
        assert!(matches!(Slab::<u64>::mapped(shared(), 0..12), Err(SlabError::Shape { .. })));
        assert!(matches!(Slab::<u64>::mapped(shared(), 4..12), Err(SlabError::Shape { .. })));
    }
}
