//! The arguments of the whole program.

use std::num::NonZeroU16;
use std::path::PathBuf;
use std::str::FromStr;

use clap::{Args, Parser, Subcommand, ValueEnum};
use clap_complete::Shell;

use crate::{
    CardArgs, ChartCommand, CoastArgs, CompareArgs, DepartArgs, DrillArgs, ExportArgs, ImportArgs,
    PictureArgs, ReckonArgs, RouteCommand, SheetArgs, StreamArgs, TideArgs, WorksheetArgs,
};

/// Lay out a sea kayak day on a gridded chart: bearing, distance, grid reference and time, live.
///
/// Without a command it opens the screen; without a chart, the built-in one, where you left off.
///
/// For planning and teaching. Not for navigation.
#[derive(Debug, Parser)]
#[command(
    name = "strandline",
    version,
    args_conflicts_with_subcommands = true,
    max_term_width = 100
)]
pub struct Cli {
    /// What the screen opens.
    #[command(flatten)]
    pub open: Open,
    /// What the screen looks like.
    #[command(flatten)]
    pub look: Look,
    /// A command in place of the screen.
    #[command(subcommand)]
    pub command: Option<Command>,
}

/// The files that the screen opens.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args)]
pub struct Open {
    /// The chart; the built-in practice chart if none is given
    pub chart: Option<PathBuf>,
    /// The route, made when it is not there; the one last open if none is given
    pub route: Option<PathBuf>,
    /// A coach's exercise set: its chart is opened and it begins
    #[arg(long, value_name = "FILE", conflicts_with_all = ["chart", "route"])]
    pub set: Option<PathBuf>,
}

/// What the screen looks like.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args)]
pub struct Look {
    /// The dots that the chart is drawn with, finer or coarser; those used last if none are given
    #[arg(long, value_enum)]
    pub dots: Option<Dots>,
    /// Dark ink on paper, for daylight
    #[arg(long)]
    pub paper: bool,
    /// Your own keys, in RON; keys.ron in the configuration folder if none are given
    #[arg(long = "key-file", value_name = "FILE")]
    pub keys_from: Option<PathBuf>,
    /// How many colours to use
    #[arg(long, alias = "color", value_enum, default_value_t)]
    pub colour: Colour,
}

/// The dots that the chart is drawn with.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, ValueEnum)]
pub enum Dots {
    /// Two by four small dots; in every common font
    #[default]
    Braille,
    /// Two by four blocks (Unicode 16)
    Octant,
    /// Two by three blocks (Unicode 13)
    Sextant,
    /// Two by two blocks
    Quadrant,
    /// One by two blocks
    HalfBlock,
    /// One dot
    Dot,
    /// Letters and signs of every keyboard
    Ascii,
}

/// How many colours to use.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, ValueEnum)]
pub enum Colour {
    /// What the terminal says it has; none where NO_COLOR is set
    #[default]
    Auto,
    /// One colour
    Never,
    /// The terminal's own sixteen
    #[value(name = "16")]
    Sixteen,
    /// The 256 of the indexed palette
    #[value(name = "256")]
    Indexed,
    /// True colour
    True,
}

/// What to do in place of opening the screen.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Make, import, check or describe a chart
    #[command(subcommand)]
    Chart(ChartCommand),
    /// Print a route
    #[command(subcommand)]
    Route(RouteCommand),
    /// Measure a shore: along it, straight, and as a pair of dividers would find it
    Coast(CoastArgs),
    /// The tide at a port: high and low waters, range, springs and neaps
    Tide(TideArgs),
    /// The tidal stream at a station or between stations: hours, turns, slack water
    Stream(StreamArgs),
    /// When to leave: every start of a day, judged by limits that you set
    Depart(DepartArgs),
    /// Make the deck card of a route: PDF, SVG, text or Markdown
    Card(CardArgs),
    /// Make the sheet for the contact ashore: who, where, when, and when to worry
    Sheet(SheetArgs),
    /// Make a practice sheet: the chart at true size, questions to work by hand, and the answers
    Worksheet(WorksheetArgs),
    /// Draw a part of a chart at a scale: SVG, PNG or PDF
    Picture(PictureArgs),
    /// Write a route for other tools: GPX, GeoJSON or CSV
    Export(ExportArgs),
    /// Make a route of what another tool wrote: GPX, GeoJSON or CSV
    Import(ImportArgs),
    /// Compare a recorded track with the plan, and keep the pace that the group made
    Compare(CompareArgs),
    /// Practise: questions on a chart, marked, with the mistake named
    Drill(DrillArgs),
    /// The arithmetic: a line in, a line out
    Reckon(ReckonArgs),
    /// Draw what the screen shows, without a terminal
    Screen(ScreenArgs),
    /// Print completions for a shell
    Completions {
        /// The shell
        shell: Shell,
    },
    /// Print the manual page, in roff: `strandline manual | man -l -`
    Manual,
}

/// What to draw, and where to.
#[derive(Debug, Clone, Args)]
pub struct ScreenArgs {
    /// What the screen opens.
    #[command(flatten)]
    pub open: Open,
    /// What the screen looks like.
    #[command(flatten)]
    pub look: Look,
    /// Columns by rows
    #[arg(long, value_name = "COLUMNSxROWS", default_value = "80x24")]
    pub size: Size,
    /// The keys to press first, as the key table writes them, with spaces between
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub keys: String,
    /// The record of practice to show, as drill export writes it
    #[arg(long, value_name = "FILE")]
    pub results: Option<PathBuf>,
    /// The picture to write: SVG, or text for a name that does not end in .svg; - for text on
    /// standard output
    #[arg(short, long, value_name = "FILE", default_value = "-")]
    pub output: PathBuf,
    /// Replace the file if it is there
    #[arg(long)]
    pub force: bool,
}

/// A screen's size in cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// Cells across.
    pub columns: NonZeroU16,
    /// Cells down.
    pub rows: NonZeroU16,
}

impl Size {
    /// The most cells either way: more than any wall of screens.
    const MOST: u16 = 1000;
}

/// `200x60`
impl FromStr for Size {
    type Err = String;

    fn from_str(text: &str) -> Result<Size, String> {
        let bounded =
            |cells: &str| cells.parse().ok().filter(|cells: &NonZeroU16| cells.get() <= Size::MOST);
        let (columns, rows) = text.split_once(['x', '×']).unwrap_or((text, ""));
        match (bounded(columns), bounded(rows)) {
            (Some(columns), Some(rows)) => Ok(Size { columns, rows }),
            _ => Err("write columns by rows, each from 1 to 1000, such as 200x60".to_owned()),
        }
    }
}
