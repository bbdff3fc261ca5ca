//! A route on paper, in a table, and for a program.

use ::chart::format::ChartFile;

use super::*;
use crate::day::Water;

const CHART: &str = r#"(version: 1, title: "Ternhaven Sound", invented: true,
    grid: Own(title: "T", origin: (lat: 52.2, lon: -27.1), scale: 1, false_origin: (670000, 350000),
        lettering: (south_west: (600000, 300000), rows: ["QB"])),
    extent: (south_west: (660000, 340000), north_east: (690000, 365000)), shore: Here([]))"#;

const ROUTE: &str = r#"(version: 1, title: "Round øya", chart: "Ternhaven Sound",
    departure: "2026-06-14T09:30[-02:00]", points: [
        (name: "Slip", lat: 52.20, lon: -27.00),
        (name: "Skerry", lat: 52.25, lon: -27.05, stop_min: 20, note: "lunch"),
        (name: "A name that goes on and on to its sixtieth character, and no", lat: 52.24, lon: -26.95),
    ])"#;

fn chart() -> Chart {
    match ::chart::format::read(CHART).unwrap() {
        ChartFile::Whole(chart) => chart,
        ChartFile::ShoreBeside(_) => panic!("the shore is in the text"),
    }
}

/// What is printed of the route.
fn printed(json: bool, csv: bool) -> String {
    printed_of(ROUTE, json, csv)
}

fn printed_of(route: &str, json: bool, csv: bool) -> String {
    let route = plan::format::read(route).unwrap();
    let mut output = Vec::new();
    let mut io = Io {
        input: &mut &b""[..],
        output: &mut output,
        errors: &mut Vec::new(),
        terminal: false,
        to_terminal: false,
        manual: &[],
    };
    show(&Day::new(route, Water::of(chart())), json, csv, &mut io).unwrap();
    String::from_utf8(output).unwrap()
}

