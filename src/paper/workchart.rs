//! The chart that a class works on: a page of its own, at the largest usual scale at which all that is asked about has room,
//! true on the ground.

use chart::coast::Coast;
use chart::{Chart, Extent, OffGrid, Point};

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
    /// The middle of what is asked about.
    centre: Point,
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
        let need = needed(chart, asked);
        let of = |paper: Paper, scale: Scale| {
            let (title, centre) = (title.to_owned(), need.center());
            Workchart { chart, coast, asked, title, centre, scale, paper }
        };
        for scale in usual().filter(|scale| scale.one_to() >= LARGEST) {
            for paper in [paper, paper.turned()] {
                let one = of(paper, scale);
                if one.has_room(need)? {
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

    /// How long a side of a square of its grid is on paper, and on the ground in grid metres.
    ///
    /// # Errors
    /// [`OffGrid`] where the grid does not reach.
    pub fn square(&self) -> Result<(Mm, f64), OffGrid> {
        let frame = self.frame()?;
        Ok((frame.of_grid_metres(frame.interval()), frame.interval()))
    }

    /// The page.
    ///
    /// # Errors
    /// [`OffGrid`] where the grid does not reach.
    pub fn pages(&self) -> Result<Vec<Page>, OffGrid> {
        self.leaflet()?.set(&self.paper)
    }

    fn leaflet(&self) -> Result<Leaflet<'_>, OffGrid> {
        let (side, metres) = self.square()?;
        let subtitle = format!(
            "{}, {}; printed at full size (100 %) a side of a grid square of {} measures {:.1} mm",
            self.chart.title,
            self.scale,
            far(metres),
            side.0
        );
        let figure = Figure::new(High::Rest(Mm(50.0)), "", move |area: Area| {
            let (centre, scale) = (self.centre, self.scale);
            let chartlet =
                Chartlet { asked: Some(self.asked), ..Chartlet::of(self.chart, self.coast, None) };
            Ok(chartlet.draw(area, Part::At(Extent::new(centre, centre), scale))?.items)
        });
        Ok(Leaflet {
            title: self.title.clone(),
            subtitle,
            blocks: vec![Block::Figure(figure)],
            foot: words::cautions(self.chart),
        })
    }

    fn frame(&self) -> Result<Frame, OffGrid> {
        Frame::new(&self.chart.grid, self.centre, Area::of(self.paper.sheet), self.scale)
    }

    fn has_room(&self, need: Extent) -> Result<bool, OffGrid> {
        let leaflet = self.leaflet()?;
        let around = map::around();
        let room = Size {
            width: leaflet.room(&self.paper).width - around.width,
            height: leaflet.rest(&self.paper) - around.height,
        };
        let frame = self.frame()?;
        let taken = |metres: f64| frame.of_grid_metres(metres) + MARGIN * 2.0;
        Ok(taken(need.width()) <= room.width && taken(need.height()) <= room.height)
    }
}

/// The least part of the chart with all that is asked about.
fn needed(chart: &Chart, asked: &Asked) -> Extent {
    let mut all: Option<(Point, Point)> = None;
    for at in asked.all() {
        let (low, high) = all.unwrap_or((at, at));
        let low = Point { x: low.x.min(at.x), y: low.y.min(at.y) };
        all = Some((low, Point { x: high.x.max(at.x), y: high.y.max(at.y) }));
    }
    all.map_or(chart.extent, |(low, high)| Extent::new(low, high))
}

/// `1 km`, `100 m`.
fn far(metres: f64) -> String {
    if metres < 1000.0 { format!("{metres:.0} m") } else { format!("{:.0} km", metres / 1000.0) }
}

#[cfg(test)]
mod tests;
