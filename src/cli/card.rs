//! Make the deck card of a route: PDF, SVG, PNG, text or Markdown.

#[cfg(test)]
mod tests;

use anyhow::bail;
use clap::{Args, ValueEnum};
use paper::card::{Card, Content, Sides, Size};
use paper::map::Inks;

use crate::day::{Day, DayArgs};
use crate::output::{Format, PagesOut};
use crate::{Exit, Io};

/// Which route, and how it is put on paper.
///
/// A chart of the route true to a stated scale, the legs with bearings, distances and times, what to
/// steer through the stream, the day's tide, the ways out, and daylight: PDF, SVG, PNG, text of 80
/// columns or Markdown, by the ending of the file's name. SVG and PNG have a file for each page,
/// NAME-1.svg, NAME-2.svg. Without a file, the text goes to standard output.
#[derive(Debug, Args)]
pub struct CardArgs {
    #[command(flatten)]
    day: DayArgs,
    /// The size of its pages
    #[arg(long, value_enum, default_value_t = CardSize::A5)]
    size: CardSize,
    /// On how many sides it is to have room; a long route may take more, since no type is under seven points
    #[arg(long, value_name = "N", default_value_t = 2, value_parser = clap::value_parser!(u8).range(1..=2))]
    sides: u8,
    /// Print in colours too; a black copy of it says the same
    #[arg(long)]
    colour: bool,
    #[command(flatten)]
    to: PagesOut,
}

/// The size of a card, upright (ISO 216).
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum CardSize {
    /// 105 by 148 mm
    A6,
    /// 148 by 210 mm
    A5,
    /// 210 by 297 mm
    A4,
}

/// Makes the card.
pub(crate) fn run(args: CardArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let format = args.to.output.format(&Format::OF_PAGES, io)?;
    let day = Day::open(&args.day, io)?;
    if day.route.points.is_empty() {
        bail!("the route has no points yet: there is nothing to put on a card");
    }
    day.say_what_is_missing(io);
    let plan = day.plan();
    match format {
        Format::Text => args.to.output.write(Content::of(&plan).text().as_bytes(), io),
        Format::Markdown => args.to.output.write(Content::of(&plan).markdown().as_bytes(), io),
        _ => {
            let pages = args.card().set(&plan)?;
            if pages.len() > usize::from(args.sides) {
                let (has, sides) = (pages.len(), args.sides);
                let _ = writeln!(
                    io.errors,
                    "the card has {has} sides: so long a route has no room on {sides}"
                );
            }
            args.to.write(&pages, &plan.title(), format, io)
        }
    }
}

impl CardArgs {
    const fn card(&self) -> Card {
        Card {
            size: match self.size {
                CardSize::A6 => Size::A6,
                CardSize::A5 => Size::A5,
                CardSize::A4 => Size::A4,
            },
            sides: if self.sides == 1 { Sides::One } else { Sides::Two },
            inks: if self.colour { Inks::Colour } else { Inks::Black },
        }
    }
}
