//! Typical learners over weeks: what the schedule asks them.
//!
//! A learner is a rule for what comes of a question of a kind and a level; chance falls from seeds.

use std::collections::{BTreeMap, BTreeSet};

use super::*;
use crate::dice::Dice;

/// What was asked, and on which day.
struct Course {
    record: Record,
    /// Questions in a day.
    daily: usize,
}

/// So many days of so many questions each for a learner, who says what comes of the question of a number.
fn course(
    days: usize,
    daily: usize,
    answers: impl Fn(usize, &Item) -> (Outcome, Option<MistakeKind>),
) -> Course {
    let mut record = Record::default();
    for number in 0..days * daily {
        let (day, place) = (number / daily, number % daily);
        let seconds = day as i64 * DAY + place as i64 * 60;
        let item = *Schedule::of(&record, at(seconds)).in_turn()[0];
        let (outcome, mistake) = answers(number, &item);
        let answered =
            Answered { level: item.level, mistake, ..result(item.kind, outcome, seconds) };
        assert!(record.keep(answered));
    }
    Course { record, daily }
}

impl Course {
    /// By which question, counted from one, each kind was first asked.
    fn met(&self) -> BTreeMap<Kind, usize> {
        let mut met = BTreeMap::new();
        for (number, it) in self.record.answered().iter().enumerate() {
            met.entry(it.kind).or_insert(number + 1);
        }
        met
    }

    /// The most questions that lie between two of the same kind, among these.
    fn longest_wait(&self, from: usize) -> usize {
        let mut last = BTreeMap::new();
        let asked = self.record.answered().iter().enumerate().skip(from);
        let waits = asked.filter_map(|(number, it)| Some(number - last.insert(it.kind, number)?));
        waits.max().unwrap_or(0)
    }

    /// The share of a skill in the questions from one on, and how many kinds were asked in them.
    fn share(&self, skill: Skill, from: usize) -> (f64, usize) {
        let asked = &self.record.answered()[from..];
        let of_skill = asked.iter().filter(|it| it.kind.skill() == skill).count();
        let kinds: BTreeSet<Kind> = asked.iter().map(|it| it.kind).collect();
        (of_skill as f64 / asked.len() as f64, kinds.len())
    }

    fn at_end(&self) -> Schedule {
        let days = (self.record.answered().len() / self.daily) as i64;
        Schedule::of(&self.record, at(days * DAY))
    }

    fn rests_between(&self) {
        let asked: Vec<Kind> = self.record.answered().iter().map(|it| it.kind).collect();
        for three in asked.windows(3) {
            assert!(three[0] != three[1] && three[0] != three[2] && three[1] != three[2]);
        }
    }
}

/// Three at once, then one in three: the 22nd kind is the 60th question, the last skill comes three before.
#[test]
fn who_passes_everything_over_meets_every_skill() {
    for daily in [3, 7, 10, 200] {
        let course = course(200_usize.div_ceil(daily), daily, |_, _| (Outcome::Passed, None));
        let met = course.met();
        assert_eq!(met.len(), Kind::ALL.len());
        let all: Vec<usize> = met.values().copied().collect();
        assert!(all.is_sorted(), "not in the order in which one learns: {all:?}");
        assert_eq!((met[&Kind::Leave], met[&Kind::Card]), (57, 60), "{daily} a day: {all:?}");
        // From then on all take turns.
        assert!(course.longest_wait(60) <= Kind::ALL.len() + 3, "{}", course.longest_wait(60));
        course.rests_between();
        assert!(course.at_end().items.iter().all(|it| it.level == Level::First && it.missed));
    }
}

#[test]
fn who_knows_everything_gets_all_kinds_and_harder() {
    let known = |days| course(days, 10, |_, _| (Outcome::Right, None));
    let first = known(3);
    assert_eq!(first.met().values().max(), Some(&22), "each question is a new kind");
    first.rests_between();
    let all_are = |course: &Course, least| course.at_end().items.iter().all(|it| it.level >= least);
    assert!(all_are(&known(8), Level::Second));
    assert!(all_are(&known(16), Level::Third));
    // After two months hardly anything is due any more.
    let late = known(60).at_end();
    let now = late.items.iter().filter(|it| it.due.unwrap() <= at(60 * DAY)).count();
    assert!(now <= 2, "{now}");
}

