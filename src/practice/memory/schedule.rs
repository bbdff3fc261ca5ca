//! When each kind of exercise comes back, and how hard.
//!
//! The scheme is FSRS-5 (Ye, Su and Cao 2022, "A stochastic shortest path algorithm for optimizing spaced repetition
//! scheduling", and its successors) with the formulas and parameters of its authors' crate. The crate's own scheduler asks for
//! minutes between steps and a clock; its formulas alone are taken. A kind of exercise is the item that is learnt: a question
//! itself never comes again.
//!
//! - **Rating.** Wrong or passed over is "again", right after a hint is "hard", right is "good". "Easy" is never given:
//!   how long an answer took says as much about the hand as about the memory.
//! - **Days.** The scheme counts whole days; the time between two answers is rounded to them, so that half a day and more is another
//!   day, in whatever zone.
//! - **Coming back.** When nine of ten answers would still be right, but not within a day of a right answer; at once
//!   after a wrong one, and for as long as a mistake recurs in it.
//! - **Level.** Three answers on end that are right without a hint, at the level or above, take a kind up; two on end that
//!   are not right, at the level or below, take it down.
//! - **In turn.** What went wrong comes back after two other questions, and again, the one that has waited longest first; but
//!   as long as something else is due or new, two such repeats on end are followed by it. Of the rest, what is due goes before
//!   what is new, so that a kind is let in as those before it hold; but four old ones on end are followed by a new one. So who
//!   knows everything meets a new kind in every question, who passes everything over in every third, whoever it is in every
//!   fifth; and who errs in one way is asked for it in two of three.
//!
//! Powers may differ in their last digit between machines, and with them, very rarely, a day. The order does not hang on
//! them: what was asked alike is alike to the last digit on every machine, and then the order is that in which one learns.

use std::cmp::Ordering;

use jiff::{SignedDuration, Timestamp};
use rs_fsrs::{Parameters, Rating};

use super::weakness::recurring;
use super::{Answered, Outcome, Record};
use crate::{Kind, Level};

/// How many right answers on end take a kind up a level.
const UP: u32 = 3;
/// How many on end that are not right take it down.
const DOWN: u32 = 2;
const DAY: i64 = 24 * 3600;
/// The longest time until a kind comes back, in days.
const LONGEST: i64 = 365;
/// How many other questions lie between two of a kind.
const REST: usize = 2;
/// How many repeats may follow each other while something is due or new.
const REPEATS: usize = 2;
/// How many questions of kinds that were asked before may follow each other while one was never asked.
const OLD: usize = 4;

/// Where a kind of exercise stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Item {
    /// The kind.
    pub kind: Kind,
    /// The level to ask it at.
    pub level: Level,
    /// When it comes back; nothing where it was never asked.
    pub due: Option<Timestamp>,
    /// The share of right answers that is to be expected a day after the schedule's instant, from 0 to 1; 0 where it was
    /// never asked. A day after, since at once even what was just got wrong is remembered.
    pub strength: f64,
    /// Whether a mistake recurs in it.
    pub weak: bool,
    /// Whether its last answer was not right.
    pub missed: bool,
    /// How many questions were asked since; nothing where it was never asked.
    pub since: Option<usize>,
}

/// What an item is on the list for, the most pressing first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Class {
    /// A mistake recurs in it.
    Weak,
    /// It was missed the last time.
    Missed,
    /// It is due.
    Due,
    /// It was never asked.
    New,
    /// It is not due yet.
    Ahead,
}

impl Item {
    fn class(&self, now: Timestamp) -> Class {
        match self.due {
            _ if self.weak => Class::Weak,
            _ if self.missed => Class::Missed,
            Some(due) if due <= now => Class::Due,
            None => Class::New,
            Some(_) => Class::Ahead,
        }
    }

