//! When a narrows is open.

use jiff::{SignedDuration, Timestamp};
use nav::tide::Height;
use nav::{DateOutside, Length, Speed};

use super::gauge::Gauge;
use super::station::Station;
use super::{Fault, Flows, Tides, WaterError};
use crate::Point;
use crate::model::Gate;

/// A tidal gate of a chart, ready to be asked.
#[derive(Debug, Clone, PartialEq)]
pub struct TidalGate {
    name: String,
    note: String,
    line: (Point, Point),
    station: usize,
    limit: Speed,
    sill: Option<(usize, Height)>,
}

/// A stretch of time.
type Stretch = (Timestamp, Timestamp);

impl TidalGate {
    pub(super) fn of(
        gauges: &[Gauge],
        stations: &[Station],
        gate: &Gate,
    ) -> Result<TidalGate, WaterError> {
        let made = || {
            let station = stations.iter().position(|station| station.name() == gate.station);
            let sill = gate.sill.as_ref().map(|sill| {
                let gauge = gauges.iter().position(|gauge| gauge.name() == sill.port);
                let gauge = gauge.ok_or_else(|| Fault::NoPort(sill.port.clone()))?;
                let least = Height::above_datum(Length::from_metres(sill.least_m)?);
                Ok::<_, Fault>((gauge, least))
            });
            Ok(TidalGate {
                name: gate.name.clone(),
                note: gate.note.clone(),
                line: gate.line,
                station: station.ok_or_else(|| Fault::NoStation(gate.station.clone()))?,
                limit: Speed::from_knots(gate.limit_kn)?,
                sill: sill.transpose()?,
            })
        };
        made().map_err(|why| WaterError::Gate { gate: gate.name.clone(), why })
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The chart's word of advice, or empty.
    pub fn note(&self) -> &str {
        &self.note
    }

    /// The line across the narrows, from shore to shore.
    pub const fn line(&self) -> (Point, Point) {
        self.line
    }

    /// The number of the station whose stream shuts it, among [`Tides::stations`].
    pub const fn station(&self) -> usize {
        self.station
    }

    /// The rate there from which it is shut.
    pub const fn limit(&self) -> Speed {
        self.limit
    }

    /// The number of the port among [`Tides::gauges`] and the least height of tide there that it
    /// needs besides; nothing where it has water at any tide.
    pub const fn sill(&self) -> Option<(usize, Height)> {
        self.sill
    }

    /// When it is open, through the stretch of time of these streams: while the stream at its station
    /// is under its limit and, if it has a sill, the tide is high enough.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn openings(&self, tides: &Tides, flows: &Flows) -> Result<Openings, DateOutside> {
        let run = flows.run(&Tides::only(self.station));
        let ends = run.as_ref().and_then(|run| Some((run.start()?, run.end()?)));
        let (Some(run), Some((from, to))) = (run, ends) else {
            let none = Timestamp::UNIX_EPOCH;
            return Ok(Openings { open: Vec::new(), from: none, to: none });
        };
        let slow: Vec<Stretch> =
            run.under(self.limit).iter().map(|under| (under.from, under.to)).collect();
        let open = match self.sill {
            Some((gauge, least)) => match tides.gauges().get(gauge) {
                Some(gauge) => both(&slow, &gauge.at_least(least, from, to)?),
                None => Vec::new(),
            },
            None => slow,
        };
        Ok(Openings { open, from, to })
    }

    /// Where a straight line of the grid crosses the gate, as a fraction of the line; nothing where it
    /// does not.
    pub fn along(&self, a: Point, b: Point) -> Option<f64> {
        let (one, other) = self.line;
        let cross = |p: Point, q: Point| p.x * q.y - p.y * q.x;
        let side = |p: Point| cross(other - one, p - one);
        // A point on the line is on one side of it, so that two lines which meet there cross once.
        if (side(a) < 0.0) == (side(b) < 0.0) {
            return None;
        }
        let fraction = side(a) / (side(a) - side(b));
        let at = a + (b - a) * fraction;
        let (span, reach) = (other - one, at - one);
        let on = (reach.x * span.x + reach.y * span.y) / (span.x * span.x + span.y * span.y);
        (0.0..=1.0).contains(&on).then_some(fraction)
    }
}

