//! A chart's areas, their edges cut into runs, made ready for drawing.

use crate::{Chart, Point, Ring};

/// Sides in a run: few enough that a run is small on the screen, many enough that looking at its
/// bounds is quicker than looking at its sides.
const RUN: usize = 32;

/// The least rectangle around some points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Bounds {
    pub(super) west: f64,
    pub(super) south: f64,
    pub(super) east: f64,
    pub(super) north: f64,
}

impl Bounds {
    const NONE: Bounds = Bounds {
        west: f64::INFINITY,
        south: f64::INFINITY,
        east: f64::NEG_INFINITY,
        north: f64::NEG_INFINITY,
    };

    fn of<'a>(points: impl IntoIterator<Item = &'a Point>) -> Bounds {
        points.into_iter().fold(Bounds::NONE, |b, p| Bounds {
            west: b.west.min(p.x),
            south: b.south.min(p.y),
            east: b.east.max(p.x),
            north: b.north.max(p.y),
        })
    }

    fn area(&self) -> f64 {
        (self.east - self.west) * (self.north - self.south)
    }
}

/// A line of points with the bounds of the whole and of every run of sides.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Path {
    /// The points; a closed line repeats its first.
    points: Vec<Point>,
    pub(super) bounds: Bounds,
    runs: Vec<Bounds>,
}

impl Path {
    fn open(points: Vec<Point>) -> Path {
        // Neighbouring runs share a point, so that every side belongs to one.
        let sides = points.len().saturating_sub(1);
        let runs = (0..sides)
            .step_by(RUN)
            .map(|start| Bounds::of(&points[start..=(start + RUN).min(sides)]))
            .collect();
        Path { bounds: Bounds::of(&points), points, runs }
    }

    fn closed(ring: &Ring) -> Path {
        let first = ring.0.first().copied();
        Path::open(ring.0.iter().copied().chain(first).collect())
    }

    /// The runs in order: the bounds of each and its points.
    pub(super) fn runs(&self) -> impl Iterator<Item = (&Bounds, &[Point])> {
        let points = |index: usize| {
            let start = index * RUN;
            &self.points[start..=(start + RUN).min(self.points.len() - 1)]
        };
        let numbered = self.runs.iter().enumerate();
        numbered.map(move |(index, bounds)| (bounds, points(index)))
    }
}

/// An area.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Area {
    pub(super) edge: Path,
}

impl Area {
    fn new(edge: &Ring) -> Area {
        Area { edge: Path::closed(edge) }
    }
}

/// How deep water is, in the steps that a chart tells apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Band {
    /// No more than two metres below chart datum.
    Shoal,
    /// No more than five metres.
    Shallow,
    /// No more than ten metres.
    Moderate,
    /// More than ten metres, or not known to be less.
    Deep,
}

impl Band {
    /// The bands that are drawn, the shallowest first. What is in none of them is deep.
    pub const DRAWN: [Band; 3] = [Band::Shoal, Band::Shallow, Band::Moderate];

    /// The band of water whose greatest depth is `to_m` metres.
    #[must_use]
    pub fn of(to_m: f64) -> Band {
        match to_m {
            m if m <= 2.0 => Band::Shoal,
            m if m <= 5.0 => Band::Shallow,
            m if m <= 10.0 => Band::Moderate,
            _ => Band::Deep,
        }
    }
}

/// A chart's areas, but not its land, made ready for drawing at any view.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Shapes {
    pub(super) drying: Vec<Area>,
    pub(super) depths: Vec<(Band, Area)>,
    pub(super) races: Vec<Area>,
}

impl Shapes {
    /// The shapes of `chart`; they hold copies of its points, so that they outlive it.
    #[must_use]
    pub fn new(chart: &Chart) -> Shapes {
        let mut depths: Vec<_> =
            chart.depths.iter().map(|area| (Band::of(area.to_m), Area::new(&area.edge))).collect();
        // Of two areas that overlap the smaller lies within the larger and says more.
        depths.sort_by(|a, b| b.1.edge.bounds.area().total_cmp(&a.1.edge.bounds.area()));
        Shapes {
            drying: chart.drying.iter().map(|d| Area::new(&d.edge)).collect(),
            depths,
            races: chart.races.iter().map(|r| Area::new(&r.edge)).collect(),
        }
    }
}
