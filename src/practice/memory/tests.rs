//! The memory: records that come back as they were, learners that err in one way, and a schedule that knows it.

use jiff::Timestamp;
use rstest::rstest;

use super::*;
use crate::{Kind, Level, MistakeKind, Skill};

mod diagnosis;
mod learners;

const START: i64 = 1_780_000_000;
const DAY: i64 = 86_400;

fn at(seconds: i64) -> Timestamp {
    Timestamp::from_second(START + seconds).unwrap()
}

fn result(kind: Kind, outcome: Outcome, seconds: i64) -> Answered {
    Answered {
        when: at(seconds),
        kind,
        level: Level::First,
        seed: 7,
        chart: "Hollow, \"Sound\"".to_owned(),
        outcome,
        hints: 0,
        off: "12° too far clockwise".to_owned(),
        mistake: None,
        seconds: 31,
        set: String::new(),
        learner: String::new(),
    }
}

fn record(results: impl IntoIterator<Item = Answered>) -> Record {
    let mut record = Record::default();
    assert!(results.into_iter().all(|it| record.keep(it)));
    record
}

#[test]
fn a_record_comes_back_as_it_was() {
    let mut wrong = result(Kind::Back, Outcome::Wrong, 60).after_hints(2);
    wrong.mistake = Some(MistakeKind::QuarterTurn);
    wrong.seed = u64::MAX;
    let passed = result(Kind::Card, Outcome::Passed, -3);
    let kept = record([result(Kind::Reference, Outcome::Right, 0), wrong, passed]);
    let text = write(&kept);
    insta::assert_snapshot!(text);
    assert_eq!(read(&text), Ok(kept));
    assert_eq!(read(""), Ok(Record::default()));
    // Two records put together, with the line endings of another system.
    let twice = format!("{text}{text}").replace('\n', "\r\n");
    assert_eq!(read(&twice).unwrap().answered().len(), 6);
}

#[test]
fn results_of_a_set_are_handed_in_with_a_name() {
    let old = record([result(Kind::Reference, Outcome::Right, 0)]);
    let mut kept = old.clone();
    assert!(kept.keep(result(Kind::Back, Outcome::Wrong, 60).of_set("Week 3, norths")));
    let text = write(&kept);
    insta::assert_snapshot!(text);
    assert_eq!(read(&text), Ok(kept.clone()));
    // The lines of the version before stand among the others as they were.
    let mixed = write(&old) + &text;
    assert_eq!(
        read(&mixed).unwrap().answered()[..2],
        [&old.answered()[0], &kept.answered()[0]].map(Clone::clone)
    );
    let handed = kept.handed_in("Signe", |it| !it.set.is_empty());
    assert_eq!(handed.answered().len(), 1);
    let back = read(&write(&handed)).unwrap();
    assert_eq!(back, handed);
    assert_eq!(
        (&*back.answered()[0].set, &*back.answered()[0].learner),
        ("Week 3, norths", "Signe")
    );
    // Handed on without another name, it keeps the one that it has.
    assert_eq!(back.handed_in("", |_| true), back);
}

#[test]
fn a_class_is_told_by_learner_and_by_question() {
    let answered = |learner: &str, kind, outcome, minute: i64| Answered {
        learner: learner.to_owned(),
        mistake: (outcome == Outcome::Wrong).then_some(MistakeKind::QuarterTurn),
        ..result(kind, outcome, 60 * minute)
    };
    let handed_in = record([
        answered("Tor", Kind::Back, Outcome::Wrong, 1),
        answered("Tor", Kind::Fix, Outcome::Right, 2),
        answered("Signe", Kind::Back, Outcome::Wrong, 1),
        answered("Signe", Kind::Fix, Outcome::Passed, 2),
        answered("Ada", Kind::Back, Outcome::Right, 9),
        // Answered again, and handed in in another order: the first answer counts.
        answered("Ada", Kind::Back, Outcome::Wrong, 3),
        answered("Ada", Kind::Fix, Outcome::Right, 4),
    ]);
    let class = class(&handed_in);
    let learners: Vec<_> =
        class.learners.iter().map(|it| (&*it.name, it.right, it.put, it.seconds)).collect();
    assert_eq!(learners, [("Ada", 1, 2, 62), ("Signe", 0, 2, 62), ("Tor", 1, 2, 62)]);
    let questions: Vec<_> =
        class.questions.iter().map(|it| (it.kind, it.right, it.put, it.mistakes.clone())).collect();
    let turned = vec![(MistakeKind::QuarterTurn, 3)];
    assert_eq!(questions, [(Kind::Back, 0, 3, turned), (Kind::Fix, 2, 3, Vec::new())]);
    assert_eq!(super::class(&Record::default()), Class::default());
}

