//! How each skill has gone.

use std::collections::BTreeMap;

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

use super::{Answered, Outcome, Record, Schedule, Weakness, weaknesses};
use crate::{Kind, Level, Skill};

/// How everything has gone.
#[derive(Debug, Clone, PartialEq)]
pub struct Progress {
    /// The Monday of the instant's week.
    pub monday: Date,
    /// All skills together.
    pub all: Gone,
    /// By skill, in the order in which they are learnt.
    pub skills: Vec<(Skill, Gone)>,
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
    let all = record.by_time();
    let gone = |wanted: &dyn Fn(Kind) -> bool| {
        let answered = all.iter().filter(|it| it.when <= now && wanted(it.kind)).copied();
        let mut gone = Gone::of(answered, zone);
        let items = || schedule.items.iter().filter(|it| wanted(it.kind) && it.due.is_some());
        gone.due = items().filter_map(|it| it.due).min();
        let level = |it: &super::Item| it.level;
        gone.levels = items().map(level).min().zip(items().map(level).max());
        gone
    };
    let skills = Skill::ALL.iter().map(|skill| (*skill, gone(&|kind| kind.skill() == *skill)));
    let (skills, all) = (skills.collect(), gone(&|_| true));
    Progress { monday: monday(now, zone), all, skills, weaknesses: weaknesses(record), schedule }
}

impl Gone {
    /// The share of right answers in each of so many weeks, the last of them that of `monday`; nothing for a week
    /// without answers.
    #[must_use]
    pub fn shares(&self, monday: Date, weeks: usize) -> Vec<Option<f64>> {
        let mut shares = vec![None; weeks];
        for week in &self.weeks {
            let back = week.monday.until(monday).map_or(0, |apart| apart.get_days() / 7);
            let place = usize::try_from(back).ok().and_then(|back| weeks.checked_sub(back + 1));
            if let Some(share) = place.and_then(|place| shares.get_mut(place)) {
                *share = Some(week.share());
            }
        }
        shares
    }

    fn of<'a>(all: impl Iterator<Item = &'a Answered>, zone: &TimeZone) -> Gone {
        let mut gone = Gone::default();
        let mut weeks: BTreeMap<Date, Week> = BTreeMap::new();
        for it in all {
            let monday = monday(it.when, zone);
            let week = weeks.entry(monday).or_insert(Week { monday, answered: 0, right: 0 });
            let right = usize::from(it.outcome == Outcome::Right);
            (gone.answered, gone.right) = (gone.answered + 1, gone.right + right);
            (week.answered, week.right) = (week.answered + 1, week.right + right);
        }
        gone.weeks = weeks.into_values().collect();
        gone
    }
}

/// The Monday of an instant's week.
fn monday(when: Timestamp, zone: &TimeZone) -> Date {
    let date = zone.to_datetime(when).date();
    // At the very beginning of the calendar the week has no Monday.
    date.checked_sub(i64::from(date.weekday().to_monday_zero_offset()).days()).unwrap_or(date)
}