#[test]
fn who_errs_in_one_way_is_asked_for_it_and_for_all_else() {
    let wrong = MistakeKind::VariationWrongWay;
    let errs = |_: usize, item: &Item| match item.kind {
        Kind::ToMagnetic | Kind::ToGrid => (Outcome::Wrong, Some(wrong)),
        _ => (Outcome::Right, None),
    };
    let course = course(14, 10, errs);
    let first = course.met()[&Kind::ToMagnetic];
    let found = (first..).find(|count| {
        let mut kept = Record::default();
        assert!(course.record.answered()[..*count].iter().all(|it| kept.keep(it.clone())));
        weaknesses(&kept).iter().any(|it| it.mistake == wrong)
    });
    assert!(found.unwrap() < first + 10, "{found:?} {first}");
    let (share, kinds) = course.share(Skill::Norths, 20);
    assert!((0.4..=0.67).contains(&share), "{share}");
    assert_eq!(kinds, Kind::ALL.len());
    assert_eq!(course.met().len(), Kind::ALL.len());
    assert_eq!(course.at_end().items[0].kind.skill(), Skill::Norths);
    course.rests_between();
}

/// Nothing is known at first; each kind is learnt by being asked, the first level in six times or so.
#[test]
fn who_improves_goes_up() {
    let learns = |days: usize, seed: u64| {
        let asked = std::cell::RefCell::new(BTreeMap::<Kind, i64>::new());
        course(days, 10, move |number, item| {
            let mut asked = asked.borrow_mut();
            let times = asked.entry(item.kind).or_default();
            *times += 1;
            let falls = Dice::new(seed, "learner", number as u64).between(0, 5);
            let known = falls < *times - i64::from(item.level.number());
            (if known { Outcome::Right } else { Outcome::Wrong }, None)
        })
    };
    for seed in 0..5 {
        let share = |course: &Course, from: usize, to: usize| {
            let asked = &course.record.answered()[from..to];
            asked.iter().filter(|it| it.outcome == Outcome::Right).count() as f64
                / asked.len() as f64
        };
        let course = learns(70, seed);
        let met = course.met();
        assert_eq!(met.len(), Kind::ALL.len());
        let last = *met.values().max().unwrap();
        assert!((30..=108).contains(&last), "{seed}: {last}");
        // At first two of three go wrong, at the end hardly any.
        let (first, end) = (share(&course, 0, 50), share(&course, 600, 700));
        assert!(first < 0.4 && end > 0.95, "{seed}: {first} {end}");
        let high = course.at_end().items.iter().filter(|it| it.level == Level::Third).count();
        assert!(high >= 20, "{seed}: {high}");
        course.rests_between();
    }
}

/// One answer in two is right, whatever is asked: all kinds are met, and none is forgotten.
#[test]
fn who_is_right_by_halves_meets_everything() {
    for seed in 0..5 {
        let halves = course(30, 10, |number, _| {
            let right = Dice::new(seed, "halves", number as u64).coin();
            (if right { Outcome::Right } else { Outcome::Wrong }, None)
        });
        let met = halves.met();
        assert_eq!(met.len(), Kind::ALL.len(), "{seed}");
        // Three at once, then one in five at the least.
        assert!(*met.values().max().unwrap() <= 3 + 5 * 19, "{seed}: {met:?}");
        halves.rests_between();
    }
}

/// The order hangs on no last digit: of two kinds that it compares by strength, strengths are alike to the last digit or
/// differ by far more.
#[test]
fn the_order_hangs_on_no_last_digit() {
    let mut compared = 0;
    for seed in 0..20 {
        let course = course(20, 8, |number, _| {
            let falls = Dice::new(seed, "digits", number as u64).below(10);
            let outcome = if falls < 7 { Outcome::Right } else { Outcome::Wrong };
            (outcome, None)
        });
        for day in 0..25 {
            let items = Schedule::of(&course.record, at(day * DAY)).items;
            for pair in items.windows(2).filter(|pair| pair.iter().all(|it| it.due.is_some())) {
                let apart = (pair[0].strength - pair[1].strength).abs();
                assert!(apart == 0.0 || apart > 1e-9, "{seed} {day}: {pair:?}");
                compared += 1;
            }
        }
    }
    assert!(compared > 5_000, "{compared}");
}