    /// Whether another goes before this one or behind it; what is equal stays in the order in which one learns.
    fn before(&self, other: &Item, now: Timestamp) -> Ordering {
        let class = self.class(now);
        class.cmp(&other.class(now)).then_with(|| match class {
            Class::Weak | Class::Missed => other.since.cmp(&self.since),
            Class::New => Ordering::Equal,
            Class::Due | Class::Ahead => self.strength.total_cmp(&other.strength),
        })
    }
}

/// All kinds of exercise, what matters most at the head.
#[derive(Debug, Clone, PartialEq)]
pub struct Schedule {
    /// That in which a mistake recurs, then what was missed, what has waited longest first; then what is due, the weakest
    /// first; then what was never asked, in the order in which one learns; then what is not due yet, the weakest first.
    pub items: Vec<Item>,
    /// The instant that it is told of.
    now: Timestamp,
    /// How many repeats were asked last, one after the other.
    repeats: usize,
    /// How many questions of kinds that had been asked before.
    old: usize,
}

impl Schedule {
    /// How things stand at an instant.
    #[must_use]
    pub fn of(record: &Record, now: Timestamp) -> Schedule {
        let mut learnt: Vec<Learnt> = Kind::ALL.iter().map(|kind| Learnt::new(*kind)).collect();
        // The scheme's own seed, which its default takes from the clock, is for a scatter that is off.
        let scheme = Parameters::default();
        let past: Vec<&Answered> =
            record.by_time().into_iter().filter(|it| it.when <= now).collect();
        let (mut repeats, mut old) = (0, 0);
        for (number, answered) in past.iter().enumerate() {
            for it in learnt.iter_mut().filter(|it| it.kind == answered.kind) {
                repeats = if it.is_repeated(answered.when) { repeats + 1 } else { 0 };
                old = if it.last.is_some() { old + 1 } else { 0 };
                it.note(answered, number, &scheme);
            }
        }
        let mut items: Vec<Item> = learnt.iter().map(|it| it.item(now, past.len())).collect();
        for weak in recurring(&past).iter().flat_map(|it| &it.kinds) {
            for item in items.iter_mut().filter(|it| it.kind == *weak) {
                (item.weak, item.due) = (true, item.due.map(|due| due.min(now)));
            }
        }
        items.sort_by(|a, b| a.before(b, now));
        Schedule { items, now, repeats, old }
    }

    /// The items in the order in which they are to be asked, by the rule at the head of this file: the first that the chart
    /// has a question of comes next.
    #[must_use]
    pub fn in_turn(&self) -> Vec<&Item> {
        let mut items: Vec<&Item> = self.items.iter().collect();
        let (enough, too_old) = (self.repeats >= REPEATS, self.old >= OLD);
        items.sort_by_key(|item| {
            let rests = item.since.is_some_and(|since| since < REST);
            // What is held back stands behind all that is due or new, but before what is ahead.
            let place = match item.class(self.now) {
                Class::New if too_old => 0,
                Class::Weak | Class::Missed if enough => 2,
                Class::Ahead => 3,
                _ => 1,
            };
            (rests, place)
        });
        items
    }

    /// Where a kind stands.
    #[must_use]
    pub fn item(&self, kind: Kind) -> Option<&Item> {
        self.items.iter().find(|it| it.kind == kind)
    }
}

/// What has become of a kind so far.
struct Learnt {
    kind: Kind,
    level: Level,
    /// Right answers on end at the level, and such as are not.
    run: u32,
    misses: u32,
    memory: Option<(Memory, Timestamp)>,
    due: Option<Timestamp>,
    missed: bool,
    /// The number of its last question among all.
    last: Option<usize>,
}

impl Learnt {
    fn new(kind: Kind) -> Learnt {
        Learnt {
            kind,
            level: Level::First,
            run: 0,
            misses: 0,
            memory: None,
            due: None,
            missed: false,
            last: None,
        }
    }

