//! Tides and streams that hang together: one standard port, others by differences, streams that
//! follow the channels they lie in and turn by the standard port.

use super::afloat::{exposed, off, off_cape};
use super::ashore::{Spot, Town};
use super::basin::{Ends, ends, filling};
use super::compass;
use super::dice::Xy;
use super::finds::Strait;
use super::scene::Scene;
use super::wishes::{Character, TideRange};
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
    /// Where the flood sets, in degrees true.
    pub(super) flood_deg: f64,
    /// The greatest rate at springs, in knots.
    pub(super) springs: f64,
    /// What lies beyond, and by what the stream turns.
    pub(super) ends: Ends,
    pub(super) rates: StreamRates,
}

/// The tide wave of a chart.
pub(super) struct Wave<'a> {
    /// Where the flood goes in open water: of length 1.
    pub(super) flood: Xy,
    /// Whether open water fills and empties as a basin does.
    pub(super) fills: bool,
    pub(super) tide: TideRange,
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
        let tide = if number == 0 { standard(wave.tide) } else { secondary(scene, town, wave) };
        // Where it is drawn, to the metre, surely in the water, also where the shore's line was thinned.
        let off = (town.berth.off.0.round(), town.berth.off.1.round());
        let ashore = scene.drawn.is_land(off) || scene.drawn.bars(off, off);
        let at = if ashore { scene.afloat_by(off) } else { off };
        found.push(Gauge { name: town.name.full.clone(), at, tide });
    }
    found
}

fn constituent((name, amplitude, phase_deg): (&str, f64, f64)) -> Constituent {
    Constituent { name: name.to_owned(), amplitude, phase_deg }
}

/// The usual port's tide, as much larger or smaller as was wished.
fn standard(tide: TideRange) -> PortTide {
    let millimetre = |metres: f64| (metres * tide.share() * 1_000.0).round() / 1_000.0;
    let part = |(name, amplitude, phase_deg)| constituent((name, millimetre(amplitude), phase_deg));
    let constituents = CONSTITUENTS.into_iter().map(part).collect();
    PortTide::Constants { mean_level_m: millimetre(MEAN_LEVEL), constituents }
}

/// Later and higher with the way of the wave, later still behind a long inlet.
fn secondary(scene: &mut Scene<'_>, town: &Town, wave: &Wave<'_>) -> PortTide {
    let ahead = wave.ahead(town.berth.at);
    let behind = (0.3 - town.berth.openness).max(0.0) * 60.0;
    let late = ahead / 1_000.0 * 1.6 + behind - 8.0;
    let high = ahead / 1_000.0 * 0.025 + scene.dice.between(-0.1, 0.1);
    let high = high * wave.tide.share();
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

pub(super) fn tenth(value: f64) -> f64 {
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
        let ends = ends(scene.survey, strait.at, strait.through);
        let turn = wave.turn(strait.at, strait.through, ends, Turns::ByHead);
        let springs = through(scene, strait, ends);
        let known = if number % 2 == 0 { How::Hourly } else { How::Axis };
        found.push(wave.set(spot.name.full.clone(), springs, turn, known));
    }
    for spot in exposed(scene, capes, 5) {
        let Some((at, along)) = off_cape(scene, spot) else { continue };
        let springs = rate(scene, (2.0, 3.4));
        let turn = wave.turn(at, along, Ends::Open, Turns::Late);
        found.push(wave.set(off(spot), springs, turn, How::Greatest));
    }
    for (number, spot) in sounds.iter().enumerate() {
        let axis = scene.survey.axis(spot.at);
        let ends = ends(scene.survey, spot.at, axis);
        let turn = wave.turn(spot.at, axis, ends, Turns::Late);
        let springs = rate(scene, (0.7, 1.6));
        let known = [How::Hourly, How::Greatest, How::Axis][number % 3];
        found.push(wave.set(spot.name.full.clone(), springs, turn, known));
    }
    found
}

/// The least and the greatest rate at springs of any stream, in knots.
const RATES: (f64, f64) = (0.1, 8.0);

/// How fast streams run beside those of a moderate chart with the usual tide: rates grow as the range.
fn strength(scene: &Scene<'_>) -> f64 {
    scene.wishes.tide.share() * scene.wishes.difficulty.streams()
}

/// A rate at springs within bounds that are those of the usual tide, in knots.
fn rate(scene: &mut Scene<'_>, (low, high): (f64, f64)) -> f64 {
    let usual = scene.dice.between(low, high);
    tenth((usual * strength(scene)).clamp(RATES.0, RATES.1))
}

/// The rate at springs in a narrows, in knots.
///
/// What fills a basin comes through it: the water between low and high water behind it, through its
/// section at mean level, in 6.21 hours, and half a circle's number as fast as its mean at the
/// greatest. On an archipelago, most of whose narrows lead from sea to sea, and in those elsewhere that
/// do, the narrower is the faster.
fn through(scene: &mut Scene<'_>, strait: Strait, ends: Ends) -> f64 {
    let chance = scene.dice.between(0.6, 1.05);
    let by_width = (1_050.0 / strait.width * chance).clamp(1.6, 6.2) * strength(scene);
    let filled = match ends {
        Ends::Basin { ahead } if scene.wishes.character != Character::Mixed => {
            filling(scene.survey, (strait.at, strait.through), ahead, scene.wishes.tide)
        }
        _ => None,
    };
    let knots = filled.map_or(by_width, |knots| knots * scene.wishes.difficulty.streams());
    tenth(knots.clamp(RATES.0, RATES.1))
}

