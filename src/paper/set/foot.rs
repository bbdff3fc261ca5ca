//! What stands on every page: the cautions at its foot, and what the document is called with the page's number, at the
//! head or as the last line of the foot.

use super::{close, leading, line, lines, shrunk};
use crate::draw::{Area, Item, Mm, Outline, Pt, Spot, Stroke, Text};
use crate::font::{self, Face};
use crate::map::LEAST;

/// A head for the sides of one card.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Head {
    /// All of the page within its margin.
    all: Area,
    /// In lines.
    title: Vec<String>,
    size: Pt,
}

/// The size of the number of a page at its head.
const NUMBER: Pt = Pt(8.0);

/// A title in smaller type than this takes another line instead.
const TITLE: Pt = Pt(9.0);

impl Head {
    /// A title in type of this size, or in smaller type where it has no room.
    pub(crate) fn new(title: &str, size: Pt, all: Area) -> Head {
        let room = all.width - font::width(Face::Regular, "  side 10 of 10", NUMBER);
        let size = shrunk(Face::Bold, title, size, room).max(TITLE);
        Head { all, title: lines(Face::Bold, title, size, room), size }
    }

    /// The area under it.
    pub(crate) fn below(&self) -> Area {
        let height = leading(self.size) * self.title.len().max(1) as f64;
        self.all.between(self.all.top + height, self.all.bottom())
    }

    pub(crate) fn items(&self, page: usize, pages: usize) -> Vec<Item> {
        let mut items = Vec::with_capacity(self.title.len() + 1);
        for (index, words) in self.title.iter().enumerate() {
            let y = self.all.top + leading(self.size) * index as f64;
            items.push(line(words, Face::Bold, self.size, Spot { x: self.all.left, y }));
        }
        // On the base line of the title, whatever the size of that.
        let at = Spot { x: self.all.right(), y: self.all.top + font::ascent(self.size) };
        let number = format!("side {page} of {pages}");
        items.push(Text::new(number, at, NUMBER).right().into());
        items
    }
}

/// A foot for pages of one document.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Foot {
    /// All of the page within its margin.
    all: Area,
    cautions: Vec<String>,
    /// What the document is called, where the foot has the number of the page.
    title: Option<String>,
}

/// Over the line above the foot and under it.
const AIR: Mm = Mm(0.8);

impl Foot {
    /// The cautions alone, for pages that have a head.
    pub(crate) fn new(cautions: &[String], all: Area) -> Foot {
        let cautions = lines(Face::Regular, &cautions.join(" "), LEAST, all.width);
        Foot { all, cautions, title: None }
    }

    /// The same with what the document is called and the number of the page.
    pub(crate) fn numbered(self, title: &str) -> Foot {
        Foot { title: Some(title.to_owned()), ..self }
    }

    /// The area above it.
    pub(crate) fn above(&self) -> Area {
        // Three figures for pages: a document has no more.
        let last = self.last(999, 999).len();
        let height = close(LEAST) * (self.cautions.len() + last) as f64 + AIR * 2.0;
        self.all.between(self.all.top, self.all.bottom() - height)
    }

    /// The last lines: the title is wrapped, since nothing is cut.
    fn last(&self, page: usize, pages: usize) -> Vec<String> {
        let number = number(page, pages);
        let words = match self.title.as_deref() {
            None => return Vec::new(),
            Some("") => number,
            Some(title) => format!("{title} · {number}"),
        };
        lines(Face::Regular, &words, LEAST, self.all.width)
    }

    pub(crate) fn items(&self, page: usize, pages: usize) -> Vec<Item> {
        let rule = self.above().bottom() + AIR;
        let ends = [self.all.left, self.all.right()].map(|x| Spot { x, y: rule });
        let mut items = vec![Item::stroke(Outline::line(ends), Stroke::black(0.12))];
        // Deep letters of the last line stay within the margin.
        let top = rule + AIR - Mm(0.1);
        let last = self.last(page, pages);
        for (index, words) in self.cautions.iter().chain(&last).enumerate() {
            let corner = Spot { x: self.all.left, y: top + close(LEAST) * index as f64 };
            items.push(line(words, Face::Regular, LEAST, corner));
        }
        items
    }
}

fn number(page: usize, pages: usize) -> String {
    format!("page {page} of {pages}")
}
