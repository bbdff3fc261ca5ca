//! Dots against shapes that can be counted by hand.

use super::*;
use crate::coast::Coast;
use crate::coast::detail::Shores;
use crate::model::{DepthArea, Drying, Ground, Land};
use crate::{Cells, Chart, Extent, Point, Ring, View};
use geo::{Contains, LineString, Polygon};
use proptest::prelude::*;
use std::sync::Arc;

const CELLS: Cells = Cells { columns: 37, rows: 11 };

fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

fn empty_chart() -> Chart {
    Chart {
        title: String::new(),
        invented: true,
        source: String::new(),
        grid: nav::Grid::parse("UTM:33N").unwrap(),
        extent: Extent::new(point(0.0, 0.0), point(1_000.0, 1_000.0)),
        land: vec![],
        shorelines: vec![],
        drying: vec![],
        depths: vec![],
        landings: vec![],
        hazards: vec![],
        races: vec![],
        gates: vec![],
        places: vec![],
        marks: vec![],
        ports: vec![],
        streams: vec![],
    }
}

/// A ring around `centre` whose corners lie at the given distances; it never crosses itself.
fn star(centre: Point, radii: &[f64]) -> Ring {
    let corner = |(index, radius): (usize, &f64)| {
        let angle = index as f64 / radii.len() as f64 * std::f64::consts::TAU;
        point(centre.x + radius * angle.cos(), centre.y + radius * angle.sin())
    };
    Ring(radii.iter().enumerate().map(corner).collect())
}

fn square(west: f64, south: f64, side: f64) -> Ring {
    let (east, north) = (west + side, south + side);
    Ring(vec![point(west, south), point(east, south), point(east, north), point(west, north)])
}

fn layers_of(chart: &Chart, raster: &Raster) -> Layers {
    let shores = Shores::of(Arc::new(Coast::of(chart)));
    Drawing::default().layers(&Arc::new(Shapes::new(chart)), &Arc::new(shores), raster, &[]).clone()
}

/// The middle of a dot on the ground.
fn middle(view: &View, x: usize, y: usize) -> Point {
    view.point_at(CELLS, (x as f64 + 0.5) / 2.0, (y as f64 + 0.5) / 4.0)
}

fn polygon(shore: &Ring, lakes: &[Ring]) -> Polygon<f64> {
    let line = |ring: &Ring| LineString::new(ring.0.clone());
    Polygon::new(line(shore), lakes.iter().map(line).collect())
}

