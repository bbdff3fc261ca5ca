//! Sets: read with what is wrong at its place, the same for everybody, and with a coach's tolerance.

use std::fmt::Write;

use insta::assert_snapshot;

use super::near::bounds;
use super::*;
use crate::ask;
use crate::tests::Water;
use crate::{Answer, Reply, Tolerance};

/// A set of these parts.
fn of(parts: &str) -> Set {
    read(&format!("(version: 1, title: \"T\", seed: 3, parts: [{parts}])")).unwrap()
}

#[test]
fn the_first_set_is_one_and_names_every_kind() {
    let set = read(FIRST).unwrap();
    assert_eq!((set.count(), set.minutes, set.hints), (14, Some(40), true));
    let (comments, _): (Vec<&str>, Vec<&str>) =
        FIRST.lines().map(str::trim).partition(|line| line.starts_with("//"));
    let words: Vec<&str> = comments.iter().flat_map(|line| line.split([' ', ',', ';'])).collect();
    for kind in Kind::ALL {
        assert!(words.contains(&kind.name()), "{kind}");
        for (measure, ..) in bounds(*kind) {
            assert!(FIRST.contains(&format!("{}(", measure.name())), "{kind}");
        }
    }
    let water = Water::practice();
    assert_eq!(set.questions(&water.ground()).unwrap().len(), 14);
}

#[test]
fn everything_can_be_said() {
    let text = r#"(version: 1, title: " Week\u{202e} 3 ", words: "By hand.", seed: 18446744073709551615, order: Mixed,
        chart: Made(seed: 7, character: "sea-lochs", size: "12x10", tide: "meso", difficulty: "gentle"),
        sheet: A3, minutes: 25, hints: false, parts: [(kinds: ["time", "leave"], count: 3, tolerance: Minutes(2.5))])"#;
    let set = read(text).unwrap();
    assert_eq!(set.title, "Week\u{fffd} 3");
    let SetChart::Made { seed: 7, wishes } = &set.chart else { panic!("{:?}", set.chart) };
    assert_eq!((wishes.width_km, wishes.height_km, wishes.title.as_ref()), (12, 10, None));
    assert_eq!(
        (set.seed, set.order, set.minutes, set.hints),
        (u64::MAX, Order::Mixed, Some(25), false)
    );
    assert_eq!((set.sheet, read(FIRST).unwrap().sheet), (Some(Sheet::A3), Some(Sheet::A4)));
    assert_eq!(set.parts[0].level, Level::First);
    assert_eq!(set.parts[0].tolerance.unwrap().to_string(), "Minutes(2.5)");
    let beside = read(
        r#"(version: 1, title: "T", chart: File("c/bay.ron"), parts: [(kinds: ["back"], count: 1)])"#,
    );
    assert_eq!(beside.unwrap().chart, SetChart::Beside("c/bay.ron".to_owned()));
}

