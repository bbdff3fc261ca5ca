//! What a class handed in: how each learner did, and what was hard for most.

use std::io::{self, Write};
use std::path::PathBuf;

use anyhow::bail;
use clap::Args;
use plan::table::fitted;
use practice::MistakeKind;
use practice::memory::{Class, Record, class};
use serde_json::{Value, json};

use crate::page::{COLUMNS, paragraph};
use crate::{Exit, Io};

/// What is handed in.
///
/// A page of 80 columns: each learner with what was right, how long it took and which mistakes were made, then the questions that
/// fewest answered rightly. Of a question that was answered twice the first answer counts.
#[derive(Debug, Args)]
pub(super) struct ClassArgs {
    /// What the learners handed in, each made by drill export --set TITLE --learner NAME
    #[arg(required = true, value_name = "FILE")]
    files: Vec<PathBuf>,
    /// The answers of the exercise set of this title alone
    #[arg(long, value_name = "TITLE")]
    set: Option<String>,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

/// How many questions are shown, the hardest.
const HARDEST: usize = 10;
/// How wide a learner's name may be.
const NAME: usize = 22;

pub(super) fn run(args: &ClassArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let mut all = Record::default();
    for path in &args.files {
        let record = files::open_record(path)?;
        let wanted = |title: &str| args.set.as_ref().is_none_or(|set| set == title);
        for it in record.answered().iter().filter(|it| wanted(&it.set)) {
            if !all.keep(it.clone()) {
                bail!("there are more than {} answers, the most", Record::MOST);
            }
        }
    }
    let class = class(&all);
    if args.json {
        serde_json::to_writer_pretty(&mut *io.output, &document(&class))?;
        writeln!(io.output)?;
    } else {
        page(&class, args.set.as_deref(), io.output)?;
    }
    Ok(Exit::Done)
}

fn page(class: &Class, set: Option<&str>, to: &mut dyn Write) -> io::Result<()> {
    let of = set.map_or(String::new(), |set| format!("{set}: "));
    let many = |count: usize, what: &str| match count {
        1 => format!("1 {what}"),
        count => format!("{count} {what}s"),
    };
    let (learners, questions) = (class.learners.len(), class.questions.len());
    let head = format!("{of}{}, {}.", many(learners, "learner"), many(questions, "question"));
    paragraph("", &head, to)?;
    if class.learners.is_empty() {
        return Ok(());
    }
    writeln!(to, "\n{:<NAME$} {:>9} {:>6}  mistakes", "learner", "right", "min")?;
    for it in &class.learners {
        let name = if it.name.is_empty() { "(no name)" } else { &it.name };
        let right = format!("{}/{}", it.right, it.put);
        let minutes = (it.seconds + 30) / 60;
        let lead = format!("{} {right:>9} {minutes:>6}  ", padded(name, NAME));
        writeln!(to, "{}", row(lead, &it.mistakes))?;
    }
    writeln!(to, "\n{:<NAME$} {:>9} {:>6}  mistakes", "hardest questions", "right", "level")?;
    for it in class.questions.iter().filter(|it| it.right < it.put).take(HARDEST) {
        let right = format!("{}/{}", it.right, it.put);
        let lead =
            format!("{} {right:>9} {:>6}  ", padded(it.kind.name(), NAME), it.level.number());
        writeln!(to, "{}", row(lead, &it.mistakes))?;
    }
    Ok(())
}

/// A cell as wide as its column.
fn padded(text: &str, wide: usize) -> String {
    let text = fitted(text, wide);
    let missing = wide.saturating_sub(unicode_width::UnicodeWidthStr::width(text.as_str()));
    text + &" ".repeat(missing)
}

/// What leads a row, and the mistakes as far as there is room.
fn row(lead: String, mistakes: &[(MistakeKind, usize)]) -> String {
    let named = |(mistake, times): &(MistakeKind, usize)| match times {
        1 => mistake.name().to_owned(),
        times => format!("{} ({times})", mistake.name()),
    };
    let named: Vec<String> = mistakes.iter().map(named).collect();
    fitted(&(lead + &named.join("; ")), COLUMNS).trim_end().to_owned()
}

fn document(class: &Class) -> Value {
    let mistakes = |all: &[(MistakeKind, usize)]| -> Vec<Value> {
        let one = |(it, times): &(MistakeKind, usize)| json!({ "mistake": it.key(), "name": it.name(), "times": times });
        all.iter().map(one).collect()
    };
    json!({
        "learners": class.learners.iter().map(|it| json!({
            "learner": it.name,
            "answered": it.put,
            "right": it.right,
            "seconds": it.seconds,
            "mistakes": mistakes(&it.mistakes),
        })).collect::<Vec<_>>(),
        "questions": class.questions.iter().map(|it| json!({
            "kind": it.kind.name(),
            "level": it.level.number(),
            "seed": it.seed,
            "answered": it.put,
            "right": it.right,
            "mistakes": mistakes(&it.mistakes),
        })).collect::<Vec<_>>(),
    })
}
