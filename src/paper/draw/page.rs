//! A page and what is on it.

use super::{Area, Ink, Mm, Outline, Pt, Size, Spot, Stroke};
use crate::font::{self, Face};

/// A page: a sheet and what is drawn on it, the first item undermost.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Page {
    /// The sheet.
    pub size: Size,
    /// What is drawn.
    pub items: Vec<Item>,
}

/// Something drawn.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// Lines and areas.
    Path(Path),
    /// A line of text.
    Text(Text),
    /// Items of which only what lies within an outline is drawn.
    Group(Group),
}

/// Lines and areas of one look.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// Where they run.
    pub outline: Outline,
    /// What they are filled with, by the rule of non-zero winding.
    pub fill: Option<Ink>,
    /// What they are drawn with.
    pub stroke: Option<Stroke>,
}

/// Which point of a line of text lies where it was put.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Anchor {
    /// Its left end.
    #[default]
    Left,
    /// Its middle.
    Middle,
    /// Its right end.
    Right,
}

/// A line of text.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// The words, in the order in which they are read.
    pub words: String,
    /// Where they stand on the base line.
    pub at: Spot,
    /// Which of their points that is.
    pub anchor: Anchor,
    /// The size of type.
    pub size: Pt,
    /// The face.
    pub face: Face,
    /// How far the line is turned about that place, in degrees clockwise.
    pub turn: f64,
    /// The ink.
    pub ink: Ink,
    /// How far around the letters what is under them is wiped out with white; zero for not at all.
    pub halo: Mm,
}

/// Items clipped to an outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// What is seen, by the rule of non-zero winding.
    pub clip: Outline,
    /// What is drawn.
    pub items: Vec<Item>,
}

impl Page {
    /// An empty page.
    #[must_use]
    pub const fn new(size: Size) -> Page {
        Page { size, items: Vec::new() }
    }

    /// Every line of text, in the order drawn.
    pub fn texts(&self) -> Vec<&Text> {
        let mut found = Vec::new();
        gather(&self.items, &mut found);
        found
    }
}

fn gather<'a>(items: &'a [Item], found: &mut Vec<&'a Text>) {
    for item in items {
        match item {
            Item::Text(text) => found.push(text),
            Item::Group(group) => gather(&group.items, found),
            Item::Path(_) => {}
        }
    }
}

impl Item {
    /// An area.
    #[must_use]
    pub const fn fill(outline: Outline, ink: Ink) -> Item {
        Item::Path(Path { outline, fill: Some(ink), stroke: None })
    }

    /// A line.
    #[must_use]
    pub const fn stroke(outline: Outline, stroke: Stroke) -> Item {
        Item::Path(Path { outline, fill: None, stroke: Some(stroke) })
    }

    /// An area with its edge.
    #[must_use]
    pub const fn both(outline: Outline, ink: Ink, stroke: Stroke) -> Item {
        Item::Path(Path { outline, fill: Some(ink), stroke: Some(stroke) })
    }

    /// Items of which what lies in an area is seen.
    #[must_use]
    pub fn clipped(area: Area, items: Vec<Item>) -> Item {
        Item::Group(Group { clip: Outline::rectangle(area), items })
    }

    /// The same so much farther to the right and down.
    #[must_use]
    pub fn moved(self, right: Mm, down: Mm) -> Item {
        match self {
            Item::Path(path) => {
                Item::Path(Path { outline: path.outline.moved(right, down), ..path })
            }
            Item::Text(text) => Item::Text(Text { at: text.at.moved(right, down), ..text }),
            Item::Group(Group { clip, items }) => Item::Group(Group {
                clip: clip.moved(right, down),
                items: items.into_iter().map(|item| item.moved(right, down)).collect(),
            }),
        }
    }

    /// The least area that holds what is seen of it; nothing of nothing.
    #[must_use]
    pub fn area(&self) -> Option<Area> {
        match self {
            Item::Path(path) => {
                let area = Area::around(path.outline.spots())?;
                let half = path.stroke.map_or(Mm::ZERO, |stroke| stroke.width / 2.0);
                Some(Area {
                    left: area.left - half,
                    top: area.top - half,
                    width: area.width + half * 2.0,
                    height: area.height + half * 2.0,
                })
            }
            Item::Text(text) => Some(text.area()),
            Item::Group(group) => Area::around(group.clip.spots()),
        }
    }
}

impl Text {
    /// Regular type of this size in black, with its left end there.
    pub fn new(words: impl Into<String>, at: Spot, size: Pt) -> Text {
        Text {
            words: words.into(),
            at,
            anchor: Anchor::Left,
            size,
            face: Face::Regular,
            turn: 0.0,
            ink: Ink::BLACK,
            halo: Mm::ZERO,
        }
    }

    /// The same in bold.
    #[must_use]
    pub fn bold(self) -> Text {
        Text { face: Face::Bold, ..self }
    }

    /// The same with its middle there.
    #[must_use]
    pub fn middle(self) -> Text {
        Text { anchor: Anchor::Middle, ..self }
    }

    /// The same with its right end there.
    #[must_use]
    pub fn right(self) -> Text {
        Text { anchor: Anchor::Right, ..self }
    }

    /// The same, turned clockwise.
    #[must_use]
    pub fn turned(self, degrees: f64) -> Text {
        Text { turn: degrees, ..self }
    }

    /// The same with white around its letters.
    #[must_use]
    pub fn on_white(self, halo: Mm) -> Text {
        Text { halo, ..self }
    }

    /// How long the line is.
    #[must_use]
    pub fn width(&self) -> Mm {
        font::width(self.face, &self.words, self.size)
    }

    /// How far left of its place the line begins.
    pub(crate) fn before(&self, width: Mm) -> Mm {
        match self.anchor {
            Anchor::Left => Mm::ZERO,
            Anchor::Middle => width / 2.0,
            Anchor::Right => width,
        }
    }

    /// The area between the tops and feet of its letters.
    #[must_use]
    pub fn area(&self) -> Area {
        let width = self.width();
        let left = -self.before(width);
        let (up, down) = (font::ascent(self.size), font::descent(self.size));
        let corners = [(left, -up), (left + width, -up), (left + width, down), (left, down)];
        let turned = corners.map(|(x, y)| {
            let (sin, cos) = self.turn.to_radians().sin_cos();
            self.at.moved(x * cos - y * sin, x * sin + y * cos)
        });
        Area::around(turned).unwrap_or_default()
    }
}

impl From<Text> for Item {
    fn from(text: Text) -> Item {
        Item::Text(text)
    }
}
