//! Many departures of one line: its ground speeds in a table, made once.

mod rows;

use std::ops::Range;

use jiff::Timestamp;

use self::rows::{Node, Rows, STEP, Sampled};
use super::Stretch;
use super::boat::Boat;
use super::hold::{Clock, Halt, Passing, Stopped, duration};
use super::sums::{Sort, Times, changes};
use super::way::Way;
use crate::Speed;
use crate::stream::Vector;

/// The longest time that a table is made for, in seconds: a year.
const LONGEST: f64 = 366.0 * 86_400.0;

/// The speeds along each stretch of a line over a stretch of time, for many departures.
///
/// ```
/// use jiff::{SignedDuration, Timestamp};
/// use nav::passage::{Boat, Stretch, Table};
/// use nav::{Bearing, Length, Speed};
/// let leg = Stretch { track: Bearing::NORTH, length: 3.0 * Length::NAUTICAL_MILE, water: vec![] };
/// let (from, day) = ("2026-06-14T00:00Z".parse::<Timestamp>()?, SignedDuration::from_hours(24));
/// let table = Table::new(vec![leg], Boat::new(Speed::from_knots(3.0)?), from, from + day);
/// let passage = table.walk(0..1, from + SignedDuration::from_hours(9)).unwrap();
/// assert_eq!(passage.arrives, "2026-06-14T10:00Z".parse()?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone)]
pub struct Table<'a> {
    stretches: Vec<Stretch<'a>>,
    rows: Vec<Row>,
    nodes: Vec<Node>,
    cells: usize,
    passing: Passing,
}

/// A stretch, with no more to it than most steps need.
#[derive(Debug, Clone, Copy)]
struct Row {
    /// Its length, in what a metre per second makes in a step.
    length: f64,
    /// The number of its first node; none without water.
    begins: Option<usize>,
    /// The seconds that it takes where nothing is known of its water; none with water, and where the boat
    /// makes no way.
    still: Option<f64>,
}

/// A passage as the table has it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Swift {
    /// When it arrives.
    pub arrives: Timestamp,
    /// The time by what the stream did, to a minute: the stream goes straight from one instant of the
    /// table to the next, five minutes later.
    pub times: Times,
    /// The fastest that the stream ran, to a fiftieth of a knot; none where none was ever known.
    pub greatest: Option<Speed>,
}

