//! The edge of a chart: a band of minutes in black and white, and latitudes and longitudes along it.

use nav::text::{AngleForm, AngleStyle, latitude, longitude};
use nav::{Grid, GridPoint, Latitude, Longitude};

use super::Frame;
use super::look::LEAST;
use crate::draw::{Area, Ink, Item, Mm, Outline, Spot, Stroke, Text};
use crate::font;

/// How wide the band is.
pub(super) const BAND: Mm = Mm(0.9);
/// The room outside the band that the angles take above and on the right.
pub(super) const ANGLES: Mm = Mm(3.8);

/// The steps of the band, in seconds of arc, each with how many of them are labelled at once.
const STEPS: [(f64, [f64; 3]); 16] = [
    (1.0, [5.0, 10.0, 30.0]),
    (2.0, [10.0, 30.0, 60.0]),
    (5.0, [15.0, 30.0, 60.0]),
    (10.0, [30.0, 60.0, 120.0]),
    (15.0, [30.0, 60.0, 120.0]),
    (30.0, [60.0, 120.0, 300.0]),
    (60.0, [60.0, 120.0, 300.0]),
    (120.0, [300.0, 600.0, 1_800.0]),
    (300.0, [600.0, 900.0, 1_800.0]),
    (600.0, [1_800.0, 3_600.0, 7_200.0]),
    (1_800.0, [3_600.0, 7_200.0, 18_000.0]),
    (3_600.0, [3_600.0, 7_200.0, 18_000.0]),
    (7_200.0, [18_000.0, 36_000.0, 72_000.0]),
    (18_000.0, [36_000.0, 72_000.0, 108_000.0]),
    (36_000.0, [36_000.0, 72_000.0, 108_000.0]),
    (72_000.0, [72_000.0, 216_000.0, 360_000.0]),
];

/// The least length of a piece of the band.
const PIECE: Mm = Mm(2.2);

/// One side of the frame, walked from `from` to `to`.
struct Side {
    from: Spot,
    to: Spot,
    /// Whether longitudes are read along it, or latitudes.
    longitudes: bool,
    /// Whether the angles are written.
    written: bool,
    /// Which way is out.
    out: (f64, f64),
}

/// The frame with its band, and the angles above and on the right.
pub(super) fn items(grid: &Grid, frame: &Frame) -> Vec<Item> {
    let area = frame.area;
    let corner = |x: Mm, y: Mm| Spot { x, y };
    let (left, right, top, bottom) = (area.left, area.right(), area.top, area.bottom());
    let side = |from, to, longitudes, written, out| Side { from, to, longitudes, written, out };
    let sides = [
        side(corner(left, top), corner(right, top), true, true, (0.0, -1.0)),
        side(corner(left, bottom), corner(right, bottom), true, false, (0.0, 1.0)),
        side(corner(left, bottom), corner(left, top), false, false, (-1.0, 0.0)),
        side(corner(right, bottom), corner(right, top), false, true, (1.0, 0.0)),
    ];
    let mut items = Vec::new();
    for side in &sides {
        items.extend(side.items(grid, frame).unwrap_or_default());
    }
    items.push(Item::stroke(Outline::rectangle(area), Stroke::black(0.12)));
    items.push(Item::stroke(Outline::rectangle(area.inset(-BAND)), Stroke::black(0.3)));
    items
}

impl Side {
    fn at(&self, part: f64) -> Spot {
        self.from.moved((self.to.x - self.from.x) * part, (self.to.y - self.from.y) * part)
    }

    fn length(&self) -> Mm {
        self.from.distance(self.to)
    }

    /// The angle at a part of the way, in seconds of arc.
    fn angle(&self, grid: &Grid, frame: &Frame, part: f64) -> Option<f64> {
        let point = frame.point(self.at(part));
        let at = grid.inverse(GridPoint::from_metres(point.x, point.y).ok()?).ok()?.position;
        // Counted from the middle, so that it does not jump at the 180th meridian.
        let middle = frame.position.lon;
        Some(if self.longitudes {
            (at.lon.degrees_east_of(middle) + middle.as_degrees()) * 3600.0
        } else {
            at.lat.as_degrees() * 3600.0
        })
    }

