//! A row of cells before and after, and which of them are new.

use ratatui::buffer::Cell;
use unicode_width::UnicodeWidthStr as _;

use super::pen::{Look, Pen};

/// What one cell shows, or several if its character is wide.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Tile {
    pub(super) look: Look,
    /// Where its character is in the row's text.
    start: usize,
    end: usize,
    /// How many cells it covers.
    pub(super) width: u8,
    /// Whether it is a single character of one column.
    plain: bool,
}

impl Tile {
    /// Whether the cursor is certainly one column on after it.
    pub(super) fn is_plain(&self) -> bool {
        self.plain
    }
}

/// A row as it is to be, and which of its cells are new.
#[derive(Debug, Default)]
pub(super) struct Row {
    text: Vec<u8>,
    /// What covers each cell; for a wide character its tile stands at every cell that it covers.
    tiles: Vec<Tile>,
    /// For every cell whether a tile begins there that has to be written.
    new: Vec<bool>,
    /// Those of them that are yet to be written.
    left: Vec<bool>,
}

impl Row {
    /// Takes in a row; returns whether anything in it looks new.
    pub(super) fn compare(&mut self, before: &[Cell], after: &[Cell]) -> bool {
        self.text.clear();
        self.tiles.clear();
        self.new.clear();
        // Where the character that covers a cell before begins.
        let (mut cover, mut until) = (0, 0);
        let mut x = 0;
        while let Some(cell) = after.get(x) {
            let width = columns(cell.symbol()).max(1);
            // Half a character cannot stand in the last column.
            let (symbol, width) = match cell.symbol() {
                "" => (" ", 1),
                _ if x + width > after.len() => (" ", 1),
                symbol => (symbol, width),
            };
            let tile = self.tile_of(cell, symbol, width);
            let mut is_new = false;
            for (covered, was) in before.iter().enumerate().take(x + width).skip(x) {
                if covered >= until {
                    let end = covered + columns(was.symbol()).max(1);
                    (cover, until) = (covered, end.min(after.len()));
                }
                is_new |= cover != x || (covered == x && !looks_alike(was, cell));
                self.tiles.push(tile);
                self.new.push(false);
            }
            // A character that was wide and is not uncovers cells.
            is_new |= until != x + width && cover == x;
            self.new[x] = is_new;
            x += width;
        }
        self.new.contains(&true)
    }

    fn tile_of(&mut self, cell: &Cell, symbol: &str, width: usize) -> Tile {
        let start = self.text.len();
        self.text.extend_from_slice(symbol.as_bytes());
        let plain = width == 1 && (symbol.len() == 1 || symbol.chars().count() == 1);
        let width = u8::try_from(width).unwrap_or(u8::MAX);
        Tile { look: Look::of(cell), start, end: self.text.len(), width, plain }
    }

    pub(super) fn width(&self) -> usize {
        self.tiles.len()
    }

    pub(super) fn tile(&self, x: usize) -> Tile {
        self.tiles[x]
    }

    pub(super) fn symbol(&self, tile: Tile) -> &[u8] {
        &self.text[tile.start..tile.end]
    }

    /// The first new tile from `x` on.
    pub(super) fn next_new(&self, x: usize) -> Option<usize> {
        (x..self.width()).find(|at| self.new[*at])
    }

    /// Whether all new tiles look alike.
    pub(super) fn has_one_look(&self) -> bool {
        let mut looks = self.new_tiles().map(|tile| tile.look);
        let first = looks.next();
        looks.all(|look| Some(look) == first)
    }

    fn new_tiles(&self) -> impl Iterator<Item = Tile> + '_ {
        self.tiles.iter().zip(&self.new).filter(|(_, new)| **new).map(|(tile, _)| *tile)
    }

    /// How many blanks like that at `x` follow from there up to the last new one among them.
    pub(super) fn new_blanks(&self, x: usize) -> usize {
        let blank = self.tiles[x];
        let alike = (x..self.width()).take_while(|at| self.tiles[*at].look == blank.look);
        alike.filter(|at| self.new[*at]).last().map_or(0, |last| last + 1 - x)
    }

    /// Whether blanks like that at `x` go on to the end.
    pub(super) fn is_blank_from(&self, x: usize) -> bool {
        self.tiles[x..].iter().all(|tile| tile.look == self.tiles[x].look)
    }

    /// Begins to write tiles out of their order.
    pub(super) fn begin_passes(&mut self) {
        self.left.clone_from(&self.new);
    }

    /// The first tile left from `x` on that can be written in the style of `look`.
    pub(super) fn next_left(&self, x: usize, look: &Look) -> Option<usize> {
        (x..self.width()).find(|at| self.left[*at] && look.covers(&self.tiles[*at].look))
    }

    /// The look of the first tile left, of those that need no change of the pen if there are any.
    pub(super) fn first_left_in(&self, pen: &Pen) -> Option<Look> {
        let fitting = self.left_tiles().find(|tile| pen.fits(&tile.look) && tile.look.has_ink());
        fitting.map(|tile| tile.look).or_else(|| self.first_left())
    }

    /// The look of the first tile left, of those with ink if there are any.
    pub(super) fn first_left(&self) -> Option<Look> {
        let inked = self.left_tiles().find(|tile| tile.look.has_ink());
        inked.or_else(|| self.left_tiles().next()).map(|tile| tile.look)
    }

    fn left_tiles(&self) -> impl Iterator<Item = &Tile> + '_ {
        self.tiles.iter().zip(&self.left).filter(|(_, left)| **left).map(|(tile, _)| tile)
    }

    /// The tiles from `x` up to `end` are written.
    pub(super) fn done(&mut self, x: usize, end: usize) {
        self.left[x..end].fill(false);
    }
}

/// Whether two cells cannot be told apart.
fn looks_alike(a: &Cell, b: &Cell) -> bool {
    a == b || (a.symbol() == b.symbol() && Look::of(a) == Look::of(b))
}

/// Whether a character takes more than one column.
pub(super) fn is_wide(symbol: &str) -> bool {
    columns(symbol) > 1
}

/// How many columns a character takes.
fn columns(symbol: &str) -> usize {
    match symbol.as_bytes() {
        [_] => 1,
        // Lines, blocks and braille, which most of a chart consists of.
        [0xe2, 0x94 | 0x95 | 0xa0..=0xa3, _] | [0xe2, 0x96, 0x80..=0x9f] => 1,
        _ => symbol.width(),
    }
}
