//! Shore files written, opened, and broken.

use std::ops::ControlFlow;
use std::sync::Arc;

use proptest::prelude::*;

use super::*;
use crate::coast::detail::Shores;
use crate::coast::{AGAIN, LineKind, SharedBytes};

/// Bytes that begin where a number of eight bytes may.
struct Aligned(Vec<u64>, usize);

impl AsRef<[u8]> for Aligned {
    fn as_ref(&self) -> &[u8] {
        &bytemuck::cast_slice(&self.0)[..self.1]
    }
}

fn shared(bytes: &[u8]) -> SharedBytes {
    let mut words = vec![0_u64; bytes.len().div_ceil(8)];
    bytemuck::cast_slice_mut(&mut words)[..bytes.len()].copy_from_slice(bytes);
    Arc::new(Aligned(words, bytes.len()))
}

const COAST: &str = include_str!("../../../../tests/data/coast/west_coast.geojson");

fn gathered(text: &str) -> (super::super::Coast, Extent, Told) {
    let gathered = Gatherer::geojson(text.as_bytes(), |_| ControlFlow::Continue(())).unwrap();
    gathered.finish_by(&mut crate::coast::Alone).unwrap()
}

/// A real coast, with a level of detail.
fn file() -> (Shores, About, Vec<u8>) {
    let (coast, extent, told) = gathered(COAST);
    let full = Arc::new(coast);
    let level = crate::coast::detail::coarser(
        &crate::coast::detail::Level { tolerance: 0.0, left_out: 0, coast: full.clone() },
        2000.0,
        &mut crate::coast::Alone,
    );
    let level = level.unwrap();
    let shores = Shores::new(full, vec![level]);
    let about = About {
        title: "West coast".to_owned(),
        source: "Natural Earth, public domain".to_owned(),
        extent,
        told,
    };
    let mut bytes = Vec::new();
    write(&shores, &about, &mut bytes).unwrap();
    (shores, about, bytes)
}

#[test]
fn what_is_written_is_opened_again() {
    let (shores, about, bytes) = file();
    for trust in [Trust::Cache, Trust::Nothing] {
        let (found, opened) = open(shared(&bytes), trust).unwrap();
        assert_eq!(found, about);
        assert_eq!(opened.full(), shores.full());
        let [level] = opened.levels() else { panic!("one level") };
        assert_eq!(level.tolerance, 2000.0);
        let points = |coast: &super::super::Coast| -> Vec<Point> {
            coast.lines().flat_map(|line| line.points().collect::<Vec<_>>()).collect()
        };
        assert_eq!(points(&level.coast), points(&shores.levels()[0].coast));
    }
    assert_eq!(check(&bytes), []);
    let chart = about.chart();
    assert_eq!((chart.grid.name(), chart.invented), ("EPSG:3395".to_owned(), false));
    assert_eq!((chart.title, chart.extent), (about.title, about.extent));
}

