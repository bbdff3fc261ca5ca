//! A leg cut in stretches, each with whose stream it has.

use chart::water::Shares;
use nav::{Bearing, Length, Position, True};

use super::leg::{GateOn, RaceOn};
use super::line::Line;
use super::spot::Spotter;

/// The longest stretch, in metres on the ground. Over it a stream hardly changes but near a shore or a
/// station, where stretches are cut finer.
const LONGEST: f64 = 250.0;
/// A stretch shorter than twice this is not cut for its stream, nor for a bend.
const SHORTEST: f64 = 25.0;
/// How many times longer than the straight between its ends a stretch of a traced line may be.
const WINDING: f64 = 1.02;
/// How much of its stream may be of other stations than its neighbour's: the sum of the differences of
/// all shares. A knot of difference between two stations is then under a tenth of a knot, or what the
/// shortest stretches leave.
const CHANGE: f64 = 0.2;
/// How often a stretch may be halved for its stream, more than enough from the longest to the shortest.
const ROUNDS: usize = 4;

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
    if length > straight * WINDING && length.as_metres() > 2.0 * SHORTEST {
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
    for _ in 0..ROUNDS {
        let jumps: Vec<bool> =
            stretches.windows(2).map(|pair| differ(&pair[0].water, &pair[1].water)).collect();
        if !jumps.contains(&true) {
            break;
        }
        let jumps = |index: usize| jumps.get(index).is_some_and(|jumps| *jumps);
        let halves = stretches.into_iter().enumerate().flat_map(|(index, stretch)| {
            let at_an_end = jumps(index) || index.checked_sub(1).is_some_and(jumps);
            if at_an_end && stretch.length.as_metres() > 2.0 * SHORTEST {
                halved(line, &stretch, spotter)
            } else {
                vec![stretch]
            }
        });
        stretches = halves.collect();
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

/// Whether two stretches beside each other have streams of much different stations.
fn differ(one: &Result<Shares, Dry>, other: &Result<Shares, Dry>) -> bool {
    let (Ok(one), Ok(other)) = (one, other) else { return one.is_ok() != other.is_ok() };
    let part = |shares: &Shares, station: usize| {
        shares.parts().iter().find(|share| share.station == station).map_or(0.0, |share| share.part)
    };
    let changed: f64 = one.parts().iter().map(|a| (a.part - part(other, a.station)).abs()).sum();
    let come: f64 =
        other.parts().iter().filter(|b| part(one, b.station) == 0.0).map(|b| b.part).sum();
    changed + come > CHANGE
}
