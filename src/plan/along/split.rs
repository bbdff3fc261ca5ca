//! A traced leg in two, at a point of its line.

use nav::Position;

use super::flat::Place;
use super::{Along, Flat, Line, Through};

/// How far off the line a point may be and still be on it, in degrees of latitude: a metre, and a
/// three-hundredth of the side that it lies beside, since a straight side bends by about that much
/// between a chart's grid and the Earth where it is a hundred kilometres long.
const ON_THE_LINE: (f64, f64) = (1.0 / 111_000.0, 1.0 / 300.0);

impl Along {
    /// The two parts of the leg on either side of `at`, with `at` a new end of both; nothing if it
    /// does not lie on the line.
    pub(crate) fn split(
        &self,
        from: Position,
        at: Position,
        to: Position,
    ) -> Option<(Along, Along)> {
        let flat = Flat::of(self.whole(from, to));
        let (place, off) = flat.nearest(at)?;
        if off > ON_THE_LINE.0 + flat.side(place.side) * ON_THE_LINE.1 {
            return None;
        }
        let pinned = self.pinned(&flat, place);
        let (before, after) = pinned.line.split_at(place.side.min(pinned.line.len()));
        // A vertex in the very place of the new point is that point.
        let before = before.strip_suffix(&[at]).unwrap_or(before);
        let after = after.strip_prefix(&[at]).unwrap_or(after);
        let passed = pinned.passed(&flat, place);
        let (through, rest) = pinned.through.split_at(passed);
        // A piece with an end off the shore is straight, and so is each part of it.
        let free = pinned.clicks(from, to).iter().skip(passed).take(2).any(|point| point.free);
        let first = Along {
            line: Line::of(before.into()),
            through: through.to_vec(),
            free_end: free,
            other_way: false,
            ..pinned
        };
        let second = Along {
            line: Line::of(after.into()),
            through: rest.to_vec(),
            free_start: free,
            ..pinned
        };
        Some((first, second))
    }

    /// The leg's whole line, both ends included.
    pub(crate) fn whole(
        &self,
        from: Position,
        to: Position,
    ) -> impl DoubleEndedIterator<Item = Position> + Clone {
        std::iter::once(from).chain(self.line.iter().copied()).chain([to])
    }

    /// How many of the points that the leg is laid through come before a place.
    fn passed(&self, flat: &Flat, place: Place) -> usize {
        let before =
            |point: &&Through| flat.nearest(point.at).is_some_and(|(there, _)| there < place);
        self.through.iter().take_while(before).count()
    }

    /// The same leg with the piece at a place running the shorter way, if need be through two more
    /// points. Of a piece that ran the longer way a part may be the shorter way; of one cut in three
    /// every part is, as each is under half of the way round.
    fn pinned(&self, flat: &Flat, place: Place) -> Along {
        let mut pinned = self.clone();
        let piece = self.passed(flat, place);
        let way = match pinned.through.get_mut(piece) {
            Some(point) => &mut point.other_way,
            None => &mut pinned.other_way,
        };
        if !std::mem::take(way) || self.through.len() + 2 > Along::MOST_THROUGH {
            return pinned;
        }
        let start = Place { side: 0, part: 0.0 };
        let end = Place { side: self.line.len(), part: 1.0 };
        let place_of = |point: &Through| flat.nearest(point.at).map(|(place, _)| place);
        let from = piece.checked_sub(1).and_then(|before| place_of(self.through.get(before)?));
        let to = self.through.get(piece).and_then(place_of);
        let (from, to) = (from.unwrap_or(start), to.unwrap_or(end));
        let pins = [1.0 / 3.0, 2.0 / 3.0].map(|part| flat.position(flat.between(from, to, part)));
        let pins = pins.into_iter().flatten().map(crate::rounded);
        let pins = pins.map(|at| Through { at, free: false, other_way: false });
        pinned.through.splice(piece..piece, pins);
        pinned
    }
}
