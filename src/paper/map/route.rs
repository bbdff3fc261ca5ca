//! The route on the chart.

use chart::Point;
use nav::{Grid, Position, rhumb};
use plan::Route;

use super::look::Inks;
use super::names::{Name, Room};
use super::{Frame, thin};
use crate::draw::{Ink, Item, Mm, Outline, Pt, Spot, Stroke, Text};
use crate::font::{self, Face};

/// How wide a leg is drawn.
const WIDE: Mm = Mm(0.6);
/// The radius of the ring at a point.
const RING: Mm = Mm(1.1);
/// A straight leg is drawn in so many pieces: on the grid it is a curve.
const PIECES: u32 = 24;
/// Legs shorter than this have no room for an arrow.
const FOR_ARROW: Mm = Mm(9.0);

/// A route laid on a frame.
pub(super) struct Laid {
    /// The line of each leg.
    legs: Vec<Vec<Spot>>,
    /// The points, with the numbers of all that lie there.
    points: Vec<(Spot, Vec<usize>)>,
    /// Whether the points alone are shown, with letters.
    lettered: bool,
}

impl Laid {
    /// Points that the grid does not reach are left out.
    pub(super) fn new(route: &Route, grid: &Grid, frame: &Frame, lettered: bool) -> Laid {
        let spot = |at: Position| {
            let there = grid.forward(at).ok()?.point;
            let point = Point { x: there.easting.as_metres(), y: there.northing.as_metres() };
            Some(frame.spot(point))
        };
        let count = if lettered { 0 } else { route.points.len().saturating_sub(1) };
        let legs = (0..count).map(|leg| {
            let line: Vec<Spot> = positions(route, leg).into_iter().filter_map(spot).collect();
            thin::line(&line)
        });
        let mut points: Vec<(Spot, Vec<usize>)> = Vec::new();
        for (index, waypoint) in route.points.iter().enumerate() {
            let Some(at) = spot(waypoint.at) else { continue };
            match points.iter_mut().find(|(other, _)| other.distance(at) < RING) {
                Some((_, numbers)) => numbers.push(index + 1),
                None => points.push((at, vec![index + 1])),
            }
        }
        Laid { legs: legs.collect(), points, lettered }
    }

    /// Takes what the route covers.
    pub(super) fn take(&self, room: &mut Room) {
        for leg in &self.legs {
            room.take_line(leg, WIDE);
        }
        for (at, _) in &self.points {
            room.take_sign(*at, RING + Mm(0.2));
        }
    }

    /// Legs with the way they run, and rings at the points.
    pub(super) fn items(&self, inks: Inks) -> Vec<Item> {
        if self.lettered {
            return self.points.iter().flat_map(|(at, _)| mark(*at, inks.route())).collect();
        }
        let mut items = Vec::new();
        let mut all = Outline::default();
        for leg in &self.legs {
            all.add(leg.iter().copied(), false);
        }
        let white = Stroke::new(Ink::WHITE, WIDE * 2.6).round();
        items.push(Item::stroke(all.clone(), white));
        items.push(Item::stroke(all, Stroke::new(inks.route(), WIDE)));
        items.extend(self.legs.iter().filter_map(|leg| arrow(leg, inks.route())));
        for (at, _) in &self.points {
            let ring = Stroke::new(inks.route(), Mm(0.4));
            items.push(Item::both(Outline::circle(*at, RING), Ink::WHITE, ring));
            items.push(Item::fill(Outline::circle(*at, Mm(0.3)), inks.route()));
        }
        items
    }

    /// The points' numbers, each beside its point; of one that has room only farther off a line leads to it.
    pub(super) fn numbers(&self, room: &mut Room) -> Vec<Item> {
        let mut items = Vec::new();
        for (at, numbers) in &self.points {
            let word = |number: &usize| {
                if self.lettered { letter(number - 1) } else { number.to_string() }
            };
            let words: Vec<String> = numbers.iter().map(word).collect();
            let name = Name {
                words: &words.join("·"),
                at: *at,
                size: if self.lettered { Pt(11.0) } else { Pt(9.0) },
                face: Face::Bold,
                clear: Some(RING + Mm(0.4)),
            };
            let Some(number) = room.place_or_force(&name) else { continue };
            items.extend(leader(*at, &number));
            items.push(number.into());
        }
        items
    }
}

