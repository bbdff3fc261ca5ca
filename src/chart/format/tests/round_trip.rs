//! What is written reads back the same.

use nav::tide::Water;
use proptest::collection::vec;
use proptest::prelude::*;

use super::super::{ChartFile, read, write, write_with_shore_beside};
use super::{EXAMPLE, whole};
use crate::clean::{NAME, clean};
use crate::geojson::Shore;
use crate::model::*;
use crate::printed::{Means, PrintedWater};

/// A coordinate within the extent of the example, with digits of every kind.
fn coordinate(low: f64, high: f64) -> impl Strategy<Value = f64> {
    prop_oneof![
        low..=high,
        (low as i64..=high as i64).prop_map(|metres| metres as f64),
        (low as i64 * 100..=high as i64 * 100).prop_map(|cm| cm as f64 / 100.0),
    ]
}

fn point() -> impl Strategy<Value = Point> {
    (coordinate(660_000.0, 690_000.0), coordinate(340_000.0, 362_000.0)).prop_map(Point::from)
}

/// A star-shaped ring about a point: simple by construction, turned left.
fn ring() -> impl Strategy<Value = Ring> {
    (point(), vec(50.0..900.0, 3..60)).prop_map(|(centre, radii)| {
        let step = std::f64::consts::TAU / radii.len() as f64;
        let corners = radii.iter().enumerate().map(|(i, radius)| {
            let (sin, cos) = (i as f64 * step).sin_cos();
            Point { x: centre.x + radius * cos, y: centre.y + radius * sin }
        });
        let mut ring = Ring(corners.collect());
        ring.turn_left();
        ring
    })
}

fn name() -> impl Strategy<Value = String> {
    "[^\u{0}]{1,20}".prop_map(|name| format!("n{}", clean(&name, NAME - 1)))
}

fn land() -> impl Strategy<Value = Land> {
    (prop_oneof![Just(String::new()), name()], ring(), vec(ring(), 0..3))
        .prop_map(|(name, shore, lakes)| Land { name, shore, lakes })
}

fn rates() -> impl Strategy<Value = StreamRates> {
    let row = (0.0..=360.0, 0.0..=12.0, 0.0..=9.0)
        .prop_map(|(set_deg, springs_kn, neaps_kn)| StreamRow { set_deg, springs_kn, neaps_kn });
    let port = || Just("Hollow Quay".to_owned());
    prop_oneof![
        (port(), vec(row, 13)).prop_map(|(port, rows)| StreamRates::Hourly { port, rows }),
        (0.0..=360.0, constituents(), prop_oneof![Just(Vec::new()), constituents()]).prop_map(
            |(flood_deg, constituents, across)| StreamRates::Axis {
                flood_deg,
                constituents,
                across,
            }
        ),
    ]
}

fn constituents() -> impl Strategy<Value = Vec<Constituent>> {
    let names: Vec<&str> =
        nav::tide::Constituent::all().map(nav::tide::Constituent::name).collect();
    let one = |name: &str, amplitude, phase_deg| {
        let name = name.to_owned();
        Constituent { name, amplitude, phase_deg }
    };
    (prop::sample::subsequence(names, 1..5), vec((0.0..9.0, -360.0..=360.0), 4)).prop_map(
        move |(names, figures)| {
            let each = names.iter().zip(figures);
            each.map(|(name, (amplitude, phase))| one(name, amplitude, phase)).collect()
        },
    )
}

fn differences() -> impl Strategy<Value = PortTide> {
    let minutes = || (-700.0..700.0, -700.0..700.0);
    let metres = || (-9.0..9.0, -9.0..9.0);
    (minutes(), minutes(), metres(), metres()).prop_map(|(hw_min, lw_min, hw_m, lw_m)| {
        PortTide::Differences {
            standard: "Hollow Quay".to_owned(),
            high_water_min: hw_min,
            low_water_min: lw_min,
            high_water_m: hw_m,
            low_water_m: lw_m,
        }
    })
}

/// A table of a line every six hours, some with their kind.
fn printed() -> impl Strategy<Value = PortTide> {
    let means = (2.0..9.0, 0.0..2.0, prop::option::of(-3.0..9.0))
        .prop_map(|(springs_m, neaps_m, level_m)| Means { springs_m, neaps_m, level_m });
    let lines = vec((-1.0..1.0, 1.5..9.0, any::<bool>()), 1..5);
    (prop::option::of(means), prop_oneof![Just(""), Just("Europe/Oslo")], lines).prop_map(
        |(means, zone, lines)| {
            let line = |(day, (low, high, stated)): (usize, (f64, f64, bool))| {
                let line = |hour: usize, height_m, water| PrintedWater {
                    time: format!("2026-06-{:02}T{hour:02}:10Z", day + 1),
                    height_m,
                    water: stated.then_some(water),
                };
                [line(3, low, Water::Low), line(10, high, Water::High)]
            };
            let waters = lines.into_iter().enumerate().flat_map(line).collect();
            PortTide::Printed { zone: zone.to_owned(), means, waters }
        },
    )
}