    /// Whether a question at an instant asks again what was missed, or what is not due yet.
    fn is_repeated(&self, when: Timestamp) -> bool {
        self.missed || self.due.is_some_and(|due| when < due)
    }

    fn note(&mut self, answered: &Answered, number: usize, scheme: &Parameters) {
        self.move_level(answered);
        (self.missed, self.last) = (answered.outcome != Outcome::Right, Some(number));
        let rating = match answered.outcome {
            Outcome::Right if answered.hints == 0 => Rating::Good,
            Outcome::Right => Rating::Hard,
            Outcome::Wrong | Outcome::Passed => Rating::Again,
        };
        let memory = match self.memory {
            None => Memory::first(rating, scheme),
            Some((memory, last)) => memory.after(days(last, answered.when), rating, scheme),
        };
        let days = if rating == Rating::Again { 0 } else { memory.interval(scheme) };
        let wait = SignedDuration::from_secs(days * DAY);
        self.memory = Some((memory, answered.when));
        self.due = Some(answered.when.saturating_add(wait).unwrap_or(answered.when));
    }

    fn move_level(&mut self, answered: &Answered) {
        if answered.unaided() && answered.level >= self.level {
            (self.run, self.misses) = (self.run + 1, 0);
        } else if answered.outcome != Outcome::Right && answered.level <= self.level {
            (self.run, self.misses) = (0, self.misses + 1);
        }
        let at = usize::from(self.level.number() - 1);
        let to = match (self.run >= UP, self.misses >= DOWN) {
            (true, _) => at + 1,
            (_, true) => at.saturating_sub(1),
            _ => return,
        };
        (self.run, self.misses) = (0, 0);
        self.level = Level::ALL.get(to).copied().unwrap_or(self.level);
    }

    fn item(&self, now: Timestamp, asked: usize) -> Item {
        let strength = self.memory.map_or(0.0, |(memory, last)| {
            Parameters::forgetting_curve(days(last, now) + 1.0, memory.stability)
        });
        Item {
            kind: self.kind,
            level: self.level,
            due: self.due,
            strength,
            weak: false,
            missed: self.missed,
            since: self.last.map(|last| asked - 1 - last),
        }
    }
}

/// What the scheme knows of a kind.
#[derive(Debug, Clone, Copy)]
pub(super) struct Memory {
    /// After so many days nine of ten answers would still be right.
    stability: f64,
    /// From 1 to 10.
    difficulty: f64,
}

impl Memory {
    /// After the first answer.
    pub(super) fn first(rating: Rating, scheme: &Parameters) -> Memory {
        Memory {
            stability: scheme.init_stability(rating),
            difficulty: scheme.init_difficulty(rating),
        }
    }

    /// After another answer, so many days after the last.
    pub(super) fn after(self, days: f64, rating: Rating, scheme: &Parameters) -> Memory {
        let Memory { stability, difficulty } = self;
        let days = days.round();
        let recalled = Parameters::forgetting_curve(days, stability);
        let next = match rating {
            _ if days == 0.0 => scheme.short_term_stability(stability, rating),
            Rating::Again => {
                scheme.next_forget_stability(difficulty, stability, recalled).min(stability)
            }
            _ => scheme.next_recall_stability(difficulty, stability, recalled, rating),
        };
        // As the first stability is bounded by the scheme; beyond a century nothing is different.
        Memory {
            stability: next.clamp(0.1, 36_500.0),
            difficulty: scheme.next_difficulty(difficulty, rating),
        }
    }

    /// In how many days it comes back.
    pub(super) fn interval(self, scheme: &Parameters) -> i64 {
        // Whole, and from 1 to what the scheme has as the longest.
        (scheme.next_interval(self.stability, 0) as i64).min(LONGEST)
    }
}

/// Days from one instant to a later one.
fn days(from: Timestamp, to: Timestamp) -> f64 {
    (to.duration_since(from).as_secs_f64() / DAY as f64).max(0.0)
}