/// By what a stream that goes through from sea to sea turns.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Turns {
    /// With the levels at its ends: a narrows, whose shallow bed brakes the water at once.
    ByHead,
    /// Later: open water, which goes on by its weight after the levels have turned.
    Late,
}

/// How a stream is told.
#[derive(Debug, Clone, Copy, PartialEq)]
enum How {
    Hourly,
    Axis,
    Greatest,
}

/// Where a stream's flood goes and when it begins.
struct Turn {
    at: Xy,
    way: Xy,
    ends: Ends,
    /// Hours after the standard port's high water.
    begins: f64,
}

/// Hours after high water at which the flood begins, where high water comes as early as at the
/// standard port.
///
/// Into a basin it begins at low water. The wave of this chart is later and higher the farther it
/// has gone ([`secondary`]): 1.6 minutes and 2.5 cm to a kilometre make the level fall ahead most
/// strongly a quarter of a tide and 1.15 hours before high water, and not at all a quarter after,
/// which is when a stream that follows the fall turns; the bed of a narrows holds it back by some
/// 20 minutes more, a deep sound's stream goes on for two hours.
const BASIN: f64 = -6.2;
const HEAD: f64 = -7.0;
const LATE: f64 = -5.0;

impl Wave<'_> {
    /// How far the wave has gone from the standard port to a place, in metres.
    fn ahead(&self, at: Xy) -> f64 {
        (at.0 - self.origin.0) * self.flood.0 + (at.1 - self.origin.1) * self.flood.1
    }

    fn with_flood(&self, way: Xy) -> Xy {
        let along = way.0 * self.flood.0 + way.1 * self.flood.1;
        if along < 0.0 { (-way.0, -way.1) } else { way }
    }

    /// The stream along a channel: its flood goes into it, if one end is shut, or else with the wave.
    fn turn(&self, at: Xy, axis: Xy, ends: Ends, turns: Turns) -> Turn {
        let way = match ends {
            Ends::Open => self.with_flood(axis),
            Ends::Basin { ahead: true } => axis,
            Ends::Basin { ahead: false } => (-axis.0, -axis.1),
        };
        let at_port = match (ends, turns) {
            (Ends::Basin { .. }, _) => BASIN,
            (Ends::Open, _) if self.fills => BASIN,
            (Ends::Open, Turns::ByHead) => HEAD,
            (Ends::Open, Turns::Late) => LATE,
        };
        let later = (self.ahead(at) / 37_500.0).clamp(-0.9, 0.9);
        Turn { at, way, ends, begins: at_port + tenth(later) }
    }

    fn set(&self, name: String, springs: f64, turn: Turn, how: How) -> Set {
        let rates = match how {
            How::Hourly => self.hourly(&turn, springs),
            How::Axis => self.along_axis(&turn, springs),
            How::Greatest => self.greatest(&turn, springs),
        };
        let flood_deg = self.true_degrees(turn.way);
        Set { name, at: turn.at, flood_deg, springs, ends: turn.ends, rates }
    }

    fn true_degrees(&self, way: Xy) -> f64 {
        compass::whole(compass::degrees(way) + self.convergence)
    }

    fn hourly(&self, turn: &Turn, springs: f64) -> StreamRates {
        let (way, begins) = (turn.way, turn.begins.round() as i32);
        let (flood, ebb) = (self.true_degrees(way), self.true_degrees((-way.0, -way.1)));
        let row = |hour: i32| {
            let share = TURN[(hour - begins).rem_euclid(12) as usize];
            let set_deg = if share < 0.0 { ebb } else { flood };
            let rate = share.abs() * springs;
            StreamRow { set_deg, springs_kn: tenth(rate), neaps_kn: tenth(rate * 0.47) }
        };
        StreamRates::Hourly { port: self.standard.to_owned(), rows: (-6..=6).map(row).collect() }
    }

    fn along_axis(&self, turn: &Turn, springs: f64) -> StreamRates {
        // The flood is at its greatest a quarter of a turn after it begins; M2 turns 28.98
        // degrees an hour and is at the port's high water when its phase is the port's lag.
        let lag = |(name, speed): (&str, f64)| {
            let port = CONSTITUENTS.iter().find(|c| c.0 == name).map_or(0.0, |c| c.2);
            compass::whole(port + (turn.begins + 3.1) * speed)
        };
        let hundredth = |value: f64| (value * 100.0).round() / 100.0;
        let parts =
            [("M2", 28.984, 0.74), ("S2", 30.0, 0.26), ("N2", 28.44, 0.15), ("M4", 57.968, 0.05)];
        let part = |(name, speed, share): (&str, f64, f64)| {
            constituent((name, hundredth(springs * share), lag((name, speed))))
        };
        StreamRates::Axis {
            flood_deg: self.true_degrees(turn.way),
            constituents: parts.into_iter().map(part).collect(),
            across: Vec::new(),
        }
    }

    fn greatest(&self, turn: &Turn, springs: f64) -> StreamRates {
        StreamRates::Greatest {
            flood_deg: self.true_degrees(turn.way),
            port: self.standard.to_owned(),
            flood_begins_h: turn.begins,
            springs_kn: springs,
        }
    }
}
