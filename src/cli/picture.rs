//! Draw a part of a chart at a scale: SVG, PNG or PDF.

use clap::Args;

use crate::{Exit, Io};

/// Draw a part of a chart at a scale: SVG, PNG or PDF.
#[derive(Debug, Args)]
pub struct PictureArgs {}

/// Carries it out.
pub(crate) fn run(_: PictureArgs, _: &mut Io<'_>) -> anyhow::Result<Exit> {
    anyhow::bail!("not yet")
}
