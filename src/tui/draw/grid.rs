//! Grid lines across the chart and the letters of its squares.

use super::sheet::{Sheet, Taken, columns};
use super::{Scene, graticule};
use crate::glyphs::DotSet;
use crate::theme::{Role, Theme};
use chart::dots::{Mask, Raster};
use chart::{Cells, Point, View};
use nav::{Grid, GridPoint};
use ratatui::buffer::Buffer;

/// The distances between grid lines, in metres: a grid is counted in tens.
const INTERVALS: [f64; 6] = [10.0, 100.0, 1_000.0, 10_000.0, 100_000.0, 1_000_000.0];

/// The least room between two grid lines, in columns.
pub(super) const LEAST_ROOM: f64 = 6.0;

/// The side of a lettered square that has its letters written in it, in metres.
const SQUARE: f64 = 100_000.0;

/// Grid metres from one grid line to the next in a view; from one meridian to the next where a
/// graticule is drawn.
#[must_use]
pub fn grid_interval(view: &View, grid: &Grid) -> f64 {
    if graticule::is_drawn(grid)
        && let Some((_, metres)) = graticule::interval(view, grid)
    {
        return metres;
    }
    let fits = |interval: &f64| interval / view.metres_per_column >= LEAST_ROOM;
    let widest = INTERVALS[INTERVALS.len() - 1];
    INTERVALS.into_iter().find(fits).unwrap_or(widest)
}

/// A grid line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Rule {
    /// Its easting or northing, in grid metres.
    pub(super) at: f64,
    /// Whether it is also one of the next wider grid.
    pub(super) principal: bool,
    /// Of a meridian or parallel its longitude or latitude, in seconds of arc.
    pub(super) seconds: Option<i64>,
}

/// The grid lines that a view shows.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Lines {
    /// Metres from one to the next.
    pub(super) interval: f64,
    /// Those that run north.
    pub(super) eastings: Vec<Rule>,
    /// Those that run east.
    pub(super) northings: Vec<Rule>,
}

impl Lines {
    pub(super) fn of(view: &View, cells: Cells, grid: &Grid) -> Lines {
        if graticule::is_drawn(grid)
            && let Some(lines) = graticule::lines(view, cells, grid)
        {
            return lines;
        }
        let interval = grid_interval(view, grid);
        let extent = view.extent(cells);
        let rule = |at: f64| {
            let principal = (at / interval).round().rem_euclid(10.0) == 0.0;
            Rule { at, principal, seconds: None }
        };
        let rules = |from: f64, to: f64| multiples(from, to, interval).into_iter().map(rule);
        Lines {
            interval,
            eastings: rules(extent.min().x, extent.max().x).collect(),
            northings: rules(extent.min().y, extent.max().y).collect(),
        }
    }
}

/// The multiples of `step` from `from` up to, not with, `to`.
pub(super) fn multiples(from: f64, to: f64, step: f64) -> Vec<f64> {
    let (first, last) = ((from / step).ceil(), (to / step).ceil());
    // A drawing is at most 65,535 cells wide, and lines are some cells apart.
    let count = (last - first).clamp(0.0, 65_535.0) as u32;
    (0..count).map(|n| (first + f64::from(n)) * step).collect()
}

/// The dots of the grid lines; those of the next wider grid have twice as many.
pub(super) fn dots(lines: &Lines, sheet: &Sheet, mask: &mut Mask) {
    let raster = &sheet.raster;
    mask.reset(raster.width(), raster.height());
    let (down_step, across_step) = steps(sheet.dots);
    let (origin_x, origin_y) = raster.origin();
    // A row of blocks without gaps would be a wall.
    let closest = if sheet.dots == DotSet::Braille { 1 } else { 2 };
    let step_at =
        |step: i64, rule: &Rule| if rule.principal { (step / 2).max(closest) } else { step };
    for easting in &lines.eastings {
        let Some(x) = place(raster, easting.at, true) else { continue };
        let step = step_at(down_step, easting);
        for y in (0..raster.height() as i64).filter(|y| (y + origin_y).rem_euclid(step) == 0) {
            mask.set(x, y);
        }
    }
    for northing in &lines.northings {
        let Some(y) = place(raster, northing.at, false) else { continue };
        let step = step_at(across_step, northing);
        for x in (0..raster.width() as i64).filter(|x| (x + origin_x).rem_euclid(step) == 0) {
            mask.set(x, y);
        }
    }
}

/// The dots from one dot of a grid line to the next, down and across. Blocks are louder than the
/// dots of braille and stand farther apart.
fn steps(dots: DotSet) -> (i64, i64) {
    match dots {
        DotSet::Braille => (2, 2),
        DotSet::Octant => (4, 4),
        DotSet::Sextant => (3, 4),
        DotSet::HalfBlock => (4, 4),
        DotSet::Quadrant | DotSet::Ascii => (2, 4),
        DotSet::Dot => (2, 4),
    }
}

fn place(raster: &Raster, metres: f64, is_easting: bool) -> Option<i64> {
    let (x, y) = raster.place(Point { x: metres, y: metres });
    let (at, end) = if is_easting { (x, raster.width()) } else { (y, raster.height()) };
    (at >= 0.0 && at < end as f64).then_some(at as i64)
}

/// Writes the letters of each lettered square near its south-west corner, or near the drawing's
/// when that corner is not shown, where nothing else stands.
pub(super) fn letters(scene: &Scene<'_>, theme: &Theme, sheet: &mut Sheet, buffer: &mut Buffer) {
    let extent = sheet.view.extent(sheet.cells);
    // Squares of a grid of the world are none that anybody knows by letters.
    if graticule::is_drawn(scene.grid) || SQUARE / sheet.view.metres_per_column < 2.0 * LEAST_ROOM {
        return;
    }
    let starts = |from: f64, to: f64| multiples((from / SQUARE).floor() * SQUARE, to, SQUARE);
    for easting in starts(extent.min().x, extent.max().x) {
        for northing in starts(extent.min().y, extent.max().y) {
            let corner = GridPoint::from_metres(easting, northing).ok();
            let letters = corner.and_then(|corner| scene.grid.square_letters(corner));
            let Some(letters) = letters else { continue };
            let corner = Point { x: easting.max(extent.min().x), y: northing.max(extent.min().y) };
            let Some((column, row)) = sheet.cell_of(corner) else { continue };
            let at = (column + 1, row.min(i32::from(sheet.cells.rows)) - 1);
            if !sheet.is_taken(
                (at.0 - 1, at.1),
                columns(&letters) + 2,
                Taken::WORDS.and(Taken::ROUTE),
            ) {
                sheet.write(at, &letters, theme.ink(Role::Letters), buffer);
            }
        }
    }
}
