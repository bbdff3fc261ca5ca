//! Files of other tools taken as routes, and routes that went out and come back.

use std::fs;

use ::chart::Chart;
use plan::{Departure, Route, Waypoint};
use rstest::rstest;

use crate::Exit;
use crate::testing::{Said, run};

fn practice() -> Chart {
    ::chart::practice().unwrap()
}

/// A day between two landings of the practice chart.
fn day() -> Route {
    let chart = practice();
    let point = |index: usize| {
        let landing = &chart.landings[index];
        Waypoint::new(chart.position(landing.at).unwrap()).named(&landing.name)
    };
    let departure: Departure = "2026-06-14T09:30[-02:00]".parse().unwrap();
    let points = vec![point(0), Waypoint { note: "礁 & \"tea\"".into(), ..point(1) }];
    Route { title: "Day".into(), points, departure: Some(departure), ..Route::new(&chart.title) }
}

fn import(arguments: &[&str], input: &str) -> Said {
    run(["import"].into_iter().chain(arguments.iter().copied()), input)
}

#[rstest]
#[case("day.gpx")]
#[case("day.geojson")]
fn a_route_goes_out_and_comes_back(#[case] name: &str) {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    fs::write(at("day.ron"), plan::format::write(&day())).unwrap();
    let said = run(["export", &at("day.ron"), "-o", &at(name)], "");
    assert_eq!((said.exit, said.output.as_str()), (Exit::Done, ""), "{}", said.errors);
    assert!(said.errors.starts_with("written: "), "{}", said.errors);
    let said = import(&[&at(name), "-o", &at("back.ron")], "");
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    assert_eq!(
        fs::read_to_string(at("back.ron")).unwrap(),
        fs::read_to_string(at("day.ron")).unwrap()
    );
    // Neither is overwritten unless that is asked for.
    let said = import(&[&at(name), "-o", &at("back.ron")], "");
    assert_eq!(said.exit, Exit::Bad);
    assert!(said.errors.contains("is there already; --force overwrites it"), "{}", said.errors);
    assert_eq!(import(&[&at(name), "-o", &at("back.ron"), "--force"], "").exit, Exit::Done);
}

#[test]
fn a_route_goes_through_pipes() {
    let route = plan::format::write(&day());
    let gpx = run(["export", "-"], &route);
    assert_eq!((gpx.exit, gpx.errors.as_str()), (Exit::Done, ""));
    let said = import(&["-"], &gpx.output);
    assert_eq!((said.exit, said.output, said.errors), (Exit::Done, route.clone(), String::new()));
    let csv = run(["export", "-", "--format", "csv", "--with", "landings,hazards"], &route);
    assert!(
        csv.errors.starts_with("the title and the chart's are left out: CSV has points alone\n"),
        "{}",
        csv.errors
    );
    assert_eq!(
        csv.output.lines().count(),
        3 + practice().landings.len() + practice().hazards.len()
    );
    let said = run(["export", "-", "--points", "1"], &route);
    assert_eq!(said.errors, "the route has 2 points, and --points 1 leaves no room for them\n");
}

/// Two routes, a track and a point on the practice chart.
fn several() -> String {
    let at = |index: usize| {
        let chart = practice();
        let at = chart.position(chart.landings[index].at).unwrap();
        format!("lat='{}' lon='{}'", at.lat.as_degrees(), at.lon.as_degrees())
    };
    let (a, b) = (at(0), at(1));
    format!(
        "<gpx><wpt {a}><name>W</name></wpt><rte><name>One\u{1b}[2J</name><rtept {a}/><rtept {b}/></rte>
         <rte><rtept {a}/></rte><trk><name>T</name><trkseg><trkpt {a}/><trkpt {b}/></trkseg></trk></gpx>"
    )
}

#[test]
fn where_there_are_several_they_are_listed_and_one_is_chosen() {
    let said = import(&["-"], &several());
    assert_eq!((said.exit, said.output.as_str()), (Exit::Bad, ""));
    assert_eq!(
        said.errors,
        "-: choose: there is more than one\n--route 1: One�[2J, 2 points\n--route 2: 1 point\n\
         --track 1: T, 2 fixes\n--waypoints: 1 point\n"
    );
    let taken = |arguments: &[&str]| {
        let arguments: Vec<_> = ["-"].iter().chain(arguments).copied().collect();
        let said = import(&arguments, &several());
        assert_eq!(said.exit, Exit::Done, "{}", said.errors);
        (plan::format::read(&said.output).unwrap(), said.errors)
    };
    let (route, errors) = taken(&["--route", "1", "--name", "Sunday"]);
    assert_eq!((route.title.as_str(), route.points.len()), ("Sunday", 2));
    assert_eq!(errors, "left out beside it: 1 route, 1 track, 1 point\n");
    let (route, errors) = taken(&["--track", "1", "--within", "50m"]);
    assert_eq!((route.title.as_str(), route.points.len()), ("T", 2));
    assert!(errors.starts_with("of 2 fixes 2 are points of the route"), "{errors}");
    assert_eq!(taken(&["--waypoints"]).0.points[0].name, "W");
    let said = import(&["-", "--route", "3"], &several());
    assert!(
        said.errors.starts_with("-: choose: there is no route 3\n--route 1"),
        "{}",
        said.errors
    );
}

#[test]
fn what_lies_off_the_chart_is_said() {
    let inside = practice().position(practice().landings[0].at).unwrap();
    let (lat, lon) = (inside.lat.as_degrees(), inside.lon.as_degrees());
    let said = import(&["-"], &format!("lat,lon\n{lat},{lon}\n57,-2\n"));
    assert_eq!(said.exit, Exit::Done);
    let title = practice().title;
    assert_eq!(
        said.errors,
        format!("1 of 2 points lie off the chart “{title}”, point 2 the first\n")
    );
    let said = import(&["-"], "lat,lon\n57,-2\n");
    assert_eq!(said.exit, Exit::Bad);
    let none = format!("no point of it lies on the chart “{title}”; name another with --chart\n");
    assert_eq!(said.errors, none);
}

#[rstest]
#[case("<!DOCTYPE gpx [<!ENTITY a 'b'>]><gpx/>", "standard input:1:1: a DOCTYPE")]
#[case(
    "<gpx>\n<wpt lat='91\u{1b}' lon='1'/></gpx>",
    "standard input:2:1: the latitude “91�” is not a number"
)]
#[case("{\"type\": \"Point\"", "standard input:1:16: the file ends in the middle")]
#[case("hello", "standard input:1:1: the first row names the columns")]
#[case("<gpx/>", "-: choose: there is no route, track or point in it")]
fn what_is_wrong_is_said_where_it_is(#[case] text: &str, #[case] begins: &str) {
    let said = import(&["-"], text);
    assert_eq!((said.exit, said.output.as_str()), (Exit::Bad, ""));
    assert!(said.errors.starts_with(begins), "{}", said.errors);
    assert!(!said.errors.contains('\u{1b}'));
}
