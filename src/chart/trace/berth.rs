//! Where the disc touches the shore at a place on it: its berth.

use super::near::Near;
use super::roll::{Disc, Past, Spot, Stretch, clearance, foot, norm};
use super::taut::{Place, sees};
use crate::Point;
use crate::coast::{Line, LineId, LineKind, ShorePoint};

/// How far along the shore the mouth of a bay is looked for, in radii.
const BAY: f64 = 40.0;

/// How many stretches may lead past the mouth of a bay.
const MOUTH: usize = 200;

/// A side of a line, or a part of it, as one goes with the land on the left hand.
#[derive(Debug, Clone, Copy)]
pub(super) struct Part {
    pub(super) side: u32,
    /// The ends of the whole side.
    pub(super) ends: [Point; 2],
    /// How much of the side lies before the part and before its end.
    pub(super) parts: [f64; 2],
}

/// A line of shore and the disc that rolls along it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shore<'a> {
    pub(super) disc: &'a Disc<'a>,
    pub(super) near: &'a Near<'a>,
    pub(super) line: Line<'a>,
}

/// Where the line lies off a place on the shore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Berth {
    pub(super) spot: Spot,
    /// Whether the place lies in a bay that the disc does not enter, and the spot at its mouth.
    pub(super) in_bay: bool,
}

impl<'a> Shore<'a> {
    fn id(&self) -> LineId {
        self.line.id()
    }

    /// Whether the land lies on the left as one goes in the order of the vertices.
    pub(super) fn ahead_is_left(&self) -> bool {
        self.line.kind() != LineKind::Lake
    }

    /// A side with the land on the left hand.
    pub(super) fn part(&self, side: u32, parts: [f64; 2]) -> Part {
        let mut ends = self.line.side(side);
        if !self.ahead_is_left() {
            ends.reverse();
        }
        Part { side, ends, parts }
    }

    /// The place on the shore at `part` of a side, as one goes with the land on the left hand.
    pub(super) fn place(&self, part: &Part, at: f64) -> ShorePoint {
        self.line.place(part.side, if self.ahead_is_left() { at } else { 1.0 - at })
    }

    /// Whether nothing is nearer to the disc's middle than its radius.
    fn is_free(&self, at: Point) -> bool {
        let reach = self.disc.reach(at);
        self.near
            .visit([at, at], reach, |side| {
                if clearance(&side.outlines, at) < -1e-6 {
                    return std::ops::ControlFlow::Break(());
                }
                std::ops::ControlFlow::Continue(())
            })
            .is_continue()
    }

    fn beside(&self, ends: [Point; 2], part: f64) -> Option<Spot> {
        let at = self.disc.outline(ends).beside(part)?;
        Some(Spot { past: Past::Side(ends), line: self.id(), at })
            .filter(|spot| self.is_free(spot.at))
    }

    /// Round the vertex between two sides, at `part` of the turn to the left.
    fn round(&self, [before, after]: [[Point; 2]; 2], part: f64) -> Option<Spot> {
        let vertex = after[0];
        let out = [before, after].map(|ends| self.disc.outline(ends).out());
        let [Some(from), Some(to)] = out else { return None };
        let turn = norm(to.y.atan2(to.x) - from.y.atan2(from.x), 1e-7);
        // A turn to the right has no way round.
        if turn >= std::f64::consts::PI {
            return None;
        }
        let (sin, cos) = (from.y.atan2(from.x) + turn * part).sin_cos();
        let at = vertex + Point { x: cos, y: sin } * self.disc.radius_at(vertex);
        Some(Spot { past: Past::Vertex(vertex), line: self.id(), at })
            .filter(|spot| self.is_free(spot.at))
    }

    /// The first free spot along a part and round the vertex at its end, or the last one.
    /// Also how much of the side lies before the place that it touches.
    pub(super) fn free(&self, part: &Part, last: bool) -> Option<(Spot, f64)> {
        let [from, to] = part.parts;
        let [a, b] = part.ends;
        let length = (b.x - a.x).hypot(b.y - a.y) * (to - from);
        let looks = (4.0 * length / self.disc.radius_at(a)).ceil().clamp(1.0, 64.0);
        let mut places: Vec<f64> =
            (0..=looks as u32).map(|look| from + (to - from) * (f64::from(look) / looks)).collect();
        let after = (to == 1.0).then(|| self.after(part)).flatten();
        let mut turns = vec![0.25, 0.5, 0.75];
        let round = |turns: Vec<f64>| {
            let after = after?;
            turns
                .into_iter()
                .find_map(|turn| self.round([part.ends, after], turn))
                .map(|spot| (spot, 1.0))
        };
        let along = |places: Vec<f64>| {
            places
                .into_iter()
                .find_map(|place| self.beside(part.ends, place).map(|spot| (spot, place)))
        };
        if last {
            places.reverse();
            turns.reverse();
            round(turns).or_else(|| along(places))
        } else {
            along(places).or_else(|| round(turns))
        }
    }

