//! A leg held on one bearing, as a line on the plane of a grid.

use super::flat;
use crate::{OffGrid, Point};
use nav::{Grid, GridPoint, Length, Position, rhumb};

/// How often a stretch may be halved: a leg becomes 4,096 stretches at most.
const HALVINGS: u32 = 12;

/// The rhumb line between two positions, which is the leg that holds one bearing, on the plane of
/// `grid`: a line through points, nowhere farther than `tolerance` grid metres from it.
///
/// On World Mercator that is the straight line between two points; on other grids a leg of 50 km
/// in middle latitudes may lie some 100 m beside it. There is more than one piece only on World
/// Mercator, across the 180th meridian: there a leg leaves the plane at one side and comes back at
/// the other.
///
/// The line is checked at quarters of each stretch and halved until they agree, up to 4,096
/// stretches; along a grid's own plane no rhumb line bends more than that.
///
/// # Errors
/// [`OffGrid`] where the grid does not reach.
pub fn line(
    grid: &Grid,
    from: Position,
    to: Position,
    tolerance: f64,
) -> Result<Vec<Vec<Point>>, OffGrid> {
    let leg = Rhumb::new(grid, from, to);
    let (start, end) = (on_grid(grid, from)?, on_grid(grid, to)?);
    if matches!(grid, Grid::WorldMercator(_)) {
        let side = on_grid(grid, Position::from_degrees(0.0, 180.0)?)?.x.abs();
        return Ok(straight(leg.east, side, start, end));
    }
    let mut points = vec![start];
    leg.halve([0.0, 1.0], [start, end], tolerance.max(1e-6), HALVINGS, &mut points)?;
    Ok(vec![points])
}

fn on_grid(grid: &Grid, position: Position) -> Result<Point, OffGrid> {
    let GridPoint { easting, northing } = grid.forward(position)?.point;
    Ok(Point { x: easting.as_metres(), y: northing.as_metres() })
}

/// A rhumb line on a grid.
struct Rhumb<'a> {
    grid: &'a Grid,
    from: Position,
    line: rhumb::Line,
    /// Whether it runs east.
    east: bool,
}

impl Rhumb<'_> {
    fn new(grid: &Grid, from: Position, to: Position) -> Rhumb<'_> {
        let line = rhumb::inverse(from, to);
        let east = line.bearing.as_degrees() < 180.0;
        Rhumb { grid, from, line, east }
    }

    /// The point at a part of its length; nothing where there is none, beside a pole.
    fn at(&self, part: f64) -> Result<Option<Point>, OffGrid> {
        let distance = Length::from_metres(self.line.distance.as_metres() * part)?;
        let position = rhumb::direct(self.from, self.line.bearing, distance).ok();
        position.map(|position| on_grid(self.grid, position)).transpose()
    }

    /// Adds the points of a stretch but its first, halved until quarters lie near the chord.
    fn halve(
        &self,
        parts: [f64; 2],
        ends: [Point; 2],
        tolerance: f64,
        halvings: u32,
        points: &mut Vec<Point>,
    ) -> Result<(), OffGrid> {
        let [from, to] = parts;
        let mut bends = false;
        for quarter in [0.25, 0.5, 0.75] {
            // A line that bends both ways may lie on the chord at its middle.
            let at = self.at(from + (to - from) * quarter)?;
            bends |= at.is_some_and(|p| flat::foot(p, ends).1 > tolerance * tolerance);
        }
        let middle = (from + to) / 2.0;
        match self.at(middle)?.filter(|_| bends && halvings > 0) {
            Some(at) => {
                self.halve([from, middle], [ends[0], at], tolerance, halvings - 1, points)?;
                self.halve([middle, to], [at, ends[1]], tolerance, halvings - 1, points)
            }
            None => {
                points.push(ends[1]);
                Ok(())
            }
        }
    }
}

