//! What came of a question: the verdict, the mistake by its name, and how the answer is got.

use std::borrow::Cow;

use practice::{Question, Shown};

use super::Page;
use super::given::{given, words};
use super::put;
use super::rows::{Part, Rows};
use crate::draw::Whose;
use crate::glyphs::DotSet;
use crate::state::{Drill, Put, Told};

pub(super) fn marked<'a>(
    dots: DotSet,
    drill: &Drill,
    put: &'a Put,
    told: &'a Told,
    page: &mut Page<'a>,
) {
    page.headed_by(drill, put);
    let (it, rows) = (&*put.question, &mut page.body);
    verdict(it, told, rows);
    rows.gap();
    answers(it, told, dots, rows);
    steps(it, rows);
    near(it, rows);
    rows.heading("The question");
    put::question(it, None, rows);
}

/// Whether it is right, which mistake it looks like, and what is right.
fn verdict<'a>(it: &'a Question, told: &'a Told, rows: &mut Rows<'a>) {
    let Some(mark) = &told.mark else {
        return rows.words("Passed over.", Part::Warn);
    };
    // The right answer stands below, beside the reader's.
    let right = format!("It is {}.", it.told());
    let mut said = mark.said.iter().filter(|said| **said != right);
    let verdict = if mark.right { Part::Right } else { Part::Wrong };
    if let Some(first) = said.next() {
        rows.words(first.as_str(), verdict);
    }
    for sentence in said {
        rows.words(sentence.as_str(), Part::Plain);
    }
}

/// What was answered beside what is right, each with the signs by which it is found on the chart, if it is there.
fn answers<'a>(it: &'a Question, told: &'a Told, dots: DotSet, rows: &mut Rows<'a>) {
    let lead = |whose, word: &str, drawn: &[Shown]| {
        Cow::Owned(format!("{} {word}  ", sign(whose, drawn, dots)))
    };
    if told.mark.is_some() {
        let lead = lead(Whose::Yours, "yours", &given(it, told));
        rows.led_by((lead, Part::Yours), words(it, told), Part::Figure);
    }
    let lead = lead(Whose::Answer, "right", &it.drawn);
    rows.led_by((lead, Part::Answer), it.told(), Part::Figure);
}

/// What an answer is found by on the chart: its sign, or where it has none its double line; blank where it is not drawn.
fn sign(whose: Whose, drawn: &[Shown], dots: DotSet) -> String {
    let has_point = drawn.iter().any(|it| matches!(it, Shown::Point { .. }));
    let (left, right) = whose.brackets();
    match whose {
        _ if drawn.is_empty() => "   ".to_owned(),
        Whose::Answer if !has_point && dots == DotSet::Ascii => "===".to_owned(),
        Whose::Answer if !has_point => "═══".to_owned(),
        _ => format!("{left}{}{right}", whose.sign(dots)),
    }
}

/// How the answer is got.
fn steps<'a>(it: &'a Question, rows: &mut Rows<'a>) {
    if it.steps.is_empty() {
        return;
    }
    rows.heading("How it is got");
    for (number, step) in (1..).zip(&it.steps) {
        rows.led(format!("{number} "), step.as_str(), Part::Plain);
    }
}

/// How near is near enough, and who says so.
fn near<'a>(it: &'a Question, rows: &mut Rows<'a>) {
    rows.gap();
    let near = it.how_near().map_or("The answer itself".to_owned(), |near| format!("Right {near}"));
    rows.words(format!("{near}: {}.", it.basis), Part::Quiet);
}
