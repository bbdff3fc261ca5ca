//! Practise: questions on a chart, marked, with the mistake named.

mod class;
mod exam;
mod export;
mod json;
mod keep;
mod page;
mod progress;
mod questions;
mod session;
mod set;
#[cfg(test)]
mod tests;

use std::path::PathBuf;

use ::chart::practice as practice_chart;
use clap::{ArgGroup, Args, Subcommand};
use files::Folders;
use practice::{Kind, Level, Long, Plan, Sitting};

use crate::day::Water;
use crate::{Exit, Io};
use keep::Keeper;
use questions::Drill;

/// Practise: questions on a chart, marked, with the mistake named.
///
/// Asks a question, reads the answer from standard input, a line each, and says whether it is right, how far off it is, which
/// mistake it looks like, and how the answer is got. An empty line passes the question over, ? gives a hint, q ends. Without a
/// kind, ten minutes of what is due: what goes wrong comes back at once, what is known later and harder. Of a kind, the same
/// chart, level and seed give the same questions on every machine. What was answered is kept on this machine.
#[derive(Debug, Args)]
#[command(
    args_conflicts_with_subcommands = true,
    group(ArgGroup::new("asked").args(["kind", "set"]))
)]
pub struct DrillArgs {
    #[command(subcommand)]
    other: Option<Other>,
    /// The kind of exercise, as --list names it; mixed for all of them; what is due if none is given
    #[arg(value_parser = kinds)]
    kind: Option<Kinds>,
    /// A coach's exercise set, with its chart, its questions and its time; - for standard input
    #[arg(long, value_name = "FILE", conflicts_with_all = ["chart", "seed", "count", "minutes", "level"])]
    set: Option<PathBuf>,
    /// List the kinds of exercise
    #[arg(long)]
    list: bool,
    /// The chart; the built-in practice chart if none is given
    #[arg(long, value_name = "FILE")]
    chart: Option<PathBuf>,
    /// What the questions are thrown from; a new one each time if none is given
    #[arg(long, value_name = "N", requires = "kind")]
    seed: Option<u64>,
    /// How many questions: five if nothing is said, without a kind as many as there is time for
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1000))]
    count: Option<u16>,
    /// How many minutes; the last question may end after them
    #[arg(
        long, value_name = "N", default_value_t = 10, conflicts_with_all = ["kind", "count"],
        value_parser = clap::value_parser!(u16).range(1..=240)
    )]
    minutes: u16,
    /// How hard: 1 to 3
    #[arg(long, value_name = "LEVEL", default_value = "1", requires = "kind")]
    level: Level,
    /// Keep no record of it
    #[arg(long)]
    no_record: bool,
    /// Ask nothing: print the questions, and the answers after them
    #[arg(long, requires = "asked")]
    answers: bool,
    /// Print JSON: the questions, and the answers apart; asks nothing
    #[arg(long, conflicts_with = "answers", requires = "asked")]
    json: bool,
}

/// What there is to do beside being asked.
#[derive(Debug, Subcommand)]
enum Other {
    /// How it has gone: by skill and week, what recurs, and what is due
    Progress(progress::ProgressArgs),
    /// The record of what was answered, as CSV
    Export(export::ExportArgs),
    /// A test on paper, the same on every machine
    Paper(exam::PaperArgs),
    /// What a class handed in: how each learner did, and what was hard for most
    Class(class::ClassArgs),
    /// A first exercise set, with comments, for a coach to change
    Set(set::FirstArgs),
}

/// What is practised: one kind, or all of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kinds {
    One(Kind),
    Mixed,
}

impl Kinds {
    fn all(&self) -> &[Kind] {
        match self {
            Kinds::One(kind) => std::slice::from_ref(kind),
            Kinds::Mixed => Kind::ALL,
        }
    }

    /// What it is, in a few words.
    fn what(self) -> &'static str {
        match self {
            Kinds::One(kind) => kind.what(),
            Kinds::Mixed => "all kinds mixed",
        }
    }
}

fn kinds(text: &str) -> Result<Kinds, practice::NoKind> {
    match text.trim().to_lowercase().as_str() {
        "mixed" => Ok(Kinds::Mixed),
        _ => text.parse().map(Kinds::One),
    }
}

/// Carries it out.
pub(crate) fn run(args: DrillArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    run_in(args, Folders::of_user().ok(), io)
}

/// The same with the record in these folders.
fn run_in(args: DrillArgs, folders: Option<Folders>, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    match args.other {
        Some(Other::Progress(args)) => return progress::run(&args, folders.as_ref(), io),
        Some(Other::Export(args)) => return export::run(&args, folders.as_ref(), io),
        Some(Other::Paper(args)) => return exam::run(&args, io),
        Some(Other::Class(args)) => return class::run(&args, io),
        Some(Other::Set(args)) => return set::first(&args, io),
        None => {}
    }
    if args.list {
        page::list(io.output)?;
        return Ok(Exit::Done);
    }
    let kept_in = folders.filter(|_| !args.no_record);
    if let Some(path) = &args.set {
        let of = set::open(path, io)?;
        match (args.json, args.answers) {
            (true, _) => json::write_set(&of, io.output)?,
            (_, true) => set::paper(&of, io.output)?,
            _ => set::hold(of, &mut Keeper::open(kept_in)?, io)?,
        }
        return Ok(Exit::Done);
    }
    let water = water(args.chart.as_ref(), io)?;
    let Some(kinds) = args.kind else {
        let mut keeper = Keeper::open(kept_in)?;
        let count = args.count.map(|count| Long::Questions(count.into()));
        let long = count.unwrap_or(Long::Minutes(args.minutes));
        page::head_of_due(long, &water.chart.title, io.output)?;
        session::hold(Sitting::new(Plan::Due(long)), (&water, None), &mut keeper, io)?;
        return Ok(Exit::Done);
    };
    let count = args.count.unwrap_or(5);
    let drill = Drill::new(kinds, args.level, args.seed, count, (&water, None))?;
    match (args.json, args.answers) {
        (true, _) => json::write(&drill, io.output)?,
        (_, true) => page::paper(&drill, io.output)?,
        _ => {
            let mut keeper = Keeper::open(kept_in)?;
            page::head(&drill, io.output)?;
            session::hold(drill.sitting, (&water, None), &mut keeper, io)?;
        }
    }
    Ok(Exit::Done)
}

/// The chart that is practised on.
fn water(chart: Option<&PathBuf>, io: &Io<'_>) -> anyhow::Result<Water> {
    Ok(match chart {
        Some(path) => Water::open(path, io.terminal)?,
        None => Water::of(practice_chart()?),
    })
}
