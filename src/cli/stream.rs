//! The tidal stream at a station, or at any place between stations.

mod csv;
mod hours;
mod json;
mod text;

#[cfg(test)]
mod tests;

use std::path::PathBuf;

use ::chart::coast::Coast;
use ::chart::water::{Known, Shares, Station, Tides};
use ::chart::{Chart, Point};
use anyhow::{Context, anyhow};
use clap::{ArgGroup, Args};
use files::Source;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::stream::{Greatest, StreamTurn, Under};
use nav::triangle::Stream;
use nav::{Figures, GridPoint, Length, Speed};

use crate::tide::{Origin, pick, zone_of};
use crate::when::{self, Clock, Day, Zone};
use crate::{Exit, Io, place};

/// Where the stream is wanted, and when.
///
/// A row for each hour of the day, the turns, slack water and the greatest rates. Between stations
/// the stream is blended from those within 5 km that are not behind land; where there is none,
/// nothing is known and the exit is 1. Eddies close in are not known. Of a tidal gate or a race, the
/// hours of the day in which it is open, or lies down.
#[derive(Debug, Args)]
#[command(group(ArgGroup::new("where").args(["at", "station", "gate", "race"]).required(true)))]
pub struct StreamArgs {
    /// The chart; - for standard input; the built-in practice chart if none is given
    chart: Option<PathBuf>,
    /// The place: a grid reference, a latitude and longitude, or a name on the chart
    #[arg(long, value_name = "REF", allow_hyphen_values = true)]
    at: Option<String>,
    /// The station of this name
    #[arg(long, value_name = "NAME")]
    station: Option<String>,
    /// The tidal gate of this name: when it is open and when shut
    #[arg(long, value_name = "NAME", conflicts_with = "time")]
    gate: Option<String>,
    /// The race of this name: when it lies down, runs and is at its worst
    #[arg(long, value_name = "NAME", conflicts_with = "time")]
    race: Option<String>,
    /// The day; today if none is given
    #[arg(long, value_name = "DATE")]
    date: Option<Day>,
    /// One time of the day in place of every hour
    #[arg(long, value_name = "TIME")]
    time: Option<Clock>,
    /// The clock's time zone, by name or offset; the nautical zone of the chart if none is given
    #[arg(long, value_name = "ZONE", allow_hyphen_values = true)]
    zone: Option<Zone>,
    /// The rate in knots under which water is slack
    #[arg(long, value_name = "KNOTS", default_value = "0.5", value_parser = slack)]
    slack: Speed,
    /// Print JSON
    #[arg(long, conflicts_with = "csv")]
    json: bool,
    /// Print CSV
    #[arg(long)]
    csv: bool,
}

fn slack(text: &str) -> Result<Speed, String> {
    let knots: Option<f64> = text.parse().ok().filter(|knots| (0.0..=30.0).contains(knots));
    let speed = knots.and_then(|knots| Speed::from_knots(knots).ok());
    speed.ok_or_else(|| "write a rate of 0 to 30 knots, such as 0.5".to_owned())
}

/// Everything that is printed.
struct Report {
    origin: Origin,
    /// The station's name, or the place as it was typed.
    name: String,
    /// Its grid reference, or empty where the grid has none.
    reference: String,
    /// Whose streams they are.
    parts: Vec<Part>,
    /// What the tide is told from at the ports whose high waters they go by.
    told: Vec<String>,
    from: Timestamp,
    zone: TimeZone,
    hours: Vec<(Timestamp, Stream)>,
    /// Whether a whole day is shown, with what comes in it.
    whole: bool,
    turns: Vec<StreamTurn>,
    limit: Speed,
    slack: Vec<Under>,
    greatest: Vec<Greatest>,
}

/// A station that has a share.
struct Part {
    name: String,
    part: f64,
    away: Length,
    known: Known,
}

/// Where the stream is wanted.
struct Place {
    name: String,
    at: Point,
    shares: Shares,
}

/// Prints the stream at a place.
pub(crate) fn run(args: StreamArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let chart = match &args.chart {
        Some(path) => files::open_chart(Source::or_input(path, &mut io.input))?,
        None => ::chart::practice()?,
    };
    let tides = Tides::of(&chart)?;
    if args.gate.is_some() || args.race.is_some() {
        return hours::run(&args, &chart, &tides, io);
    }
    let found = find(&args, &chart, &tides)?;
    if found.shares.is_empty() {
        writeln!(io.errors, "{}", crate::Harmless(unknown(&chart, &tides, &found)))?;
        return Ok(Exit::No);
    }
    let report = report(&args, &chart, &tides, found)?;
    if report.hours.is_empty() {
        writeln!(io.errors, "{}", crate::Harmless(untold(&report, &tides)))?;
        return Ok(Exit::No);
    }
    match (args.json, args.csv) {
        (true, _) => json::write(&report, io.output)?,
        (_, true) => csv::write(&report, io.output)?,
        _ => text::write(&report, io.output)?,
    }
    Ok(Exit::Done)
}

fn find(args: &StreamArgs, chart: &Chart, tides: &Tides) -> anyhow::Result<Place> {
    if let Some(name) = &args.station {
        let names: Vec<&str> = tides.stations().iter().map(Station::name).collect();
        let index = pick("station", &names, name)?;
        let station = &tides.stations()[index];
        let name = station.name().to_owned();
        return Ok(Place { name, at: station.at(), shares: Tides::only(index) });
    }
    let name = args.at.as_deref().unwrap_or_default().trim();
    let at = place::meant(chart, name).context("--at")?;
    let shares = tides.shares(&Coast::of(chart), at);
    Ok(Place { name: name.to_owned(), at, shares })
}

