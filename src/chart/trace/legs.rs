//! A line that is laid piece by piece, and laid anew only where it changes.

use super::along::{self, Along};
use super::section::Section;
use super::{Anchor, Kind, Laid, Piece, TraceError, Watch, Way, Wishes, straight};
use crate::Point;
use crate::coast::Coast;

/// A line and the anchors that it is laid by. Each change lays only the pieces beside the anchor
/// that changed; a change that fails leaves the line as it was.
///
/// For a line that follows the cursor, [`push`](Trace::push) the anchor under it and
/// [`set`](Trace::set) that last anchor at every move.
#[derive(Debug, Clone)]
pub struct Trace {
    wishes: Wishes,
    anchors: Vec<(Anchor, Way)>,
    /// One less than there are anchors.
    legs: Vec<Leg>,
    /// Where the pieces of each leg begin in `laid`: how many points and pieces lie before.
    starts: Vec<(usize, usize)>,
    laid: Laid,
}

/// What joins two anchors.
#[derive(Debug, Clone)]
enum Leg {
    Straight,
    Along(Along),
}

impl Leg {
    /// The points of a piece along the shore.
    fn points(&self) -> Option<&[Point]> {
        match self {
            Leg::Along(along) => Some(&along.points),
            Leg::Straight => None,
        }
    }
}

impl Trace {
    /// A line without anchors.
    ///
    /// # Errors
    /// [`TraceError`] when a wish is out of bounds.
    pub fn new(wishes: Wishes) -> Result<Trace, TraceError> {
        wishes.check()?;
        let (anchors, legs, starts, laid) = Default::default();
        Ok(Trace { wishes, anchors, legs, starts, laid })
    }

    /// What it is wished like.
    #[must_use]
    pub fn wishes(&self) -> Wishes {
        self.wishes
    }

    /// Its anchors, each with the way of the piece that leads to it.
    #[must_use]
    pub fn anchors(&self) -> &[(Anchor, Way)] {
        &self.anchors
    }

    /// The line through all anchors.
    #[must_use]
    pub fn laid(&self) -> &Laid {
        &self.laid
    }

    /// The line through all anchors, by itself.
    #[must_use]
    pub fn into_laid(self) -> Laid {
        self.laid
    }

    /// Leads the line on to a further anchor.
    ///
    /// # Errors
    /// [`TraceError`] when the anchor is none of `coast`, or `watch` called the work off.
    pub fn push(
        &mut self,
        coast: &Coast,
        anchor: Anchor,
        way: Way,
        watch: Watch<'_>,
    ) -> Result<(), TraceError> {
        self.insert(coast, self.anchors.len(), (anchor, way), watch)
    }

    /// Leads the line through a further anchor, which gets the number `index`.
    ///
    /// # Errors
    /// [`TraceError`] when the anchor is none of `coast`, there is no such number, or `watch`
    /// called the work off.
    pub fn insert(
        &mut self,
        coast: &Coast,
        index: usize,
        anchor: (Anchor, Way),
        watch: Watch<'_>,
    ) -> Result<(), TraceError> {
        let mut anchors = self.anchors.clone();
        if index > anchors.len() {
            return Err(TraceError::NoSuchAnchor(index, anchors.len()));
        }
        anchors.insert(index, anchor);
        self.change(coast, anchors, index, index.saturating_sub(1)..index, watch)
    }

    /// Moves an anchor, or takes another way to it.
    ///
    /// # Errors
    /// As [`insert`](Self::insert).
    pub fn set(
        &mut self,
        coast: &Coast,
        index: usize,
        anchor: (Anchor, Way),
        watch: Watch<'_>,
    ) -> Result<(), TraceError> {
        let mut anchors = self.anchors.clone();
        let many = anchors.len();
        let place = anchors.get_mut(index).ok_or(TraceError::NoSuchAnchor(index, many))?;
        if *place == anchor {
            return Ok(());
        }
        *place = anchor;
        let last = (index + 1).min(self.legs.len());
        self.change(coast, anchors, index, index.saturating_sub(1)..last, watch)
    }

    /// Takes an anchor away.
    ///
    /// # Errors
    /// As [`insert`](Self::insert).
    pub fn remove(
        &mut self,
        coast: &Coast,
        index: usize,
        watch: Watch<'_>,
    ) -> Result<(), TraceError> {
        let mut anchors = self.anchors.clone();
        if index >= anchors.len() {
            return Err(TraceError::NoSuchAnchor(index, anchors.len()));
        }
        anchors.remove(index);
        let last = (index + 1).min(self.legs.len());
        self.change(coast, anchors, index, index.saturating_sub(1)..last, watch)
    }

