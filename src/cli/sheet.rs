//! Make the sheet for the contact ashore: who, where, when, and when to worry.

#[cfg(test)]
mod tests;

use std::path::PathBuf;

use anyhow::bail;
use clap::{Args, ValueEnum};
use files::Source;
use jiff::SignedDuration;
use nav::text::{self, AngleForm};
use paper::leaflet::Paper;
use paper::sheet::{People, Sheet};

use crate::day::{Day, DayArgs};
use crate::output::{Format, PagesOut};
use crate::{Exit, Io};

/// Which route, who goes, and when to worry.
///
/// Who goes and with what, where they should be at each hour, when they are expected, when to raise the alarm, and
/// what to tell the rescue service in the order in which it asks: PDF, SVG, PNG, text of 80 columns or Markdown, by the
/// ending of the file's name. SVG and PNG have a file for each page, NAME-1.svg, NAME-2.svg. Without a file, the text
/// goes to standard output. What is not known is left for a pen, telephone numbers always, unless your own file of
/// people has them.
#[derive(Debug, Args)]
pub struct SheetArgs {
    #[command(flatten)]
    day: DayArgs,
    /// Your own file of people, boats and kit, which is no part of any route; --people-example prints one
    #[arg(long, value_name = "FILE")]
    people: Option<PathBuf>,
    /// For how many people there are lines, where no file names them
    #[arg(long, value_name = "N", default_value_t = Sheet::USUAL_LINES, conflicts_with = "people",
        value_parser = lines)]
    lines: usize,
    /// How long after the time at which they are expected the alarm is raised: the leader's choice
    #[arg(long, value_name = "TIME", default_value = "1 h", value_parser = overdue)]
    overdue: SignedDuration,
    /// How latitudes and longitudes are written
    #[arg(long, value_enum, ignore_case = true, default_value_t = Form::Dm)]
    form: Form,
    /// The size of its pages
    #[arg(long, value_enum, default_value_t = SheetSize::A4)]
    size: SheetSize,
    #[command(flatten)]
    to: PagesOut,
    /// Print a file of people, all invented, to begin your own with
    #[arg(long, exclusive = true)]
    people_example: bool,
}

/// How latitudes and longitudes are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Form {
    /// Degrees and minutes, as a rescue service works
    Dm,
    /// Degrees
    D,
    /// Degrees, minutes and seconds
    Dms,
}

/// The size of a sheet, upright (ISO 216).
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum SheetSize {
    /// 210 by 297 mm
    A4,
    /// 148 by 210 mm
    A5,
}

/// Makes the sheet.
pub(crate) fn run(args: SheetArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    if args.people_example {
        io.output.write_all(files::PEOPLE_EXAMPLE.as_bytes())?;
        return Ok(Exit::Done);
    }
    let format = args.to.output.format(&Format::OF_PAGES, io)?;
    let people = people(&args, io)?;
    let day = Day::open(&args.day, io)?;
    if day.route.points.is_empty() {
        bail!("the route has no points yet: there is nothing to tell a contact ashore");
    }
    day.say_what_is_missing(io);
    let leaflet = args.sheet().leaflet(&day.plan(), people.as_ref());
    args.to.write_document(&leaflet, || Ok(leaflet.set(&args.size.paper())?), format, io)
}

/// Who goes, as the user's own file has it.
fn people(args: &SheetArgs, io: &mut Io<'_>) -> anyhow::Result<Option<People>> {
    let Some(path) = &args.people else { return Ok(None) };
    Ok(Some(files::open_people(Source::or_input(path, &mut io.input))?))
}

impl SheetArgs {
    const fn sheet(&self) -> Sheet {
        Sheet { overdue: self.overdue, form: self.form.angles(), lines: self.lines }
    }
}

impl Form {
    const fn angles(self) -> AngleForm {
        match self {
            Form::Dm => AngleForm::DegreesMinutes,
            Form::D => AngleForm::Degrees,
            Form::Dms => AngleForm::DegreesMinutesSeconds,
        }
    }
}

impl SheetSize {
    const fn paper(self) -> Paper {
        match self {
            SheetSize::A4 => Paper::A4,
            SheetSize::A5 => Paper::A5,
        }
    }
}

/// A margin within its bounds.
fn overdue(text: &str) -> Result<SignedDuration, String> {
    let margin = text::parse_duration(text).map_err(|error| error.to_string())?;
    if margin > Sheet::LONGEST_OVERDUE {
        let longest = text::duration(Sheet::LONGEST_OVERDUE);
        return Err(format!("{} is longer than {longest}, the most", text::duration(margin)));
    }
    Ok(margin)
}

/// So many lines.
fn lines(text: &str) -> Result<usize, String> {
    let count = text.parse().ok().filter(|count| (1..=Sheet::MOST_LINES).contains(count));
    count.ok_or_else(|| format!("write a number from 1 to {}", Sheet::MOST_LINES))
}
