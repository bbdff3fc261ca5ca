//! The chart as the reader sees it: a printed map's frame around ground, lines, signs and names.
//!
//! Drawing reads a [`Scene`] and fills cells of a buffer. It cannot fail, whatever the size of
//! the drawing and whatever the view. What lies on top of what, from the foot: tint and texture of
//! the ground, broken water, grid lines, edges of drying ground, shores, legs of the route, signs,
//! what practice shows, names, the leg under the pencil, the cursor. Names never lie on signs, on the route or on each
//! other, and do not make way for the pencil and the cursor, so that they stand still while these
//! move.

mod drill;
mod fix;
mod frame;
mod graticule;
mod grid;
mod ground;
mod names;
mod over;
mod passage;
mod route;
mod sheet;
mod signs;
mod streams;
mod thread;

#[cfg(test)]
mod tests;

pub use drill::Drilled;
pub(crate) use drill::Whose;
pub use fix::{FixLine, Fixing};
pub use frame::{Norths, inner};
pub use grid::grid_interval;

use crate::glyphs::DotSet;
use crate::state::Arrow;
use crate::theme::Theme;
use chart::coast::detail::Shores;
use chart::dots::{Drawing, Mask, Shapes};
use chart::{Cells, Chart, Point, View};
use nav::{Grid, Speed};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use sheet::{Sheet, Taken};
use std::sync::Arc;

/// What is to be drawn.
#[derive(Debug, Clone, Copy)]
pub struct Scene<'a> {
    /// The chart.
    pub chart: &'a Chart,
    /// Its areas, made once when the chart was opened.
    pub shapes: &'a Arc<Shapes>,
    /// Its shores, made once too.
    pub shores: &'a Arc<Shores>,
    /// Its grid.
    pub grid: &'a Grid,
    /// What part of it is shown.
    pub view: View,
    /// The waypoints, in order.
    pub waypoints: &'a [Waypoint<'a>],
    /// The leg that is lit, counted from zero.
    pub chosen_leg: Option<usize>,
    /// The waypoint that is lit, counted from zero.
    pub chosen_waypoint: Option<usize>,
    /// For each leg its line, both ends with it, if it is not straight.
    pub tracks: &'a [Option<&'a [Point]>],
    /// The trace.
    pub tracing: Tracing<'a>,
    /// Bearings of marks.
    pub fixing: Fixing<'a>,
    /// What the pencil would draw: a dashed line through these points.
    pub pencil: &'a [Point],
    /// The passage.
    pub sailing: Sailing<'a>,
    /// What practice shows.
    pub drilled: Drilled<'a>,
    /// The cursor.
    pub cursor: Option<Cursor>,
    /// The norths at the middle of the view, if they are known.
    pub norths: Option<Norths>,
    /// The pace that the scale bar counts minutes at.
    pub pace: Option<Speed>,
    /// The dots that it is drawn with.
    pub dots: DotSet,
    /// Which drying areas the tide covers, in the chart's order; those not said are bare.
    pub covered: &'a [bool],
    /// The streams that are drawn as arrows.
    pub streams: &'a [Arrow],
    /// Whether names are written.
    pub names: bool,
    /// Whether grid lines are drawn across the chart.
    pub grid_lines: bool,
}

/// A waypoint of the route.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Waypoint<'a> {
    /// Where it is.
    pub at: Point,
    /// Its name, or empty.
    pub name: &'a str,
}

/// A line traced along a shore.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Tracing<'a> {
    /// The line through its anchors.
    pub line: &'a [Point],
    /// The piece to the cursor.
    pub live: &'a [Point],
    /// Its anchors.
    pub anchors: &'a [(Point, AnchorMark)],
    /// What the cursor has caught.
    pub caught: Option<Point>,
}

/// The passage of the route.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Sailing<'a> {
    /// The tracks of the legs on one heading.
    pub tracks: &'a [&'a [Point]],
    /// Where the group is at whole times of the clock.
    pub clocks: &'a [Clock],
    /// Where it is at the moment that is looked at.
    pub boat: Option<Point>,
}

/// A clock time on the way.
#[derive(Debug, Clone, PartialEq)]
pub struct Clock {
    /// Where the group is then.
    pub at: Point,
    /// The time, in words.
    pub words: String,
}

/// What an anchor of a trace is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AnchorMark {
    /// On the shore.
    Shore,
    /// A free point.
    Free,
    /// Chosen, or taken up.
    Chosen,
}

/// The cursor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cursor {
    /// Where it points.
    pub at: Point,
    /// The sign of what is in hand.
    pub hand: char,
}

/// The room in which charts are drawn. Kept from frame to frame, it spares allocations, and the work
/// of what did not change.
#[derive(Debug, Clone, Default)]
pub struct Drawer {
    dots: Drawing,
    legs: Mask,
    chosen: Mask,
    grid: Mask,
    over: over::Room,
    strip: ground::Strip,
    grounds: ground::Grounds,
    taken: Vec<Taken>,
}

/// Draws the chart and its frame into `area`.
pub fn chart(
    scene: &Scene<'_>,
    theme: &Theme,
    area: Rect,
    buffer: &mut Buffer,
    drawer: &mut Drawer,
) {
    let inside = inner(area);
    let cells = Cells { columns: inside.width, rows: inside.height };
    let lines = grid::Lines::of(&scene.view, cells, scene.grid);
    let taken = std::mem::take(&mut drawer.taken);
    let mut sheet = Sheet::new(&scene.view, inside, scene.dots, taken);
    ground::draw(scene, theme, &lines, &mut sheet, buffer, drawer);
    frame::draw(scene, theme, &lines, area, &mut sheet, buffer);
    passage::tracks(scene, theme, &mut sheet, buffer, &mut drawer.over);
    signs::draw(scene, theme, &mut sheet, buffer);
    streams::stations(scene, theme, &mut sheet, buffer);
    passage::ticks(scene, theme, &mut sheet, buffer);
    let labels = drill::draw(scene, theme, &mut sheet, buffer, &mut drawer.over);
    if scene.names || !scene.sailing.clocks.is_empty() || !labels.is_empty() {
        names::draw(scene, theme, &drawer.grounds, &labels, &mut sheet, buffer);
    }
    streams::between(scene, theme, &drawer.grounds, &sheet, buffer);
    if scene.grid_lines {
        grid::letters(scene, theme, &mut sheet, buffer);
    }
    fix::draw(scene, theme, &mut sheet, buffer, &mut drawer.over);
    thread::draw(scene, theme, &mut sheet, buffer, &mut drawer.over);
    passage::boat(scene, theme, &mut sheet, buffer);
    over::draw(scene, theme, &sheet, buffer, &mut drawer.over);
    drawer.taken = sheet.into_taken();
}
