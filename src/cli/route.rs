//! Routes, printed.

mod csv;
mod json;
mod text;

#[cfg(test)]
mod tests;

use ::chart::Chart;
use clap::{Args, Subcommand};
use jiff::Timestamp;
use plan::table::Style;
use plan::{Departure, Reckoning, Route};

use crate::day::{Day, DayArgs, Through};
use crate::{Exit, Io};

/// What to do with a route.
#[derive(Debug, Subcommand)]
pub enum RouteCommand {
    /// Print the table of legs
    Show(ShowArgs),
}

/// Which route to show, and how.
#[derive(Debug, Args)]
pub struct ShowArgs {
    #[command(flatten)]
    day: DayArgs,
    /// Print JSON
    #[arg(long, conflicts_with = "csv")]
    json: bool,
    /// Print CSV
    #[arg(long)]
    csv: bool,
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
    let RouteCommand::Show(ShowArgs { day, json, csv }) = command;
    show(&Day::open(&day, io)?, json, csv, io)
}

fn show(day: &Day, json: bool, csv: bool, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let Day { route, chart, through, untold, .. } = day;
    // Of a departure that is a guess no passage is made.
    let assumed = route.departure.is_none();
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

/// A route without a departure is shown for today, as a new one would begin.
fn dated(mut route: Route) -> Route {
    if let (None, Some(first)) = (&route.departure, route.points.first()) {
        let zone = plan::nautical_zone(first.at.lon);
        let today = Timestamp::now().to_zoned_datetime(zone).date();
        route.departure = Departure::usual(today, first.at).ok();
    }
    route
}