#[rstest]
#[case("version,when\n", 1, 1, "a record begins with the line version,when,kind")]
#[case("H1,x\n", 2, 1, "this line has 2 cells; a result has 11")]
#[case("H3,2026-06-14T09:30:00Z,back,1,7,A,right,0,,,31\n", 2, 1, "“3” is no version")]
#[case(
    "H2,2026-06-14T09:30:00Z,back,1,7,A,right,0,,,31\n",
    2,
    1,
    "this line has 11 cells; a result has 13"
)]
#[case("H1,noon,back,1,7,A,right,0,,,31\n", 2, 3, "“noon” is no instant")]
#[case("H1,2026-06-14T09:30:00Z,b,1,7,A,right,0,,,31\n", 2, 24, "“b” is no kind of exercise")]
#[case("H1,2026-06-14T09:30:00Z,back,4,7,A,right,0,,,31\n", 2, 29, "“4” is no level")]
#[case("H1,2026-06-14T09:30:00Z,back,1,-7,A,right,0,,,31\n", 2, 31, "“-7” is no seed")]
#[case("H1,2026-06-14T09:30:00Z,back,1,7,\"A, B\",so,0,,,31\n", 2, 40, "“so” is no outcome")]
#[case("H1,2026-06-14T09:30:00Z,back,1,7,\"A,right,0,,,31\n", 2, 33, "this quote is never closed")]
#[case("H1,2026-06-14T09:30:00Z,back,1,7,A,wrong,0,,hm,31\n", 2, 44, "“hm” is no mistake")]
fn what_is_wrong_is_told_with_its_place(
    #[case] text: &str,
    #[case] line: usize,
    #[case] column: usize,
    #[case] said: &str,
) {
    let head = write(&Record::default());
    let error = read(&text.replacen('H', &head, 1)).unwrap_err();
    assert_eq!((error.line, error.column), (line, column), "{error}");
    assert!(error.message.starts_with(said), "{error}");
}

#[test]
fn a_line_without_end_is_no_result() {
    let text = write(&Record::default()) + &"x".repeat(1 << 20);
    assert!(read(&text).unwrap_err().message.contains("longer than 4096 bytes"));
}

/// The scheme's first stabilities (3.1262 and 1.1829 days) in whole days.
#[rstest]
#[case(Outcome::Right, 0, 3)]
#[case(Outcome::Right, 1, 1)]
#[case(Outcome::Wrong, 0, 0)]
#[case(Outcome::Passed, 0, 0)]
fn a_kind_comes_back_after(#[case] outcome: Outcome, #[case] hints: u32, #[case] days: i64) {
    let kept = record([result(Kind::Back, outcome, 0).after_hints(hints)]);
    let schedule = Schedule::of(&kept, at(5));
    assert_eq!(schedule.item(Kind::Back).unwrap().due, Some(at(days * DAY)));
}

/// The intervals that the authors' own test of the scheme prints (rs-fsrs 1.2.1, `test_basic_scheduler_interval`): each answer on the
/// day when it is due, the second and those after a wrong one on the same day.
#[test]
fn intervals_are_the_published_ones() {
    use rs_fsrs::{Parameters, Rating};
    let scheme = Parameters::default();
    let mut memory = schedule::Memory::first(Rating::Good, &scheme);
    let (good, again) = (Rating::Good, Rating::Again);
    let published = [
        (0, good, 4),
        (4, good, 15),
        (15, good, 48),
        (48, good, 136),
        (136, good, 351),
        (351, again, 0),
        (0, again, 0),
        (0, good, 7),
        (7, good, 13),
        (13, good, 24),
        (24, good, 43),
        (43, good, 77),
    ];
    for (days, rating, interval) in published {
        memory = memory.after(f64::from(days), rating, &scheme);
        if rating == good {
            assert_eq!(memory.interval(&scheme), interval);
        }
    }
}

#[test]
fn what_is_known_comes_back_later_and_later() {
    let (mut kept, mut now, mut waits) = (Record::default(), at(0), Vec::new());
    for _ in 0..5 {
        let answered = Answered { when: now, ..result(Kind::Back, Outcome::Right, 0) };
        assert!(kept.keep(answered));
        let due = Schedule::of(&kept, now).item(Kind::Back).unwrap().due.unwrap();
        waits.push(due.duration_since(now).as_secs() / DAY);
        now = due;
    }
    assert!(waits.is_sorted_by(|a, b| a < b), "{waits:?}");
    assert!(waits[0] == 3 && waits[4] > 60, "{waits:?}");
}