/// What two lists of stretches have in common; each in order, none touching the next.
fn both(one: &[Stretch], other: &[Stretch]) -> Vec<Stretch> {
    let mut found = Vec::new();
    let (mut i, mut j) = (0, 0);
    while let (Some(a), Some(b)) = (one.get(i), other.get(j)) {
        let (from, to) = (a.0.max(b.0), a.1.min(b.1));
        if from < to {
            found.push((from, to));
        }
        if a.1 < b.1 { i += 1 } else { j += 1 }
    }
    found
}

/// When a gate is open within a stretch of time.
#[derive(Debug, Clone, PartialEq)]
pub struct Openings {
    open: Vec<Stretch>,
    from: Timestamp,
    to: Timestamp,
}

impl Openings {
    /// The stretches in which it is open, in order.
    pub fn stretches(&self) -> &[Stretch] {
        &self.open
    }

    /// The stretches in which it is open between two instants, cut to them.
    pub fn between(&self, from: Timestamp, to: Timestamp) -> Vec<Stretch> {
        let cut = self.open.iter().map(|&(a, b)| (a.max(from), b.min(to)));
        cut.filter(|(a, b)| a < b).collect()
    }

    /// Whether it is open at an instant; nothing outside the stretch that was asked for.
    pub fn is_open(&self, at: Timestamp) -> Option<bool> {
        let known = (self.from..=self.to).contains(&at);
        known.then(|| self.around(at).is_some_and(|(from, _)| *from <= at))
    }

    /// The first instant from `at` on at which it is open; nothing where there is none within the
    /// stretch that was asked for.
    pub fn next_open(&self, at: Timestamp) -> Option<Timestamp> {
        if at < self.from {
            return None;
        }
        self.around(at).map(|(from, _)| at.max(*from))
    }

    /// The first opening that ends after an instant.
    fn around(&self, at: Timestamp) -> Option<&Stretch> {
        self.open.get(self.open.partition_point(|(_, to)| *to <= at))
    }
}

impl Gauge {
    /// Every stretch of time between two instants in which the height of tide is at least `least`, to
    /// a millisecond; but for rises above it and falls below it by less than 2 cm, which are stands.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn at_least(
        &self,
        least: Height,
        from: Timestamp,
        to: Timestamp,
    ) -> Result<Vec<Stretch>, DateOutside> {
        let curve = self.curve(from, to)?;
        let covers = |at: Timestamp| curve.height(at).is_some_and(|height| height >= least);
        // Between two turns the tide passes a height once.
        let mut times = vec![from];
        times.extend(self.waters(from, to)?.iter().map(|turn| turn.at).filter(|at| *at > from));
        times.push(to);
        let mut found: Vec<Stretch> = Vec::new();
        let mut since = covers(from).then_some(from);
        for pair in times.windows(2) {
            match (since, covers(pair[1])) {
                (None, true) => since = Some(passes(&covers, pair[0], pair[1])),
                (Some(begun), false) => {
                    found.push((begun, passes(&covers, pair[0], pair[1])));
                    since = None;
                }
                _ => {}
            }
        }
        found.extend(since.map(|begun| (begun, to)));
        found.retain(|(from, to)| from < to);
        Ok(found)
    }
}

/// When something that is so at one of two instants and not at the other changes, by halving.
fn passes(is: &impl Fn(Timestamp) -> bool, from: Timestamp, to: Timestamp) -> Timestamp {
    let (mut low, mut high) = (from, to);
    let before = is(from);
    while high.duration_since(low) > SignedDuration::from_millis(1) {
        let middle = low + high.duration_since(low) / 2;
        if is(middle) == before { low = middle } else { high = middle }
    }
    high
}
