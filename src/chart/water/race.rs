//! When a race runs, and where it is met.

use jiff::Timestamp;
use nav::triangle::Stream;
use nav::{Bearing, Speed, True};

use super::station::Station;
use super::{Fault, Flows, Tides, WaterError};
use crate::Point;
use crate::model::{Race, Ring, Runs};

/// What a race does, the quietest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RaceState {
    /// It lies down: the stream is slow, or sets a way with which it does not run.
    Quiet,
    /// It runs.
    Running,
    /// It is at its worst.
    Worst,
}

impl std::fmt::Display for RaceState {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            RaceState::Quiet => "quiet",
            RaceState::Running => "running",
            RaceState::Worst => "at its worst",
        })
    }
}

/// By what a race runs.
#[derive(Debug, Clone, PartialEq)]
pub struct Conditions {
    /// The number of the station that makes it, among [`Tides::stations`].
    pub station: usize,
    /// The rate there under which it lies down.
    pub quiet_under: Speed,
    /// The rate there over which it is at its worst.
    pub worst_over: Speed,
    /// The sets with which it runs, each from the first clockwise to the second; none where it runs
    /// whichever way the stream sets.
    pub sets: Vec<(Bearing<True>, Bearing<True>)>,
}

/// A race of a chart, ready to be asked.
#[derive(Debug, Clone, PartialEq)]
pub struct TidalRace {
    name: String,
    note: String,
    edge: Ring,
    conditions: Option<Conditions>,
}

impl TidalRace {
    pub(super) fn of(stations: &[Station], race: &Race) -> Result<TidalRace, WaterError> {
        let conditions = race.runs.as_ref().map(|runs| conditions(stations, runs)).transpose();
        let conditions =
            conditions.map_err(|why| WaterError::Race { race: race.name.clone(), why })?;
        let (name, note, edge) = (race.name.clone(), race.note.clone(), race.edge.clone());
        Ok(TidalRace { name, note, edge, conditions })
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// When and how it runs, in the chart's words, or empty.
    pub fn note(&self) -> &str {
        &self.note
    }

    /// Where it breaks at its worst.
    pub const fn edge(&self) -> &Ring {
        &self.edge
    }

    /// By what it runs; nothing where the chart does not say so in figures, and its state is not
    /// known at any time.
    pub const fn conditions(&self) -> Option<&Conditions> {
        self.conditions.as_ref()
    }

    /// What it does all through the stretch of time of these streams; nothing where that is not
    /// known, which is not to say that it is quiet.
    pub fn states(&self, flows: &Flows) -> Option<RaceStates> {
        let conditions = self.conditions.as_ref()?;
        let run = flows.run(&Tides::only(conditions.station))?;
        let ends = [run.start()?, run.end()?];
        let mut times: Vec<Timestamp> = ends.into();
        for limit in [conditions.quiet_under, conditions.worst_over] {
            times.extend(run.under(limit).iter().flat_map(|under| [under.from, under.to]));
        }
        for (first, second) in &conditions.sets {
            times.extend(run.setting(*first, *second).iter().flat_map(|(from, to)| [*from, *to]));
        }
        times.retain(|at| (ends[0]..=ends[1]).contains(at));
        times.sort_unstable();
        times.dedup();
        let mut changes: Vec<(Timestamp, RaceState)> = Vec::new();
        for pair in times.windows(2) {
            // Nothing changes between two of the times, so that the middle stands for all between.
            let middle = pair[0] + pair[1].duration_since(pair[0]) / 2;
            let state = conditions.state(run.at(middle)?);
            if changes.last().is_none_or(|last| last.1 != state) {
                changes.push((pair[0], state));
            }
        }
        Some(RaceStates { changes, end: ends[1] })
    }
}

impl Conditions {
    /// What the race does when its station's stream is this.
    pub fn state(&self, stream: Stream) -> RaceState {
        let set = stream.set.as_degrees();
        let clockwise = |from: f64, to: f64| (to - from).rem_euclid(360.0);
        let within = |(first, second): &(Bearing<True>, Bearing<True>)| {
            let (first, second) = (first.as_degrees(), second.as_degrees());
            clockwise(first, set) <= clockwise(first, second)
        };
        let runs = self.sets.is_empty() || self.sets.iter().any(within);
        if !runs || stream.drift < self.quiet_under {
            RaceState::Quiet
        } else if stream.drift > self.worst_over {
            RaceState::Worst
        } else {
            RaceState::Running
        }
    }
}

fn conditions(stations: &[Station], runs: &Runs) -> Result<Conditions, Fault> {
    let station = stations.iter().position(|station| station.name() == runs.station);
    let set = |(first, second): &(f64, f64)| {
        Ok((Bearing::from_degrees(*first)?, Bearing::from_degrees(*second)?))
    };
    Ok(Conditions {
        station: station.ok_or_else(|| Fault::NoStation(runs.station.clone()))?,
        quiet_under: Speed::from_knots(runs.quiet_under_kn)?,
        worst_over: Speed::from_knots(runs.worst_over_kn)?,
        sets: runs.sets_deg.iter().map(set).collect::<Result<_, Fault>>()?,
    })
}

/// What a race does over a stretch of time.
#[derive(Debug, Clone, PartialEq)]
pub struct RaceStates {
    /// When it begins to do what; the first at the beginning of the stretch.
    changes: Vec<(Timestamp, RaceState)>,
    end: Timestamp,
}

impl RaceStates {
    /// The instants at which the state changes, the beginning of the stretch first, and the state
    /// from then on.
    pub fn changes(&self) -> &[(Timestamp, RaceState)] {
        &self.changes
    }

