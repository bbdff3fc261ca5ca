//! Ground and lines: one tint, one ink and one glyph for every cell.

use super::grid::{self, Lines};
use super::route;
use super::sheet::{Sheet, Taken, ink};
use super::{Drawer, Scene};
use crate::glyphs::{DotSet, Texture, race, texture};
use crate::theme::{Ground, Role, Theme};
use chart::dots::{Layers, Mask};
use ratatui::buffer::Buffer;
use ratatui::style::{Color, Style};

/// Metres across a column beyond which edges of drying ground would hide the shore.
const DRYING_EDGES_TO: f64 = 90.0;

/// The kind of ground in each cell.
#[derive(Debug, Clone, Default)]
pub(super) struct Grounds {
    columns: usize,
    cells: Vec<Ground>,
}

impl Grounds {
    /// The ground of a cell within the sheet.
    pub(super) fn at(&self, column: i32, row: i32) -> Option<Ground> {
        let (column, row) = (usize::try_from(column).ok()?, usize::try_from(row).ok()?);
        (column < self.columns).then(|| self.cells.get(row * self.columns + column).copied())?
    }
}

/// A line over the ground, with the ink that it is drawn in.
struct Line<'m> {
    dots: &'m Mask,
    style: Style,
    taken: Taken,
}

/// How many lines there may be.
const LINES: usize = 5;

/// Draws ground and lines.
pub(super) fn draw(
    scene: &Scene<'_>,
    theme: &Theme,
    grid: &Lines,
    sheet: &mut Sheet,
    buffer: &mut Buffer,
    drawer: &mut Drawer,
) {
    let Drawer { dots, legs, chosen, grid: grid_dots, strip, grounds, .. } = drawer;
    let layers = dots.layers(scene.shapes, scene.shores, &sheet.raster, scene.covered);
    route::dots(scene, sheet, legs, chosen);
    grid::dots(grid, sheet, grid_dots);
    let lines = lines(scene, theme, layers, [chosen, legs, grid_dots]);
    let painter = Painter::new(theme, sheet);
    let (columns, rows) = (sheet.cells.columns, sheet.cells.rows);
    grounds.columns = usize::from(columns);
    grounds.cells.clear();
    for row in 0..rows {
        strip.fill(layers, &lines, usize::from(row), sheet);
        for column in 0..columns {
            let (ground, bare) = strip.ground(usize::from(column), painter.all);
            let at = (i32::from(column), i32::from(row));
            let (glyph, style, taken) = match strip.topmost(usize::from(column), &lines) {
                Some((bits, line)) => (painter.dots.glyph(bits), line.style, line.taken),
                None => {
                    let breaks = strip.races[usize::from(column)] != 0;
                    let (glyph, style) = painter.texture(at, ground, bare, breaks);
                    (glyph, style, Taken::NOTHING)
                }
            };
            sheet.take(at.0, at.1, taken);
            if let Some(cell) = sheet.screen(at.0, at.1, buffer) {
                cell.set_char(glyph);
                cell.bg = painter.tints[ground as usize];
                ink(cell, style);
            }
            grounds.cells.push(ground);
        }
    }
}

/// The lines, the topmost first.
fn lines<'m>(
    scene: &Scene<'_>,
    theme: &Theme,
    layers: &'m Layers,
    [chosen, legs, grid]: [&'m Mask; 3],
) -> [Option<Line<'m>>; LINES] {
    let near = scene.view.metres_per_column <= DRYING_EDGES_TO;
    let line = |dots, role, taken| Line { dots, style: theme.ink(role), taken };
    [
        Some(line(chosen, Role::RouteChosen, Taken::ROUTE)),
        Some(line(legs, Role::Route, Taken::ROUTE)),
        Some(line(&layers.shore, Role::Shore, Taken::SHORE)),
        near.then(|| line(&layers.drying_edge, Role::DryingEdge, Taken::FAINT)),
        scene.grid_lines.then(|| line(grid, Role::Grid, Taken::FAINT)),
    ]
}

