//! Practise: questions on a chart, marked, with the mistake named.

use clap::Args;

use crate::{Exit, Io};

/// Practise: questions on a chart, marked, with the mistake named.
#[derive(Debug, Args)]
pub struct DrillArgs {}

/// Carries it out.
pub(crate) fn run(_: DrillArgs, _: &mut Io<'_>) -> anyhow::Result<Exit> {
    anyhow::bail!("not yet")
}
