//! A session by the schedule: what is due, the weakest first, until the time is up.

use std::io;
use std::time::{Duration, Instant};

use jiff::Timestamp;
use practice::memory::{Record, Schedule};
use practice::{Ground, Question, ask, seed_of};

use super::keep::Keeper;
use super::session::{Put, Tally, how, put};
use super::{page, questions};
use crate::Io;
use crate::day::Water;
use crate::page::paragraph;

/// Asks what is due until the minutes are over or, if a count is given, so many questions are answered. A question that is
/// left is the first the next time, since it follows from the record.
pub(super) fn hold(
    water: &Water,
    minutes: u16,
    count: Option<u16>,
    keeper: &mut Keeper,
    io: &mut Io<'_>,
) -> io::Result<()> {
    let until = Instant::now() + Duration::from_secs(60 * u64::from(minutes));
    let count = count.map(usize::from);
    let title = &water.chart.title;
    let long = count.map_or_else(|| format!("{minutes} min"), |count| format!("{count} questions"));
    paragraph("", &format!("Practice: what is due, {long}, on {title}."), io.output)?;
    how(io)?;
    let ground = Ground::new(&water.chart, &water.coast);
    let (mut tally, mut asked) = (Tally::default(), 0);
    while count.map_or_else(|| Instant::now() < until, |count| asked < count) {
        let Some(question) = next(&keeper.record, &ground, Timestamp::now()) else { break };
        page::question(asked + 1, count, &question, io.output)?;
        match put(&question, title, keeper, io)? {
            Put::Marked(mark) => tally.note(&mark),
            Put::Passed => {}
            Put::Ended | Put::Nobody => break,
        }
        asked += 1;
    }
    writeln!(io.output)?;
    tally.told(asked, keeper, io.output)?;
    paragraph("", questions::caution(water.chart.invented), io.output)
}

/// The question that comes next: of the first kind by the schedule that the chart has.
pub(super) fn next(record: &Record, ground: &Ground<'_>, now: Timestamp) -> Option<Question> {
    let seed = seed_of(0, record.answered().len() as u64);
    let schedule = Schedule::of(record, now);
    schedule.in_turn().into_iter().find_map(|item| ask(item.kind, ground, seed, item.level))
}
