//! Inks and lines.

use super::Mm;

/// What is printed with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ink {
    /// A grey, 0 black to 1 white.
    Grey(f64),
    /// A colour of the sRGB space, each part 0 to 1.
    Colour(f64, f64, f64),
}

impl Ink {
    /// Black.
    pub const BLACK: Ink = Ink::Grey(0.0);
    /// The paper.
    pub const WHITE: Ink = Ink::Grey(1.0);

    /// Its parts of red, green and blue, 0 to 1.
    #[must_use]
    pub const fn rgb(self) -> [f64; 3] {
        match self {
            Ink::Grey(grey) => [grey, grey, grey],
            Ink::Colour(red, green, blue) => [red, green, blue],
        }
    }
}

/// How the ends of a line look, and of each of its dashes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Cap {
    /// Cut off.
    #[default]
    Flat,
    /// Round.
    Round,
}

/// A broken line: so much drawn, so much left out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dash {
    /// Drawn.
    pub on: Mm,
    /// Left out.
    pub off: Mm,
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// With what.
    pub ink: Ink,
    /// How wide.
    pub width: Mm,
    /// Broken, or not.
    pub dash: Option<Dash>,
    /// Its ends.
    pub cap: Cap,
}

impl Stroke {
    /// An unbroken line of this width.
    #[must_use]
    pub const fn new(ink: Ink, width: Mm) -> Stroke {
        Stroke { ink, width, dash: None, cap: Cap::Flat }
    }

    /// A black one.
    #[must_use]
    pub const fn black(width: f64) -> Stroke {
        Stroke::new(Ink::BLACK, Mm(width))
    }

    /// The same line, broken.
    #[must_use]
    pub const fn dashed(self, on: f64, off: f64) -> Stroke {
        Stroke { dash: Some(Dash { on: Mm(on), off: Mm(off) }), ..self }
    }

    /// The same line with round ends.
    #[must_use]
    pub const fn round(self) -> Stroke {
        Stroke { cap: Cap::Round, ..self }
    }

    /// A row of dots, their middles so far apart.
    #[must_use]
    pub const fn dotted(ink: Ink, width: f64, apart: f64) -> Stroke {
        // A dash of no length is drawn by some printers and left out by others.
        const DOT: f64 = 0.01;
        Stroke::new(ink, Mm(width)).dashed(DOT, apart - DOT).round()
    }
}
