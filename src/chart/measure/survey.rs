//! Whole shores and pieces of them, measured with everything that can be said of one.

use std::borrow::Cow;

use super::{Line, Slope, Start, Walk, slope};
use crate::coast::{self, AGAIN, Coast, LineKind, Rim};
use crate::{OffGrid, Point};
use nav::{Area, Grid, Length, OutOfRange};

/// Why a line cannot be measured.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum MeasureError {
    /// The grid does not reach all of it.
    #[error(transparent)]
    OffGrid(#[from] OffGrid),
    /// A step is out of bounds.
    #[error("a step of {} m; a divider step is 1 m to 2,000 km", .0.value)]
    Step(OutOfRange),
}

/// What dividers of one step find.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Divided {
    /// From the beginning onwards.
    pub onwards: Walk,
    /// From the end back; of a closed line from its beginning round the other way.
    pub back: Walk,
}

/// All that is measured of a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// How many vertices it has; the first one of a closed line counts once.
    pub vertices: usize,
    /// Whether it leads back to where it begins.
    pub closed: bool,
    /// Its length on the ground, by geodesics on WGS 84.
    pub length: Length,
    /// Its length as its grid has it, which is not that on the ground.
    pub on_grid: Length,
    /// The geodesic between its ends; nothing when it is closed.
    pub straight: Option<Length>,
    /// How many times longer than straight it is; nothing when it is closed.
    pub indentation: Option<f64>,
    /// The area within, when it is closed.
    pub area: Option<Area>,
    /// What dividers find, in the order of the steps asked for.
    pub divided: Vec<Divided>,
    /// The slope of all their walks, when there are two steps at least.
    pub slope: Option<Slope>,
}

impl Measured {
    /// Measures the line along `points` of `grid`, with dividers of these steps. A closed line
    /// may repeat its first point at its end or not. What closes it along the edge of a plane of the
    /// whole world is not there on the ground.
    ///
    /// # Errors
    /// [`MeasureError`] where the grid does not reach, or when a step is out of bounds.
    pub fn new(
        grid: &Grid,
        points: &[Point],
        closed: bool,
        steps: &[Length],
    ) -> Result<Measured, MeasureError> {
        let rim = Rim::of(grid).filter(|_| closed);
        let on_ground = rim.map_or(Cow::Borrowed(points), |rim| rim.without(points).into());
        let line = Line::on_grid(grid, on_ground.iter().copied(), closed)?;
        let mut divided = Vec::with_capacity(steps.len());
        for step in steps {
            let walk = |start| line.walk(*step, start).map_err(MeasureError::Step);
            divided.push(Divided { onwards: walk(Start::FIRST)?, back: walk(Start::LAST)? });
        }
        let walks: Vec<Walk> = divided.iter().flat_map(|both| [both.onwards, both.back]).collect();
        Ok(Measured {
            vertices: line.vertices(),
            closed,
            length: line.length(),
            on_grid: on_grid(grid, points, closed)?,
            straight: line.straight(),
            indentation: line.indentation(),
            area: line.area(),
            divided,
            slope: slope(&walks),
        })
    }

    /// How much longer the line is on the grid than on the ground; shorter is negative.
    #[must_use]
    pub fn grid_longer(&self) -> Length {
        self.on_grid - self.length
    }
}

/// The length on the plane.
fn on_grid(grid: &Grid, points: &[Point], closed: bool) -> Result<Length, OffGrid> {
    let round = if closed { points.first() } else { None };
    let next = points.iter().skip(1).chain(round);
    let rim = Rim::of(grid);
    let is_shore = |(a, b): &(&Point, &Point)| !rim.is_some_and(|rim| rim.closes([**a, **b]));
    let sides = points.iter().zip(next).filter(is_shore);
    let sides = sides.map(|(a, b)| (b.x - a.x).hypot(b.y - a.y));
    Ok(Length::from_metres(sides.sum())?)
}

/// A shore of a coast, measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Shore {
    /// The name of its land, or empty.
    pub name: String,
    /// What was measured of its line.
    pub measured: Measured,
    /// How many lakes its land has.
    pub lakes: usize,
    /// The land within, without its lakes; none for an open shore.
    pub land: Area,
}

/// What shores come to together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Total {
    /// How many shores that enclose land.
    pub islands: usize,
    /// How many open shores.
    pub open: usize,
    /// How many lakes.
    pub lakes: usize,
    /// All vertices of the shores, lakes not counted.
    pub vertices: usize,
    /// The length on the ground of all shores, lakes not counted.
    pub length: Length,
    /// The same as the grid has it.
    pub on_grid: Length,
    /// The land within, without its lakes.
    pub land: Area,
}

/// The shores along the sea of a coast, the longest first: all of them, or those of one name, in
/// capitals or not.
///
/// # Errors
/// [`MeasureError`] where the grid does not reach, or when a step is out of bounds.
pub fn shores(
    coast: &Coast,
    name: Option<&str>,
    steps: &[Length],
) -> Result<Vec<Shore>, MeasureError> {
    let name = name.map(str::to_lowercase);
    // What is there once more beyond the 180th meridian is measured once.
    let wanted = |line: &coast::Line<'_>| {
        line.kind() != LineKind::Lake
            && line.feature() != AGAIN
            && name.as_ref().is_none_or(|name| line.name().to_lowercase() == *name)
    };
    // The lakes of each feature of land.
    let mut lakes = std::collections::HashMap::<u32, Vec<coast::LineId>>::new();
    for lake in coast.lines().filter(|line| line.kind() == LineKind::Lake) {
        lakes.entry(lake.feature()).or_default().push(lake.id());
    }
    let mut shores = Vec::new();
    for line in coast.lines().filter(wanted) {
        let within = match line.kind() {
            LineKind::Land => lakes.get(&line.feature()).map_or(&[][..], Vec::as_slice),
            _ => &[],
        };
        shores.push(shore(coast, &line, within, steps)?);
    }
    let length = |shore: &Shore| shore.measured.length.as_metres();
    shores.sort_by(|a, b| length(b).total_cmp(&length(a)));
    Ok(shores)
}

fn shore(
    coast: &Coast,
    line: &coast::Line<'_>,
    lakes: &[coast::LineId],
    steps: &[Length],
) -> Result<Shore, MeasureError> {
    let points: Vec<Point> = line.points().collect();
    let measured = Measured::new(coast.grid(), &points, line.is_closed(), steps)?;
    let mut land = measured.area.unwrap_or(Area::ZERO);
    for lake in lakes.iter().filter_map(|id| coast.line(*id)) {
        let lake = Line::on_grid(coast.grid(), lake.points(), true)?;
        land = land - lake.area().unwrap_or(Area::ZERO);
    }
    Ok(Shore { name: line.name().to_owned(), measured, lakes: lakes.len(), land })
}

/// What these shores come to together.
#[must_use]
pub fn total(shores: &[Shore]) -> Total {
    let islands = shores.iter().filter(|shore| shore.measured.closed).count();
    Total {
        islands,
        open: shores.len() - islands,
        lakes: shores.iter().map(|shore| shore.lakes).sum(),
        vertices: shores.iter().map(|shore| shore.measured.vertices).sum(),
        length: shores.iter().map(|shore| shore.measured.length).sum(),
        on_grid: shores.iter().map(|shore| shore.measured.on_grid).sum(),
        land: shores.iter().map(|shore| shore.land).sum(),
    }
}