impl<'a> Table<'a> {
    /// The table of a line for passages that begin and end between two instants; what lies outside them,
    /// or more than 366 days after the first, is walked. It takes 16 bytes for each stretch and five
    /// minutes: 14 MB for two hundred stretches and a fortnight.
    pub fn new(
        stretches: Vec<Stretch<'a>>,
        boat: Boat,
        from: Timestamp,
        to: Timestamp,
    ) -> Table<'a> {
        let clock = Clock::from(from);
        // No cells at all where the end lies before the beginning.
        let cells = (clock.seconds(to).min(LONGEST) / STEP).ceil() as usize;
        let mut sampled: Vec<Sampled<'a>> = Vec::new();
        for (_, run) in stretches.iter().flat_map(|stretch| &stretch.water) {
            if !sampled.iter().any(|one| one.is_of(run)) {
                sampled.push(Sampled::of(run, clock, cells));
            }
        }
        let mut work = Rows::default();
        let wet = stretches.iter().filter(|stretch| !stretch.water.is_empty()).count();
        let mut nodes = Vec::with_capacity(wet * (cells + 1));
        let passing = Passing::on_the_line(boat, clock);
        let row = |stretch: &Stretch<'_>| {
            let begins = (!stretch.water.is_empty()).then_some(nodes.len());
            let still = match begins {
                Some(_) => {
                    work.row(stretch, &sampled, boat, cells, &mut nodes);
                    None
                }
                None => passing.pass(stretch, 0.0, 0.0, |_, _, _| {}).ok(),
            };
            Row { length: stretch.length.as_metres() / STEP, begins, still }
        };
        let rows = stretches.iter().map(row).collect();
        Table { stretches, rows, nodes, cells, passing }
    }

    /// The passage along the stretches of a range, counted from 0, that leaves at an instant and holds
    /// the line: [`walk`](super::walk), looked up.
    ///
    /// The speed between two instants of the table is the parabola that has their speeds and the mean
    /// speed between them, so that the table is as good at the end of every five minutes as the walk.
    /// Where the boat is slower than half a knot, where the stream across takes nearly all of its speed, and
    /// where its speed changes sharply between the two instants, that stretch is walked from there.
    /// So times are within 5 s of the walk's: passages of eight hours in streams of hourly tables and
    /// harmonic constants were within a tenth of a second, and those in streams that swing round within
    /// ten minutes within about one. The table halts where and when the walk does, but a boat whose
    /// speed along the line comes within a thousandth of [`LEAST_WAY`](super::LEAST_WAY) may halt in the
    /// one and not in the other. A later departure never arrives earlier, but for a few tenths of a
    /// second where one is walked and the other is not.
    ///
    /// # Errors
    /// [`Halt`] where the boat makes no way, its stretch counted from the beginning of the whole line.
    pub fn walk(&self, range: Range<usize>, departs: Timestamp) -> Result<Swift, Halt> {
        self.walk_past(&[range.start, range.end], departs, |_| {})
    }

    /// [`Table::walk`] from the first of these stretches to the last of them, counted from 0, which is not
    /// walked any more; `comes` is told when it comes to each of those between, in order.
    ///
    /// Nothing is rounded at those: a walk from mark to mark, each from the instant at which the last
    /// arrived, is the same to a nanosecond for each.
    ///
    /// # Errors
    /// [`Halt`] as of [`Table::walk`].
    pub fn walk_past(
        &self,
        marks: &[usize],
        departs: Timestamp,
        mut comes: impl FnMut(Timestamp),
    ) -> Result<Swift, Halt> {
        let clock = self.passing.clock;
        let mut now = self.moment(clock.seconds(departs));
        let mut tally = Tally::default();
        for (number, mark) in marks.windows(2).enumerate() {
            if number > 0 {
                comes(clock.at(now.seconds()));
            }
            for index in mark[0]..mark[1].min(self.rows.len()) {
                let left = self.pass(index, now, &mut tally);
                now = left.map_err(|stopped| stopped.halt(index, clock))?;
            }
        }
        Ok(tally.swift(clock.at(now.seconds())))
    }

    /// A time in seconds of the clock.
    fn moment(&self, seconds: f64) -> Moment {
        let steps = seconds / STEP;
        let inside = steps >= 0.0 && steps < self.cells as f64;
        let cell = if inside { steps as usize } else { self.cells };
        Moment { cell, part: steps - cell as f64 }
    }

    /// When a boat that is at the beginning of a stretch `now` leaves it.
    fn pass(&self, index: usize, mut now: Moment, tally: &mut Tally) -> Result<Moment, Stopped> {
        let row = self.rows[index];
        if let Some(still) = row.still {
            tally.without_data += still / STEP;
            return Ok(self.moment(now.seconds() + still));
        }
        let mut left = row.length;
        while left > 0.0 {
            let Some((here, next)) = self.cell(row, now.cell) else {
                let done = (row.length - left) * STEP;
                return self.walk_on(&self.stretches[index], done, now.seconds(), tally);
            };
            let curve = Curve::between(here, next);
            let rest = curve.mean - curve.covered(now.part);
            if rest > left {
                let to = curve.after(now.part, left);
                tally.add(here, next, now.part, to);
                return Ok(Moment { part: to, ..now });
            }
            tally.add(here, next, now.part, 1.0);
            left -= rest;
            now = Moment { cell: now.cell + 1, part: 0.0 };
        }
        Ok(now)
    }

    /// The rest of a stretch without the table.
    fn walk_on(
        &self,
        stretch: &Stretch<'_>,
        done: f64,
        now: f64,
        tally: &mut Tally,
    ) -> Result<Moment, Stopped> {
        let leaves =
            self.passing.pass(stretch, done, now, |way, _, seconds| tally.walked(way, seconds))?;
        Ok(self.moment(leaves))
    }

    /// The nodes at the ends of a step; nothing where the boat is to be walked.
    fn cell(&self, row: Row, cell: usize) -> Option<(&Node, &Node)> {
        let begins = row.begins? + cell;
        let [here, next] = self.nodes.get(begins..begins + 2)? else { return None };
        (!here.mean.is_nan()).then_some((here, next))
    }
}

/// A time as a step of the table and the part of it that has gone. Outside the table it is counted from the
/// table's end, backwards too.
///
/// The step stands by itself, so that what lies in it is fetched while the part is still being reckoned.
#[derive(Debug, Clone, Copy)]
struct Moment {
    cell: usize,
    part: f64,
}

impl Moment {
    fn seconds(self) -> f64 {
        (self.cell as f64 + self.part) * STEP
    }
}

/// The speed within a step: the parabola that has the speeds at its ends and the mean between them.
struct Curve {
    /// The speed at the beginning, and what goes with the time in steps and with its square.
    speed: f64,
    slope: f64,
    bend: f64,
    mean: f64,
}

