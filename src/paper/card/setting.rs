//! A card's pieces in one size of type, and how each is drawn.

use chart::OffGrid;

use super::content::Content;
use super::tables::{self, Look};
use super::{curve, extent, ways};
use crate::draw::{Area, Item, Mm, Pt, Spot};
use crate::font::{self, Face};
use crate::map::{Chartlet, Part};
use crate::set::flow::{Piece, Placed};
use crate::set::{self, Foot, Head, Table, leading};

/// Something on a card.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum What {
    /// A line of text.
    Line(String, Face, Pt),
    /// A line of words in several faces.
    Runs(Vec<(Face, String)>),
    /// The head of a table.
    Head(Which),
    /// A row of one.
    Row(Which, usize),
    /// The chart.
    Chart,
    /// The tide.
    Tide,
    /// Nothing.
    Gap,
}

/// A table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Which {
    Legs,
    WaysOut,
}

/// A part of a card that stays together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Block {
    /// The chart's name.
    Title,
    /// What there is to know about the day.
    Facts,
    Chart,
    Legs,
    Tide,
    WaysOut,
    Notes,
}

impl Block {
    /// In the order in which they stand on one side.
    pub(super) const ALL: [Block; 7] = [
        Block::Title,
        Block::Facts,
        Block::Chart,
        Block::Legs,
        Block::Tide,
        Block::WaysOut,
        Block::Notes,
    ];
}

/// A card in one size of type.
pub(super) struct Setting<'a> {
    content: &'a Content,
    size: Pt,
    /// What is left of a page between head and foot.
    pub(super) area: Area,
    head: Head,
    foot: Foot,
    legs: Table,
    ways_out: Option<Table>,
    /// The pieces of each part.
    blocks: Vec<(Block, Vec<Piece<What>>)>,
}

/// Between two parts of a card.
const GAP: Mm = Mm(1.6);
/// The least height of a chart in which a route can be followed.
pub(super) const LEAST_CHART: Mm = Mm(52.0);

