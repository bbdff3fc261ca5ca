//! How long the shore is and how much land it encloses, on the ellipsoid.

use nav::{Area, GridError, GridPoint, Length, OutOfRange, Position, geodesic};

use crate::{Chart, Point};

/// What the shores of a chart measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShoreMeasure {
    /// Corners of all shores and shorelines, lakes not counted.
    pub vertices: usize,
    /// The length of the high water line along the sea: shores and shorelines, lakes not counted.
    pub length: Length,
    /// The land within the shores, without its lakes.
    pub land: Area,
}

/// Why a point of a chart has no position.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum OffGrid {
    /// The number is none.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// The grid does not reach it.
    #[error(transparent)]
    Grid(#[from] GridError),
}

impl Chart {
    /// The position of a point of the chart.
    ///
    /// # Errors
    /// [`OffGrid`] where the chart's grid does not reach.
    pub fn position(&self, point: Point) -> Result<Position, OffGrid> {
        let point = GridPoint::from_metres(point.x, point.y)?;
        Ok(self.grid.inverse(point)?.position)
    }

    /// What the shores measure, along geodesics on WGS 84 from corner to corner.
    ///
    /// On a grid of another datum the figures carry the scale between the datums, parts in a
    /// hundred thousand.
    ///
    /// # Errors
    /// [`OffGrid`] where the chart's grid does not reach a corner.
    pub fn measure_shore(&self) -> Result<ShoreMeasure, OffGrid> {
        let mut sum = ShoreMeasure { vertices: 0, length: Length::ZERO, land: Area::ZERO };
        for land in &self.land {
            let shore = geodesic::polygon(self.positions(&land.shore.0)?);
            sum.vertices += land.shore.0.len();
            sum.length += shore.perimeter;
            sum.land = sum.land + shore.area;
            for lake in &land.lakes {
                sum.land = sum.land - geodesic::polygon(self.positions(&lake.0)?).area;
            }
        }
        for line in &self.shorelines {
            sum.vertices += line.len();
            let positions = self.positions(line)?;
            for (from, to) in positions.iter().zip(positions.iter().skip(1)) {
                sum.length += geodesic::inverse(*from, *to).distance;
            }
        }
        Ok(sum)
    }

    fn positions(&self, points: &[Point]) -> Result<Vec<Position>, OffGrid> {
        points.iter().map(|point| self.position(*point)).collect()
    }
}

#[cfg(test)]
mod tests {
    use std::ops::ControlFlow;

    use super::*;
    use crate::check;
    use crate::geojson::{self, BadRings};

    const COAST: &str = include_str!("../../tests/data/coast/west_coast.geojson");
    const EXPECTED: &str = include_str!("../../tests/data/coast/west_coast_expected.csv");

    fn coast() -> Chart {
        let grid = nav::Grid::parse("UTM:30N").unwrap();
        let import =
            geojson::read(COAST.as_bytes(), &grid, BadRings::Refuse, |_| ControlFlow::Continue(()));
        import.unwrap().into_chart(grid, "West coast", "Natural Earth, public domain")
    }

    /// A real coast, ring by ring against an independent library; the tolerances are those of
    /// the table's header.
    #[test]
    fn a_real_coast_measures_what_an_independent_library_says() {
        let chart = coast();
        let rows = EXPECTED.lines().filter(|line| !line.starts_with('#')).skip(1);
        let mut compared = 0;
        for (row, land) in rows.zip(&chart.land) {
            let numbers: Vec<f64> = row.split(',').map(|cell| cell.parse().unwrap()).collect();
            let [_, vertices, perimeter, area] = numbers[..] else { panic!("{row}") };
            let alone = Chart { land: vec![land.clone()], ..chart.clone() };
            let found = alone.measure_shore().unwrap();
            let off = (found.length.as_metres() - perimeter).abs();
            assert!(off <= 0.02 * vertices, "{row}: {found:?}");
            let off = (found.land.as_square_metres() - area).abs();
            assert!(off <= 0.02 * perimeter, "{row}: {found:?}");
            assert_eq!(found.vertices as f64, vertices, "{row}");
            compared += 1;
        }
        assert_eq!((compared, chart.land.len()), (29, 29));
    }

    #[test]
    fn a_real_coast_is_a_chart_without_fault() {
        let chart = coast();
        assert_eq!(check::faults(&chart), []);
        assert_eq!(chart.land[0].name, "Great Britain");
    }

    #[test]
    fn lakes_are_no_land_and_their_shores_no_sea_shore() {
        let with = coast();
        let mut chart = Chart { land: with.land[1..2].to_vec(), ..with };
        let before = chart.measure_shore().unwrap();
        let shore = chart.land[0].shore.0.clone();
        let middle =
            shore.iter().fold(Point::default(), |sum, point| sum + *point) / shore.len() as f64;
        let corners = [(0.0, 0.0), (1000.0, 0.0), (1000.0, 1000.0), (0.0, 1000.0)];
        let lake = corners.map(|(x, y)| (middle.x + x, middle.y + y)).to_vec();
        chart.land[0].lakes.push(lake.into());
        let after = chart.measure_shore().unwrap();
        assert_eq!(after.length, before.length);
        let lake = (before.land - after.land).as_square_kilometres();
        assert!((lake - 1.0).abs() < 0.002, "{lake}");
    }

    #[test]
    fn open_shorelines_are_measured_as_they_lie() {
        let mut chart = coast();
        chart.land.clear();
        chart.shorelines = vec![
            [(500_000.0, 6_200_000.0), (500_000.0, 6_201_000.0), (500_500.0, 6_201_000.0)]
                .map(Point::from)
                .to_vec(),
        ];
        let found = chart.measure_shore().unwrap();
        // On the central meridian the grid's scale is 0.9996.
        assert!((found.length.as_metres() - 1500.0 / 0.9996).abs() < 0.01, "{found:?}");
        assert_eq!((found.vertices, found.land), (3, Area::ZERO));
    }
}
