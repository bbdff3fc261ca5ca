//! What the chart says of a place, and of the way between two.

use std::sync::Arc;

use chart::Point;
use chart::water::{Shares, TidalGate, TidalRace, Tides};
use nav::{GridPoint, Position};

use super::cut::Dry;
use crate::unrolled::Ground;

/// Asks the chart about places.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Spotter<'a> {
    ground: &'a Ground<'a>,
}

impl<'a> Spotter<'a> {
    pub(crate) const fn new(ground: &'a Ground<'a>) -> Spotter<'a> {
        Spotter { ground }
    }

    /// Where a place is on the chart; nothing off it.
    pub(super) fn on_chart(&self, at: Position) -> Option<Point> {
        let GridPoint { easting, northing } = self.ground.chart.grid.forward(at).ok()?.point;
        let point = Point { x: easting.as_metres(), y: northing.as_metres() };
        let (least, most) = (self.ground.chart.extent.min(), self.ground.chart.extent.max());
        let within = (least.x..=most.x).contains(&point.x) && (least.y..=most.y).contains(&point.y);
        within.then_some(point)
    }

    /// Whose stream a place has.
    pub(crate) fn water(&self, at: Position) -> Result<Shares, Dry> {
        let tides = self.ground.tides.ok_or(Dry::Unknown)?;
        let point = self.on_chart(at).ok_or(Dry::OffChart)?;
        let shares = tides.shares(self.ground.coast, point);
        if !shares.is_empty() {
            return Ok(shares);
        }
        Err(if self.ground.coast.on_land(point) { Dry::Ashore } else { Dry::Unknown })
    }

    /// The races between two places, by their numbers, each with the fractions of the way at which
    /// it is entered and left.
    pub(super) fn races(&self, a: Point, b: Point) -> Vec<(usize, (f64, f64))> {
        self.ground.tides.map(|tides| Tides::races_along(tides, a, b)).unwrap_or_default()
    }

    /// What a race is called.
    pub(super) fn race(&self, number: usize) -> Arc<str> {
        let race = self.ground.tides.and_then(|tides| tides.races().get(number));
        race.map(TidalRace::name).unwrap_or_default().into()
    }

    /// What a gate is called.
    pub(super) fn gate(&self, number: usize) -> Arc<str> {
        let gate = self.ground.tides.and_then(|tides| tides.gates().get(number));
        gate.map(TidalGate::name).unwrap_or_default().into()
    }

    /// The gates between two places, by their numbers, each with the fraction of the way at which it
    /// is crossed.
    pub(super) fn gates(&self, a: Point, b: Point) -> Vec<(usize, f64)> {
        self.ground.tides.map(|tides| Tides::gates_along(tides, a, b)).unwrap_or_default()
    }
}
