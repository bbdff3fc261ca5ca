//! A question that stands.

use practice::{Answer, Question};

use super::rows::{Part, Row, Rows, piece};
use super::{Page, words_in};
use crate::action::Act;
use crate::state::{Drill, Put, State};

/// The rows that are kept free for a hint, or for why an answer was not understood.
const FREE: usize = 2;

/// The most rows of why an answer was not understood.
const COMPLAINT: usize = 4;

pub(super) fn asked<'a>(state: &'a State, drill: &Drill, put: &'a Put, page: &mut Page<'a>) {
    page.headed_by(drill, put);
    question(&put.question, put.choice, &mut page.body);
    hints(put, &mut page.body);
    if page.foot.airy {
        page.foot.row(Vec::new());
    }
    answer(state, put, &mut page.foot);
}

/// The question with all that is given with it.
pub(super) fn question<'a>(it: &'a Question, lit: Option<usize>, rows: &mut Rows<'a>) {
    rows.words(it.text.as_str(), Part::Plain);
    if let Some(given) = &it.given {
        rows.gap();
        rows.table(&given.head, &given.rows);
    }
    if !it.choices.is_empty() {
        rows.gap();
        rows.choices(it.choices.iter().map(|choice| choice.text.as_str()), lit);
    }
}

/// The hints that were asked for.
fn hints<'a>(put: &'a Put, rows: &mut Rows<'a>) {
    let shown = put.question.hints.iter().take(put.hints);
    for (number, hint) in (1..).zip(shown) {
        rows.gap();
        rows.led(format!("Hint {number}  "), hint.as_str(), Part::Plain);
    }
}

/// What stands before the answer.
const ANSWER: &str = "Answer › ";

/// The line of the answer, and why the last one was none.
fn answer<'a>(state: &'a State, put: &'a Put, rows: &mut Rows<'a>) {
    let draft = put.draft.text();
    let lead = || piece(0, ANSWER, Part::Key);
    match &put.line {
        Some(line) => rows.rows.push(Row { pieces: vec![lead()], line: Some(line) }),
        None if !draft.is_empty() => rows.row(vec![lead(), piece(9, draft, Part::Figure)]),
        None => rows.led(ANSWER, how(state, put), Part::Quiet),
    }
    if let Some(why) = &put.not_understood {
        let mut said = Rows::new(rows.room, false);
        said.words(why.as_str(), Part::Wrong);
        rows.rows.extend(said.rows.into_iter().take(COMPLAINT));
    }
}

/// How the question is answered while its line is closed.
fn how(state: &State, put: &Put) -> String {
    let key = |act: Act| state.keymap.shown(act).unwrap_or_default();
    let (answers, writes) = (key(Act::Answer), key(Act::WriteAnswer));
    match &put.question.answer {
        Answer::Square { .. } => {
            format!("put the cursor on it and press {answers}, or {writes} to write its letter")
        }
        Answer::Place { .. } => {
            format!("put the cursor there and press {answers}, or {writes} to write a reference")
        }
        Answer::Choice(_) => format!("press {answers} and write its letter, or click it"),
        Answer::Letters(_) | Answer::Reference { .. } => format!("press {answers} to write"),
        _ => format!("press {answers}, or begin with a figure"),
    }
}

/// The rows of a question on a small screen, with some to spare: the same before and after hints and answers.
pub(super) fn rows_wanted(state: &State, put: &Put, width: u16) -> usize {
    let mut rows = Rows::new(words_in(width), false);
    question(&put.question, None, &mut rows);
    rows.led(ANSWER, how(state, put), Part::Quiet);
    1 + rows.rows.len() + FREE
}
