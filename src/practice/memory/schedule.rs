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
//!
//! Powers may differ in their last digit between machines, and with them, very rarely, a day.

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
}

/// All kinds of exercise, what is to be asked first at the head.
#[derive(Debug, Clone, PartialEq)]
pub struct Schedule {
    /// That in which a mistake recurs, then what is due, the weakest first; then what was never asked, in the order in which one learns; then what is not due
    /// yet, the weakest first.
    pub items: Vec<Item>,
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
        for answered in &past {
            let of_kind = learnt.iter_mut().filter(|it| it.kind == answered.kind);
            of_kind.for_each(|it| it.note(answered, &scheme));
        }
        let mut items: Vec<Item> = learnt.iter().map(|it| it.item(now)).collect();
        for weak in recurring(&past).iter().flat_map(|it| &it.kinds) {
            for item in items.iter_mut().filter(|it| it.kind == *weak) {
                (item.weak, item.due) = (true, item.due.map(|due| due.min(now)));
            }
        }
        items.sort_by(|a, b| {
            let class = |it: &Item| match it.due {
                _ if it.weak => 0,
                Some(due) if due <= now => 1,
                None => 2,
                Some(_) => 3,
            };
            class(a).cmp(&class(b)).then(a.strength.total_cmp(&b.strength))
        });
        Schedule { items }
    }

    /// The items in their order, but those that were asked lately after all others.
    pub fn in_order<'a>(&'a self, lately: &'a [Kind]) -> impl Iterator<Item = &'a Item> {
        let is_late = |it: &&Item| lately.contains(&it.kind);
        let others = self.items.iter().filter(move |it| !is_late(it));
        others.chain(self.items.iter().filter(is_late))
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
}

impl Learnt {
    fn new(kind: Kind) -> Learnt {
        Learnt { kind, level: Level::First, run: 0, misses: 0, memory: None, due: None }
    }

    fn note(&mut self, answered: &Answered, scheme: &Parameters) {
        self.move_level(answered);
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

    fn item(&self, now: Timestamp) -> Item {
        let strength = self.memory.map_or(0.0, |(memory, last)| {
            Parameters::forgetting_curve(days(last, now) + 1.0, memory.stability)
        });
        Item { kind: self.kind, level: self.level, due: self.due, strength, weak: false }
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
