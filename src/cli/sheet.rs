//! Make the sheet for the contact ashore: who, where, when, and when to worry.

use clap::Args;

use crate::{Exit, Io};

/// Make the sheet for the contact ashore: who, where, when, and when to worry.
#[derive(Debug, Args)]
pub struct SheetArgs {}

/// Carries it out.
pub(crate) fn run(_: SheetArgs, _: &mut Io<'_>) -> anyhow::Result<Exit> {
    anyhow::bail!("not yet")
}
