//! Draw a part of a chart at a scale: SVG, PNG or PDF.

mod part;
mod sheet;

#[cfg(test)]
mod tests;

use std::path::{Path, PathBuf};

use clap::Args;
use files::Source;
use paper::map::{Chartlet, Inks, Scale};
use plan::Route;

use crate::day::Water;
use crate::output::{Format, PagesOut};
use crate::{Exit, Io, bar};
use part::PartArgs;
use sheet::Paper;
pub(crate) use sheet::scale;

/// Of what, how large, and where to.
///
/// A part of a chart on a page of its own, with grid, latitudes and longitudes, scale bars and norths,
/// true to its scale: SVG, PNG or PDF, by the ending of the file's name; without a file, SVG on standard
/// output. Without a part, all of the route if there is one, and else all of the chart. With a scale the
/// page is as large as the part takes; with a size the scale is the largest round one at which the part
/// has room; with both it shows what has room about the middle. Without either the page is an A4.
#[derive(Debug, Args)]
pub struct PictureArgs {
    /// The chart, or a shore alone; the built-in practice chart if none is given, or by the word practice
    chart: Option<PathBuf>,
    /// A route to be drawn on it; - for standard input
    route: Option<PathBuf>,
    #[command(flatten)]
    part: PartArgs,
    /// The scale, true on the ground at the middle
    #[arg(long, value_name = "1:N", value_parser = sheet::scale)]
    scale: Option<Scale>,
    /// The page: a6 to a3, as it fits best upright or lying, or millimetres across and down, 210x297
    #[arg(long, value_name = "SIZE")]
    size: Option<Paper>,
    /// Print in black alone, greys and textures in place of colours
    #[arg(long)]
    black: bool,
    #[command(flatten)]
    to: PagesOut,
}

/// The formats of a picture, that of standard output first.
const FORMATS: [Format; 3] = [Format::Svg, Format::Png, Format::Pdf];

/// Draws it.
pub(crate) fn run(args: PictureArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let format = args.to.output.format(&FORMATS, io)?;
    args.to.output.ready()?;
    let water = chart(args.chart.as_deref(), io.terminal)?;
    let route = route(args.route.as_deref(), &water, io)?;
    let extent = args.part.extent(&water.chart, route.as_ref())?;
    let inks = if args.black { Inks::Black } else { Inks::Colour };
    let chartlet = Chartlet { inks, ..Chartlet::of(&water.chart, &water.coast, route.as_ref()) };
    let sheet = sheet::sheet(args.size, args.scale, extent);
    let page =
        bar::while_long(io.terminal, "drawing", || paper::picture(&chartlet, extent, sheet))?;
    args.to.write(&[page], &water.chart.title, format, io)
}

/// The chart that is named, or the built-in one.
pub(crate) fn chart(named: Option<&Path>, terminal: bool) -> anyhow::Result<Water> {
    match named {
        Some(path) if path != Path::new("practice") || path.exists() => Water::open(path, terminal),
        _ => Ok(Water::of(::chart::practice()?)),
    }
}

/// The route, if one is named, which must be laid on this chart.
pub(crate) fn route(
    named: Option<&Path>,
    water: &Water,
    io: &mut Io<'_>,
) -> anyhow::Result<Option<Route>> {
    let Some(path) = named else { return Ok(None) };
    let route = files::open_route(Source::or_input(path, &mut io.input))?;
    route.check_chart(&water.chart)?;
    Ok(Some(route))
}
