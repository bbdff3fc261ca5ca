//! Practice: a thousand questions of all kinds, and of each kind; answers marked.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench")]

use std::sync::LazyLock;

use chart::Chart;
use chart::coast::Coast;
use divan::Bencher;
use practice::{Ground, Kind, Level, Question, ask, kind_of, seed_of};

fn main() {
    divan::main();
}

static CHART: LazyLock<(Chart, Coast)> = LazyLock::new(|| {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    (chart, coast)
});

fn questions(kinds: &[Kind], level: Level) -> Vec<Question> {
    let ground = Ground::new(&CHART.0, &CHART.1);
    let one =
        |number: usize| ask(kind_of(kinds, 7, number)?, &ground, seed_of(7, number as u64), level);
    (0..1000).filter_map(one).collect()
}

/// All kinds by turns, the ground made ready for them as well: under 100 ms is asked for.
#[divan::bench(args = [1, 2, 3])]
fn a_thousand_of_all_kinds(bencher: Bencher<'_, '_>, level: u8) {
    LazyLock::force(&CHART);
    let level = Level::from_number(level).unwrap();
    bencher.bench(|| questions(Kind::ALL, level));
}

#[divan::bench(args = Kind::ALL)]
fn a_thousand_of(bencher: Bencher<'_, '_>, kind: &Kind) {
    LazyLock::force(&CHART);
    bencher.bench(|| questions(&[*kind], Level::Second));
}

#[divan::bench]
fn a_thousand_answers_marked(bencher: Bencher<'_, '_>) {
    let questions = questions(Kind::ALL, Level::Second);
    let answers: Vec<String> = questions.iter().map(|it| it.answer.to_string()).collect();
    bencher.bench(|| {
        questions.iter().zip(&answers).filter(|(it, answer)| it.mark(answer).unwrap().right).count()
    });
}
