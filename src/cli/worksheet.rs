//! Make a practice sheet: the chart at true size, questions to work by hand, and the answers.

#[cfg(test)]
mod tests;

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use nav::Pace;
use paper::leaflet::Paper;
use paper::map::{Inks, Scale};
use paper::worksheet::{Lots, Water, Wishes, Worksheet};
use plan::Route;

use crate::output::{Format, PagesOut};
use crate::when::{Clock, Day};
use crate::{Exit, Io, bar, day, picture, place};

/// Which points, and how they are put on paper.
///
/// A blank copy of the chart at true size with lettered points, to be worked with ruler, romer and
/// protractor; cells for a pen; and on pages of their own the worked answers: references, bearings from
/// the grid and by compass, distances, minutes and clock times. The points are those of a route, or are
/// put on the water by chance: the same seed gives the same points. PDF, SVG, PNG, text of 80 columns or
/// Markdown, by the ending of the file's name. SVG and PNG have a file for each page, NAME-1.svg,
/// NAME-2.svg. Without a file, the text goes to standard output.
#[derive(Debug, Args)]
pub struct WorksheetArgs {
    /// The chart, or a shore alone; the built-in practice chart if none is given, or by the word practice
    chart: Option<PathBuf>,
    /// The route whose points are asked for; - for standard input; points by chance if none is given
    route: Option<PathBuf>,
    /// The scale; if none is given the largest usual one that has room, of points by chance 1:50,000
    #[arg(long, value_name = "1:N", value_parser = picture::scale)]
    scale: Option<Scale>,
    /// The size of its pages, upright or lying as fits
    #[arg(long, value_enum, default_value_t = SheetSize::A4)]
    size: SheetSize,
    /// The part of the chart for points by chance: a name on the chart, a reference or a position; about a landing by
    /// chance if none is given
    #[arg(long, value_name = "PLACE", conflicts_with = "route")]
    around: Option<String>,
    /// What chance begins with: the same seed gives the same points
    #[arg(long, value_name = "N", default_value_t = 1, conflicts_with = "route")]
    seed: u64,
    /// How many legs are asked for
    #[arg(
        long, value_name = "N", default_value_t = 6, conflicts_with = "route",
        value_parser = clap::value_parser!(u8).range(1..=Lots::MOST_LEGS as i64)
    )]
    questions: u8,
    /// The group's pace; the route's own, or three knots, if none is given
    #[arg(long, value_name = "PACE")]
    pace: Option<Pace>,
    /// The date of the variation; the route's own, or today, if none is given
    #[arg(long, value_name = "DATE")]
    date: Option<Day>,
    /// When the first point is left; as the route has it, or at nine, if no time is given
    #[arg(long, value_name = "TIME")]
    leave: Option<Clock>,
    /// Where the answers are
    #[arg(long, value_enum, default_value_t = Answers::With)]
    answers: Answers,
    /// Print in colours too; a black copy of it says the same
    #[arg(long)]
    colour: bool,
    #[command(flatten)]
    to: PagesOut,
}

/// The size of a page (ISO 216).
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum SheetSize {
    /// 210 by 297 mm
    A4,
    /// 297 by 420 mm
    A3,
}

impl SheetSize {
    pub(crate) const fn paper(self) -> Paper {
        match self {
            SheetSize::A4 => Paper::A4,
            SheetSize::A3 => Paper::A3,
        }
    }
}

/// Where the answers are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Answers {
    /// On further pages
    With,
    /// In a file of their own, NAME-answers.pdf
    Apart,
    /// Nowhere
    None,
    /// Alone
    Only,
}

/// Makes the sheet.
pub(crate) fn run(args: WorksheetArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let format = args.to.output.format(&Format::OF_PAGES, io)?;
    let apart = match args.answers {
        Answers::Apart => Some(args.to.beside("answers")?),
        _ => None,
    };
    for to in [Some(&args.to), apart.as_ref()].into_iter().flatten() {
        to.output.ready()?;
    }
    let opened = picture::chart(args.chart.as_deref(), io.terminal)?;
    let route = picture::route(args.route.as_deref(), &opened, io)?;
    let water = Water { chart: &opened.chart, coast: &opened.coast };
    let sheet = bar::while_long(io.terminal, "laying out", || args.sheet(water, route))?;
    args.say_what_is_missing(&sheet, io);
    let (first, rest) = match args.answers {
        Answers::With => (sheet.whole(), None),
        Answers::None => (sheet.questions(), None),
        Answers::Only => (sheet.answers(), None),
        Answers::Apart => (sheet.questions(), apart.map(|to| (sheet.answers(), to))),
    };
    args.to.write_document(&first, || Ok(sheet.pages(&first)?), format, io)?;
    if let Some((answers, to)) = rest {
        to.write_document(&answers, || Ok(sheet.pages(&answers)?), format, io)?;
    }
    Ok(Exit::Done)
}

impl WorksheetArgs {
    fn sheet<'a>(&self, water: Water<'a>, route: Option<Route>) -> anyhow::Result<Worksheet<'a>> {
        let paper = self.size.paper();
        let inks = if self.colour { Inks::Colour } else { Inks::Black };
        let wishes = Wishes { paper, scale: self.scale, inks };
        let Some(mut route) = route else {
            return Ok(Worksheet::of_lots(water, &self.lots(water)?, &wishes)?);
        };
        route.departure = Some(day::departure(&route, self.date, self.leave)?);
        route.pace = self.pace.unwrap_or(route.pace);
        Ok(Worksheet::of_route(water, &route, &wishes)?)
    }

    fn lots(&self, water: Water<'_>) -> anyhow::Result<Lots> {
        let around = self.around.as_deref().map(|place| place::meant(water.chart, place));
        let mut route = Route::new(&water.chart.title);
        let middle = water.chart.position(water.chart.extent.center())?;
        route.points.push(plan::Waypoint::new(middle));
        Ok(Lots {
            seed: self.seed,
            legs: usize::from(self.questions),
            around: around.transpose()?,
            pace: self.pace.unwrap_or(route.pace),
            departure: Some(day::departure(&route, self.date, self.leave)?),
            variation: route.variation,
        })
    }

    /// Says that there are fewer legs than were asked for.
    fn say_what_is_missing(&self, sheet: &Worksheet<'_>, io: &mut Io<'_>) {
        let (has, asked) = (sheet.legs(), usize::from(self.questions));
        if self.route.is_none() && has < asked {
            let _ = writeln!(
                io.errors,
                "there is open water for {has} legs of {asked}: another part of the chart, or another scale, may have more"
            );
        }
    }
}
