//! A route laid on its water: what the commands that print a plan open, and what they make of it.

#[cfg(test)]
mod tests;

use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use ::chart::Chart;
use ::chart::coast::Coast;
use ::chart::water::Tides;
use anyhow::Context;
use clap::Args;
use files::{Folders, Session, Source};
use jiff::civil::Time;
use jiff::tz::TimeZone;
use paper::card::Plan;
use plan::profile::{self, Profile};
use plan::unrolled::Ground;
use plan::{Course, Departure, Passage, Route};

use crate::bar::Bar;
use crate::tide::Origin;
use crate::when::{self, Clock};
use crate::{Harmless, Io};

/// Which route, on which chart, and when.
#[derive(Debug, Clone, Default, Args)]
pub(crate) struct DayArgs {
    /// The route file; - for standard input; the one last open if none is given
    route: Option<PathBuf>,
    /// The chart; the route's own if none is given
    #[arg(long, value_name = "CHART")]
    chart: Option<PathBuf>,
    /// The day; the route's own if none is given
    #[arg(long, value_name = "DATE")]
    date: Option<when::Day>,
    /// When the group leaves, on the route's clock; as the route has it if no time is given
    #[arg(long, value_name = "TIME")]
    leave: Option<Clock>,
}

/// A chart with its shore, indexed.
pub(crate) struct Water {
    pub(crate) chart: Chart,
    pub(crate) coast: Arc<Coast>,
}

/// A route on its water, with all that a plan is made of.
pub(crate) struct Day {
    pub(crate) route: Route,
    pub(crate) chart: Chart,
    pub(crate) coast: Arc<Coast>,
    /// The chart's tides, if they can be told.
    pub(crate) tides: Option<Tides>,
    /// The passage through the stream: nothing where no departure is set, or the chart has no streams.
    pub(crate) through: Option<Through>,
    /// Why there is none, if it is not that.
    pub(crate) untold: Option<String>,
    /// The paces that groups made.
    profiles: Vec<Profile>,
}

/// A passage with the course that it is made on.
pub(crate) struct Through {
    pub(crate) course: Course,
    pub(crate) passage: Passage,
    /// What the tide is told from, in sentences.
    pub(crate) told: Vec<String>,
}

impl Day {
    /// The route that is asked for on its chart.
    ///
    /// # Errors
    /// Where either cannot be read, or the one is not laid on the other.
    pub(crate) fn open(args: &DayArgs, io: &mut Io<'_>) -> anyhow::Result<Day> {
        let folders = Folders::of_user().ok();
        let session = last_session(folders.as_ref());
        let path = match &args.route {
            Some(path) => path.clone(),
            None => last_open(&session, folders.as_ref())?,
        };
        let mut route = files::open_route(Source::or_input(&path, &mut io.input))?;
        let water = own_chart(&route, args.chart.as_deref(), &session, io.terminal)?;
        args.set_departure(&mut route)?;
        // A file of profiles that cannot be read takes nothing from the route; `compare --profiles` says what is wrong.
        let profiles = folders.as_ref().and_then(|at| files::open_profiles(at).ok());
        Ok(Day { profiles: profiles.unwrap_or_default(), ..Day::new(route, water) })
    }

    /// A route on the chart that it is laid on.
    pub(crate) fn new(route: Route, Water { chart, coast }: Water) -> Day {
        let profiles = Vec::new();
        let mut day =
            Day { route, chart, coast, tides: None, through: None, untold: None, profiles };
        match Tides::of(&day.chart) {
            Ok(tides) => match day.through(&tides) {
                Ok(through) => (day.tides, day.through) = (Some(tides), through),
                Err(why) => (day.tides, day.untold) = (Some(tides), Some(why)),
            },
            Err(why) if day.route.departure.is_none() || day.chart.streams.is_empty() => {
                day.untold = Some(format!("no tide: {why}"));
            }
            Err(why) => day.untold = Some(format!("{NO_PASSAGE}: {why}")),
        }
        day
    }

    /// Says on standard error what a reader may miss in what is made of it.
    pub(crate) fn say_what_is_missing(&self, io: &mut Io<'_>) {
        let mut say = |words: &str| drop(writeln!(io.errors, "{}", Harmless(words.to_owned())));
        if self.route.departure.is_none() {
            say(
                "the route has no departure: no clock times, no tide, no light; --date and --leave give one",
            );
        }
        if let Some(why) = &self.untold {
            say(why);
        }
    }

