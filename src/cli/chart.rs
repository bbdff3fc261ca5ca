//! Charts: made, imported, checked, described.

mod import;
#[cfg(test)]
mod tests;

use std::ops::ControlFlow;
use std::path::{Path, PathBuf};

use ::chart::maker::{Character, Difficulty, TideRange, Wishes, make, size};
use ::chart::{Description, format};
use anyhow::Context;
use clap::Subcommand;
use files::{Folders, Overwrite, Source, save_text};

use crate::bar::Bar;
use crate::{Exit, Io};
pub use import::ImportArgs;

/// What to do with a chart.
#[derive(Debug, Subcommand)]
pub enum ChartCommand {
    /// Make an invented chart from a seed, the same on every machine
    Make {
        /// The seed: each number is another coast
        #[arg(long, value_name = "N")]
        seed: u64,
        /// What kind of coast: mixed, skerries, sea-lochs, lagoon, cliffs, estuary
        #[arg(long, value_name = "NAME", default_value = "mixed")]
        character: Character,
        /// Width by height in whole kilometres
        #[arg(long, value_name = "WxH", default_value = "30x22", value_parser = size)]
        size: (u32, u32),
        /// The mean range of springs: micro (1 m), meso (3 m), macro (6 m), or metres as in 4.5m
        #[arg(long, value_name = "RANGE", default_value = "3.94m")]
        tide: TideRange,
        /// How exposed it is, how fast its streams run, how sparse its landings are: gentle, moderate,
        /// hard
        #[arg(long, value_name = "NAME", default_value = "moderate")]
        difficulty: Difficulty,
        /// The chart's title; the maker names it if none is given
        #[arg(long)]
        title: Option<String>,
        /// The chart file to write; standard output if none is given
        #[arg(short, long, value_name = "FILE", default_value = "-")]
        output: PathBuf,
        /// Replace the file if it is there
        #[arg(long)]
        force: bool,
    },
    /// Make a chart of a real shore, or the whole shore ready to be opened, from GeoJSON (RFC 7946)
    /// or FlatGeobuf
    Import(ImportArgs),
    /// Check a chart, and say what is wrong with it: nothing, or exit 1
    Check {
        /// The chart file; - for standard input
        file: PathBuf,
        /// Print JSON: a list of the findings
        #[arg(long)]
        json: bool,
    },
    /// Say what is on a chart
    Describe {
        /// The chart file; - for standard input
        file: PathBuf,
        /// Print JSON
        #[arg(long)]
        json: bool,
    },
}

/// Carries out a chart command.
pub(crate) fn run(command: ChartCommand, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    match command {
        ChartCommand::Make { seed, character, size, tide, difficulty, title, output, force } => {
            let (width_km, height_km) = size;
            let wishes = Wishes { title, width_km, height_km, character, tide, difficulty };
            let chart = make(seed, &wishes)?;
            put(&output, &format::write(&chart), overwrite(force), io)
        }
        ChartCommand::Import(args) => import::run(&args, io),
        ChartCommand::Check { file, json } => check(&file, json, io),
        ChartCommand::Describe { file, json } => describe(&file, json, io),
    }
}

/// The findings, one a line or as JSON.
fn check(file: &Path, json: bool, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let found = files::check_chart(Source::or_input(file, &mut io.input))?;
    if json {
        let found: Vec<_> = found.iter().map(finding).collect();
        serde_json::to_writer_pretty(&mut *io.output, &found)?;
        writeln!(io.output)?;
    } else if found.is_empty() {
        writeln!(io.output, "nothing found")?;
    } else {
        for finding in &found {
            writeln!(io.output, "{finding}")?;
        }
    }
    Ok(if found.is_empty() { Exit::Done } else { Exit::No })
}

fn finding(found: &files::FileError) -> serde_json::Value {
    let place = found.place.as_ref();
    serde_json::json!({
        "file": found.file,
        "line": place.map(|place| place.line),
        "column": place.map(|place| place.column),
        "message": found.why.to_string(),
    })
}

fn describe(file: &Path, json: bool, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let folders = Folders::of_user().ok();
    let source = Source::or_input(file, &mut io.input);
    let mut bar = Bar::new(io.terminal);
    let opened = files::open_coast(source, folders.as_ref(), &mut |read, size| {
        bar.show(read, size);
        ControlFlow::Continue(())
    });
    bar.clear();
    let opened = opened?;
    let description = Description::new(&opened.chart, &opened.coast);
    let description = description.context("this chart cannot be measured")?;
    if json {
        serde_json::to_writer_pretty(&mut *io.output, &description)?;
        writeln!(io.output)?;
    } else {
        write!(io.output, "{description}")?;
    }
    Ok(Exit::Done)
}

fn overwrite(force: bool) -> Overwrite {
    if force { Overwrite::Yes } else { Overwrite::No }
}

/// Puts text into a file, or on standard output for `-`.
fn put(output: &Path, text: &str, overwrite: Overwrite, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    if output == Path::new("-") {
        io.output.write_all(text.as_bytes())?;
    } else {
        save_text(output, text, overwrite)?;
    }
    Ok(Exit::Done)
}
