//! Write a route for other tools: GPX, GeoJSON or CSV.

use anyhow::bail;
use clap::{Args, ValueEnum};
use paper::exchange::{Export, Form, With, Written};

use crate::day::{Day, DayArgs};
use crate::output::{Format, Output};
use crate::{Exit, Harmless, Io};

/// Which route, and what goes with it.
///
/// GPX 1.1, GeoJSON (RFC 7946) or CSV, by the ending of the file's name; GPX on standard output. GPX and GeoJSON
/// hold all of a route: other programs see its points and lines, and `strandline import` gets it back whole.
/// CSV holds the points alone. What is not in the file is said on standard error.
///
/// Not for navigation: a receiver shows points and lines, not rocks or streams.
#[derive(Debug, Args)]
pub struct ExportArgs {
    #[command(flatten)]
    day: DayArgs,
    /// Things of the chart to go with it, with commas between
    #[arg(long, value_enum, value_delimiter = ',', value_name = "THINGS")]
    with: Vec<Things>,
    /// The most points that the receiver takes: lines along the shore are thinned to that, and by how much they
    /// stray is said
    #[arg(long, value_name = "N")]
    points: Option<usize>,
    /// The line of the whole route as a track as well, for receivers that take few points in a route
    #[arg(long)]
    track: bool,
    #[command(flatten)]
    output: Output,
}

/// Things of a chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Things {
    /// Where a kayak can land
    Landings,
    /// What to keep clear of
    Hazards,
    /// Fixed and floating marks
    Marks,
    /// Names
    Places,
}

impl From<Things> for With {
    fn from(things: Things) -> With {
        match things {
            Things::Landings => With::Landings,
            Things::Hazards => With::Hazards,
            Things::Marks => With::Marks,
            Things::Places => With::Places,
        }
    }
}

/// The formats, that of standard output first.
const FORMATS: [Format; 3] = [Format::Gpx, Format::GeoJson, Format::Csv];

/// Writes the file.
pub(crate) fn run(args: ExportArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let format = args.output.format(&FORMATS, io)?;
    args.output.ready()?;
    let day = Day::open(&args.day, io)?;
    let points = day.route.points.len();
    if points == 0 {
        bail!("the route has no points yet: there is nothing to write");
    }
    if let Some(most) = args.points.filter(|&most| most < points) {
        bail!("the route has {points} points, and --points {most} leaves no room for them");
    }
    let with: Vec<With> = args.with.iter().copied().map(With::from).collect();
    let export = Export {
        route: &day.route,
        chart: &day.chart,
        with: &with,
        most_points: args.points,
        track: args.track,
    };
    let Written { text, left_out } = export.write(match format {
        Format::GeoJson => Form::GeoJson,
        Format::Csv => Form::Csv,
        _ => Form::Gpx,
    });
    for said in left_out {
        writeln!(io.errors, "{}", Harmless(said))?;
    }
    args.output.write(text.as_bytes(), io)
}
