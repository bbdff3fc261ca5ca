//! Where the points of a chart lie on the Earth.

use nav::{GridError, GridPoint, OutOfRange, Position};

use crate::{Chart, Point};

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
}

#[cfg(test)]
mod tests {
    use std::ops::ControlFlow;

    use super::*;
    use crate::check;
    use crate::coast::Coast;
    use crate::geojson::{self, BadRings};
    use crate::measure::{Total, shores, total};
    use nav::Area;

    const COAST: &str = include_str!("../../tests/data/coast/west_coast.geojson");
    const EXPECTED: &str = include_str!("../../tests/data/coast/west_coast_expected.csv");

    fn coast() -> Chart {
        let grid = nav::Grid::parse("UTM:30N").unwrap();
        let import =
            geojson::read(COAST.as_bytes(), &grid, BadRings::Refuse, |_| ControlFlow::Continue(()));
        import.unwrap().into_chart(grid, "West coast", "Natural Earth, public domain")
    }

    fn measured(chart: &Chart) -> Total {
        total(&shores(&Coast::of(chart), None, &[]).unwrap())
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
            let found = measured(&alone);
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
        let before = measured(&chart);
        let shore = chart.land[0].shore.0.clone();
        let middle =
            shore.iter().fold(Point::default(), |sum, point| sum + *point) / shore.len() as f64;
        let corners = [(0.0, 0.0), (1000.0, 0.0), (1000.0, 1000.0), (0.0, 1000.0)];
        let lake = corners.map(|(x, y)| (middle.x + x, middle.y + y)).to_vec();
        chart.land[0].lakes.push(lake.into());
        let after = measured(&chart);
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
        let found = measured(&chart);
        // On the central meridian the grid's scale is 0.9996.
        assert!((found.length.as_metres() - 1500.0 / 0.9996).abs() < 0.01, "{found:?}");
        assert_eq!((found.vertices, found.land), (3, Area::ZERO));
    }
}
