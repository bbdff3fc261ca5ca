//! How it has gone: by skill and week, what recurs, what is due.

use std::io::{self, Write};

use clap::Args;
use files::Folders;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use practice::memory::{self, Gone, Progress, Record, progress};
use serde_json::{Value, json};

use super::keep::recurs;
use crate::output::{Format, Output};
use crate::page::paragraph;
use crate::{Exit, Io};

/// How it has gone.
///
/// A page of 80 columns: the share of right answers by week, each skill with its last weeks, its level and when it comes back,
/// and the mistakes that recur.
#[derive(Debug, Args)]
pub(super) struct ProgressArgs {
    /// Print JSON
    #[arg(long)]
    json: bool,
}

/// Where the record goes.
///
/// A line for each question: when, kind, level, seed, chart, outcome, hints, how far off, mistake, seconds.
#[derive(Debug, Args)]
pub(super) struct ExportArgs {
    #[command(flatten)]
    to: Output,
}

/// Weeks of the large plot, and of the small one of a skill.
const WEEKS: usize = 52;
const FEW: usize = 24;
/// Rows of the large plot, each of eight steps.
const ROWS: usize = 4;
const STEPS: [char; 8] = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];

pub(super) fn run(
    args: &ProgressArgs,
    folders: Option<&Folders>,
    io: &mut Io<'_>,
) -> anyhow::Result<Exit> {
    let record = opened(folders)?;
    let (now, zone) = (Timestamp::now(), TimeZone::system());
    let gone = progress(&record, now, &zone);
    if args.json {
        serde_json::to_writer_pretty(&mut *io.output, &document(&gone))?;
        writeln!(io.output)?;
    } else {
        page(&gone, now, &zone, io.output)?;
    }
    Ok(Exit::Done)
}

pub(super) fn export(
    args: &ExportArgs,
    folders: Option<&Folders>,
    io: &mut Io<'_>,
) -> anyhow::Result<Exit> {
    args.to.format(&[Format::Csv], io)?;
    args.to.write(memory::write(&opened(folders)?).as_bytes(), io)
}

fn opened(folders: Option<&Folders>) -> anyhow::Result<Record> {
    Ok(folders.map(files::open_results).transpose()?.unwrap_or_default())
}

/// The page.
pub(super) fn page(
    gone: &Progress,
    now: Timestamp,
    zone: &TimeZone,
    to: &mut dyn Write,
) -> io::Result<()> {
    if gone.all.answered == 0 {
        return paragraph("", "Nothing is practised yet; strandline drill begins.", to);
    }
    let (right, of) = (gone.all.right, gone.all.answered);
    writeln!(to, "Practice so far: {right} of {of} right.\n\nRight by week, in per cent")?;
    plot(&gone.all.shares(gone.monday, WEEKS), to)?;
    writeln!(to, "     {:<26}{:>26}", "a year ago", "this week")?;
    writeln!(
        to,
        "\n{:<22} {:>9}{:>4}  {:<FEW$} {:<5} again",
        "skill", "right", "%", "its last 24 weeks", "level"
    )?;
    for (skill, of) in &gone.skills {
        writeln!(to, "{}", row(skill.name(), of, gone, now, zone).trim_end())?;
    }
    if !gone.weaknesses.is_empty() {
        writeln!(to)?;
    }
    for it in &gone.weaknesses {
        paragraph("", &recurs(it), to)?;
    }
    Ok(())
}

fn row(name: &str, of: &Gone, gone: &Progress, now: Timestamp, zone: &TimeZone) -> String {
    let line: String = of.shares(gone.monday, FEW).into_iter().map(small).collect();
    let right = format!("{}/{}", of.right, of.answered);
    let share = match of.answered {
        0 => String::new(),
        all => format!("{:.0}", 100.0 * of.right as f64 / all as f64),
    };
    let level = match of.levels {
        None => String::new(),
        Some((low, high)) if low == high => low.number().to_string(),
        Some((low, high)) => format!("{}–{}", low.number(), high.number()),
    };
    let due = match of.due {
        None => String::new(),
        Some(due) if due <= now => "now".to_owned(),
        Some(due) => zone.to_datetime(due).date().to_string(),
    };
    format!("{name:<22} {right:>9}{share:>4}  {line} {level:<5} {due}")
}

/// A week of a skill in one letter.
fn small(share: Option<f64>) -> char {
    share.map_or('·', |share| STEPS[((share * 7.0).round() as usize).min(7)])
}

/// Columns from 0 to 100 per cent, a week each.
fn plot(shares: &[Option<f64>], to: &mut dyn Write) -> io::Result<()> {
    for row in (0..ROWS).rev() {
        let column = |share: &Option<f64>| {
            let Some(share) = share else { return ' ' };
            // None right is still a week: it has the lowest step.
            let steps = ((share * (8 * ROWS) as f64).round() as usize).max(1);
            match steps.saturating_sub(8 * row) {
                0 => ' ',
                in_row => STEPS[in_row.min(8) - 1],
            }
        };
        let line: String = shares.iter().map(column).collect();
        let top = 100 * (row + 1) / ROWS;
        writeln!(to, "{}", format!("{top:>3} │{line}").trim_end())?;
    }
    writeln!(to, "  0 └{}", "─".repeat(shares.len()))
}

/// The same as JSON.
fn document(gone: &Progress) -> Value {
    json!({
        "all": went(&gone.all),
        "skills": gone.skills.iter().map(|(skill, of)| {
            let mut value = went(of);
            value["skill"] = json!(skill.name());
            value
        }).collect::<Vec<_>>(),
        "kinds": gone.schedule.items.iter().map(|it| json!({
            "kind": it.kind.name(),
            "level": it.level.number(),
            "due": it.due.map(|due| due.to_string()),
            "strength": (it.strength * 1000.0).round() / 1000.0,
            "weak": it.weak,
        })).collect::<Vec<_>>(),
        "weaknesses": gone.weaknesses.iter().map(|it| json!({
            "skill": it.skill.name(),
            "mistake": it.mistake.key(),
            "name": it.mistake.name(),
            "times": it.times,
            "answered": it.answered,
            "last": it.last.to_string(),
        })).collect::<Vec<_>>(),
    })
}

fn went(of: &Gone) -> Value {
    json!({
        "answered": of.answered,
        "right": of.right,
        "due": of.due.map(|due| due.to_string()),
        "weeks": of.weeks.iter().map(|week| json!({
            "monday": week.monday.to_string(),
            "answered": week.answered,
            "right": week.right,
        })).collect::<Vec<_>>(),
    })
}