#[test]
fn a_file_cut_short_anywhere_is_refused() {
    let (_, _, bytes) = file();
    for end in (0..4096).chain((4096..bytes.len()).step_by(997)) {
        assert!(open(shared(&bytes[..end]), Trust::Cache).is_err(), "cut at {end}");
        assert!(!check(&bytes[..end]).is_empty(), "cut at {end}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// A byte that is not what was written is found when everything is held against the checksums,
    /// and does no harm where it is not.
    #[test]
    fn a_broken_byte_is_found(at in any::<prop::sample::Index>(), flip in 1..=u8::MAX) {
        thread_local!(static FILE: Vec<u8> = file().2);
        let mut bytes = FILE.with(Clone::clone);
        let at = at.index(bytes.len());
        bytes[at] ^= flip;
        let found = check(&bytes);
        let between = FILE.with(|file| {
            let entries = directory::read(file).unwrap();
            let end = directory::HEAD + entries.len() * directory::ENTRY;
            let within = |e: &directory::Entry| (e.start..e.start + e.bytes).contains(&(at as u64));
            at >= end && !entries.iter().any(within)
        });
        prop_assert!(between || !found.is_empty(), "byte {}", at);
        prop_assert_eq!(open(shared(&bytes), Trust::Nothing).is_ok(), found.is_empty());
        if let Ok((about, shores)) = open(shared(&bytes), Trust::Cache) {
            let middle = about.extent.center();
            let _ = shores.full().nearest(middle, f64::INFINITY);
            let _ = shores.full().on_land(middle);
            let _ = shores.full().crossings(about.extent.min(), about.extent.max());
        }
    }
}

#[test]
fn faults_are_told_apart() {
    let (_, _, bytes) = file();
    let changed = |at: usize, value: u8| {
        let mut bytes = bytes.clone();
        bytes[at] = value;
        open(shared(&bytes), Trust::Cache).unwrap_err().to_string()
    };
    assert!(changed(0, b'x').starts_with("not a shore file"));
    assert_eq!(
        changed(8, 2),
        "version 2 of the shore file; this program reads version 1: import the shore again"
    );
    assert!(changed(15, 1).starts_with("written on a machine of another byte order"));
    assert!(changed(20, 1).contains("bytes, of "));
    assert!(changed(50, 77).starts_with("damaged: the checksum of the directory does not fit"));
}

#[test]
fn a_shore_is_taken_as_it_is_given_and_what_is_odd_told() {
    let text = r#"{"type": "GeometryCollection", "geometries": [
        {"type": "Polygon", "coordinates": [[[0,0],[1,0],[1,0],[1,1],[0,1]]]},
        {"type": "Polygon", "coordinates": [[[5,0],[6,1],[6,0],[5,1],[5,0]]]},
        {"type": "Polygon", "coordinates": [[[0,-70],[9,-90],[9,-70],[0,-70]]]},
        {"type": "LineString", "coordinates": [[7,7],[7,7]]},
        {"type": "Point", "coordinates": [7,7]},
        {"type": "Polygon", "coordinates": []}]}"#;
    let (coast, _, told) = gathered(text);
    let expected = Told { not_closed: 1, repeated: 2, clamped: 1, across: 0, points: 1, empty: 1 };
    assert_eq!(told, expected);
    assert_eq!(
        told.to_string(),
        "1 ring not closed, now by a straight side, 2 repeated positions, \
         1 position beyond 85.9° put there, 1 point left out, 1 empty geometry left out"
    );
    assert_eq!((coast.lines().len(), coast.vertices()), (4, 5 + 4 + 3 + 2));
    let crossed = crossed(&coast).unwrap();
    assert_eq!(crossed.rings, 1);
    assert!((crossed.first.x - 5.5 * 111_319.49).abs() < 0.1, "{crossed:?}");
    let none = Gatherer::geojson(&b"{\"type\":\"Point\",\"coordinates\":[1,2]}"[..], |_| {
        ControlFlow::Continue(())
    });
    assert!(none.unwrap_err().to_string().starts_with("1:1: no shore in it"));
}

#[test]
fn a_ring_across_the_180th_meridian_is_in_one_piece_and_drawn_on_both_sides() {
    let text = r#"{"type": "Feature", "properties": {"name": "Long"}, "geometry": {"type": "MultiPolygon",
        "coordinates": [[[[178,0],[180,0],[180,1],[178,1],[178,0]]],
                        [[[-180,0],[-179,0],[-179,1],[-180,1],[-180,0]]]]}}"#;
    let (coast, extent, told) = gathered(text);
    assert_eq!(told.across, 1);
    let lines: Vec<_> = coast.lines().collect();
    let whole = lines.iter().find(|line| line.feature() == 0).unwrap();
    let again = lines.iter().find(|line| line.feature() == AGAIN).unwrap();
    assert_eq!(
        (whole.name(), whole.kind(), again.kind()),
        ("Long", LineKind::Land, LineKind::Land)
    );
    // 3 degrees of the equator and back, and twice a degree of a meridian: no cut is measured.
    let round = 2.0 * 3.0 * 111_319.49 + 2.0 * 110_574.39;
    assert!((whole.length().as_metres() - round).abs() < 120.0, "{}", whole.length().as_metres());
    let degree = 111_319.490_793;
    let at = |lon: f64| Point { x: lon * degree, y: 50_000.0 };
    for (lon, land) in [
        (177.9, false),
        (178.1, true),
        (180.5, true),
        (181.1, false),
        (-179.5, true),
        (-178.9, false),
    ] {
        assert_eq!(coast.on_land(at(lon)), land, "{lon}");
    }
    assert!(extent.min().x < -179.9 * degree && extent.max().x > 180.9 * degree);
}

