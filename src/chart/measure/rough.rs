//! How rough the shore of a chart is.

use super::{MeasureError, Measured, Slope};
use crate::coast::{Coast, LineKind};
use crate::{Chart, Extent, Point};
use nav::Length;

/// The steps of the dividers, in metres: from those of the finest outlines of real coasts to be had to the widest of
/// which a chart of 30 km has enough. The maker's are the same.
pub(crate) const STEPS: [f64; 5] = [250.0, 500.0, 1_000.0, 2_000.0, 4_000.0];
/// A shore shorter than five of the widest steps says nothing, in metres.
pub(crate) const LEAST: f64 = 5.0 * STEPS[4];
/// On a chart with a longer side, in metres, the steps would be those of another scale.
const WIDEST_CHART: f64 = 100_000.0;

/// The slope of the longest piece of shore that lies on a chart, by dividers from 250 m to 4 km; nothing
/// where it is shorter than 20 km, and on charts of more than 100 km.
///
/// # Errors
/// [`MeasureError::OffGrid`] where the chart's grid does not reach the shore.
pub fn roughness(chart: &Chart, coast: &Coast) -> Result<Option<Slope>, MeasureError> {
    if chart.extent.width().max(chart.extent.height()) > WIDEST_CHART {
        return Ok(None);
    }
    let lines = coast.lines().filter(|line| line.kind() != LineKind::Lake);
    let lines = lines.map(|line| (line.points().collect(), line.is_closed()));
    let Some((piece, closed)) = longest(&chart.extent, lines) else { return Ok(None) };
    let steps: Vec<Length> = STEPS.iter().map(|metres| *metres * Length::METRE).collect();
    Ok(Measured::new(&chart.grid, &piece, closed, &steps)?.slope)
}

/// The longest piece of the lines that lies in an extent, if it is long enough to say something, and whether it is
/// the whole of a closed one.
pub(crate) fn longest(
    extent: &Extent,
    lines: impl Iterator<Item = (Vec<Point>, bool)>,
) -> Option<(Vec<Point>, bool)> {
    let pieces = lines.flat_map(|(points, closed)| pieces(extent, &points, closed));
    let longest = pieces.max_by(|a, b| length(&a.0).total_cmp(&length(&b.0)));
    longest.filter(|(piece, _)| length(piece) >= LEAST)
}

/// The pieces of a line that lie in an extent, each with whether it is the whole of a closed one.
fn pieces(extent: &Extent, points: &[Point], closed: bool) -> Vec<(Vec<Point>, bool)> {
    let (low, high) = (extent.min(), extent.max());
    let on_chart = |p: &Point| (low.x..=high.x).contains(&p.x) && (low.y..=high.y).contains(&p.y);
    let Some(off) = points.iter().position(|p| !on_chart(p)) else {
        return vec![(points.to_vec(), closed)];
    };
    // A closed line from a point off the chart once round.
    let (from, round) = if closed { (off, &points[..=off]) } else { (0, &[][..]) };
    let (mut found, mut piece) = (Vec::new(), Vec::new());
    for point in points[from..].iter().chain(round) {
        if on_chart(point) {
            piece.push(*point);
        } else if !piece.is_empty() {
            found.push((std::mem::take(&mut piece), false));
        }
    }
    found.push((piece, false));
    found
}

/// The length of a line on the plane, in metres: the same number on every machine, since the maker asks too.
fn length(piece: &[Point]) -> f64 {
    let side = |ends: &[Point]| {
        let side = ends[1] - ends[0];
        (side.x * side.x + side.y * side.y).sqrt()
    };
    piece.windows(2).map(side).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A chart of 30 by 22 km with one land, 16 by 14 km, so many metres east of its corner.
    fn block(east: f64) -> Chart {
        let mut chart = crate::practice().unwrap();
        let at = |x: f64, y: f64| chart.extent.min() + Point { x: x + east, y };
        let south = [0.0, 8_000.0, 16_000.0].map(|x| (x, 4_000.0));
        let north = [16_000.0, 8_000.0, 0.0].map(|x| (x, 18_000.0));
        let shore = south.into_iter().chain(north);
        let shore = crate::model::Ring(shore.map(|(x, y)| at(x, y)).collect());
        chart.land = vec![crate::model::Land { shore, ..Default::default() }];
        chart
    }

    fn of(chart: &Chart) -> Option<Slope> {
        roughness(chart, &Coast::of(chart)).unwrap()
    }

    #[test]
    fn a_block_is_smooth_and_of_one_that_leads_off_the_chart_the_piece_on_it() {
        let whole = of(&block(4_000.0)).unwrap();
        assert!(whole.slope.abs() < 0.05, "{whole:?}");
        assert_eq!((whole.narrowest.as_metres(), whole.widest.as_metres()), (250.0, 4_000.0));
        // Three sides in part, 30 km; then one of 14 km, too short; then nothing.
        assert_eq!(of(&block(-6_000.0)).map(|it| it.slope.abs() < 0.05), Some(true));
        assert_eq!(of(&block(-12_000.0)), None);
        assert_eq!(of(&block(40_000.0)), None);
    }

    /// Every vertex of the built-in chart's longest shore lies on it: what is found is what `coast` tells.
    #[test]
    fn the_built_in_chart_is_as_rough_as_its_longest_shore() {
        let chart = crate::practice().unwrap();
        let coast = Coast::of(&chart);
        let steps: Vec<Length> = STEPS.iter().map(|metres| *metres * Length::METRE).collect();
        let shores = super::super::shores(&coast, None, &steps).unwrap();
        assert_eq!(of(&chart), shores[0].measured.slope);
    }
}