prop_compose! {
    fn areas()(
        land in vec(land(), 0..4),
        shorelines in vec(vec(point(), 2..20), 0..3),
        drying in vec((0.0..5.0, ring()), 0..3),
        depths in vec((0.0..5.0, 5.5..90.0, ring()), 0..3),
        races in vec((name(), name(), ring()), 0..3),
    ) -> Chart {
        let mut chart = whole(EXAMPLE);
        chart.land = land;
        chart.shorelines = shorelines;
        chart.drying = drying
            .into_iter()
            .map(|(height_m, edge)| Drying { height_m, ground: Ground::Mud, edge })
            .collect();
        chart.depths =
            depths.into_iter().map(|(from_m, to_m, edge)| DepthArea { from_m, to_m, edge }).collect();
        chart.races =
            races.into_iter().map(|(name, note, edge)| Race { name, edge, runs: None, note }).collect();
        chart
    }
}

prop_compose! {
    fn charts()(
        chart in areas(),
        title in name(),
        things in vec((name(), point()), 0..6),
        tide in prop_oneof![differences(), printed()],
        source in prop_oneof![Just(String::new()), name()],
        years in prop::option::of((1900..1950_i16, 1950..2100_i16)),
        seasonal_m in prop_oneof![vec(-0.5..0.5, 12), Just(Vec::new())],
        streams in vec((name(), point(), rates()), 0..4),
    ) -> Chart {
        let mut chart = chart;
        chart.title = title;
        let kinds = [PlaceKind::Skerry, PlaceKind::Hill];
        chart.places = things
            .iter()
            .zip(kinds.iter().cycle())
            .map(|((name, at), &kind)| Place { name: name.clone(), at: *at, kind })
            .collect();
        chart.marks = things
            .iter()
            .map(|(name, at)| Mark { name: name.clone(), at: *at, kind: MarkKind::Cairn })
            .collect();
        chart.hazards = things
            .iter()
            .map(|(note, at)| {
                let (name, note) = (String::new(), note.clone());
                Hazard { name, at: *at, kind: HazardKind::FixedGear, note }
            })
            .collect();
        if let Some((_, at)) = things.first() {
            let name = "second".to_owned();
            chart.ports.push(Port { name, at: *at, source, years, seasonal_m, tide });
        }
        chart.streams.extend(
            streams.into_iter().map(|(name, at, rates)| Stream { name, at, rates }),
        );
        chart
    }
}

proptest! {
    #[test]
    fn a_chart_reads_back_as_it_was_written(chart in charts()) {
        // Rings of random radii may touch after all; those are not what is tried here.
        prop_assume!(crate::check::faults(&chart).is_empty());
        let text = write(&chart);
        prop_assert_eq!(whole(&text), chart.clone());
        prop_assert_eq!(write(&whole(&text)), text);
    }

    #[test]
    fn points_are_wrapped_several_to_a_line(ring in ring()) {
        let mut chart = whole(EXAMPLE);
        chart.land = vec![Land { shore: ring, ..Land::default() }];
        let text = write(&chart);
        let text = text.split("landings").next().unwrap_or_default();
        prop_assert!(text.lines().all(|line| line.chars().count() <= 110), "{text}");
    }
}

#[test]
fn a_named_grid_reads_back() {
    let mut chart = whole(EXAMPLE);
    chart.grid = nav::Grid::parse("UTM:33N").unwrap();
    assert_eq!(whole(&write(&chart)), chart);
}

#[test]
fn a_chart_with_its_shore_beside_reads_back() {
    let chart = whole(EXAMPLE);
    let text = write_with_shore_beside(&chart, "shores/a \"b\".geojson");
    let ChartFile::ShoreBeside(beside) = read(&text).unwrap() else { panic!("whole") };
    assert_eq!(beside.path, "shores/a \"b\".geojson");
    let shore = Shore { land: chart.land.clone(), lines: vec![] };
    assert_eq!(beside.with_shore(shore), chart);
}

#[test]
fn a_written_chart_is_pleasant_to_read() {
    assert_eq!(write(&whole(EXAMPLE)), include_str!("written.ron"));
}
