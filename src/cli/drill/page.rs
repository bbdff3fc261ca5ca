//! Questions and answers as text, 80 columns wide.

use std::io::{self, Write};

use plan::table::fitted;
use practice::figure::Ink;
use practice::{Kind, Long, Mark, Question, Reply, Skill, Table};
use unicode_width::UnicodeWidthStr;

use super::questions::Drill;
use crate::page::{COLUMNS, paragraph};

const INDENT: &str = "   ";

/// The kinds of exercise, by what they train.
pub(super) fn list(to: &mut dyn Write) -> io::Result<()> {
    writeln!(to, "Exercises, for strandline drill KIND:")?;
    for skill in Skill::ALL {
        writeln!(to, "\n{skill}")?;
        for kind in Kind::ALL.iter().filter(|kind| kind.skill() == *skill) {
            writeln!(to, "{INDENT}{:<14}{}", kind.name(), kind.what())?;
        }
    }
    writeln!(to, "\n{INDENT}{:<14}all of them by turns", "mixed")
}

/// What is practised, on which chart.
pub(super) fn head(drill: &Drill, to: &mut dyn Write) -> io::Result<()> {
    let head = format!(
        "Practice: {}, level {}, seed {}, on {}.",
        drill.kinds.what(),
        drill.level.number(),
        drill.seed,
        drill.chart
    );
    paragraph("", &head, to)
}

/// The same of what is due.
pub(super) fn head_of_due(long: Long, chart: &str, to: &mut dyn Write) -> io::Result<()> {
    let long = match long {
        Long::Minutes(minutes) => format!("{minutes} min"),
        Long::Questions(count) => format!("{count} questions"),
    };
    paragraph("", &format!("Practice: what is due, {long}, on {chart}."), to)
}

/// A question with what is given and what can be chosen.
pub(super) fn question(
    number: usize,
    of: Option<usize>,
    it: &Question,
    to: &mut dyn Write,
) -> io::Result<()> {
    let of = of.map_or(String::new(), |of| format!(" of {of}"));
    writeln!(to, "\n{number}{of} · {}", it.kind.skill())?;
    paragraph(INDENT, &it.text, to)?;
    if let Some(given) = &it.given {
        writeln!(to)?;
        table(given, to)?;
    }
    if !it.choices.is_empty() {
        writeln!(to)?;
        for (letter, choice) in ('a'..='z').zip(&it.choices) {
            paragraph(INDENT, &format!("{letter}) {}", choice.text), to)?;
        }
    }
    Ok(())
}

/// The table's columns two spaces apart; what stands in the way of 80 columns is cut from the widest.
fn table(given: &Table, to: &mut dyn Write) -> io::Result<()> {
    let headed = given.head.iter().any(|cell| !cell.is_empty());
    let rows = || given.rows.iter().chain(headed.then_some(&given.head));
    let mut widths: Vec<usize> = (0..given.head.len())
        .map(|column| {
            rows().filter_map(|row| row.get(column)).map(|cell| cell.width()).max().unwrap_or(0)
        })
        .collect();
    let room = COLUMNS.saturating_sub(INDENT.len() + 2 * widths.len().saturating_sub(1));
    while widths.iter().sum::<usize>() > room {
        let Some(widest) = widths.iter_mut().max_by_key(|width| **width) else { break };
        *widest -= 1;
    }
    for row in headed.then_some(&given.head).into_iter().chain(&given.rows) {
        let mut line = INDENT.to_owned();
        for (cell, width) in row.iter().zip(&widths) {
            let cell = fitted(cell, *width);
            line += &cell;
            line += &" ".repeat(width - cell.width() + 2);
        }
        writeln!(to, "{}", line.trim_end())?;
    }
    Ok(())
}

/// What the examiner says of an answer.
pub(super) fn mark(
    it: &Question,
    mark: &Mark,
    reply: &Reply,
    to: &mut dyn Write,
) -> io::Result<()> {
    paragraph(INDENT, &mark.said.join(" "), to)?;
    if !mark.right {
        steps(it, to)?;
        figure(it, Some(reply), to)?;
    }
    Ok(())
}

/// How the answer is got, and what it looks like.
pub(super) fn answer(it: &Question, to: &mut dyn Write) -> io::Result<()> {
    steps(it, to)?;
    figure(it, None, to)
}

/// The answer drawn in text, with one that was given beside it.
fn figure(it: &Question, given: Option<&Reply>, to: &mut dyn Write) -> io::Result<()> {
    let rows = it.figure(given, COLUMNS - INDENT.len(), false);
    if rows.is_empty() {
        return Ok(());
    }
    writeln!(to)?;
    for row in &rows {
        let text: String = row.iter().map(|piece| piece.text.as_str()).collect();
        writeln!(to, "{}", format!("{INDENT}{text}").trim_end())?;
    }
    let yours = rows.iter().flatten().any(|piece| piece.ink == Ink::Yours);
    writeln!(to, "{INDENT}◎ right{}", if yours { "  ⊗ yours" } else { "" })
}

/// The steps, one by one.
fn steps(it: &Question, to: &mut dyn Write) -> io::Result<()> {
    for step in &it.steps {
        let mut text = Vec::new();
        paragraph("     ", step, &mut text)?;
        // The first line has the sign of a step, where the others stand in.
        let text = String::from_utf8_lossy(&text);
        write!(to, "{INDENT}· {}", text.trim_start())?;
    }
    Ok(())
}

/// Questions on one page, answers after them.
pub(super) fn paper(drill: &Drill, to: &mut dyn Write) -> io::Result<()> {
    head(drill, to)?;
    all(&drill.questions, to)?;
    paragraph("", drill.caution(), to)
}

/// The same without what stands over and under them.
pub(super) fn all(questions: &[Question], to: &mut dyn Write) -> io::Result<()> {
    let count = questions.len();
    for (number, it) in (1..).zip(questions) {
        question(number, Some(count), it, to)?;
    }
    writeln!(to, "\nAnswers")?;
    for (number, it) in (1..).zip(questions) {
        // Of several answers one is right; how near counts for a cursor on a chart.
        let near = it.how_near().filter(|_| it.choices.is_empty());
        let near = near.map_or(String::new(), |near| format!(", {near}"));
        writeln!(to)?;
        paragraph("", &format!("{number}. {}{near} ({}).", it.told(), it.basis), to)?;
        answer(it, to)?;
    }
    writeln!(to)
}
