//! Shores measured on the command line, bytes in and bytes out.

use clap::Parser;
use serde_json::Value;

use super::distance::{Distance, written};
use crate::testing::{Said, run};
use crate::{Cli, Exit};

/// An island of 4 by 3 km with a bay of 1 by 2 km cut into its south side, one of 1 km square, and
/// a lake of 500 m square in the first; on the meridian of its grid and at scale 1.
const CHART: &str = r#"(
    version: 1,
    title: "Hollow Sound",
    invented: true,
    grid: Own(
        title: "Hollow grid",
        origin: (lat: 47.3, lon: -38.6),
        false_origin: (670000, 350000),
        lettering: (south_west: (600000, 300000), rows: ["QB"]),
    ),
    extent: (south_west: (660000, 340000), north_east: (690000, 362000)),
    shore: Here([
        (name: "Great Hollow", shore: [
            (668000, 349000), (669500, 349000), (669500, 351000), (670500, 351000),
            (670500, 349000), (672000, 349000), (672000, 352000), (668000, 352000),
        ], lakes: [[(668500, 351300), (669000, 351300), (669000, 351800), (668500, 351800)]]),
        (name: "Small Hollow",
            shore: [(674000, 349000), (675000, 349000), (675000, 350000), (674000, 350000)]),
    ]),
    places: [
        (name: "West Head", at: (667900, 349000), kind: Headland),
        (name: "East Head", at: (672100, 348950), kind: Headland),
        (name: "East Bay", at: (672100, 350000), kind: Inlet),
        (name: "Little Beach", at: (674500, 348990), kind: Inlet),
    ],
)"#;

fn coast(arguments: &[&str]) -> Said {
    run(["coast", "-"].iter().chain(arguments).copied(), CHART)
}

fn json(arguments: &[&str]) -> Value {
    let said = coast(&[arguments, &["--json"]].concat());
    assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
    serde_json::from_str(&said.output).unwrap()
}

fn near(value: &Value, wanted: f64) {
    let off = value.as_f64().unwrap() - wanted;
    // By the scale of the grid some kilometres from its meridian, and where squares are spheres'.
    assert!(off.abs() < 1e-5 * wanted.abs() + 1e-3, "{value} is not {wanted}");
}

/// From head to head along the south side and round the bay: 1.5 + 2 + 1 + 2 + 1.5 km, where
/// straight is 4 km; the ends stand 100 m and 112 m off the corners.
#[test]
fn a_piece_of_shore() {
    let found = json(&["--from", "West Head", "--to", "east head", "--step", "2km,500 m,0.1NM"]);
    let shore = &found["shores"][0];
    near(&shore["length_m"], 8_000.0);
    near(&shore["straight_m"], 4_000.0);
    near(&shore["indentation"], 2.0);
    near(&found["piece"]["from"]["caught_m"], 100.0);
    near(&found["piece"]["to"]["caught_m"], 100.0_f64.hypot(50.0));
    assert_eq!(found["piece"]["from"]["reference"], "QB 6800 4900");
    assert_eq!(shore["name"], "Great Hollow");
    let dividers = shore["dividers"].as_array().unwrap();
    let steps: Vec<f64> = dividers.iter().map(|it| it["step_m"].as_f64().unwrap()).collect();
    assert_eq!(steps, [2_000.0, 500.0, 185.2]);
    // Dividers cut corners, the wider the more.
    let length = |index: usize| dividers[index]["onwards"]["length_m"].as_f64().unwrap();
    assert!(length(0) < 7_000.0 && length(0) > 4_000.0, "{shore}");
    assert!(length(2) < 8_000.0 && length(2) > 7_500.0, "{shore}");
    assert!(dividers[1]["back"]["steps"].as_u64().unwrap() >= 14, "{shore}");
    assert!(shore["slope"]["slope"].as_f64().unwrap() < -0.01);
    assert_eq!(shore["slope"]["narrowest_m"], 185.2);
    // The other way is the rest of the shore, 3 + 4 + 3 km.
    let other = json(&["--from", "QB680490", "--to", "QB 7200 4900", "--other-way"]);
    // A reference is the middle of its square.
    let length = other["shores"][0]["length_m"].as_f64().unwrap();
    assert!((length - 10_000.0).abs() < 60.0, "{length}");
    assert_eq!(other["shores"][0]["dividers"].as_array().unwrap().len(), 5);
    // To itself, once round.
    let round = json(&["--from", "West Head", "--to", "West Head", "--other-way"]);
    near(&round["shores"][0]["length_m"], 18_000.0);
    near(&round["shores"][0]["land_area_m2"], 10e6);
}

#[test]
fn a_piece_of_shore_printed() {
    let said = coast(&["--from", "West Head", "--to", "East Head", "--step", "1km"]);
    assert_eq!(said.errors, "");
    let expected = "\
Hollow Sound
An invented place: it does not exist.
from          QB 6800 4900  47°17.5′N  038°37.6′W; on the shore 100.0 m off
to            QB 7200 4900  47°17.5′N  038°34.4′W; on the shore 111.8 m off
along         4.3 NM, 8.000 km
on the grid   8.000 km, 0.00 m longer than on the ground
straight      2.2 NM, 4.000 km
indentation   2.00 times as long as straight
vertices      6
";
    assert!(said.output.starts_with(expected), "{}", said.output);
    assert!(said.output.ends_with(&format!("{}\n", nav::text::CAUTION)), "{}", said.output);
}