/// What is wrong with a set, one a line: the whole file, or what stands in it in place of what is right.
const BAD: &[&str] = &[
    "",
    "[]",
    "(version: 1, title: \"T\")",
    "(version: 1, title: \"T\", parts: [",
    "(version: 1, title: \"T\", parts: []) )",
    "(version: 2, title: \"T\", parts: [])",
    "(title: \"T\", parts: [])",
    "(version: 1, title: \"\", parts: [])",
    "(version: 1, title: \"=1+2\", parts: [])",
    "(version: 1, title: \"T\", parts: [])",
    "(version: 1, title: \"T\", title: \"U\", parts: [])",
    "(version: 1, title: \"T\", colour: 3, parts: [])",
    "(version: 1, title: \"T\", minutes: 0, parts: [])",
    "(version: 1, title: \"T\", minutes: 601, parts: [])",
    "(version: 1, title: \"T\", seed: -1, parts: [])",
    "(version: 1, title: \"T\", order: Backwards, parts: [])",
    "(version: 1, title: \"T\", hints: 3, parts: [])",
    "(version: 1, title: \"T\", sheet: A5, parts: [])",
    "(version: 1, title: \"T\", sheet: \"A4\", parts: [])",
    "(version: 1, title: \"T\", chart: \"bay.ron\", parts: [])",
    "(version: 1, title: \"T\", chart: File(\"/etc/passwd\"), parts: [])",
    "(version: 1, title: \"T\", chart: File(\"../bay.ron\"), parts: [])",
    "(version: 1, title: \"T\", chart: File(\"a\u{1b}[2J.ron\"), parts: [])",
    "(version: 1, title: \"T\", chart: Made(character: \"cliffs\"), parts: [])",
    "(version: 1, title: \"T\",\n  chart: Made(seed: 7,\n    character: \"fjord\"), parts: [])",
    "(version: 1, title: \"T\", chart: Made(seed: 7, size: \"5x5\"), parts: [])",
    "(version: 1, title: \"T\", chart: Made(seed: 7, tide: \"9m\"), parts: [])",
    "(version: 1, title: \"T\", chart: Made(seed: 7, difficulty: \"easy\"), parts: [])",
    "(version: 1, title: \"T\", chart: Made(seed: 7, colour: 1), parts: [])",
    "kinds: [], count: 1",
    "kinds: [\"back\", \"bering\"], count: 1",
    "kinds: [\"back\", \"back\"], count: 1",
    "kinds: [\"back\"]",
    "kinds: [\"back\"], count: 0",
    "kinds: [\"back\"], count: 201",
    "kinds: [\"back\"], count: 150), (kinds: [\"time\"], count: 51",
    "kinds: [\"back\"], count: 1.5",
    "kinds: [\"back\"], level: 4, count: 1",
    "kinds: [\"back\"], count: 1, tolerance: 3",
    "kinds: [\"back\"], count: 1, tolerance: Degrees(0)",
    "kinds: [\"back\"], count: 1, tolerance: Degrees(-3)",
    "kinds: [\"back\"], count: 1, tolerance: Degrees(NaN)",
    "kinds: [\"back\"], count: 1, tolerance: Degrees(90)",
    "kinds: [\"back\", \"time\"], count: 1,\n  // A comment.\n  tolerance: Degrees(3)",
    "kinds: [\"back\"], count: 1, tolerance: Yards(3)",
    "kinds: [\"card\"], count: 1, tolerance: Metres(3)",
    "kinds: [\"find\"], count: 1, tolerance: Metres(500)",
    "kinds: [\"fix\"], count: 1, tolerance: Metres(50)",
    "kinds: [\"squares\"], count: 1, tolerance: Metres(50)",
];

#[test]
fn what_is_wrong_is_told_in_one_line_with_its_place() {
    let mut told = String::new();
    for text in BAD {
        let whole = if text.starts_with("kinds") {
            format!("(version: 1, title: \"T\", parts: [\n  ({text}),\n])")
        } else {
            (*text).to_owned()
        };
        let error = read(&whole).unwrap_err();
        assert!(!error.message.contains(['\n', '\u{1b}']), "{error}");
        writeln!(told, "{}\n    {error}", text.replace('\u{1b}', "ESC")).unwrap();
    }
    let long = format!("(version: 1, title: \"{}\", parts: [])", "x".repeat(81));
    writeln!(told, "{}", read(&long).unwrap_err()).unwrap();
    let many = "(kinds: [\"back\"], count: 1),".repeat(51);
    let many = format!("(version: 1, title: \"T\", parts: [{many}])");
    writeln!(told, "{}", read(&many).unwrap_err()).unwrap();
    assert_snapshot!(told);
}