    /// The side after a part, passing over those without length.
    fn after(&self, part: &Part) -> Option<[Point; 2]> {
        let end = ShorePoint { at: part.ends[1], ..self.place(part, 1.0) };
        self.parts(end, true)
            .find(|next| next.ends[0] != next.ends[1] && next.parts != [1.0, 1.0])
            .map(|next| next.ends)
    }

    /// The sides from a place on, or back from it, with the land on the left hand as one goes on.
    fn parts(&self, place: ShorePoint, on: bool) -> impl Iterator<Item = Part> + use<'a> {
        let shore = *self;
        let sides = self.line.sides();
        let at = if self.ahead_is_left() { place.part } else { 1.0 - place.part };
        let up = on == self.ahead_is_left();
        let first = self.part(place.side, if on { [at, 1.0] } else { [0.0, at] });
        let closed = self.line.is_closed();
        let next = move |part: &Part| {
            let side = match up {
                true if part.side + 1 < sides => part.side + 1,
                true => closed.then_some(0)?,
                false if part.side > 0 => part.side - 1,
                false => closed.then_some(sides - 1)?,
            };
            Some(shore.part(side, [0.0, 1.0]))
        };
        std::iter::successors(Some(first), next).take(sides as usize + 1)
    }

    /// The free spot next to a place, on along the shore or back.
    fn next_free(&self, place: ShorePoint, on: bool) -> Option<Spot> {
        let far = BAY * self.disc.radius_at(place.at);
        let mut gone = 0.0;
        self.parts(place, on)
            .take_while(|part| {
                let before = gone;
                let [a, b] = part.ends;
                gone += (b.x - a.x).hypot(b.y - a.y) * (part.parts[1] - part.parts[0]);
                before < far
            })
            .find_map(|part| self.free(&part, !on))
            .map(|(spot, _)| spot)
    }

    /// Where the line lies off a place; none where the disc cannot come near enough to be seen
    /// from there.
    pub(super) fn berth(&self, place: ShorePoint) -> Option<Berth> {
        if let Some(spot) = self.own_spot(place) {
            return Some(Berth { spot, in_bay: false });
        }
        let (back, on) = (self.next_free(place, false)?, self.next_free(place, true)?);
        let seen_from = Place::new(&self.line, &place);
        let mut spots: Vec<(f64, Spot)> = Vec::new();
        let mut spot = back;
        for _ in 0..MOUTH {
            let (stretch, next) = self.disc.step(&spot);
            let end = stretch.passes(&on).map(|along| stretch.until(&on, along));
            let at = nearest(end.as_ref().unwrap_or(&stretch), place.at);
            let away = (at.x - place.at.x).hypot(at.y - place.at.y);
            spots.push((away, Spot { at, ..stretch.from }));
            if end.is_some() {
                spots.sort_by(|a, b| a.0.total_cmp(&b.0));
                let seen = |spot: &Spot| sees(self.near, self.id(), &seen_from, spot.at);
                let found = spots.iter().find(|(_, spot)| seen(spot));
                return found.map(|(_, spot)| Berth { spot: *spot, in_bay: true });
            }
            spot = next;
        }
        None
    }

    /// Straight off the place.
    fn own_spot(&self, place: ShorePoint) -> Option<Spot> {
        let has_length = |part: &Part| part.ends[0] != part.ends[1];
        let next =
            self.parts(place, true).find(|part| has_length(part) && part.parts != [1.0, 1.0]);
        let before =
            self.parts(place, false).find(|part| has_length(part) && part.parts != [0.0, 0.0]);
        match (before, next) {
            (Some(before), Some(next)) if before.side == next.side => {
                self.beside(next.ends, next.parts[0])
            }
            (Some(before), Some(next)) => self.round([before.ends, next.ends], 0.5),
            (None, Some(next)) => self.beside(next.ends, 0.0),
            (Some(before), None) => self.beside(before.ends, 1.0),
            (None, None) => None,
        }
    }
}

/// The point of a stretch nearest to a point.
fn nearest(stretch: &Stretch, point: Point) -> Point {
    let from = stretch.from.at;
    match stretch.from.past {
        Past::Side(_) => foot(point, [from, stretch.to]),
        Past::Vertex(vertex) => {
            let (arm, to) = (from - vertex, point - vertex);
            let away = to.x.hypot(to.y);
            let turn = norm(to.y.atan2(to.x) - arm.y.atan2(arm.x), 0.0);
            if away > 0.0 && turn <= stretch.turn {
                return vertex + to * (arm.x.hypot(arm.y) / away);
            }
            let far = |end: Point| (end.x - point.x).hypot(end.y - point.y);
            if far(from) <= far(stretch.to) { from } else { stretch.to }
        }
    }
}
