//! Routes go out in each form and come back.

mod any;
mod forms;
mod others;

use std::sync::LazyLock;

use any::{any_route, any_script};
use chart::Chart;
use nav::{Length, Position};
use plan::{Along, Line, Route, Waypoint};
use proptest::prelude::*;

use super::*;

/// The built-in chart, read once.
pub(super) fn practice() -> Chart {
    static PRACTICE: LazyLock<Chart> = LazyLock::new(|| chart::practice().unwrap());
    PRACTICE.clone()
}

fn at(lat: f64, lon: f64) -> Position {
    Position::from_degrees(lat, lon).unwrap()
}

fn export<'a>(route: &'a Route, chart: &'a Chart) -> Export<'a> {
    Export { route, chart, with: &[], most_points: None, track: true }
}

/// The route out and back.
fn back(form: Form, route: &Route) -> Taken {
    let chart = Chart { title: route.chart.clone(), ..practice() };
    let text = export(route, &chart).write(form).text;
    let foreign =
        read(text.as_bytes(), None, None).unwrap_or_else(|error| panic!("{error}\n{text}"));
    assert_eq!((foreign.routes.len(), foreign.tracks.len()), (1, 0), "{text}");
    foreign.routes[0].taken(&route.chart).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn a_route_goes_out_as_gpx_and_comes_back_whole(route in any_route()) {
        let back = back(Form::Gpx, &route);
        prop_assert_eq!(&back.route, &route);
        prop_assert_eq!(back.left_out, Vec::<String>::new());
    }

    #[test]
    fn a_route_goes_out_as_geojson_and_comes_back_whole(route in any_route()) {
        let back = back(Form::GeoJson, &route);
        prop_assert_eq!(&back.route, &route);
        prop_assert_eq!(back.left_out, Vec::<String>::new());
    }

    #[test]
    fn points_go_out_as_csv_and_come_back(route in any_route()) {
        let back = back(Form::Csv, &route);
        let kept = |point: &Waypoint| (point.name.clone(), point.at, point.stop, point.note.clone());
        let [one, other] = [&route, &back.route].map(|route| route.points.iter().map(kept).collect::<Vec<_>>());
        prop_assert_eq!(one, other);
    }

    #[test]
    fn any_script_survives(name in any_script(), note in any_script()) {
        let point = Waypoint { note, ..Waypoint::new(at(52.0, -27.0)).named(&name) };
        let route = Route { points: vec![point], title: name, ..Route::new("Chart") };
        for form in [Form::Gpx, Form::GeoJson] {
            prop_assert_eq!(&back(form, &route).route, &route);
        }
        let csv = back(Form::Csv, &route).route;
        prop_assert_eq!(csv.points, route.points);
    }

    #[test]
    fn any_text_is_read_without_harm(text in "\\PC{0,80}|[<>/a-z\"'=!&;\\[\\]{}:,0-9. -]{0,80}") {
        for form in [Form::Gpx, Form::GeoJson, Form::Csv] {
            let _ = read(text.as_bytes(), Some(form), None);
        }
    }

    #[test]
    fn a_file_that_is_cut_off_is_an_error_or_what_came_before(route in any_route(), part in 0.0..1.0) {
        let chart = Chart { title: route.chart.clone(), ..practice() };
        for form in [Form::Gpx, Form::GeoJson] {
            let text = export(&route, &chart).write(form).text;
            let end = ((text.trim_end().len() - 1) as f64 * part) as usize;
            prop_assert!(read(&text.as_bytes()[..end], Some(form), None).is_err());
        }
    }
}

/// Some 2 km east along a bay, in a hundred steps.
fn along_a_bay() -> Route {
    let step = |n: i32| {
        let x = f64::from(n);
        at(52.24 + 0.004 * (x * std::f64::consts::PI / 100.0).sin(), -27.14 + 0.0003 * x)
    };
    let line = Line::new((1..100).map(step)).unwrap();
    let along = Along::new(line, &[], 50.0 * Length::METRE, Length::ZERO);
    let points = vec![
        Waypoint::new(step(0)).named("Slip"),
        Waypoint::new(step(100)).named("Beach").reached(along),
        Waypoint::new(at(52.25, -27.1)),
    ];
    Route { points, ..Route::new("Ternhaven Sound") }
}

#[test]
fn a_receiver_with_few_points_gets_the_shape_and_what_it_strays_is_said() {
    let (route, chart) = (along_a_bay(), practice());
    for form in [Form::Gpx, Form::GeoJson] {
        let few = Export { most_points: Some(12), track: false, ..export(&route, &chart) };
        let Written { text, left_out } = few.write(form);
        assert_eq!(left_out.len(), 1, "{left_out:?}");
        assert!(
            left_out[0].starts_with("of 102 points 12 are written; the line strays"),
            "{left_out:?}"
        );
        let foreign = read(text.as_bytes(), None, None).unwrap();
        let back = foreign.routes[0].taken(&chart.title).unwrap().route;
        assert_eq!(back.points[1].along.as_ref().unwrap().line.len(), 9);
        assert_eq!(back.points[1].name, "Beach");
    }
}

