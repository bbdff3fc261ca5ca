//! Make a route of what another tool wrote: GPX, GeoJSON or CSV.

use clap::Args;

use crate::{Exit, Io};

/// Make a route of what another tool wrote: GPX, GeoJSON or CSV.
#[derive(Debug, Args)]
pub struct ImportArgs {}

/// Carries it out.
pub(crate) fn run(_: ImportArgs, _: &mut Io<'_>) -> anyhow::Result<Exit> {
    anyhow::bail!("not yet")
}
