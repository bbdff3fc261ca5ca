//! A recorded track against the plan, and the pace that is kept of it.

mod csv;
mod json;
mod pace;
mod profiles;
mod text;
mod words;

#[cfg(test)]
mod tests;

use std::ops::ControlFlow;
use std::path::{Path, PathBuf};

use ::chart::water::Tides;
use anyhow::{Context, bail};
use clap::Args;
use files::{Folders, Source};
use jiff::tz::TimeZone;
use paper::exchange::Form;
use plan::Route;
use plan::compare::{Comparison, Settings, compare};
use plan::profile::{Profile, Trip};
use plan::track::Track;
use plan::unrolled::Ground;

use crate::bar::{Bar, while_long};
use crate::coast::Distance;
use crate::day::{self, Water};
use crate::{Exit, Harmless, Io};
pub(crate) use pace::PaceOrProfile;

/// Which track, and which route.
///
/// A track in GPX against a route: when each point was passed, where the group left the plan, its pace
/// by stage over the ground and through the water, and the times that the plan would have had from the
/// start that was made. What is wrong with the track is left out and counted; across gaps nothing is
/// made up. The pace can be kept as a profile, to plan the next trip with.
#[derive(Debug, Args)]
pub struct CompareArgs {
    /// The GPX file with the track; - for standard input
    #[arg(required_unless_present = "profiles")]
    track: Option<PathBuf>,
    /// The route file; the one last open if none is given
    route: Option<PathBuf>,
    /// The chart; the route's own if none is given
    #[arg(long, value_name = "CHART")]
    chart: Option<PathBuf>,
    /// Which track of the file, counted from 1; its only one if no number is given
    #[arg(long = "track", value_name = "N", value_parser = clap::value_parser!(u16).range(1..))]
    number: Option<u16>,
    /// How far from the line is off the plan, and how near is by a point: 200m, 0.1NM
    #[arg(long, value_name = "DISTANCE", default_value = "200m", value_parser = off)]
    off: Distance,
    /// Keep the pace in the profile of this name
    #[arg(long, value_name = "NAME")]
    keep: Option<String>,
    /// List the profiles that are kept, each with the pace to plan with
    #[arg(long, conflicts_with_all = ["track", "route", "chart", "number", "keep", "csv"])]
    profiles: bool,
    /// Print text, which is what is printed if nothing is said
    #[arg(long, conflicts_with_all = ["json", "csv"])]
    text: bool,
    /// Print JSON
    #[arg(long, conflicts_with = "csv")]
    json: bool,
    /// Print CSV: a row for each point
    #[arg(long)]
    csv: bool,
}

/// `200m`, not under a receiver's own error nor over what is near by any measure.
fn off(text: &str) -> Result<Distance, String> {
    let distance: Distance = text.parse()?;
    let within = (20.0..=5_000.0).contains(&distance.0.as_metres());
    within.then_some(distance).ok_or_else(|| "write 20m to 5km".to_owned())
}

/// Everything that is printed.
struct Report<'a> {
    track: &'a Track,
    route: &'a Route,
    water: &'a Water,
    tides: Option<&'a Tides>,
    /// Why the chart's tides cannot be told, if they cannot.
    untold: Option<String>,
    compared: &'a Comparison,
    settings: Settings,
    zone: TimeZone,
    /// The profile that the trip was kept in.
    kept: Option<&'a Profile>,
}

/// Prints a comparison.
pub(crate) fn run(args: CompareArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let folders = Folders::of_user().ok();
    let Some(path) = args.track.as_ref().filter(|_| !args.profiles) else {
        return profiles::list(folders.as_ref(), args.json, io);
    };
    if let Some(name) = &args.keep {
        // Before the work: a name that cannot be kept is no reason to have done it.
        Profile::named(name)?;
    }
    let track = tracked(path, args.number, io)?;
    let session = day::last_session(folders.as_ref());
    let from = match &args.route {
        Some(path) => path.clone(),
        None => day::last_open(&session, folders.as_ref())?,
    };
    let route = files::open_route(Source::or_input(&from, &mut io.input))?;
    let water = day::own_chart(&route, args.chart.as_deref(), &session, io.terminal)?;
    let tides = Tides::of(&water.chart);
    let settings = Settings { off: args.off.0, ..Settings::default() };
    let told = tides.as_ref().ok();
    let ground = Ground { chart: &water.chart, coast: &water.coast, tides: told };
    let compared =
        while_long(io.terminal, "compared", || compare(&track, &route, &ground, &settings))?;
    let first = route.points.first().map(|point| plan::nautical_zone(point.at.lon));
    let own = route.departure.as_ref().map(|departure| departure.zone().clone());
    let kept = kept(&args, folders.as_ref(), &track, &route, &compared)?;
    let report = Report {
        track: &track,
        route: &route,
        water: &water,
        tides: told,
        untold: tides.as_ref().err().map(ToString::to_string),
        compared: &compared,
        settings,
        zone: own.or(first).unwrap_or(TimeZone::UTC),
        kept: kept.as_ref(),
    };
    match (args.json, args.csv) {
        (true, _) => json::write(&report, io.output)?,
        (_, true) => csv::write(&report, io.output)?,
        _ => text::write(&report, io.output)?,
    }
    Ok(Exit::Done)
}

/// Keeps the trip, where that is asked for.
fn kept(
    args: &CompareArgs,
    folders: Option<&Folders>,
    track: &Track,
    route: &Route,
    compared: &Comparison,
) -> anyhow::Result<Option<Profile>> {
    let Some(name) = &args.keep else { return Ok(None) };
    let folders = folders.context("this user has no home folder to keep a profile in")?;
    let title = if route.title.is_empty() { track.name() } else { &route.title };
    let trip = Trip::of(compared, route, title)?;
    Ok(Some(files::keep_trip(folders, name, trip)?))
}

/// The track that is asked for.
fn tracked(path: &Path, number: Option<u16>, io: &mut Io<'_>) -> anyhow::Result<Track> {
    let mut bar = Bar::new(io.terminal);
    let opened = files::open_foreign(
        Source::or_input(path, &mut io.input),
        Some(Form::Gpx),
        &mut |read, size| {
            bar.show(read, size);
            ControlFlow::Continue(())
        },
    );
    bar.clear();
    let mut tracks = opened?.tracks;
    let file = Harmless(path.to_string_lossy().into_owned());
    let told = |tracks: &[Track]| {
        let told = tracks.iter().enumerate().map(|(index, track)| {
            let name = if track.name().is_empty() { "without a name" } else { track.name() };
            format!("{} {name} ({} fixes)", index + 1, track.fixes().len())
        });
        told.take(20).collect::<Vec<_>>().join("; ")
    };
    let index = match number {
        Some(number) if usize::from(number) <= tracks.len() => usize::from(number) - 1,
        Some(number) => bail!("{file}: there is no track {number}; it has {}", told(&tracks)),
        None if tracks.is_empty() => {
            bail!("{file}: there is no track in it; a track is a trk element with trkpt elements")
        }
        None if tracks.len() > 1 => {
            bail!("{file}: there are several tracks; choose one by --track: {}", told(&tracks))
        }
        None => 0,
    };
    Ok(tracks.swap_remove(index))
}
