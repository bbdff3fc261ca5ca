//! Which drying ground the tide covers: the water at every area stands as high as at the port
//! nearest to it, and level. A simplification: between ports the water slopes, and wind and swell
//! are not in it.

use chart::water::Tides;
use chart::{Chart, Point};
use jiff::Timestamp;
use nav::tide::Height;

use super::{State, WaterDay};

/// The drying areas of a chart, in its order.
#[derive(Debug, Clone, Default)]
pub(crate) struct Wet {
    /// For each the number of the port nearest to it.
    ports: Vec<usize>,
    /// For each whether it is covered; empty while nothing is known.
    covered: Vec<bool>,
}

impl Wet {
    /// The areas of a chart; none of a chart without ports.
    pub(crate) fn of(chart: &Chart, tides: Option<&Tides>) -> Wet {
        let near = |edge: &[Point]| nearest(tides?, middle(edge)?);
        let ports = chart.drying.iter().map(|area| near(&area.edge.0));
        Wet { ports: ports.collect::<Option<_>>().unwrap_or_default(), covered: Vec::new() }
    }

    /// Brings what is covered up to date with an instant; with nothing known, nothing is.
    pub(crate) fn follow(&mut self, chart: &Chart, day: Option<&WaterDay>, at: Timestamp) {
        self.covered.clear();
        let Some(day) = day else { return };
        let levels: Vec<Option<Height>> = day.ports().iter().map(|port| port.height(at)).collect();
        let areas = self.ports.iter().zip(&chart.drying);
        self.covered.extend(areas.map(|(port, area)| {
            let level = levels.get(*port).copied().flatten();
            level.is_some_and(|level| level.as_metres() > area.height_m)
        }));
    }

    /// For each area whether it is covered; shorter, or empty, where nothing is known.
    pub(crate) fn covered(&self) -> &[bool] {
        &self.covered
    }
}

/// How drying ground stands to the water at an instant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand {
    /// How high it stands above chart datum, in metres.
    pub dries_m: f64,
    /// How far the water stands above it, in metres; negative where it is bare.
    pub over_m: f64,
}

impl State {
    /// For each drying area of the chart whether the tide covers it; empty where that is not known.
    pub fn covered(&self) -> &[bool] {
        self.moment.wet.covered()
    }

    /// How the drying ground at a point stands to the water; nothing off it, or where the tide is
    /// not known.
    pub fn stand_at(&self, point: Point) -> Option<Stand> {
        let index = self.chart.drying.iter().position(|area| area.edge.encloses(point))?;
        let port = *self.moment.wet.ports.get(index)?;
        let level = self.water_day()?.ports().get(port)?.height(self.moment.at)?;
        let dries_m = self.chart.drying.get(index)?.height_m;
        Some(Stand { dries_m, over_m: level.as_metres() - dries_m })
    }
}

/// The port nearest to a point.
pub(super) fn nearest(tides: &Tides, point: Point) -> Option<usize> {
    let away = |at: Point| (at.x - point.x).hypot(at.y - point.y);
    let gauges = tides.gauges().iter().enumerate();
    let placed = gauges.filter_map(|(index, gauge)| Some((index, away(gauge.at()?))));
    placed.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(index, _)| index)
}

/// The mean of a ring's corners: near enough to find a port by.
fn middle(ring: &[Point]) -> Option<Point> {
    let sum = ring.iter().copied().reduce(|sum, point| sum + point)?;
    Some(sum / ring.len() as f64)
}
