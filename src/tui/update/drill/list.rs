//! The list of what can be practised.

use jiff::Timestamp;
use jiff::tz::TimeZone;
use practice::memory::{self, Item, Record, Schedule};
use practice::{Kind, Long, Plan, seed_of};

use crate::state::{DrillChoice, DrillList, DrillRow, Overlay};
use crate::{Command, State, Wanted};

/// How many questions of one kind are asked on end.
const OF_A_KIND: usize = 5;
/// How long a sitting of what is due is.
const MINUTES: u16 = 10;
const QUESTIONS: usize = 10;

/// Opens it.
pub(super) fn open(state: &mut State, now: Timestamp) {
    let list = DrillList { row: 0, rows: rows(state, now) };
    // From the page of progress one goes to a new list, not to one on top of it.
    state.overlays.retain(|open| !matches!(open, Overlay::Drills(_) | Overlay::Progress(_)));
    state.overlays.push(Overlay::Drills(list));
}

/// Does what the chosen row does.
pub(in crate::update) fn take(state: &mut State, list: DrillList) -> Vec<Command> {
    let Some(row) = list.rows.get(list.row) else { return Vec::new() };
    match row.does.clone() {
        DrillChoice::GoOn => vec![Command::Clock(Wanted::TakenUp)],
        DrillChoice::Begin(plan) => vec![Command::Clock(Wanted::Sitting(plan))],
        DrillChoice::Progress => {
            // It lies on top, so that one comes back to the list.
            state.overlays.push(Overlay::Drills(list));
            vec![Command::Clock(Wanted::Progress)]
        }
    }
}

fn rows(state: &State, now: Timestamp) -> Vec<DrillRow> {
    let none = Record::default();
    let record = state.practice.record.as_deref().unwrap_or(&none);
    let schedule = Schedule::of(record, now);
    let laid_down = state.practice.drill.as_ref().filter(|drill| !drill.is_ended());
    let begun = laid_down.map(|drill| DrillRow {
        words: format!("Go on: {}", what(drill.sitting.plan())),
        note: drill.place(),
        does: DrillChoice::GoOn,
    });
    let due = schedule.items.iter().filter(|it| it.due.is_some_and(|due| due <= now)).count();
    let of_due = |long: Long| DrillRow {
        words: capital(&what(&Plan::Due(long))),
        note: match due {
            0 => String::new(),
            1 => "1 kind due".to_owned(),
            due => format!("{due} kinds due"),
        },
        does: DrillChoice::Begin(Plan::Due(long)),
    };
    let progress = DrillRow {
        words: "How it has gone".to_owned(),
        note: String::new(),
        does: DrillChoice::Progress,
    };
    let dues = [of_due(Long::Minutes(MINUTES)), of_due(Long::Questions(QUESTIONS)), progress];
    // From where the record stands, so that the questions are others once some are answered.
    let seed = seed_of(1, record.answered().len() as u64);
    let kinds = Kind::ALL.iter().map(|kind| of_kind(*kind, &schedule, seed, now, &state.zone));
    begun.into_iter().chain(dues).chain(kinds).collect()
}

fn of_kind(
    kind: Kind,
    schedule: &Schedule,
    seed: u64,
    now: Timestamp,
    zone: &TimeZone,
) -> DrillRow {
    let item = schedule.item(kind);
    let level = item.map_or_else(Default::default, |item| item.level);
    let plan = Plan::Kinds { kinds: vec![kind], level, seed, count: OF_A_KIND };
    DrillRow {
        words: capital(kind.what()),
        note: item.map_or_else(String::new, |item| note(item, now, zone)),
        does: DrillChoice::Begin(plan),
    }
}

/// Its level, and when it comes back.
fn note(item: &Item, now: Timestamp, zone: &TimeZone) -> String {
    let level = item.level.number();
    match item.due {
        None => "new".to_owned(),
        Some(_) if item.weak => format!("level {level}, a mistake recurs"),
        Some(due) => format!("level {level}, due {}", memory::due(due, now, zone)),
    }
}

/// What is practised, in a few words.
pub(super) fn what(plan: &Plan) -> String {
    match plan {
        Plan::Due(Long::Minutes(minutes)) => format!("{minutes} minutes of what is due"),
        Plan::Due(Long::Questions(count)) => format!("{count} questions of what is due"),
        Plan::Kinds { kinds, .. } => match kinds.as_slice() {
            [kind] => kind.what().to_owned(),
            _ => "several kinds".to_owned(),
        },
        Plan::Set(set) => set.title.clone(),
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
