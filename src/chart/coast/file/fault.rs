//! Why a file is no shore file.

use super::super::SlabError;
use super::super::parts::PartsError;

/// Why a file is no shore file, or a broken one.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ShoreFileError {
    /// It does not begin as one.
    #[error("not a shore file: it does not begin as one; `chart import` makes one")]
    NotShore,
    /// It is of another version.
    #[error(
        "version {0} of the shore file; this program reads version {version}: import the shore again",
        version = super::VERSION
    )]
    Version(u32),
    /// It was written by a machine that turns its bytes round.
    #[error("written on a machine of another byte order: import the shore again")]
    ByteOrder,
    /// It ends early, or goes on.
    #[error("{found} bytes, of {said} that it says it has: import the shore again")]
    Size {
        /// How many there are.
        found: u64,
        /// How many there should be.
        said: u64,
    },
    /// A part is not what was written.
    #[error("damaged: the checksum of {0} does not fit; import the shore again")]
    Checksum(&'static str),
    /// A part is not there, or twice.
    #[error("damaged: {0} is missing; import the shore again")]
    Missing(&'static str),
    /// A part lies where none can lie.
    #[error("damaged: {what}: {why}; import the shore again")]
    Broken {
        /// Which part.
        what: &'static str,
        /// What is wrong with it.
        why: String,
    },
}

impl ShoreFileError {
    pub(super) fn slab(what: &'static str) -> impl Fn(SlabError) -> ShoreFileError {
        move |error| ShoreFileError::Broken { what, why: error.to_string() }
    }

    pub(super) fn parts(error: PartsError) -> ShoreFileError {
        ShoreFileError::Broken { what: "its arrays", why: error.to_string() }
    }
}
