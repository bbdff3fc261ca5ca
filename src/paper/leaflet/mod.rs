//! Any document of words, tables and drawings that is handed round on paper.
//!
//! A [`Leaflet`] is a list of [`Block`]s. [`Leaflet::set`] sets it on pages, [`Leaflet::text`] in 80 columns and
//! [`Leaflet::markdown`] as Markdown: all three say the same. On pages nothing is cut and no type is under seven
//! points; every page ends with the cautions, the document's title and its number.

mod blocks;
mod figure;
mod markdown;
mod plain;
mod setting;
mod share;
mod table;

#[cfg(test)]
mod tests;

pub use blocks::{Block, Column, Field, Table, Tick};
pub use figure::{Figure, High};

use chart::OffGrid;

use crate::draw::{Mm, Page, Pt, Size};

/// A document.
#[derive(Debug, Clone, Default)]
pub struct Leaflet<'a> {
    /// What it is called: over its first page and in the foot of every one.
    pub title: String,
    /// A line under the title, or nothing.
    pub subtitle: String,
    /// What it says, from the top.
    pub blocks: Vec<Block<'a>>,
    /// What stands at the foot of every page: the cautions.
    pub foot: Vec<String>,
}

/// The paper that a document is set on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paper {
    /// The sheet.
    pub sheet: Size,
    /// The size of type of a paragraph.
    pub type_size: Pt,
    /// How many pages it should have at most: type gives way, down to seven points. Where that is not enough, or
    /// where nothing is said, it has as many as it takes.
    pub pages: Option<usize>,
}

impl Paper {
    /// 297 by 420 mm (ISO 216).
    pub const A3: Paper = Paper::new(Size::new(297.0, 420.0), Pt(10.0));
    /// 210 by 297 mm (ISO 216).
    pub const A4: Paper = Paper::new(Size::new(210.0, 297.0), Pt(10.0));
    /// 148 by 210 mm (ISO 216).
    pub const A5: Paper = Paper::new(Size::new(148.0, 210.0), Pt(9.0));
    /// 8.5 by 11 inches (ANSI/ASME Y14.1).
    pub const LETTER: Paper = Paper::new(Size::new(215.9, 279.4), Pt(10.0));

    const fn new(sheet: Size, type_size: Pt) -> Paper {
        Paper { sheet, type_size, pages: None }
    }

    /// The same sheet on its side.
    #[must_use]
    pub const fn turned(self) -> Paper {
        Paper { sheet: self.sheet.turned(), ..self }
    }

    /// The same in at most so many pages, if type of seven points or more can do it.
    #[must_use]
    pub const fn in_pages(self, pages: usize) -> Paper {
        Paper { pages: Some(pages), ..self }
    }

    /// What is kept free along the edges: printers reach no farther, and hands hold it there.
    #[must_use]
    pub fn margin(&self) -> Mm {
        if self.sheet.width.min(self.sheet.height) < Mm(110.0) { Mm(4.5) } else { Mm(9.0) }
    }
}

impl Leaflet<'_> {
    /// The pages.
    ///
    /// # Errors
    /// [`OffGrid`] where a figure shows a part of a chart that its grid does not reach.
    pub fn set(&self, paper: &Paper) -> Result<Vec<Page>, OffGrid> {
        setting::pages(self, paper)
    }

    /// What one page has room for between its margins and above its foot.
    #[must_use]
    pub fn room(&self, paper: &Paper) -> Size {
        setting::foot(self, paper).above().size()
    }

    /// How high a figure of [`High::Rest`] on the first page can be with all that shares its page; negative where even
    /// without it there is no room.
    #[must_use]
    pub fn rest(&self, paper: &Paper) -> Mm {
        setting::rest(self, paper)
    }
}
