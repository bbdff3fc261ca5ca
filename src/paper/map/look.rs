//! What a chart on paper looks like.

use crate::draw::{Ink, Mm, Pt, Stroke};

/// With which inks a chart is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Inks {
    /// Black alone: greys and textures that a black printer and a copier keep.
    #[default]
    Black,
    /// Colours too; textures stay, so that a black copy says the same.
    Colour,
}

impl Inks {
    /// Of these two, the one in use.
    const fn of(self, black: Ink, colour: Ink) -> Ink {
        match self {
            Inks::Black => black,
            Inks::Colour => colour,
        }
    }

    pub(super) const fn land(self) -> Ink {
        self.of(Ink::Grey(0.87), Ink::Colour(0.90, 0.89, 0.80))
    }

    pub(super) const fn shore(self) -> Stroke {
        Stroke::black(0.22)
    }

    pub(super) const fn drying_dots(self) -> Stroke {
        Stroke::dotted(self.of(Ink::Grey(0.25), Ink::Colour(0.30, 0.42, 0.22)), 0.26, 1.0)
    }

    pub(super) const fn drying_edge(self) -> Stroke {
        Stroke::new(Ink::Grey(0.3), Mm(0.12)).dashed(0.5, 0.5)
    }

    pub(super) const fn shallow(self) -> Stroke {
        Stroke::new(self.of(Ink::Grey(0.62), Ink::Colour(0.45, 0.66, 0.80)), Mm(0.1))
    }

    pub(super) const fn depth_line(self) -> Stroke {
        Stroke::new(self.of(Ink::Grey(0.6), Ink::Colour(0.35, 0.55, 0.72)), Mm(0.1))
    }

    pub(super) const fn grid(self) -> Stroke {
        Stroke::new(self.of(Ink::Grey(0.45), Ink::Colour(0.35, 0.35, 0.60)), Mm(0.1))
    }

    pub(super) const fn route(self) -> Ink {
        self.of(Ink::BLACK, Ink::Colour(0.62, 0.05, 0.30))
    }

    pub(super) const fn race(self) -> Stroke {
        Stroke::new(self.of(Ink::BLACK, Ink::Colour(0.62, 0.10, 0.05)), Mm(0.18))
    }
}

/// The least type on paper: smaller is not read in a moving boat.
pub const LEAST: Pt = Pt(7.0);

/// How far white reaches around the letters of a name.
pub(super) const HALO: Mm = Mm(0.35);
