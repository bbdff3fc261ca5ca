//! How each skill, and each kind of exercise in it, has gone.

use std::collections::BTreeMap;

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

use super::{Answered, Item, Outcome, Record, Schedule, Weakness, weaknesses};
use crate::{Kind, Level, Skill};

/// How everything has gone, as it stands at an instant.
#[derive(Debug, Clone, PartialEq)]
pub struct Progress {
    /// The instant.
    pub now: Timestamp,
    /// The zone whose days and weeks these are.
    pub zone: TimeZone,
    /// The Monday of the instant's week.
    pub monday: Date,
    /// All skills together.
    pub all: Gone,
    /// By skill, in the order in which they are learnt.
    pub skills: Vec<(Skill, Gone)>,
    /// By kind of exercise, in the order in which one learns.
    pub kinds: Vec<(Kind, Gone)>,
    /// Where each kind stands, what is to be asked first at the head.
    pub schedule: Schedule,
    /// The mistakes that recur.
    pub weaknesses: Vec<Weakness>,
}

/// How something has gone.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Gone {
    /// How many questions were put, those that were passed over among them.
    pub answered: usize,
    /// How many of them were answered rightly.
    pub right: usize,
    /// The weeks in which there were any, from the first.
    pub weeks: Vec<Week>,
    /// When the first of its kinds comes back.
    pub due: Option<Timestamp>,
    /// The lowest and the highest level of the kinds that were asked.
    pub levels: Option<(Level, Level)>,
}

/// A week of practice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Week {
    /// Its Monday, in the zone that was asked for.
    pub monday: Date,
    /// How many questions were put.
    pub answered: usize,
    /// How many of them were answered rightly.
    pub right: usize,
}

impl Week {
    /// The share of right answers, from 0 to 1.
    #[must_use]
    pub fn share(&self) -> f64 {
        self.right as f64 / self.answered.max(1) as f64
    }
}

/// How everything has gone until an instant, in weeks of a zone.
#[must_use]
pub fn progress(record: &Record, now: Timestamp, zone: &TimeZone) -> Progress {
    let schedule = Schedule::of(record, now);
    let mut by_kind: BTreeMap<Kind, Vec<&Answered>> = BTreeMap::new();
    for it in record.answered().iter().filter(|it| it.when <= now) {
        by_kind.entry(it.kind).or_default().push(it);
    }
    let gone = |kind: Kind| {
        let answered = by_kind.get(&kind).into_iter().flatten().copied();
        Gone::of(answered, schedule.item(kind), zone)
    };
    let kinds: Vec<(Kind, Gone)> = Kind::ALL.iter().map(|kind| (*kind, gone(*kind))).collect();
    let together = |wanted: &dyn Fn(Kind) -> bool| {
        Gone::together(kinds.iter().filter(|(kind, _)| wanted(*kind)).map(|(_, gone)| gone))
    };
    let of_skill = |skill: &Skill| (*skill, together(&|kind| kind.skill() == *skill));
    Progress {
        now,
        zone: zone.clone(),
        monday: monday(now, zone),
        all: together(&|_| true),
        skills: Skill::ALL.iter().map(of_skill).collect(),
        kinds,
        schedule,
        weaknesses: weaknesses(record),
    }
}

impl Progress {
    /// What a row of a page is about: all together first, then the skills in their order.
    #[must_use]
    pub fn row(&self, row: usize) -> Option<(Option<Skill>, &Gone)> {
        match row.checked_sub(1) {
            None => Some((None, &self.all)),
            Some(row) => self.skills.get(row).map(|(skill, gone)| (Some(*skill), gone)),
        }
    }

    /// How many such rows there are.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.skills.len() + 1
    }
}

impl Gone {
    /// Each of so many weeks, the last of them that of `monday`; nothing for a week without answers.
    #[must_use]
    pub fn weeks_to(&self, monday: Date, weeks: usize) -> Vec<Option<Week>> {
        let mut all = vec![None; weeks];
        for week in &self.weeks {
            let place = weeks_between(week.monday, monday)
                .and_then(|back| weeks.checked_sub(back + 1))
                .and_then(|place| all.get_mut(place));
            if let Some(place) = place {
                *place = Some(*week);
            }
        }
        all
    }

    /// The share of right answers in each of these weeks.
    #[must_use]
    pub fn shares(&self, monday: Date, weeks: usize) -> Vec<Option<f64>> {
        self.weeks_to(monday, weeks).iter().map(|week| Some(week.as_ref()?.share())).collect()
    }

    /// How many weeks there are from the first with answers to that of `monday`, both included; 0 where there are none.
    #[must_use]
    pub fn span(&self, monday: Date) -> usize {
        let first = self.weeks.first().and_then(|week| weeks_between(week.monday, monday));
        first.map_or(0, |back| back + 1)
    }

    fn of<'a>(
        all: impl Iterator<Item = &'a Answered>,
        item: Option<&Item>,
        zone: &TimeZone,
    ) -> Gone {
        let mut weeks: BTreeMap<Date, Week> = BTreeMap::new();
        for it in all {
            let monday = monday(it.when, zone);
            let week = weeks.entry(monday).or_insert(Week { monday, answered: 0, right: 0 });
            week.answered += 1;
            week.right += usize::from(it.outcome == Outcome::Right);
        }
        let item = item.filter(|item| item.due.is_some());
        let levels = item.map(|item| (item.level, item.level));
        Gone { due: item.and_then(|item| item.due), levels, ..Gone::summed(weeks) }
    }

    fn together<'a>(parts: impl Iterator<Item = &'a Gone>) -> Gone {
        let mut weeks: BTreeMap<Date, Week> = BTreeMap::new();
        let (mut due, mut levels): (Option<Timestamp>, Option<(Level, Level)>) = (None, None);
        for part in parts {
            for week in &part.weeks {
                let empty = Week { answered: 0, right: 0, ..*week };
                let sum = weeks.entry(week.monday).or_insert(empty);
                (sum.answered, sum.right) = (sum.answered + week.answered, sum.right + week.right);
            }
            due = [due, part.due].into_iter().flatten().min();
            let both = levels.zip(part.levels);
            levels = both
                .map(|(one, other)| (one.0.min(other.0), one.1.max(other.1)))
                .or(levels)
                .or(part.levels);
        }
        Gone { due, levels, ..Gone::summed(weeks) }
    }

    fn summed(weeks: BTreeMap<Date, Week>) -> Gone {
        let weeks: Vec<Week> = weeks.into_values().collect();
        Gone {
            answered: weeks.iter().map(|week| week.answered).sum(),
            right: weeks.iter().map(|week| week.right).sum(),
            weeks,
            ..Gone::default()
        }
    }
}

/// How many weeks lie between two Mondays; nothing where the second is the earlier.
fn weeks_between(from: Date, to: Date) -> Option<usize> {
    let days = from.until(to).ok()?.get_days();
    usize::try_from(days.div_euclid(7)).ok()
}

/// The Monday of an instant's week.
fn monday(when: Timestamp, zone: &TimeZone) -> Date {
    let date = zone.to_datetime(when).date();
    // At the very beginning of the calendar the week has no Monday.
    date.checked_sub(i64::from(date.weekday().to_monday_zero_offset()).days()).unwrap_or(date)
}