#[test]
fn the_same_set_asks_the_same_and_one_question_is_that_of_all() {
    let water = Water::practice();
    let ground = water.ground();
    let parts = "(kinds: [\"back\", \"reference\", \"card\"], count: 7), (kinds: [\"time\"], level: 3, count: 4)";
    let set = of(parts);
    let all = set.questions(&ground).unwrap();
    assert_eq!(set.questions(&ground).unwrap(), all);
    let one_by_one = (0..).map_while(|number| set.question(&ground, number));
    assert_eq!(one_by_one.collect::<Vec<_>>(), all);
    assert_eq!(all.len(), 11);
    assert!(all[..7].iter().all(|it| it.kind != Kind::Time && it.level == Level::First));
    assert!(all[7..].iter().all(|it| it.kind == Kind::Time && it.level == Level::Third));
    // Shuffled, they are the same questions in another order.
    let mixed = Set { order: Order::Mixed, ..set.clone() };
    let mut shuffled = mixed.questions(&ground).unwrap();
    assert_ne!(shuffled, all);
    let place = |it: &Question| all.iter().position(|other| other == it);
    shuffled.sort_by_key(place);
    assert_eq!(shuffled, all);
    // No question comes twice, in whatever parts, while there are others.
    let again = of(&"(kinds: [\"reference\"], count: 3),".repeat(4));
    let all_references = again.questions(&ground).unwrap();
    let mut texts: Vec<&str> = all_references.iter().map(|it| &*it.text).collect();
    texts.sort_unstable();
    texts.dedup();
    assert_eq!(texts.len(), 12);
    // A chart has so many marks and no more.
    let many = of("(kinds: [\"reference\"], count: 200)").questions(&ground);
    assert_eq!(many.unwrap().len(), 200);
    assert_ne!(Set { seed: 4, ..set.clone() }.questions(&ground).unwrap(), all);
    let silent = Set { hints: false, ..set };
    assert!(silent.questions(&ground).unwrap().iter().all(|it| it.hints.is_empty()));
}

/// As asked when this was written: a change would change every set ever shared.
#[test]
fn sets_keep_their_questions() {
    let water = Water::practice();
    let set = Set { order: Order::Mixed, sheet: None, ..read(FIRST).unwrap() };
    let told = set.questions(&water.ground()).unwrap();
    let told = told.iter().map(|it| format!("{}: {} = {}\n", it.kind, it.text, it.answer));
    assert_snapshot!(told.collect::<String>());
}

#[test]
fn a_part_that_a_chart_has_not_is_named() {
    let text = r#"(version: 1, title: "Bare", invented: true, grid: Named("UTM:25N"),
        extent: (south_west: (500000, 5200000), north_east: (501000, 5201000)), shore: Here([]))"#;
    let Ok(chart::format::ChartFile::Whole(chart)) = chart::format::read(text) else { panic!() };
    let coast = chart::coast::Coast::of(&chart);
    let ground = Ground::new(&chart, &coast);
    let set = of("(kinds: [\"time\"], count: 2), (kinds: [\"reference\", \"fix\"], count: 2)");
    assert_eq!(set.questions(&ground), Err(1));
    assert_eq!(set.question(&ground, 0), None);
    // Of several kinds those are asked that the chart has.
    let set = of("(kinds: [\"reference\", \"time\"], count: 5)");
    assert_eq!(set.questions(&ground).unwrap().len(), 5);
}

#[test]
fn a_set_is_marked_by_its_coach_and_thrown_from_its_seed() {
    let water = Water::practice();
    let ground = water.ground();
    let asked = |parts: &str| of(parts).questions(&ground).unwrap();
    let own = asked("(kinds: [\"back\"], count: 4)");
    let wide = asked("(kinds: [\"back\"], count: 4, tolerance: Degrees(9))");
    for (own, wide) in own.iter().zip(&wide) {
        let Answer::Bearing { degrees, .. } = own.answer else { panic!("{}", own.answer) };
        let off = Reply::Bearing { degrees: (degrees + 8.5).rem_euclid(360.0), north: None };
        assert_eq!((own.mark_reply(&off).right, wide.mark_reply(&off).right), (false, true));
        assert_eq!((wide.tolerance, wide.basis), (Tolerance::Degrees(9.0), BY_COACH));
    }
    let other = Set { seed: 4, ..of("(kinds: [\"back\"], count: 4)") };
    assert_ne!(other.questions(&ground).unwrap(), own);
}