/// A ring round a pole, as files close it: along the 180th meridian and 90° S.
#[test]
fn what_closes_a_ring_round_a_pole_is_filled_to_and_is_no_shore() {
    let shore = [(-180.0, -78.0), (-90.0, -72.0), (0.0, -70.0), (90.0, -66.0), (180.0, -78.0)];
    let edge = [(180.0, -84.0), (180.0, -90.0), (0.0, -90.0), (-180.0, -90.0)];
    let ring: Vec<String> =
        shore.iter().chain(&edge).chain(&shore[..1]).map(|(x, y)| format!("[{x},{y}]")).collect();
    let (coast, _, told) =
        gathered(&format!(r#"{{"type":"Polygon","coordinates":[[{}]]}}"#, ring.join(",")));
    assert_eq!(told.clamped, 3);
    let line = coast.lines().next().unwrap();
    // Shore alone is measured, and on the ground it is a ring round the pole.
    let position = |&(lon, lat): &(f64, f64)| nav::Position::from_degrees(lat, lon).unwrap();
    let truth = nav::geodesic::polygon(shore[..4].iter().map(position));
    let off = (line.length() - truth.perimeter).as_metres();
    assert!(off.abs() < 0.1, "{off}");
    let measured = crate::measure::shores(&coast, None, &[]).unwrap().remove(0);
    let off = (measured.measured.length - truth.perimeter).as_metres();
    assert!(off.abs() < 0.1, "{off}");
    assert_eq!(measured.measured.vertices, 5);
    let off = measured.land.as_square_metres() / truth.area.as_square_metres() - 1.0;
    assert!(off.abs() < 1e-7, "{off}");
    assert!(measured.measured.on_grid.as_metres() < 5e7, "{:?}", measured.measured.on_grid);
    // It is never caught, and land reaches to it.
    let at = |lon: f64, lat: f64| {
        let point = coast.grid().forward(position(&(lon, lat))).unwrap().point;
        Point { x: point.easting.as_metres(), y: point.northing.as_metres() }
    };
    for (lon, lat) in [(10.0, -85.8), (179.9, -85.0), (-179.9, -85.0), (-179.99, -85.89)] {
        let near = coast.nearest(at(lon, lat), f64::INFINITY).unwrap();
        assert!(near.on.at.y > at(0.0, -78.1).y, "{near:?}");
        assert_eq!(coast.nearest(at(lon, lat), 1e5), None);
        assert!(coast.on_land(at(lon, lat)));
    }
    // Nor is a line laid along it: there is one way between two places, and none round.
    let anchor = |lon: f64| {
        let near = coast.nearest(at(lon, -77.0), f64::INFINITY).unwrap();
        crate::trace::Anchor::Shore(near.on)
    };
    for way in [crate::trace::Way::Shorter, crate::trace::Way::Longer] {
        for ends in [[170.0, -170.0], [-170.0, 170.0], [10.0, 10.0]] {
            let anchors = ends.map(|lon| (anchor(lon), way));
            let laid =
                crate::trace::lay(&coast, &anchors, Default::default(), &crate::trace::patient);
            let points = laid.unwrap().points;
            assert!(points.iter().all(|p| p.y > at(0.0, -78.1).y), "{way:?} {ends:?}: {points:?}");
            assert!(ends[0] == ends[1] || points.len() == 5, "{way:?} {ends:?}: {points:?}");
        }
    }
}
