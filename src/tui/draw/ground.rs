//! Ground and lines: one tint, one ink and one glyph for every cell.

use super::Scene;
use super::grid::{self, Lines};
use super::route;
use super::sheet::{Sheet, Taken, ink};
use crate::glyphs::{Texture, race, texture};
use crate::theme::{Ground, Role, Theme};
use chart::dots::{Layers, Mask};
use ratatui::buffer::Buffer;
use ratatui::style::Style;

/// Metres across a column beyond which edges of drying ground would hide the shore.
const DRYING_EDGES_TO: f64 = 90.0;

/// The kind of ground in each cell.
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
struct Line {
    dots: Mask,
    style: Style,
    taken: Taken,
}

/// Draws ground and lines, and returns the ground.
pub(super) fn draw(
    scene: &Scene<'_>,
    theme: &Theme,
    grid: &Lines,
    sheet: &mut Sheet,
    buffer: &mut Buffer,
) -> Grounds {
    let layers = Layers::drawn(scene.shapes, &sheet.raster);
    let lines = lines(scene, theme, grid, &layers, sheet);
    let painter = Painter::new(theme, sheet, &layers);
    let (columns, rows) = (sheet.cells.columns, sheet.cells.rows);
    let mut cells = Vec::with_capacity(usize::from(columns) * usize::from(rows));
    for row in 0..rows {
        for column in 0..columns {
            let (ground, bare) = painter.ground(usize::from(column), usize::from(row));
            let at = (i32::from(column), i32::from(row));
            let (glyph, style, taken) = match topmost(&lines, &painter, at) {
                Some((glyph, line)) => (glyph, line.style, line.taken),
                None => {
                    let (glyph, style) = painter.texture(at, ground, bare);
                    (glyph, style, Taken::NOTHING)
                }
            };
            sheet.take(at.0, at.1, taken);
            if let Some(cell) = sheet.screen(at.0, at.1, buffer) {
                cell.set_char(glyph);
                cell.bg = painter.tints[ground as usize];
                ink(cell, style);
            }
            cells.push(ground);
        }
    }
    Grounds { columns: usize::from(columns), cells }
}

/// The lines, the topmost first.
fn lines(
    scene: &Scene<'_>,
    theme: &Theme,
    grid: &Lines,
    layers: &Layers,
    sheet: &Sheet,
) -> Vec<Line> {
    let (legs, chosen) = route::dots(scene, sheet);
    let mut lines = vec![
        (chosen, Role::RouteChosen, Taken::ROUTE),
        (legs, Role::Route, Taken::ROUTE),
        (layers.shore.clone(), Role::Shore, Taken::SHORE),
    ];
    if scene.view.metres_per_column <= DRYING_EDGES_TO {
        lines.push((layers.drying_edge.clone(), Role::DryingEdge, Taken::FAINT));
    }
    if scene.grid_lines {
        lines.push((grid::dots(grid, sheet), Role::Grid, Taken::FAINT));
    }
    let line = |(dots, role, taken)| Line { dots, style: theme.ink(role), taken };
    lines.into_iter().map(line).collect()
}

/// The topmost line in a cell and its glyph there.
fn topmost<'l>(
    lines: &'l [Line],
    painter: &Painter<'_>,
    at: (i32, i32),
) -> Option<(char, &'l Line)> {
    lines.iter().find_map(|line| {
        let bits = painter.bits(&line.dots, at.0 as usize, at.1 as usize);
        (bits != 0).then(|| (painter.sheet_dots.glyph(bits), line))
    })
}

/// What is looked up for every cell.
struct Painter<'a> {
    layers: &'a Layers,
    sheet_dots: crate::glyphs::DotSet,
    origin: (i64, i64),
    tints: [ratatui::style::Color; 6],
    textures: [Style; 6],
    race: Style,
}

impl<'a> Painter<'a> {
    fn new(theme: &Theme, sheet: &Sheet, layers: &'a Layers) -> Painter<'a> {
        let (across, down) = sheet.dots.size();
        let (x, y) = sheet.raster.origin();
        Painter {
            layers,
            sheet_dots: sheet.dots,
            origin: (x.div_euclid(i64::from(across)), y.div_euclid(i64::from(down))),
            tints: Ground::ALL.map(|ground| theme.tint(ground)),
            textures: Ground::ALL.map(|ground| theme.texture(ground)),
            race: theme.ink(Role::Race),
        }
    }

    fn bits(&self, mask: &Mask, column: usize, row: usize) -> u8 {
        let (across, down) = self.sheet_dots.size();
        mask.cell(column, row, across, down)
    }

    /// The ground that most of a cell's dots show, and which dots show it.
    fn ground(&self, column: usize, row: usize) -> (Ground, u8) {
        let (across, down) = self.sheet_dots.size();
        let all = ((1u16 << (across * down)) - 1) as u8;
        let [shoal, shallow, moderate] = &self.layers.depths;
        let covers = [
            (Ground::Land, &self.layers.land),
            (Ground::Drying, &self.layers.drying),
            (Ground::Shoal, shoal),
            (Ground::Shallow, shallow),
            (Ground::Moderate, moderate),
        ];
        let mut left = all;
        let mut most = (Ground::Deep, 0, 0);
        for (ground, mask) in covers {
            if left == 0 {
                break;
            }
            let bits = self.bits(mask, column, row) & left;
            left &= !bits;
            if bits.count_ones() > most.2 {
                most = (ground, bits, bits.count_ones());
            }
        }
        if left.count_ones() > most.2 {
            most = (Ground::Deep, left, left.count_ones());
        }
        (most.0, most.1)
    }

    fn texture(&self, at: (i32, i32), ground: Ground, bare: u8) -> (char, Style) {
        let (column, row) = (i64::from(at.0) + self.origin.0, i64::from(at.1) + self.origin.1);
        let breaking = ground < Ground::Drying
            && self.bits(&self.layers.races, at.0 as usize, at.1 as usize) != 0;
        let (texture, style) = if breaking {
            (race(self.sheet_dots, column, row), self.race)
        } else {
            (texture(ground, self.sheet_dots, column, row), self.textures[ground as usize])
        };
        let glyph = match texture {
            Texture::Dots(bits) => self.sheet_dots.glyph(bits & bare),
            Texture::Character(glyph) => glyph,
        };
        (glyph, style)
    }
}
