//! Features one by one become the lines of a coast on World Mercator, as they are given.

use std::fmt;
use std::io::Read;
use std::ops::ControlFlow;

use nav::{Grid, Position, WorldMercator};
use serde::{Deserialize, Serialize};

use super::super::rim::FARTHEST;
use super::super::{AGAIN, Builder, Coast, Crew, LineKind};
use super::SCALE;
use crate::flatgeobuf::{self, Bytes, FlatGeobufError};
use crate::geojson::{self, Geometry, ImportError, LeftOut, Why, joined, part_beyond};
use crate::{Extent, Point};

/// The most vertices of a shore that is imported: with its indexes and the work on them, somewhat
/// over two gigabytes. More is refused before it fills the memory.
pub const MOST_VERTICES: usize = 32_000_000;

/// What is odd about a shore, counted; all of it is taken as it is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Told {
    /// Rings whose last position does not repeat the first; they are closed by a straight side.
    pub not_closed: u64,
    /// Positions that repeat the one before them.
    pub repeated: u64,
    /// Positions nearer to a pole than the plane reaches, put where it ends.
    pub clamped: u64,
    /// Rings that go on beyond the 180th meridian, and are there again on its other side.
    pub across: u64,
    /// Points, which are no shore and left out.
    pub points: u64,
    /// Geometries without positions, left out.
    pub empty: u64,
}

/// In words, each in a sentence part: `2 rings were not closed`.
impl fmt::Display for Told {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let parts: Vec<String> = [
            (
                self.not_closed,
                "ring not closed, now by a straight side",
                "rings not closed, now by straight sides",
            ),
            (self.repeated, "repeated position", "repeated positions"),
            (self.clamped, "position beyond 85.9° put there", "positions beyond 85.9° put there"),
            (self.across, "ring across the 180th meridian", "rings across the 180th meridian"),
            (self.points, "point left out", "points left out"),
            (self.empty, "empty geometry left out", "empty geometries left out"),
        ]
        .into_iter()
        .filter(|(count, ..)| *count > 0)
        .map(|(count, one, many)| format!("{count} {}", if count == 1 { one } else { many }))
        .collect();
        f.write_str(&parts.join(", "))
    }
}

/// Gathers features into a coast.
///
/// A polygon is a ring of land and its holes are lakes, a line is an open shore; [`Line::feature`]
/// counts polygons and lines from 0 in the order of the file, each for itself. A ring that goes
/// across the 180th meridian is in one piece, on the side on which most of it lies; what of it
/// is beyond is there once more on the other side, as lines of the feature [`AGAIN`].
///
/// [`Line::feature`]: super::super::Line::feature
#[derive(Debug)]
pub struct Gatherer {
    grid: Grid,
    builder: Builder,
    told: Told,
    polygons: u32,
    lines: u32,
    low: Point,
    high: Point,
}

/// A feature as it was read, not yet on the plane.
#[derive(Debug)]
pub struct Feature {
    name: String,
    geometries: Vec<Geometry>,
}

impl Default for Gatherer {
    fn default() -> Gatherer {
        Gatherer::new()
    }
}

impl Gatherer {
    /// Of no features yet.
    #[must_use]
    pub fn new() -> Gatherer {
        let grid = Grid::WorldMercator(WorldMercator::new());
        Gatherer {
            builder: Builder::in_ticks(grid.clone(), SCALE),
            grid,
            told: Told::default(),
            polygons: 0,
            lines: 0,
            low: Point { x: f64::INFINITY, y: f64::INFINITY },
            high: Point { x: f64::NEG_INFINITY, y: f64::NEG_INFINITY },
        }
    }

    /// Reads a GeoJSON file and hands its features to `give`, in order, so that what reads and what
    /// gathers can work side by side. `progress` is told the bytes read so far and may break
    /// the reading off, as an error of `give` does.
    ///
    /// # Errors
    /// [`ImportError`] with the line and column at which the file stops to be a shore.
    pub fn read_geojson(
        from: impl Read,
        mut progress: impl FnMut(u64) -> ControlFlow<()>,
        mut give: impl FnMut(Feature) -> Result<(), Why>,
    ) -> Result<(), ImportError> {
        let mut take = |name, geometries| give(Feature { name, geometries });
        geojson::features(from, MOST_VERTICES, &mut progress, &mut take)
    }

    /// What is in a GeoJSON file, read and gathered by the thread that asks.
    ///
    /// # Errors
    /// As [`read_geojson`](Self::read_geojson).
    pub fn geojson(
        from: impl Read,
        progress: impl FnMut(u64) -> ControlFlow<()>,
    ) -> Result<Gatherer, ImportError> {
        let mut gatherer = Gatherer::new();
        Gatherer::read_geojson(from, progress, |feature| gatherer.take(feature))?;
        gatherer.whole().map_err(|why| ImportError { line: 1, column: 1, why })
    }

    /// After the last feature: that there is no shore is an error.
    ///
    /// # Errors
    /// [`Why::Empty`].
    pub fn whole(self) -> Result<Gatherer, Why> {
        let empty = self.polygons == 0 && self.lines == 0;
        if empty { Err(Why::Empty { left_out: LeftOut::default() }) } else { Ok(self) }
    }

