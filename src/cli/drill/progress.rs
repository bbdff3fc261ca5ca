//! How it has gone: by skill and week, what recurs, what is due.

use std::io::{self, Write};

use clap::Args;
use files::Folders;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use practice::memory::plot::{self, BLOCKS, Columns};
use practice::memory::{Gone, Progress, Record, progress};
use serde_json::{Value, json};

use crate::page::paragraph;
use crate::{Exit, Io};

/// How it has gone.
///
/// A page of 80 columns: the share of right answers by week, each skill with its last weeks, its level and when it comes back,
/// and the mistakes that recur.
#[derive(Debug, Args)]
pub(super) struct ProgressArgs {
    /// Show each kind of exercise as well, and its strength: how many right answers are to be expected tomorrow
    #[arg(long, conflicts_with = "json")]
    kinds: bool,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

/// Weeks of the large plot, and of the small one of a skill.
const WEEKS: usize = 52;
const FEW: usize = 24;
/// The large plot.
const LARGE: Columns = Columns { heights: BLOCKS, rows: 4, wide: 1 };

pub(super) fn run(
    args: &ProgressArgs,
    folders: Option<&Folders>,
    io: &mut Io<'_>,
) -> anyhow::Result<Exit> {
    let record = opened(folders)?;
    let gone = progress(&record, Timestamp::now(), &TimeZone::system());
    if args.json {
        serde_json::to_writer_pretty(&mut *io.output, &document(&gone))?;
        writeln!(io.output)?;
    } else {
        page(&gone, args.kinds, io.output)?;
    }
    Ok(Exit::Done)
}

/// What this user has answered.
pub(super) fn opened(folders: Option<&Folders>) -> anyhow::Result<Record> {
    Ok(folders.map(files::open_results).transpose()?.unwrap_or_default())
}

/// The page.
pub(super) fn page(gone: &Progress, kinds: bool, to: &mut dyn Write) -> io::Result<()> {
    if gone.all.answered == 0 {
        return paragraph("", "Nothing is practised yet; strandline drill begins.", to);
    }
    let (right, of) = (gone.all.right, gone.all.answered);
    writeln!(to, "Practice so far: {right} of {of} right.\n\nRight by week, in per cent")?;
    large(gone, to)?;
    writeln!(
        to,
        "\n{:<22} {:>9}{:>4}  {:<FEW$} {:<5} due",
        "skill", "right", "%", "its last 24 weeks", "level"
    )?;
    for (skill, of) in &gone.skills {
        let weeks = plot::small(&of.shares(gone.monday, FEW));
        writeln!(to, "{}", row(skill.name(), of, &weeks, gone))?;
    }
    if kinds {
        each_kind(gone, to)?;
    }
    if !gone.weaknesses.is_empty() {
        writeln!(to)?;
    }
    for it in &gone.weaknesses {
        paragraph("", &it.said(), to)?;
    }
    Ok(())
}

/// A skill's or a kind's row; what stands in its middle is given.
fn row(name: &str, of: &Gone, middle: &str, gone: &Progress) -> String {
    let (right, share, level, due) = (of.score(), of.per_cent(), of.level(), gone.due(of.due));
    let row = format!("{name:<22} {right:>9}{share:>4}  {middle:<FEW$} {level:<5} {due}");
    row.trim_end().to_owned()
}

/// The kinds of exercise, with the strength of each: the share of right answers to be expected tomorrow.
fn each_kind(gone: &Progress, to: &mut dyn Write) -> io::Result<()> {
    writeln!(
        to,
        "\n{:<22} {:>9}{:>4}  {:<FEW$} {:<5} due",
        "kind", "right", "%", "strength, per cent", "level"
    )?;
    for (kind, of) in &gone.kinds {
        let item = gone.schedule.item(*kind);
        let kept = item.map(practice::memory::Item::per_cent).unwrap_or_default();
        writeln!(to, "{}", row(kind.name(), of, &kept, gone))?;
    }
    Ok(())
}

/// Columns from 0 to 100 per cent, a week each, over the months in which the weeks begin.
fn large(gone: &Progress, to: &mut dyn Write) -> io::Result<()> {
    let rows = LARGE.drawn(&gone.all.shares(gone.monday, WEEKS));
    for (row, line) in rows.iter().enumerate() {
        let top = 100 - 100 * row / LARGE.rows;
        writeln!(to, "{}", format!("{top:>3} │{line}").trim_end())?;
    }
    writeln!(to, "  0 └{}", LARGE.axis(gone.monday, WEEKS))?;
    writeln!(to, "     {}", LARGE.months(gone.monday, WEEKS))
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
