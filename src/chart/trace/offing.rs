//! Pieces at a stand-off: the way of the disc from the berth of one anchor to that of the next.

use super::along::Along;
use super::berth::{Part, Shore};
use super::near::Near;
use super::roll::{Disc, Past, Spot, Stretch, foot};
use super::scale::Scale;
use super::section::Section;
use super::{Hand, Kind, Offing, SLACK, TraceError, Watch, Wishes, keep, taut, untangle};
use crate::Point;
use crate::coast::{Coast, ShorePoint};

/// How far a way round other land may lead, in lengths of the section and in radii.
const DETOUR: [f64; 2] = [10.0, 200.0];

/// What the disc did.
struct Rolled {
    stretches: Vec<Stretch>,
    /// Whether it came to where it was to come to.
    arrived: bool,
    /// Whether it came back to where it began instead.
    closed: bool,
    length: f64,
}

/// A place on the section: in which part of it, and where.
#[derive(Clone, Copy)]
struct Ashore {
    part: usize,
    place: ShorePoint,
}

/// A section with its land on the left hand, and what is being laid along it.
struct Laying<'a> {
    shore: Shore<'a>,
    section: Section<'a>,
    parts: Vec<Part>,
    wishes: Wishes,
    watch: Watch<'a>,
    points: Vec<Point>,
    offing: Offing,
}

/// Lays `section` at the stand-off of `wishes`.
///
/// # Errors
/// [`TraceError::CalledOff`] by `watch`.
pub(super) fn lay(
    coast: &Coast,
    section: &Section<'_>,
    wishes: Wishes,
    watch: Watch<'_>,
) -> Result<Along, TraceError> {
    let scale = Scale::new(coast.grid());
    let radius = wishes.stand_off * (1.0 + SLACK);
    let near = Near::new(coast, &scale, radius * scale.at(section.from.at), radius);
    let disc = Disc { near: &near, scale: &scale, radius };
    let shore = Shore { disc: &disc, near: &near, line: section.line };
    let turned = section.land() == Hand::Right;
    let left = if turned { section.turned() } else { *section };
    let berths = [left.from, left.to].map(|end| shore.berth(end));
    let parts = parts(&shore, &left);
    let (points, offing) = (Vec::new(), Offing::default());
    let mut laying = Laying { shore, section: left, parts, wishes, watch, points, offing };
    let in_bay = berths.iter().all(|berth| berth.is_some_and(|berth| berth.in_bay));
    let spots = berths.map(|berth| berth.map(|berth| berth.spot));
    if !(in_bay && laying.within_a_bay(spots)?) {
        laying.between(spots)?;
    }
    let Laying { mut points, offing, .. } = laying;
    if offing.narrow {
        points = untangle::untangled(&points);
    }
    let mut stubs = [left.from, left.to].map(|end| end.at);
    if turned {
        points.reverse();
        stubs.reverse();
    }
    let (land, round, way) = (section.land(), section.round, section.way);
    let kind = Kind::Along { line: section.line.id(), way, land, round, off: Some(offing) };
    Ok(Along { kind, points, ashore: stubs })
}

/// The sides of a section, of which the first and last may be cut.
fn parts(shore: &Shore<'_>, section: &Section<'_>) -> Vec<Part> {
    let stretches = section.stretches().into_iter();
    let parts = stretches.map(|stretch| {
        let mut part = shore.part(stretch.side, [0.0, 1.0]);
        let [a, b] = part.ends;
        let along = |p: Point| {
            let (from, whole) = (p - a, b - a);
            if p == b { 1.0 } else { from.x.hypot(from.y) / whole.x.hypot(whole.y) }
        };
        part.parts = stretch.ends.map(along);
        part
    });
    parts.collect()
}

