//! A leg cut in stretches, each with whose stream it has.

use chart::water::Shares;
use nav::{Bearing, Length, Position, True};

use super::leg::{GateOn, RaceOn};
use super::line::Line;
use super::merge::change;
use super::spot::Spotter;

/// The longest stretch, in metres on the ground. Over it a stream hardly changes but near a shore or a
/// station, where stretches are cut finer.
const LONGEST: f64 = 250.0;
/// A stretch shorter than twice this is not cut for a bend.
const BENDING: f64 = 25.0;
/// How many times longer than the straight between its ends a stretch of a traced line may be.
const WINDING: f64 = 1.02;
/// How much of its stream may be of other stations than its neighbour's: the sum of the differences of
/// all shares. Where two stations differ by a knot, that is a tenth of a knot to either side of the middle.
const CHANGE: f64 = 0.2;
/// A stretch shorter than twice this is not cut for its stream, where it changes and is known on both
/// sides.
const CHANGING: f64 = 8.0;
/// How often a stretch may be halved for its stream, more than enough from the longest to the shortest.
const ROUNDS: usize = 8;
/// Where a stream ends or begins to be known, a stretch is halved down to this.
const BRINK: f64 = 3.0;

/// A stretch of a leg, along which the stream is taken for that of its middle.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretched {
    /// Where it begins.
    pub from: Position,
    /// How far along the leg that is.
    pub begins: Length,
    /// Where it ends.
    pub to: Position,
    /// Its length, on a traced leg along the line.
    pub length: Length,
    /// Its direction, on a traced leg from its one end to its other.
    pub track: Bearing<True>,
    /// Whose stream it has, or why none.
    pub water: Result<Shares, Dry>,
}

/// Why nothing is known of the stream.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dry {
    /// It lies off the chart.
    OffChart,
    /// It lies on land.
    Ashore,
    /// No station reaches there over water, or the chart has none that can be told.
    Unknown,
}

/// A leg cut.
pub(super) struct Cut {
    pub(super) stretches: Vec<Stretched>,
    pub(super) races: Vec<RaceOn>,
    pub(super) gates: Vec<GateOn>,
}

/// A place on a leg.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Spot {
    along: Length,
    at: Position,
}

/// Cuts a leg, at the edges of races and at gates as well.
pub(super) fn cut(line: &Line, spotter: &Spotter<'_>) -> Cut {
    let mut spots = even(line);
    let (races, gates) = met(&spots, spotter);
    let edges = races.iter().flat_map(|(_, from, to)| [*from, *to]);
    let also: Vec<Length> = edges.chain(gates.iter().map(|(_, at)| *at)).collect();
    for along in also {
        if let Err(place) = number(&spots, along) {
            spots.insert(place, Spot { along, at: line.at(along) });
        }
    }
    let stretches = watered(line, &spots, spotter);
    let begins = |along: Length| stretches.partition_point(|stretch| stretch.begins < along);
    let races = races.into_iter().map(|(race, from, to)| RaceOn {
        name: spotter.race(race),
        race,
        from,
        to,
        first: begins(from),
        end: begins(to),
    });
    let gates = gates.into_iter().map(|(gate, at)| GateOn {
        name: spotter.gate(gate),
        gate,
        at,
        stretch: begins(at),
    });
    Cut { races: races.collect(), gates: gates.collect(), stretches }
}

/// The number of the spot so far along, or where it belongs.
fn number(spots: &[Spot], along: Length) -> Result<usize, usize> {
    spots.binary_search_by(|spot| spot.along.as_metres().total_cmp(&along.as_metres()))
}

/// Places no farther apart than the longest stretch, and closer where the line bends.
fn even(line: &Line) -> Vec<Spot> {
    let length = line.length();
    let parts = (length.as_metres() / LONGEST).ceil().max(1.0);
    let spot = |part: f64| {
        let along = if part < parts { length * (part / parts) } else { length };
        Spot { along, at: line.at(along) }
    };
    let mut spots = vec![spot(0.0)];
    for part in 1..=parts as u32 {
        let from = spots.last().copied().unwrap_or_else(|| spot(0.0));
        straighten(line, from, spot(part.into()), &mut spots);
    }
    spots
}

