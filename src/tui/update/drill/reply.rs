//! Answers: a line that is written, a choice, the cursor's place; marked, or not understood.

use std::sync::Arc;

use chart::Point;
use nav::{Figures, GridPoint};
use practice::{Mark, Question, Reply};

use super::sight;
use crate::action::{Act, Context};
use crate::state::{Hand, Line, Stage, Told};
use crate::update::{cursor, perform};
use crate::{Command, State, Wanted};

/// Answers with the cursor's place where a place is asked for; else opens the line to answer in.
pub(super) fn answer(state: &mut State) -> Vec<Command> {
    let Some(put) = state.practice.asked() else { return Vec::new() };
    if !put.question.asks_for_place() {
        open(state);
        return Vec::new();
    }
    let at = state.cursor;
    let mark = state.practice.mark(&put.question, &Reply::At(at));
    let reply = written(state, at);
    marked(state, reply, Some(at), Some(mark))
}

/// A place as it is written.
fn written(state: &State, at: Point) -> String {
    let on_grid = GridPoint::from_metres(at.x, at.y).ok();
    let reference = on_grid.and_then(|at| state.chart.grid.reference(at, Figures::Six).ok());
    reference.unwrap_or_else(|| format!("{:.0} {:.0}", at.x, at.y))
}

/// Opens the line, with what was written before it was closed.
pub(super) fn open(state: &mut State) {
    if let Some(put) = state.practice.asked_mut()
        && put.line.is_none()
    {
        put.line = Some(std::mem::take(&mut put.draft));
    }
    follow_line(state);
}

/// Closes the line and keeps what is written in it. Whether it was open.
pub(in crate::update) fn close(state: &mut State) -> bool {
    let in_hand = state.context() == Context::Reply;
    let put = state.practice.asked_mut().filter(|_| in_hand);
    let Some((put, line)) = put.and_then(|put| put.line.take().map(|line| (put, line))) else {
        return false;
    };
    put.draft = line;
    put.not_understood = None;
    true
}

/// The line to answer in, while it is open and has the keys.
pub(in crate::update) fn line_mut(state: &mut State) -> Option<&mut Line> {
    if state.context() != Context::Reply {
        return None;
    }
    state.practice.asked_mut()?.line.as_mut()
}

/// Writes in the line, which is opened for it while a question stands on the chart. Whether it is.
pub(in crate::update) fn type_in(state: &mut State, text: &str) -> bool {
    let stands = state.context() == Context::Drill && state.practice.asked().is_some();
    if stands {
        open(state);
        if let Some(line) = line_mut(state) {
            line.insert(text);
        }
        follow_line(state);
    }
    stands
}

/// Lights the choice that is written.
pub(in crate::update) fn follow_line(state: &mut State) {
    let Some(put) = state.practice.asked_mut() else { return };
    put.not_understood = None;
    let text = put.line.as_ref().map(Line::text).unwrap_or_default();
    put.choice = choice(&put.question, &text);
}

fn choice(question: &Question, text: &str) -> Option<usize> {
    let says = |index: usize, choice: &practice::Choice, reply: &Reply| match reply {
        Reply::Choice(said) => *said == index,
        Reply::At(at) => choice.at == Some(*at),
        _ => false,
    };
    let mut choices = question.choices.iter().enumerate();
    let reply = question.read(text).ok()?;
    choices.find(|(index, choice)| says(*index, choice, &reply)).map(|(index, _)| index)
}

/// Marks what is written; says why where it is no answer.
pub(in crate::update) fn mark_line(state: &mut State) -> Vec<Command> {
    let Some(put) = state.practice.asked_mut() else { return Vec::new() };
    let text = put.line.as_ref().map(Line::text).unwrap_or_default();
    let question = Arc::clone(&put.question);
    match question.read(&text) {
        Ok(reply) => {
            let mark = state.practice.mark(&question, &reply);
            marked(state, text.trim().to_owned(), None, Some(mark))
        }
        Err(why) => {
            put.not_understood = Some(why.to_string());
            Vec::new()
        }
    }
}

/// Answers with a choice that was pressed.
pub(in crate::update) fn press_choice(state: &mut State, index: usize) -> Vec<Command> {
    let Some(put) = state.practice.asked_mut() else { return Vec::new() };
    let Some(choice) = put.question.choices.get(index).cloned() else { return Vec::new() };
    put.choice = Some(index);
    let reply = choice.at.map_or(Reply::Choice(index), Reply::At);
    let question = Arc::clone(&put.question);
    let mark = state.practice.mark(&question, &reply);
    marked(state, choice.text, choice.at, Some(mark))
}

/// Puts the cursor on a point that was clicked; clicked where it stands, the point is the answer.
pub(in crate::update) fn click(state: &mut State, point: Point, cell: (u16, u16)) -> Vec<Command> {
    let stands = state.cell_of(state.cursor) == Some(cell);
    let asks = state.practice.asked().is_some_and(|put| put.question.asks_for_place());
    if stands && asks && state.hand == Hand::Drill {
        return perform(state, Act::Answer);
    }
    cursor::put(state, point);
    Vec::new()
}

/// Passes the question over.
pub(super) fn pass_over(state: &mut State) -> Vec<Command> {
    marked(state, String::new(), None, None)
}

/// The question is marked and explained; when that was is asked for, to keep it.
fn marked(state: &mut State, reply: String, at: Option<Point>, mark: Option<Mark>) -> Vec<Command> {
    let Some(drill) = &mut state.practice.drill else { return Vec::new() };
    let Stage::Asked(put) = &mut drill.stage else { return Vec::new() };
    (put.line, put.not_understood) = (None, None);
    drill.stage = Stage::Marked(put.clone(), Told { reply, at, mark, top: 0 });
    sight::bring(state);
    vec![Command::Clock(Wanted::Result)]
}
