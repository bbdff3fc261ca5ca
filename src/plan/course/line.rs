//! The line of a leg over the ground, by distance along it.

use nav::{Bearing, Length, Position, True, geodesic, rhumb};

use crate::Along;

/// The line of a leg.
#[derive(Debug)]
pub(super) enum Line {
    /// A rhumb line.
    Straight { from: Position, to: Position, bearing: Bearing<True>, length: Length },
    /// From vertex to vertex, by geodesics.
    Traced { sides: Vec<Side>, to: Position, length: Length },
}

/// A side of a traced line.
#[derive(Debug)]
pub(super) struct Side {
    from: Position,
    /// How far along the line it begins.
    begins: Length,
    track: Bearing<True>,
}

impl Line {
    pub(super) fn new(from: Position, to: Position, along: Option<&Along>) -> Line {
        let Some(along) = along else {
            let rhumb::Line { distance, bearing } = rhumb::inverse(from, to);
            return Line::Straight { from, to, bearing, length: distance };
        };
        let mut sides = Vec::with_capacity(along.line.len() + 1);
        let mut begins = Length::ZERO;
        let mut before = from;
        for next in along.line.iter().copied().chain([to]) {
            let side = geodesic::inverse(before, next);
            if side.distance > Length::ZERO {
                sides.push(Side { from: before, begins, track: side.bearing_at_start });
                begins += side.distance;
            }
            before = next;
        }
        Line::Traced { sides, to, length: along.measured(from, to).length }
    }

    /// Its length, as it is reckoned.
    pub(super) const fn length(&self) -> Length {
        match self {
            Line::Straight { length, .. } | Line::Traced { length, .. } => *length,
        }
    }

    /// The place so far along it.
    pub(super) fn at(&self, distance: Length) -> Position {
        if distance >= self.length() {
            return self.end();
        }
        match self {
            // A part of a line that does not leave the Earth ends on it.
            Line::Straight { from, bearing, .. } => {
                rhumb::direct(*from, *bearing, distance).unwrap_or(*from)
            }
            Line::Traced { sides, to, .. } => {
                let side = sides.partition_point(|side| side.begins <= distance).checked_sub(1);
                side.and_then(|side| sides.get(side)).map_or(*to, |side| {
                    geodesic::direct(side.from, side.track, distance - side.begins).position
                })
            }
        }
    }

    const fn end(&self) -> Position {
        match self {
            Line::Straight { to, .. } | Line::Traced { to, .. } => *to,
        }
    }

    /// The way from one place of it to another over the ground, and how far apart they are.
    pub(super) fn way(
        &self,
        from: Position,
        to: Position,
        length: Length,
    ) -> (Bearing<True>, Length) {
        match self {
            Line::Straight { bearing, .. } => (*bearing, length),
            Line::Traced { .. } => {
                let chord = rhumb::inverse(from, to);
                (chord.bearing, chord.distance)
            }
        }
    }
}