/// Adds what comes after `from` up to `to`, with places between where the line winds.
fn straighten(line: &Line, from: Spot, to: Spot, spots: &mut Vec<Spot>) {
    let length = to.along - from.along;
    let (_, straight) = line.way(from.at, to.at, length);
    if length > straight * WINDING && length.as_metres() > 2.0 * BENDING {
        let along = from.along + length / 2.0;
        let middle = Spot { along, at: line.at(along) };
        straighten(line, from, middle, spots);
        straighten(line, middle, to, spots);
    } else {
        spots.push(to);
    }
}

/// A race with where along the leg it is entered and left.
type RaceSpan = (usize, Length, Length);
/// A gate with where along the leg it is.
type GateAt = (usize, Length);

/// The races and the gates on the way from place to place.
fn met(spots: &[Spot], spotter: &Spotter<'_>) -> (Vec<RaceSpan>, Vec<GateAt>) {
    let (mut races, mut gates): (Vec<RaceSpan>, Vec<GateAt>) = (Vec::new(), Vec::new());
    let on_chart: Vec<_> = spots.iter().map(|spot| spotter.on_chart(spot.at)).collect();
    for (pair, ends) in spots.windows(2).zip(on_chart.windows(2)) {
        let (&[from, to], &[Some(a), Some(b)]) = (pair, ends) else { continue };
        let along = |part: f64| match part {
            1.0 => to.along,
            part => from.along + (to.along - from.along) * part,
        };
        for (race, (enters, leaves)) in spotter.races(a, b) {
            let (enters, leaves) = (along(enters), along(leaves));
            match races.iter_mut().rev().find(|(other, ..)| *other == race) {
                // It goes on over the place.
                Some(before) if before.2 >= enters => before.2 = leaves,
                _ => races.push((race, enters, leaves)),
            }
        }
        gates.extend(spotter.gates(a, b).into_iter().map(|(gate, part)| (gate, along(part))));
    }
    (races, gates)
}

/// The stretches between the places, halved where whose stream they have changes fast.
fn watered(line: &Line, spots: &[Spot], spotter: &Spotter<'_>) -> Vec<Stretched> {
    let between = |pair: &[Spot]| match pair {
        [from, to] if to.along > from.along => Some(stretched(line, *from, *to, spotter)),
        _ => None,
    };
    let mut stretches: Vec<Stretched> = spots.windows(2).filter_map(between).collect();
    let end = |spot: Option<&Spot>| spot.map(|spot| spotter.water(spot.at));
    let ends = [end(spots.first()), end(spots.last())];
    for _ in 0..ROUNDS {
        let before = stretches.len();
        let waters = stretches.iter().map(|stretch| &stretch.water);
        let waters: Vec<_> = ends[0].iter().chain(waters).chain(ends[1].iter()).collect();
        let finest: Vec<f64> = waters.windows(2).map(|pair| finest(pair[0], pair[1])).collect();
        let halves = stretches.into_iter().enumerate().flat_map(|(index, stretch)| {
            let sides = finest.get(index..index + 2).unwrap_or_default();
            let at_ends = sides.iter().copied().fold(f64::INFINITY, f64::min);
            if stretch.length.as_metres() > 2.0 * at_ends {
                halved(line, &stretch, spotter)
            } else {
                vec![stretch]
            }
        });
        stretches = halves.collect();
        if stretches.len() == before {
            break;
        }
    }
    stretches
}

fn stretched(line: &Line, from: Spot, to: Spot, spotter: &Spotter<'_>) -> Stretched {
    let length = to.along - from.along;
    let (track, _) = line.way(from.at, to.at, length);
    let water = spotter.water(line.at(from.along + length / 2.0));
    Stretched { from: from.at, begins: from.along, to: to.at, length, track, water }
}

fn halved(line: &Line, stretch: &Stretched, spotter: &Spotter<'_>) -> Vec<Stretched> {
    let along = stretch.begins + stretch.length / 2.0;
    let from = Spot { along: stretch.begins, at: stretch.from };
    let middle = Spot { along, at: line.at(along) };
    let to = Spot { along: stretch.begins + stretch.length, at: stretch.to };
    vec![stretched(line, from, middle, spotter), stretched(line, middle, to, spotter)]
}

/// How short stretches beside each other should be: shorter where their streams are those of much
/// different stations, and where only one has any.
fn finest(one: &Result<Shares, Dry>, other: &Result<Shares, Dry>) -> f64 {
    let (one, other) = match (one, other) {
        (Ok(one), Ok(other)) => (one, other),
        (Err(_), Err(_)) => return f64::INFINITY,
        _ => return BRINK,
    };
    if change(one, other) > CHANGE { CHANGING } else { f64::INFINITY }
}
