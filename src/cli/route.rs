//! Routes, printed.

use std::path::PathBuf;

use clap::Subcommand;

use crate::{Exit, Io};

/// What to do with a route.
#[derive(Debug, Subcommand)]
pub enum RouteCommand {
    /// Print the table of legs
    Show {
        /// The route file; - for standard input; the one last open if none is given
        route: Option<PathBuf>,
        /// The chart that gives the grid; the route's own if none is given
        #[arg(long, value_name = "CHART")]
        chart: Option<PathBuf>,
        /// Print JSON
        #[arg(long, conflicts_with = "csv")]
        json: bool,
        /// Print CSV
        #[arg(long)]
        csv: bool,
    },
}

/// Carries out a route command.
pub(crate) fn run(_command: RouteCommand, _io: &mut Io<'_>) -> anyhow::Result<Exit> {
    anyhow::bail!("routes cannot be printed yet")
}
