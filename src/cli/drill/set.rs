//! A coach's exercise set: run, looked at before it is shared, and a first one to change.

use std::io::{self, Write};
use std::path::Path;
use std::sync::Arc;

use ::chart::coast::Coast;
use clap::Args;
use files::Source;
use practice::set::{FIRST, Set};
use practice::{Ground, Question};

use super::keep::Keeper;
use super::{page, questions, session};
use crate::day::Water;
use crate::output::Output;
use crate::page::paragraph;
use crate::{Exit, Io};

/// Where the first set goes.
///
/// A file of exercises with comments that say what each line means: which chart, which kinds, how many, how near is right, how
/// much time. Change it, look at it with strandline drill --set FILE --answers, and share it.
#[derive(Debug, Args)]
pub(super) struct FirstArgs {
    #[command(flatten)]
    to: Output,
}

pub(super) fn first(args: &FirstArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    args.to.write(FIRST.as_bytes(), io)
}

/// A set with its chart and its questions.
pub(super) struct OfSet {
    pub(super) set: Set,
    /// The checksum of its chart.
    sum: u32,
    pub(super) water: Water,
    pub(super) questions: Vec<Question>,
}

pub(super) fn open(path: &Path, io: &mut Io<'_>) -> anyhow::Result<OfSet> {
    let opened = files::open_set(Source::or_input(path, &mut io.input))?;
    let coast = Arc::new(Coast::of(&opened.chart));
    let questions = opened.set.questions(&Ground::new(&opened.chart, &coast));
    let questions = questions.map_err(|part| opened.lacks(part))?;
    let files::OpenedSet { set, chart, sum, .. } = opened;
    Ok(OfSet { set, sum, water: Water { chart, coast }, questions })
}

impl OfSet {
    pub(super) fn caution(&self) -> &'static str {
        questions::caution(self.water.chart.invented)
    }

    /// What is practised, on which chart, how long, and what the coach says.
    fn head(&self, to: &mut dyn Write) -> io::Result<()> {
        let (count, chart) = (self.questions.len(), &self.water.chart.title);
        let many = if count == 1 { "question" } else { "questions" };
        let mut head = format!("{}: {count} {many} on {chart}", self.set.title);
        if let Some(minutes) = self.set.minutes {
            head += &format!(", {minutes} min");
        }
        if !self.set.hints {
            head += ", no hints";
        }
        paragraph("", &(head + "."), to)?;
        if self.set.words.is_empty() { Ok(()) } else { paragraph("", &self.set.words, to) }
    }
}

/// Says what it is and holds it, from where it was left.
pub(super) fn hold(of: OfSet, keeper: &mut Keeper, io: &mut Io<'_>) -> io::Result<()> {
    of.head(io.output)?;
    let (sitting, word) = keeper.take_up(&of.set, of.sum);
    if let Some(word) = word {
        paragraph("", &word, io.output)?;
    }
    if sitting.is_full() {
        // Left before its end was seen: it is told now, and begins anew the next time.
        keeper.keep_set(&sitting, (&of.water.chart.title, of.sum), io);
    }
    session::hold(sitting, (&of.water, Some(of.sum)), keeper, io)
}

/// Questions and answers on one page, as a coach looks at them before the set is shared.
pub(super) fn paper(of: &OfSet, to: &mut dyn Write) -> io::Result<()> {
    of.head(to)?;
    page::all(&of.questions, to)?;
    paragraph("", of.caution(), to)
}
