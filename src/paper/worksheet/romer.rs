//! The romer: a corner ruled in tenths of a grid square, to be cut out and read references with.

use crate::draw::{Area, Item, Mm, Outline, Size, Spot, Stroke, Text};
use crate::font;
use crate::map::LEAST;

/// What is left of the card beyond the last tenth.
const BODY: Mm = Mm(4.0);
/// Numbers nearer to the corner than this would lie on those of the other edge.
const NO_NUMBER: Mm = Mm(7.0);
/// The least paper from one number to the next.
const APART: Mm = Mm(3.0);

/// The card of a romer for squares of this side.
pub(super) fn size(side: Mm) -> Size {
    Size { width: side + BODY, height: side + BODY }
}

/// The romer, its upper left corner there: the corner that goes on the point is the upper right one.
pub(super) fn items(side: Mm, at: Spot) -> Vec<Item> {
    let card = Area::at(at, size(side));
    let corner = Spot { x: card.right(), y: card.top };
    let mut items =
        vec![Item::stroke(Outline::rectangle(card), Stroke::black(0.15).dashed(1.2, 0.6))];
    let mut ticks = Outline::default();
    let tenth = side / 10.0;
    let step =
        (1..=5).find(|step| tenth * f64::from(*step) >= APART && 10 % step == 0).unwrap_or(10);
    for n in 1..=10_u32 {
        let off = tenth * f64::from(n);
        let long = if n.is_multiple_of(5) { Mm(2.6) } else { Mm(1.6) };
        let along = corner.moved(-off, Mm::ZERO);
        let up = corner.moved(Mm::ZERO, off);
        ticks.add([along, along.moved(Mm::ZERO, long)], false);
        ticks.add([up, up.moved(-long, Mm::ZERO)], false);
        if n.is_multiple_of(step) && off >= NO_NUMBER {
            let high = font::capital(LEAST);
            let under = along.moved(Mm::ZERO, Mm(2.9) + high);
            let beside = up.moved(Mm(-2.9), high / 2.0);
            items.push(Text::new(n.to_string(), under, LEAST).middle().into());
            items.push(Text::new(n.to_string(), beside, LEAST).right().into());
        }
    }
    items.push(Item::stroke(ticks, Stroke::black(0.15)));
    // A finer corner than a pen would draw: it is laid on the point.
    let edges = [corner.moved(-side, Mm::ZERO), corner, corner.moved(Mm::ZERO, side)];
    items.push(Item::stroke(Outline::line(edges), Stroke::black(0.15)));
    items
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tenths_are_tenths_of_a_side() {
        for side in [Mm(10.0), Mm(20.0), Mm(40.0)] {
            let items = items(side, Spot::new(5.0, 5.0));
            let card = Area::at(Spot::new(5.0, 5.0), size(side)).inset(Mm(-0.2));
            assert!(items.iter().all(|item| item.area().is_none_or(|area| card.holds(&area))));
            let Some(Item::Path(ticks)) = items.iter().rev().nth(1) else { panic!() };
            let left = ticks.outline.spots().map(|spot| spot.x.0).fold(f64::MAX, f64::min);
            assert!((Mm(5.0) + size(side).width - side - Mm(left)).abs() < Mm(1e-9));
        }
    }
}
