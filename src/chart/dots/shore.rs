//! Land and its shores as dots, from what of a coast the drawing shows.
//!
//! Of a ring only the runs that come into the drawing are looked at. What the others do is told by
//! a place just outside its upper left corner: which rings that place is in, and from there down
//! along the left edge and east along each row of dots, what is crossed.

use super::fill::from_middle;
use super::line::{MARGIN, clipped, dot, walk};
use super::mask::{Depth, Mask};
use super::raster::Raster;
use crate::coast::{Coast, LineId, LineKind, Rim, Run};
use crate::{Extent, Point};
use std::ops::Range;

/// The place from which insides are counted, in dots from the upper left corner. No grid line, and
/// no shore laid out in whole metres, is likely to pass through it.
const CORNER: (f64, f64) = (-0.372_1, -0.413_7);

/// How near the edge of the plane both ends of a side lie that follows it, in dots: as much as a level
/// of detail may have moved them.
const EDGE: f64 = 0.5;

/// The room in which shores are drawn, kept from drawing to drawing.
#[derive(Debug, Clone, Default)]
pub(super) struct Shorer {
    /// Where rows of dots go into the ring at hand and out of it; then its inside.
    marks: Mask,
    /// In which rows the left edge goes in or out.
    edge: Vec<bool>,
    /// In how many rings of land each dot is, less those of lakes.
    depth: Depth,
    /// The rings around the corner, in the order of their numbers.
    around: Vec<LineId>,
}

/// The ring at hand.
struct Ring {
    line: LineId,
    kind: LineKind,
    /// The rows of dots in which it has marks.
    rows: Range<usize>,
    /// The first and the last column in which it may begin or end; beyond the drawing, its last.
    columns: (usize, usize),
    /// Whether the left edge crosses it.
    on_edge: bool,
}

impl Shorer {
    /// Adds the land of `coast` to `land` and its shores to `shore`. Land that is cut at the edge of a
    /// plane of the whole world has no shore there.
    pub(super) fn draw(
        &mut self,
        coast: &Coast,
        raster: &Raster,
        land: &mut Mask,
        shore: &mut Mask,
    ) {
        let (width, height) = (raster.width(), raster.height());
        self.marks.reset(width, height);
        self.depth.reset(width, height);
        self.edge.clear();
        self.edge.resize(height + 1, false);
        coast.rings_around(raster.point(CORNER.0, CORNER.1), &mut self.around);
        let rim = Rim::of(coast.grid());
        let mut ring: Option<Ring> = None;
        let extent = Extent::new(
            raster.point(-MARGIN, height as f64 + MARGIN),
            raster.point(width as f64 + MARGIN, -MARGIN),
        );
        coast.for_runs_in(extent, |run| {
            if ring.as_ref().is_some_and(|ring| ring.line != run.line) {
                self.finish(ring.take());
            }
            let Some(kind) = coast.line(run.line).map(|line| line.kind()) else { return };
            let new =
                Ring { line: run.line, kind, rows: 0..0, columns: (usize::MAX, 0), on_edge: false };
            self.run(&run, raster, rim, ring.get_or_insert(new), shore);
        });
        self.finish(ring);
        self.surround(coast);
        self.depth.add_to(land);
    }

    /// Strokes a run and marks what it crosses.
    fn run(
        &mut self,
        run: &Run<'_>,
        raster: &Raster,
        rim: Option<Rim>,
        ring: &mut Ring,
        shore: &mut Mask,
    ) {
        let height = raster.height();
        let mut places = run.points.iter().map(|p| raster.place(*p));
        let Some(mut from) = places.next() else { return };
        let mut from_dot = dot(from);
        let leeway = EDGE * raster.metres_per_dot();
        let on_edge = |p: &Point| rim.is_some_and(|rim| rim.is_near(*p, leeway));
        if !run.points.first().is_some_and(on_edge) {
            shore.set(from_dot.0, from_dot.1);
        }
        for (to, ends) in places.zip(run.points.windows(2)) {
            let to_dot = dot(to);
            // Most sides of a far view lie within one dot.
            if from_dot != to_dot
                && !ends.iter().all(on_edge)
                && let Some((start, end)) = clipped(raster, from, to)
            {
                walk(dot(start), dot(end), 0, &mut |x, y, _| shore.set(x, y));
            }
            let rows = [from_middle(from.1, height), from_middle(to.1, height)];
            let crosses_edge = (from.0 < CORNER.0) != (to.0 < CORNER.0);
            if (rows[0] != rows[1] || crosses_edge) && ring.kind != LineKind::Open {
                let ordered = if from.1 <= to.1 { [from, to] } else { [to, from] };
                self.crossings(ordered, rows[0].min(rows[1])..rows[0].max(rows[1]), ring);
            }
            (from, from_dot) = (to, to_dot);
        }
    }