#[test]
fn as_text_it_fits_a_page() {
    let text = printed(false, false);
    assert!(text.lines().all(|line| plan::table::fitted(line, 80) == line), "{text}");
    insta::assert_snapshot!(text, @r#"
    Round øya
    on the chart Ternhaven Sound
    The chart is invented: the place does not exist.
    Departure Sunday 14 June 2026, 09:30, -02:00. Pace 3 kn.
    Variation 9.5°W: World Magnetic Model 2025.

       #  reference   position                 clock  stop    name
       1  QB 768 500  52°12.00′N  027°00.00′W  09:30          Slip
       2  QB 734 555  52°15.00′N  027°03.00′W  10:41  20 min  Skerry
          lunch
       3  QB 802 544  52°14.40′N  026°57.00′W  12:15          A name that goes on a…

     leg  true   grid   magn.  back   distance            time     leave  arrive
       1  328°T  328°G  338°M  158°M    3.5 NM   6.5 km   1 h 11  09:30  10:41
       2  099°T  099°G  109°M  289°M    3.7 NM   6.9 km   1 h 15  11:01  12:15
     whole route                        7.3 NM  13.4 km   2 h 25  under way
                                                          2 h 45  with stops

    Times are at the group's pace alone: stream, wind and waves are not in them.
    Legs are straight lines, whatever lies on them.
    Not for navigation. Check current charts, tide tables, notices and the forecast;
    follow local rules, and the advice of qualified local leaders and the rescue
    service.
    "#);
}

#[test]
fn as_csv_it_has_a_row_a_leg() {
    let csv = printed(false, true);
    insta::assert_snapshot!(csv.lines().next().unwrap(), @r#"
    leg,to,to_lat_deg,to_lon_deg,distance_m,bearing_true_deg,bearing_grid_deg,bearing_magnetic_deg,time_s,stop_s,elapsed_s,arrives,reference,true,grid,magnetic,back_magnetic,nm,km,time,clock,runs,straight_m,times_longer,first_bearing_true_deg,first_bearing_grid_deg,first_bearing_magnetic_deg,last_bearing_true_deg,last_bearing_grid_deg,last_bearing_magnetic_deg,passage_waits_s,passage_departs,passage_arrives,passage_time_s,ground_speed_kn,heading_true_deg,heading_magnetic_deg,first_heading_magnetic_deg,last_heading_magnetic_deg,set_true_deg,drift_kn,greatest_kn,with_s,against_s,across_s,slack_s,without_data_s,races,gates
    "#);
    let printed: Vec<&str> =
        csv.lines().skip(1).map(|row| row.split("[-02:00],").nth(1).unwrap()).collect();
    insta::assert_snapshot!(printed.join("\n"), @r#"
    QB 734 555,328°T,328°G,338°M,158°M,3.5 NM,6.5 km,1 h 11,10:41,straight,,,,,,,,,,,,,,,,,,,,,,,,,,,
    QB 802 544,099°T,099°G,109°M,289°M,3.7 NM,6.9 km,1 h 15,12:15,straight,,,,,,,,,,,,,,,,,,,,,,,,,,,
    "#);
}

#[test]
fn as_json_it_has_the_numbers_and_the_text() {
    let json: serde_json::Value = serde_json::from_str(&printed(true, false)).unwrap();
    let leg = &json["legs"][0];
    // Independently: mid-latitude sailing on the ellipsoid, 5.563 km north and 3.417 km west, to 0.1%.
    assert!((leg["distance_m"].as_f64().unwrap() / 6529.0 - 1.0).abs() < 1e-3);
    for (path, value) in [
        ("/departure", "2026-06-14T09:30:00-02:00[-02:00]"),
        ("/legs/0/text/from_magnetic", "338°M"),
        ("/legs/0/text/back_magnetic", "158°M"),
        ("/legs/1/text/departs", "11:01"),
        ("/points/1/text/reference", "QB 734 555"),
        ("/total/text/elapsed", "2 h 45"),
        ("/caution", nav::text::CAUTION),
    ] {
        assert_eq!(json.pointer(path).unwrap(), value, "{path}");
    }
}

#[test]
fn without_a_departure_today_is_assumed_and_that_is_said() {
    let mut route = plan::format::read(ROUTE).unwrap();
    route.departure = None;
    let dated = dated(route);
    assert_eq!(dated.departure.unwrap().moment().hour(), 9);
}

/// The route with its second leg along a shore that is not on the chart, which does not matter.
const TRACED: &str = r#"(version: 2, title: "Along", chart: "Ternhaven Sound",
    departure: "2026-06-14T09:30[-02:00]", points: [
        (name: "Slip", lat: 52.20, lon: -27.00),
        (lat: 52.21, lon: -27.00),
        (name: "Skerry", lat: 52.21, lon: -26.98, along: (stand_off_m: 50, step_m: 200, line: [
            (52.22, -27.0), (52.23, -27.0), (52.23, -26.99), (52.23, -26.98), (52.22, -26.98),
        ])),
    ])"#;

#[test]
fn a_leg_along_the_shore_shows_its_stretches() {
    let text = printed_of(TRACED, false, false);
    assert!(text.lines().all(|line| plan::table::fitted(line, 80) == line), "{text}");
    let table = text.lines().skip_while(|line| !line.starts_with(" leg"));
    let legs: Vec<&str> = table.take_while(|line| !line.is_empty()).collect();
    assert!(text.contains("for those along the shore:"), "{text}");
    insta::assert_snapshot!(legs.join("\n"), @r"
    leg  true   grid   magn.  back   distance            time     leave  arrive
      1  000°T  000°G  009°M  189°M    0.6 NM   1.1 km   12 min  09:30  09:42
      2  along the shore               3.1 NM   5.8 km   1 h 03  09:42  10:45
      2a 000°T  000°G  009°M  189°M    1.2 NM   2.2 km  to QB 768 533
      2b 090°T  090°G  099°M  279°M    0.7 NM   1.4 km  to QB 781 533
      2c 180°T  180°G  189°M  009°M    1.2 NM   2.2 km  to QB 782 511
         4.26 times the 0.7 NM 1.4 km straight between its ends.
         Laid 50 m off, smoothed at 200 m; strays up to 0 m from its stretches.
    whole route                        3.7 NM   6.9 km   1 h 15  under way
    ");
}

#[test]
fn a_leg_along_the_shore_is_whole_in_json_and_in_a_row() {
    let json: serde_json::Value = serde_json::from_str(&printed_of(TRACED, true, false)).unwrap();
    for (path, value) in [
        ("/legs/0/runs", serde_json::json!("straight")),
        ("/legs/0/along", serde_json::Value::Null),
        ("/legs/1/runs", serde_json::json!("along the shore")),
        ("/legs/1/bearing_true_deg", serde_json::Value::Null),
        ("/legs/1/along/stand_off_m", serde_json::json!(50.0)),
        ("/legs/1/along/line_lat_lon_deg/0", serde_json::json!([52.21, -27.0])),
        ("/legs/1/along/line_lat_lon_deg/6", serde_json::json!([52.21, -26.98])),
        ("/legs/1/along/stretches/0/bearing_true_deg", serde_json::json!(0.0)),
        ("/legs/1/along/stretches/2/bearing_true_deg", serde_json::json!(180.0)),
        ("/legs/1/along/stretches/2/text/number", serde_json::json!("2c")),
        ("/legs/1/along/stretches/3", serde_json::Value::Null),
    ] {
        assert_eq!(json.pointer(path).unwrap_or(&serde_json::Value::Null), &value, "{path}");
    }
    let csv = printed_of(TRACED, false, true);
    let rows: Vec<Vec<&str>> = csv.lines().map(|row| row.split(',').collect()).collect();
    let of = |row: usize, name: &str| {
        rows[row][rows[0].iter().position(|column| *column == name).unwrap()]
    };
    assert_eq!((of(1, "runs"), of(1, "straight_m")), ("straight", ""));
    assert_eq!((of(2, "runs"), of(2, "bearing_true_deg")), ("along the shore", ""));
    assert_eq!((of(2, "first_bearing_true_deg"), of(2, "last_bearing_true_deg")), ("0", "180"));
    for (column, path) in
        [("straight_m", "/legs/1/along/straight_m"), ("distance_m", "/legs/1/distance_m")]
    {
        let number = json.pointer(path).unwrap().as_f64().unwrap();
        // JSON is read to the last place but one.
        assert!((of(2, column).parse::<f64>().unwrap() / number - 1.0).abs() < 1e-15, "{column}");
    }
}

/// A route on the practice chart, between stations of its own, on a day of springs.
fn through_the_stream(change: impl FnOnce(&mut Route)) -> (Chart, Route) {
    let chart = ::chart::practice().unwrap();
    let at = |name: &str| {
        let station = chart.streams.iter().find(|stream| stream.name == name).unwrap();
        chart.position(station.at).unwrap()
    };
    let names = clear(&chart);
    let points = [&names.0, &names.1, &names.0];
    let points = points.map(|name| plan::Waypoint::new(at(name)).named(name)).to_vec();
    let departure = "2026-06-14T09:00[-02:00]".parse().ok();
    let mut route = Route { points, departure, ..Route::new(&chart.title) };
    change(&mut route);
    (chart, route)
}

/// Two stations with water alone between them, no less than 2 km apart.
fn clear(chart: &Chart) -> (String, String) {
    let coast = ::chart::coast::Coast::of(chart);
    let pairs =
        chart.streams.iter().flat_map(|one| chart.streams.iter().map(move |two| (one, two)));
    let mut pairs = pairs.filter(|(one, two)| {
        let apart = one.at - two.at;
        apart.x.hypot(apart.y) > 2000.0 && !coast.touches(one.at, two.at)
    });
    let (one, two) = pairs.next().unwrap();
    (one.name.clone(), two.name.clone())
}

fn printed_on((chart, route): &(Chart, Route), json: bool, csv: bool) -> String {
    let mut output = Vec::new();
    let mut io = Io {
        input: &mut &b""[..],
        output: &mut output,
        errors: &mut Vec::new(),
        terminal: false,
        to_terminal: false,
        manual: &[],
    };
    show(&Day::new(route.clone(), Water::of(chart.clone())), json, csv, &mut io).unwrap();
    String::from_utf8(output).unwrap()
}

#[test]
fn a_passage_is_in_all_three() {
    let route = through_the_stream(|_| {});
    let text = printed_on(&route, false, false);
    assert!(text.lines().all(|line| plan::table::fitted(line, 80) == line), "{text}");
    assert!(text.contains("Through the stream:") && text.contains("The stream runs"), "{text}");
    let json: serde_json::Value = serde_json::from_str(&printed_on(&route, true, false)).unwrap();
    let csv = printed_on(&route, false, true);
    let mut rows = ::csv::Reader::from_reader(csv.as_bytes());
    let headers = rows.headers().unwrap().clone();
    for (index, row) in rows.records().map(Result::unwrap).enumerate() {
        let of = |name: &str| &row[headers.iter().position(|column| column == name).unwrap()];
        let leg = &json["passage"]["legs"][index];
        let words = leg["text"]["departs"].as_str().unwrap();
        assert!(!words.is_empty() && text.contains(words), "{text}");
        assert_eq!(leg["departs"].as_str().unwrap(), of("passage_departs"));
        for (column, field) in [
            ("passage_time_s", "time_s"),
            ("ground_speed_kn", "ground_speed_kn"),
            ("heading_magnetic_deg", "heading_magnetic_deg"),
            ("drift_kn", "drift_kn"),
        ] {
            let (cell, number) = (of(column).parse::<f64>().unwrap(), leg[field].as_f64().unwrap());
            assert!((cell / number - 1.0).abs() < 1e-12, "{column}: {cell} {number}");
        }
        // The sum of the times by what the stream does is the time under way.
        let times = leg["times_s"].as_object().unwrap().values();
        let sum: f64 = times.map(|time| time.as_f64().unwrap()).sum();
        assert!((sum - leg["time_s"].as_f64().unwrap()).abs() < 1e-3);
    }
}

#[test]
fn a_passage_that_does_not_arrive_says_why() {
    let crawl = |route: &mut Route| route.pace = "0.2 kn".parse().unwrap();
    let route = through_the_stream(crawl);
    let text = printed_on(&route, false, false);
    assert!(text.contains("Note: the passage does not arrive: leg "), "{text}");
    let json: serde_json::Value = serde_json::from_str(&printed_on(&route, true, false)).unwrap();
    assert_eq!(json["passage"]["arrives"], serde_json::Value::Null);
    let why = json["passage"]["halt"]["why"].as_str().unwrap();
    let line = text.replace('\n', " ");
    assert!(line.contains(why), "{why}");
    let leg = json["passage"]["halt"]["leg"].as_u64().unwrap();
    assert!(why.starts_with(&format!("leg {leg} ")), "{why}");
}

#[test]
fn without_a_departure_there_is_no_passage() {
    let route = through_the_stream(|route| route.departure = None);
    assert!(!printed_on(&route, false, false).contains("Through the stream"));
    let (mut chart, route) = through_the_stream(|_| {});
    chart.streams.clear();
    let json: serde_json::Value =
        serde_json::from_str(&printed_on(&(chart, route), true, false)).unwrap();
    assert_eq!(json["passage"], serde_json::Value::Null);
}

#[test]
fn streams_that_cannot_be_told_are_noted() {
    let (mut chart, route) = through_the_stream(|_| {});
    chart.ports.clear();
    let text = printed_on(&(chart, route), false, false);
    assert!(text.contains("Note: no passage through the stream: the stream at \""), "{text}");
}
