//! Make a practice sheet: the chart at true size, questions to work by hand, and the answers.

use clap::Args;

use crate::{Exit, Io};

/// Make a practice sheet: the chart at true size, questions to work by hand, and the answers.
#[derive(Debug, Args)]
pub struct WorksheetArgs {}

/// Carries it out.
pub(crate) fn run(_: WorksheetArgs, _: &mut Io<'_>) -> anyhow::Result<Exit> {
    anyhow::bail!("not yet")
}
