//! Upright rectangles on a page.

use super::{Mm, Spot};

/// How wide and how high something is.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Size {
    /// From left to right.
    pub width: Mm,
    /// From top to bottom.
    pub height: Mm,
}

impl Size {
    /// So many millimetres wide and high.
    #[must_use]
    pub const fn new(width: f64, height: f64) -> Size {
        Size { width: Mm(width), height: Mm(height) }
    }

    /// The same sheet turned on its side.
    #[must_use]
    pub const fn turned(self) -> Size {
        Size { width: self.height, height: self.width }
    }
}

/// An upright rectangle on a page.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Area {
    /// Its left edge.
    pub left: Mm,
    /// Its upper edge.
    pub top: Mm,
    /// How far its right edge is from its left one.
    pub width: Mm,
    /// How far its lower edge is below its upper one.
    pub height: Mm,
}

impl Area {
    /// The rectangle of a size with its upper left corner there.
    #[must_use]
    pub fn at(corner: Spot, size: Size) -> Area {
        Area { left: corner.x, top: corner.y, width: size.width, height: size.height }
    }

    /// A whole page.
    #[must_use]
    pub fn of(size: Size) -> Area {
        Area::at(Spot::default(), size)
    }

    /// The right edge.
    #[must_use]
    pub fn right(&self) -> Mm {
        self.left + self.width
    }

    /// The lower edge.
    #[must_use]
    pub fn bottom(&self) -> Mm {
        self.top + self.height
    }

    /// The middle.
    #[must_use]
    pub fn middle(&self) -> Spot {
        Spot { x: self.left + self.width / 2.0, y: self.top + self.height / 2.0 }
    }

    /// Its width and height.
    #[must_use]
    pub fn size(&self) -> Size {
        Size { width: self.width, height: self.height }
    }

    /// What is left when a margin is taken off all around; nothing wide or high where it takes all.
    #[must_use]
    pub fn inset(&self, margin: Mm) -> Area {
        Area {
            left: self.left + margin,
            top: self.top + margin,
            width: (self.width - margin * 2.0).max(Mm::ZERO),
            height: (self.height - margin * 2.0).max(Mm::ZERO),
        }
    }

    /// The area between two heights of the page, as wide as this.
    #[must_use]
    pub fn between(&self, top: Mm, bottom: Mm) -> Area {
        Area { top, height: (bottom - top).max(Mm::ZERO), ..*self }
    }

    /// Whether a place lies in it or on its edge.
    #[must_use]
    pub fn contains(&self, spot: Spot) -> bool {
        (self.left..=self.right()).contains(&spot.x) && (self.top..=self.bottom()).contains(&spot.y)
    }

    /// Whether all of `other` lies in it.
    #[must_use]
    pub fn holds(&self, other: &Area) -> bool {
        self.left <= other.left
            && self.top <= other.top
            && self.right() >= other.right()
            && self.bottom() >= other.bottom()
    }

    /// Whether the two have more in common than an edge.
    #[must_use]
    pub fn overlaps(&self, other: &Area) -> bool {
        self.left < other.right()
            && other.left < self.right()
            && self.top < other.bottom()
            && other.top < self.bottom()
    }

    /// The least rectangle that holds these places; nothing of none.
    #[must_use]
    pub fn around(spots: impl IntoIterator<Item = Spot>) -> Option<Area> {
        let mut spots = spots.into_iter();
        let first = spots.next()?;
        let (mut low, mut high) = (first, first);
        for spot in spots {
            low = Spot { x: low.x.min(spot.x), y: low.y.min(spot.y) };
            high = Spot { x: high.x.max(spot.x), y: high.y.max(spot.y) };
        }
        let (width, height) = (high.x - low.x, high.y - low.y);
        Some(Area { left: low.x, top: low.y, width, height })
    }

    /// The least rectangle that holds both.
    #[must_use]
    pub fn with(&self, other: &Area) -> Area {
        let corners = [*self, *other].map(|area| {
            [Spot { x: area.left, y: area.top }, Spot { x: area.right(), y: area.bottom() }]
        });
        Area::around(corners.into_iter().flatten()).unwrap_or(*self)
    }
}
