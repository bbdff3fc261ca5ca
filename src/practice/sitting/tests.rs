//! Sittings held, left and taken up again.

use chart::Chart;
use chart::coast::Coast;
use jiff::{SignedDuration, Timestamp};
use proptest::prelude::*;

use super::*;

/// A chart without anything on it: what needs no chart is asked all the same.
fn bare() -> Chart {
    let empty = Chart { land: Vec::new(), landings: Vec::new(), ..chart::practice().unwrap() };
    Chart { marks: Vec::new(), hazards: Vec::new(), places: Vec::new(), ..empty }
}

fn at(minute: i64) -> Timestamp {
    Timestamp::from_second(1_780_000_000 + 60 * minute).unwrap()
}

/// Answers as the number says: rightly, with a hint, not at all, or with the first of the usual mistakes.
fn answered(question: &Question, number: usize) -> Answered {
    let given = match number % 4 {
        0 | 1 => Some(question.answer.clone()),
        2 => None,
        _ => question.mistakes.first().map(|mistake| mistake.answer.clone()),
    };
    let mark = given.map(|answer| question.mark_reply(&answer.reply()));
    let (when, took) = (at(number as i64), SignedDuration::from_secs(30));
    let answered = Answered::new(question, "Hollow Sound", mark.as_ref(), when, took);
    answered.after_hints(u32::from(number % 4 == 1))
}

/// Goes on with a sitting for so many questions: what was asked, and everything that was ever answered.
fn hold(
    sitting: &mut Sitting,
    record: &mut Record,
    ground: &Ground<'_>,
    count: usize,
) -> Vec<Question> {
    let mut asked = Vec::new();
    while asked.len() < count {
        let number = sitting.answered().len();
        let Some(question) = sitting.next(record, ground, at(number as i64)) else { break };
        assert!(record.keep(sitting.note(answered(&question, number))));
        asked.push(question);
    }
    asked
}

fn plans() -> Vec<Plan> {
    let kinds = |kinds: &[Kind], count| Plan::Kinds {
        kinds: kinds.to_vec(),
        level: Level::Second,
        seed: 12,
        count,
    };
    vec![
        Plan::Due(Long::Questions(12)),
        Plan::Due(Long::Minutes(10)),
        kinds(&[Kind::Back], 12),
        kinds(Kind::ALL, 30),
        Plan::Set(crate::set::read(crate::set::FIRST).unwrap()),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// However often it is left, it has the questions that it would have had.
    #[test]
    fn a_sitting_that_was_left_goes_on_where_it_was(
        plan in proptest::sample::select(plans()),
        goes in proptest::collection::vec(0usize..5, 1..5),
        on_bare in any::<bool>(),
    ) {
        let chart = if on_bare { bare() } else { chart::practice().unwrap() };
        let coast = Coast::of(&chart);
        let ground = Ground::new(&chart, &coast);
        let all: usize = goes.iter().sum();
        let (mut sitting, mut record) = (Sitting::new(plan.clone()), Record::default());
        let whole = hold(&mut sitting, &mut record, &ground, all);
        let (mut again, mut kept) = (Sitting::new(plan.clone()), Record::default());
        let mut asked = Vec::new();
        for go in goes {
            asked.extend(hold(&mut again, &mut kept, &ground, go));
            again = Sitting::again(plan.clone(), again.answered().to_vec());
        }
        prop_assert_eq!(asked, whole);
        prop_assert_eq!(again, sitting);
        prop_assert_eq!(kept, record);
    }
}

#[test]
fn a_series_has_its_questions_and_no_more() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let ground = Ground::new(&chart, &coast);
    for plan in plans() {
        let mut sitting = Sitting::new(plan.clone());
        let rest = sitting.rest(&ground);
        let count = sitting.count();
        let asked = hold(&mut sitting, &mut Record::default(), &ground, 40);
        if !matches!(plan, Plan::Due(_)) {
            assert_eq!(rest, asked);
            assert_eq!(Some(asked.len()), count);
            assert!(sitting.is_full() && sitting.rest(&ground).is_empty());
        }
    }
}

/// The kinds that a chart has not are left out of a series, and it is as long as it was to be.
#[test]
fn what_a_chart_has_not_is_left_out() {
    let chart = bare();
    let coast = Coast::of(&chart);
    let ground = Ground::new(&chart, &coast);
    let of = |kinds: &[Kind]| {
        Sitting::new(Plan::Kinds { kinds: kinds.to_vec(), level: Level::First, seed: 3, count: 8 })
    };
    let mut sitting = of(&[Kind::Reference, Kind::Back, Kind::AlongShore]);
    let asked = hold(&mut sitting, &mut Record::default(), &ground, 20);
    assert_eq!(asked.len(), 8);
    assert!(asked.iter().all(|it| it.kind == Kind::Back));
    assert_eq!(of(&[Kind::Reference]).next(&Record::default(), &ground, at(0)), None);
}

/// None is asked twice while there are others, put one by one or all at once; where there are none, they come again.
#[test]
fn no_question_of_a_series_is_asked_twice() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let ground = Ground::new(&chart, &coast);
    let mut would_come_twice = 0;
    for &kind in Kind::ALL {
        for seed in 0..6 {
            let (kinds, level, count) = (vec![kind], Level::First, 12);
            let plan = Plan::Kinds { kinds, level, seed, count };
            let thrown = (0..count as u64)
                .filter_map(|number| ask(kind, &ground, seed_of(seed, number), level))
                .map(|it| it.text);
            let thrown: HashSet<String> = thrown.collect();
            let asked = Sitting::new(plan).rest(&ground);
            let different: HashSet<&str> = asked.iter().map(|it| it.text.as_str()).collect();
            assert_eq!(asked.len(), count, "{kind}");
            assert!(different.len() >= thrown.len(), "{kind} {seed}");
            // Those that come again come behind all others.
            let mut before = HashSet::new();
            let is_new: Vec<bool> = asked.iter().map(|it| before.insert(&it.text)).collect();
            assert!(is_new.is_sorted_by(|a, b| a >= b), "{kind} {seed}: {is_new:?}");
            would_come_twice += usize::from(thrown.len() < count && different.len() == count);
        }
    }
    assert!(would_come_twice > 0);
}

#[test]
fn the_tally_counts_what_came_of_each() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let ground = Ground::new(&chart, &coast);
    let plan = Plan::Kinds { kinds: vec![Kind::Back], level: Level::First, seed: 3, count: 8 };
    let mut sitting = Sitting::new(plan);
    assert_eq!(sitting.tally(), Tally::default());
    hold(&mut sitting, &mut Record::default(), &ground, 8);
    let tally = sitting.tally();
    assert_eq!((tally.put, tally.right, tally.passed, tally.answered()), (8, 4, 2, 6));
    assert_eq!(tally.mistakes.values().sum::<usize>(), 2);
}

#[test]
fn what_belongs_to_a_set_is_named_by_it() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let ground = Ground::new(&chart, &coast);
    let set = crate::set::read(crate::set::FIRST).unwrap();
    let mut sitting = Sitting::new(Plan::Set(set.clone()));
    let mut record = Record::default();
    hold(&mut sitting, &mut record, &ground, 1);
    assert_eq!(record.answered()[0].set, set.title);
    // It goes on after its time.
    assert_eq!(sitting.minutes(), None);
    assert_eq!(sitting.clocked().map(|clocked| clocked.allowed), set.minutes);
    assert_eq!(Sitting::new(Plan::Due(Long::Minutes(7))).minutes(), Some(7));
}
