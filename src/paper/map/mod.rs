//! A chart on paper, true to a stated scale.
//!
//! [`Chartlet::draw`] lays a part of a chart on a part of a page: the ground, the grid with its numbers in the
//! margin, latitudes and longitudes along the edge, scale bars, the three norths, names where they have room,
//! and a route. What it draws keeps within the area that it is given.

mod asked;
mod bar;
mod clip;
mod edge;
mod frame;
mod ground;
mod look;
mod names;
mod norths;
mod on;
mod route;
mod rule;
mod scale;
mod signs;
mod texture;
mod thin;

#[cfg(test)]
mod tests;

pub use asked::Asked;
pub use bar::Bar;
pub use frame::Frame;
pub(crate) use frame::around_all;
pub use look::{Inks, LEAST};
pub use norths::Norths;
pub use route::letter;
pub use scale::{Scale, ScaleError};

use chart::coast::Coast;
use chart::{Chart, Extent, OffGrid};
use nav::magnetic::{DecimalYear, VariationSource};
use plan::Route;

use crate::draw::{Area, Item, Mm, Pt, Size, Spot, Text};
use crate::font;
use names::Room;

/// A chart to be drawn.
#[derive(Debug, Clone, Copy)]
pub struct Chartlet<'a> {
    /// The chart.
    pub chart: &'a Chart,
    /// Its shore, indexed.
    pub coast: &'a Coast,
    /// A route on it.
    pub route: Option<&'a Route>,
    /// Whether of the route its points alone are shown, with letters: for what is worked by hand.
    pub lettered: bool,
    /// What questions are about, on a chart that they are worked on.
    pub asked: Option<&'a Asked>,
    /// Where the variation comes from.
    pub variation: VariationSource,
    /// The date of the variation, if it is known.
    pub date: Option<DecimalYear>,
    /// With which inks.
    pub inks: Inks,
}

/// What of a chart is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Part {
    /// All of this, at the largest round scale at which it has room, and what else has room then.
    All(Extent),
    /// The same, with room on paper around it for signs and numbers.
    Around(Extent),
    /// What has room around the middle of this at a scale.
    At(Extent, Scale),
    /// All of `need` at a scale, if it has room, with so much paper around; and what else has room, as little of it as can be outside
    /// of the chart.
    Within {
        /// What must be seen.
        need: Extent,
        /// At which scale.
        scale: Scale,
        /// The paper around it.
        margin: Mm,
    },
}

/// A chart as it was drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// What is drawn.
    pub items: Vec<Item>,
    /// Where.
    pub frame: Frame,
}

/// Paper around what must be seen with its signs and numbers.
const MARGIN: Mm = Mm(4.0);

/// The room under the frame for scale and norths.
const FOOT: Mm = Mm(9.6);

/// What frame, numbers and foot take of the area around the chart itself.
#[must_use]
pub fn around() -> Size {
    let all = Area::of(Size::new(100.0, 100.0));
    let inner = edge::inner(all, rule::LEFT, rule::BELOW + FOOT);
    Size { width: all.width - inner.width, height: all.height - inner.height }
}