#[test]
fn what_other_tools_change_is_honoured() {
    let (route, chart) = (along_a_bay(), practice());
    let text = export(&route, &chart).write(Form::Gpx).text;
    let beach = &route.points[1].at;
    let changed = text.replace("<name>Slip</name>", "<name>Ramp</name>").replacen(
        &format!("lon=\"{}\"", beach.lon.as_degrees()),
        "lon=\"-27.1111\"",
        1,
    );
    let foreign = read(changed.as_bytes(), None, None).unwrap();
    let back = foreign.routes[0].taken(&chart.title).unwrap().route;
    assert_eq!((back.points.len(), back.points[0].name.as_str()), (3, "Ramp"));
    assert_eq!(back.points[1].at.lon.as_degrees(), -27.1111);
    assert_eq!(back.points[1].along.as_ref().unwrap().line.len(), 99);
    // Without what this program adds the same file is a plain route of all its points.
    let bare = text.replace("urn:strandline:route:1", "urn:nobody");
    let foreign = read(bare.as_bytes(), None, None).unwrap();
    assert_eq!(foreign.routes[0].taken(&chart.title).unwrap().route.points.len(), 102);
    assert_eq!(foreign.left_out, ["additions in another program's own form are left out (102)"]);
}

#[test]
fn what_is_left_out_of_csv_is_said() {
    let route = along_a_bay();
    let csv = Export { track: false, ..export(&route, &practice()) }.write(Form::Csv);
    assert_eq!(
        csv.left_out,
        [
            "the lines of traced legs are left out: CSV has points alone",
            "the title and the chart's are left out: CSV has points alone"
        ]
    );
    assert!(
        csv.text.starts_with("name,lat,lon,reference,stop_min,note,kind\r\nSlip,52.24,-27.14,"),
        "{}",
        csv.text
    );
}

#[test]
fn things_of_the_chart_go_with_it() {
    let (route, chart) = (along_a_bay(), practice());
    let with = [With::Landings, With::Hazards, With::Marks, With::Places];
    let count = chart.landings.len() + chart.hazards.len() + chart.marks.len() + chart.places.len();
    for form in [Form::Gpx, Form::GeoJson] {
        let text = Export { with: &with, ..export(&route, &chart) }.write(form).text;
        let foreign = read(text.as_bytes(), None, None).unwrap();
        assert_eq!(foreign.waypoints.len(), count);
        let landing = &chart.landings[0];
        assert_eq!(foreign.waypoints[0].name, landing.name);
        let off =
            nav::geodesic::inverse(foreign.waypoints[0].at, chart.position(landing.at).unwrap());
        assert!(off.distance.as_metres() < 1e-3);
    }
}

#[test]
fn every_file_that_could_be_carried_has_the_cautions() {
    let (route, chart) = (along_a_bay(), practice());
    for form in [Form::Gpx, Form::GeoJson] {
        let text = export(&route, &chart).write(form).text;
        assert!(text.contains("Invented chart: no such place. Not for navigation."), "{text}");
    }
}

#[test]
fn a_leg_over_the_180th_meridian_is_cut_in_two() {
    let points = vec![Waypoint::new(at(10.0, 179.0)), Waypoint::new(at(12.0, -179.0))];
    let route = Route { points, ..Route::new("C") };
    let text = Export { track: false, ..export(&route, &practice()) }.write(Form::GeoJson).text;
    // Half of the way is on either side.
    let parts = "[[[179.0,10.0],[180.0,11.0]],[[-180.0,11.0],[-179.0,12.0]]]";
    assert!(text.contains(&format!("\"MultiLineString\",\"coordinates\":{parts}")), "{text}");
    assert_eq!(back(Form::GeoJson, &route).route.points, route.points);
}

#[test]
fn a_track_becomes_a_route_of_the_points_that_make_its_shape() {
    use plan::track::{Fix, Track};
    let mut track = Track::named("Saturday");
    for n in 0..2000 {
        let x = f64::from(n) / 2000.0;
        // East, then north.
        let (lat, lon) =
            if x < 0.5 { (52.24, -27.14 + 0.1 * x) } else { (52.24 + 0.1 * (x - 0.5), -27.09) };
        if n == 1500 {
            track.begin_segment();
        }
        track.push(Fix::new(at(lat, lon), None)).unwrap();
    }
    let taken = along_track(&track, 20.0 * Length::METRE, "C").unwrap();
    assert_eq!((taken.route.points.len(), taken.route.title.as_str()), (3, "Saturday"));
    assert!(
        taken.left_out[0].starts_with("of 2000 fixes 3 are points of the route"),
        "{:?}",
        taken.left_out
    );
    assert_eq!(taken.left_out[1], "gaps of the track are straight legs, or parts of them (1)");
    assert_eq!(along_track(&Track::default(), Length::METRE, "C"), Err(TakeError::Empty));
}

#[test]
fn more_points_than_a_route_holds_are_thinned_and_names_kept() {
    let points = (0..3000).map(|n| ForeignPoint {
        name: if n == 1234 { "Named".to_owned() } else { String::new() },
        ..ForeignPoint::new(at(52.0, -27.0 + f64::from(n) * 1e-4))
    });
    let route = ForeignRoute { points: points.collect(), ..ForeignRoute::default() };
    let taken = route.taken("C").unwrap();
    assert_eq!(taken.route.points.len(), Route::MOST_POINTS);
    assert!(taken.route.points.iter().any(|point| point.name == "Named"));
    assert!(taken.left_out[0].starts_with("of 3000 points 999 are kept"), "{:?}", taken.left_out);
    let all =
        (0..1000).map(|n| ForeignPoint { name: n.to_string(), ..ForeignPoint::new(at(1.0, 2.0)) });
    let named = ForeignRoute { points: all.collect(), ..ForeignRoute::default() };
    assert_eq!(named.taken("C"), Err(TakeError::Names(1000)));
}
