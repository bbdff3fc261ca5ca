//! Compare a recorded track with the plan, and keep the pace that the group made.

use clap::Args;

use crate::{Exit, Io};

/// Compare a recorded track with the plan, and keep the pace that the group made.
#[derive(Debug, Args)]
pub struct CompareArgs {}

/// Carries it out.
pub(crate) fn run(_: CompareArgs, _: &mut Io<'_>) -> anyhow::Result<Exit> {
    anyhow::bail!("not yet")
}
