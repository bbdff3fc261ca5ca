//! Tides and streams that hang together: one standard port, others by differences, streams that
//! follow the channels they lie in and turn by the standard port.

use super::afloat::{exposed, off_cape};
use super::ashore::{Spot, Town};
use super::compass;
use super::dice::Xy;
use super::scene::Scene;
use crate::model::{Constituent, PortTide, StreamRates, StreamRow};

/// Mean level at the standard port, in metres above chart datum.
const MEAN_LEVEL: f64 = 2.63;

/// Heights at the standard port: amplitude in metres, phase lag at Greenwich in degrees.
/// Invented: mean springs reach the height at which the shore is drawn, and all together do not
/// fall below datum; tests hold both.
const CONSTITUENTS: [(&str, f64, f64); 11] = [
    ("M2", 1.46, 178.0),
    ("S2", 0.51, 214.0),
    ("N2", 0.28, 158.0),
    ("K2", 0.14, 212.0),
    ("K1", 0.06, 78.0),
    ("O1", 0.05, 338.0),
    ("P1", 0.02, 74.0),
    ("Q1", 0.01, 296.0),
    ("M4", 0.04, 132.0),
    ("MS4", 0.02, 186.0),
    ("MN4", 0.01, 108.0),
];

/// A full turn of the tide in steps of an hour, twelve to the turn: the sine of each.
const TURN: [f64; 12] = [0.0, 0.5, 0.866, 1.0, 0.866, 0.5, 0.0, -0.5, -0.866, -1.0, -0.866, -0.5];

/// A port before it is moved to the chart's grid.
pub(super) struct Gauge {
    pub(super) name: String,
    pub(super) at: Xy,
    pub(super) tide: PortTide,
}

/// A stream before it is moved to the chart's grid.
pub(super) struct Set {
    pub(super) name: String,
    pub(super) at: Xy,
    pub(super) rates: StreamRates,
}

/// The tide wave of a chart.
pub(super) struct Wave<'a> {
    /// Where the flood goes in open water: of length 1.
    pub(super) flood: Xy,
    /// Grid north minus true north, in degrees, east positive.
    pub(super) convergence: f64,
    /// The name of the standard port.
    pub(super) standard: &'a str,
    /// Where it is.
    pub(super) origin: Xy,
}

/// The ports: constants for the first settlement, differences for four more.
pub(super) fn gauges(scene: &mut Scene<'_>, towns: &[Town], wave: &Wave<'_>) -> Vec<Gauge> {
    let mut found = Vec::new();
    for (number, town) in towns.iter().take(5).enumerate() {
        let tide = if number == 0 { standard() } else { secondary(scene, town, wave) };
        found.push(Gauge { name: town.name.full.clone(), at: town.berth.off, tide });
    }
    found
}

fn constituent((name, amplitude, phase_deg): (&str, f64, f64)) -> Constituent {
    Constituent { name: name.to_owned(), amplitude, phase_deg }
}

fn standard() -> PortTide {
    let constituents = CONSTITUENTS.into_iter().map(constituent).collect();
    PortTide::Constants { mean_level_m: MEAN_LEVEL, constituents }
}

/// Later and higher with the way of the wave, later still behind a long inlet.
fn secondary(scene: &mut Scene<'_>, town: &Town, wave: &Wave<'_>) -> PortTide {
    let ahead = wave.ahead(town.berth.at);
    let behind = (0.3 - town.berth.openness).max(0.0) * 60.0;
    let late = ahead / 1_000.0 * 1.6 + behind - 8.0;
    let high = ahead / 1_000.0 * 0.025 + scene.dice.between(-0.1, 0.1);
    let five = |minutes: f64| (minutes / 5.0).round() * 5.0 + 0.0;
    let tenth = |metres: f64| tenth(metres) + 0.0;
    PortTide::Differences {
        standard: wave.standard.to_owned(),
        high_water_min: (five(late), five(late + 5.0)),
        low_water_min: (five(late + behind / 2.0), five(late + behind / 3.0)),
        high_water_m: (tenth(high), tenth(high * 0.7)),
        low_water_m: (tenth(-high * 0.4), tenth(-high * 0.2)),
    }
}

fn tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