    /// Takes the anchors `anchors`, of which that of the number `index` is new, moved or gone:
    /// the legs `old` give way to as many as there are now between its neighbours.
    fn change(
        &mut self,
        coast: &Coast,
        anchors: Vec<(Anchor, Way)>,
        index: usize,
        old: std::ops::Range<usize>,
        watch: Watch<'_>,
    ) -> Result<(), TraceError> {
        let first = index.saturating_sub(1);
        let old = old.start.min(self.legs.len())..old.end.min(self.legs.len());
        let last = (anchors.len() + old.end).saturating_sub(1 + self.legs.len());
        let mut new = Vec::new();
        for pair in anchors.get(first..=last).unwrap_or(&[]).windows(2) {
            if let [(from, _), (to, way)] = pair {
                new.push(leg(coast, [from, to], *way, self.wishes, watch)?);
            }
        }
        if let [(anchor, _)] = anchors.as_slice() {
            check(coast, anchor)?;
        }
        self.legs.splice(old, new);
        self.anchors = anchors;
        // The place of an anchor on the line depends on the legs on both sides of it.
        self.assemble(coast, first.saturating_sub(1));
        Ok(())
    }

    /// Puts the legs from `first` on together to the line.
    fn assemble(&mut self, coast: &Coast, first: usize) {
        let all = (self.laid.points.len(), self.laid.pieces.len());
        let kept = if first == 0 { (0, 0) } else { self.starts.get(first).copied().unwrap_or(all) };
        let (points, pieces) = kept;
        self.starts.truncate(first);
        self.laid.points.truncate(points);
        self.laid.pieces.truncate(pieces);
        for index in first..self.legs.len() {
            self.starts.push((self.laid.points.len(), self.laid.pieces.len()));
            match &self.legs[index] {
                Leg::Along(along) => {
                    let [start, end] = along.ashore;
                    let stub = |end: Point, off: Option<&Point>| {
                        off.map(|off| [end, *off]).filter(|[a, b]| a != b)
                    };
                    if index == 0
                        && let Some(stub) = stub(start, along.points.first())
                    {
                        self.laid.append(&stub, 0, Kind::Stub);
                    }
                    self.laid.append(&along.points, index + 1, along.kind);
                    if index + 1 == self.legs.len()
                        && let Some([end, off]) = stub(end, along.points.last())
                    {
                        self.laid.append(&[off, end], index + 1, Kind::Stub);
                    }
                }
                Leg::Straight => {
                    let [(a, _), (b, _)] = [self.anchors[index], self.anchors[index + 1]];
                    // Between pieces that lie off the shore it goes from the one to the other.
                    let before =
                        index.checked_sub(1).and_then(|before| self.legs[before].points()?.last());
                    let after = self.legs.get(index + 1).and_then(|leg| leg.points()?.first());
                    let ends =
                        [before.copied().unwrap_or(a.at()), after.copied().unwrap_or(b.at())];
                    let kind = straight::kind(coast, ends, [&a, &b]);
                    self.laid.append(&ends, index + 1, kind);
                }
            }
        }
        if let [(anchor, _)] = self.anchors.as_slice() {
            self.laid.points = vec![anchor.at()];
        }
    }
}

impl Laid {
    /// Leads the line on by a piece, which begins where the line ends.
    fn append(&mut self, points: &[Point], anchor: usize, kind: Kind) {
        let joined = self.points.last().is_some_and(|last| points.first() == Some(last));
        // A piece that begins elsewhere, at an anchor whose berth the one before it reached and it
        // cannot, leads there first.
        let start = self.points.len().saturating_sub(1);
        self.points.extend_from_slice(points.get(usize::from(joined)..).unwrap_or(&[]));
        self.pieces.push(Piece { range: start..self.points.len(), anchor, kind });
    }
}

/// Joins two anchors.
fn leg(
    coast: &Coast,
    ends: [&Anchor; 2],
    way: Way,
    wishes: Wishes,
    watch: Watch<'_>,
) -> Result<Leg, TraceError> {
    check(coast, ends[0])?;
    check(coast, ends[1])?;
    let [Anchor::Shore(from), Anchor::Shore(to)] = ends else { return Ok(Leg::Straight) };
    let Some(line) = coast.line(from.line).filter(|_| from.line == to.line) else {
        return Ok(Leg::Straight);
    };
    let section = Section::new(line, *from, *to, way);
    Ok(Leg::Along(along::lay(coast, &section, wishes, watch)?))
}

/// # Errors
/// [`TraceError`] when the anchor is no place of `coast`.
fn check(coast: &Coast, anchor: &Anchor) -> Result<(), TraceError> {
    if let Anchor::Shore(place) = anchor
        && coast.line(place.line).is_none()
    {
        return Err(TraceError::NoSuchLine(place.line.0, coast.lines().len()));
    }
    let at = anchor.at();
    if !(at.x.is_finite() && at.y.is_finite()) {
        return Err(TraceError::NoPoint(at.x, at.y));
    }
    Ok(())
}