#[test]
fn the_weak_kind_comes_first_then_the_new_ones_then_the_rest() {
    let mut results: Vec<Answered> =
        Kind::ALL.iter().take(6).map(|kind| result(*kind, Outcome::Right, 0)).collect();
    results.push(result(Kind::Figures, Outcome::Wrong, 60));
    let kept = record(results);
    let order = |now| Schedule::of(&kept, now).items.iter().map(|it| it.kind).collect::<Vec<_>>();
    let soon = order(at(120));
    assert_eq!(soon[..3], [Kind::Figures, Kind::Bearing, Kind::Back], "{soon:?}");
    // Days later all are due, and the one that went wrong is still the weakest.
    let later = order(at(6 * DAY));
    assert_eq!(later[0], Kind::Figures);
    assert_eq!(later[6], Kind::Bearing, "{later:?}");
    assert_eq!(order(at(120)), soon);
    // It was the last that was asked: something else comes between.
    let schedule = Schedule::of(&kept, at(120));
    assert_eq!(schedule.in_turn()[0].kind, Kind::Bearing);
    assert_eq!(schedule.items[0].since, Some(0));
}

#[test]
fn a_kind_goes_up_as_it_is_known_and_down_as_it_is_not() {
    use Outcome::{Right, Wrong};
    let level = |marks: &[(Outcome, u32, Level)]| {
        let results = (0..).zip(marks).map(|(n, (outcome, hints, level))| Answered {
            level: *level,
            ..result(Kind::Back, *outcome, n * DAY).after_hints(*hints)
        });
        Schedule::of(&record(results), at(90 * DAY)).item(Kind::Back).unwrap().level
    };
    let (one, two) = (Level::First, Level::Second);
    assert_eq!(level(&[(Right, 0, one); 2]), one);
    assert_eq!(level(&[(Right, 0, one); 3]), two);
    // A hint helps, and right answers to easier questions say nothing of the level.
    assert_eq!(level(&[(Right, 1, one); 5]), one);
    assert_eq!(level(&[(Right, 0, one); 9]), two);
    let up = [[(Right, 0, one); 3], [(Right, 0, two); 3]].concat();
    assert_eq!(level(&up), Level::Third);
    let down = [[(Right, 0, one); 3].as_slice(), &[(Wrong, 0, two); 2]].concat();
    assert_eq!(level(&down), one);
}

#[test]
fn a_weakness_heals() {
    let bad = (0..5).map(|n| Answered {
        mistake: Some(MistakeKind::QuarterTurn),
        ..result(Kind::Back, Outcome::Wrong, n)
    });
    let mut kept = record(bad);
    let found = weaknesses(&kept);
    assert_eq!((found.len(), found[0].times, found[0].answered), (1, 5, 5));
    assert_eq!((found[0].skill, found[0].last), (Skill::Bearings, at(4)));
    assert!((5..13).all(|n| kept.keep(result(Kind::Back, Outcome::Right, n))));
    assert_eq!(weaknesses(&kept), []);
}

#[test]
fn progress_is_by_skill_and_week() {
    let zone = jiff::tz::TimeZone::fixed(jiff::tz::offset(2));
    let outcomes = [Outcome::Right, Outcome::Wrong, Outcome::Passed, Outcome::Right];
    let kept = record((0..).zip(outcomes).map(|(n, it)| result(Kind::Back, it, n * 5 * DAY)));
    let gone = progress(&kept, at(18 * DAY), &zone);
    assert_eq!((gone.all.answered, gone.all.right), (4, 2));
    assert_eq!(gone.skills.len(), Skill::ALL.len());
    let (skill, bearings) = &gone.skills[2];
    assert_eq!((*skill, bearings), (Skill::Bearings, &gone.all));
    let weeks: Vec<(String, usize, usize)> =
        bearings.weeks.iter().map(|it| (it.monday.to_string(), it.answered, it.right)).collect();
    // 2026-05-28 was a Thursday.
    assert_eq!(
        weeks,
        [
            ("2026-05-25".to_owned(), 1, 1),
            ("2026-06-01".to_owned(), 2, 0),
            ("2026-06-08".to_owned(), 1, 1)
        ]
    );
    let shares = bearings.shares(gone.monday, 4);
    assert_eq!(shares, [Some(1.0), Some(0.0), Some(1.0), None][..], "{}", gone.monday);
    assert_eq!(bearings.shares(gone.monday, 1), [None]);
    assert_eq!(gone.skills[0].1, Gone::default());
    assert!(bearings.due.unwrap() > at(15 * DAY));
}
