//! What came of a question: the verdict, the mistake by its name, and how the answer is got.

use practice::Question;

use super::Page;
use super::given::{ANSWER, YOURS};
use super::put;
use super::rows::{Part, Rows};
use crate::state::{Drill, Put, Told};

pub(super) fn marked<'a>(drill: &Drill, put: &'a Put, told: &'a Told, page: &mut Page<'a>) {
    page.headed_by(drill, put);
    page.top = told.top;
    let (it, rows) = (&*put.question, &mut page.body);
    verdict(it, told, rows);
    rows.gap();
    answers(it, told, rows);
    steps(it, rows);
    near(it, rows);
    rows.heading("The question");
    put::question(it, None, rows);
}

/// Whether it is right, which mistake it looks like, and what is right.
fn verdict<'a>(it: &'a Question, told: &'a Told, rows: &mut Rows<'a>) {
    let Some(mark) = &told.mark else {
        rows.words("Passed over.", Part::Warn);
        rows.words(format!("It is {}.", it.told()), Part::Figure);
        return;
    };
    let mut said = mark.said.iter();
    let verdict = if mark.right { Part::Right } else { Part::Wrong };
    if let Some(first) = said.next() {
        rows.words(first.as_str(), verdict);
    }
    for sentence in said {
        rows.words(sentence.as_str(), Part::Plain);
    }
}

/// What was answered beside what is right, each with the sign by which it is found on the chart.
fn answers<'a>(it: &'a Question, told: &'a Told, rows: &mut Rows<'a>) {
    if told.mark.is_some() {
        let said = match told.reply.as_str() {
            "" => "where the cursor was",
            reply => reply,
        };
        rows.led(format!("{YOURS} yours   "), said, Part::Figure);
    }
    let near = it.how_near().map_or(String::new(), |near| format!(", {near}"));
    rows.led(format!("{ANSWER} right   "), format!("{}{near}", it.told()), Part::Figure);
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
    rows.heading("Near enough");
    let near = it.how_near().unwrap_or_else(|| "the answer itself".to_owned());
    rows.words(format!("{near}: {}.", it.basis), Part::Quiet);
}
