//! A sitting: begun, its questions thrown one after another, laid down and taken up.

use std::sync::Arc;

use jiff::{SignedDuration, Timestamp};
use practice::memory::Answered;
use practice::set::Changed;
use practice::{Ground, Plan, Question, Sitting, ask};

use super::list::what;
use super::sight;
use crate::action::Act;
use crate::job::{Outcome, Task};
use crate::state::{Again, Drill, Hand, Line, Put, Stage};
use crate::update::route;
use crate::{Command, State, Wanted};

/// Begins one, in the place of one that was laid down.
pub(super) fn begin(state: &mut State, plan: Plan, now: Timestamp) -> Vec<Command> {
    let chart_changed = std::mem::take(&mut state.practice.chart_changed);
    let before = state.practice.drill.as_ref().filter(|drill| !drill.is_ended());
    let before = before.and_then(|before| ends(before, &plan, chart_changed));
    let words = match &plan {
        Plan::Set(set) if !set.words.is_empty() => Some(set.words.clone()),
        _ => None,
    };
    let said: Vec<String> = before.into_iter().chain(words).collect();
    if !said.is_empty() {
        state.say(said.join(" "));
    }
    let sitting = Sitting::new(plan);
    let until = sitting.minutes().map(|minutes| {
        let long = SignedDuration::from_mins(i64::from(minutes));
        now.saturating_add(long).unwrap_or(now)
    });
    let stage = Stage::Throwing;
    let begun = Drill { sitting, until, laid_down: None, again: None, stage, top: 0 };
    state.practice.drill = Some(begun);
    take_in_hand(state);
    throw(state, now)
}

/// What is said of one that was begun and ends, since another begins.
fn ends(before: &Drill, next: &Plan, chart_changed: bool) -> Option<String> {
    match (before.sitting.plan(), next) {
        (Plan::Set(old), Plan::Set(new)) if old.title == new.title => {
            let changed = if chart_changed { Changed::Chart } else { Changed::Set };
            Some(changed.told(&new.title, &before.place()))
        }
        _ => {
            let tally = before.sitting.tally();
            let said = format!("ended before: {} of {} right", tally.right, tally.put);
            (tally.put > 0).then_some(said)
        }
    }
}

/// The hand is the question's: what another carried goes back to where it was.
fn take_in_hand(state: &mut State) {
    while state.hand != Hand::Look && state.hand != Hand::Drill && route::lay_down(state) {}
    state.hand = Hand::Drill;
    state.chosen = None;
    state.moment.playing = false;
}

/// Goes on to the next question; ends what is over.
pub(super) fn next(state: &mut State) -> Vec<Command> {
    let Some(drill) = &mut state.practice.drill else { return Vec::new() };
    match drill.stage {
        Stage::Marked(..) => vec![Command::Clock(Wanted::Question)],
        Stage::Over | Stage::Nothing => {
            let mut commands = lay_down(state);
            commands.extend(super::told_of(state, Wanted::Drills));
            commands
        }
        Stage::Throwing | Stage::Asked(_) => Vec::new(),
    }
}

/// Has the next question thrown, unless the sitting is over.
pub(super) fn throw(state: &mut State, now: Timestamp) -> Vec<Command> {
    let Some(drill) = &mut state.practice.drill else { return Vec::new() };
    let time_is_up = drill.until.is_some_and(|until| until <= now);
    if drill.again.is_none() && (drill.sitting.is_full() || time_is_up) {
        drill.stage = Stage::Over;
        return vec![Command::KeepSession];
    }
    drill.stage = Stage::Throwing;
    let (sitting, again) = (drill.sitting.clone(), drill.again.clone());
    let record = state.practice.record.clone().unwrap_or_default();
    let (chart, shores) = (Arc::clone(&state.chart), Arc::clone(&state.shores));
    let job = state.work.ask(Task::Question, move |_| {
        let ground = Ground::new(&chart, shores.full());
        // What is due hangs on the instant; all else comes again as it stood, a set's question with all that its coach wants.
        let of_due = matches!(sitting.plan(), Plan::Due(_));
        let again = again.filter(|_| of_due);
        let again = again.and_then(|it| ask(it.kind, &ground, it.seed, it.level));
        let question = again.or_else(|| sitting.next(&record, &ground, now));
        Some(Outcome::Question(question.map(Arc::new), now))
    });
    vec![Command::Compute(job)]
}

