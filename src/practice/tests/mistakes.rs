//! Every mistake made: which kinds of exercise name which mistakes, and how often in two hundred questions.

use std::collections::BTreeMap;
use std::fmt::Write;

use super::Water;
use crate::{Kind, Level, MistakeKind, Question, ask, seed_of};

/// How many questions of each kind are looked at.
const QUESTIONS: u64 = 200;

/// The mistakes that a question names when they are made: each answer that one leads to is typed as it is written. Of a card,
/// whose answer is a leg, the one that its steps explain.
fn named(question: &Question) -> Vec<MistakeKind> {
    let made = question.mistakes.iter().filter_map(|it| {
        let mark = question.mark(&it.answer.to_string()).ok()?;
        // The middle of a place's square may be near enough where the place itself is not.
        let named = mark.mistake.filter(|kind| *kind == it.kind && !mark.right)?;
        assert!(mark.said.iter().any(|said| said == named.advice()), "{mark:?}");
        Some(named)
    });
    let mut found: Vec<MistakeKind> = made.collect();
    if question.kind == Kind::Card {
        let explained = |kind: &&MistakeKind| question.steps[0].ends_with(&format!(": {kind}."));
        found.extend(MistakeKind::ALL.iter().find(explained));
    }
    found.sort();
    found.dedup();
    found
}

fn counted() -> BTreeMap<(Kind, MistakeKind), usize> {
    let water = Water::practice();
    let ground = water.ground();
    let mut counts = BTreeMap::new();
    for &kind in Kind::ALL {
        for number in 0..QUESTIONS {
            let level = Level::ALL[(number % 3) as usize];
            let question = ask(kind, &ground, seed_of(9, number), level).unwrap();
            for mistake in named(&question) {
                *counts.entry((kind, mistake)).or_default() += 1;
            }
        }
    }
    counts
}

/// What each kind names, the order that of [`MistakeKind::ALL`].
const NAMED: &str = "
reference: easting-northing-swapped, rounded, north-east-corner, tenths, next-square, figures-too-few, figures-too-many
find: easting-northing-swapped, rounded, north-east-corner, tenths, next-square
figures: easting-northing-swapped, rounded, north-east-corner, tenths, next-square, figures-too-few, figures-too-many
letters: rounded, neighbour-letters, row-for-column
latlon: latlon-swapped, minutes-for-decimals, wrong-hemisphere, minute
bearing-eye: back-for-bearing, anticlockwise, from-east, quarter-turn
bearing: back-for-bearing, anticlockwise, from-east, quarter-turn
back: bearing-for-back, anticlockwise, quarter-turn
to-magnetic: back-for-bearing, variation-wrong-way, convergence-wrong-way, grid-for-true, true-for-magnetic, grid-for-magnetic
to-grid: back-for-bearing, variation-wrong-way, convergence-wrong-way, true-for-grid, magnetic-for-true, magnetic-for-grid
distance-eye: kilometres-for-miles, miles-for-kilometres
squares: kilometres-for-miles, miles-for-kilometres, wrong-scale, sides-added, longer-side
shore: miles-for-kilometres, wrong-scale, straight-for-shore, other-way-round
time: kilometres-for-miles, miles-for-kilometres, minutes-for-tenths, multiplied, rests-forgotten
distance: kilometres-for-miles, miles-for-kilometres, minutes-for-tenths, multiplied
twelfths: ebb-for-flood, wrong-hour, height-below, low-water-forgotten, even-rise, zone
rate: wrong-hour, springs-for-neaps, neaps-for-springs, greatest-for-hour, thirds
heading: back-for-bearing, variation-wrong-way, true-for-magnetic, stream-added, stream-left-out
fix: variation-wrong-way, magnetic-for-true, marks-swapped
where: back-for-bearing, variation-wrong-way, magnetic-for-true, kilometres-for-miles, minutes-for-tenths, stream-left-out, stream-reversed, whole-hour
leave: minutes-for-tenths, stream-reversed, speed-for-ground-speed, zone, stop-forgotten, forward-for-back
card: back-for-bearing, quarter-turn, variation-wrong-way, true-for-magnetic, kilometres-for-miles, minutes-for-tenths, zone
";

/// A table, printed with how many of its questions can show each mistake; none is lost from it, and none of all is missing.
#[test]
#[allow(clippy::print_stdout, reason = "a table to read, which a test shows when it is asked to")]
fn every_mistake_is_named_when_it_is_made() {
    let counts = counted();
    let mut table = "\n".to_owned();
    for &kind in Kind::ALL {
        let of_kind: Vec<_> = counts.iter().filter(|((of, _), _)| *of == kind).collect();
        let keys: Vec<&str> = of_kind.iter().map(|((_, mistake), _)| mistake.key()).collect();
        writeln!(table, "{kind}: {}", keys.join(", ")).unwrap();
        for ((_, mistake), count) in of_kind {
            println!("{kind:<12} {:<26} {count:>3} of {QUESTIONS}", mistake.key());
        }
    }
    assert_eq!(table, NAMED);
    let made = |kind: &&MistakeKind| !counts.keys().any(|(_, mistake)| mistake == *kind);
    let missing: Vec<&MistakeKind> = MistakeKind::ALL.iter().filter(made).collect();
    assert_eq!(missing, Vec::<&MistakeKind>::new());
}
