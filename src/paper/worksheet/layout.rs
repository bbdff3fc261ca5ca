//! How large the chart of a sheet is, and how its paper lies.

use chart::{Extent, OffGrid, Point};
use plan::{Route, Waypoint};

use super::lots::{self, Lots};
use super::{Water, Wishes, Worksheet, WorksheetError};
use crate::draw::{Area, Mm, Size};
use crate::leaflet::{Block, Paper};
use crate::map::{self, Frame, Scale};

/// The scales that printed maps and charts for small boats usually have, the largest first: rulers and romers are made
/// for them.
const USUAL: [u32; 16] = [
    5_000, 10_000, 20_000, 25_000, 40_000, 50_000, 75_000, 100_000, 150_000, 200_000, 250_000,
    500_000, 1_000_000, 2_500_000, 10_000_000, 50_000_000,
];
/// The scale of a sheet of chance: a grid square of a kilometre is two centimetres.
const FIRST: u32 = 50_000;
/// Around the points: room for their letters, and to see where they are.
pub(super) const MARGIN: Mm = Mm(9.0);
/// A chart of less is none.
const LEAST: Mm = Mm(50.0);
/// A chart that shares its page with the questions at a smaller scale than [`FIRST`] has a page of its own if that makes
/// its scale more than so many times as large.
const WORTH_A_PAGE: f64 = 1.4;

/// Where a sheet's chart has room.
#[derive(Debug, Clone, Copy)]
pub(super) struct Laid {
    pub(super) need: Extent,
    pub(super) frame: Frame,
    pub(super) paper: Paper,
}

/// One way to lay a sheet.
struct Trial<'a> {
    water: Water<'a>,
    need: Extent,
    scale: Scale,
    paper: Paper,
}

/// With what the chart shares its page.
#[derive(Clone, Copy, PartialEq)]
enum With {
    Questions,
    Nothing,
}

pub(crate) fn usual() -> impl Iterator<Item = Scale> {
    USUAL.into_iter().filter_map(|one_to| Scale::new(one_to).ok())
}

impl<'a> Trial<'a> {
    fn frame(&self) -> Result<Frame, OffGrid> {
        let any = Area::of(self.paper.sheet);
        Frame::new(&self.water.chart.grid, self.need.center(), any, self.scale)
    }

    /// The sheet if it is laid so.
    fn sheet(&self, title: &str, route: &Route, inks: map::Inks) -> Result<Worksheet<'a>, OffGrid> {
        let laid = Laid { need: self.need, frame: self.frame()?, paper: self.paper };
        Ok(Worksheet::new(self.water, title.to_owned(), route.clone(), laid, inks))
    }
}

/// What there is for the chart itself, its frame and numbers left out.
fn room(sheet: &Worksheet<'_>, with: With) -> Size {
    let mut leaflet = sheet.questions();
    if with == With::Nothing {
        leaflet.blocks.retain(|block| matches!(block, Block::Figure(_)));
        leaflet.blocks.truncate(1);
    }
    let around = map::around();
    let width = leaflet.room(&sheet.paper).width - around.width;
    Size { width, height: leaflet.rest(&sheet.paper) - around.height }
}

/// What the points take on paper.
fn taken(sheet: &Worksheet<'_>) -> Size {
    let on_paper = |metres: f64| (sheet.frame.of_grid_metres(metres) + MARGIN * 2.0).max(LEAST);
    Size { width: on_paper(sheet.need.width()), height: on_paper(sheet.need.height()) }
}

fn fits(sheet: &Worksheet<'_>, with: With) -> bool {
    let (room, taken) = (room(sheet, with), taken(sheet));
    taken.width <= room.width && taken.height <= room.height
}

pub(super) fn of_route<'a>(
    water: Water<'a>,
    title: String,
    route: Route,
    wishes: &Wishes,
) -> Result<Worksheet<'a>, WorksheetError> {
    let need = extent(&route, water)?;
    let all = |scale: Scale, with: With| -> Result<Option<Worksheet<'a>>, OffGrid> {
        for paper in [wishes.paper, wishes.paper.turned()] {
            let sheet = Trial { water, need, scale, paper }.sheet(&title, &route, wishes.inks)?;
            if fits(&sheet, with) {
                return Ok(Some(sheet));
            }
        }
        Ok(None)
    };
    let largest = |with: With| -> Result<Option<Worksheet<'a>>, OffGrid> {
        usual().find_map(|scale| all(scale, with).transpose()).transpose()
    };
    if let Some(scale) = wishes.scale {
        for with in [With::Questions, With::Nothing] {
            if let Some(sheet) = all(scale, with)? {
                return Ok(sheet);
            }
        }
        let trial = Trial { water, need, scale, paper: wishes.paper };
        return Err(no_room(&trial.sheet(&title, &route, wishes.inks)?, largest(With::Nothing)?));
    }
    let (with, alone) = (largest(With::Questions)?, largest(With::Nothing)?);
    let one_to = |sheet: &Worksheet<'_>| f64::from(sheet.scale().one_to());
    match (with, alone) {
        (Some(with), Some(alone))
            if with.scale().one_to() > FIRST && one_to(&with) > one_to(&alone) * WORTH_A_PAGE =>
        {
            Ok(alone)
        }
        (Some(with), _) => Ok(with),
        (None, Some(alone)) => Ok(alone),
        (None, None) => {
            let trial = Trial { water, need, scale: Scale::SMALLEST, paper: wishes.paper };
            Err(no_room(&trial.sheet(&title, &route, wishes.inks)?, None))
        }
    }
}