#[test]
fn a_whole_shore_by_its_name() {
    let found = json(&["--feature", "great hollow", "--step", "1km"]);
    let shores = found["shores"].as_array().unwrap();
    assert_eq!(shores.len(), 1);
    near(&shores[0]["length_m"], 18_000.0);
    near(&shores[0]["land_area_m2"], 10e6 - 0.25e6);
    assert_eq!((&shores[0]["lakes"], &shores[0]["slope"]), (&1.into(), &Value::Null));
    let walk = &shores[0]["dividers"][0]["back"];
    assert!((16_000.0..18_000.0).contains(&walk["length_m"].as_f64().unwrap()), "{walk}");
}

#[test]
fn every_shore() {
    let found = json(&[]);
    near(&found["total"]["length_m"], 22_000.0);
    near(&found["total"]["land_area_m2"], 10.75e6);
    assert_eq!(found["total"]["shores_round_land"], 2);
    assert_eq!(found["shores"][0]["name"], "Great Hollow");
    let said = coast(&[]);
    assert!(
        said.output.contains("     18.000 km          9.750 km²  Great Hollow\n"),
        "{}",
        said.output
    );
    assert!(said.output.contains("all           2 shores round land, 0 open shores, 1 lake\n"));
    let table = coast(&["--csv"]).output;
    assert_eq!(table.lines().count(), 3);
    assert!(table.starts_with("name,closed,vertices,step_m,length_m,"));
}

#[test]
fn the_line_at_a_distance_and_from_shore_to_shore() {
    let off = json(&["--from", "West Head", "--to", "East Head", "--smooth", "1.5km"]);
    near(&off["piece"]["smooth_m"], 1_500.0);
    near(&off["shores"][0]["length_m"], 4_000.0);
    let hop = json(&["--from", "East Head", "--to", "Little Beach"]);
    let said = "The ends lie on different shores: joined by a straight line";
    assert!(hop["remarks"][0].as_str().unwrap().starts_with(said), "{hop}");
}

#[test]
fn what_cannot_be_measured_is_said_in_a_line() {
    for (arguments, message) in [
        (
            &["--from", "Nowhere", "--to", "West Head"][..],
            "--from: no name on the chart begins with “Nowhere”",
        ),
        (
            &["--from", "West Head", "--to", "East"],
            "--to: 2 names on the chart begin with “East”: East Head, East Bay, …; give all of one",
        ),
        (&["--from", "West Head", "--to", "10N 20W"], "--to: 10N 20W is not on this chart"),
        (
            &["--from", "West Head", "--to", "QB 1"],
            "--to: an odd number of figures, 1: as many are needed for the easting as for the northing",
        ),
        (
            &["--feature", "Nothing"],
            "no shore is named “Nothing”; there is Great Hollow, Small Hollow",
        ),
        (
            &["--feature", "Great Hollow", "--step", "0.5m"],
            "a step of 0.5 m; a divider step is 1 m to 2,000 km",
        ),
        (
            &["--from", "West Head", "--to", "East Head", "--stand-off", "3km"],
            "a stand-off of 3000 m; it is 0, or 1 to 2000 m",
        ),
    ] {
        let said = coast(arguments);
        assert_eq!(said.exit, Exit::Bad, "{arguments:?}");
        assert_eq!(said.errors, format!("{message}\n"), "{arguments:?}");
        assert_eq!(said.output, "");
    }
}

#[test]
fn arguments_that_do_not_go_together() {
    for arguments in [
        &["--from", "A"][..],
        &["--to", "A"],
        &["--from", "A", "--to", "B", "--feature", "C"],
        &["--step", "1km"],
        &["--stand-off", "50m"],
        &["--json", "--csv"],
        &["--feature", "C", "--step", "1"],
        &["--feature", "C", "--step", "1 mile"],
        &["--feature", "C", "--step", "-1km"],
    ] {
        let all = [&["strandline", "coast", "-"], arguments].concat();
        assert!(Cli::try_parse_from(all).is_err(), "{arguments:?}");
    }
}

#[test]
fn lengths_as_they_are_typed() {
    for (text, metres) in
        [("10km", 10_000.0), ("500 m", 500.0), ("0.5 NM", 926.0), ("1.5KM", 1_500.0), ("0m", 0.0)]
    {
        assert_eq!(text.parse::<Distance>().unwrap().0.as_metres(), metres, "{text}");
    }
    for text in ["", "km", "1", "1 mile", "-3m", "NaN m", "1e999km", "1,5km"] {
        assert!(text.parse::<Distance>().is_err(), "{text}");
    }
    let length = |text: &str| written(text.parse::<Distance>().unwrap().0);
    assert_eq!([length("2km"), length("1500m"), length("100m")], ["2 km", "1.5 km", "100 m"]);
    assert_eq!(length("0.1NM"), "185.2 m");
}