impl<'a> Chartlet<'a> {
    /// A chart with a route and its date, in black.
    pub fn of(chart: &'a Chart, coast: &'a Coast, route: Option<&'a Route>) -> Chartlet<'a> {
        let departure = route.and_then(|route| route.departure.as_ref());
        Chartlet {
            chart,
            coast,
            route,
            lettered: false,
            asked: None,
            variation: route.map(|route| route.variation).unwrap_or_default(),
            date: departure.map(|at| DecimalYear::from_date(at.moment().date())),
            inks: Inks::Black,
        }
    }

    /// The chart in an area of a page.
    ///
    /// # Errors
    /// [`OffGrid`] where the chart's grid does not reach the middle.
    pub fn draw(&self, area: Area, part: Part) -> Result<Drawn, OffGrid> {
        let inner = edge::inner(area, rule::LEFT, rule::BELOW + FOOT);
        let grid = &self.chart.grid;
        let frame = match part {
            Part::All(extent) => Frame::fitting(grid, extent, inner)?,
            Part::Around(extent) => {
                let within = Frame::fitting(grid, extent, inner.inset(MARGIN))?;
                Frame::new(grid, extent.center(), inner, within.scale)?
            }
            Part::At(extent, scale) => Frame::new(grid, extent.center(), inner, scale)?,
            Part::Within { need, scale, margin } => {
                let about = Frame::new(grid, need.center(), inner, scale)?;
                let centre = about.centred(self.chart.extent, need, margin);
                Frame::new(grid, centre, inner, scale)?
            }
        };
        let mut inside = ground::items(self.chart, self.coast, &frame, self.inks);
        inside.extend(rule::items(&frame, self.inks));
        let mut room = Room::new(inner.inset(Mm(0.4)));
        let laid = self.route.map(|route| route::Laid::new(route, grid, &frame, self.lettered));
        if let Some(laid) = &laid {
            laid.take(&mut room);
        }
        if let Some(asked) = self.asked {
            asked.take(&frame, &mut room);
        }
        inside.extend(on::signs(self.chart, &frame, self.inks, &mut room));
        let mut words = Vec::new();
        if let Some(laid) = &laid {
            inside.extend(laid.items(self.inks));
            words.extend(laid.numbers(&mut room));
        }
        if let Some(asked) = self.asked {
            inside.extend(asked.items(&frame, self.inks, |at| on::has_sign(self.chart, at)));
            words.extend(asked.words(&frame, &mut room));
        }
        words.extend(on::names(self.chart, &frame, &mut room, self.asked));
        inside.extend(words);
        let mut items = vec![Item::clipped(inner, inside)];
        items.extend(edge::items(grid, &frame));
        items.extend(rule::numbers(&frame, edge::BAND));
        items.extend(self.foot(area, &frame));
        Ok(Drawn { items, frame })
    }

    /// The norths at the middle of a frame.
    #[must_use]
    pub fn norths(&self, frame: &Frame) -> Norths {
        let variation =
            self.date.map(|date| (self.variation.at(frame.position, date), date.as_years()));
        Norths { convergence: frame.convergence, variation }
    }

    /// Scale, bars and norths under the frame.
    fn foot(&self, area: Area, frame: &Frame) -> Vec<Item> {
        let top = area.bottom() - FOOT + Mm(1.0);
        let left = frame.area.left - edge::BAND;
        let right = frame.area.right() + edge::BAND;
        let scale = Text::new(frame.scale.to_string(), Spot::default(), Pt(9.0)).bold();
        let norths = self.norths(frame);
        let mut words = norths.words();
        if self.asked.is_some() && self.date.is_none() {
            // Questions give the variation that they mean.
            words.truncate(1);
        }
        let width = |words: &String| font::width(font::Face::Regular, words, LEAST);
        let wide = words.iter().map(width).fold(Mm::ZERO, Mm::max) + norths::WIDE;
        let bars_at = left + scale.width() + Mm(4.0);
        let (bars, _) =
            bar::items(frame.scale, Spot { x: bars_at, y: top }, right - wide - bars_at);
        let mut items = bars;
        let base = top + font::capital(scale.size) + Mm(1.5);
        items.push(Text { at: Spot { x: left, y: base }, ..scale }.into());
        let foot = Spot { x: right - norths::WIDE / 2.0, y: area.bottom() - Mm(0.2) };
        items.extend(norths.sign(foot));
        for (row, words) in words.iter().enumerate() {
            let y = top + font::capital(LEAST) + Mm(1.0) + Mm(3.2) * row as f64;
            let at = Spot { x: right - norths::WIDE, y };
            items.push(Text::new(words.as_str(), at, LEAST).right().into());
        }
        items
    }
}
