//! The streams over the whole of the drawing: a lattice of points on the ground, so that arrows go
//! along with it when it is panned, and what was found out of a point is kept.

use std::collections::BTreeMap;

use chart::water::Shares;
use chart::{Cells, Point, View};
use nav::triangle::Stream;

use super::State;

/// The least columns between two points of the lattice, on a broad drawing and on a narrow one.
/// Spacings go by halves of a doubling, as zooming does, so that the most is half as much again.
const LEAST_COLUMNS: f64 = 7.0;
const LEAST_COLUMNS_NARROW: f64 = 5.0;

/// From so many columns on a drawing is broad.
const BROAD: u16 = 100;

/// More points than this are not kept.
const MOST: usize = 20_000;

/// A point of the lattice: which spacing, then how many of them east and north.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Node {
    level: i32,
    east: i32,
    north: i32,
}

impl Node {
    /// Where it is on the chart's grid.
    pub(crate) fn at(self) -> Point {
        let spacing = spacing(self.level);
        // Every other row stands half a spacing aside, so that no columns are seen.
        let aside = if self.north.rem_euclid(2) == 0 { 0.25 } else { 0.75 };
        Point {
            x: (f64::from(self.east) + aside) * spacing,
            y: (f64::from(self.north) + 0.5) * spacing,
        }
    }
}

fn spacing(level: i32) -> f64 {
    (f64::from(level) / 2.0).exp2()
}

/// Whose streams the points of the lattice have that were asked for.
#[derive(Debug, Clone, Default)]
pub(crate) struct Field {
    shares: BTreeMap<Node, Shares>,
}

impl Field {
    /// Keeps what was found out; what is not wanted any more makes room.
    pub(crate) fn keep(&mut self, found: Vec<(Node, Shares)>) {
        if self.shares.len() + found.len() > MOST {
            self.shares.clear();
        }
        self.shares.extend(found);
    }
}

/// An arrow of the stream.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrow {
    /// Where.
    pub at: Point,
    /// Where to, and how fast.
    pub stream: Stream,
    /// Whether it is of a station.
    pub station: bool,
}

impl State {
    /// Whether streams are drawn.
    pub fn draws_streams(&self) -> bool {
        let stations = self.tides().is_some_and(|tides| !tides.stations().is_empty());
        self.settings.streams && stations
    }

    /// The points of the lattice in sight.
    fn nodes(&self) -> Vec<Node> {
        nodes(&self.view, self.cells())
    }

    /// The points in sight of which nothing is known yet.
    pub(crate) fn unknown_nodes(&self) -> Vec<Node> {
        let mut nodes = self.nodes();
        nodes.retain(|node| !self.moment.field.shares.contains_key(node));
        nodes
    }

    /// The streams in sight at the moment: those of the stations, then those between, as far as
    /// they are known.
    pub fn arrows(&self) -> Vec<Arrow> {
        let Some((tides, flows)) = self.tides().zip(self.flows()) else { return Vec::new() };
        if !self.draws_streams() {
            return Vec::new();
        }
        let moment = self.moment.at;
        let stations = tides.stations().iter().enumerate().filter_map(|(index, station)| {
            let stream = flows.at(&chart::water::Tides::only(index), moment)?;
            Some(Arrow { at: station.at(), stream, station: true })
        });
        let between = self.nodes().into_iter().filter_map(|node| {
            let stream = flows.at(self.moment.field.shares.get(&node)?, moment)?;
            Some(Arrow { at: node.at(), stream, station: false })
        });
        stations.chain(between).collect()
    }
}

/// The points of the lattice in a view.
fn nodes(view: &View, cells: Cells) -> Vec<Node> {
    let columns = if cells.columns >= BROAD { LEAST_COLUMNS } else { LEAST_COLUMNS_NARROW };
    let least = columns * view.metres_per_column;
    let level = (2.0 * least.log2()).ceil() as i32;
    let spacing = spacing(level);
    let seen = view.extent(cells);
    let first = |low: f64| (low / spacing).floor() as i32 - 1;
    let last = |high: f64| (high / spacing).ceil() as i32;
    let east = first(seen.min().x)..=last(seen.max().x);
    let rows = first(seen.min().y)..=last(seen.max().y);
    let all = rows.flat_map(|north| east.clone().map(move |east| Node { level, east, north }));
    let inside = |low: f64, at: f64, high: f64| (low..=high).contains(&at);
    all.filter(|node| {
        let at = node.at();
        inside(seen.min().x, at.x, seen.max().x) && inside(seen.min().y, at.y, seen.max().y)
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const CELLS: Cells = Cells { columns: 150, rows: 56 };

    #[test]
    fn points_keep_their_distance_at_every_zoom_and_stay_where_they_are_when_panned() {
        for step in 0..40 {
            let view = View::new(Point { x: 670_000.0, y: 350_000.0 }, 1.3_f64.powi(step));
            let all = nodes(&view, CELLS);
            assert!((100..=600).contains(&all.len()), "{} at {step}", all.len());
            let places: Vec<(f64, f64)> =
                all.iter().map(|node| view.cells_of(CELLS, node.at())).collect();
            for (index, (x, y)) in places.iter().enumerate() {
                let near = places[..index].iter().map(|(u, v)| (x - u).hypot(2.0 * (y - v)));
                assert!(near.fold(f64::INFINITY, f64::min) >= 6.9, "at {step}");
            }
            let panned = nodes(&view.panned(10.0, 0.0), CELLS);
            let kept = panned.iter().filter(|node| all.contains(node)).count();
            assert!(10 * kept >= 8 * panned.len(), "{kept} of {}", panned.len());
        }
    }
}
