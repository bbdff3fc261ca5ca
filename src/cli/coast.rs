//! Shores, measured without the screen.

mod csv;
mod distance;
mod ends;
mod json;
mod text;

#[cfg(test)]
mod tests;

use std::ops::ControlFlow;
use std::path::PathBuf;

use ::chart::Point;
use ::chart::coast::LineKind;
use ::chart::coast::file::Told;
use ::chart::measure::{Measured, Shore, Total, shores, total};
use ::chart::trace::{self, Anchor, Kind, Laid, Way, Wishes};
use anyhow::{Context, bail};
use clap::{ArgGroup, Args};
use files::{Folders, OpenedChart, Source};
use nav::{Area, Length};

use crate::bar::Bar;
use crate::{Exit, Io};
pub(crate) use distance::Distance;
use ends::End;

/// What to measure, and how.
///
/// Lengths are on the ground, by geodesics on WGS 84; the length on the chart's grid stands beside
/// them. Without --from and --to or --feature, every shore of the chart is measured.
#[derive(Debug, Args)]
#[command(group(ArgGroup::new("which").args(["from", "feature"])))]
pub struct CoastArgs {
    /// The chart, or a shore alone: GeoJSON, FlatGeobuf or a shore file; - for a chart on standard
    /// input
    file: PathBuf,
    /// Where to begin: a grid reference, a latitude and longitude, or a name on the chart; the
    /// nearest shore is taken
    #[arg(long, value_name = "REF", requires = "to", allow_hyphen_values = true)]
    from: Option<String>,
    /// Where to end, along the shore the shorter way
    #[arg(long, value_name = "REF", requires = "from", allow_hyphen_values = true)]
    to: Option<String>,
    /// The whole shore of the land of this name
    #[arg(long, value_name = "NAME")]
    feature: Option<String>,
    /// How far the dividers are opened, with units, commas between
    #[arg(
        long,
        value_name = "LENGTHS",
        value_delimiter = ',',
        default_value = "2km,1km,500m,200m,100m",
        requires = "which"
    )]
    step: Vec<Distance>,
    /// How far off the shore the line runs, as a boat goes
    #[arg(long, value_name = "LENGTH", default_value = "0m", requires = "from")]
    stand_off: Distance,
    /// The longest chord from headland to headland; 0m is every vertex
    #[arg(long, value_name = "LENGTH", default_value = "0m", requires = "from")]
    smooth: Distance,
    /// Go the longer way round; from a place to itself, once round
    #[arg(long, requires = "from")]
    other_way: bool,
    /// Print JSON
    #[arg(long, conflicts_with = "csv")]
    json: bool,
    /// Print CSV
    #[arg(long)]
    csv: bool,
}

/// Everything that is printed.
struct Report<'a> {
    opened: &'a OpenedChart,
    /// The piece that was asked for, if one was.
    piece: Option<Piece>,
    /// What was measured: the piece, the shores of the name, or all, the longest first.
    shores: Vec<Shore>,
    total: Total,
    /// What must be said of the line.
    remarks: Vec<String>,
}

/// A piece of shore between two places.
struct Piece {
    ends: [End; 2],
    wishes: Wishes,
    way: Way,
}

/// Measures what was asked for.
pub(crate) fn run(args: CoastArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let folders = Folders::of_user().ok();
    let source = Source::or_input(&args.file, &mut io.input);
    let mut bar = Bar::new(io.terminal);
    let opened = files::open_coast(source, folders.as_ref(), &mut |read, size| {
        bar.show(read, size);
        ControlFlow::Continue(())
    });
    bar.clear();
    let opened = opened?;
    let mut report = measured(&args, &opened)?;
    if opened.told != Told::default() {
        report.remarks.insert(0, format!("Of the file: {}.", opened.told));
    }
    // A piece is walked along and is what it is; of a whole ring the area depends on it.
    if report.piece.is_none()
        && let Some(crossed) = files::rings_that_cross_themselves(&opened.coast)
    {
        report.remarks.push(format!("Of the file: {crossed}."));
    }
    match (args.json, args.csv) {
        (true, _) => json::write(&report, io.output)?,
        (_, true) => csv::write(&report, io.output)?,
        _ => text::write(&report, io.output)?,
    }
    Ok(Exit::Done)
}

