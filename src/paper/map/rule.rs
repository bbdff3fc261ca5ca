//! Grid lines and their numbers.

use super::Frame;
use super::look::{Inks, LEAST};
use crate::draw::{Item, Mm, Outline, Pt, Spot, Text};
use crate::font::{self, Face};

/// The distances between grid lines, in metres: a grid is counted in tens.
const INTERVALS: [f64; 7] = [10.0, 100.0, 1e3, 1e4, 1e5, 1e6, 1e7];

/// The least paper between two grid lines.
const ROOM: Mm = Mm(6.0);

/// The size of a number's principal figures.
const PRINCIPAL: Pt = Pt(9.0);

/// How far numbers stand off the frame.
const OFF: Mm = Mm(1.0);

/// Grid metres from one grid line to the next.
#[must_use]
pub(super) fn interval(frame: &Frame) -> f64 {
    let fits = |interval: &f64| frame.of_grid_metres(*interval) >= ROOM;
    INTERVALS.into_iter().find(fits).unwrap_or(1e8)
}

/// The eastings and northings of the lines that a frame shows.
fn lines(frame: &Frame) -> [Vec<f64>; 2] {
    let (extent, step) = (frame.extent(), interval(frame));
    let multiples = |from: f64, to: f64| {
        let (first, last) = ((from / step).ceil(), (to / step).floor());
        // A page has room for some hundreds of lines.
        let count = (last - first + 1.0).clamp(0.0, 2_000.0) as u32;
        (0..count).map(|n| (first + f64::from(n)) * step).collect()
    };
    let (low, high) = (extent.min(), extent.max());
    [multiples(low.x, high.x), multiples(low.y, high.y)]
}

/// The grid lines.
pub(super) fn items(frame: &Frame, inks: Inks) -> Vec<Item> {
    let [eastings, northings] = lines(frame);
    let area = frame.area;
    let middle = frame.point(area.middle());
    let mut outline = Outline::default();
    for x in eastings {
        let at = frame.spot(chart::Point { x, y: middle.y }).x;
        outline.add([area.top, area.bottom()].map(|y| Spot { x: at, y }), false);
    }
    for y in northings {
        let at = frame.spot(chart::Point { x: middle.x, y }).y;
        outline.add([area.left, area.right()].map(|x| Spot { x, y: at }), false);
    }
    vec![Item::stroke(outline, inks.grid())]
}

/// Their numbers: eastings under the frame, northings on its left, `band` outside of it.
pub(super) fn numbers(frame: &Frame, band: Mm) -> Vec<Item> {
    let [eastings, northings] = lines(frame);
    let area = frame.area;
    let middle = frame.point(area.middle());
    let step = interval(frame);
    let mut items = Vec::new();
    let mut free = area.left - band;
    let base = area.bottom() + band + OFF + font::capital(PRINCIPAL);
    for x in eastings {
        let at = frame.spot(chart::Point { x, y: middle.y }).x;
        let number = Number::new(x, step);
        let left = at - number.width() / 2.0;
        // One that has no room is left out; its line can be counted.
        if left >= free && left + number.width() <= area.right() + band {
            items.extend(number.items(Spot { x: left, y: base }));
            free = left + number.width() + OFF;
        }
    }
    for y in northings {
        let at = frame.spot(chart::Point { x: middle.x, y }).y;
        let number = Number::new(y, step);
        let left = area.left - band - OFF - number.width();
        let base = at + font::capital(PRINCIPAL) / 2.0;
        // The lowest stands clear of the first number below.
        if base <= area.bottom() && base - font::capital(PRINCIPAL) >= area.top {
            items.extend(number.items(Spot { x: left, y: base }));
        }
    }
    items
}

/// The most room that a number takes left of the frame.
pub(super) const LEFT: Mm = Mm(8.4);
/// And below.
pub(super) const BELOW: Mm = Mm(4.2);

/// The number of a grid line: kilometres, the last two figures large, before them small ones, and behind them
/// small ones for parts of a kilometre.
struct Number {
    leading: String,
    principal: String,
    parts: String,
}

impl Number {
    fn new(metres: f64, step: f64) -> Number {
        let decimals: u32 = match step {
            s if s >= 1e3 => 0,
            s if s >= 100.0 => 1,
            _ => 2,
        };
        let in_a_kilometre = 10_i64.pow(decimals);
        let count = (metres * in_a_kilometre as f64 / 1000.0).round() as i64;
        let sign = if count < 0 { "−" } else { "" };
        let (count, in_a_kilometre) = (count.unsigned_abs(), in_a_kilometre.unsigned_abs());
        let (whole, part) = (count / in_a_kilometre, count % in_a_kilometre);
        let leading = if whole >= 100 { (whole / 100).to_string() } else { String::new() };
        let width = decimals as usize;
        let parts = if decimals > 0 { format!("{part:0width$}") } else { String::new() };
        let principal = format!("{:02}", whole % 100);
        Number { leading: format!("{sign}{leading}"), principal, parts }
    }

    fn pieces(&self) -> [(&str, Pt, Face); 3] {
        [
            (&self.leading, LEAST, Face::Regular),
            (&self.principal, PRINCIPAL, Face::Bold),
            (&self.parts, LEAST, Face::Regular),
        ]
    }

    fn width(&self) -> Mm {
        let width = |(words, size, face)| font::width(face, words, size);
        self.pieces().into_iter().map(width).sum()
    }

    fn items(&self, at: Spot) -> Vec<Item> {
        let mut x = at.x;
        let mut items = Vec::new();
        let pieces = self.pieces().into_iter().filter(|(words, _, _)| !words.is_empty());
        for (words, size, face) in pieces {
            let text = Text { face, ..Text::new(words, Spot { x, y: at.y }, size) };
            x += text.width();
            items.push(text.into());
        }
        items
    }
}