/// That nothing is known of a place, and where the nearest station is.
fn unknown(chart: &Chart, tides: &Tides, found: &Place) -> String {
    let name = &found.name;
    if Coast::of(chart).on_land(found.at) {
        return format!("{name} is on land; streams are told of places afloat");
    }
    let apart = |station: &Station| (station.at() - found.at).x.hypot((station.at() - found.at).y);
    let nearest = tides.stations().iter().min_by(|a, b| apart(a).total_cmp(&apart(b)));
    match nearest {
        None => "the chart has no streams".to_owned(),
        Some(nearest) => format!(
            "nothing is known of the stream at {name}: no station within 5 km has clear water \
             between; the nearest is {}",
            nearest.name()
        ),
    }
}

/// Why no hour has a stream: a port without springs and neaps, or a printed table that does not go so
/// far.
fn untold(report: &Report, tides: &Tides) -> String {
    let name = &report.name;
    let of_part = |part: &Part| tides.station(&part.name).map(|index| &tides.stations()[index]);
    let why = report.parts.iter().filter_map(of_part).find_map(Station::unknown);
    match why {
        Some(why) => format!("the stream at {name} is not known: {why}"),
        None => {
            format!("nothing is known of the stream at {name} then: {}", report.told.join("; "))
        }
    }
}

/// What the stream does at a place on the day.
fn report(args: &StreamArgs, chart: &Chart, tides: &Tides, found: Place) -> anyhow::Result<Report> {
    let zone = args.zone.clone().map_or_else(|| zone_of(chart), |zone| Ok(zone.0))?;
    let date = when::day(args.date, &zone);
    let start = |date: jiff::civil::Date| date.to_zoned_datetime(zone.clone());
    let day = [start(date)?.timestamp(), start(date.tomorrow()?)?.timestamp()];
    let [from, to] = match args.time {
        Some(clock) => [when::instant(date, clock, &zone)?; 2],
        None => day,
    };
    // Half a day beyond both ends, so that what the day begins and ends in is seen whole.
    let half = SignedDuration::from_hours(12);
    let flows = tides.flows(day[0].checked_sub(half)?, day[1].checked_add(half)?)?;
    let run = flows.run(&found.shares).ok_or_else(|| anyhow!("nothing is known there"))?;
    let times = when::every(from, to, SignedDuration::from_hours(1));
    let hours = times.filter_map(|at| Some((at, flows.at(&found.shares, at)?))).collect();
    let within = |at: Timestamp| (from..to).contains(&at);
    let ports = tides.goes_by(&found.shares);
    let gauges = ports.iter().filter_map(|port| tides.gauges().get(*port));
    let point = GridPoint::from_metres(found.at.x, found.at.y)?;
    let part = |share: &::chart::water::Share| {
        let station = tides.stations().get(share.station)?;
        let (part, away, known) = (share.part, share.away, station.known());
        Some(Part { name: station.name().to_owned(), part, away, known })
    };
    Ok(Report {
        origin: Origin::of(chart),
        name: found.name,
        reference: chart.grid.reference(point, Figures::Six).unwrap_or_default(),
        parts: found.shares.parts().iter().filter_map(part).collect(),
        told: gauges.map(|gauge| gauge.told(date)).collect(),
        from,
        zone,
        hours,
        whole: args.time.is_none(),
        turns: run.turns().into_iter().filter(|turn| within(turn.at)).collect(),
        limit: args.slack,
        slack: run.under(args.slack).into_iter().filter(|it| within(it.least_at)).collect(),
        greatest: run.greatest().into_iter().filter(|it| within(it.at)).collect(),
    })
}

/// What must be said of the figures.
fn remarks(report: &Report) -> Vec<String> {
    let mut said = Vec::new();
    if let [first, _, ..] = report.parts.as_slice() {
        let (count, away) = (report.parts.len(), nav::text::kilometres(first.away));
        said.push(format!(
            "Blended from {count} stations, the largest share {away} off: between stations nobody \
             has measured."
        ));
    }
    let by_rule = report.parts.iter().any(|part| part.known == Known::GreatestRate);
    said.extend(remarks_of(by_rule, &report.told, &report.origin));
    said
}

/// What must be said of any figures that go by the stream: whether one grows by rule, what the tide
/// is told from, where they are from, and what is left out.
fn remarks_of(by_rule: bool, told: &[String], origin: &Origin) -> Vec<String> {
    let mut said = Vec::new();
    if by_rule {
        said.push(
            "Where no more is known than the greatest spring rate, the stream grows by the rule of \
             fifty and ninety, as much both ways, in proportion to the day's range."
                .to_owned(),
        );
    }
    for told in told {
        said.push(format!("The tide that it goes by is told {told}."));
    }
    said.push(format!("{} Predicted, not measured.", origin.said()));
    said.push(
        "Left out: weather, surge, a river in flood, and eddies close in; turns may come early or \
         late. The official tables and atlases come first."
            .to_owned(),
    );
    said
}

/// `hourly rows`.
const fn known_word(known: Known) -> &'static str {
    match known {
        Known::Hourly => "hourly rows",
        Known::Constants => "constants",
        Known::GreatestRate => "greatest rate alone",
    }
}
