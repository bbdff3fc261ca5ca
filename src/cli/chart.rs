//! Charts: made, imported, checked, described.

use std::path::PathBuf;

use clap::Subcommand;

use crate::{Exit, Io};

/// What to do with a chart.
#[derive(Debug, Subcommand)]
pub enum ChartCommand {
    /// Make an invented chart from a seed, the same on every machine
    Make {
        /// The seed: each number is another archipelago
        #[arg(long, value_name = "N")]
        seed: u64,
        /// The chart's title
        #[arg(long)]
        title: Option<String>,
        /// The chart file to write; standard output if none is given
        #[arg(short, long, value_name = "FILE", default_value = "-")]
        output: PathBuf,
        /// Replace the file if it is there
        #[arg(long)]
        force: bool,
    },
    /// Make a chart of a real shore, from GeoJSON (RFC 7946)
    Import {
        /// The GeoJSON file of polygons or lines; - for standard input
        file: PathBuf,
        /// The grid: EPSG:27700, UTM:30N, MGRS ...
        #[arg(long)]
        grid: String,
        /// The chart file to write; - for standard output
        #[arg(short, long, value_name = "FILE")]
        output: PathBuf,
        /// The chart's title
        #[arg(long)]
        title: Option<String>,
        /// Replace the file if it is there
        #[arg(long)]
        force: bool,
        /// Point to the shore file instead of holding the shore
        #[arg(long)]
        beside: bool,
    },
    /// Check a chart, and say what is wrong with it
    Check {
        /// The chart file; - for standard input
        file: PathBuf,
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
pub(crate) fn run(_command: ChartCommand, _io: &mut Io<'_>) -> anyhow::Result<Exit> {
    anyhow::bail!("charts cannot be worked on from the command line yet")
}
