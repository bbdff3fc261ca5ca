//! The tide as a small curve.

use super::tide::{Event, TideOfDay};
use crate::draw::{Area, Ink, Item, Mm, Outline, Pt, Spot, Stroke, Text};
use crate::font;
use crate::map::LEAST;

/// The least height of the curve's place, with the least type.
const HIGH: Mm = Mm(29.0);

/// How high the curve's place is on a page of which so much is free.
pub(super) fn high(page: Mm) -> Mm {
    (page * 0.13).max(HIGH)
}

/// How much larger than the least type of this size is.
fn larger(size: Pt) -> f64 {
    size / LEAST
}

/// Room for the points' numbers above, the hours below and heights at the side.
const ABOVE: Mm = Mm(3.4);
const BELOW: Mm = Mm(3.4);
const SIDE: Mm = Mm(7.5);
/// Room within the frame over high waters and under low ones, for their times.
const LABEL: Mm = Mm(4.0);
/// The time under way.
const UNDER_WAY: Ink = Ink::Grey(0.88);

/// Where hours and heights lie.
struct Axes {
    area: Area,
    /// The size of type.
    size: Pt,
    hours: f64,
    low: f64,
    high: f64,
}

impl Axes {
    fn x(&self, hours: f64) -> Mm {
        self.area.left + self.area.width * (hours / self.hours)
    }

    fn y(&self, metres: f64) -> Mm {
        let label = LABEL * larger(self.size);
        let room = self.area.height - label * 2.0;
        self.area.bottom() - label - room * ((metres - self.low) / (self.high - self.low))
    }

    /// Where the curve is at an hour, between the heights that it is made of; nothing beyond them.
    fn on_curve(&self, tide: &TideOfDay, hours: f64) -> Option<Spot> {
        let after = tide.heights.partition_point(|(at, _)| *at < hours);
        let (to, high) = *tide.heights.get(after)?;
        let (from, low) = *tide.heights.get(after.checked_sub(1)?)?;
        let metres = low + (high - low) * ((hours - from) / (to - from));
        Some(Spot { x: self.x(hours), y: self.y(metres) })
    }
}

/// The curve with its hours, its high and low waters and the route's points, within an area.
pub(super) fn items(tide: &TideOfDay, area: Area) -> Vec<Item> {
    let heights = || tide.heights.iter().map(|(_, metres)| *metres);
    let (low, high) = (heights().fold(0.0, f64::min), heights().fold(1.0, f64::max));
    // Larger on a larger page, as the rest is.
    let size = (LEAST * (area.height / HIGH)).min(Pt(9.0)).max(LEAST);
    let by = larger(size);
    let inner = Area {
        left: area.left + SIDE * by,
        width: area.width - SIDE * by * 1.5,
        ..area.between(area.top + ABOVE * by, area.bottom() - BELOW * by)
    };
    let axes = Axes { area: inner, size, hours: tide.hours.max(1.0), low, high };
    let mut items: Vec<Item> = under_way(tide, &axes).into_iter().collect();
    items.extend(scales(&axes));
    items.extend(events(tide, &axes));
    let spots =
        tide.heights.iter().map(|(hours, metres)| Spot { x: axes.x(*hours), y: axes.y(*metres) });
    items.push(Item::stroke(Outline::line(spots), Stroke::black(0.5)));
    items.extend(waters(tide, &axes));
    items
}

/// The time from the first point to the last, as far as it lies in the day.
fn under_way(tide: &TideOfDay, axes: &Axes) -> Option<Item> {
    let hours = |event: &Event| event.hours.clamp(0.0, axes.hours);
    let (from, to) = (hours(tide.events.first()?), hours(tide.events.last()?));
    let (left, right) = (axes.x(from), axes.x(to));
    let band = Area { left, width: right - left, ..axes.area };
    (right > left).then(|| Item::fill(Outline::rectangle(band), UNDER_WAY))
}

