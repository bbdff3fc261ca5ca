//! The water of a course over a stretch of time.

use std::collections::BTreeMap;

use chart::water::{Flows, Openings, RaceStates, Shares, Tides};
use jiff::{SignedDuration, Timestamp};
use nav::DateOutside;
use nav::passage::Stretch;
use nav::stream::Run;
use nav::triangle::Stream;

use super::{Course, CourseLeg, GateOn, RaceOn, Stretched};
use crate::passage::{GatePassed, Passage, RaceMet};

/// How long before a departure its streams begin.
const BEFORE: SignedDuration = SignedDuration::from_hours(1);
/// How much longer than in still water a passage is looked for at first, besides a wait.
const LONGER: SignedDuration = SignedDuration::from_hours(12);

/// The streams of a course over a stretch of time, with what its races and gates do meanwhile.
#[derive(Debug)]
pub struct Waters<'a> {
    course: &'a Course,
    flows: Option<&'a Flows>,
    races: BTreeMap<usize, RaceStates>,
    gates: BTreeMap<usize, Openings>,
}

impl Course {
    /// The passage that leaves at an instant, and waits on the way for `longest_wait` at most, all
    /// waits together.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn passage(
        &self,
        tides: Option<&Tides>,
        departs: Timestamp,
        longest_wait: SignedDuration,
    ) -> Result<Passage, DateOutside> {
        let Some(tides) = tides else {
            return Ok(self.still_waters().passage(departs, longest_wait));
        };
        let still = self.still().unwrap_or_default();
        let mut span = still.saturating_mul(2).saturating_add(longest_wait).saturating_add(LONGER);
        loop {
            let outside = |_| DateOutside { at: departs };
            let from = departs.checked_sub(BEFORE).map_err(outside)?;
            let to = departs.checked_add(span).map_err(outside)?;
            let flows = tides.flows(from, to)?;
            let passage = self.waters(tides, &flows)?.passage(departs, longest_wait);
            if passage.ends() <= to {
                return Ok(passage);
            }
            // Slower than was thought: again with the streams of a longer time.
            span = span.saturating_mul(2);
        }
    }

    /// The course on these streams of the tides that it was made with.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn waters<'a>(
        &'a self,
        tides: &Tides,
        flows: &'a Flows,
    ) -> Result<Waters<'a>, DateOutside> {
        let mut waters = Waters { flows: Some(flows), ..self.still_waters() };
        for leg in self.legs() {
            for &RaceOn { race, .. } in &leg.races {
                let states = tides.races().get(race).and_then(|race| race.states(flows));
                waters.races.extend(states.map(|states| (race, states)));
            }
            for &GateOn { gate, .. } in &leg.gates {
                if let Some(openings) = tides.gates().get(gate) {
                    waters.gates.insert(gate, openings.openings(tides, flows)?);
                }
            }
        }
        Ok(waters)
    }

    /// The course where nothing is known of the water.
    pub const fn still_waters(&self) -> Waters<'_> {
        Waters { course: self, flows: None, races: BTreeMap::new(), gates: BTreeMap::new() }
    }
}

impl<'a> Waters<'a> {
    /// The course.
    pub const fn course(&self) -> &'a Course {
        self.course
    }

    /// The streams of so much of each of these stations; nothing where one is not known.
    pub(super) fn runs(&self, parts: impl Iterator<Item = (f64, usize)>) -> Vec<(f64, &'a Run)> {
        let run = |(part, station)| Some((part, self.flows?.station(station)?));
        parts.map(run).collect::<Option<_>>().unwrap_or_default()
    }

    /// The stretches of a leg as a passage wants them.
    pub(crate) fn stretches(&self, leg: &CourseLeg) -> Vec<Stretch<'a>> {
        let stretch = |stretch: &Stretched| {
            let shares = stretch.water.as_ref().map(Shares::parts).unwrap_or_default();
            let water = self.runs(shares.iter().map(|share| (share.part, share.station)));
            Stretch { track: stretch.track, length: stretch.length, water }
        };
        leg.stretches.iter().map(stretch).collect()
    }

    /// The stream on a stretch at an instant.
    pub(crate) fn stream(&self, stretch: &Stretched, at: Timestamp) -> Option<Stream> {
        self.flows?.at(stretch.water.as_ref().ok()?, at)
    }

    /// Whether a gate is open at an instant; nothing where that is not known.
    pub(super) fn is_open(&self, gate: &GateOn, at: Timestamp) -> Option<bool> {
        self.gates.get(&gate.gate)?.is_open(at)
    }

    /// When it opens next, from an instant on.
    pub(crate) fn opens(&self, gate: &GateOn, at: Timestamp) -> Option<Timestamp> {
        self.gates.get(&gate.gate)?.next_open(at)
    }

    /// The races of a leg when it comes to the beginning of each stretch at these instants, the
    /// last being the leg's end.
    pub(crate) fn races_met(
        &self,
        leg: &CourseLeg,
        comes: impl Fn(usize) -> Timestamp,
    ) -> Vec<RaceMet> {
        let met = |race: &RaceOn| {
            let (from, to) = (comes(race.first), comes(race.end));
            let state = self.races.get(&race.race).and_then(|states| states.worst(from, to));
            RaceMet { name: race.name.clone(), race: race.race, from, to, state }
        };
        leg.races.iter().map(met).collect()
    }

    /// The gates of a leg, in the same way.
    pub(crate) fn gates_passed(
        &self,
        leg: &CourseLeg,
        comes: impl Fn(usize) -> Timestamp,
    ) -> Vec<GatePassed> {
        let passed = |gate: &GateOn| {
            let at = comes(gate.stretch);
            GatePassed {
                name: gate.name.clone(),
                gate: gate.gate,
                at,
                open: self.is_open(gate, at),
            }
        };
        leg.gates.iter().map(passed).collect()
    }
}