proptest! {
    #[test]
    fn a_dot_is_land_when_its_middle_is(
        radii in prop::collection::vec(60.0..600.0f64, 3..150),
        inner in prop::collection::vec(0.05..0.9f64, 3..150),
        x in -500.0..500.0f64, y in -500.0..500.0f64, scale in 2.0..200.0f64,
    ) {
        let centre = point(13.0, -7.0);
        let shore = star(centre, &radii);
        let least = radii.iter().copied().fold(f64::INFINITY, f64::min);
        // Within half the least radius no side of the shore comes, unless the star has few corners.
        let lake = star(centre, &inner.iter().map(|r| r * least / 2.0).collect::<Vec<_>>());
        let lakes = if radii.len() > 5 { vec![lake] } else { vec![] };
        let chart = Chart { land: vec![Land { name: String::new(), shore: shore.clone(), lakes: lakes.clone() }], ..empty_chart() };
        let view = View::new(point(x, y), scale);
        let raster = Raster::new(&view, CELLS, 2, 4);
        let land = layers_of(&chart, &raster).land;
        let oracle = polygon(&shore, &lakes);
        for y in 0..raster.height() {
            for x in 0..raster.width() {
                prop_assert_eq!(land.get(x, y), oracle.contains(&middle(&view, x, y)), "dot {} {}", x, y);
            }
        }
    }

    #[test]
    fn a_line_is_connected_and_starts_and_ends_where_it_should(
        ax in -80.0..80.0f64, ay in -80.0..80.0f64, bx in -80.0..80.0f64, by in -80.0..80.0f64,
    ) {
        let view = View::new(point(0.0, 0.0), 10.0);
        let raster = Raster::new(&view, CELLS, 2, 4);
        let mut dots = Vec::new();
        line(&raster, point(ax, ay), point(bx, by), |x, y, count| dots.push((x, y, count)));
        for pair in dots.windows(2) {
            prop_assert!((pair[1].0 - pair[0].0).abs() <= 1 && (pair[1].1 - pair[0].1).abs() <= 1);
            prop_assert_eq!(pair[1].2, pair[0].2 + 1);
        }
        let ends = [dots[0], dots[dots.len() - 1]].map(|(x, y, _)| Some((x as usize, y as usize)));
        prop_assert_eq!(ends, [raster.dot(point(ax, ay)), raster.dot(point(bx, by))]);
    }

    #[test]
    fn a_line_from_far_away_passes_through_what_it_should(
        x in -60.0..60.0f64, y in -60.0..60.0f64, angle in 0.0..std::f64::consts::TAU, far in 3.0..12.0f64,
    ) {
        let view = View::new(point(0.0, 0.0), 10.0);
        let raster = Raster::new(&view, CELLS, 2, 4);
        let (dx, dy) = (angle.cos() * 10f64.powf(far), angle.sin() * 10f64.powf(far));
        let mut nearest = i64::MAX;
        let target = raster.dot(point(x, y)).map(|(x, y)| (x as i64, y as i64)).unwrap();
        let mut count = 0;
        line(&raster, point(x - dx, y - dy), point(x + dx, y + dy), |x, y, _| {
            nearest = nearest.min((x - target.0).abs().max((y - target.1).abs()));
            count += 1;
        });
        prop_assert!(nearest <= 1, "{}", nearest);
        prop_assert!(count <= raster.width() + raster.height() + 16);
    }

    #[test]
    fn nothing_of_the_grid_is_too_far_or_too_small(
        x in prop::num::f64::NORMAL, y in prop::num::f64::NORMAL, scale in prop::num::f64::ANY,
        columns in 0u16..50, rows in 0u16..20, across in 0u8..3, down in 0u8..5,
    ) {
        let chart = everything();
        let view = View::new(point(x, y), scale);
        let raster = Raster::new(&view, Cells { columns, rows }, across, down);
        let layers = layers_of(&chart, &raster);
        prop_assert_eq!(layers.land.width(), raster.width());
        line(&raster, point(x, y), point(-x, 1.0), |_, _, _| ());
    }
}

/// A chart with one of everything that is drawn as dots.
fn everything() -> Chart {
    let shore = star(point(500.0, 500.0), &[300.0; 90]);
    Chart {
        land: vec![Land { name: String::new(), shore, lakes: vec![square(480.0, 480.0, 40.0)] }],
        shorelines: vec![vec![point(0.0, 0.0), point(900.0, 20.0)], vec![point(1.0, 1.0)], vec![]],
        drying: vec![Drying {
            height_m: 1.0,
            ground: Ground::Sand,
            edge: square(780.0, 480.0, 60.0),
        }],
        depths: vec![
            DepthArea { from_m: 2.0, to_m: 5.0, edge: square(100.0, 100.0, 50.0) },
            DepthArea { from_m: 5.0, to_m: 10.0, edge: square(50.0, 50.0, 200.0) },
            DepthArea { from_m: 10.0, to_m: 30.0, edge: square(120.0, 120.0, 10.0) },
        ],
        ..empty_chart()
    }
}

#[test]
fn the_smaller_of_two_depth_areas_lies_on_top() {
    let view = View::new(point(125.0, 125.0), 10.0);
    let raster = Raster::new(&view, CELLS, 2, 4);
    let [shoal, shallow, moderate] = layers_of(&everything(), &raster).depths;
    let at = |x, y| {
        let (x, y) = raster.dot(point(x, y)).unwrap();
        (shoal.get(x, y), shallow.get(x, y), moderate.get(x, y))
    };
    assert_eq!(at(60.0, 60.0), (false, false, true));
    assert_eq!(at(105.0, 105.0), (false, true, false));
    assert_eq!(at(125.0, 125.0), (false, false, false), "deep within the shallow");
    assert_eq!(at(40.0, 40.0), (false, false, false));
}

#[test]
fn land_that_overlaps_land_is_land() {
    let land = |west| Land { name: String::new(), shore: square(west, 0.0, 100.0), lakes: vec![] };
    let chart = Chart { land: vec![land(0.0), land(50.0)], ..empty_chart() };
    let view = View::new(point(75.0, 50.0), 10.0);
    let raster = Raster::new(&view, CELLS, 2, 4);
    let (x, y) = raster.dot(point(75.0, 50.0)).unwrap();
    assert!(layers_of(&chart, &raster).land.get(x, y));
}

