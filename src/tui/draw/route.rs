//! The legs of the route as dots.

use super::Scene;
use super::sheet::Sheet;
use chart::Point;
use chart::dots::{Mask, Raster, line};

/// The least length of a leg, in cells, on which its direction is drawn.
const LEAST_FOR_HEAD: f64 = 6.0;

/// The length of the two strokes of an arrow's head, in columns.
const HEAD: f64 = 2.2;

/// The dots of the legs, and of the chosen one.
pub(super) fn dots(scene: &Scene<'_>, sheet: &Sheet, legs: &mut Mask, chosen: &mut Mask) {
    for mask in [&mut *legs, &mut *chosen] {
        mask.reset(sheet.raster.width(), sheet.raster.height());
    }
    for (index, pair) in scene.waypoints.windows(2).enumerate() {
        let lit = scene.chosen_leg == Some(index);
        let mask = if lit { &mut *chosen } else { &mut *legs };
        match scene.tracks.get(index).copied().flatten() {
            Some(track) => {
                for side in track.windows(2) {
                    leg(mask, sheet, side[0], side[1], lit);
                }
            }
            None => leg(mask, sheet, pair[0].at, pair[1].at, lit),
        }
    }
}

/// Draws a leg two dots broad where dots are fine, the chosen one three, with an arrow's head at
/// its middle.
fn leg(mask: &mut Mask, sheet: &Sheet, from: Point, to: Point, lit: bool) {
    let (dx, dy) = ((to.x - from.x).abs(), (to.y - from.y).abs());
    let across = dx > dy;
    stroke(mask, &sheet.raster, (from, to), across, if lit { 2 } else { 1 });
    let length = dx.hypot(dy) / sheet.view.metres_per_column;
    if length < LEAST_FOR_HEAD {
        return;
    }
    let middle = Point { x: from.x + (to.x - from.x) / 2.0, y: from.y + (to.y - from.y) / 2.0 };
    let heading = (to.y - from.y).atan2(to.x - from.x);
    let reach = HEAD * sheet.view.metres_per_column;
    for turn in [-2.5, 2.5] {
        let angle = heading + turn;
        let end = Point { x: middle.x + reach * angle.cos(), y: middle.y + reach * angle.sin() };
        stroke(mask, &sheet.raster, (middle, end), across, 1);
    }
}

/// Draws a line with a pen so many dots broad, measured across its main direction.
fn stroke(
    mask: &mut Mask,
    raster: &Raster,
    (from, to): (Point, Point),
    across: bool,
    breadth: i64,
) {
    line(raster, from, to, |x, y, _| {
        for side in 0..breadth {
            match across {
                true => mask.set(x, y + side),
                false => mask.set(x + side, y),
            }
        }
    });
}
