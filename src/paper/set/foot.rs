//! The foot of every page: the cautions, what the document is called, and the page's number.

use super::{leading, lines};
use crate::draw::{Area, Item, Mm, Outline, Spot, Stroke, Text};
use crate::font::Face;
use crate::map::LEAST;

/// A foot for pages of one document.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Foot {
    /// All of the page within its margin.
    all: Area,
    title: String,
    cautions: Vec<String>,
}

/// Over the line above the foot and under it.
const AIR: Mm = Mm(0.8);

impl Foot {
    pub(crate) fn new(title: &str, cautions: &[String], all: Area) -> Foot {
        let cautions = lines(Face::Regular, &cautions.join(" "), LEAST, all.width);
        Foot { all, title: title.to_owned(), cautions }
    }

    /// The area above it.
    pub(crate) fn above(&self) -> Area {
        // Three figures for pages: a document has no more.
        let numbered = self.numbered(999, 999).len();
        let height = leading(LEAST) * (self.cautions.len() + numbered) as f64 + AIR * 2.0;
        self.all.between(self.all.top, self.all.bottom() - height)
    }

    /// The last lines: the title is wrapped, since nothing is cut.
    fn numbered(&self, page: usize, pages: usize) -> Vec<String> {
        let number = format!("page {page} of {pages}");
        let words = match self.title.as_str() {
            "" => number,
            title => format!("{title} · {number}"),
        };
        lines(Face::Regular, &words, LEAST, self.all.width)
    }

    pub(crate) fn items(&self, page: usize, pages: usize) -> Vec<Item> {
        let y = self.above().bottom() + AIR;
        let ends = [self.all.left, self.all.right()].map(|x| Spot { x, y });
        let mut items = vec![Item::stroke(Outline::line(ends), Stroke::black(0.12))];
        let all = self.cautions.iter().cloned().chain(self.numbered(page, pages));
        for (index, words) in all.enumerate() {
            let base = y + AIR + leading(LEAST) * index as f64 + Mm::from(LEAST) * 0.93;
            items.push(Text::new(words, Spot { x: self.all.left, y: base }, LEAST).into());
        }
        items
    }
}
