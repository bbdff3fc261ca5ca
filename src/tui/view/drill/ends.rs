//! Before a question stands, and when there is no other.

use practice::memory::weaknesses;
use practice::{MistakeKind, Tally};

use super::Page;
use super::rows::{Part, Rows};
use crate::action::Act;
use crate::state::{Drill, State};

pub(super) fn throwing(drill: &Drill, page: &mut Page<'_>) {
    let next = drill.sitting.answered().len() + 1;
    page.headed("Practice".to_owned(), format!("question {next}"));
    page.head.gap();
    page.body.words("A question is being thrown.", Part::Quiet);
}

pub(super) fn nothing(page: &mut Page<'_>) {
    page.headed("Practice".to_owned(), "no question".to_owned());
    page.head.gap();
    page.body.words(
        "This chart has not what it takes for any such question. Take another kind, or another chart.",
        Part::Warn,
    );
}

/// How it went, and what can be done next.
pub(super) fn over<'a>(state: &'a State, drill: &Drill, page: &mut Page<'a>) {
    page.headed("Practice".to_owned(), "over".to_owned());
    page.head.gap();
    let (tally, rows) = (drill.sitting.tally(), &mut page.body);
    rows.words(sum(&tally), Part::Figure);
    if let Some(clocked) = drill.sitting.clocked() {
        rows.words(clocked.told(), Part::Plain);
    }
    if !tally.mistakes.is_empty() {
        rows.heading("To look at again");
        for (mistake, times) in &tally.mistakes {
            again(*mistake, *times, rows);
        }
    }
    recurs(state, drill, rows);
    rows.gap();
    rows.words(next(state), Part::Plain);
    rows.gap();
    rows.words(caution(state), Part::Warn);
}

/// `8 of 10 right, 1 passed over.`
fn sum(tally: &Tally) -> String {
    let passed = match tally.passed {
        0 => String::new(),
        passed => format!(", {passed} passed over"),
    };
    match tally.put {
        0 => "No question was answered.".to_owned(),
        put => format!("{} of {put} right{passed}.", tally.right),
    }
}

fn again<'a>(mistake: MistakeKind, times: usize, rows: &mut Rows<'a>) {
    let times = if times == 1 { String::new() } else { format!(", {times} times") };
    rows.led("· ", format!("{mistake}{times}"), Part::Figure);
    rows.led("  ", mistake.advice(), Part::Plain);
}

/// The mistakes that recur in what was practised.
fn recurs(state: &State, drill: &Drill, rows: &mut Rows<'_>) {
    let Some(record) = &state.practice.record else { return };
    let practised = |skill| drill.sitting.answered().iter().any(|it| it.kind.skill() == skill);
    let mut recurring = weaknesses(record);
    recurring.retain(|it| practised(it.skill));
    if recurring.is_empty() {
        return;
    }
    rows.heading("It recurs");
    for it in recurring {
        let often = format!("{} of the last {}", it.times, it.answered);
        rows.led("· ", format!("{}: {}, in {often}", it.skill, it.mistake), Part::Plain);
    }
}

/// What can be done now.
fn next(state: &State) -> String {
    let key = |act: Act| state.keymap.shown(act).unwrap_or_default();
    let (next, progress, back) = (key(Act::NextQuestion), key(Act::Progress), key(Act::Back));
    format!(
        "{next} chooses what comes next, {progress} shows how practice has gone, {back} goes back to the chart."
    )
}

/// What everything that is said of practice ends with.
fn caution(state: &State) -> &'static str {
    match state.chart.invented {
        true => "For practice, not for navigation. The chart is invented: no such place exists.",
        false => "For practice, not for navigation.",
    }
}