fn measured<'a>(args: &CoastArgs, opened: &'a OpenedChart) -> anyhow::Result<Report<'a>> {
    if opened.coast.is_empty() {
        bail!("the chart has no shore to measure");
    }
    let steps: Vec<Length> = args.step.iter().map(|step| step.0).collect();
    if let (Some(from), Some(to)) = (&args.from, &args.to) {
        return piece(args, opened, [from, to], &steps);
    }
    let feature = args.feature.as_deref().map(str::trim);
    let steps = if feature.is_some() { &steps[..] } else { &[] };
    let shores = shores(&opened.coast, feature, steps)?;
    if let (Some(name), true) = (feature, shores.is_empty()) {
        bail!(nothing_named(opened, name));
    }
    let total = total(&shores);
    Ok(Report { opened, piece: None, shores, total, remarks: Vec::new() })
}

/// What there is in place of a name that no shore has.
fn nothing_named(opened: &OpenedChart, name: &str) -> String {
    const MOST: usize = 5;
    let lines = opened.coast.lines().filter(|line| line.kind() == LineKind::Land);
    let mut named: Vec<(Length, &str)> = lines
        .map(|line| (line.length(), line.name()))
        .filter(|(_, name)| !name.is_empty())
        .collect();
    named.sort_by(|a, b| b.0.as_metres().total_cmp(&a.0.as_metres()));
    let named: Vec<&str> = named.iter().take(MOST).map(|(_, name)| *name).collect();
    match named.as_slice() {
        [] => format!("no shore is named “{name}”: none on this chart has a name"),
        named => format!("no shore is named “{name}”; there is {}", named.join(", ")),
    }
}

fn piece<'a>(
    args: &CoastArgs,
    opened: &'a OpenedChart,
    [from, to]: [&String; 2],
    steps: &[Length],
) -> anyhow::Result<Report<'a>> {
    let ends = [End::find(opened, from).context("--from")?, End::find(opened, to).context("--to")?];
    let wishes =
        Wishes { stand_off: args.stand_off.0.as_metres(), step: args.smooth.0.as_metres() };
    let way = if args.other_way { Way::Longer } else { Way::Shorter };
    let anchors = [0, 1].map(|end| (Anchor::Shore(ends[end].on), way));
    let laid = trace::lay(&opened.coast, &anchors, wishes, &trace::patient)?;
    let closed = laid.points.len() > 3 && laid.points.first() == laid.points.last();
    let measured = Measured::new(opened.coast.grid(), &laid.points, closed, steps)?;
    let name = opened.coast.line(ends[0].on.line).map_or("", |line| line.name()).to_owned();
    let land = measured.area.unwrap_or(Area::ZERO);
    let shores = vec![Shore { name, measured, lakes: 0, land }];
    let total = total(&shores);
    let piece = Some(Piece { ends, wishes, way });
    Ok(Report { opened, piece, shores, total, remarks: remarks(&laid) })
}

/// What a reader must know of how the line lies.
fn remarks(laid: &Laid) -> Vec<String> {
    let mut remarks = Vec::new();
    let mut say = |what: &str| {
        if !remarks.iter().any(|said| said == what) {
            remarks.push(what.to_owned());
        }
    };
    for piece in &laid.pieces {
        match piece.kind {
            Kind::Straight { touch: Some(_), .. } | Kind::Straight { ashore: true, .. } => {
                say("The ends lie on different shores: joined by a straight line, over land.");
            }
            Kind::Straight { .. } => {
                say("The ends lie on different shores: joined by a straight line.");
            }
            Kind::Along { off: Some(off), .. } if off.narrow => {
                say("In places there is no room for the stand-off: the line keeps to the shore.");
            }
            Kind::Along { .. } | Kind::Stub => {}
        }
    }
    remarks
}

/// What a measured line is called.
fn title(shore: &Shore) -> &str {
    match (shore.name.as_str(), shore.measured.closed) {
        ("", true) => "(no name)",
        ("", false) => "(an open shore)",
        (name, _) => name,
    }
}

/// The position of a place on the chart.
fn position(opened: &OpenedChart, at: Point) -> anyhow::Result<nav::Position> {
    Ok(opened.chart.position(at)?)
}