    /// Marks where a side crosses the middles of rows, and the left edge. Its upper end comes first.
    fn crossings(&mut self, [a, b]: [(f64, f64); 2], rows: Range<usize>, ring: &mut Ring) {
        let slope = (b.0 - a.0) / (b.1 - a.1);
        let width = self.marks.width();
        if !rows.is_empty() {
            ring.rows = if ring.rows.is_empty() {
                rows.clone()
            } else {
                ring.rows.start.min(rows.start)..ring.rows.end.max(rows.end)
            };
        }
        let starts_west = a.0 < CORNER.0;
        // The first row at which the side has come to the other hand of the left edge. Which that
        // is hangs on the same numbers as the marks, so that edge and marks always agree.
        let mut switch = rows.end;
        for row in rows {
            let x = a.0 + (row as f64 + 0.5 - a.1) * slope;
            let is_west = x < CORNER.0;
            if is_west != starts_west {
                switch = switch.min(row);
            }
            let column = from_middle(x, width);
            if !is_west {
                let (first, last) = ring.columns;
                ring.columns = (first.min(column), last.max(column));
            }
            if !is_west && column < width {
                self.marks.flip(column, row);
            }
        }
        let crosses_edge = starts_west != (b.0 < CORNER.0);
        let below_corner = || a.1 + (CORNER.0 - a.0) / slope > CORNER.1;
        if crosses_edge && (a.1 == b.1 || below_corner()) && b.1 > CORNER.1 {
            self.edge[switch] ^= true;
            ring.on_edge = true;
        }
    }

    /// Adds the inside of a ring all of whose runs were looked at.
    fn finish(&mut self, ring: Option<Ring>) {
        let Some(ring) = ring.filter(|ring| ring.kind != LineKind::Open) else { return };
        let around = self.around.binary_search(&ring.line);
        if let Ok(index) = around {
            self.around.remove(index);
        }
        let (width, height) = (self.marks.width(), self.marks.height());
        let whole = ring.on_edge || around.is_ok();
        let (rows, (first, last)) =
            if whole { (0..height, (0, width)) } else { (ring.rows, ring.columns) };
        if rows.is_empty() || first >= width {
            return;
        }
        if whole {
            self.begin_rows(around.is_ok());
        }
        let block = self.marks.block(rows, first..=last);
        self.marks.fill_between(&block);
        self.depth.count(&self.marks, &block, ring.kind == LineKind::Land);
        self.marks.clear(&block);
    }

    /// Marks the rows of dots whose left end is in the ring at hand.
    fn begin_rows(&mut self, corner_is_inside: bool) {
        let mut inside = corner_is_inside;
        for row in 0..self.marks.height() {
            inside ^= std::mem::take(&mut self.edge[row]);
            if inside {
                self.marks.flip(0, row);
            }
        }
        // What crosses the left edge below the last row.
        self.edge.fill(false);
    }

    /// Adds the rings that are around all of the drawing.
    fn surround(&mut self, coast: &Coast) {
        let (width, height) = (self.marks.width(), self.marks.height());
        if width == 0 || self.around.is_empty() {
            return;
        }
        let block = self.marks.block(0..height, 0..=width - 1);
        self.marks.fill(&block);
        for line in self.around.iter().filter_map(|line| coast.line(*line)) {
            self.depth.count(&self.marks, &block, line.kind() == LineKind::Land);
        }
        self.marks.clear(&block);
    }
}
