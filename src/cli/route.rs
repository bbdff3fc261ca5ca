//! Routes, printed.

mod csv;
mod json;
mod text;
mod through;

#[cfg(test)]
mod tests;

use std::path::{Path, PathBuf};

use ::chart::Chart;
use anyhow::Context;
use clap::Subcommand;
use files::{Folders, Session, Source};
use jiff::Timestamp;
use plan::table::Style;
use plan::{Departure, Reckoning, Route};

use crate::{Exit, Io};
use through::Through;

/// What to do with a route.
#[derive(Debug, Subcommand)]
pub enum RouteCommand {
    /// Print the table of legs
    Show {
        /// The route file; - for standard input; the one last open if none is given
        route: Option<PathBuf>,
        /// The chart that gives the grid; the route's own if none is given
        #[arg(long, value_name = "CHART")]
        chart: Option<PathBuf>,
        /// Print JSON
        #[arg(long, conflicts_with = "csv")]
        json: bool,
        /// Print CSV
        #[arg(long)]
        csv: bool,
    },
}

/// Everything that is printed of a route.
#[derive(Clone, Copy)]
struct Shown<'a> {
    route: &'a Route,
    chart: &'a Chart,
    reckoning: &'a Reckoning,
    /// The passage through the stream, if there is one.
    through: Option<&'a Through>,
    /// Why there is none, if that is to be said.
    untold: Option<&'a str>,
    /// Whether the departure is this program's guess.
    assumed: bool,
    style: Style,
}

impl Shown<'_> {
    /// What the reader of the legs should know.
    fn warnings(&self) -> Vec<String> {
        let reckoned = self.reckoning.warnings.iter().map(ToString::to_string);
        reckoned.chain(self.untold.map(str::to_owned)).collect()
    }
}

/// Carries out a route command.
pub(crate) fn run(command: RouteCommand, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let RouteCommand::Show { route, chart, json, csv } = command;
    let folders = Folders::of_user();
    let session = folders.as_ref().map_or_else(|_| Session::default(), |at| Session::open(at).0);
    let path = match route {
        Some(path) => path,
        None => last_open(&session, folders.ok().as_ref())?,
    };
    let route = files::open_route(Source::or_input(&path, &mut io.input))?;
    let chart = own_chart(&route, chart.as_deref(), &session)?;
    show(&route, &chart, json, csv, io)
}

fn show(
    route: &Route,
    chart: &Chart,
    json: bool,
    csv: bool,
    io: &mut Io<'_>,
) -> anyhow::Result<Exit> {
    let assumed = route.departure.is_none();
    // Of a departure that is a guess no passage is made.
    let (through, untold) = match through::through(route, chart) {
        Ok(through) => (through, None),
        Err(why) => (None, Some(why)),
    };
    let route = dated(route.clone());
    let reckoning = plan::reckon(&route, &chart.grid);
    let style = Style::default();
    let (through, untold) = (through.as_ref(), untold.as_deref());
    let shown =
        Shown { route: &route, chart, reckoning: &reckoning, through, untold, assumed, style };
    match (json, csv) {
        (true, _) => json::write(&shown, io.output)?,
        (_, true) => csv::write(&shown, io.output)?,
        _ => text::write(&shown, io.output)?,
    }
    Ok(Exit::Done)
}

/// How a leg runs, for a program.
const fn runs(along: bool) -> &'static str {
    if along { "along the shore" } else { "straight" }
}

/// The route that the screen would open.
fn last_open(session: &Session, folders: Option<&Folders>) -> anyhow::Result<PathBuf> {
    if let Some(route) = &session.route {
        return Ok(route.clone());
    }
    let folders = folders.context("there is no route to show; name its file")?;
    Ok(folders.route_for(&::chart::practice()?.title)?)
}

/// The chart that is named, or else the built-in or the last one, whichever the route is laid on.
pub(crate) fn own_chart(
    route: &Route,
    named: Option<&Path>,
    session: &Session,
) -> anyhow::Result<Chart> {
    if let Some(path) = named {
        let chart = files::open_chart(path)?;
        route.check_chart(&chart)?;
        return Ok(chart);
    }
    let practice = ::chart::practice()?;
    if route.check_chart(&practice).is_ok() {
        return Ok(practice);
    }
    let last = session.chart.as_ref().and_then(|path| files::open_chart(path).ok());
    last.filter(|chart| route.check_chart(chart).is_ok()).with_context(|| {
        format!("the route is laid on the chart “{}”; name its file with --chart", route.chart)
    })
}

/// A route without a departure is shown for today, as a new one would begin.
fn dated(mut route: Route) -> Route {
    if let (None, Some(first)) = (&route.departure, route.points.first()) {
        let zone = plan::nautical_zone(first.at.lon);
        let today = Timestamp::now().to_zoned_datetime(zone).date();
        route.departure = Departure::usual(today, first.at).ok();
    }
    route
}
