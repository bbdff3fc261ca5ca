//! Pieces laid on pages one under the other.

use crate::draw::{Area, Mm};

/// A piece that stays whole.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Piece<T> {
    /// What it is.
    pub(crate) what: T,
    /// How high it is.
    pub(crate) height: Mm,
    /// How much of what comes next must be on the same page.
    pub(crate) keep: Mm,
}

/// A piece where it lies.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Placed<T> {
    /// What it is.
    pub(crate) what: T,
    /// Where it lies on its page.
    pub(crate) area: Area,
}

/// Lays pieces on pages, of each of which `area` is free. What comes back on every further page, such as the head of a
/// table, is told by `again` from the piece that comes first there.
pub(crate) fn pages<T: Clone>(
    pieces: &[Piece<T>],
    area: Area,
    again: impl Fn(&Piece<T>) -> Option<Piece<T>>,
) -> Vec<Vec<Placed<T>>> {
    let mut pages: Vec<Vec<Placed<T>>> = vec![Vec::new()];
    let mut top = area.top;
    for piece in pieces {
        let last = pages.len() - 1;
        let starts = pages[last].is_empty();
        if top + piece.height + piece.keep > area.bottom() && !starts {
            pages.push(Vec::new());
            top = area.top;
            if let Some(head) = again(piece) {
                place(&mut pages, &head, area, &mut top);
            }
        }
        place(&mut pages, piece, area, &mut top);
    }
    pages
}

fn place<T: Clone>(pages: &mut [Vec<Placed<T>>], piece: &Piece<T>, area: Area, top: &mut Mm) {
    if let Some(page) = pages.last_mut() {
        let area = area.between(*top, *top + piece.height);
        page.push(Placed { what: piece.what.clone(), area });
    }
    *top += piece.height;
}