fn no_room(sheet: &Worksheet<'_>, fits: Option<Worksheet<'_>>) -> WorksheetError {
    let (taken, room) = (taken(sheet), room(sheet, With::Nothing));
    WorksheetError::NoRoom {
        scale: sheet.scale(),
        width: taken.width.0,
        height: taken.height.0,
        room: (room.width.0.max(0.0) as u32, room.height.0.max(0.0) as u32),
        fits: fits.map_or(Scale::SMALLEST, |sheet| sheet.scale()),
    }
}

/// The least part of the chart with every point.
fn extent(route: &Route, water: Water<'_>) -> Result<Extent, OffGrid> {
    let at = |waypoint: &Waypoint| -> Result<Point, OffGrid> {
        let there = water.chart.grid.forward(waypoint.at)?.point;
        Ok(Point { x: there.easting.as_metres(), y: there.northing.as_metres() })
    };
    let points = route.points.iter().map(at).collect::<Result<Vec<_>, _>>()?;
    Ok(map::around_all(points.into_iter()).unwrap_or(water.chart.extent))
}

pub(super) fn of_lots<'a>(
    water: Water<'a>,
    lots: &Lots,
    wishes: &Wishes,
) -> Result<Worksheet<'a>, WorksheetError> {
    let title = format!("Practice sheet {}", lots.seed);
    let scale = match wishes.scale {
        Some(scale) => scale,
        None => first_scale(water, lots, wishes)?,
    };
    let size = region(water, lots, wishes, scale)?;
    let route = lots::route(water, lots, scale, size)?;
    let need = extent(&route, water)?;
    let trial = Trial { water, need, scale, paper: wishes.paper };
    let sheet = trial.sheet(&title, &route, wishes.inks)?;
    let has_room = [With::Questions, With::Nothing].into_iter().any(|with| fits(&sheet, with));
    if has_room { Ok(sheet) } else { Err(no_room(&sheet, None)) }
}

/// The usual scale of such a sheet, or a larger one for a chart that would not fill its page.
fn first_scale(water: Water<'_>, lots: &Lots, wishes: &Wishes) -> Result<Scale, WorksheetError> {
    let mut scales: Vec<Scale> = usual().filter(|scale| scale.one_to() <= FIRST).collect();
    let mut first = scales.pop().unwrap_or(Scale::LARGEST);
    while let Some(larger) = scales.pop() {
        let region = region(water, lots, wishes, first)?;
        let extent = water.chart.extent;
        if region.0 <= extent.width() || region.1 <= extent.height() {
            break;
        }
        first = larger;
    }
    Ok(first)
}

/// The ground on which the points of a sheet of chance may lie: grid metres across and up.
fn region(
    water: Water<'_>,
    lots: &Lots,
    wishes: &Wishes,
    scale: Scale,
) -> Result<(f64, f64), WorksheetError> {
    // The questions take the same room wherever the points lie.
    let route = lots.anywhere(water)?;
    let need = water.chart.extent;
    let trial = Trial { water, need, scale, paper: wishes.paper };
    let sheet = trial.sheet("Practice sheet", &route, wishes.inks)?;
    let both = [With::Questions, With::Nothing].map(|with| room(&sheet, with));
    let usable = both.iter().find(|room| room.height >= wishes.paper.sheet.height * 0.35);
    let size = usable.unwrap_or(&both[1]);
    let metre = sheet.frame.of_grid_metres(1.0);
    let ground = |length: Mm| (length - MARGIN * 2.0).max(Mm(1.0)) / metre;
    Ok((ground(size.width), ground(size.height)))
}

/// How high the chart's figure is at least.
pub(super) fn least(sheet: &Worksheet<'_>) -> Mm {
    taken(sheet).height + map::around().height
}
