//! Make the deck card of a route: PDF, SVG, text or Markdown.

use clap::Args;

use crate::{Exit, Io};

/// Make the deck card of a route: PDF, SVG, text or Markdown.
#[derive(Debug, Args)]
pub struct CardArgs {}

/// Carries it out.
pub(crate) fn run(_: CardArgs, _: &mut Io<'_>) -> anyhow::Result<Exit> {
    anyhow::bail!("not yet")
}