/// The dots of one row of cells, a byte for each cell.
#[derive(Debug, Clone, Default)]
pub(super) struct Strip {
    /// Of the kinds of ground in [`COVERS`].
    covers: [Vec<u8>; COVERS.len()],
    races: Vec<u8>,
    lines: [Vec<u8>; LINES],
}

/// The kinds of ground that cover deep water, the topmost first. The first shoal water is that over
/// drying ground.
const COVERS: [Ground; 6] =
    [Ground::Land, Ground::Drying, Ground::Shoal, Ground::Shoal, Ground::Shallow, Ground::Moderate];

impl Strip {
    fn fill(
        &mut self,
        layers: &Layers,
        lines: &[Option<Line<'_>>; LINES],
        row: usize,
        sheet: &Sheet,
    ) {
        let size = sheet.dots.size();
        let [shoal, shallow, moderate] = &layers.depths;
        let masks = [&layers.land, &layers.drying, &layers.covered, shoal, shallow, moderate];
        for (mask, cells) in masks.into_iter().zip(&mut self.covers) {
            mask.cells(row, size, cells);
        }
        layers.races.cells(row, size, &mut self.races);
        for (line, cells) in lines.iter().zip(&mut self.lines) {
            if let Some(line) = line {
                line.dots.cells(row, size, cells);
            }
        }
    }

    /// The ground that most of a cell's dots show, and which dots show it.
    fn ground(&self, column: usize, all: u8) -> (Ground, u8) {
        let mut left = all;
        let mut most = (Ground::Deep, 0_u8);
        for (ground, cells) in COVERS.into_iter().zip(&self.covers) {
            let bits = cells[column] & left;
            left &= !bits;
            if bits.count_ones() > most.1.count_ones() {
                most = (ground, bits);
            }
        }
        if left.count_ones() > most.1.count_ones() { (Ground::Deep, left) } else { most }
    }

    /// The topmost line in a cell and its dots there.
    fn topmost<'l, 'm>(
        &self,
        column: usize,
        lines: &'l [Option<Line<'m>>; LINES],
    ) -> Option<(u8, &'l Line<'m>)> {
        let shown =
            lines.iter().zip(&self.lines).filter_map(|(l, cells)| Some((l.as_ref()?, cells)));
        shown.map(|(line, cells)| (cells[column], line)).find(|(bits, _)| *bits != 0)
    }
}

/// What is looked up for every cell.
struct Painter {
    dots: DotSet,
    /// All dots of a cell.
    all: u8,
    origin: (i64, i64),
    tints: [Color; Ground::ALL.len()],
    textures: [Style; Ground::ALL.len()],
    race: Style,
}

impl Painter {
    fn new(theme: &Theme, sheet: &Sheet) -> Painter {
        let (across, down) = sheet.dots.size();
        let (x, y) = sheet.raster.origin();
        Painter {
            dots: sheet.dots,
            all: ((1_u16 << (across * down)) - 1) as u8,
            origin: (x.div_euclid(i64::from(across)), y.div_euclid(i64::from(down))),
            tints: Ground::ALL.map(|ground| theme.tint(ground)),
            textures: Ground::ALL.map(|ground| theme.texture(ground)),
            race: theme.ink(Role::Race),
        }
    }

    fn texture(&self, at: (i32, i32), ground: Ground, bare: u8, breaks: bool) -> (char, Style) {
        let (column, row) = (i64::from(at.0) + self.origin.0, i64::from(at.1) + self.origin.1);
        let (texture, style) = if breaks && ground < Ground::Drying {
            (race(self.dots, column, row), self.race)
        } else {
            (texture(ground, self.dots, column, row), self.textures[ground as usize])
        };
        let glyph = match texture {
            Texture::Dots(bits) => self.dots.glyph(bits & bare),
            Texture::Character(glyph) => glyph,
        };
        (glyph, style)
    }
}
