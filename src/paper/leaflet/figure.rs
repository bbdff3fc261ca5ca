//! Drawings in a document.

use std::fmt;
use std::rc::Rc;

use chart::OffGrid;

use crate::draw::{Area, Item, Mm};
use crate::map::{Chartlet, Part};

/// How high a figure is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum High {
    /// So high; as high as a page where that is less.
    Of(Mm),
    /// As high as a page has room for.
    Page,
    /// As high as a page has room for with all that comes before and after it up to a new page, if that is no less
    /// than this; else with what comes before it alone.
    Rest(Mm),
}

/// What a figure is drawn by.
type Drawing<'a> = Rc<dyn Fn(Area) -> Result<Vec<Item>, OffGrid> + 'a>;

/// A drawing as wide as the page, with words under it.
#[derive(Clone)]
pub struct Figure<'a> {
    /// How high it is.
    pub high: High,
    /// What it shows: under it on the page, in its place in text. Or empty.
    pub caption: String,
    /// What stands in its place where nothing can be drawn: its caption if nothing else is said.
    pub in_words: String,
    drawing: Drawing<'a>,
}

impl<'a> Figure<'a> {
    /// What `drawing` draws in the area that it is given, and nowhere else.
    pub fn new(
        high: High,
        caption: impl Into<String>,
        drawing: impl Fn(Area) -> Result<Vec<Item>, OffGrid> + 'a,
    ) -> Figure<'a> {
        let caption = caption.into();
        Figure { high, in_words: caption.clone(), caption, drawing: Rc::new(drawing) }
    }

    /// A part of a chart.
    pub fn chart(
        chartlet: Chartlet<'a>,
        part: Part,
        high: High,
        caption: impl Into<String>,
    ) -> Figure<'a> {
        Figure::new(high, caption, move |area| Ok(chartlet.draw(area, part)?.items))
    }

    /// The same with other words in its place where nothing can be drawn.
    #[must_use]
    pub fn in_words(self, words: impl Into<String>) -> Figure<'a> {
        Figure { in_words: words.into(), ..self }
    }

    pub(super) fn draw(&self, area: Area) -> Result<Vec<Item>, OffGrid> {
        (self.drawing)(area)
    }
}

impl fmt::Debug for Figure<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Figure")
            .field("high", &self.high)
            .field("caption", &self.caption)
            .finish_non_exhaustive()
    }
}
