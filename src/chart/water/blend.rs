//! How much of each station's stream a place has.

use nav::Length;

use super::{Station, Tides};
use crate::Point;
use crate::coast::Coast;

/// How far a station reaches, in metres on the ground.
pub const REACH: f64 = 5_000.0;

/// The room that the straight line to a station wants off the shore, in metres on the ground: with
/// less, the station counts for less.
pub const ROOM: f64 = 200.0;

/// One station's share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// The station's number among [`Tides::stations`].
    pub station: usize,
    /// How much of the stream is its: over 0, up to 1.
    pub part: f64,
    /// How far away it is, on the ground.
    pub away: Length,
}

/// Whose streams a place has, and how much of each, the greatest share first. The parts make 1; no
/// parts at all mean that nothing is known there.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Shares(Vec<Share>);

impl Shares {
    /// Every share.
    pub fn parts(&self) -> &[Share] {
        &self.0
    }

    #[cfg(test)]
    pub(super) fn made_of(parts: Vec<Share>) -> Shares {
        Shares(parts)
    }

    /// Whether nothing is known.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl Tides {
    /// The shares of one station alone.
    pub fn only(station: usize) -> Shares {
        Shares(vec![Share { station, part: 1.0, away: Length::ZERO }])
    }

    /// Whose streams a place has on a chart with this coast.
    ///
    /// A station at the distance d weighs ((R - d) / (R d))² within its reach R of 5 km (R. Franke,
    /// *Scattered data interpolation*, Mathematics of Computation 38, 1982, the weights of Franke and
    /// Little), and nothing beyond it; and that times (c / 200 m)², where c is how close the
    /// straight line to the station comes to the shore, up to 200 m. The stream is the sum of the
    /// stations' vectors by their parts of all weights.
    ///
    /// So it is the station's own at a station, and nowhere faster than the fastest that has a share;
    /// a station behind land has none, and from there a share grows from nothing as the line to it
    /// comes clear, so that the stream goes without a jump wherever one can be paddled; but for
    /// where the last station fades: there, and on land, nothing is known, and nothing is said.
    pub fn shares(&self, coast: &Coast, point: Point) -> Shares {
        if !(point.x.is_finite() && point.y.is_finite()) {
            return Shares::default();
        }
        if let Some(here) = self.stations().iter().position(|station| station.at() == point) {
            return Tides::only(here);
        }
        if coast.on_land(point) {
            return Shares::default();
        }
        let stations = self.stations().iter().enumerate();
        let weighed = stations.filter_map(|(index, station)| {
            let away = station.away(point);
            let weight = weight(coast, station, point, away.as_metres());
            (weight > 0.0).then_some(Share { station: index, part: weight, away })
        });
        let mut shares: Vec<Share> = weighed.collect();
        let sum: f64 = shares.iter().map(|share| share.part).sum();
        if !sum.is_finite() {
            // So close to a station that the square of the distance is nothing.
            let nearest = shares.iter().max_by(|a, b| a.part.total_cmp(&b.part));
            return nearest.map(|share| Tides::only(share.station)).unwrap_or_default();
        }
        shares.iter_mut().for_each(|share| share.part /= sum);
        shares.retain(|share| share.part > 0.0);
        shares.sort_by(|a, b| b.part.total_cmp(&a.part));
        Shares(shares)
    }
}

fn weight(coast: &Coast, station: &Station, point: Point, away: f64) -> f64 {
    if away >= REACH {
        return 0.0;
    }
    let by_distance = (REACH - away) / (REACH * away);
    let room = ROOM * station.scale;
    let clear = coast.clearance(point, station.at(), room).map_or(room, |near| near.distance);
    (by_distance * clear / room).powi(2)
}