/// The streams: in every narrows, off the most exposed capes, in the sounds.
pub(super) fn sets(
    scene: &mut Scene<'_>,
    wave: &Wave<'_>,
    narrows: &[Spot],
    capes: &[Spot],
    sounds: &[Spot],
) -> Vec<Set> {
    let mut found = Vec::new();
    for (number, (spot, strait)) in narrows.iter().zip(scene.straits.clone()).enumerate() {
        let way = wave.way(scene, strait.at, strait.through);
        let squeeze = 1_050.0 / strait.width * scene.dice.between(0.6, 1.05);
        let springs = tenth(squeeze.clamp(1.6, 6.2));
        let rates = if number % 2 == 0 {
            wave.hourly(strait.at, way, springs)
        } else {
            wave.along_axis(strait.at, way, springs)
        };
        found.push(Set { name: spot.name.full.clone(), at: strait.at, rates });
    }
    for spot in exposed(scene, capes, 5) {
        let Some((at, along)) = off_cape(scene, spot) else { continue };
        let springs = tenth(scene.dice.between(2.0, 3.4));
        let rates = wave.greatest(at, wave.with_flood(along), springs);
        found.push(Set { name: format!("Off {}", spot.name.full), at, rates });
    }
    for (number, spot) in sounds.iter().enumerate() {
        let axis = scene.survey.axis(spot.at);
        let way = wave.way(scene, spot.at, axis);
        let springs = tenth(scene.dice.between(0.7, 1.6));
        let rates = match number % 3 {
            0 => wave.hourly(spot.at, way, springs),
            1 => wave.greatest(spot.at, way, springs),
            _ => wave.along_axis(spot.at, way, springs),
        };
        found.push(Set { name: spot.name.full.clone(), at: spot.at, rates });
    }
    found
}

impl Wave<'_> {
    /// How far the wave has gone from the standard port to a place, in metres.
    fn ahead(&self, at: Xy) -> f64 {
        (at.0 - self.origin.0) * self.flood.0 + (at.1 - self.origin.1) * self.flood.1
    }

    fn with_flood(&self, way: Xy) -> Xy {
        let along = way.0 * self.flood.0 + way.1 * self.flood.1;
        if along < 0.0 { (-way.0, -way.1) } else { way }
    }

    /// The way of the flood along a channel: into it, if one end is shut, or else with the wave.
    fn way(&self, scene: &Scene<'_>, at: Xy, axis: Xy) -> Xy {
        let back = (-axis.0, -axis.1);
        let land = |way: Xy| {
            let there = (at.0 + way.0 * 1_100.0, at.1 + way.1 * 1_100.0);
            scene.survey.land_share((there.0.max(0.0), there.1.max(0.0)), 900.0)
        };
        let more = land(axis) - land(back);
        match more {
            m if m > 0.22 => axis,
            m if m < -0.22 => back,
            _ => self.with_flood(axis),
        }
    }

    fn true_degrees(&self, way: Xy) -> f64 {
        compass::whole(compass::degrees(way) + self.convergence)
    }

    /// Hours after the standard port's high water at which the flood begins.
    fn begins(&self, at: Xy) -> f64 {
        -5.0 + tenth((self.ahead(at) / 24_000.0).clamp(-0.9, 0.9))
    }

    fn hourly(&self, at: Xy, way: Xy, springs: f64) -> StreamRates {
        let begins = self.begins(at).round() as i32;
        let (flood, ebb) = (self.true_degrees(way), self.true_degrees((-way.0, -way.1)));
        let row = |hour: i32| {
            let share = TURN[(hour - begins).rem_euclid(12) as usize];
            let set_deg = if share < 0.0 { ebb } else { flood };
            let rate = share.abs() * springs;
            StreamRow { set_deg, springs_kn: tenth(rate), neaps_kn: tenth(rate * 0.47) }
        };
        StreamRates::Hourly { port: self.standard.to_owned(), rows: (-6..=6).map(row).collect() }
    }

    fn along_axis(&self, at: Xy, way: Xy, springs: f64) -> StreamRates {
        // The flood is at its greatest a quarter of a turn after it begins; M2 turns 28.98
        // degrees an hour and is at the port's high water when its phase is the port's lag.
        let lag = |(name, speed): (&str, f64)| {
            let port = CONSTITUENTS.iter().find(|c| c.0 == name).map_or(0.0, |c| c.2);
            compass::whole(port + (self.begins(at) + 3.1) * speed)
        };
        let hundredth = |value: f64| (value * 100.0).round() / 100.0;
        let parts =
            [("M2", 28.984, 0.74), ("S2", 30.0, 0.26), ("N2", 28.44, 0.15), ("M4", 57.968, 0.05)];
        let part = |(name, speed, share): (&str, f64, f64)| {
            constituent((name, hundredth(springs * share), lag((name, speed))))
        };
        StreamRates::Axis {
            flood_deg: self.true_degrees(way),
            constituents: parts.into_iter().map(part).collect(),
        }
    }

    fn greatest(&self, at: Xy, way: Xy, springs: f64) -> StreamRates {
        StreamRates::Greatest {
            flood_deg: self.true_degrees(way),
            port: self.standard.to_owned(),
            flood_begins_h: self.begins(at),
            springs_kn: springs,
        }
    }
}
