//! The leg that is read, unrolled anew when it changes.

use std::sync::Arc;

use chart::water::{Flows, TidalGate, Tides};
use jiff::Timestamp;
use nav::triangle::Stream;
use nav::{Length, Pace, Position, geodesic};
use plan::passage::{LegPassage, Mark};
use plan::unrolled::{Ground, Met, Unrolled};

use crate::State;
use crate::state::{GatePassed, MadeOf, Of, RacePassed, UnrolledLeg};

/// At how many places a leg is looked at: about one for each column of a broad screen.
const PLACES: usize = 129;

/// Brings the leg strip up to date, if it is open.
pub(super) fn follow(state: &mut State) {
    let before = state.unrolled.take();
    let leg = state.read_leg().filter(|_| state.strip && !state.hand.traces());
    state.unrolled = leg.and_then(|leg| unrolled(state, leg, before));
}

fn unrolled(state: &State, leg: Of, before: Option<UnrolledLeg>) -> Option<UnrolledLeg> {
    let (from, to) = match leg {
        Of::Leg(index) => (index, Some(index + 1)),
        Of::Pencil(from) => (from, None),
    };
    let made_of = made_of(state, from, to)?;
    let kept = before.filter(|before| before.made_of == made_of).map(|before| before.line);
    let line = match kept {
        Some(line) => line,
        None => Arc::new(laid_out(state, &made_of)?),
    };
    let times = times(state, from, to, &line);
    let passed = to.and_then(|_| state.sailed()?.passage.legs.get(from));
    let water = WaterAlong::of(state, &line, &times, passed);
    let (met, races, gates) = (water.met(), water.races(), water.gates());
    Some(UnrolledLeg { from, to, line, times, met, races, gates, made_of })
}

/// The ends of the leg as it is shown, and what leads from one to the other.
fn made_of(state: &State, from: usize, to: Option<usize>) -> Option<MadeOf> {
    let shown = state.shown_positions();
    let begins = *shown.get(from)?;
    let straight = |ends| MadeOf { begins, ends, line: None, track: Vec::new() };
    let Some(to) = to else { return state.position().map(straight) };
    let leg = straight(*shown.get(to)?);
    if let Some(track) = one_heading(state, from) {
        return Some(MadeOf { track, ..leg });
    }
    let end = state.document.route().points.get(to)?;
    let carried = state.hand.carried().is_some_and(|taken| taken == from || taken == to);
    let line = end.along.as_ref().filter(|_| !carried).map(|along| along.line.clone());
    Some(MadeOf { line, ..leg })
}

/// The track of a leg on one heading between its ends: what it passes is passed from there.
fn one_heading(state: &State, leg: usize) -> Option<Vec<Position>> {
    let leg = state.sailed()?.passage.legs.get(leg)?;
    leg.off_line?;
    let between = leg.way.get(1..leg.way.len().checked_sub(1)?)?;
    Some(between.iter().map(|mark| mark.at).collect())
}

fn laid_out(state: &State, MadeOf { begins, ends, line, track }: &MadeOf) -> Option<Unrolled> {
    let ground = Ground {
        chart: &state.chart,
        coast: state.coast(),
        tides: state.tides().map(|tides| &**tides),
    };
    let between = line.as_deref().unwrap_or_default().iter().chain(track).copied();
    let all = std::iter::once(*begins).chain(between).chain([*ends]);
    Unrolled::of(all, &ground, PLACES)
}

/// When each place is passed: by the passage, where there is one that comes so far, else at the group's
/// pace.
fn times(state: &State, from: usize, to: Option<usize>, line: &Unrolled) -> Vec<Option<Timestamp>> {
    let route = state.document.route();
    let departs = match state.sailed() {
        Some(sailed) => match (to, sailed.passage.legs.get(from)) {
            (Some(_), Some(leg)) => return sailed_times(&leg.way, line),
            (Some(_), None) => None,
            (None, _) => sailed.departs(from, route),
        },
        None => plan::reckon(route, &state.chart.grid).departs(from).map(|at| at.timestamp()),
    };
    let at = |along: Length| passes(departs?, route.pace, along);
    line.places.iter().map(|place| at(place.along)).collect()
}