    /// Its part of the band; nothing where the grid does not reach, or the angle does not grow along it.
    fn items(&self, grid: &Grid, frame: &Frame) -> Option<Vec<Item>> {
        let angle = |part| self.angle(grid, frame, part);
        let (low, high) = (angle(0.0)?, angle(1.0)?);
        let walked: Vec<f64> =
            (0..=16).map(|n| angle(f64::from(n) / 16.0)).collect::<Option<_>>()?;
        if !walked.windows(2).all(|pair| pair[0] < pair[1]) {
            return None;
        }
        let per_second = self.length() / (high - low);
        let (step, labels) = STEPS.into_iter().find(|(step, _)| per_second * *step >= PIECE)?;
        let room = if self.longitudes { Mm(19.0) } else { Mm(17.0) };
        let label = labels.into_iter().find(|label| per_second * *label >= room);
        let mut items = vec![Item::fill(self.band(step, (low, high), &angle), Ink::BLACK)];
        for seconds in multiples(label.unwrap_or(labels[2]), low, high) {
            items.extend(self.mark(seconds, self.part_at(seconds, &angle)));
        }
        Some(items)
    }

    /// The black pieces of the band: every other step.
    fn band(
        &self,
        step: f64,
        (low, high): (f64, f64),
        angle: &impl Fn(f64) -> Option<f64>,
    ) -> Outline {
        let mut outline = Outline::default();
        let first = (low / step / 2.0).floor() * 2.0 * step;
        for from in multiples(2.0 * step, first, high) {
            let [a, b] = [from, from + step].map(|seconds| self.part_at(seconds, angle));
            if b > a {
                let (a, b) = (self.at(a), self.at(b));
                let out = |spot: Spot| spot.moved(BAND * self.out.0, BAND * self.out.1);
                outline.add([a, b, out(b), out(a)], true);
            }
        }
        outline
    }

    /// Which part of the way an angle is reached at; 0 or 1 for one beyond the ends.
    fn part_at(&self, seconds: f64, angle: &impl Fn(f64) -> Option<f64>) -> f64 {
        let (mut low, mut high) = (0.0, 1.0);
        // Halved until no printer shows it.
        for _ in 0..24 {
            let middle = (low + high) / 2.0;
            if angle(middle).is_some_and(|there| there < seconds) {
                low = middle;
            } else {
                high = middle;
            }
        }
        if high > 0.999_999 { 1.0 } else { low }
    }

    /// A tick across the band, and the angle beside it.
    fn mark(&self, seconds: f64, part: f64) -> Vec<Item> {
        let at = self.at(part);
        let tick = at.moved(BAND * self.out.0 * 2.0, BAND * self.out.1 * 2.0);
        let mut items = vec![Item::stroke(Outline::line([at, tick]), Stroke::black(0.15))];
        let text = self.text(seconds, at);
        let along = text.width() / 2.0 / self.length();
        // Clear of the corners, where the other side's stand.
        if self.written && (along..=1.0 - along).contains(&part) {
            items.push(text.into());
        }
        items
    }

    fn text(&self, seconds: f64, at: Spot) -> Text {
        let style = style(seconds);
        let degrees = seconds / 3600.0;
        let words = if self.longitudes {
            Longitude::wrapping(degrees).map(|lon| longitude(lon, style))
        } else {
            Latitude::from_degrees(degrees).map(|lat| latitude(lat, style))
        };
        let off = BAND * 2.0 + Mm(0.4);
        let base = at.moved(off * self.out.0, off * self.out.1);
        let text = Text::new(words.unwrap_or_default(), base, LEAST).middle();
        // Up the right side the angles are read with the head to the left.
        if self.longitudes {
            return text;
        }
        let at = text.at.moved(font::capital(LEAST), Mm::ZERO);
        Text { at, ..text }.turned(-90.0)
    }
}

/// So many decimals of a minute as the angle has.
fn style(seconds: f64) -> AngleStyle {
    let whole_minutes = (seconds / 60.0).fract() == 0.0;
    if whole_minutes {
        return AngleStyle::new(AngleForm::DegreesMinutes, 0);
    }
    AngleStyle::new(AngleForm::DegreesMinutesSeconds, 0)
}

fn multiples(step: f64, from: f64, to: f64) -> impl Iterator<Item = f64> {
    let (first, last) = ((from / step).ceil(), (to / step).floor());
    // Steps are millimetres apart and a page some metres long.
    let count = (last - first + 1.0).clamp(0.0, 2_000.0) as u32;
    (0..count).map(move |n| (first + f64::from(n)) * step)
}

/// The room that the edge and its angles take around a frame: left, above, right, below.
pub(super) fn inner(outer: Area, left: Mm, below: Mm) -> Area {
    Area {
        left: outer.left + left + BAND,
        top: outer.top + ANGLES + BAND,
        width: (outer.width - left - BAND * 2.0 - ANGLES).max(Mm::ZERO),
        height: (outer.height - ANGLES - BAND * 2.0 - below).max(Mm::ZERO),
    }
}
