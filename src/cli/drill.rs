//! Practise: questions on a chart, marked, with the mistake named.

mod json;
mod page;
mod session;
#[cfg(test)]
mod tests;

use std::path::PathBuf;

use ::chart::practice as practice_chart;
use anyhow::bail;
use clap::Args;
use jiff::Timestamp;
use practice::{Ground, Kind, Level, Question, ask, kind_of, seed_of};

use crate::day::Water;
use crate::{Exit, Io};

/// Practise: questions on a chart, marked, with the mistake named.
///
/// Asks a question, reads the answer from standard input, a line each, and says whether it is right, how far off it is, which
/// mistake it looks like, and how the answer is got. An empty line passes the question over, ? gives a hint, q ends. The same chart,
/// kind, level and seed give the same questions on every machine.
#[derive(Debug, Args)]
pub struct DrillArgs {
    /// The kind of exercise, as --list names it; mixed for all of them
    #[arg(required_unless_present = "list", value_parser = kinds)]
    kind: Option<Kinds>,
    /// List the kinds of exercise
    #[arg(long)]
    list: bool,
    /// The chart; the built-in practice chart if none is given
    #[arg(long, value_name = "FILE")]
    chart: Option<PathBuf>,
    /// What the questions are thrown from; a new one each time if none is given
    #[arg(long, value_name = "N")]
    seed: Option<u64>,
    /// How many questions
    #[arg(long, value_name = "N", default_value_t = 5, value_parser = clap::value_parser!(u16).range(1..=1000))]
    count: u16,
    /// How hard: 1 to 3
    #[arg(long, value_name = "LEVEL", default_value = "1")]
    level: Level,
    /// Ask nothing: print the questions, and the answers after them
    #[arg(long)]
    answers: bool,
    /// Print JSON: the questions, and the answers apart; asks nothing
    #[arg(long, conflicts_with = "answers")]
    json: bool,
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

/// The questions with all that is said about them.
struct Drill {
    kinds: Kinds,
    level: Level,
    seed: u64,
    chart: String,
    invented: bool,
    questions: Vec<Question>,
}

/// Carries it out.
pub(crate) fn run(args: DrillArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let Some(kinds) = args.kind.filter(|_| !args.list) else {
        page::list(io.output)?;
        return Ok(Exit::Done);
    };
    let water = match &args.chart {
        Some(path) => Water::open(path, io.terminal)?,
        None => Water::of(practice_chart()?),
    };
    let drill = Drill::new(kinds, &args, &water)?;
    match (args.json, args.answers) {
        (true, _) => json::write(&drill, io.output)?,
        (_, true) => page::paper(&drill, io.output)?,
        _ => session::hold(&drill, io)?,
    }
    Ok(Exit::Done)
}

impl Drill {
    fn new(kinds: Kinds, args: &DrillArgs, water: &Water) -> anyhow::Result<Drill> {
        let seed = args.seed.unwrap_or_else(|| {
            // Any number will do that is another one next time; small enough to be typed.
            Timestamp::now().as_microsecond().unsigned_abs() % 1_000_000
        });
        let ground = Ground::new(&water.chart, &water.coast);
        let (count, level) = (usize::from(args.count), args.level);
        // In a mixed series the kinds that the chart has not are left out.
        let asked = (0..count * 2 + Kind::ALL.len()).filter_map(|number| {
            let kind = kind_of(kinds.all(), seed, number)?;
            ask(kind, &ground, seed_of(seed, number as u64), level)
        });
        let questions: Vec<Question> = asked.take(count).collect();
        if questions.is_empty() {
            bail!(
                "the chart “{}” has not what it takes to ask for {}; take another chart or kind",
                water.chart.title,
                kinds.what()
            );
        }
        let (chart, invented) = (water.chart.title.clone(), water.chart.invented);
        Ok(Drill { kinds, level, seed, chart, invented, questions })
    }

    /// What everything that is printed of practice ends with.
    fn caution(&self) -> &'static str {
        if self.invented {
            "For practice, not for navigation. The chart is invented: no such place exists."
        } else {
            "For practice, not for navigation."
        }
    }
}
