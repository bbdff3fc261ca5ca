//! The outlines of glyphs.

use ttf_parser::{GlyphId, OutlineBuilder};

use super::{Face, Shaped};
use crate::draw::{Mm, Outline, Spot, Step, Text};

/// How finely curves are followed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Curves {
    /// As the font has them.
    True,
    /// By straight lines from one place to the next that is [`COARSE`] away: for what is drawn wide.
    Coarse,
}

/// How far apart the places of a coarse outline are.
const COARSE: Mm = Mm(0.25);

/// Gathers an outline: from font units, `y` up, to the page.
struct Tracer<'a> {
    outline: Outline,
    place: &'a dyn Fn(f64, f64) -> Spot,
    curves: Curves,
    /// Where the pen is, in font units.
    pen: (f64, f64),
}

impl Tracer<'_> {
    fn at(&mut self, x: f32, y: f32) -> Spot {
        self.pen = (f64::from(x), f64::from(y));
        (self.place)(self.pen.0, self.pen.1)
    }

    fn push_line(&mut self, to: Spot) {
        let last = match self.outline.steps.last() {
            Some(Step::Move(at) | Step::Line(at)) => Some(*at),
            _ => None,
        };
        let near = last.is_some_and(|last| last.distance(to) < COARSE);
        if self.curves == Curves::True || !near {
            self.outline.steps.push(Step::Line(to));
        }
    }
}

impl OutlineBuilder for Tracer<'_> {
    fn move_to(&mut self, x: f32, y: f32) {
        let to = self.at(x, y);
        self.outline.steps.push(Step::Move(to));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        let to = self.at(x, y);
        self.push_line(to);
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let from = self.pen;
        let handle = (f64::from(x1), f64::from(y1));
        let to = (f64::from(x), f64::from(y));
        // A quadratic curve as a cubic one: its handles lie two thirds of the way to the one.
        let towards = |end: (f64, f64)| {
            (end.0 + (handle.0 - end.0) * 2.0 / 3.0, end.1 + (handle.1 - end.1) * 2.0 / 3.0)
        };
        let (a, b) = (towards(from), towards(to));
        self.curve_to(a.0 as f32, a.1 as f32, b.0 as f32, b.1 as f32, x, y);
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let a = (self.place)(f64::from(x1), f64::from(y1));
        let b = (self.place)(f64::from(x2), f64::from(y2));
        let to = self.at(x, y);
        match self.curves {
            Curves::True => self.outline.steps.push(Step::Curve(a, b, to)),
            Curves::Coarse => self.push_line(to),
        }
    }

    fn close(&mut self) {
        self.outline.steps.push(Step::Close);
    }
}

/// The outline of a glyph, each of its places put on the page by `place`, which takes parts of the size
/// of type, `y` up. Nothing of a glyph without ink.
pub(crate) fn glyph(
    face: Face,
    glyph: u16,
    curves: Curves,
    place: &dyn Fn(f64, f64) -> Spot,
) -> Outline {
    let Some(tables) = face.tables() else { return Outline::default() };
    let em = f64::from(tables.units_per_em());
    let scaled = move |x: f64, y: f64| place(x / em, y / em);
    let outline = Outline::default();
    let mut tracer = Tracer { outline, place: &scaled, curves, pen: (0.0, 0.0) };
    tables.outline_glyph(GlyphId(glyph), &mut tracer);
    tracer.outline
}

/// The outlines of a line of text where it stands on its page.
pub(crate) fn line(text: &Text, shaped: &Shaped, curves: Curves) -> Outline {
    let size = Mm::from(text.size);
    let back = text.before(size * shaped.width);
    let (sin, cos) = text.turn.to_radians().sin_cos();
    let mut all = Outline::default();
    for (one, right, up) in shaped.placed() {
        let place = |x: f64, y: f64| {
            let (x, y) = (size * (right + x) - back, size * -(up + y));
            text.at.moved(x * cos - y * sin, x * sin + y * cos)
        };
        all.steps.append(&mut glyph(shaped.face, one.id, curves, &place).steps);
    }
    all
}
