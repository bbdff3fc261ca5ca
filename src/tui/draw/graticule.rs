//! Meridians and parallels in place of grid lines, where a grid of the whole world is drawn: its
//! metres are not metres on the ground, and nobody counts them.

use super::grid::{LEAST_ROOM, Lines, Rule, multiples};
use chart::{Cells, Point, View};
use nav::{Grid, GridPoint, Position};

/// Seconds of arc from one line to the next.
const STEPS: [f64; 19] = [
    1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 300.0, 600.0, 900.0, 1_800.0, 3_600.0, 7_200.0,
    18_000.0, 36_000.0, 54_000.0, 108_000.0, 162_000.0,
];

/// All longitudes, in seconds.
const ROUND: i64 = 360 * 3_600;

/// Where a meridian's number would run into the next one.
const ROOM: f64 = 2.0 * LEAST_ROOM;

/// Whether a grid's lines are meridians and parallels.
pub(super) fn is_drawn(grid: &Grid) -> bool {
    matches!(grid, Grid::WorldMercator(_))
}

/// Seconds from one line to the next in a view, and that many seconds of longitude in grid metres.
pub(super) fn interval(view: &View, grid: &Grid) -> Option<(f64, f64)> {
    let degree = easting(grid, 1.0)?;
    let metres = |seconds: f64| seconds / 3_600.0 * degree;
    let fits = |seconds: &f64| metres(*seconds) / view.metres_per_column >= ROOM;
    let seconds = STEPS.into_iter().find(fits).unwrap_or(STEPS[STEPS.len() - 1]);
    Some((seconds, metres(seconds)))
}

/// The meridians and parallels that a view shows.
pub(super) fn lines(view: &View, cells: Cells, grid: &Grid) -> Option<Lines> {
    let (step, interval) = interval(view, grid)?;
    let extent = view.extent(cells);
    let per_second = interval / step;
    let meridian = |seconds: f64| Rule {
        at: seconds * per_second,
        principal: is_principal(seconds, step),
        seconds: Some(wrapped(seconds as i64)),
    };
    let (west, east) = (extent.min().x / per_second, extent.max().x / per_second);
    let latitude = |northing: f64, beyond: f64| {
        latitude(grid, Point { x: 0.0, y: northing }).map_or(beyond, |degrees| degrees * 3_600.0)
    };
    let farthest = 89.0 * 3_600.0;
    let south = latitude(extent.min().y, -farthest).max(-farthest);
    let north = latitude(extent.max().y, farthest).min(farthest);
    let parallel = |seconds: f64| {
        Some(Rule {
            at: northing(grid, seconds / 3_600.0)?,
            principal: is_principal(seconds, step),
            seconds: Some(seconds as i64),
        })
    };
    Some(Lines {
        interval,
        eastings: multiples(west, east, step).into_iter().map(meridian).collect(),
        northings: multiples(south, north, step).into_iter().filter_map(parallel).collect(),
    })
}

/// Whether a line is also one of a wider graticule: of minutes, of degrees, of quarters.
fn is_principal(seconds: f64, step: f64) -> bool {
    let wider = match step {
        s if s < 60.0 => 60,
        s if s < 3_600.0 => 3_600,
        s if s < 18_000.0 => 36_000,
        _ => 90 * 3_600,
    };
    seconds as i64 % wider == 0
}

/// A longitude as it is written, from -180 degrees up to 180.
fn wrapped(seconds: i64) -> i64 {
    match (seconds + ROUND / 2).rem_euclid(ROUND) - ROUND / 2 {
        west if west == -ROUND / 2 && seconds > 0 => ROUND / 2,
        within => within,
    }
}

fn easting(grid: &Grid, lon: f64) -> Option<f64> {
    let position = Position::from_degrees(0.0, lon).ok()?;
    Some(grid.forward(position).ok()?.point.easting.as_metres())
}

fn northing(grid: &Grid, lat: f64) -> Option<f64> {
    let position = Position::from_degrees(lat, 0.0).ok()?;
    Some(grid.forward(position).ok()?.point.northing.as_metres())
}

fn latitude(grid: &Grid, point: Point) -> Option<f64> {
    let point = GridPoint::from_metres(point.x, point.y).ok()?;
    Some(grid.inverse(point).ok()?.position.lat.as_degrees())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(scale: f64, x: f64, y: f64) -> Lines {
        let view = View::new(Point { x, y }, scale);
        let cells = Cells { columns: 150, rows: 50 };
        lines(&view, cells, &Grid::parse("EPSG:3395").unwrap()).unwrap()
    }

    fn degrees(rules: &[Rule]) -> Vec<f64> {
        rules.iter().map(|rule| rule.seconds.unwrap() as f64 / 3_600.0).collect()
    }

    #[test]
    fn the_world_has_parallels_and_meridians() {
        let lines = shown(270_000.0, 0.0, 0.0);
        assert_eq!(degrees(&lines.northings), [-60.0, -30.0, 0.0, 30.0, 60.0]);
        assert!(degrees(&lines.eastings).contains(&-150.0));
        let equator = lines.northings.iter().find(|rule| rule.principal).unwrap();
        assert_eq!((equator.at, equator.seconds), (0.0, Some(0)));
    }

    #[test]
    fn meridians_go_on_beyond_the_antimeridian() {
        let antimeridian = easting(&Grid::parse("EPSG:3395").unwrap(), 180.0).unwrap();
        let lines = shown(1_000.0, antimeridian, 0.0);
        let found = degrees(&lines.eastings);
        assert!(found.contains(&180.0) && found.contains(&-179.5), "{found:?}");
    }

    #[test]
    fn a_harbour_has_lines_of_seconds() {
        // 60 degrees north, where a minute of longitude is 1,855 grid metres and 928 on the ground.
        let lines = shown(1.0, 0.0, 8_362_700.0);
        assert_eq!(lines.eastings[1].seconds.unwrap() - lines.eastings[0].seconds.unwrap(), 1);
    }
}
