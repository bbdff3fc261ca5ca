//! Many departures of a course, quickly.

use jiff::{SignedDuration, Timestamp};
use nav::passage::{Halt, Stretch, Swift, Table, Times, one_heading};
use nav::{Length, Speed};

use super::merge::{Merged, merged};
use super::wait::{Left, Made, Stopped, leave};
use super::{CourseLeg, Steered, Waters};
use crate::passage::{GatePassed, Halted, RaceMet, WaitFor};

/// A course's passages of a stretch of time, looked up rather than walked.
#[derive(Debug)]
pub struct CourseTable<'a> {
    waters: &'a Waters<'a>,
    table: Table<'a>,
    rows: Vec<Row<'a>>,
}

/// A passage in brief.
#[derive(Debug, Clone, PartialEq)]
pub struct Brief {
    /// When the group leaves the first point; waits there come after.
    pub departs: Timestamp,
    /// The legs that are made, in order.
    pub legs: Vec<BriefLeg>,
    /// Where it comes to nothing, if it does.
    pub halt: Option<Halted>,
}

/// A leg of a passage in brief.
#[derive(Debug, Clone, PartialEq)]
pub struct BriefLeg {
    /// How long the group waits before it.
    pub waited: SignedDuration,
    /// What for.
    pub waited_for: Option<WaitFor>,
    /// When it sets out.
    pub departs: Timestamp,
    /// When it gets to the leg's end.
    pub arrives: Timestamp,
    /// The time by what the stream does.
    pub times: Times,
    /// The most that the water runs, where anything is known of it.
    pub greatest: Option<Speed>,
    /// The races met, in order.
    pub races: Vec<RaceMet>,
    /// The gates passed, in order.
    pub gates: Vec<GatePassed>,
}

impl Brief {
    /// When it arrives; nothing of one that halts.
    pub fn arrives(&self) -> Option<Timestamp> {
        let ends = self.legs.last().map_or(self.departs, |leg| leg.arrives);
        self.halt.is_none().then_some(ends)
    }
}

impl<'a> Waters<'a> {
    /// The table of passages that begin and end between two instants, which these streams should reach
    /// beyond; those that go on longer are walked.
    pub fn table(&'a self, from: Timestamp, to: Timestamp) -> CourseTable<'a> {
        let (mut rows, mut stretches) = (Vec::new(), Vec::new());
        for leg in self.course().legs() {
            let marks = marks(leg);
            let (merged, before) = merged(leg, &marks);
            let begins = merged.iter().map(|stretch| stretch.begins).collect();
            let line: Vec<Stretch<'a>> = merged.into_iter().map(|it| self.merged(it)).collect();
            // A crossing on one heading is not looked up: its heading is sought.
            let crossing = leg.steered == Steered::OneHeading && !line.is_empty();
            let first = if crossing { 0 } else { stretches.len() };
            let pieces = before.iter().map(|count| first + count).collect();
            let crossing = if crossing {
                Some(line)
            } else {
                stretches.extend(line);
                None
            };
            rows.push(Row { marks, pieces, begins, crossing });
        }
        let table = Table::new(stretches, self.course().boat(), from, to);
        CourseTable { waters: self, rows, table }
    }
}

impl<'a> Waters<'a> {
    /// Merged stretches as a passage wants them.
    fn merged(&self, merged: Merged) -> Stretch<'a> {
        let Merged { track, length, parts, .. } = merged;
        Stretch { track, length, water: self.runs(parts.into_iter()) }
    }
}

/// The numbers of the stretches of a leg at whose beginnings the time is asked for, in order: its
/// start and its end, gates, and the edges of races.
fn marks(leg: &CourseLeg) -> Vec<usize> {
    let races = leg.races.iter().flat_map(|race| [race.first, race.end]);
    let gates = leg.gates.iter().map(|gate| gate.stretch);
    let mut marks: Vec<usize> =
        [0, leg.stretches.len()].into_iter().chain(races).chain(gates).collect();
    marks.sort_unstable();
    marks.dedup();
    marks
}

/// A leg as the table has it.
#[derive(Debug)]
struct Row<'a> {
    marks: Vec<usize>,
    /// The number in the table of the stretch that begins at each mark.
    pieces: Vec<usize>,
    /// How far along the leg each of its stretches in the table begins.
    begins: Vec<Length>,
    /// Those stretches of a crossing on one heading, which is not in the table.
    crossing: Option<Vec<Stretch<'a>>>,
}

