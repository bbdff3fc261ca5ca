//! What questions are about, on a chart that they are worked on: named whatever else has no room, and nothing of an answer.

use chart::Point;

use super::look::Inks;
use super::names::{Name, Room};
use super::route::leader;
use super::{Frame, signs};
use crate::draw::{Ink, Item, Mm, Outline, Pt, Spot, Stroke};
use crate::font::Face;

/// What questions are about.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Asked {
    /// Points with what they are called; what stands there by its own name has its own sign.
    pub points: Vec<(Point, String)>,
    /// Lines through points.
    pub lines: Vec<Vec<Point>>,
    /// Points that must have room, where nothing is drawn: an answer lies there.
    pub room: Vec<Point>,
}

/// The type of a name that is asked about.
const SIZE: Pt = Pt(7.5);
/// How wide a line is drawn.
const WIDE: Mm = Mm(0.35);
/// The ring about a point that has no sign.
const RING: Mm = Mm(1.0);

impl Asked {
    /// Whether there is nothing.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.points.is_empty() && self.lines.is_empty()
    }

    /// Every point of it.
    pub fn all(&self) -> impl Iterator<Item = Point> + '_ {
        let points = self.points.iter().map(|(at, _)| *at);
        points.chain(self.lines.iter().flatten().copied()).chain(self.room.iter().copied())
    }

    /// Whether a name is one that is asked about, and stands on the chart already.
    pub(super) fn names(&self, name: &str) -> bool {
        self.points.iter().any(|(_, words)| words == name)
    }

    /// Takes the room of its points and lines.
    pub(super) fn take(&self, frame: &Frame, room: &mut Room) {
        for (at, _) in &self.points {
            room.take_sign(frame.spot(*at), signs::REACH);
        }
        for line in &self.lines {
            let spots: Vec<Spot> = line.iter().map(|at| frame.spot(*at)).collect();
            room.take_line(&spots, WIDE);
        }
    }

    /// Its lines, and a ring about a point unless `signed` says that a sign stands there.
    pub(super) fn items(
        &self,
        frame: &Frame,
        inks: Inks,
        signed: impl Fn(Point) -> bool,
    ) -> Vec<Item> {
        let stroke = || Stroke::new(inks.route(), WIDE);
        let mut all = Outline::default();
        for line in &self.lines {
            all.add(line.iter().map(|at| frame.spot(*at)), false);
        }
        let mut items = vec![Item::stroke(all, stroke())];
        let bare = self.points.iter().filter(|(at, _)| !signed(*at));
        items.extend(bare.map(|(at, _)| {
            Item::both(Outline::circle(frame.spot(*at), RING), Ink::WHITE, stroke())
        }));
        items
    }

    /// Its names, each beside its point; from one that has room only farther off a line leads there.
    pub(super) fn words(&self, frame: &Frame, room: &mut Room) -> Vec<Item> {
        let mut items = Vec::new();
        for (at, words) in self.points.iter().filter(|(_, words)| !words.is_empty()) {
            let at = frame.spot(*at);
            let clear = Some(signs::REACH + Mm(0.2));
            let name = Name { words, at, size: SIZE, face: Face::Bold, clear };
            let Some(text) = room.place_or_force(&name) else { continue };
            items.extend(leader(at, &text));
            items.push(text.into());
        }
        items
    }
}
