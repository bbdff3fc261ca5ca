//! The chart that a class works on: a page of its own, at the largest usual scale at which all that is asked about has room,
//! true on the ground.

use chart::coast::Coast;
use chart::{Chart, Extent, OffGrid};
use nav::GridPoint;

use crate::draw::{Area, Mm, Page, Size};
use crate::leaflet::{Block, Figure, High, Leaflet, Paper};
use crate::map::{self, Asked, Chartlet, Frame, Part, Scale};
use crate::words;
use crate::worksheet::usual;

/// A chart to work on.
#[derive(Debug, Clone)]
pub struct Workchart<'a> {
    chart: &'a Chart,
    coast: &'a Coast,
    asked: &'a Asked,
    title: String,
    /// The least part of the chart with all that is asked about.
    need: Extent,
    scale: Scale,
    paper: Paper,
}

/// One to how many at most: printed maps are no larger, and what is asked about is to be looked for.
const LARGEST: u32 = 25_000;
/// Paper around what is asked about.
const MARGIN: Mm = Mm(7.0);

impl<'a> Workchart<'a> {
    /// The chart for what is asked about, on this paper upright or on its side, whichever makes its scale larger.
    ///
    /// # Errors
    /// [`OffGrid`] where the grid does not reach the middle.
    pub fn new(
        chart: &'a Chart,
        coast: &'a Coast,
        asked: &'a Asked,
        title: &str,
        paper: Paper,
    ) -> Result<Workchart<'a>, OffGrid> {
        let need = map::around_all(asked.all()).unwrap_or(chart.extent);
        let of = |paper: Paper, scale: Scale| Workchart {
            chart,
            coast,
            asked,
            title: title.to_owned(),
            need,
            scale,
            paper,
        };
        for scale in usual().filter(|scale| scale.one_to() >= LARGEST) {
            for paper in [paper, paper.turned()] {
                let one = of(paper, scale);
                if one.has_room()? {
                    return Ok(one);
                }
            }
        }
        Ok(of(paper, Scale::SMALLEST))
    }

    /// Its scale, true on the ground at its middle.
    #[must_use]
    pub const fn scale(&self) -> Scale {
        self.scale
    }

    /// The ground that half a millimetre is, as near as a pencil comes, in metres.
    #[must_use]
    pub fn pencil(&self) -> f64 {
        f64::from(self.scale.one_to()) * 0.5 / 1000.0
    }

    /// The page.
    ///
    /// # Errors
    /// [`OffGrid`] where the grid does not reach.
    pub fn pages(&self) -> Result<Vec<Page>, OffGrid> {
        self.leaflet()?.set(&self.paper)
    }

    fn leaflet(&self) -> Result<Leaflet<'_>, OffGrid> {
        let mut subtitle = words::full_size(self.chart, &self.frame()?);
        if let Some(letters) = letters(self.chart, self.need) {
            subtitle += &format!("; {letters}");
        }
        let chartlet =
            Chartlet { asked: Some(self.asked), ..Chartlet::of(self.chart, self.coast, None) };
        let part = Part::Within { need: self.need, scale: self.scale, margin: MARGIN };
        let figure = Figure::chart(chartlet, part, High::Rest(Mm(50.0)), "");
        Ok(Leaflet {
            title: self.title.clone(),
            subtitle,
            blocks: vec![Block::Figure(figure)],
            foot: words::cautions(self.chart),
        })
    }

    fn frame(&self) -> Result<Frame, OffGrid> {
        Frame::new(&self.chart.grid, self.need.center(), Area::of(self.paper.sheet), self.scale)
    }

    fn has_room(&self) -> Result<bool, OffGrid> {
        let leaflet = self.leaflet()?;
        let around = map::around();
        let room = Size {
            width: leaflet.room(&self.paper).width - around.width,
            height: leaflet.rest(&self.paper) - around.height,
        };
        let frame = self.frame()?;
        let taken = |metres: f64| frame.of_grid_metres(metres) + MARGIN * 2.0;
        Ok(taken(self.need.width()) <= room.width && taken(self.need.height()) <= room.height)
    }
}

/// Which lettered squares it lies in; nothing where references have no letters.
fn letters(chart: &Chart, need: Extent) -> Option<String> {
    let (low, high) = (need.min(), need.max());
    let of = |x: f64, y: f64| chart.grid.square_letters(GridPoint::from_metres(x, y).ok()?);
    let corners = [of(low.x, low.y)?, of(high.x, low.y)?, of(low.x, high.y)?, of(high.x, high.y)?];
    Some(squares(corners))
}

/// The squares of four corners, south before north and west before east: `square QB`, `squares QB (west), RB (east)`.
fn squares([south_west, south_east, north_west, north_east]: [String; 4]) -> String {
    let named = match (south_west == south_east, south_west == north_west) {
        (true, true) => return format!("square {south_west}"),
        (true, false) => vec![(south_west, "south"), (north_west, "north")],
        (false, true) => vec![(south_west, "west"), (south_east, "east")],
        (false, false) => vec![
            (south_west, "south-west"),
            (south_east, "south-east"),
            (north_west, "north-west"),
            (north_east, "north-east"),
        ],
    };
    let named: Vec<String> =
        named.into_iter().map(|(letters, side)| format!("{letters} ({side})")).collect();
    format!("squares {}", named.join(", "))
}

#[cfg(test)]
mod tests;