/// Puts the question that was thrown.
pub(in crate::update) fn thrown(
    state: &mut State,
    question: Option<Arc<Question>>,
    since: Timestamp,
) -> Vec<Command> {
    let Some(drill) = &mut state.practice.drill else { return Vec::new() };
    let put = drill.sitting.tally().put;
    let again = drill.again.take();
    drill.stage = match question {
        Some(question) => Stage::Asked(as_put(question, put + 1, again, since)),
        None if put == 0 => Stage::Nothing,
        None => Stage::Over,
    };
    if state.hand == Hand::Drill {
        sight::bring(state);
    }
    vec![Command::KeepSession]
}

/// A question as it is put, with what was done about it if it stood before.
fn as_put(question: Arc<Question>, number: usize, again: Option<Again>, since: Timestamp) -> Put {
    let same = again.filter(|it| {
        (it.kind, it.level, it.seed) == (question.kind, question.level, question.seed)
    });
    let hints = same.as_ref().map_or(0, |it| it.hints.min(question.hints.len()));
    let draft = same.map_or_else(Line::default, |it| Line::new(&it.draft));
    let (choice, line, not_understood) = (None, None, None);
    Put { question, number, since, hints, choice, line, draft, not_understood, top: 0 }
}

/// Notes what came of the question that was marked.
pub(super) fn note(state: &mut State, now: Timestamp) -> Vec<Command> {
    let Some(drill) = &mut state.practice.drill else { return Vec::new() };
    let Stage::Marked(put, told) = &drill.stage else { return Vec::new() };
    let took = now.duration_since(put.since);
    let (question, title) = (&put.question, &state.chart.title);
    let answered = Answered::new(question, title, told.mark.as_ref(), now, took);
    let answered = answered.after_hints(u32::try_from(put.hints).unwrap_or(u32::MAX));
    let answered = drill.sitting.note(answered);
    let record = state.practice.record.get_or_insert_default();
    // A full record ends the keeping, not the practice.
    let _ = Arc::make_mut(record).keep(answered.clone());
    vec![Command::KeepResult(answered), Command::KeepSession]
}

/// Lays the sitting down, to be gone on with; one that is over is ended.
pub(in crate::update) fn lay_down(state: &mut State) -> Vec<Command> {
    state.hand = Hand::Look;
    match &state.practice.drill {
        Some(drill) if !drill.is_ended() => vec![Command::Clock(Wanted::LaidDown)],
        _ => {
            state.practice.drill = None;
            vec![Command::KeepSession]
        }
    }
}

/// Notes when it was laid down, and says so.
pub(super) fn laid_down(state: &mut State, now: Timestamp) -> Vec<Command> {
    let Some(drill) = &mut state.practice.drill else { return Vec::new() };
    drill.laid_down = Some(now);
    let (what, place) = (what(drill.sitting.plan()), drill.place());
    let key = state.keymap.shown(Act::DrillList).unwrap_or_default();
    state.say(format!("laid down: {what}, {place}; {key} goes on with it"));
    vec![Command::KeepSession]
}

/// Takes it up where it was laid down.
pub(super) fn take_up(state: &mut State, now: Timestamp) -> Vec<Command> {
    let Some(drill) = &mut state.practice.drill else { return Vec::new() };
    let away =
        drill.laid_down.take().map_or(SignedDuration::ZERO, |since| now.duration_since(since));
    let later = |at: Timestamp| at.saturating_add(away).unwrap_or(at);
    drill.until = drill.until.map(later);
    if let Stage::Asked(put) = &mut drill.stage {
        put.since = later(put.since);
    }
    let stands = drill.stage != Stage::Throwing;
    take_in_hand(state);
    if stands || state.work.does(Task::Question) {
        sight::bring(state);
        return Vec::new();
    }
    throw(state, now)
}
