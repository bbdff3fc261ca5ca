//! Where things of the route are on the chart, and which of them the cursor is on.

use chart::Point;
use nav::{GridPoint, Position};
use ratatui::layout::Position as Cell;

use super::{Chosen, State};

/// How near the cursor has to be to a waypoint or a leg to be on it, in columns.
const REACH: f64 = 1.5;

impl State {
    /// The position of a point of the chart; nothing where the grid does not reach.
    pub fn position_of(&self, point: Point) -> Option<Position> {
        let on_grid = GridPoint::from_metres(point.x, point.y).ok()?;
        Some(self.chart.grid.inverse(on_grid).ok()?.position)
    }

    /// The point of the chart at a position; nothing where the grid does not reach.
    pub fn point_of(&self, position: Position) -> Option<Point> {
        let GridPoint { easting, northing } = self.chart.grid.forward(position).ok()?.point;
        Some(Point { x: easting.as_metres(), y: northing.as_metres() })
    }

    /// The position of the cursor; nothing where the grid does not reach.
    pub fn position(&self) -> Option<Position> {
        self.position_of(self.cursor)
    }

    /// The waypoints as they are shown: one taken up is where the cursor is.
    pub fn shown_positions(&self) -> Vec<Position> {
        let carried = self.hand.carried().and_then(|index| Some((index, self.position()?)));
        let points = self.document.route().points.iter().enumerate();
        points
            .map(|(index, waypoint)| match carried {
                Some((taken, at)) if taken == index => at,
                _ => waypoint.at,
            })
            .collect()
    }

    /// The waypoints as they are shown, on the chart's grid; nothing for one that it does not reach.
    pub fn shown_points(&self) -> Vec<Option<Point>> {
        let carried = self.hand.carried();
        let points = self.document.route().points.iter().enumerate();
        points
            .map(|(index, waypoint)| match carried {
                Some(taken) if taken == index => Some(self.cursor),
                _ => self.point_of(waypoint.at),
            })
            .collect()
    }

    /// The waypoint from which the leg under the pencil runs to the cursor: the one before the
    /// waypoint taken up, the one chosen while looking, else the last.
    pub fn pencil_from(&self) -> Option<usize> {
        let last = self.document.route().points.len().checked_sub(1)?;
        match (self.hand.carried(), self.chosen) {
            (Some(carried), _) => carried.checked_sub(1),
            (None, Some(Chosen::Point(index))) if self.hand == super::Hand::Look => {
                Some(index.min(last))
            }
            _ => Some(last),
        }
    }

    /// The waypoint within reach of a point of the chart, the nearest.
    pub fn waypoint_near(&self, point: Point) -> Option<usize> {
        let near = self.shown_points().into_iter().enumerate();
        let near = near.filter_map(|(index, at)| Some((index, self.columns_between(at?, point))));
        let within = near.filter(|(_, columns)| *columns <= REACH);
        within.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(index, _)| index)
    }

    /// The leg that passes nearest to a point of the chart, and how near, in columns.
    pub fn nearest_leg(&self, point: Point) -> Option<(usize, f64)> {
        let points = self.shown_points();
        let legs = points.windows(2).enumerate();
        let near = legs.filter_map(|(index, ends)| {
            let columns = |a, b| self.columns_between(foot(a, b, point), point);
            let track = self.track(index).map(|track| {
                let sides = track.windows(2).map(|side| columns(side[0], side[1]));
                sides.fold(f64::INFINITY, f64::min)
            });
            Some((index, track.unwrap_or(columns(ends[0]?, ends[1]?))))
        });
        near.min_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// The waypoint that an action on one means: the one under the cursor, else the one chosen.
    pub fn aimed_point(&self) -> Option<usize> {
        let chosen = match self.chosen {
            Some(Chosen::Point(index)) if index < self.document.route().points.len() => Some(index),
            _ => None,
        };
        // The chosen one wins where several lie on the same spot.
        let on_chosen = |index: usize| {
            let at = self.shown_points().get(index).copied().flatten();
            at.is_some_and(|at| self.columns_between(at, self.cursor) <= REACH)
        };
        match chosen {
            Some(index) if on_chosen(index) => Some(index),
            _ => self.waypoint_near(self.cursor).or(chosen),
        }
    }

    /// The leg that is lit, in the table and on the chart: the one chosen, else the one that ends
    /// at the waypoint chosen, else the one under the cursor.
    pub fn lit_leg(&self) -> Option<usize> {
        let legs = self.document.route().points.len().checked_sub(1)?;
        let leg = match self.chosen {
            Some(Chosen::Leg(index)) => Some(index),
            Some(Chosen::Point(index)) => index.checked_sub(1),
            None => self.nearest_leg(self.cursor).filter(|near| near.1 <= REACH).map(|near| near.0),
        };
        leg.filter(|index| *index < legs)
    }

    /// The point of the chart in the middle of a cell of the screen; nothing outside the drawing.
    pub fn point_at(&self, column: u16, row: u16) -> Option<Point> {
        let inside = self.layout().sea().contains(Cell::new(column, row));
        inside.then(|| self.point_under(column, row))
    }

    /// The point of the chart that lies in the middle of a cell of the screen, or would if the
    /// drawing went on so far.
    pub(crate) fn point_under(&self, column: u16, row: u16) -> Point {
        let sea = self.layout().sea();
        let middle = |cell: u16, edge: u16| f64::from(cell) - f64::from(edge) + 0.5;
        self.view.point_at(self.cells(), middle(column, sea.x), middle(row, sea.y))
    }

    /// The cell of the screen in which a point of the chart lies; nothing where it is not seen.
    pub(crate) fn cell_of(&self, point: Point) -> Option<(u16, u16)> {
        let sea = self.layout().sea();
        let (x, y) = self.view.cells_of(self.cells(), point);
        let seen =
            (0.0..f64::from(sea.width)).contains(&x) && (0.0..f64::from(sea.height)).contains(&y);
        seen.then(|| (sea.x + x as u16, sea.y + y as u16))
    }

    /// How far apart two points of the chart are on the screen, in columns.
    pub(crate) fn columns_between(&self, a: Point, b: Point) -> f64 {
        (a.x - b.x).hypot(a.y - b.y) / self.view.metres_per_column
    }
}

/// The point of the line from `a` to `b` that lies nearest to `point`.
fn foot(a: Point, b: Point, point: Point) -> Point {
    let along = b - a;
    let length = along.x * along.x + along.y * along.y;
    if length == 0.0 {
        return a;
    }
    let from = point - a;
    let share = ((from.x * along.x + from.y * along.y) / length).clamp(0.0, 1.0);
    a + along * share
}
