//! The practice chart, and lines over its water.

use std::sync::LazyLock;

use chart::coast::Coast;
use chart::water::Tides;
use chart::{Chart, Point};
use jiff::Timestamp;
use nav::Position;

use crate::unrolled::Ground;
use crate::{Course, Route, Waypoint};

pub(crate) struct Practice {
    pub(crate) chart: Chart,
    pub(crate) coast: Coast,
    pub(crate) tides: Tides,
}

pub(crate) static PRACTICE: LazyLock<Practice> = LazyLock::new(|| {
    let chart = chart::practice().unwrap();
    let (coast, tides) = (Coast::of(&chart), Tides::of(&chart).unwrap());
    Practice { chart, coast, tides }
});

pub(crate) fn instant(text: &str) -> Timestamp {
    text.parse().unwrap()
}

impl Practice {
    pub(crate) fn ground(&self) -> Ground<'_> {
        Ground { chart: &self.chart, coast: &self.coast, tides: Some(&self.tides) }
    }

    pub(crate) fn route(&self, points: &[Position], pace: &str) -> Route {
        let points = points.iter().map(|at| Waypoint::new(*at)).collect();
        Route { points, pace: pace.parse().unwrap(), ..Route::new(&self.chart.title) }
    }

    pub(crate) fn course(&self, points: &[Position], pace: &str) -> Course {
        Course::new(&self.route(points, pace), &self.ground())
    }

    /// Lines over water, 2 to 9 km long: from every station to one or two places of a net of them.
    pub(crate) fn lines(&self) -> Vec<(Position, Position)> {
        let (least, most) = (self.chart.extent.min(), self.chart.extent.max());
        let net =
            (1..8).flat_map(|x| (1..6).map(move |y| (f64::from(x) / 8.0, f64::from(y) / 6.0)));
        let at = |(x, y): (f64, f64)| Point {
            x: least.x + (most.x - least.x) * x,
            y: least.y + (most.y - least.y) * y,
        };
        let net: Vec<Point> = net.map(at).filter(|point| !self.coast.on_land(*point)).collect();
        let to_net = |from: Point| {
            let clear = net.iter().filter(move |to| {
                let apart = (from - **to).x.hypot((from - **to).y);
                (2_000.0..9_000.0).contains(&apart) && !self.coast.touches(from, **to)
            });
            clear.take(2).map(move |to| (from, *to))
        };
        let lines = self.tides.stations().iter().flat_map(|station| to_net(station.at()));
        let position = |point| crate::rounded(self.chart.position(point).unwrap());
        lines.map(|(from, to)| (position(from), position(to))).collect()
    }
}
