//! Make a route of what another tool wrote: GPX, GeoJSON or CSV.

mod choice;

#[cfg(test)]
mod tests;

use std::ops::ControlFlow;
use std::path::PathBuf;

use ::chart::{Chart, Point};
use anyhow::{Context, bail};
use clap::{Args, ValueEnum};
use files::{Folders, Source};
use paper::exchange::{Foreign, Form, Taken};
use plan::Route;

use crate::bar::Bar;
use crate::coast::Distance;
use crate::day::{Water, last_session, own_chart};
use crate::output::Output;
use crate::{Exit, Harmless, Io};
use choice::ChoiceArgs;

/// What to take, and where to put the route.
///
/// Reads GPX 1.1 or 1.0, GeoJSON (RFC 7946) or CSV with a header of lat and lon, or of grid references. A track is
/// thinned to the points that make its shape. What is not in the route is said on standard error.
#[derive(Debug, Args)]
pub struct ImportArgs {
    /// The file; - for standard input
    file: PathBuf,
    #[command(flatten)]
    choice: ChoiceArgs,
    /// The chart to lay the route on; else the route's own, the one last open, or the built-in one
    #[arg(long, value_name = "CHART")]
    chart: Option<PathBuf>,
    /// What the route is called; as in the file if no title is given
    #[arg(long, value_name = "TITLE")]
    name: Option<String>,
    /// How far the route may stray from a track
    #[arg(long, value_name = "DISTANCE", default_value = "20 m")]
    within: Distance,
    /// What the file is; told by its name or its beginning if nothing is said
    #[arg(long, value_enum, value_name = "FORM")]
    from: Option<From>,
    /// The route file to write; - for standard output
    #[arg(short, long, value_name = "FILE", default_value = "-")]
    output: PathBuf,
    /// Replace the file if it is there
    #[arg(long)]
    force: bool,
}

/// A form of file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum From {
    /// GPX 1.1 or 1.0
    Gpx,
    /// GeoJSON (RFC 7946)
    Geojson,
    /// A table of points
    Csv,
}

/// Makes the route.
pub(crate) fn run(args: ImportArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let output = Output::to(args.output.clone(), args.force);
    output.ready()?;
    let named = args.chart.as_deref().map(|path| Water::open(path, io.terminal)).transpose()?;
    let named = named.map(|water| water.chart);
    let foreign = read(&args, named.as_ref(), io)?;
    let name = args.file.display().to_string();
    let choice = args.choice.of(&foreign).with_context(|| format!("{name}: choose"))?;
    let chart = match named {
        Some(chart) => chart,
        None => chart_for(choice.own_route(&foreign), io)?,
    };
    let taken = choice.taken(&foreign, args.within.0, &chart).with_context(|| name.clone())?;
    let Taken { mut route, left_out } = taken;
    if let Some(title) = &args.name {
        route = titled(route, title)?;
    }
    let said = foreign.left_out.iter().chain(&left_out).cloned().chain(choice.beside(&foreign));
    for said in said {
        writeln!(io.errors, "{}", Harmless(said))?;
    }
    on_chart(&route, &chart, io)?;
    output.write(plan::format::write(&route).as_bytes(), io)
}

/// What the file holds, read with a bar where that takes long.
fn read(args: &ImportArgs, chart: Option<&Chart>, io: &mut Io<'_>) -> anyhow::Result<Foreign> {
    let form = args.from.map(|form| match form {
        From::Gpx => Form::Gpx,
        From::Geojson => Form::GeoJson,
        From::Csv => Form::Csv,
    });
    let mut bar = Bar::new(io.terminal);
    let source = Source::or_input(&args.file, &mut io.input);
    let grid = chart.map(|chart| &chart.grid);
    let read = files::open_foreign_on(source, form, grid, &mut |read, size| {
        bar.show(read, size);
        ControlFlow::Continue(())
    });
    bar.clear();
    Ok(read?)
}

/// The chart of a route that this program wrote; else the one last open, or the built-in one.
fn chart_for(own: Option<&Route>, io: &Io<'_>) -> anyhow::Result<Chart> {
    let session = last_session(Folders::of_user().ok().as_ref());
    if let Some(route) = own {
        return Ok(own_chart(route, None, &session, io.terminal)?.chart);
    }
    match &session.chart {
        Some(path) => Ok(Water::open(path, io.terminal)?.chart),
        None => Ok(::chart::practice()?),
    }
}

fn titled(route: Route, title: &str) -> anyhow::Result<Route> {
    let mut document = plan::Document::new(route)?;
    document.apply(plan::Edit::SetTitle(title.to_owned()))?;
    Ok(document.route().clone())
}

/// Says which points lie off the chart; a route with none on it is refused.
fn on_chart(route: &Route, chart: &Chart, io: &mut Io<'_>) -> anyhow::Result<()> {
    let off = |at: nav::Position| match chart.grid.forward(at) {
        Ok(on) => {
            let (x, y) = (on.point.easting.as_metres(), on.point.northing.as_metres());
            !covers(chart, Point { x, y })
        }
        Err(_) => true,
    };
    let off: Vec<usize> = (1..)
        .zip(&route.points)
        .filter_map(|(number, point)| off(point.at).then_some(number))
        .collect();
    if off.is_empty() {
        return Ok(());
    }
    let (count, points) = (off.len(), route.points.len());
    let title = &chart.title;
    if count == points {
        bail!("no point of it lies on the chart “{title}”; name another with --chart");
    }
    let first = off.first().copied().unwrap_or_default();
    let said =
        format!("{count} of {points} points lie off the chart “{title}”, point {first} the first");
    writeln!(io.errors, "{}", Harmless(said))?;
    Ok(())
}

fn covers(chart: &Chart, at: Point) -> bool {
    let (least, most) = (chart.extent.min(), chart.extent.max());
    (least.x..=most.x).contains(&at.x) && (least.y..=most.y).contains(&at.y)
}