/// On a grid of the world the shore near one end is drawn beyond the other end too.
#[test]
fn the_world_goes_on_beyond_the_antimeridian() {
    let chart = Chart {
        grid: nav::Grid::parse("EPSG:3395").unwrap(),
        land: vec![Land {
            name: String::new(),
            shore: square(-20_000_000.0, 0.0, 50_000.0),
            lakes: vec![],
        }],
        ..empty_chart()
    };
    let view = View::new(point(20_037_508.0, 0.0), 10_000.0);
    let raster = Raster::new(&view, CELLS, 2, 4);
    let layers = layers_of(&chart, &raster);
    let (x, y) = raster.dot(point(20_037_508.3 + 62_508.3, 25_000.0)).unwrap();
    assert!(layers.land.get(x, y));
    assert!(!layers.land.get(x - 12, y), "west of it is sea");
}

#[test]
fn where_land_is_cut_at_the_antimeridian_there_is_no_shore() {
    let cut = Shores::of(Arc::new(Coast::of(&Chart {
        grid: nav::Grid::parse("EPSG:3395").unwrap(),
        ..empty_chart()
    })));
    let end = cut.turn().unwrap() / 2.0;
    let half = |west: f64| Land {
        name: String::new(),
        shore: square(west, 0.0, 100_000.0),
        lakes: vec![],
    };
    let chart = Chart {
        grid: nav::Grid::parse("EPSG:3395").unwrap(),
        land: vec![half(-end), half(end - 100_000.0)],
        ..empty_chart()
    };
    let view = View::new(point(end, 50_000.0), 10_000.0);
    let raster = Raster::new(&view, CELLS, 2, 4);
    let layers = layers_of(&chart, &raster);
    for off in [-7_000.0, -1_000.0, 1_000.0, 7_000.0] {
        let (x, y) = raster.dot(point(end + off, 50_000.0)).unwrap();
        assert!(layers.land.get(x, y) && !layers.shore.get(x, y), "{off}");
    }
}

#[test]
fn where_land_ends_at_the_rim_of_the_plane_there_is_no_shore() {
    let (end, rim) = (20_037_508.34, -21_196_259.84);
    let shore = [(-end, rim), (end, rim), (end, rim + 5e6), (0.0, rim + 5e6), (-end, rim + 5e6)];
    let chart = Chart {
        grid: nav::Grid::parse("EPSG:3395").unwrap(),
        land: vec![Land {
            name: String::new(),
            shore: Ring(shore.map(|(x, y)| point(x, y)).to_vec()),
            lakes: vec![],
        }],
        ..empty_chart()
    };
    for scale in [2_000.0, 50_000.0] {
        let raster = Raster::new(&View::new(point(0.0, rim), scale), CELLS, 2, 4);
        let layers = layers_of(&chart, &raster);
        let (x, y) = raster.dot(point(0.0, rim)).unwrap();
        let lines = (0..raster.height()).filter(|y| layers.shore.get(x, *y)).count();
        assert!(layers.land.get(x, y - 2) && !layers.land.get(x, y + 2), "{scale}");
        assert!((y - 2..y + 2).all(|y| !layers.shore.get(x, y)), "{scale}: {lines}");
    }
}

#[test]
fn an_islet_smaller_than_a_dot_still_shows() {
    let chart = Chart {
        land: vec![Land { name: String::new(), shore: square(100.0, 100.0, 1.0), lakes: vec![] }],
        ..empty_chart()
    };
    let view = View::new(point(0.0, 0.0), 100.0);
    let raster = Raster::new(&view, CELLS, 2, 4);
    let (x, y) = raster.dot(point(100.5, 100.5)).unwrap();
    assert!(layers_of(&chart, &raster).shore.get(x, y));
}