/// The straight line from `start` to `end`, in two pieces if it crosses the 180th meridian, which
/// lies at the easting `side` and at its negative.
fn straight(east: bool, side: f64, start: Point, end: Point) -> Vec<Vec<Point>> {
    let ahead = if east { end.x >= start.x } else { end.x <= start.x };
    if ahead {
        return vec![vec![start, end]];
    }
    let side = if east { side } else { -side };
    let beyond = end.x + 2.0 * side;
    let crossing = start.y + (end.y - start.y) * (side - start.x) / (beyond - start.x);
    let at = |x: f64| Point { x, y: crossing };
    vec![vec![start, at(side)], vec![at(-side), end]]
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use rstest::rstest;

    fn position(lat: f64, lon: f64) -> Position {
        Position::from_degrees(lat, lon).unwrap()
    }

    /// How far the rhumb line strays from a line of points, by many points of it.
    fn strays(grid: &Grid, from: Position, to: Position, points: &[Point]) -> f64 {
        let leg = Rhumb::new(grid, from, to);
        let far = |p: Point| {
            let sides = points.windows(2).map(|pair| flat::foot(p, [pair[0], pair[1]]).1);
            sides.fold(f64::INFINITY, f64::min).sqrt()
        };
        (0..=997).filter_map(|i| leg.at(f64::from(i) / 997.0).unwrap()).map(far).fold(0.0, f64::max)
    }

    #[rstest]
    #[case("UTM:30N", (57.0, -3.0), (57.0, -2.2))]
    #[case("UTM:30N", (57.0, -3.4), (57.0, -2.6))]
    #[case("UTM:30N", (56.8, -5.9), (57.1, -5.2))]
    #[case("EPSG:27700", (57.0, -7.0), (57.1, -6.2))]
    #[case("EPSG:2157", (53.0, -10.0), (53.0, -9.3))]
    fn a_line_keeps_its_tolerance(
        #[case] grid: &str,
        #[case] from: (f64, f64),
        #[case] to: (f64, f64),
        #[values(10.0, 0.1)] tolerance: f64,
    ) {
        let grid = Grid::parse(grid).unwrap();
        let (from, to) = (position(from.0, from.1), position(to.0, to.1));
        let pieces = line(&grid, from, to, tolerance).unwrap();
        let [points] = &pieces[..] else { panic!("{pieces:?}") };
        let off = strays(&grid, from, to, points);
        assert!(off <= tolerance * 1.01, "{off}");
        let ends = [points[0], points[points.len() - 1]];
        assert_eq!(ends, [on_grid(&grid, from).unwrap(), on_grid(&grid, to).unwrap()]);
    }

    /// A parallel of 48.7 km at 57 degrees north: a rhumb line of radius N cot(lat) on the ground,
    /// so that its sagitta is its length squared by eight radii.
    #[test]
    fn a_long_leg_lies_well_beside_the_straight_line() {
        let grid = Grid::parse("UTM:30N").unwrap();
        let (from, to) = (position(57.0, -3.4), position(57.0, -2.6));
        let lat = 57.0_f64.to_radians();
        let across = 6_378_137.0 / (1.0 - 0.006_694_38 * lat.sin().powi(2)).sqrt();
        let length = across * lat.cos() * 0.8_f64.to_radians();
        let sagitta = length.powi(2) / (8.0 * across / lat.tan());
        let straight = [from, to].map(|end| on_grid(&grid, end).unwrap());
        let off = strays(&grid, from, to, &straight);
        assert!((off - sagitta).abs() < 0.1, "{off}, {sagitta}");
        assert!(off > 70.0);
    }

    #[test]
    fn on_world_mercator_a_leg_is_straight() {
        let grid = Grid::parse("EPSG:3395").unwrap();
        let (from, to) = (position(57.0, -3.4), position(-20.0, 40.0));
        let pieces = line(&grid, from, to, 0.1).unwrap();
        assert_eq!((pieces.len(), pieces[0].len()), (1, 2));
        assert!(strays(&grid, from, to, &pieces[0]) < 1e-6);
    }

    #[test]
    fn across_the_180th_meridian_it_is_in_two_pieces() {
        let grid = Grid::parse("EPSG:3395").unwrap();
        let (west, east) = (position(-17.0, 179.5), position(-18.0, -179.0));
        let side = std::f64::consts::PI * 6_378_137.0;
        for (from, to, first) in [(west, east, side), (east, west, -side)] {
            let pieces = line(&grid, from, to, 0.1).unwrap();
            let [[start, out], [back, end]] = [&pieces[0][..], &pieces[1][..]] else {
                panic!("{pieces:?}")
            };
            assert!((out.x - first).abs() < 1e-6 && (back.x + first).abs() < 1e-6);
            assert_eq!(out.y, back.y);
            let bearing = rhumb::inverse(from, to).bearing.as_degrees().to_radians();
            for (p, q) in [(start, out), (back, end)] {
                let off = (q.y - p.y) - (q.x - p.x) / bearing.tan();
                assert!(off.abs() < 1e-4, "{off}");
            }
        }
    }

    #[test]
    fn a_leg_of_no_length_and_one_along_a_meridian() {
        let grid = Grid::parse("UTM:30N").unwrap();
        let here = position(57.0, -3.0);
        assert_eq!(line(&grid, here, here, 0.1).unwrap()[0].len(), 2);
        assert_eq!(line(&grid, here, position(58.0, -3.0), 0.1).unwrap()[0].len(), 2);
        let polar = Grid::parse("UPS:N").unwrap();
        let points = line(&polar, position(88.0, 10.0), position(89.0, 70.0), 0.1).unwrap();
        let off = strays(&polar, position(88.0, 10.0), position(89.0, 70.0), &points[0]);
        assert!(off <= 0.11, "{off}");
    }

    proptest! {
        #[test]
        fn any_leg_keeps_its_tolerance(
            lat in 40.0..65.0, lon in -6.0..0.0, north in -0.5..0.5, east in -1.0..1.0,
        ) {
            let grid = Grid::parse("UTM:30N").unwrap();
            let (from, to) = (position(lat, lon), position(lat + north, lon + east));
            let pieces = line(&grid, from, to, 0.1).unwrap();
            prop_assert!(strays(&grid, from, to, &pieces[0]) <= 0.101);
        }
    }
}