impl Row<'_> {
    /// A halt of the table as one on the leg.
    fn halt(&self, leg: &CourseLeg, halt: Halt) -> Halt {
        let first = self.pieces.first().copied().unwrap_or_default();
        let begins = self.begins.get(halt.stretch.saturating_sub(first)).copied();
        let along = begins.unwrap_or_default() + halt.along;
        let after = leg.stretches.partition_point(|stretch| stretch.begins <= along);
        let stretch = after.saturating_sub(1);
        let begins = leg.stretches.get(stretch).map(|stretch| stretch.begins);
        Halt { stretch, along: along - begins.unwrap_or_default(), ..halt }
    }
}

/// A leg that was looked up.
struct Found<'a> {
    marks: &'a [usize],
    departs: Timestamp,
    arrives: Timestamp,
    /// When it comes to each of the marks between its first and its last.
    comes: Vec<Timestamp>,
    times: Times,
    greatest: Option<Speed>,
}

impl Made for Found<'_> {
    fn comes(&self, stretch: usize) -> Timestamp {
        let at = self.marks.partition_point(|mark| *mark < stretch);
        match at.checked_sub(1) {
            None => self.departs,
            Some(between) => self.comes.get(between).copied().unwrap_or(self.arrives),
        }
    }
}

impl CourseTable<'_> {
    /// The passage that leaves at an instant, and waits on the way for `longest_wait` at most, all waits
    /// together.
    pub fn passage(&self, departs: Timestamp, longest_wait: SignedDuration) -> Brief {
        let (mut now, mut may_wait) = (departs, longest_wait);
        let mut brief = Brief { departs, legs: Vec::with_capacity(self.rows.len()), halt: None };
        for (index, (leg, row)) in self.waters.course().legs().iter().zip(&self.rows).enumerate() {
            let stays = !leg.stop.is_zero();
            let ready = if stays { now.checked_add(leg.stop).unwrap_or(now) } else { now };
            match leave(self.waters, leg, (ready, may_wait), |at| self.find(leg, row, at)) {
                Ok(left) => {
                    let found = self.brief(leg, ready, &left);
                    (now, may_wait) = (found.arrives, may_wait - found.waited);
                    brief.legs.push(found);
                }
                Err(held) => {
                    brief.halt = Some(self.waters.halted(index, leg, (ready, may_wait), held));
                    break;
                }
            }
        }
        brief
    }

    fn brief(&self, leg: &CourseLeg, ready: Timestamp, left: &Left<Found<'_>>) -> BriefLeg {
        let Left { departs, waited_for, made } = left;
        let comes = |stretch| made.comes(stretch);
        BriefLeg {
            waited: departs.duration_since(ready),
            waited_for: waited_for.clone(),
            departs: *departs,
            arrives: made.comes(leg.stretches.len()),
            times: made.times,
            greatest: made.greatest,
            races: self.waters.races_met(leg, comes),
            gates: self.waters.gates_passed(leg, comes),
        }
    }

    fn find<'r>(
        &self,
        leg: &CourseLeg,
        row: &'r Row<'_>,
        departs: Timestamp,
    ) -> Result<Found<'r>, Stopped> {
        if let Some(line) = &row.crossing {
            return self.cross(line, row, departs);
        }
        // Most legs have no marks but their ends, and want no room for them.
        let mut comes = Vec::with_capacity(row.pieces.len().saturating_sub(2));
        let walked = self.table.walk_past(&row.pieces, departs, |at| comes.push(at));
        let Swift { arrives, times, greatest } =
            walked.map_err(|halt| Stopped::Halt(row.halt(leg, halt)))?;
        Ok(Found { marks: &row.marks, departs, arrives, comes, times, greatest })
    }

    fn cross<'r>(
        &self,
        line: &[Stretch<'_>],
        row: &'r Row<'_>,
        departs: Timestamp,
    ) -> Result<Found<'r>, Stopped> {
        let crossing = one_heading(line, self.waters.course().boat(), departs);
        let crossing = crossing.map_err(Stopped::NoHeading)?;
        let comes = |piece: &usize| {
            crossing.passed.get(*piece).map_or(crossing.arrives, |passed| passed.enters)
        };
        let sums = crossing.sums();
        let between = row.pieces.get(1..row.pieces.len().saturating_sub(1)).unwrap_or_default();
        Ok(Found {
            marks: &row.marks,
            departs,
            arrives: crossing.arrives,
            comes: between.iter().map(comes).collect(),
            times: sums.times,
            greatest: sums.greatest.map(|greatest| greatest.stream.drift),
        })
    }
}
