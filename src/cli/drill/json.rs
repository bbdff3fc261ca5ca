//! Questions as JSON, and their answers apart.

use std::io::Write;

use practice::{Mistake, Question};
use serde_json::{Value, json};

use super::questions::Drill;
use super::set::OfSet;

pub(super) fn write(drill: &Drill, to: &mut dyn Write) -> anyhow::Result<()> {
    let about = json!({
        "chart": drill.chart,
        "invented": drill.invented,
        "level": drill.level.number(),
        "seed": drill.seed,
        "caution": drill.caution(),
    });
    questions(about, &drill.questions, to)
}

/// The questions of a set.
pub(super) fn write_set(of: &OfSet, to: &mut dyn Write) -> anyhow::Result<()> {
    let about = json!({
        "set": of.set.title,
        "words": of.set.words,
        "minutes": of.set.minutes,
        "chart": of.water.chart.title,
        "invented": of.water.chart.invented,
        "seed": of.set.seed,
        "caution": of.caution(),
    });
    questions(about, &of.questions, to)
}

/// Questions and answers after what is said of all of them.
fn questions(
    mut document: Value,
    questions: &[Question],
    to: &mut dyn Write,
) -> anyhow::Result<()> {
    let numbered = || (1..).zip(questions);
    document["questions"] = numbered().map(question).collect();
    document["answers"] = numbered().map(answer).collect();
    serde_json::to_writer_pretty(&mut *to, &document)?;
    writeln!(to)?;
    Ok(())
}

fn question((number, it): (usize, &Question)) -> Value {
    json!({
        "number": number,
        "kind": it.kind.name(),
        "skill": it.kind.skill().name(),
        "level": it.level.number(),
        "seed": it.seed,
        "text": it.text,
        "given": it.given.as_ref().map(|given| json!({ "head": given.head, "rows": given.rows })),
        "choices": it.choices.iter().map(|choice| choice.text.as_str()).collect::<Vec<_>>(),
        "hints": it.hints,
    })
}

fn answer((number, it): (usize, &Question)) -> Value {
    json!({
        "number": number,
        "answer": it.told(),
        "tolerance": it.how_near(),
        "basis": it.basis,
        "steps": it.steps,
        "mistakes": it.mistakes.iter().map(mistake).collect::<Vec<_>>(),
    })
}

fn mistake(it: &Mistake) -> Value {
    json!({ "mistake": it.kind.key(), "name": it.kind.name(), "answer": it.answer.to_string() })
}
