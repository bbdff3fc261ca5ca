//! The typeface of everything on paper: DejaVu Sans Condensed, regular and bold.
//!
//! It holds Latin with every accent, Greek, Cyrillic, Hebrew, Arabic and the signs of a chart, under a licence
//! that lets it be handed on (`fonts/LICENCE.txt`). What it lacks is shown as its box and counted.

mod scripts;
mod shape;
pub(crate) mod trace;
mod widths;

#[cfg(test)]
mod tests;

use std::sync::LazyLock;

use rustybuzz::{Direction, ShapePlan, script};

pub use shape::{Glyph, Read, Shaped};

use crate::draw::{Mm, Pt};

/// A face of the type.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Face {
    /// Regular.
    #[default]
    Regular,
    /// Bold.
    Bold,
}

static REGULAR: &[u8] = include_bytes!("../fonts/DejaVuSansCondensed.ttf");
static BOLD: &[u8] = include_bytes!("../fonts/DejaVuSansCondensed-Bold.ttf");

/// The tables of the two faces, read once. They never change.
static FACES: LazyLock<[Option<Tables>; 2]> = LazyLock::new(|| Face::ALL.map(Tables::read));

/// A face, read.
struct Tables {
    face: rustybuzz::Face<'static>,
    /// How Latin is shaped: made once, since most words are, and it takes longer than they do.
    latin: ShapePlan,
}

impl Tables {
    fn read(face: Face) -> Option<Tables> {
        let face = rustybuzz::Face::from_slice(face.data(), 0)?;
        let latin = ShapePlan::new(&face, Direction::LeftToRight, Some(script::LATIN), None, &[]);
        Some(Tables { face, latin })
    }
}

impl Face {
    /// Both.
    pub const ALL: [Face; 2] = [Face::Regular, Face::Bold];

    /// What the family is called.
    pub const FAMILY: &str = "DejaVu Sans Condensed";

    /// What the face is called where names have no spaces.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Face::Regular => "DejaVuSansCondensed",
            Face::Bold => "DejaVuSansCondensed-Bold",
        }
    }

    /// The font file.
    #[must_use]
    pub const fn data(self) -> &'static [u8] {
        match self {
            Face::Regular => REGULAR,
            Face::Bold => BOLD,
        }
    }

    /// Its tables; always there, as a test holds.
    pub(crate) fn tables(self) -> Option<&'static rustybuzz::Face<'static>> {
        FACES[self as usize].as_ref().map(|tables| &tables.face)
    }

    /// How it shapes Latin.
    fn latin(self) -> Option<&'static ShapePlan> {
        FACES[self as usize].as_ref().map(|tables| &tables.latin)
    }
}

/// The words in this face as glyphs, in the order in which they stand on paper.
#[must_use]
pub fn shape(face: Face, words: &str) -> Shaped {
    let shaped = Shaped::new(face, words);
    if shaped.missing == 0 || face == Face::Regular {
        return shaped;
    }
    // The regular face has more scripts: a name in one face is better than one full of boxes.
    let regular = Shaped::new(Face::Regular, words);
    if regular.missing < shaped.missing { regular } else { shaped }
}

/// How long these words are at a size.
#[must_use]
pub fn width(face: Face, words: &str, size: Pt) -> Mm {
    Mm::from(size) * widths::of(face, words)
}

/// How far the tallest capital with an accent stands over the base line.
#[must_use]
pub fn ascent(size: Pt) -> Mm {
    Mm::from(size) * 0.93
}

/// How far the deepest letter hangs under the base line.
#[must_use]
pub fn descent(size: Pt) -> Mm {
    Mm::from(size) * 0.24
}

/// How high a capital is.
#[must_use]
pub fn capital(size: Pt) -> Mm {
    Mm::from(size) * 0.73
}
