//! Features one by one become a shore on a grid.

use nav::{Grid, GridPoint, Position};

use super::fault::{Feature, Why};
use super::parse::Geometry;
use super::rings::{self, Crosses, Crossing, Pieces};
use super::seam;
use super::{BadRings, Import, LeftOut, Shore};
use crate::model::{Land, Point, Ring};

/// The shore so far.
pub(crate) struct Gatherer<'a> {
    grid: &'a Grid,
    bad: BadRings,
    shore: Shore,
    left_out: LeftOut,
    features: usize,
}

impl<'a> Gatherer<'a> {
    pub(crate) fn new(grid: &'a Grid, bad: BadRings) -> Gatherer<'a> {
        let (shore, left_out) = (Shore::default(), LeftOut::default());
        Gatherer { grid, bad, shore, left_out, features: 0 }
    }

    /// What it came to; that there is no shore in it is an error.
    pub(crate) fn import(self) -> Result<Import, Why> {
        let Gatherer { shore, left_out, .. } = self;
        let empty = shore.land.is_empty() && shore.lines.is_empty();
        if empty { Err(Why::Empty { left_out }) } else { Ok(Import { shore, left_out }) }
    }

    /// Takes a feature.
    pub(crate) fn take(&mut self, name: String, geometries: Vec<Geometry>) -> Result<(), Why> {
        self.features += 1;
        let feature = Feature { number: self.features, name };
        let before = self.shore.land.len();
        for Geometry { kind, flat } in geometries {
            let flat = seam::joined(flat);
            match kind.as_str() {
                _ if flat.depth.is_none() => self.left_out.empty += 1,
                "Polygon" => self.polygon(&feature, flat.lines())?,
                "MultiPolygon" => flat
                    .polygons()
                    .try_for_each(|polygon| self.polygon(&feature, polygon.into_iter()))?,
                "LineString" => self.line(&feature, &flat.positions)?,
                "MultiLineString" => {
                    flat.lines().try_for_each(|line| self.line(&feature, line))?;
                }
                _ => self.left_out.points += flat.positions.len(),
            }
        }
        self.name_the_largest(before, feature.name);
        Ok(())
    }

    /// A name that stands for many islands is written once, on the largest.
    fn name_the_largest(&mut self, since: usize, name: String) {
        let new = self.shore.land.iter_mut().skip(since);
        let area = |land: &Land| land.shore.doubled_area();
        if let Some(largest) = new.max_by(|a, b| area(a).total_cmp(&area(b))) {
            largest.name = name;
        }
    }

    fn polygon<'p>(
        &mut self,
        feature: &Feature,
        mut rings: impl Iterator<Item = &'p [Point]>,
    ) -> Result<(), Why> {
        let Some(outer) = rings.next() else { return Ok(()) };
        let outer = self.ring(feature, outer)?;
        let first = self.shore.land.len();
        self.add_land(outer.with);
        let mut lakes = outer.against;
        let mut islands = Vec::new();
        for hole in rings {
            let hole = self.ring(feature, hole)?;
            lakes.extend(hole.with);
            islands.extend(hole.against);
        }
        for lake in lakes {
            self.add_lake(first, lake);
        }
        self.add_land(islands);
        Ok(())
    }

    fn add_land(&mut self, shores: Vec<Ring>) {
        let land = shores.into_iter().map(|shore| Land { shore, ..Land::default() });
        self.shore.land.extend(land);
    }

    /// Puts a lake into the piece of land around it, of those since `first`.
    fn add_lake(&mut self, first: usize, lake: Ring) {
        let pieces = self.shore.land.get_mut(first..).unwrap_or_default();
        let around = match pieces {
            [only] => Some(only),
            several => several.iter_mut().find(|land| holds(&land.shore, &lake)),
        };
        match around {
            Some(land) => land.lakes.push(lake),
            None => self.left_out.small += 1,
        }
    }

    /// A polygon's ring on the grid; nothing where it is left out.
    fn ring(&mut self, feature: &Feature, positions: &[Point]) -> Result<Pieces, Why> {
        let (Some(&start), Some(&end)) = (positions.first(), positions.last()) else {
            return Ok(Pieces::default());
        };
        if start != end {
            let feature = feature.clone();
            return self.bad_ring(Why::NotClosed { feature, start });
        }
        let points = self.on_grid(feature, positions)?;
        let crossing = match self.bad {
            BadRings::Mend => Crossing::Cut,
            BadRings::Refuse | BadRings::LeaveOut => Crossing::Refuse,
        };
        match rings::simple(points, crossing) {
            Ok(pieces) => {
                let nothing = pieces.with.is_empty() && pieces.against.is_empty();
                self.left_out.small += usize::from(nothing);
                self.left_out.mended += usize::from(pieces.mended);
                Ok(pieces)
            }
            Err(Crosses(at)) => {
                let feature = feature.clone();
                let at = self.position(at);
                self.bad_ring(Why::CrossesItself { feature, at })
            }
        }
    }

    fn bad_ring(&mut self, why: Why) -> Result<Pieces, Why> {
        match self.bad {
            BadRings::Refuse | BadRings::Mend => Err(why),
            BadRings::LeaveOut => {
                self.left_out.bad += 1;
                Ok(Pieces::default())
            }
        }
    }

    fn line(&mut self, feature: &Feature, positions: &[Point]) -> Result<(), Why> {
        let line = rings::rounded(self.on_grid(feature, positions)?);
        if line.len() < 2 {
            self.left_out.small += 1;
            return Ok(());
        }
        self.left_out.closed_lines += usize::from(line.first() == line.last());
        self.shore.lines.push(line);
        Ok(())
    }

    fn on_grid(&self, feature: &Feature, positions: &[Point]) -> Result<Vec<Point>, Why> {
        let one = |&Point { x: lon, y: lat }: &Point| {
            let beyond = |why: String| Why::BeyondGrid {
                feature: feature.clone(),
                lon,
                lat,
                grid: self.grid.name(),
                why,
            };
            // A ring in one piece may lie across the antimeridian.
            let east = if lon.abs() > 180.0 { lon - 360.0_f64.copysign(lon) } else { lon };
            let position =
                Position::from_degrees(lat, east).map_err(|error| beyond(error.to_string()))?;
            let GridPoint { easting, northing } =
                self.grid.forward(position).map_err(|error| beyond(error.to_string()))?.point;
            Ok(Point { x: easting.as_metres(), y: northing.as_metres() })
        };
        positions.iter().map(one).collect()
    }

    /// Longitude and latitude of a point of the grid, to a millionth of a degree; for messages.
    fn position(&self, at: Point) -> Point {
        let found =
            GridPoint::from_metres(at.x, at.y).ok().and_then(|point| self.grid.inverse(point).ok());
        let rounded = |degrees: f64| (degrees * 1e6).round() / 1e6;
        found.map_or(at, |found| Point {
            x: rounded(found.position.lon.as_degrees()),
            y: rounded(found.position.lat.as_degrees()),
        })
    }
}

/// Whether a ring holds another that does not cross it.
fn holds(outer: &Ring, inner: &Ring) -> bool {
    // A corner they share decides nothing, so most corners do.
    let inside = inner.0.iter().filter(|point| outer.encloses(**point)).count();
    2 * inside > inner.0.len()
}
