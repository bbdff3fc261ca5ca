//! How rough the shore of a chart is.

use super::{MeasureError, Measured, Slope};
use crate::coast::{Coast, LineKind};
use crate::{Chart, Point};
use nav::Length;

/// The steps of the dividers, in metres.
const STEPS: [f64; 5] = [100.0, 200.0, 400.0, 800.0, 1_600.0];
/// A shore shorter than so many of the widest steps says nothing.
const LEAST_STEPS: f64 = 5.0;
/// On a chart with a longer side, in metres, the steps would be those of another scale.
const WIDEST_CHART: f64 = 100_000.0;

/// The slope of the longest piece of shore that lies on a chart, by dividers from 100 m to 1.6 km; nothing
/// where it is shorter than 8 km, and on charts of more than 100 km.
///
/// # Errors
/// [`MeasureError::OffGrid`] where the chart's grid does not reach the shore.
pub fn roughness(chart: &Chart, coast: &Coast) -> Result<Option<Slope>, MeasureError> {
    if chart.extent.width().max(chart.extent.height()) > WIDEST_CHART {
        return Ok(None);
    }
    let lines = coast.lines().filter(|line| line.kind() != LineKind::Lake);
    let pieces =
        lines.flat_map(|line| pieces(chart, &line.points().collect::<Vec<_>>(), line.is_closed()));
    let longest = pieces.max_by(|a, b| length(&a.0).total_cmp(&length(&b.0)));
    let Some((piece, closed)) = longest.filter(|it| length(&it.0) >= LEAST_STEPS * STEPS[4]) else {
        return Ok(None);
    };
    let steps: Vec<Length> = STEPS.iter().map(|metres| *metres * Length::METRE).collect();
    Ok(Measured::new(&chart.grid, &piece, closed, &steps)?.slope)
}

/// The pieces of a line that lie on a chart, each with whether it is the whole of a closed one.
fn pieces(chart: &Chart, points: &[Point], closed: bool) -> Vec<(Vec<Point>, bool)> {
    let (low, high) = (chart.extent.min(), chart.extent.max());
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

/// The length of a line on the plane, in metres.
fn length(piece: &[Point]) -> f64 {
    piece.windows(2).map(|ends| (ends[1].x - ends[0].x).hypot(ends[1].y - ends[0].y)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A chart of 30 by 22 km with one land, a square of 12 km, so many metres east of its corner.
    fn square(east: f64) -> Chart {
        let mut chart = crate::practice().unwrap();
        let at = |x: f64, y: f64| chart.extent.min() + Point { x: x + east, y };
        let shore = [(0.0, 5_000.0), (12_000.0, 5_000.0), (12_000.0, 17_000.0), (0.0, 17_000.0)];
        let shore = crate::model::Ring(shore.iter().map(|(x, y)| at(*x, *y)).collect());
        chart.land = vec![crate::model::Land { shore, ..Default::default() }];
        chart
    }

    fn of(chart: &Chart) -> Option<Slope> {
        roughness(chart, &Coast::of(chart)).unwrap()
    }

    #[test]
    fn a_square_is_smooth_and_of_one_that_leads_off_the_chart_the_piece_on_it() {
        let whole = of(&square(4_000.0)).unwrap();
        assert!(whole.slope.abs() < 0.03, "{whole:?}");
        assert_eq!((whole.narrowest.as_metres(), whole.widest.as_metres()), (100.0, 1_600.0));
        // One side on the chart and no corner, so that no vertex of it is.
        assert_eq!(of(&square(-6_000.0)).map(|it| it.slope.abs() < 0.03), Some(true));
        assert_eq!(of(&square(40_000.0)), None);
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
