//! The deck card: a route on paper for the day afloat.
//!
//! A [`Content`] is what a card says, in words, made once of a [`Plan`]. [`Card::set`] sets it on pages,
//! [`Content::text`] in 80 columns and [`Content::markdown`] as Markdown: all three say the same.

mod arrange;
mod content;
mod curve;
mod extent;
mod facts;
mod leg;
mod markdown;
mod plain;
mod setting;
mod tables;
mod tide;
mod ways;

#[cfg(test)]
mod fits;
#[cfg(test)]
pub(crate) mod tests;

pub use content::{Content, LegLine, PointLine};
pub use extent::of as around;
pub use tide::{Event, HighOrLow, TideOfDay};
pub use ways::{Lies, WayOut};

use chart::coast::Coast;
use chart::water::Tides;
use chart::{Chart, OffGrid};
use plan::passage::Passage;
use plan::profile::Profile;
use plan::{Course, Route};

use crate::draw::{self, Page};
use crate::map::{Chartlet, Inks};

/// What a card is made of.
#[derive(Debug, Clone, Copy)]
pub struct Plan<'a> {
    /// The route.
    pub route: &'a Route,
    /// The chart that it is laid on.
    pub chart: &'a Chart,
    /// The chart's shore, indexed.
    pub coast: &'a Coast,
    /// The chart's tides, if they can be told.
    pub tides: Option<&'a Tides>,
    /// The passage with its course; without one, times go by the pace alone.
    pub passage: Option<(&'a Course, &'a Passage)>,
    /// The profile whose pace is the route's, if one is.
    pub profile: Option<&'a Profile>,
}

impl Plan<'_> {
    /// What a card of it is called as a document: `Deck card: Round the sound`.
    #[must_use]
    pub fn title(&self) -> String {
        match self.route.title.as_str() {
            "" => format!("Deck card, {}", self.chart.title),
            title => format!("Deck card: {title}"),
        }
    }
}

/// The size of a card, upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Size {
    /// 210 by 297 mm.
    A4,
    /// 148 by 210 mm.
    A5,
    /// 105 by 148 mm.
    #[default]
    A6,
}

/// How many sides a card is to have. A long route may take more, since nothing is left out and no type is smaller than
/// seven points.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Sides {
    /// One.
    One,
    /// Two.
    #[default]
    Two,
}

/// How a card is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Card {
    /// The size of its pages.
    pub size: Size,
    /// How many there are to be.
    pub sides: Sides,
    /// With which inks.
    pub inks: Inks,
}

impl Size {
    /// All of them, the smallest first.
    pub const ALL: [Size; 3] = [Size::A6, Size::A5, Size::A4];

    /// What it is called, `A5`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Size::A4 => "A4",
            Size::A5 => "A5",
            Size::A6 => "A6",
        }
    }

    /// The sheet (ISO 216).
    #[must_use]
    pub const fn sheet(self) -> draw::Size {
        match self {
            Size::A4 => draw::Size::new(210.0, 297.0),
            Size::A5 => draw::Size::new(148.0, 210.0),
            Size::A6 => draw::Size::new(105.0, 148.0),
        }
    }
}

impl Card {
    /// The pages of a card.
    ///
    /// # Errors
    /// [`OffGrid`] where the chart's grid does not reach the middle of the route.
    pub fn set(&self, plan: &Plan<'_>) -> Result<Vec<Page>, OffGrid> {
        let content = Content::of(plan);
        let chartlet =
            Chartlet { inks: self.inks, ..Chartlet::of(plan.chart, plan.coast, Some(plan.route)) };
        arrange::pages(self, &content, &chartlet)
    }
}