    /// What is in a FlatGeobuf file. `progress` is told the bytes passed so far and may break the
    /// reading off.
    ///
    /// # Errors
    /// [`FlatGeobufError`] where the file stops to be a shore.
    pub fn flatgeobuf<B: Bytes + ?Sized>(
        from: &B,
        progress: impl FnMut(u64) -> ControlFlow<()>,
    ) -> Result<Gatherer, FlatGeobufError> {
        let mut gatherer = Gatherer::new();
        let mut take = |name, geometries| gatherer.take(Feature { name, geometries });
        flatgeobuf::features(from, &[], MOST_VERTICES, progress, &mut take)?;
        Ok(gatherer.whole()?)
    }

    /// Takes a feature.
    ///
    /// # Errors
    /// [`Why::TooLarge`].
    pub fn take(&mut self, feature: Feature) -> Result<(), Why> {
        let Feature { name, geometries } = feature;
        let name = name.as_str();
        for Geometry { kind, flat } in geometries {
            let flat = joined(flat);
            match kind.as_str() {
                _ if flat.depth.is_none() => self.told.empty += 1,
                "Polygon" => self.polygon(name, flat.lines())?,
                "MultiPolygon" => {
                    flat.polygons().try_for_each(|rings| self.polygon(name, rings.into_iter()))?;
                }
                "LineString" => self.line(&flat.positions)?,
                "MultiLineString" => flat.lines().try_for_each(|line| self.line(line))?,
                _ => self.told.points += flat.positions.len() as u64,
            }
        }
        Ok(())
    }

    fn polygon<'p>(
        &mut self,
        name: &str,
        rings: impl Iterator<Item = &'p [Point]>,
    ) -> Result<(), Why> {
        let feature = self.polygons;
        let mut again = Vec::new();
        for (number, ring) in rings.filter(|ring| !ring.is_empty()).enumerate() {
            self.told.not_closed += u64::from(ring.first() != ring.last());
            let kind = if number == 0 { LineKind::Land } else { LineKind::Lake };
            let name = if number == 0 { name } else { "" };
            self.add(kind, feature, name, ring)?;
            again.extend(part_beyond(ring).map(|part| (kind, part)));
        }
        self.told.across += u64::from(!again.is_empty());
        for (kind, part) in again {
            self.add(kind, AGAIN, "", &part)?;
        }
        self.polygons += 1;
        Ok(())
    }

    fn line(&mut self, positions: &[Point]) -> Result<(), Why> {
        self.add(LineKind::Open, self.lines, "", positions)?;
        self.lines += 1;
        Ok(())
    }

    fn add(
        &mut self,
        kind: LineKind,
        feature: u32,
        name: &str,
        positions: &[Point],
    ) -> Result<(), Why> {
        let repeats = positions.windows(2).filter(|pair| pair[0] == pair[1]).count();
        self.told.repeated += repeats as u64;
        let (grid, told) = (&self.grid, &mut self.told);
        let (mut low, mut high) = (self.low, self.high);
        let points = positions.iter().filter_map(|position| {
            told.clamped += u64::from(position.y.abs() > FARTHEST);
            let point = projected(grid, *position)?;
            low = Point { x: low.x.min(point.x), y: low.y.min(point.y) };
            high = Point { x: high.x.max(point.x), y: high.y.max(point.y) };
            Some(point)
        });
        let before = self.builder.left_out();
        self.builder.line(kind, feature, name, points);
        (self.low, self.high) = (low, high);
        let full = self.builder.left_out() > before;
        if full { Err(Why::TooLarge(MOST_VERTICES)) } else { Ok(()) }
    }

    /// The coast, what it covers with half a kilometre around it, and what was odd about it;
    /// nothing where `crew` breaks it off.
    #[must_use]
    pub fn finish_by(self, crew: &mut dyn Crew) -> Option<(Coast, Extent, Told)> {
        let down = |metres: f64| (metres - 500.0).floor();
        let up = |metres: f64| (metres + 500.0).ceil();
        let low = Point { x: down(self.low.x), y: down(self.low.y) };
        let high = Point { x: up(self.high.x), y: up(self.high.y) };
        let extent = Extent::new(low, high);
        Some((self.builder.finish_by(crew)?, extent, self.told))
    }
}

/// A position on the plane; its longitude may lie beyond 180 degrees.
fn projected(grid: &Grid, position: Point) -> Option<Point> {
    let Point { x: lon, y: lat } = position;
    let at = |lon: f64, lat: f64| {
        let position = Position::from_degrees(lat.clamp(-FARTHEST, FARTHEST), lon).ok()?;
        let point = grid.forward(position).ok()?.point;
        Some(Point { x: point.easting.as_metres(), y: point.northing.as_metres() })
    };
    if lon.abs() <= 180.0 {
        return at(lon, lat);
    }
    let half_turn = 180.0_f64.copysign(lon);
    let edge = at(half_turn, lat)?;
    at(lon - half_turn, lat).map(|beyond| Point { x: edge.x + beyond.x, y: edge.y })
}