/// The letter of a point, counted from zero: A to Z, then AA to AZ, BA and so on.
#[must_use]
pub fn letter(index: usize) -> String {
    let last = char::from(b'A' + (index % 26) as u8);
    match index / 26 {
        0 => last.to_string(),
        more => format!("{}{last}", letter(more - 1)),
    }
}

/// A point that is read with a ruler: a fine cross in a ring through which the chart is seen.
fn mark(at: Spot, ink: Ink) -> Vec<Item> {
    let fine = Stroke::new(ink, Mm(0.12));
    let mut cross = Outline::default();
    for (x, y) in [(RING, Mm::ZERO), (Mm::ZERO, RING)] {
        cross.add([at.moved(-x, -y), at.moved(x, y)], false);
    }
    let white = Stroke::new(Ink::WHITE, Mm(0.9));
    let ring = || Outline::circle(at, RING + Mm(0.3));
    vec![
        Item::stroke(ring(), white),
        Item::stroke(ring(), Stroke::new(ink, Mm(0.35))),
        Item::stroke(cross, fine),
    ]
}

/// The line from a point to its number, where that does not stand beside it.
pub(super) fn leader(at: Spot, number: &Text) -> Option<Item> {
    let middle = number.at.moved(Mm::ZERO, font::capital(number.size) / -2.0);
    let half = (number.width() / 2.0, font::capital(number.size) / 2.0);
    let nearest = Spot {
        x: at.x.max(middle.x - half.0).min(middle.x + half.0),
        y: at.y.max(middle.y - half.1).min(middle.y + half.1),
    };
    let gap = at.distance(nearest);
    if gap < RING * 2.6 {
        return None;
    }
    let turn = (nearest.x - at.x).0.atan2(-(nearest.y - at.y).0).to_degrees();
    let line = Outline::line([at.towards(turn, RING), at.towards(turn, gap - Mm(0.3))]);
    Some(Item::stroke(line, Stroke::black(0.2)))
}

/// The line of a leg: a traced one as it runs, a straight one in pieces along its rhumb line.
fn positions(route: &Route, leg: usize) -> Vec<Position> {
    let Some(line) = route.line_of(leg) else { return Vec::new() };
    let line: Vec<Position> = line.collect();
    let &[from, to] = &line[..] else { return line };
    let rhumb::Line { distance, bearing } = rhumb::inverse(from, to);
    let between = (1..PIECES).filter_map(|n| {
        let part = f64::from(n) / f64::from(PIECES);
        rhumb::direct(from, bearing, distance * part).ok()
    });
    std::iter::once(from).chain(between).chain([to]).collect()
}

/// An arrow at the middle of a leg.
fn arrow(leg: &[Spot], ink: Ink) -> Option<Item> {
    let length: Mm = leg.windows(2).map(|side| side[0].distance(side[1])).sum();
    if length < FOR_ARROW {
        return None;
    }
    let mut left = length / 2.0;
    let side = leg.windows(2).find(|side| {
        let long = side[0].distance(side[1]);
        let here = left <= long;
        if !here {
            left -= long;
        }
        here
    })?;
    let (a, b) = (side[0], side[1]);
    let turn = (b.x - a.x).0.atan2(-(b.y - a.y).0).to_degrees();
    let at = a.towards(turn, left);
    let tip = at.towards(turn, Mm(2.0));
    let corners = [tip, tip.towards(turn + 155.0, Mm(3.6)), at, tip.towards(turn - 155.0, Mm(3.6))];
    Some(Item::fill(Outline::ring(corners), ink))
}
