//! Where the group should be, and when.

use jiff::{SignedDuration, Timestamp, Unit};
use nav::{Position, text};
use plan::passage::{LegPassage, Passage};
use plan::unrolled::Ground;
use plan::{Course, Route};

use crate::card::Plan;

/// The times of a plan: of its passage, or else by the pace alone.
#[derive(Debug)]
pub(super) struct Schedule {
    course: Course,
    passage: Passage,
    /// Whether the times are those of a clock. Of a plan without a departure they count from the launch.
    pub(super) clock: bool,
    /// Whether they are by the pace alone.
    pub(super) by_pace: bool,
}

/// A place of the plan at a time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spell {
    /// When.
    pub(super) when: Timestamp,
    /// Where.
    pub(super) at: Position,
    /// What the group does there.
    pub(super) doing: Doing,
}

/// What the group does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Doing {
    /// It is on the leg that begins at the point of this number, from zero.
    Leg(usize),
    /// It stays at the point of this number, from zero.
    Stays(usize),
}

/// The most rows in the table of places by time: a page.
const MOST_ROWS: i64 = 24;

impl Schedule {
    /// The times of a plan; nothing of one without a leg.
    pub(super) fn of(plan: &Plan<'_>) -> Option<Schedule> {
        let clock = plan.route.departure.is_some();
        let whole = match plan.passage {
            Some((course, passage)) => {
                Schedule { course: course.clone(), passage: passage.clone(), clock, by_pace: false }
            }
            None => Schedule::by_pace(plan, clock)?,
        };
        (!whole.course.legs().is_empty()).then_some(whole)
    }

    /// In still water, without wind, so that the times are those of the readings.
    fn by_pace(plan: &Plan<'_>, clock: bool) -> Option<Schedule> {
        let ground = Ground { chart: plan.chart, coast: plan.coast, tides: None };
        let route = Route { wind: None, ..plan.route.clone() };
        let course = Course::new(&route, &ground);
        let departure = plan.route.departure.as_ref();
        let departs = departure.map_or(Timestamp::UNIX_EPOCH, |at| at.moment().timestamp());
        let passage = course.passage(None, departs, SignedDuration::ZERO).ok()?;
        Some(Schedule { course, passage, clock, by_pace: true })
    }

    /// When the group launches.
    pub(super) const fn departs(&self) -> Timestamp {
        self.passage.departs
    }

    /// When it is ashore; nothing of a passage that does not arrive.
    pub(super) fn arrives(&self) -> Option<Timestamp> {
        self.passage.arrives()
    }

    /// Why it does not arrive, in a sentence without its stop.
    pub(super) fn halt(&self) -> Option<String> {
        self.passage.halt.as_ref().map(|halt| halt.words(&self.course))
    }

    /// When a point is reached, from zero; the first one never is.
    pub(super) fn reached(&self, point: usize) -> Option<Timestamp> {
        Some(self.leg(point.checked_sub(1)?)?.arrives)
    }

    /// When a point is left.
    pub(super) fn left(&self, point: usize) -> Option<Timestamp> {
        Some(self.leg(point)?.departs)
    }

    fn leg(&self, index: usize) -> Option<&LegPassage> {
        self.passage.legs.get(index)
    }

    /// A time in words: on the clock, with the day where it is another than that of the launch; or since the launch.
    pub(super) fn words(&self, when: Timestamp) -> String {
        if !self.clock {
            return format!("+{}", text::duration(when.duration_since(self.departs())));
        }
        let zone = self.course.zone();
        let (at, start) =
            (when.to_zoned_datetime(zone.clone()), self.departs().to_zoned_datetime(zone.clone()));
        // The day is that of the minute which is written.
        let at = at.round(Unit::Minute).unwrap_or(at);
        let clock = text::clock(&at);
        if at.date() == start.date() { clock } else { format!("{} {clock}", at.strftime("%a")) }
    }

    /// The same with the day in full, so that nobody mistakes it.
    pub(super) fn words_in_full(&self, when: Timestamp) -> String {
        if !self.clock {
            return format!(
                "{} after the launch",
                text::duration(when.duration_since(self.departs()))
            );
        }
        let at = when.to_zoned_datetime(self.course.zone().clone());
        let at = at.round(Unit::Minute).unwrap_or(at);
        format!("{} on {}", text::clock(&at), at.strftime("%A %-d %B %Y"))
    }

    /// Where the group is from one whole step of the clock to the next, as far as the passage goes.
    pub(super) fn spells(&self) -> Vec<Spell> {
        let step = self.step().as_secs();
        let offset = if self.clock {
            i64::from(self.course.zone().to_offset(self.departs()).seconds())
        } else {
            -self.departs().as_second()
        };
        let after = self.departs().as_second() + offset;
        let first = after - after.rem_euclid(step) + step - offset;
        let ends = self.passage.ends().as_second();
        let seconds = (first..=ends).step_by(usize::try_from(step).unwrap_or(3600));
        seconds.filter_map(|second| self.spell(Timestamp::from_second(second).ok()?)).collect()
    }

    /// From row to row: half an hour of a short day, an hour, or as many as a page has room for.
    pub(super) fn step(&self) -> SignedDuration {
        let hours = self.passage.ends().duration_since(self.departs()).as_secs_f64() / 3600.0;
        if hours <= 4.0 {
            return SignedDuration::from_mins(30);
        }
        let steps = [1, 2, 3, 4, 6, 12].into_iter();
        let enough = |step: &i64| hours <= (step * MOST_ROWS) as f64;
        SignedDuration::from_hours(steps.into_iter().find(enough).unwrap_or(24))
    }

    fn spell(&self, when: Timestamp) -> Option<Spell> {
        let at = self.passage.at(when)?;
        let leg = self.passage.legs.partition_point(|leg| leg.arrives < when);
        let under_way = self.leg(leg)?.departs <= when;
        let doing = if under_way { Doing::Leg(leg) } else { Doing::Stays(leg) };
        Some(Spell { when, at, doing })
    }
}
