//! Write a route for other tools: GPX, GeoJSON or CSV.

use clap::Args;

use crate::{Exit, Io};

/// Write a route for other tools: GPX, GeoJSON or CSV.
#[derive(Debug, Args)]
pub struct ExportArgs {}

/// Carries it out.
pub(crate) fn run(_: ExportArgs, _: &mut Io<'_>) -> anyhow::Result<Exit> {
    anyhow::bail!("not yet")
}