    /// What cards and sheets are made of.
    pub(crate) fn plan(&self) -> Plan<'_> {
        Plan {
            route: &self.route,
            chart: &self.chart,
            coast: &self.coast,
            tides: self.tides.as_ref(),
            passage: self.through.as_ref().map(|through| (&through.course, &through.passage)),
            profile: profile::of_pace(&self.profiles, self.route.pace),
        }
    }

    fn through(&self, tides: &Tides) -> Result<Option<Through>, String> {
        let ground = Ground { chart: &self.chart, coast: &self.coast, tides: Some(tides) };
        let sailed = plan::sail(&self.route, &ground);
        let sailed = sailed.map_err(|why| format!("{NO_PASSAGE}: {why}"))?;
        Ok(sailed.map(|(course, passage)| {
            let date = passage.departs.to_zoned_datetime(course.zone().clone()).date();
            let told = tides.told(date);
            let told = told.iter().map(|told| format!("Tide and stream are told {told}."));
            let told = told.chain([Origin::of(&self.chart).said()]).collect();
            Through { course, passage, told }
        }))
    }
}

const NO_PASSAGE: &str = "no passage through the stream";

impl Through {
    /// What the figures of a passage leave out.
    pub(crate) const LEFT_OUT: &str = "Predicted, not measured. Left out: waves, surge, a river in flood, eddies close in, and how the \
         wind changes; the stream may turn early or late. The official tide tables and stream atlases \
         come first.";

    /// What the reader should know, and where it comes to nothing.
    pub(crate) fn notes(&self) -> Vec<String> {
        let halt = self.passage.halt.as_ref().map(|halt| halt.words(&self.course));
        let halt = halt.map(|words| format!("the passage does not arrive: {words}"));
        let warnings = self.passage.warnings.iter().map(ToString::to_string);
        halt.into_iter().chain(warnings).collect()
    }
}

impl DayArgs {
    /// The day and the time that are asked for in place of the route's own.
    fn set_departure(&self, route: &mut Route) -> anyhow::Result<()> {
        if self.date.is_none() && self.leave.is_none() {
            return Ok(());
        }
        route.departure = Some(departure(route, self.date, self.leave)?);
        Ok(())
    }
}

/// The departure on a day and at a time, each the route's own where none is asked for; of a route without a departure
/// today's, at nine on the clock of its start.
pub(crate) fn departure(
    route: &Route,
    date: Option<when::Day>,
    leave: Option<Clock>,
) -> anyhow::Result<Departure> {
    let own = route.departure.as_ref().map(Departure::moment);
    let nautical = || route.points.first().map(|first| plan::nautical_zone(first.at.lon));
    let zone = own.map(|own| own.time_zone().clone()).or_else(nautical).unwrap_or(TimeZone::UTC);
    let date = when::day(date.or(own.map(|own| when::Day(own.date()))), &zone);
    let usual = own.map_or_else(|| Time::constant(9, 0, 0, 0), |own| own.time());
    let time = leave.map_or(usual, |clock| clock.0);
    Ok(Departure::new(date.to_datetime(time), zone)?)
}

/// Where this user left off.
pub(crate) fn last_session(folders: Option<&Folders>) -> Session {
    folders.map_or_else(Session::default, |folders| Session::open(folders).0)
}

/// The route that the screen would open.
pub(crate) fn last_open(session: &Session, folders: Option<&Folders>) -> anyhow::Result<PathBuf> {
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
    terminal: bool,
) -> anyhow::Result<Water> {
    if let Some(path) = named {
        let water = Water::open(path, terminal)?;
        route.check_chart(&water.chart)?;
        return Ok(water);
    }
    let practice = ::chart::practice()?;
    if route.check_chart(&practice).is_ok() {
        return Ok(Water::of(practice));
    }
    let last = session.chart.as_ref().and_then(|path| Water::open(path, terminal).ok());
    last.filter(|water| route.check_chart(&water.chart).is_ok()).with_context(|| {
        format!("the route is laid on the chart “{}”; name its file with --chart", route.chart)
    })
}

impl Water {
    /// The chart in a file: a chart, or a shore of any size.
    pub(crate) fn open(path: &Path, terminal: bool) -> anyhow::Result<Water> {
        let folders = Folders::of_user().ok();
        let mut bar = Bar::new(terminal);
        let opened = files::open_coast(path, folders.as_ref(), &mut |read, size| {
            bar.show(read, size);
            ControlFlow::Continue(())
        });
        bar.clear();
        let opened = opened?;
        Ok(Water { chart: opened.chart, coast: opened.coast })
    }

    /// A chart that holds its shore.
    pub(crate) fn of(chart: Chart) -> Water {
        let coast = Arc::new(Coast::of(&chart));
        Water { chart, coast }
    }
}
