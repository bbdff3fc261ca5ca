//! Lines of many positions thinned to those that make their shape.

use std::collections::{BTreeSet, BinaryHeap};

use nav::{Length, Position};

/// The metres in a degree of latitude, about: nothing that is printed to more than two figures hangs on it.
const METRES_IN_A_DEGREE: f64 = 111_200.0;

/// What is left of a line.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Thinned {
    /// The numbers of the positions that are kept, in their order.
    pub(super) kept: Vec<usize>,
    /// How far a position that is left out is from the line at most, to about a hundredth.
    pub(super) strays: Length,
}

impl Thinned {
    /// How far it strays, in words: `12 m`, `0.4 m`.
    pub(super) fn strays_said(&self) -> String {
        metres(self.strays)
    }
}

/// A short distance in metres.
pub(super) fn metres(distance: Length) -> String {
    let metres = distance.as_metres();
    if metres < 9.95 { format!("{metres:.1} m") } else { format!("{metres:.0} m") }
}

/// A part of the line between two positions that are kept, and the one within that is farthest off: the square
/// of how far, in square metres, by its bits, which are in the order of the numbers, since none is negative.
type Part = (u64, usize, usize, usize);

/// The positions of `line` without which it would stray by more than `within`, `most` of them at most, the
/// farthest first (Douglas and Peucker's rule, the worst part first). Those in `must` are kept in any case, and
/// both ends.
pub(super) fn thin(
    line: &[Position],
    must: impl IntoIterator<Item = usize>,
    within: Length,
    most: usize,
) -> Thinned {
    let ends = [0, line.len().saturating_sub(1)];
    let mut kept: BTreeSet<usize> = must.into_iter().chain(ends).collect();
    kept.retain(|&index| index < line.len());
    let fixed: Vec<usize> = kept.iter().copied().collect();
    let pairs = fixed.iter().zip(fixed.iter().skip(1));
    let mut parts: BinaryHeap<Part> =
        pairs.filter_map(|(&from, &to)| farthest(line, from, to)).collect();
    let bound = within.as_metres().powi(2);
    while kept.len() < most {
        let Some((bits, from, middle, to)) = parts.pop() else { break };
        if f64::from_bits(bits) <= bound {
            parts.push((bits, from, middle, to));
            break;
        }
        kept.insert(middle);
        parts.extend(farthest(line, from, middle));
        parts.extend(farthest(line, middle, to));
    }
    let strays = parts.peek().map_or(0.0, |part| f64::from_bits(part.0).sqrt());
    Thinned {
        kept: kept.into_iter().collect(),
        strays: Length::from_metres(strays).unwrap_or(Length::ZERO),
    }
}

/// The position between two that is farthest from the straight line between them.
fn farthest(line: &[Position], from: usize, to: usize) -> Option<Part> {
    let (start, end) = (line.get(from)?, line.get(to)?);
    let middle = f64::midpoint(start.lat.as_radians(), end.lat.as_radians());
    let east = METRES_IN_A_DEGREE * middle.cos();
    let flat = |at: &Position| {
        let north = (at.lat.as_degrees() - start.lat.as_degrees()) * METRES_IN_A_DEGREE;
        (at.lon.degrees_east_of(start.lon) * east, north)
    };
    let (dx, dy) = flat(end);
    let length = dx * dx + dy * dy;
    let between = line.get(from + 1..to)?.iter().enumerate().map(|(index, at)| {
        let (x, y) = flat(at);
        let part = if length > 0.0 { ((x * dx + y * dy) / length).clamp(0.0, 1.0) } else { 0.0 };
        let (x, y) = (x - part * dx, y - part * dy);
        ((x * x + y * y).to_bits(), from, from + 1 + index, to)
    });
    between.max_by_key(|&(bits, ..)| bits)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn at(lat: f64, lon: f64) -> Position {
        Position::from_degrees(lat, lon).unwrap()
    }

    fn metres(metres: f64) -> Length {
        Length::from_metres(metres).unwrap()
    }

    #[test]
    fn a_line_keeps_its_corners() {
        // East along a parallel, with a step of some 11 m, then north; across the 180th meridian.
        let line = [
            at(50.0, 179.9),
            at(50.0001, 179.95),
            at(50.0, -179.95),
            at(50.0, -179.9),
            at(50.1, -179.9),
        ];
        assert_eq!(thin(&line, [], metres(20.0), 99).kept, [0, 3, 4]);
        let finer = thin(&line, [], metres(5.0), 99);
        assert_eq!((finer.kept.len(), finer.strays.as_metres() < 5.0), (4, true));
        let few = thin(&line, [], metres(0.0), 3);
        assert_eq!(few.kept, [0, 3, 4]);
        assert!((few.strays.as_metres() - 11.12).abs() < 0.1, "{few:?}");
        assert_eq!(thin(&line, [2], metres(20.0), 99).kept, [0, 2, 3, 4]);
    }

    #[test]
    fn lines_of_no_length_are_themselves() {
        assert_eq!(thin(&[], [], metres(1.0), 9).kept, [0_usize; 0]);
        assert_eq!(thin(&[at(1.0, 2.0)], [], metres(1.0), 9).kept, [0]);
        assert_eq!(thin(&[at(1.0, 2.0); 5], [], metres(0.0), 9).kept, [0, 4]);
        // There and back: the ends are one place.
        let back = [at(1.0, 2.0), at(1.1, 2.0), at(1.0, 2.0)];
        assert_eq!(thin(&back, [], metres(10.0), 9).kept, [0, 1, 2]);
    }

    proptest! {
        #[test]
        fn what_is_left_out_is_near_the_line_that_is_left(
            places in prop::collection::vec((57.0..57.1, 10.0..10.1), 2..60),
            within in 10.0..3000.0,
        ) {
            let line: Vec<_> = places.into_iter().map(|(lat, lon)| at(lat, lon)).collect();
            let thinned = thin(&line, [], metres(within), usize::MAX);
            prop_assert!(thinned.strays.as_metres() <= within);
            let kept = &thinned.kept;
            for (index, here) in line.iter().enumerate() {
                let next = kept.partition_point(|&one| one < index);
                if kept[next] == index { continue; }
                // A second method: the nearest of many places along the side.
                let (a, b) = (line[kept[next - 1]], line[kept[next]]);
                let nearest = (0..=2000).map(|n| {
                    let part = f64::from(n) / 2000.0;
                    let mix = |a: f64, b: f64| a + (b - a) * part;
                    let on = at(mix(a.lat.as_degrees(), b.lat.as_degrees()),
                        mix(a.lon.as_degrees(), b.lon.as_degrees()));
                    nav::geodesic::inverse(*here, on).distance.as_metres()
                }).fold(f64::MAX, f64::min);
                prop_assert!(nearest <= within * 1.01 + 5.0, "{} of {}", nearest, within);
            }
        }
    }
}
