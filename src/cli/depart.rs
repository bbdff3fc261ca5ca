//! When to leave: every start of a day, judged by limits.

mod csv;
mod json;
mod limits;
mod many;
mod remarks;
mod rows;
mod strip;
mod text;

#[cfg(test)]
mod tests;

use std::path::PathBuf;

use ::chart::water::Tides;
use clap::Args;
use files::{Folders, Source};
use jiff::tz::TimeZone;
use plan::depart::{Days, Departures, Every, Start, Starts};
use plan::unrolled::Ground;
use plan::{Course, Limits, Route};

use crate::compare::PaceOrProfile;
use crate::day::{self, Water};
use crate::tide::Origin;
use crate::when::{self, Day, Zone};
use crate::{Exit, Io};

/// Which route, when, and within what limits.
///
/// Every start of a day: how long the passage takes through the changing stream, when it lands, what
/// it meets, and whether it keeps within the limits; the best start, which is the quickest within
/// them, and the latest. Within the limits means what you set and no more. Exit is 1 when no start
/// keeps within them.
#[derive(Debug, Args)]
pub struct DepartArgs {
    /// The route file; - for standard input; the demonstration on the practice chart if none is given
    route: Option<PathBuf>,
    /// The chart; the route's own if none is given
    #[arg(long, value_name = "CHART")]
    chart: Option<PathBuf>,
    /// The day; the route's own, or today, if none is given
    #[arg(long, value_name = "DATE")]
    date: Option<Day>,
    /// How many days
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u16).range(1..=31))]
    days: u16,
    /// How far apart the starts are, from 1 min to 24 h
    #[arg(long, value_name = "TIME", default_value = "10min", value_parser = every)]
    every: Every,
    /// The clock's time zone, by name or offset; the route's own, or the nautical zone of its launch,
    /// if none is given
    #[arg(long, value_name = "ZONE", allow_hyphen_values = true)]
    zone: Option<Zone>,
    /// The pace, or the name of a profile that compare has kept; the route's own if none is given
    #[arg(long, value_name = "PACE|PROFILE")]
    pace: Option<PaceOrProfile>,
    #[command(flatten)]
    limits: limits::LimitArgs,
    /// Draw with the signs of every keyboard alone
    #[arg(long, conflicts_with_all = ["json", "csv"])]
    ascii: bool,
    /// Print JSON
    #[arg(long, conflicts_with = "csv")]
    json: bool,
    /// Print CSV
    #[arg(long)]
    csv: bool,
}

/// `10min`, `10`, `1h`.
fn every(text: &str) -> Result<Every, String> {
    let wrong = || format!("“{text}” is no time; write minutes, 10min, or 1h");
    let every = nav::text::parse_duration(text).map_err(|_| wrong())?;
    Every::minutes(every.as_mins()).map_err(|error| error.to_string())
}

/// Everything that is printed.
struct Report<'a> {
    origin: Origin,
    /// What the tide is told from, a line for each port of the chart that hangs on no other.
    told: Vec<String>,
    route: &'a Route,
    limits: Limits,
    every: Every,
    zone: TimeZone,
    days: Vec<Starts>,
    signs: strip::Signs,
    course: &'a Course,
}

impl Report<'_> {
    /// The best start of all days: the quickest of each day's best.
    fn best(&self) -> Option<&Start> {
        let best = self.days.iter().filter_map(Starts::best);
        best.min_by_key(|start| start.landing.map(|landing| landing.took))
    }
}

/// Prints the starts of a route.
pub(crate) fn run(args: DepartArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let (route, Water { chart, coast }) = opened(&args, io)?;
    let limits = args.limits.over(route.limits)?;
    let tides = Tides::of(&chart)?;
    let ground = Ground { chart: &chart, coast: &coast, tides: Some(&tides) };
    let course = Course::new(&route, &ground);
    let zone = args.zone.clone().map_or_else(|| course.zone().clone(), |zone| zone.0);
    let own = route.departure.as_ref().map(|it| Day(it.moment().date()));
    let first = when::day(args.date.or(own), &zone);
    let days = Days { first, count: args.days, zone: zone.clone(), every: args.every };
    let starts = Departures::of(&course, &ground)?.days(&days, limits)?;
    let report = Report {
        origin: Origin::of(&chart),
        told: tides.told(first),
        route: &route,
        limits,
        every: args.every,
        zone,
        days: starts,
        signs: if args.ascii { strip::Signs::Ascii } else { strip::Signs::Blocks },
        course: &course,
    };
    match (args.json, args.csv) {
        (true, _) => json::write(&report, io.output)?,
        (_, true) => csv::write(&report, io.output)?,
        _ => text::write(&report, io.output)?,
    }
    Ok(if report.best().is_some() { Exit::Done } else { Exit::No })
}

/// The route that is asked for, with its chart; the demonstration if none is.
fn opened(args: &DepartArgs, io: &mut Io<'_>) -> anyhow::Result<(Route, Water)> {
    let mut route = match &args.route {
        Some(path) => files::open_route(Source::or_input(path, &mut io.input))?,
        None => plan::demonstration()?,
    };
    if let Some(pace) = &args.pace {
        // Its rests are the route's own.
        let rest = route.pace.rest_per_hour();
        route.pace = plan::written_pace(pace.pace()?.with_rest_per_hour(rest)?)?;
    }
    let session = day::last_session(Folders::of_user().ok().as_ref());
    let water = day::own_chart(&route, args.chart.as_deref(), &session, io.terminal)?;
    Ok((route, water))
}