impl Laying<'_> {
    /// The line between two berths in one bay that the disc does not enter, if that is where they
    /// are: part of the way past its mouth, in one direction or the other.
    fn within_a_bay(&mut self, spots: [Option<Spot>; 2]) -> Result<bool, TraceError> {
        let [Some(from), Some(to)] = spots else { return Ok(false) };
        if self.section.round || self.free_from(0)?.is_some() {
            return Ok(false);
        }
        let far = 20.0 * self.shore.disc.radius_at(from.at);
        for (from, to, turned) in [(from, to, false), (to, from, true)] {
            let rolled = self.roll(from, to, far, false)?;
            if rolled.arrived {
                self.take(&rolled.stretches)?;
                if turned {
                    self.points.reverse();
                }
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// The line from one spot to the next; where there is none, from the shore itself.
    fn between(&mut self, [from, to]: [Option<Spot>; 2]) -> Result<(), TraceError> {
        let last = self.parts.len().saturating_sub(1);
        let end = Ashore { part: last, place: self.section.to };
        let Some((goal, goal_at)) =
            to.map(|spot| (spot, end)).map_or_else(|| self.last_free(), |there| Ok(Some(there)))?
        else {
            return self.ashore(self.section.from, self.section.to);
        };
        let mut at = Ashore { part: 0, place: self.section.from };
        let mut next = match from {
            Some(spot) => Some((spot, at)),
            None => self.free_from(0)?,
        };
        let mut tried = from.is_some();
        while let Some((spot, free)) = next.filter(|(_, free)| free.part <= goal_at.part) {
            let round = self.section.round && tried && spot == goal;
            let rolled = self.roll(spot, goal, self.far(spot.at), round)?;
            if rolled.arrived {
                self.ashore_unless(tried, at.place, free.place)?;
                self.take(&rolled.stretches)?;
                let ends = to.is_some();
                return self.ashore_unless(ends, goal_at.place, self.section.to);
            }
            // A pool of which the disc takes no more than a turn is passed by.
            let pool = rolled.closed && rolled.length < 8.0 * self.shore.disc.radius_at(spot.at);
            if tried || !pool {
                self.ashore_unless(tried, at.place, free.place)?;
                let (many, farthest) = self.farthest(&rolled.stretches, free);
                self.take(rolled.stretches.get(..many).unwrap_or(&[]))?;
                at = farthest;
            }
            next = self.free_from(at.part.max(free.part) + 1)?;
            tried = false;
        }
        self.ashore(at.place, self.section.to)
    }

    /// Along the shore itself where the disc is not `off` already.
    fn ashore_unless(
        &mut self,
        off: bool,
        from: ShorePoint,
        to: ShorePoint,
    ) -> Result<(), TraceError> {
        if off { Ok(()) } else { self.ashore(from, to) }
    }

    /// How far a way may lead.
    fn far(&self, from: Point) -> f64 {
        let section: f64 = self
            .parts
            .iter()
            .map(|part| {
                let [a, b] = part.ends;
                (b.x - a.x).hypot(b.y - a.y) * (part.parts[1] - part.parts[0])
            })
            .sum();
        DETOUR[0] * section + DETOUR[1] * self.shore.disc.radius_at(from)
    }

    /// Rolls the disc from one spot to another; not farther than `far`, nor to where it began.
    /// `round` asks for once round, where both are one.
    fn roll(&self, from: Spot, to: Spot, far: f64, round: bool) -> Result<Rolled, TraceError> {
        let mut rolled =
            Rolled { stretches: Vec::new(), arrived: false, closed: false, length: 0.0 };
        let mut spot = from;
        while rolled.length <= far {
            if rolled.stretches.len() % 64 == 63 && (self.watch)().is_break() {
                return Err(TraceError::CalledOff);
            }
            let (stretch, next) = self.shore.disc.step(&spot);
            let begins = rolled.stretches.is_empty();
            let there = |spot: &Spot, at_start: bool| {
                stretch.passes(spot).filter(|along| !begins || at_start || *along > 1e-3)
            };
            if let Some(along) = there(&to, !round) {
                rolled.stretches.push(stretch.until(&to, along));
                return Ok(Rolled { arrived: true, ..rolled });
            }
            rolled.length += stretch.length();
            rolled.stretches.push(stretch);
            rolled.closed = there(&from, false).is_some();
            // A disc that turns on the spot would turn for ever.
            if rolled.closed || (rolled.stretches.len() > 100 && rolled.length < 1e-3) {
                break;
            }
            spot = next;
        }
        Ok(rolled)
    }

    /// How many of the stretches lead to where the section is farthest on, and where that is.
    fn farthest(&self, stretches: &[Stretch], from: Ashore) -> (usize, Ashore) {
        let sides: std::collections::HashMap<[u64; 4], usize> =
            self.parts.iter().enumerate().map(|(index, part)| (bits(part.ends), index)).collect();
        let vertices: std::collections::HashMap<[u64; 4], usize> = self
            .parts
            .iter()
            .enumerate()
            .map(|(index, part)| (bits([part.ends[1]; 2]), index))
            .collect();
        let mut best = (0, from);
        for (count, stretch) in (1..).zip(stretches) {
            let found = match stretch.from.past {
                Past::Side(ends) => sides.get(&bits(ends)),
                Past::Vertex(vertex) => vertices.get(&bits([vertex; 2])),
            };
            let Some(&part) = found.filter(|part| **part >= best.1.part) else { continue };
            let place = self.place_under(part, stretch.to);
            best = (count, Ashore { part, place });
        }
        best
    }

    /// The place of a part that is nearest to a point.
    fn place_under(&self, part: usize, point: Point) -> ShorePoint {
        let part = &self.parts[part];
        let [a, b] = part.ends;
        let at = foot(point, part.ends);
        let along = (at.x - a.x).hypot(at.y - a.y) / (b.x - a.x).hypot(b.y - a.y);
        let along = if at == b { 1.0 } else { along.clamp(part.parts[0], part.parts[1]) };
        self.shore.place(part, along)
    }

    /// The first spot along the section's parts from one on, and where it touches them.
    fn free_from(&self, part: usize) -> Result<Option<(Spot, Ashore)>, TraceError> {
        self.search(part..self.parts.len(), false)
    }

    fn last_free(&self) -> Result<Option<(Spot, Ashore)>, TraceError> {
        self.search((0..self.parts.len()).rev(), true)
    }

    fn search(
        &self,
        parts: impl Iterator<Item = usize>,
        last: bool,
    ) -> Result<Option<(Spot, Ashore)>, TraceError> {
        for part in parts {
            if part % 64 == 0 && (self.watch)().is_break() {
                return Err(TraceError::CalledOff);
            }
            if let Some(found) = self.free(part, last) {
                return Ok(Some(found));
            }
        }
        Ok(None)
    }

    fn free(&self, index: usize, last: bool) -> Option<(Spot, Ashore)> {
        let part = &self.parts[index];
        let (spot, at) = self.shore.free(part, last)?;
        Some((spot, Ashore { part: index, place: self.shore.place(part, at) }))
    }

    /// Along the shore itself, smoothed.
    fn ashore(&mut self, from: ShorePoint, to: ShorePoint) -> Result<(), TraceError> {
        self.offing.narrow = true;
        let step = self.wishes.step.max(4.0 * self.wishes.stand_off);
        let section = self.section.part(from, to);
        let Shore { near, disc, .. } = self.shore;
        self.points.extend(taut::smoothed(&section, step, near, disc.scale, self.watch)?);
        self.points.dedup();
        Ok(())
    }

    /// Along the way of the disc, smoothed if that is wished.
    fn take(&mut self, stretches: &[Stretch]) -> Result<(), TraceError> {
        let line = self.section.line.id();
        self.offing.others |= stretches.iter().any(|stretch| stretch.from.line != line);
        let mut points: Vec<Point> = Vec::new();
        for stretch in stretches {
            flatten(stretch, &mut points);
        }
        points.dedup();
        if self.wishes.step > 0.0 {
            let Shore { near, disc, .. } = self.shore;
            points = keep::smoothed(&points, self.wishes, near, disc.scale, self.watch)?;
        }
        self.points.append(&mut points);
        self.points.dedup();
        Ok(())
    }
}

fn bits([a, b]: [Point; 2]) -> [u64; 4] {
    [a.x, a.y, b.x, b.y].map(f64::to_bits)
}

/// A stretch as points. An arc becomes chords that come no nearer to its vertex than the
/// stand-off, of which the radius is [`SLACK`] more.
fn flatten(stretch: &Stretch, points: &mut Vec<Point>) {
    let from = stretch.from.at;
    points.push(from);
    if let Past::Vertex(vertex) = stretch.from.past {
        let most = 2.0 * (1.0 / (1.0 + SLACK)).acos();
        let chords = (stretch.turn / most).ceil();
        let arm = from - vertex;
        points.extend((1..chords as u32).map(|chord| {
            let (sin, cos) = (stretch.turn * f64::from(chord) / chords).sin_cos();
            vertex + Point { x: arm.x * cos - arm.y * sin, y: arm.x * sin + arm.y * cos }
        }));
    }
    points.push(stretch.to);
}
