//! What is drawn in cells of text: everything at every width, and each drawing as it looks.

use super::*;
use crate::tests::Water;
use crate::{Answer, Ground, Kind, Level, ask, seed_of};

const KINDS: [Kind; 6] =
    [Kind::Letters, Kind::Time, Kind::Distance, Kind::Twelfths, Kind::Rate, Kind::Leave];

fn text(rows: &[Vec<Piece>]) -> Vec<String> {
    rows.iter().map(|row| row.iter().map(|piece| piece.text.as_str()).collect()).collect()
}

fn questions<'a>(ground: &'a Ground<'_>, kind: Kind) -> impl Iterator<Item = Question> + 'a {
    (0..30).filter_map(move |seed| {
        ask(kind, ground, seed_of(6, seed), Level::ALL[(seed % 3) as usize])
    })
}

fn count(rows: &[Vec<Piece>], sign: char) -> usize {
    text(rows).concat().chars().filter(|c| *c == sign).count()
}

/// At every width the right answer is there once, and what was given once beside it; nothing is wider than there is room.
#[test]
fn right_and_given_are_there_at_every_width() {
    let water = Water::practice();
    let ground = water.ground();
    let mut drawn = 0;
    for question in KINDS.into_iter().flat_map(|kind| questions(&ground, kind)) {
        for room in [24, 31, 36, 43, 60, 90] {
            let about =
                |rows: &[Vec<Piece>]| format!("{}\n{}", question.text, text(rows).join("\n"));
            let rows = question.figure(None, room, false);
            assert_eq!((count(&rows, '◎'), count(&rows, '⊗')), (1, 0), "{}", about(&rows));
            for mistake in &question.mistakes {
                let given = mistake.answer.reply();
                let rows = question.figure(Some(&given), room, false);
                assert_eq!((count(&rows, '◎'), count(&rows, '⊗')), (1, 1), "{}", about(&rows));
                let wide = text(&rows).iter().any(|row| row.chars().count() > room.min(MOST));
                assert!(!wide, "{room} {}", about(&rows));
                let plain = question.figure(Some(&given), room, true);
                assert!(text(&plain).iter().all(|row| row.is_ascii()), "{}", about(&plain));
                let same = |one: &[Vec<Piece>]| {
                    text(one).iter().map(|row| row.chars().count()).collect::<Vec<_>>()
                };
                assert_eq!(same(&plain), same(&rows));
                drawn += 1;
            }
        }
        assert!(question.figure(None, 23, false).is_empty());
    }
    assert!(drawn > 2000, "{drawn}");
}

#[test]
fn what_the_chart_shows_has_no_figure() {
    let water = Water::practice();
    let ground = water.ground();
    for &kind in Kind::ALL {
        let has = questions(&ground, kind).all(|question| question.has_figure());
        assert_eq!(has, KINDS.contains(&kind), "{kind}");
    }
}

/// The columns counted: half a row is a twelfth of the range, and a tenth of the greatest rate.
#[test]
fn steps_are_as_high_as_the_rule_has_them() {
    let water = Water::practice();
    let ground = water.ground();
    for kind in [Kind::Twelfths, Kind::Rate] {
        for question in questions(&ground, kind) {
            let Some(Figure::Steps(steps)) = question.figures.last() else { panic!() };
            let halves: Vec<i64> = steps.columns.iter().map(|column| column.halves).collect();
            let Answer::Amount { value, .. } = question.answer else { panic!() };
            let right = steps.base + halves[steps.at] as f64 * steps.half;
            assert!((right - value).abs() < 0.0501, "{right} {question:#?}");
            let mut rising = halves.clone();
            rising.sort_unstable();
            match kind {
                Kind::Rate => assert_eq!(halves, [5, 9, 10, 9, 5]),
                _ => assert_eq!(rising, [0, 1, 3, 6, 9, 11, 12]),
            }
            let drawn = text(&question.figure(None, 60, false));
            let filled = drawn.concat().chars().filter(|c| *c == '█').count();
            let half = drawn.concat().chars().filter(|c| *c == '▄').count();
            // Five cells to a row of a column, one of which the sign may cover.
            let whole: i64 = halves.iter().map(|halves| halves / 2).sum();
            let odd = halves.iter().filter(|halves| *halves % 2 == 1).count();
            let covered = 5 * (whole as usize + odd) - filled - half;
            assert!(covered <= 1, "{}", drawn.join("\n"));
        }
    }
}

/// Earlier lies to the left of later, and less before more.
#[test]
fn what_was_given_lies_on_its_side() {
    let water = Water::practice();
    let ground = water.ground();
    let mut seen = 0;
    for kind in [Kind::Time, Kind::Distance, Kind::Leave] {
        for question in questions(&ground, kind) {
            for mistake in &question.mistakes {
                let less = match (&question.answer, &mistake.answer) {
                    (Answer::Amount { value, .. }, Answer::Amount { value: other, .. }) => {
                        other < value
                    }
                    (Answer::Clock(right), Answer::Clock(other)) => {
                        (right - other).rem_euclid(24 * 60) < 12 * 60
                    }
                    _ => panic!(),
                };
                let rows = text(&question.figure(Some(&mistake.answer.reply()), 60, false));
                let column =
                    |sign| rows.iter().find_map(|row| row.chars().position(|c| c == sign)).unwrap();
                let (right, given) = (column('◎'), column('⊗'));
                assert!(if less { given <= right } else { given >= right }, "{}", rows.join("\n"));
                seen += 1;
            }
        }
    }
    assert!(seen > 150, "{seen}");
}

fn shown(kind: Kind, seed: u64, level: Level, room: usize, given: usize) -> String {
    let water = Water::practice();
    let question = ask(kind, &water.ground(), seed_of(6, seed), level).unwrap();
    let given = question.mistakes[given].answer.clone();
    let rows = text(&question.figure(Some(&given.reply()), room, false));
    format!("{}\n{given}\n\n{}\n", question.text, rows.join("\n"))
}

/// Read by eye.
#[test]
fn each_as_it_looks() {
    let all: String = [
        shown(Kind::Letters, 1, Level::First, 37, 0),
        shown(Kind::Letters, 2, Level::Third, 36, 1),
        shown(Kind::Time, 3, Level::First, 43, 0),
        shown(Kind::Time, 4, Level::Third, 60, 0),
        shown(Kind::Distance, 5, Level::Second, 43, 0),
        shown(Kind::Distance, 6, Level::Third, 36, 1),
        shown(Kind::Twelfths, 7, Level::First, 37, 0),
        shown(Kind::Twelfths, 8, Level::Third, 43, 1),
        shown(Kind::Rate, 9, Level::First, 36, 0),
        shown(Kind::Rate, 10, Level::Third, 43, 1),
        shown(Kind::Leave, 11, Level::First, 36, 0),
        shown(Kind::Leave, 12, Level::Third, 60, 1),
    ]
    .join("\n----\n\n");
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path(concat!(env!("CARGO_MANIFEST_DIR"), "/../../snapshots"));
    settings.set_prepend_module_to_snapshot(false);
    settings.bind(|| insta::assert_snapshot!("practice-figures", all));
}
