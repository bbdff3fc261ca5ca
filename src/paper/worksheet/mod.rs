//! The practice sheet: a blank copy of the chart at true size with lettered points, questions to work by hand, and the
//! worked answers.
//!
//! Every value comes from the readings of a route ([`plan::reckon`]); what is reckoned here is paper alone: how long
//! a leg is under the ruler, and how much of an error a hand is allowed.

mod answers;
mod layout;
mod lots;
mod questions;
mod romer;
mod straight;
mod working;

#[cfg(test)]
mod tests;

pub(crate) use layout::usual;
pub use lots::Lots;

use chart::coast::Coast;
use chart::{Chart, Extent, OffGrid, Point};
use nav::Figures;
use plan::{Reckoning, Route, reckon};

use crate::draw::{Mm, Page, Pt};
use crate::leaflet::{Block, Leaflet, Paper};
use crate::map::{Chartlet, Frame, Inks, Scale};
use crate::words;

/// The water of a sheet.
#[derive(Debug, Clone, Copy)]
pub struct Water<'a> {
    /// The chart.
    pub chart: &'a Chart,
    /// Its shore, indexed.
    pub coast: &'a Coast,
}

/// How a sheet is to be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wishes {
    /// The paper, upright; a sheet lies on its side where that makes its scale larger.
    pub paper: Paper,
    /// The scale; if none is given the largest usual one that has room.
    pub scale: Option<Scale>,
    /// With which inks.
    pub inks: Inks,
}

/// A sheet.
#[derive(Debug, Clone)]
pub struct Worksheet<'a> {
    water: Water<'a>,
    inks: Inks,
    /// What it is called.
    title: String,
    /// The points and the straight legs between them.
    route: Route,
    reckoning: Reckoning,
    /// The part of the chart that must be on the page.
    need: Extent,
    /// What the chart is drawn by; where it lies on the page is settled as it is drawn.
    frame: Frame,
    paper: Paper,
}

/// The sizes of type that are tried for answers on one page: smaller ones are not for a table to write in.
const SIZES: [Pt; 4] = [Pt(10.0), Pt(9.5), Pt(9.0), Pt(8.5)];

/// A sheet that cannot be made.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum WorksheetError {
    /// The grid does not reach there.
    #[error(transparent)]
    OffGrid(#[from] OffGrid),
    /// A route without a leg.
    #[error("the route has {0} points: a practice sheet takes two or more")]
    NoLeg(usize),
    /// The points have no room.
    #[error(
        "at {scale} the points take {width:.0} by {height:.0} mm, and a chart on this paper has room for {} by {} mm; \
         {fits} fits", room.0, room.1
    )]
    NoRoom {
        /// The scale.
        scale: Scale,
        /// What the points take across.
        width: f64,
        /// And down.
        height: f64,
        /// What a page has room for across and down, in whole millimetres.
        room: (u32, u32),
        /// The largest usual scale that fits.
        fits: Scale,
    },
    /// No water for the points.
    #[error(
        "at {0} there is no open water for points with straight lines between them; take another part of the chart, \
         or another scale"
    )]
    NoWater(Scale),
}

