//! The water of a chart: the tide at its ports, the stream at its stations and between them.
//!
//! [`Tides`] are made once of a chart. A [`Gauge`] tells the tide at a port, by constants, by differences
//! or by a printed table, says what it is told from and how old that is, and leaves out as stands the
//! rises of less than 2 cm between two turns; [`Flows`] are the streams of
//! all stations over a stretch of time, and [`Shares`] say how much of each of them a place has:
//! see [`Tides::shares`] for the rule. What lies between stations is a blend of what was measured at
//! them and no survey; eddies close in are not known here, nor weather, surge or a river in flood.

mod basis;
mod blend;
mod day;
mod fault;
mod gate;
mod gauge;
mod known;
mod race;
mod season;
mod station;

pub use basis::Basis;
pub use blend::{REACH, ROOM, Share, Shares};
pub use day::TideDay;
pub use fault::{Fault, WaterError};
pub use gate::{Openings, TidalGate};
pub use gauge::{Gauge, GaugeCurve, Shifted};
pub use race::{Conditions, RaceState, RaceStates, TidalRace};
pub use season::{Season, SeasonError};
pub use station::{Flows, Known, Station};

use jiff::civil::Date;

use crate::Chart;

/// Every port and stream station of a chart, ready to be asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Tides {
    gauges: Vec<Gauge>,
    stations: Vec<Station>,
    races: Vec<TidalRace>,
    gates: Vec<TidalGate>,
}

impl Tides {
    /// The tides of a chart, in its own order of ports and streams.
    ///
    /// # Errors
    /// [`WaterError`] with the name of the first port, stream, race or gate that cannot be told
    /// from what the chart says of it.
    pub fn of(chart: &Chart) -> Result<Tides, WaterError> {
        let gauges: Vec<Gauge> =
            chart.ports.iter().map(|port| Gauge::of(chart, port)).collect::<Result<_, _>>()?;
        let stations = chart.streams.iter().map(|stream| Station::of(chart, &gauges, stream));
        let stations: Vec<Station> = stations.collect::<Result<_, _>>()?;
        let races = chart.races.iter().map(|race| TidalRace::of(&stations, race));
        let races = races.collect::<Result<_, _>>()?;
        let gates = chart.gates.iter().map(|gate| TidalGate::of(&gauges, &stations, gate));
        let gates = gates.collect::<Result<_, _>>()?;
        Ok(Tides { gauges, stations, races, gates })
    }

    /// The ports, in the chart's order.
    pub fn gauges(&self) -> &[Gauge] {
        &self.gauges
    }

    /// The port of this name, in capitals or not.
    pub fn gauge(&self, name: &str) -> Option<&Gauge> {
        let name = name.trim().to_lowercase();
        self.gauges.iter().find(|gauge| gauge.name().to_lowercase() == name)
    }

    /// The stations, in the chart's order.
    pub fn stations(&self) -> &[Station] {
        &self.stations
    }

    /// The numbers among [`Tides::gauges`] of the ports whose high waters the streams of these shares go
    /// by, each once.
    pub fn goes_by(&self, shares: &Shares) -> Vec<usize> {
        let station = |share: &Share| self.stations.get(share.station)?.goes_by();
        let mut ports: Vec<usize> = shares.parts().iter().filter_map(station).collect();
        ports.sort_unstable();
        ports.dedup();
        ports
    }

    /// What the tide is told from at every port that does not hang on another, with the source and its
    /// age on a date, and for how long if that is a printed table: `by 11 constants of Port Ustorna,
    /// invented`.
    pub fn told(&self, on: Date) -> Vec<String> {
        self.gauges.iter().filter(|gauge| !gauge.is_secondary()).map(|it| it.told(on)).collect()
    }

    /// The races, in the chart's order.
    pub fn races(&self) -> &[TidalRace] {
        &self.races
    }

    /// The gates, in the chart's order.
    pub fn gates(&self) -> &[TidalGate] {
        &self.gates
    }

    /// The number of the station of this name, in capitals or not.
    pub fn station(&self, name: &str) -> Option<usize> {
        let name = name.trim().to_lowercase();
        self.stations.iter().position(|station| station.name().to_lowercase() == name)
    }
}

#[cfg(test)]
mod tests;