/// The frame, the hours and the metres.
fn scales(axes: &Axes) -> Vec<Item> {
    let area = axes.area;
    let mut items = vec![Item::stroke(Outline::rectangle(area), Stroke::black(0.12))];
    let mut ticks = Outline::default();
    let hours = (0..).map(|n| f64::from(n) * 3.0).take_while(|hours| *hours <= axes.hours);
    let base = area.bottom() + Mm(1.1) + font::capital(axes.size);
    for hour in hours {
        let x = axes.x(hour);
        ticks.add([area.bottom(), area.bottom() + Mm(0.7)].map(|y| Spot { x, y }), false);
        items.push(Text::new(format!("{hour:02}"), Spot { x, y: base }, axes.size).middle().into());
    }
    let step = if axes.high - axes.low > 4.5 { 2.0 } else { 1.0 };
    let first = (axes.low / step).ceil() * step;
    let metres = (0..40).map(|n| first + f64::from(n) * step).take_while(|m| *m <= axes.high);
    for metre in metres {
        let y = axes.y(metre);
        ticks.add([area.left, area.right()].map(|x| Spot { x, y }), false);
        let at = Spot { x: area.left - Mm(0.8), y: y + font::capital(axes.size) / 2.0 };
        items.push(Text::new(format!("{metre} m"), at, axes.size).right().into());
    }
    items.push(Item::stroke(ticks, Stroke::new(Ink::Grey(0.6), Mm(0.1))));
    items
}

/// When the points are reached: lines down to the curve, with their numbers, as many as have room.
fn events(tide: &TideOfDay, axes: &Axes) -> Vec<Item> {
    let mut items = Vec::new();
    let mut lines = Outline::default();
    let mut free = axes.area.left - SIDE * larger(axes.size);
    let last = tide.events.len().saturating_sub(1);
    for (index, event) in tide.events.iter().enumerate() {
        if !(0.0..=axes.hours).contains(&event.hours) {
            continue;
        }
        let x = axes.x(event.hours);
        let foot = axes.on_curve(tide, event.hours).map_or(axes.area.bottom(), |spot| spot.y);
        lines.add([axes.area.top, foot].map(|y| Spot { x, y }), false);
        let at = Spot { x, y: axes.area.top - Mm(0.7) };
        let number = Text::new(event.number.as_str(), at, axes.size).bold().middle();
        let half = number.width() / 2.0;
        // The last is kept clear, so that arrival has its number.
        let ends = tide.events.get(last).filter(|_| index < last).map(|last| axes.x(last.hours));
        let clear = ends.is_none_or(|end| x + half * 3.0 + Mm(1.0) < end) || index == 0;
        if x - half >= free && clear {
            free = x + half + Mm(0.8);
            items.push(number.into());
        }
    }
    items.insert(0, Item::stroke(lines, Stroke::new(Ink::Grey(0.2), Mm(0.15))));
    items
}

/// High and low waters with their times, over the high ones and under the low.
fn waters(tide: &TideOfDay, axes: &Axes) -> Vec<Item> {
    let mut items = Vec::new();
    let mut taken: Vec<Area> = Vec::new();
    for water in &tide.waters {
        let spot = Spot { x: axes.x(water.hours), y: axes.y(water.metres) };
        items.push(Item::fill(Outline::circle(spot, Mm(0.6)), Ink::BLACK));
        let down = if water.name == "HW" { Mm(-1.2) } else { font::capital(axes.size) + Mm(1.2) };
        let words = format!("{} {}", water.clock, water.height);
        let text = Text::new(words, spot.moved(Mm::ZERO, down), axes.size).bold().middle();
        let half = text.width() / 2.0;
        let x = spot.x.max(axes.area.left + half + Mm(0.5)).min(axes.area.right() - half - Mm(0.5));
        let text = Text { at: Spot { x, ..text.at }, ..text }.on_white(Mm(0.4));
        // Where waters are many, as on shallow coasts, one is told in words alone.
        if taken.iter().all(|other| !other.overlaps(&text.area())) {
            taken.push(text.area());
            items.push(text.into());
        }
    }
    items
}