#[test]
fn a_shore_of_many_runs_is_one_closed_line() {
    let chart = everything();
    let view = View::new(point(500.0, 500.0), 40.0);
    let raster = Raster::new(&view, CELLS, 2, 4);
    let layers = layers_of(&chart, &raster);
    // From a dot of land no way over sides leads to the sea without stepping on the shore.
    let mut seen = std::collections::HashSet::new();
    let mut open = vec![raster.dot(point(400.0, 500.0)).unwrap()];
    while let Some((x, y)) = open.pop() {
        if layers.shore.get(x, y) || !seen.insert((x, y)) {
            continue;
        }
        assert!(layers.land.get(x, y), "leaked at {x} {y}");
        open.extend([(x + 1, y), (x - 1, y), (x, y + 1), (x, y - 1)]);
    }
    assert!(seen.len() > 50);
}

#[test]
fn dashes_stay_in_place_when_the_view_moves() {
    let (a, b) = (point(-2_000.0, 0.0), point(2_000.0, 0.0));
    let dash = |centre: f64| {
        let raster = Raster::new(&View::new(point(centre, 0.0), 10.0), CELLS, 2, 4);
        let mut at_origin = None;
        let origin = raster.dot(point(0.0, 0.0)).unwrap().0 as i64;
        line(&raster, a, b, |x, _, count| {
            if x == origin {
                at_origin = Some(count);
            }
        });
        at_origin.unwrap()
    };
    assert_eq!(dash(0.0), dash(100.0));
    assert_eq!(dash(0.0), 400);
}

proptest! {
    #[test]
    fn cells_hold_the_dots_that_are_set(dots in prop::collection::vec((0i64..300, 0i64..17), 0..80), size in prop::sample::select(vec![(2u8, 4u8), (2, 3), (2, 2), (1, 2), (1, 1)])) {
        let mut mask = Mask::new(300, 17);
        dots.iter().for_each(|(x, y)| mask.set(*x, *y));
        let mut cells = Vec::new();
        let (across, down) = (usize::from(size.0), usize::from(size.1));
        for row in 0..17usize.div_ceil(down) {
            mask.cells(row, size, &mut cells);
            for (column, cell) in cells.iter().enumerate() {
                for dot in 0..across * down {
                    let (x, y) = (column * across + dot % across, row * down + dot / across);
                    prop_assert_eq!(cell >> dot & 1 == 1, mask.get(x, y));
                }
            }
        }
    }
}

#[test]
fn a_cell_gives_its_dots_row_by_row() {
    let mut mask = Mask::new(6, 8);
    for (x, y) in [(2, 4), (3, 5), (2, 7), (0, 0), (-1, 4), (6, 0), (0, 8)] {
        mask.set(x, y);
    }
    let cells = |row, size| {
        let mut cells = vec![9];
        mask.cells(row, size, &mut cells);
        cells
    };
    assert_eq!(cells(1, (2, 4)), [0, 0b01_00_10_01, 0]);
    assert_eq!(cells(0, (2, 4)), [1, 0, 0]);
    assert_eq!(cells(2, (2, 4)), [0, 0, 0]);
    assert_eq!(cells(2, (1, 2)), [0, 0, 0b01, 0b10, 0, 0]);
}

#[test]
fn drying_ground_that_is_covered_is_drawn_apart_and_anew_when_the_tide_changes() {
    let chart = Chart {
        drying: [100.0, 300.0]
            .map(|west| Drying {
                height_m: 1.0,
                ground: Ground::Sand,
                edge: square(west, 100.0, 50.0),
            })
            .to_vec(),
        ..empty_chart()
    };
    let (shapes, shores) =
        (Arc::new(Shapes::new(&chart)), Arc::new(Shores::of(Arc::new(Coast::of(&chart)))));
    let raster = Raster::new(&View::new(point(225.0, 125.0), 10.0), CELLS, 2, 4);
    let mut drawing = Drawing::default();
    let mut at = |covered: &[bool]| {
        let layers = drawing.layers(&shapes, &shores, &raster, covered);
        [125.0, 325.0].map(|x| {
            let (x, y) = raster.dot(point(x, 125.0)).unwrap();
            (layers.drying.get(x, y), layers.covered.get(x, y), layers.land.get(x, y))
        })
    };
    let (bare, wet) = ((true, false, false), (false, true, false));
    assert_eq!(at(&[]), [bare, bare]);
    assert_eq!(at(&[true, false]), [wet, bare]);
    assert_eq!(at(&[false, true]), [bare, wet]);
    assert_eq!(at(&[true]), [wet, bare], "what is not said is bare");
}
