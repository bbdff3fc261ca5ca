//! The order of the lines: along a curve that fills the plane, so that neighbours in memory are
//! neighbours on the water.

use super::line::LineRecord;
use super::points::Reader;
use crate::Point;

/// How many times the curve is folded: 65,536 cells a side.
const FOLDS: u32 = 16;

/// Puts lines in the order in which Hilbert's curve comes to their first vertices.
///
/// It is the first vertex and not the middle that counts, since there a closed line also ends: the
/// stretch before it and that after it lie near, however long it is.
pub(super) fn along_curve(lines: &mut [LineRecord], reader: Reader<'_>) {
    let starts = || lines.iter().map(|line| reader.at(line.first as usize));
    let low = starts().fold([f64::INFINITY; 2], |l, p| [l[0].min(p.x), l[1].min(p.y)]);
    let high = starts().fold([f64::NEG_INFINITY; 2], |h, p| [h[0].max(p.x), h[1].max(p.y)]);
    let side = (high[0] - low[0]).max(high[1] - low[1]);
    if side > 0.0 {
        let cells = f64::from((1_u32 << FOLDS) - 1) / side;
        let cell = |p: Point| (((p.x - low[0]) * cells) as u32, ((p.y - low[1]) * cells) as u32);
        lines.sort_by_cached_key(|line| curve(cell(reader.at(line.first as usize))));
    }
}

/// How far along the curve a cell lies (Hilbert, "Ueber die stetige Abbildung einer Linie auf ein
/// Flaechenstueck", Mathematische Annalen 38, 1891).
fn curve((mut x, mut y): (u32, u32)) -> u32 {
    let mut along = 0;
    for fold in (0..FOLDS).rev() {
        let (right, upper) = ((x >> fold) & 1, (y >> fold) & 1);
        along = (along << 2) | ((3 * right) ^ upper);
        if upper == 0 {
            if right == 1 {
                let top = (1 << FOLDS) - 1;
                (x, y) = (top - x, top - y);
            }
            (x, y) = (y, x);
        }
    }
    along
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_curve_goes_from_cell_to_neighbour() {
        let side = 16;
        let shift = FOLDS - 4;
        // The coarse curve: cells of the fine one that begin a coarse cell, in order.
        let mut cells: Vec<(u32, u32)> =
            (0..side).flat_map(|x| (0..side).map(move |y| (x, y))).collect();
        cells.sort_by_key(|&(x, y)| curve((x << shift, y << shift)) >> (2 * shift));
        for pair in cells.windows(2) {
            let step = pair[0].0.abs_diff(pair[1].0) + pair[0].1.abs_diff(pair[1].1);
            assert_eq!(step, 1, "{pair:?}");
        }
    }
}