/// What a tolerance allows and what not, by the least and the greatest of every measure of every kind, at every level.
#[test]
fn a_coachs_tolerance_marks_and_no_mistake_is_within_it() {
    let water = Water::practice();
    let ground = water.ground();
    let (mut asked, mut told) = (0, 0);
    for kind in Kind::ALL {
        for (measure, least, most) in bounds(*kind) {
            for amount in [*least, *most] {
                for (number, level) in (0..60).zip(Level::ALL.into_iter().cycle()) {
                    let near = Near::new(*measure, amount, &[*kind]).unwrap();
                    let own = ask(*kind, &ground, seed_of(9, number), level).unwrap();
                    let wanted = near.of(&own.answer).unwrap();
                    let question = own.clone().with_tolerance(wanted, BY_COACH);
                    assert_eq!(question.tolerance, wanted, "{kind} {near}");
                    holds(&question);
                    asked += 1;
                    told += question.mistakes.len();
                    // Back again it is the question that it was.
                    let back = question.with_tolerance(own.tolerance, own.basis);
                    assert_eq!(back.mistakes, own.mistakes, "{kind} {near}");
                }
            }
        }
    }
    assert!(asked > 3_000 && told > asked, "{asked} {told}");
}

fn holds(question: &Question) {
    let about = || format!("{} {:?} {question:#?}", question.kind, question.tolerance);
    assert!(question.mark_reply(&question.answer.reply()).right, "{}", about());
    assert!(question.mark(&question.answer.to_string()).unwrap().right, "{}", about());
    for mistake in &question.mistakes {
        let mark = question.mark_reply(&mistake.answer.reply());
        assert!(!mark.right && mark.mistake.is_some(), "{mistake:?} {}", about());
    }
    // Just within is right, just beyond is not.
    let (Some(within), Some(beyond)) = (beside(question, 0.98), beside(question, 1.02)) else {
        return;
    };
    assert!(question.mark_reply(&within).right, "{within:?} {}", about());
    assert!(!question.mark_reply(&beyond).right, "{beyond:?} {}", about());
}

/// A reply that is so many tolerances off; nothing where it is not one number, or whole numbers alone are answers.
fn beside(question: &Question, times: f64) -> Option<Reply> {
    let off = match question.tolerance {
        Tolerance::Degrees(by) | Tolerance::Units(by) | Tolerance::Metres(by) => by * times,
        Tolerance::Share(share) => share * times,
        _ => return None,
    };
    Some(match &question.answer {
        Answer::Bearing { degrees, .. } => {
            Reply::Bearing { degrees: (degrees + off).rem_euclid(360.0), north: None }
        }
        Answer::Amount { value, .. } if matches!(question.tolerance, Tolerance::Share(_)) => {
            Reply::Amount(value * (1.0 + off))
        }
        Answer::Amount { value, .. } => Reply::Amount(value + off),
        Answer::Place { at, .. } => Reply::At(chart::Point { x: at.x + off, y: at.y }),
        _ => return None,
    })
}

#[test]
fn a_timed_set_says_what_came_after_the_time() {
    use crate::memory::{Answered, Outcome};
    let water = Water::practice();
    let set = Set { minutes: Some(2), ..of("(kinds: [\"back\"], count: 3)") };
    let question = set.question(&water.ground(), 0).unwrap();
    let answered = |outcome, seconds| Answered {
        outcome,
        ..Answered::new(
            &question,
            "",
            None,
            jiff::Timestamp::UNIX_EPOCH,
            jiff::SignedDuration::from_secs(seconds),
        )
    };
    use Outcome::{Passed, Right, Wrong};
    let told = |all: &[(Outcome, i64)]| {
        let all: Vec<Answered> = all.iter().map(|it| answered(it.0, it.1)).collect();
        Clocked::of(&set, &all).unwrap().told()
    };
    assert_eq!(told(&[(Right, 60), (Wrong, 60)]), "It took 2:00 of 2 min.");
    assert_eq!(
        told(&[(Right, 60), (Wrong, 61)]),
        "It took 2:01 min, and 2 min are allowed. 1 answer came after the time; it was not right."
    );
    let late = told(&[(Right, 100), (Wrong, 60), (Right, 60), (Passed, 10)]);
    assert!(late.ends_with("2 answers came after the time, 1 of them right."), "{late}");
    assert_eq!(
        told(&[(Right, 100), (Passed, 60)]),
        "It took 2:40 min, and 2 min are allowed. No answer came after the time."
    );
    assert_eq!(Clocked::of(&Set { minutes: None, ..set.clone() }, &[]), None);
}

