//! The record of what was answered, all of it or what is handed in.

use anyhow::bail;
use clap::Args;
use files::Folders;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use practice::memory::{self, Answered, Record};

use super::progress::opened;
use crate::output::{Format, Output};
use crate::when::Day;
use crate::{Exit, Io};

/// What of the record is wanted, and where it goes.
///
/// A line for each question: when, kind, level, seed, chart, outcome, hints, how far off, mistake, seconds; of exercise sets
/// also the set's title, and the learner where --learner names one. To hand in a set: --set TITLE --learner NAME. The lines of
/// several learners can stand in one file, one after the other; strandline drill class reads them.
#[derive(Debug, Args)]
pub(super) struct ExportArgs {
    /// The answers of the exercise set of this title alone
    #[arg(long, value_name = "TITLE")]
    set: Option<String>,
    /// The answers from this day on alone
    #[arg(long, value_name = "DATE")]
    since: Option<Day>,
    /// Name the learner in each line
    #[arg(long, value_name = "NAME", value_parser = learner)]
    learner: Option<String>,
    #[command(flatten)]
    to: Output,
}

/// A name as it may stand in a table: it begins with a letter, so that no spreadsheet takes it for a formula.
fn learner(text: &str) -> Result<String, String> {
    let name = chart::clean::clean(text, chart::clean::NAME);
    match name.starts_with(char::is_alphabetic) {
        true => Ok(name),
        false => Err("write a name that begins with a letter".to_owned()),
    }
}

pub(super) fn run(
    args: &ExportArgs,
    folders: Option<&Folders>,
    io: &mut Io<'_>,
) -> anyhow::Result<Exit> {
    args.to.format(&[Format::Csv], io)?;
    let record = opened(folders)?;
    let wanted = args.wanted(&record)?;
    args.to.write(memory::write(&wanted).as_bytes(), io)
}

impl ExportArgs {
    fn wanted(&self, record: &Record) -> anyhow::Result<Record> {
        let midnight = |day: Day| TimeZone::system().to_timestamp(day.0.at(0, 0, 0, 0));
        let from = self.since.map(midnight).transpose()?.unwrap_or(Timestamp::MIN);
        let learner = self.learner.as_deref().unwrap_or_default();
        Ok(of_set(record, self.set.as_deref())?.handed_in(learner, |it| it.when >= from))
    }
}

/// The answers of the exercise set of this title alone; all of them where none is named.
///
/// # Errors
/// Where there is none of that set: which sets there are.
pub(super) fn of_set(record: &Record, title: Option<&str>) -> anyhow::Result<Record> {
    let wanted = |it: &Answered| title.is_none_or(|title| *title == it.set);
    match title {
        Some(title) if !record.answered().iter().any(wanted) => bail!("{}", no_such(title, record)),
        _ => Ok(record.handed_in("", wanted)),
    }
}

/// That there is no such set in the record, and which there are.
fn no_such(title: &str, record: &Record) -> String {
    let mut titles: Vec<&str> = record.answered().iter().map(|it| &*it.set).collect();
    titles.retain(|title| !title.is_empty());
    titles.sort_unstable();
    titles.dedup();
    let there = match &titles[..] {
        [] => "nothing of any set".to_owned(),
        some => some.iter().map(|title| format!("“{title}”")).collect::<Vec<_>>().join(", "),
    };
    format!("nothing is answered of a set “{title}”; there is {there}")
}