    /// The end of the stretch.
    pub const fn end(&self) -> Timestamp {
        self.end
    }

    /// The state at an instant; nothing outside the stretch.
    pub fn at(&self, at: Timestamp) -> Option<RaceState> {
        let next = self.changes.partition_point(|change| change.0 <= at);
        let (_, state) = self.changes.get(next.checked_sub(1)?)?;
        (at <= self.end).then_some(*state)
    }

    /// The worst state from one instant to another; nothing unless both are in the stretch.
    pub fn worst(&self, from: Timestamp, to: Timestamp) -> Option<RaceState> {
        let (first, last) = (self.at(from)?, self.at(to)?);
        let within = self.changes.iter().filter(|change| (from..=to).contains(&change.0));
        within.map(|change| change.1).chain([first, last]).max()
    }

    /// The first instant from `from` on at which the state is no worse than `worst`; nothing where
    /// there is none in the stretch.
    pub fn next_no_worse(&self, from: Timestamp, worst: RaceState) -> Option<Timestamp> {
        if self.at(from)? <= worst {
            return Some(from);
        }
        let later = self.changes.iter().filter(|change| change.0 > from);
        later.filter(|change| change.1 <= worst).map(|change| change.0).next()
    }
}

impl TidalRace {
    /// The parts of the straight line from `a` to `b` that lie in the race, as fractions of the line.
    pub fn along(&self, a: Point, b: Point) -> Vec<(f64, f64)> {
        let way = b - a;
        let mut cuts = vec![0.0, 1.0];
        cuts.extend(self.edge.sides().filter_map(|(from, to)| cut(a, way, from, to)));
        cuts.sort_by(f64::total_cmp);
        let mut inside: Vec<(f64, f64)> = Vec::new();
        for pair in cuts.windows(2) {
            let middle = a + way * ((pair[0] + pair[1]) / 2.0);
            if pair[0] >= pair[1] || !self.edge.encloses(middle) {
                continue;
            }
            match inside.last_mut() {
                Some(last) if last.1 == pair[0] => last.1 = pair[1],
                _ => inside.push((pair[0], pair[1])),
            }
        }
        inside
    }
}

/// Where on the way from `a` the line meets a side, between 0 and 1.
fn cut(a: Point, way: Point, from: Point, to: Point) -> Option<f64> {
    let cross = |p: Point, q: Point| p.x * q.y - p.y * q.x;
    let (side, start) = (to - from, from - a);
    let turn = cross(way, side);
    let (at, on) = (cross(start, side) / turn, cross(start, way) / turn);
    // Not a number where they are parallel: then there is no cut.
    ((0.0..=1.0).contains(&at) && (0.0..=1.0).contains(&on)).then_some(at)
}

impl Tides {
    /// The races that a straight line of the grid meets, each with its number among
    /// [`Tides::races`] and the part of the line in it as fractions, in the line's order.
    pub fn races_along(&self, a: Point, b: Point) -> Vec<(usize, (f64, f64))> {
        let each = self.races().iter().enumerate();
        let mut met: Vec<_> = each
            .flat_map(|(number, race)| race.along(a, b).into_iter().map(move |at| (number, at)))
            .collect();
        met.sort_by(|one, other| one.1.0.total_cmp(&other.1.0));
        met
    }

    /// The gates that a straight line of the grid crosses, each with its number among
    /// [`Tides::gates`] and the fraction of the line at which it is crossed, in the line's order.
    /// Of lines in a row, a gate at the point where two meet is crossed by one of them.
    pub fn gates_along(&self, a: Point, b: Point) -> Vec<(usize, f64)> {
        let each = self.gates().iter().enumerate();
        let mut met: Vec<_> =
            each.filter_map(|(number, gate)| Some((number, gate.along(a, b)?))).collect();
        met.sort_by(|one, other| one.1.total_cmp(&other.1));
        met
    }
}

#[cfg(test)]
mod tests;