impl<'a> Worksheet<'a> {
    /// The sheet of a route: its points lettered, a leg along a shore parted in its main stretches, since a ruler draws
    /// straight lines.
    ///
    /// # Errors
    /// [`WorksheetError`] where there is no leg, or the points have no room.
    pub fn of_route(
        water: Water<'a>,
        route: &Route,
        wishes: &Wishes,
    ) -> Result<Worksheet<'a>, WorksheetError> {
        let title = match route.title.as_str() {
            "" => "Practice sheet".to_owned(),
            title => format!("Practice sheet: {title}"),
        };
        let route = straight::straight(route, &water.chart.grid);
        if route.points.len() < 2 {
            return Err(WorksheetError::NoLeg(route.points.len()));
        }
        layout::of_route(water, title, route, wishes)
    }

    /// A sheet of points that chance puts on the chart's water.
    ///
    /// # Errors
    /// [`WorksheetError`] where there is no water for them, or the paper is too small.
    pub fn of_lots(
        water: Water<'a>,
        lots: &Lots,
        wishes: &Wishes,
    ) -> Result<Worksheet<'a>, WorksheetError> {
        layout::of_lots(water, lots, wishes)
    }

    fn new(
        water: Water<'a>,
        title: String,
        route: Route,
        laid: layout::Laid,
        inks: Inks,
    ) -> Worksheet<'a> {
        let reckoning = reckon(&route, &water.chart.grid);
        let layout::Laid { need, frame, paper } = laid;
        Worksheet { water, inks, title, route, reckoning, need, frame, paper }
    }

    /// Its scale.
    #[must_use]
    pub const fn scale(&self) -> Scale {
        self.frame.scale
    }

    /// Its paper, as it lies.
    #[must_use]
    pub const fn paper(&self) -> &Paper {
        &self.paper
    }

    /// One of its documents on its paper: the answers are on one page if they have room there in smaller type.
    ///
    /// # Errors
    /// [`OffGrid`] where the grid does not reach.
    pub fn pages(&self, document: &Leaflet<'_>) -> Result<Vec<Page>, OffGrid> {
        let charts = document.blocks.iter().any(|block| matches!(block, Block::Figure(_)));
        let before = if charts { self.questions().set(&self.paper)?.len() } else { 0 };
        let sizes = SIZES.iter().filter(|size| **size <= self.paper.type_size);
        for size in sizes {
            let pages = document.set(&Paper { type_size: *size, ..self.paper })?;
            if pages.len() <= before + 1 {
                return Ok(pages);
            }
        }
        document.set(&self.paper)
    }

    /// What it is called.
    #[must_use]
    pub fn title(&self) -> &str {
        &self.title
    }

    /// How many legs it asks for.
    #[must_use]
    pub fn legs(&self) -> usize {
        self.reckoning.legs.len()
    }

    /// The route that its points are read from.
    #[must_use]
    pub const fn route(&self) -> &Route {
        &self.route
    }

    /// How long a side of a square of its grid is on paper.
    #[must_use]
    pub fn square(&self) -> Mm {
        self.frame.of_grid_metres(self.frame.interval())
    }

    /// Chart, questions and, on pages of their own, answers.
    #[must_use]
    pub fn whole(&self) -> Leaflet<'_> {
        let mut blocks = questions::blocks(self);
        blocks.push(Block::NewPage);
        blocks.extend(answers::blocks(self));
        self.leaflet(self.title.clone(), blocks)
    }

    /// Chart and questions.
    #[must_use]
    pub fn questions(&self) -> Leaflet<'_> {
        self.leaflet(self.title.clone(), questions::blocks(self))
    }

    /// The answers.
    #[must_use]
    pub fn answers(&self) -> Leaflet<'_> {
        self.leaflet(format!("{}, answers", self.title), answers::blocks(self))
    }

    /// How the reference of point `index` is counted along the grid's lines; nothing where it is not.
    fn counted(&self, index: usize) -> Option<[String; 2]> {
        let at = self.reckoning.points.get(index)?.on_grid.as_ref().ok()?.point;
        let reference = self.water.chart.grid.reference(at, Figures::Six).ok()?;
        working::counted(&reference, at)
    }

    /// Whether every reference can be counted along the lines that are drawn; else latitudes and longitudes are asked
    /// for in their place.
    fn by_grid(&self) -> bool {
        (0..self.reckoning.points.len()).all(|index| self.counted(index).is_some())
    }

    fn leaflet<'b>(&'b self, title: String, blocks: Vec<Block<'b>>) -> Leaflet<'b> {
        let subtitle = words::full_size(self.water.chart, &self.frame);
        Leaflet { title, subtitle, blocks, foot: words::cautions(self.water.chart) }
    }

    fn chartlet(&self) -> Chartlet<'_> {
        let Water { chart, coast } = self.water;
        Chartlet {
            inks: self.inks,
            lettered: true,
            ..Chartlet::of(chart, coast, Some(&self.route))
        }
    }

    /// How long leg `index` is under a ruler.
    fn ruled(&self, index: usize) -> Option<Mm> {
        let spot = |index: usize| {
            let at = self.reckoning.points.get(index)?.on_grid.as_ref().ok()?.point;
            let point = Point { x: at.easting.as_metres(), y: at.northing.as_metres() };
            Some(self.frame.spot(point))
        };
        Some(spot(index)?.distance(spot(index + 1)?))
    }
}
