//! Questions with a line to answer in: what is asked, how the answer is understood, what it changes.

use plan::{Edit, Limit};

use super::{answer, fix, passage, route};
use crate::action::Act;
use crate::state::{Answer, Ask, Change, Line, Overlay, Question};
use crate::{Command, State};

pub(super) fn open(state: &mut State, act: Act) {
    let point = state.aimed_point();
    let question = match (act, point) {
        (Act::Rename, Some(index)) => Question::Name(index),
        (Act::Stop, Some(index)) => Question::Stop(index),
        (Act::Pace, _) => Question::Pace,
        (Act::Departure, _) => Question::Departure,
        (Act::Variation, _) => Question::Variation,
        (Act::Title, _) => Question::Title,
        (Act::Wind, _) => Question::Wind,
        (Act::StandOff, _) => Question::StandOff,
        (Act::Smoothing, _) => Question::Smoothing,
        (Act::TakeBearing, _) => Question::Bearing,
        (Act::BearingError, _) => Question::BearingError,
        _ => return,
    };
    put(state, question);
}

/// Asks for one of the limits.
pub(super) fn open_limit(state: &mut State, limit: Limit) {
    put(state, Question::Limit(limit));
}

fn put(state: &mut State, question: Question) {
    let mut asked =
        Ask { question, line: Line::new(&now(state, question)), answer: Err(String::new()) };
    asked.answer = understand(state, &asked);
    state.overlays.push(Overlay::Ask(asked));
}

/// What the answer is now, as it would be written.
fn now(state: &State, question: Question) -> String {
    let route = state.document.route();
    match question {
        Question::Name(index) => {
            route.points.get(index).map_or_else(String::new, |it| it.name.clone())
        }
        Question::Stop(index) => {
            route.points.get(index).map_or_else(String::new, |it| it.stop.as_mins().to_string())
        }
        Question::Pace => route.pace.to_string(),
        Question::Departure => answer::departure_text(route.departure.as_ref()),
        Question::Variation => answer::variation_text(&route.variation),
        Question::Title => route.title.clone(),
        Question::Wind => passage::wind_text(route.wind),
        Question::Limit(limit) => route.limits.written(limit),
        Question::StandOff => answer::length_text(state.thread.set().stand_off),
        Question::Smoothing => answer::length_text(state.thread.set().step),
        Question::Bearing => fix::bearing_text(state),
        Question::BearingError => state.bearings.error.as_degrees().to_string(),
    }
}

/// How the answer so far is understood, or what is wrong with it.
pub(super) fn understand(state: &State, asked: &Ask) -> Result<Answer, String> {
    let text = asked.line.text();
    let text = text.trim();
    match asked.question {
        Question::Name(index) => {
            let words = if text.is_empty() { "without a name" } else { text }.to_owned();
            Ok(Answer { change: Edit::Rename { index, name: text.to_owned() }.into(), words })
        }
        Question::Title => {
            let words = if text.is_empty() { "without a title" } else { text }.to_owned();
            Ok(Answer { change: Edit::SetTitle(text.to_owned()).into(), words })
        }
        Question::Wind => passage::wind(text),
        Question::Limit(limit) => passage::limit(text, limit, state),
        Question::Stop(index) => answer::stop(text, index),
        Question::Pace => answer::pace(text, state),
        Question::Departure => answer::departure(text, state),
        Question::Variation => answer::variation(text, state),
        Question::StandOff => answer::stand_off(text),
        Question::Smoothing => answer::smoothing(text),
        Question::Bearing => fix::bearing(text, state),
        Question::BearingError => fix::error(text),
    }
}

/// Makes the change that the answer asks for; stays open on one that is not understood.
pub(super) fn accept(state: &mut State, asked: Ask) -> Vec<Command> {
    match asked.answer.clone() {
        Ok(Answer { change: Change::Route(edit), .. }) => {
            let commands = route::edit(state, edit);
            if commands.is_empty() {
                state.overlays.push(Overlay::Ask(asked));
            }
            commands
        }
        Ok(Answer { change: Change::StandOff(stand_off), .. }) => {
            state.thread.change(|set| set.stand_off = stand_off);
            Vec::new()
        }
        Ok(Answer { change: Change::Smoothing(step), .. }) => {
            state.thread.change(|set| set.step = step);
            Vec::new()
        }
        Ok(Answer { change: Change::Bearing(read), .. }) => fix::take(state, read),
        Ok(Answer { change: Change::BearingError(error), .. }) => fix::may_be_off(state, error),
        Err(wrong) => {
            state.refuse(wrong);
            state.overlays.push(Overlay::Ask(asked));
            Vec::new()
        }
    }
}