impl Curve {
    fn between(here: &Node, next: &Node) -> Curve {
        let (speed, end, mean) =
            (f64::from(here.speed), f64::from(next.speed), f64::from(here.mean));
        let bend = 3.0 * (speed + end - 2.0 * mean);
        Curve { speed, slope: end - speed - bend, bend, mean }
    }

    /// What is made good from the beginning of the step to a time in it.
    fn covered(&self, at: f64) -> f64 {
        at * (self.speed + at * (self.slope * 0.5 + at * (self.bend * (1.0 / 3.0))))
    }

    /// When, after a time, so much more has been made good.
    fn after(&self, from: f64, left: f64) -> f64 {
        // As seen from there: time·(1 + half·time + third·time²) is to be what it takes at one speed.
        let speed = self.speed + from * (self.slope + from * self.bend);
        let one = 1.0 / speed;
        let steady = left * one;
        let half = (self.slope * 0.5 + from * self.bend) * one;
        let third = self.bend * (1.0 / 3.0) * one;
        let (turn, bow) = (half * steady, third * steady * steady);
        // The series turned round, as far as the third power of what the speed changes by: with a fiftieth
        // of it on the way, a ten-millionth of the time is left.
        let series = 1.0 - turn + (2.0 * turn * turn - bow) + 5.0 * turn * (bow - turn * turn);
        let mut time = steady * series;
        if turn.abs() + bow.abs() > 0.01 {
            // Newton's method, whose error is squared each time, since the speed at most doubles.
            for _ in 0..4 {
                let over = time * (1.0 + time * (half + time * third)) - steady;
                time -= over / (1.0 + time * (2.0 * half + time * 3.0 * third));
            }
        }
        from + time
    }
}

/// What there was on the way so far.
#[derive(Default)]
struct Tally {
    /// Steps of time with, against, across, slack, and without data.
    with: f64,
    against: f64,
    across: f64,
    slack: f64,
    without_data: f64,
    /// The square of the fastest stream, in metres per second, and whether any was known.
    greatest: f64,
    known: bool,
}

impl Tally {
    /// From one part of a step to another.
    fn add(&mut self, here: &Node, next: &Node, from: f64, to: f64) {
        let water = |at: f64| {
            let toward = |a: f32, b: f32| f64::from(a) + at * (f64::from(b) - f64::from(a));
            (toward(here.along, next.along), toward(here.across, next.across))
        };
        let ends = [water(from), water(to)];
        self.meets(ends);
        let sorts = ends.map(Sort::of);
        if sorts[0] == sorts[1] {
            *self.of(sorts[0]) += to - from;
        } else {
            self.add_changing(ends, to - from);
        }
    }

    /// So many seconds of a way that was walked.
    fn walked(&mut self, way: &Way, seconds: f64) {
        if !way.known {
            self.without_data += seconds / STEP;
            return;
        }
        // A straight line is furthest from the origin at one of its ends.
        self.meets([way.water_after(0.0), way.water_after(seconds)]);
        let mut from = 0.0;
        for to in changes(way.water, seconds) {
            let middle = way.water_after(f64::midpoint(from, to));
            *self.of(Sort::of(middle)) += (to - from) / STEP;
            from = to;
        }
    }

    fn meets(&mut self, ends: [Vector; 2]) {
        let squares = ends.map(|end| end.0 * end.0 + end.1 * end.1);
        self.greatest = self.greatest.max(squares[0]).max(squares[1]);
        self.known = true;
    }

    fn add_changing(&mut self, [first, last]: [Vector; 2], span: f64) {
        let change = ((last.0 - first.0) / span, (last.1 - first.1) / span);
        let mut before = 0.0;
        for at in changes((first, change), span) {
            let middle = f64::midpoint(before, at);
            let sort = Sort::of((first.0 + middle * change.0, first.1 + middle * change.1));
            *self.of(sort) += at - before;
            before = at;
        }
    }

    fn of(&mut self, sort: Sort) -> &mut f64 {
        match sort {
            Sort::With => &mut self.with,
            Sort::Against => &mut self.against,
            Sort::Across => &mut self.across,
            Sort::Slack => &mut self.slack,
        }
    }

    fn swift(self, arrives: Timestamp) -> Swift {
        let time = |steps: f64| duration(steps * STEP);
        Swift {
            arrives,
            times: Times {
                with: time(self.with),
                against: time(self.against),
                across: time(self.across),
                slack: time(self.slack),
                without_data: time(self.without_data),
            },
            greatest: self.known.then(|| Speed::metres_per_second(self.greatest.sqrt())),
        }
    }
}