/// When a group on this way passes each place of a leg: as far along the one as along the other.
fn sailed_times(way: &[Mark], line: &Unrolled) -> Vec<Option<Timestamp>> {
    let mut along = Length::ZERO;
    let mut run = vec![Length::ZERO];
    for pair in way.windows(2) {
        along += geodesic::inverse(pair[0].at, pair[1].at).distance;
        run.push(along);
    }
    let when = |part: f64| {
        let next = run.partition_point(|at| *at < along * part).min(way.len().checked_sub(1)?);
        let to = way.get(next)?;
        let Some((from, begins)) = next.checked_sub(1).map(|before| (way[before], run[before]))
        else {
            return Some(to.when);
        };
        let part = (along * part - begins) / (run[next] - begins);
        let part = if part.is_finite() { part.clamp(0.0, 1.0) } else { 1.0 };
        from.when.checked_add(to.when.duration_since(from.when).mul_f64(part)).ok()
    };
    let whole = line.length;
    let part = |along: Length| if whole > Length::ZERO { along / whole } else { 0.0 };
    line.places.iter().map(|place| when(part(place.along))).collect()
}

fn passes(departs: Timestamp, pace: Pace, along: Length) -> Option<Timestamp> {
    departs.checked_add(pace.time_for(along)?).ok()
}

/// The water along a leg, at the times of passing; at the moment looked at where they are not known.
struct WaterAlong<'a> {
    state: &'a State,
    line: &'a Unrolled,
    times: Vec<Option<Timestamp>>,
    /// The leg by the passage, if it is made: what it says of races and gates counts.
    passed: Option<&'a LegPassage>,
}

impl<'a> WaterAlong<'a> {
    fn of(
        state: &'a State,
        line: &'a Unrolled,
        times: &[Option<Timestamp>],
        passed: Option<&'a LegPassage>,
    ) -> WaterAlong<'a> {
        let looked_at = state.moment.at();
        let times = times.iter().map(|time| Some(time.unwrap_or(looked_at))).collect();
        WaterAlong { state, line, times, passed }
    }

    fn flows(&self) -> Option<&'a Flows> {
        let sailed = self.state.sailed().and_then(|sailed| sailed.flows.as_ref());
        sailed.or_else(|| self.state.flows())
    }

    fn met(&self) -> Vec<Option<Met>> {
        self.flows().map(|flows| self.line.met(flows, &self.times)).unwrap_or_default()
    }

    /// The times of passing from one place along the leg to another, and the one before.
    fn between(&self, from: Length, to: Length) -> impl Iterator<Item = Timestamp> {
        let places = &self.line.places;
        let first = places.partition_point(|place| place.along <= from).saturating_sub(1);
        let last = places.partition_point(|place| place.along < to).max(first + 1);
        self.times
            .get(first..last.min(self.times.len()))
            .unwrap_or_default()
            .iter()
            .flatten()
            .copied()
    }

    /// The stream at a station when the group is between two places along the leg.
    fn at_station(&self, station: usize, (from, to): (Length, Length)) -> Vec<Stream> {
        let Some(flows) = self.flows() else { return Vec::new() };
        let only = Tides::only(station);
        self.between(from, to).filter_map(|at| flows.at(&only, at)).collect()
    }

    fn races(&self) -> Vec<RacePassed> {
        let tides = self.state.tides().map(|tides| tides.races()).unwrap_or_default();
        let passed = self.line.races.iter().filter_map(|on| {
            let race = tides.get(on.race)?;
            let met = |leg: &LegPassage| {
                leg.races.iter().filter(|met| met.race == on.race).filter_map(|met| met.state).max()
            };
            let by_itself = || {
                race.conditions().and_then(|conditions| {
                    let streams = self.at_station(conditions.station, (on.from, on.to)).into_iter();
                    streams.map(|stream| conditions.state(stream)).max()
                })
            };
            let state = self.passed.map_or_else(by_itself, met);
            let (from, to, name) = (on.from, on.to, race.name().to_owned());
            Some(RacePassed { name, from, to, state })
        });
        passed.collect()
    }

    /// Whether a gate is open when the group is at it.
    fn is_open(&self, tides: &Tides, gate: &TidalGate, along: Length) -> Option<bool> {
        let stream = self.at_station(gate.station(), (along, along)).into_iter().next()?;
        let deep = match gate.sill() {
            None => true,
            Some((port, least)) => {
                let at = self.between(along, along).next()?;
                tides.gauges().get(port)?.height(at).ok()?? >= least
            }
        };
        Some(stream.drift < gate.limit() && deep)
    }

    fn gates(&self) -> Vec<GatePassed> {
        let Some(tides) = self.state.tides() else { return Vec::new() };
        let passed = self.line.gates.iter().filter_map(|on| {
            let gate = tides.gates().get(on.gate)?;
            let met = |leg: &LegPassage| {
                leg.gates.iter().find(|met| met.gate == on.gate).and_then(|met| met.open)
            };
            let open = self.passed.map_or_else(|| self.is_open(tides, gate, on.along), met);
            Some(GatePassed { name: gate.name().to_owned(), along: on.along, open })
        });
        passed.collect()
    }
}
