//! Where words find room on a chart.

use super::look::HALO;
use crate::draw::{Area, Mm, Pt, Size, Spot, Text};
use crate::font::{self, Face};

/// What is taken on a drawing already.
pub(super) struct Room {
    bounds: Area,
    taken: Vec<Area>,
}

/// Something to be written beside a sign, or across the water that it names.
pub(super) struct Name<'a> {
    pub(super) words: &'a str,
    pub(super) at: Spot,
    pub(super) size: Pt,
    pub(super) face: Face,
    /// How far from its place words begin; nothing for words that are written across it.
    pub(super) clear: Option<Mm>,
}

/// The places beside a sign in the order in which they are tried: how far right and down of it the middle of the
/// words lies, in their half widths and half heights.
const BESIDE: [(f64, f64); 8] = [
    (1.0, 0.0),
    (-1.0, 0.0),
    (0.0, -1.0),
    (0.0, 1.0),
    (0.9, -0.9),
    (-0.9, -0.9),
    (0.9, 0.9),
    (-0.9, 0.9),
];

/// The places across: the middle, then a little beside it.
const ACROSS: [(f64, f64); 7] =
    [(0.0, 0.0), (0.0, -1.2), (0.0, 1.2), (0.5, 0.0), (-0.5, 0.0), (0.6, -1.3), (-0.6, 1.3)];

impl Room {
    pub(super) const fn new(bounds: Area) -> Room {
        Room { bounds, taken: Vec::new() }
    }

    /// Takes what a sign covers.
    pub(super) fn take_sign(&mut self, at: Spot, reach: Mm) {
        let corner = at.moved(-reach, -reach);
        self.take(Area::at(corner, Size { width: reach * 2.0, height: reach * 2.0 }));
    }

    pub(super) fn take(&mut self, area: Area) {
        self.taken.push(area);
    }

    /// Takes what a line covers.
    pub(super) fn take_line(&mut self, spots: &[Spot], reach: Mm) {
        for side in spots.windows(2) {
            let [a, b] = [side[0], side[1]];
            // A page has room for some thousand steps.
            let steps = (a.distance(b) / (reach * 2.0)).ceil().clamp(1.0, 5_000.0) as u32;
            for n in 0..=steps {
                let part = f64::from(n) / f64::from(steps);
                let at = a.moved((b.x - a.x) * part, (b.y - a.y) * part);
                if self.bounds.contains(at) {
                    self.take_sign(at, reach);
                }
            }
        }
    }

    fn is_free(&self, area: &Area) -> bool {
        self.bounds.holds(area) && !self.taken.iter().any(|taken| taken.overlaps(area))
    }

    /// The name where it has room, which it then takes; nothing where there is none.
    pub(super) fn place(&mut self, name: &Name<'_>) -> Option<Text> {
        self.tried(name, 1.0).or_else(|| self.tried(name, 2.2))
    }

    /// The name at the first place around its own that has room, farther and farther out, or at the best of them.
    pub(super) fn place_or_force(&mut self, name: &Name<'_>) -> Option<Text> {
        let farther = [1.0, 2.2, 3.2, 4.6, 6.2, 8.0];
        if let Some(text) = farther.iter().find_map(|farther| self.tried(name, *farther)) {
            return Some(text);
        }
        let size = size(name);
        let mut all = spots(name, size, 1.0);
        let at = all.find(|at| self.bounds.holds(&around(*at, size)))?;
        self.take(around(at, size));
        Some(text(name, at))
    }

    fn tried(&mut self, name: &Name<'_>, farther: f64) -> Option<Text> {
        let size = size(name);
        let at = spots(name, size, farther).find(|at| self.is_free(&around(*at, size)))?;
        self.take(around(at, size));
        Some(text(name, at))
    }
}

/// The room that a name takes.
fn size(name: &Name<'_>) -> Size {
    let width = font::width(name.face, name.words, name.size) + Mm(0.6);
    Size { width, height: Mm::from(name.size) * 0.98 }
}

/// The middles of the places for a name.
fn spots(name: &Name<'_>, size: Size, farther: f64) -> impl Iterator<Item = Spot> {
    let (at, clear) = (name.at, name.clear);
    let tries: &'static [(f64, f64)] = if clear.is_some() { &BESIDE } else { &ACROSS };
    let clear = clear.unwrap_or(Mm::ZERO) * farther;
    tries.iter().map(move |(x, y)| {
        at.moved((size.width / 2.0 + clear) * *x, (size.height / 2.0 + clear) * *y)
    })
}

fn around(middle: Spot, size: Size) -> Area {
    Area::at(middle.moved(size.width / -2.0, size.height / -2.0), size)
}

/// The text whose letters have their middle there.
fn text(name: &Name<'_>, middle: Spot) -> Text {
    let base = middle.moved(Mm::ZERO, font::capital(name.size) / 2.0);
    let text = Text::new(name.words, base, name.size).middle().on_white(HALO);
    Text { face: name.face, ..text }
}