impl<'a> Setting<'a> {
    /// Nothing where the tables have no room in this size.
    pub(super) fn new(
        content: &'a Content,
        look: Look,
        size: Pt,
        all: Area,
    ) -> Option<Setting<'a>> {
        let legs = tables::legs(content, look, size, all.width)?;
        // What is not read on the way is no larger than it must be.
        let ways_out = tables::ways_out(content, size.min(Pt(9.0)), all.width);
        if ways_out.is_none() && !content.ways_out.is_empty() {
            return None;
        }
        let head = Head::new(&content.title, title_size(size), all);
        let foot = Foot::new(&content.cautions, all);
        let area = head.below().between(head.below().top, foot.above().bottom());
        let blocks = Vec::new();
        let mut setting = Setting { content, size, area, head, foot, legs, ways_out, blocks };
        setting.blocks = Block::ALL.iter().map(|block| (*block, setting.made(*block))).collect();
        Some(setting)
    }

    /// The size of what is read at the table and not on the way.
    fn small(&self) -> Pt {
        self.size.min(Pt(10.0))
    }

    /// The pieces of a part, in order; the chart with the least height.
    pub(super) fn pieces(&self, block: Block) -> &[Piece<What>] {
        let found = self.blocks.iter().find(|(other, _)| *other == block);
        found.map(|(_, pieces)| &pieces[..]).unwrap_or_default()
    }

    fn made(&self, block: Block) -> Vec<Piece<What>> {
        match block {
            Block::Title => {
                let mut pieces = self.paragraph(&self.content.chart);
                pieces.push(whole(What::Gap, Mm(0.6)));
                pieces
            }
            Block::Facts => self.facts(),
            Block::Chart => vec![whole(What::Chart, LEAST_CHART), whole(What::Gap, Mm(0.8))],
            Block::Legs => {
                let mut pieces = self.table(Which::Legs);
                pieces.push(whole(What::Gap, GAP));
                pieces
            }
            Block::Tide => self.tide(),
            Block::WaysOut => self.ways_out(),
            Block::Notes => {
                self.content.notes.iter().flat_map(|note| self.paragraph(note)).collect()
            }
        }
    }

    /// The facts, each in a line of its own; in small type, where room is scarce, one after the other.
    fn facts(&self) -> Vec<Piece<What>> {
        let words = |name: &str, words: &str, end: &str| {
            [(Face::Bold, format!("{name} ")), (Face::Regular, format!("{words}{end}"))]
        };
        let facts = self.content.facts.iter();
        let mut pieces = if self.size < Pt(8.5) {
            let last = self.content.facts.len().saturating_sub(1);
            let end = |index| if index < last { "\u{a0}· " } else { "" };
            let all =
                facts.enumerate().flat_map(|(index, (name, said))| words(name, said, end(index)));
            self.runs(&all.collect::<Vec<_>>())
        } else {
            facts.flat_map(|(name, said)| self.runs(&words(name, said, ""))).collect()
        };
        pieces.push(whole(What::Gap, GAP));
        pieces
    }

    fn tide(&self) -> Vec<Piece<What>> {
        let Some(tide) = &self.content.tide else { return Vec::new() };
        let words = format!("Tide at {}, {} from the start", tide.port, tide.away);
        let high = curve::high(self.area.height);
        let mut pieces = self.heading(&words, high);
        pieces.push(whole(What::Tide, high));
        pieces.extend(self.paragraph(&format!("Told {}.", tide.source)));
        pieces.push(whole(What::Gap, GAP));
        pieces
    }

    fn ways_out(&self) -> Vec<Piece<What>> {
        if self.content.legs.is_empty() {
            return Vec::new();
        }
        if self.ways_out.is_none() {
            return self.paragraph(ways::NONE);
        }
        let head = self.head(Which::WaysOut);
        let mut pieces = self.heading(ways::HEADING, head.height + head.keep);
        pieces.extend(self.table(Which::WaysOut));
        pieces.push(whole(What::Gap, Mm(0.5)));
        pieces.extend(self.paragraph(&self.content.ways_legend()));
        pieces.push(whole(What::Gap, GAP));
        pieces
    }

    /// A heading in lines, of what is so high at least.
    fn heading(&self, words: &str, keep: Mm) -> Vec<Piece<What>> {
        let lines = set::lines(Face::Bold, words, self.small(), self.area.width);
        let mut below = keep;
        let mut pieces: Vec<Piece<What>> = Vec::new();
        for line in lines.into_iter().rev() {
            let piece = self.line(line, Face::Bold);
            pieces.push(Piece { keep: below, ..piece });
            below += leading(self.small());
        }
        pieces.reverse();
        pieces
    }

    fn line(&self, words: String, face: Face) -> Piece<What> {
        whole(What::Line(words, face, self.small()), leading(self.small()))
    }

    fn paragraph(&self, words: &str) -> Vec<Piece<What>> {
        let lines = set::lines(Face::Regular, words, self.small(), self.area.width);
        lines.into_iter().map(|line| self.line(line, Face::Regular)).collect()
    }

    fn runs(&self, runs: &[(Face, String)]) -> Vec<Piece<What>> {
        let lines = set::runs(runs, self.small(), self.area.width);
        lines.into_iter().map(|line| whole(What::Runs(line), leading(self.small()))).collect()
    }

    fn which(&self, which: Which) -> Option<&Table> {
        match which {
            Which::Legs => Some(&self.legs),
            Which::WaysOut => self.ways_out.as_ref(),
        }
    }

    /// The head of a table, which comes with a row.
    pub(super) fn head(&self, which: Which) -> Piece<What> {
        let height = self.which(which).map_or(Mm::ZERO, Table::head_height);
        let first = self.which(which).map_or(Mm::ZERO, |table| table.row_height(0));
        Piece { what: What::Head(which), height, keep: first }
    }

    /// Whether all legs have room on one page.
    pub(super) fn is_whole(&self) -> bool {
        let pieces = self.pieces(Block::Legs);
        pieces.iter().map(|piece| piece.height).sum::<Mm>() <= self.area.height
    }

    fn table(&self, which: Which) -> Vec<Piece<What>> {
        let Some(table) = self.which(which) else { return Vec::new() };
        let row = |index| whole(What::Row(which, index), table.row_height(index));
        std::iter::once(self.head(which)).chain((0..table.rows()).map(row)).collect()
    }

    pub(super) fn draw(
        &self,
        placed: &Placed<What>,
        chartlet: &Chartlet<'_>,
    ) -> Result<Vec<Item>, OffGrid> {
        let area = placed.area;
        let corner = Spot { x: area.left, y: area.top };
        Ok(match &placed.what {
            What::Line(words, face, size) => vec![set::line(words, *face, *size, corner)],
            What::Runs(runs) => self.draw_runs(runs, corner),
            What::Head(which) => {
                self.which(*which).map(|table| table.head(corner)).unwrap_or_default()
            }
            What::Row(which, index) => {
                self.which(*which).map(|table| table.row(*index, corner)).unwrap_or_default()
            }
            What::Chart => {
                let part = match extent::of(chartlet.route, &chartlet.chart.grid) {
                    Some(extent) => Part::Around(extent),
                    None => Part::All(chartlet.chart.extent),
                };
                chartlet.draw(area, part)?.items
            }
            What::Tide => {
                self.content.tide.as_ref().map(|tide| curve::items(tide, area)).unwrap_or_default()
            }
            What::Gap => Vec::new(),
        })
    }

    fn draw_runs(&self, runs: &[(Face, String)], corner: Spot) -> Vec<Item> {
        let mut at = corner;
        let mut items = Vec::with_capacity(runs.len());
        for (face, words) in runs {
            items.push(set::line(words.trim_end(), *face, self.small(), at));
            at = at.moved(font::width(*face, words, self.small()), Mm::ZERO);
        }
        items
    }

    /// The title with the number of the page, and the cautions.
    pub(super) fn margins(&self, page: usize, pages: usize) -> Vec<Item> {
        let head = self.head.items(page, pages);
        head.into_iter().chain(self.foot.items(page, pages)).collect()
    }
}

/// The size of the title beside type of this size.
fn title_size(size: Pt) -> Pt {
    (size + Pt(2.0)).min(Pt(13.0))
}

pub(super) fn whole(what: What, height: Mm) -> Piece<What> {
    Piece { what, height, keep: Mm::ZERO }
}
