//! Lines, closed or open, straight or bent.

use super::{Area, Mm, Spot};

/// One step of an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Step {
    /// A new line begins here.
    Move(Spot),
    /// Straight to here.
    Line(Spot),
    /// By a cubic Bézier curve: its two handles, then its end.
    Curve(Spot, Spot, Spot),
    /// Straight back to where the line began.
    Close,
}

/// Lines one after the other.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outline {
    /// The steps; the first of each line is a [`Step::Move`].
    pub steps: Vec<Step>,
}

/// How far the handles of a quarter of a circle lie from its ends, by its radius: the curve is then
/// within 0.03% of the circle.
const QUARTER: f64 = 0.552_284_749_831;

impl Outline {
    /// A line from the first of these places to the last.
    pub fn line(spots: impl IntoIterator<Item = Spot>) -> Outline {
        let mut outline = Outline::default();
        outline.add(spots, false);
        outline
    }

    /// An area with these corners.
    pub fn ring(spots: impl IntoIterator<Item = Spot>) -> Outline {
        let mut outline = Outline::default();
        outline.add(spots, true);
        outline
    }

    /// Adds a line through these places.
    pub fn add(&mut self, spots: impl IntoIterator<Item = Spot>, closed: bool) {
        let before = self.steps.len();
        for spot in spots {
            let first = self.steps.len() == before;
            self.steps.push(if first { Step::Move(spot) } else { Step::Line(spot) });
        }
        if closed && self.steps.len() > before {
            self.steps.push(Step::Close);
        }
    }

    /// A rectangle.
    #[must_use]
    pub fn rectangle(area: Area) -> Outline {
        let Area { left, top, .. } = area;
        let (right, bottom) = (area.right(), area.bottom());
        let corners = [(left, top), (right, top), (right, bottom), (left, bottom)];
        Outline::ring(corners.map(|(x, y)| Spot { x, y }))
    }

    /// A circle.
    #[must_use]
    pub fn circle(middle: Spot, radius: Mm) -> Outline {
        let at = |x: f64, y: f64| middle.moved(radius * x, radius * y);
        let k = QUARTER;
        let steps = vec![
            Step::Move(at(1.0, 0.0)),
            Step::Curve(at(1.0, k), at(k, 1.0), at(0.0, 1.0)),
            Step::Curve(at(-k, 1.0), at(-1.0, k), at(-1.0, 0.0)),
            Step::Curve(at(-1.0, -k), at(-k, -1.0), at(0.0, -1.0)),
            Step::Curve(at(k, -1.0), at(1.0, -k), at(1.0, 0.0)),
            Step::Close,
        ];
        Outline { steps }
    }

    /// The same so much farther to the right and down.
    #[must_use]
    pub fn moved(self, right: Mm, down: Mm) -> Outline {
        let to = |spot: Spot| spot.moved(right, down);
        let step = |step| match step {
            Step::Move(spot) => Step::Move(to(spot)),
            Step::Line(spot) => Step::Line(to(spot)),
            Step::Curve(a, b, spot) => Step::Curve(to(a), to(b), to(spot)),
            Step::Close => Step::Close,
        };
        Outline { steps: self.steps.into_iter().map(step).collect() }
    }

    /// Whether there is nothing.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.steps.is_empty()
    }

    /// Every place that it names, handles too: what it draws lies within the least area around them.
    pub fn spots(&self) -> impl Iterator<Item = Spot> + '_ {
        self.steps.iter().flat_map(|step| {
            let spots: [Option<Spot>; 3] = match *step {
                Step::Move(to) | Step::Line(to) => [Some(to), None, None],
                Step::Curve(a, b, to) => [Some(a), Some(b), Some(to)],
                Step::Close => [None; 3],
            };
            spots.into_iter().flatten()
        })
    }
}
