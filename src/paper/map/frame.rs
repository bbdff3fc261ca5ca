//! Which part of a chart lies on which part of a page.

use chart::{Extent, OffGrid, Point};
use nav::{Convergence, Grid, GridPoint, Position};

use super::{Scale, rule};
use crate::draw::{Area, Mm, Spot};

/// A part of a chart laid on a part of a page, its grid upright.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Where it lies on the page.
    pub area: Area,
    /// Its scale, true on the ground at its middle.
    pub scale: Scale,
    /// What lies there.
    pub position: Position,
    /// Grid north from true north there, east positive.
    pub convergence: Convergence,
    /// The middle, in grid metres.
    centre: Point,
    /// Paper for a grid metre.
    metre: Mm,
}

/// The least part of a chart with all of these points; nothing of none.
pub(crate) fn around_all(points: impl Iterator<Item = Point>) -> Option<Extent> {
    let least = |a: Point, b: Point| Point { x: a.x.min(b.x), y: a.y.min(b.y) };
    let most = |a: Point, b: Point| Point { x: a.x.max(b.x), y: a.y.max(b.y) };
    let (low, high) = points
        .map(|at| (at, at))
        .reduce(|(low, high), (at, _)| (least(low, at), most(high, at)))?;
    Some(Extent::new(low, high))
}

impl Frame {
    /// The chart around `centre` at a scale.
    ///
    /// # Errors
    /// [`OffGrid`] where the grid does not reach the middle.
    pub fn new(grid: &Grid, centre: Point, area: Area, scale: Scale) -> Result<Frame, OffGrid> {
        let at = grid.inverse(GridPoint::from_metres(centre.x, centre.y)?)?;
        // A grid metre is shorter or longer than a metre of ground, on World Mercator by far.
        let metre = scale.of_metres(1.0) / at.scale;
        let (position, convergence) = (at.position, at.convergence);
        Ok(Frame { area, scale, position, convergence, centre, metre })
    }

    /// All of `extent` at the largest round scale at which it has room.
    ///
    /// # Errors
    /// [`OffGrid`] where the grid does not reach its middle.
    pub fn fitting(grid: &Grid, extent: Extent, area: Area) -> Result<Frame, OffGrid> {
        let one = Frame::new(grid, extent.center(), area, Scale::LARGEST)?;
        let over = |length: f64, room: Mm| (one.metre * length) / room.max(Mm(1.0));
        let over = over(extent.width(), area.width).max(over(extent.height(), area.height));
        // The last bits of a sum may make a scale that fits exactly just miss.
        let one_to = f64::from(Scale::LARGEST.one_to()) * over * (1.0 - 1e-9);
        Frame::new(grid, extent.center(), area, Scale::rounded(one_to))
    }

    /// Where a point of the chart lies on the page.
    #[must_use]
    pub fn spot(&self, point: Point) -> Spot {
        let middle = self.area.middle();
        middle.moved(self.metre * (point.x - self.centre.x), self.metre * (self.centre.y - point.y))
    }

    /// Which point of the chart lies at a place of the page.
    #[must_use]
    pub fn point(&self, spot: Spot) -> Point {
        let middle = self.area.middle();
        Point {
            x: self.centre.x + (spot.x - middle.x) / self.metre,
            y: self.centre.y - (spot.y - middle.y) / self.metre,
        }
    }

    /// The part of the chart that is shown.
    #[must_use]
    pub fn extent(&self) -> Extent {
        let Area { left, top, .. } = self.area;
        let corners = [(left, self.area.bottom()), (self.area.right(), top)];
        let [low, high] = corners.map(|(x, y)| self.point(Spot { x, y }));
        Extent::new(low, high)
    }

    /// Where its middle may lie so that all of `need` is on it with so much paper around and, beyond that, as little as can be lies
    /// outside of the chart.
    pub(super) fn centred(&self, chart: Extent, need: Extent, margin: Mm) -> Point {
        let margin = margin / self.metre;
        let half = (self.area.width / self.metre / 2.0, self.area.height / self.metre / 2.0);
        let within = |half: f64, chart: (f64, f64), need: (f64, f64)| {
            let middle = (need.0 + need.1) / 2.0;
            let all = if chart.1 - chart.0 > 2.0 * half {
                middle.clamp(chart.0 + half, chart.1 - half)
            } else {
                (chart.0 + chart.1) / 2.0
            };
            let (low, high) = (need.1 + margin - half, need.0 - margin + half);
            if low <= high { all.clamp(low, high) } else { middle }
        };
        let (chart, need) = ((chart.min(), chart.max()), (need.min(), need.max()));
        Point {
            x: within(half.0, (chart.0.x, chart.1.x), (need.0.x, need.1.x)),
            y: within(half.1, (chart.0.y, chart.1.y), (need.0.y, need.1.y)),
        }
    }

    /// How long so many grid metres are on paper.
    #[must_use]
    pub fn of_grid_metres(&self, metres: f64) -> Mm {
        self.metre * metres
    }

    /// Grid metres from one grid line that is drawn to the next.
    #[must_use]
    pub fn interval(&self) -> f64 {
        rule::interval(self)
    }

    /// The part of the chart that is shown, and so much paper more on every side.
    pub(super) fn extent_and(&self, more: Mm) -> Extent {
        let wider = Frame { area: self.area.inset(-more), ..*self };
        Extent::new(wider.extent().min(), wider.extent().max())
    }
}
