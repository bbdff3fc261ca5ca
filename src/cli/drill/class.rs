//! What a class handed in: how each learner did, and what was hard for most.

use std::io::{self, Write};
use std::path::PathBuf;

use anyhow::bail;
use clap::Args;
use plan::table::fitted;
use practice::memory::{Asked, Class, Record, class};
use practice::{MistakeKind, Question};
use serde_json::{Value, json};
use unicode_width::UnicodeWidthStr;

use super::export::of_set;
use super::set;
use crate::page::{COLUMNS, paragraph};
use crate::{Exit, Io};

/// What is handed in.
///
/// A page of 80 columns: each learner with what was right, how long it took and which mistakes were made, then the questions that
/// fewest answered rightly, with the set's file by their numbers and words. Of a question that was answered twice the first answer counts.
#[derive(Debug, Args)]
pub(super) struct ClassArgs {
    /// What the learners handed in, each made by drill export --set TITLE --learner NAME
    #[arg(required = true, value_name = "FILE")]
    files: Vec<PathBuf>,
    /// The answers of the exercise set of this title alone
    #[arg(long, value_name = "TITLE")]
    set: Option<String>,
    /// The exercise set's file: the answers of that set alone, and its questions by their numbers and words
    #[arg(long, value_name = "SET", conflicts_with = "set")]
    questions: Option<PathBuf>,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

/// How many questions are shown, the hardest.
const HARDEST: usize = 10;
/// How wide a learner's name may be.
const NAME: usize = 22;

pub(super) fn run(args: &ClassArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let of = args.questions.as_ref().map(|path| set::open(path, io)).transpose()?;
    let title = args.set.as_deref().or(of.as_ref().map(|of| of.set.title.as_str()));
    let mut handed_in = Record::default();
    for path in &args.files {
        for it in files::open_record(path)?.answered() {
            if !handed_in.keep(it.clone()) {
                bail!("there are more than {} answers, the most", Record::MOST);
            }
        }
    }
    let class = class(&of_set(&handed_in, title)?);
    let questions = of.as_ref().map(|of| of.questions.as_slice()).unwrap_or_default();
    if args.json {
        serde_json::to_writer_pretty(&mut *io.output, &document(&class, questions))?;
        writeln!(io.output)?;
    } else {
        page(&class, title, questions, io.output)?;
    }
    Ok(Exit::Done)
}

fn page(
    class: &Class,
    set: Option<&str>,
    questions: &[Question],
    to: &mut dyn Write,
) -> io::Result<()> {
    let of = set.map_or(String::new(), |set| format!("{set}: "));
    let many = |count: usize, what: &str| match count {
        1 => format!("1 {what}"),
        count => format!("{count} {what}s"),
    };
    let (learners, count) = (class.learners.len(), class.questions.len());
    let head = format!("{of}{}, {}.", many(learners, "learner"), many(count, "question"));
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
        row(&lead, &it.mistakes, to)?;
    }
    writeln!(to, "\n{:<NAME$} {:>9} {:>6}  mistakes", "hardest questions", "right", "level")?;
    for (it, question) in hardest(class, questions) {
        let right = format!("{}/{}", it.right, it.put);
        let number = question.map_or(String::new(), |(number, _)| format!("{number} · "));
        let name = padded(&(number + it.kind.name()), NAME);
        row(&format!("{name} {right:>9} {:>6}  ", it.level.number()), &it.mistakes, to)?;
        if let Some((_, question)) = question {
            paragraph("   ", &question.text, to)?;
        }
    }
    Ok(())
}

/// A question of a set with its number.
type Numbered<'a> = (usize, &'a Question);

/// What fewest answered rightly, not all of them, in the order of the set where it is the same for several.
fn hardest<'a>(
    class: &'a Class,
    questions: &'a [Question],
) -> Vec<(&'a Asked, Option<Numbered<'a>>)> {
    let missed = class.questions.iter().filter(|it| it.right < it.put);
    let mut all: Vec<_> = missed.map(|it| (it, numbered(it, questions))).collect();
    all.sort_by_key(|(_, question)| question.map(|(number, _)| number));
    // Shares compared without a division; what is as hard stays in its order.
    all.sort_by(|(a, _), (b, _)| (a.right * b.put).cmp(&(b.right * a.put)));
    all.truncate(HARDEST);
    all
}

/// The question of a set that was asked, and its number; nothing of one that the set does not ask, or not any more.
fn numbered<'a>(asked: &Asked, questions: &'a [Question]) -> Option<Numbered<'a>> {
    let same =
        |it: &Question| (it.kind, it.level, it.seed) == (asked.kind, asked.level, asked.seed);
    (1..).zip(questions).find(|(_, it)| same(it))
}

/// A cell as wide as its column.
fn padded(text: &str, wide: usize) -> String {
    let text = fitted(text, wide);
    let missing = wide.saturating_sub(UnicodeWidthStr::width(text.as_str()));
    text + &" ".repeat(missing)
}

/// What leads a row, and the mistakes behind it, or under it where they have no room there.
fn row(lead: &str, mistakes: &[(MistakeKind, usize)], to: &mut dyn Write) -> io::Result<()> {
    let named = |(mistake, times): &(MistakeKind, usize)| match times {
        1 => mistake.name().to_owned(),
        times => format!("{} ({times})", mistake.name()),
    };
    let named = mistakes.iter().map(named).collect::<Vec<_>>().join("; ");
    let line = format!("{lead}{named}");
    if UnicodeWidthStr::width(line.trim_end()) <= COLUMNS {
        return writeln!(to, "{}", line.trim_end());
    }
    writeln!(to, "{}", lead.trim_end())?;
    paragraph("   ", &named, to)
}

fn document(class: &Class, questions: &[Question]) -> Value {
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
            "number": numbered(it, questions).map(|(number, _)| number),
            "text": numbered(it, questions).map(|(_, question)| question.text.as_str()),
            "kind": it.kind.name(),
            "level": it.level.number(),
            "seed": it.seed,
            "answered": it.put,
            "right": it.right,
            "mistakes": mistakes(&it.mistakes),
        })).collect::<Vec<_>>(),
    })
}