#[test]
fn no_tolerance_makes_two_choices_right() {
    let water = Water::practice();
    let ground = water.ground();
    for kind in [Kind::Find, Kind::Card] {
        for seed in 0..200 {
            let own = ask(kind, &ground, seed, Level::First).unwrap();
            for metres in [10.0, 300.0, 3_000.0, 30_000.0] {
                let question = own.clone().with_tolerance(Tolerance::Metres(metres), BY_COACH);
                let right = |choice: &&crate::Choice| question.mark(&choice.text).unwrap().right;
                assert_eq!(question.choices.iter().filter(right).count(), 1, "{metres} {own:#?}");
            }
        }
    }
}

#[test]
fn a_set_is_written_without_its_comments_and_read_as_the_same() {
    let all = Kind::ALL.iter().map(|kind| format!("\"{kind}\"")).collect::<Vec<_>>().join(", ");
    let near = |near: &str| format!("kinds: [\"fix\"], count: 1, tolerance: {near}");
    let odd = "Metres(123.45678901234567)";
    let whole = r#"(version: 1, title: "A \"b\" \\ ö ́", words: "x\u{1b}\n", order: Mixed, sheet: A4, hints: false, minutes: 9,
        seed: 18446744073709551615, chart: CHART, parts: [(PART)])"#;
    for chart in [
        "BuiltIn",
        "File(\"a b/ö'.ron\")",
        "Made(seed: 18446744073709551615, size: \"12x10\", tide: \"3.07m\", character: \"cliffs\", difficulty: \"hard\")",
    ] {
        for part in
            [near("Kilometres(0.1)"), near(odd), format!("kinds: [{all}], level: 3, count: 7")]
        {
            let set = read(&whole.replace("CHART", chart).replace("PART", &part)).unwrap();
            assert_eq!(read(&write(&set)), Ok(set.clone()), "{}", write(&set));
            let plain =
                Set { sheet: None, minutes: None, hints: true, order: Order::AsWritten, ..set };
            assert_eq!(read(&write(&plain)), Ok(plain));
        }
    }
    // The longest that there is.
    let letter = "\u{1f6f6}";
    let part = format!("(kinds: [{all}], level: 3, count: 4),");
    let long = format!(
        "(version: 1, title: \"A{}\", words: \"{}\", chart: File(\"{}\"), parts: [{}])",
        letter.repeat(79),
        letter.repeat(400),
        letter.repeat(400),
        part.repeat(50)
    );
    let set = read(&long).unwrap();
    assert_eq!(read(&write(&set)), Ok(set.clone()));
    assert!(write(&set).len() <= 32 << 10, "{}", write(&set).len());
}

#[test]
fn a_set_for_a_sheet_lies_on_the_part_that_it_shows() {
    let water = Water::practice();
    let ground = water.ground();
    let parts = "(kinds: [\"reference\", \"bearing\", \"squares\"], level: 2, count: 9), (kinds: [\"back\"], count: 3)";
    let whole = of(parts);
    let set = Set { sheet: Some(Sheet::A4), ..whole.clone() };
    let asked = set.questions(&ground).unwrap();
    assert_eq!(asked.len(), 12);
    assert_ne!(asked, whole.questions(&ground).unwrap());
    let one_by_one = (0..).map_while(|number| set.question(&ground, number));
    assert_eq!(one_by_one.collect::<Vec<_>>(), asked);
    let points = asked.iter().flat_map(|it| &it.shown).filter_map(|shown| match shown {
        crate::Shown::Point { at, .. } => Some(*at),
        _ => None,
    });
    let (mut low, mut high) = (ground.chart.extent.max(), ground.chart.extent.min());
    for at in points {
        (low.x, low.y) = (low.x.min(at.x), low.y.min(at.y));
        (high.x, high.y) = (high.x.max(at.x), high.y.max(at.y));
    }
    let size = (high.x - low.x, high.y - low.y);
    assert!(size.0.min(size.1) <= 8_000.0 && size.0.max(size.1) <= 12_300.0, "{size:?}");
}
