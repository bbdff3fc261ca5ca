//! Tide, light and moving water through the command.

use jiff::Timestamp;

use crate::Exit;
use crate::reckon::tests::{answered, refused, strandline};

/// A table of `tests/data` as rows of text by column.
fn rows(table: &str) -> Vec<csv::StringRecord> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(table.as_bytes());
    reader.records().map(Result::unwrap).collect()
}

/// The last cells of each row that a command answers.
fn cells(output: &str, last: usize) -> Vec<Vec<String>> {
    let line = |line: &str| {
        let cells: Vec<&str> = line.split(',').collect();
        cells[cells.len() - last..].iter().map(|cell| (*cell).to_owned()).collect()
    };
    output.lines().skip(1).map(line).collect()
}

#[test]
fn each_word_reads_and_appends_what_the_contract_says() {
    for (word, reads, appends) in [
        ("sun", "lat,lon,date", "dawn_utc,rise_utc,noon_utc,set_utc,dusk_utc,state"),
        ("heading", "track_deg,speed_kn,set_deg,drift_kn", "heading_deg,ground_speed_kn,state"),
        ("made-good", "heading_deg,speed_kn,set_deg,drift_kn", "track_deg,ground_speed_kn"),
    ] {
        let header = answered(&format!("reckon {word}"), reads);
        assert_eq!(header.trim_end(), format!("{reads},{appends}"));
    }
}

#[test]
fn headings_that_make_way_are_set_back_or_cannot_hold() {
    let table =
        "track_deg,speed_kn,set_deg,drift_kn\n0,3,90,2.5\n0,1,90,2.5\n10,2,190,3\n0,2.5,90,2.5\n";
    let output = answered("reckon heading", table);
    let answers = cells(&output, 3);
    let number = |row: usize, cell: usize| answers[row][cell].parse::<f64>().unwrap();
    // The exact answer of the constructed problem.
    assert!((number(0, 0) - 303.557_309_761_920_7).abs() < 1e-9);
    assert!((number(0, 1) - 1.658_312_395_177_7).abs() < 1e-9);
    assert_eq!(answers[0][2], "makes-way");
    assert_eq!(answers[1], ["", "", "cannot-hold"]);
    assert!((number(2, 0) - 10.0).abs() < 1e-12 && (number(2, 1) + 1.0).abs() < 1e-12);
    assert_eq!(answers[2][2], "set-back");
    assert_eq!(answers[3], ["270", "0", "makes-way"]);
    let json = answered("reckon heading --json", "track_deg,speed_kn,set_deg,drift_kn\n0,1,90,2\n");
    assert!(
        json.ends_with(
            "\"heading_deg\":null,\"ground_speed_kn\":null,\"state\":\"cannot-hold\"}\n"
        )
    );
}

#[test]
fn computed_triangles_there_and_back() {
    const TABLE: &str =
        include_str!("../../../../tests/data/sailings/current_triangles_computed.csv");
    let rows = rows(TABLE);
    let mut table = "track_deg,speed_kn,set_deg,drift_kn\n".to_owned();
    rows.iter().for_each(|r| table += &format!("{},{},{},{}\n", &r[0], &r[1], &r[2], &r[3]));
    for (row, answer) in rows.iter().zip(cells(&answered("reckon heading", &table), 3)) {
        if &row[4] == "none" {
            assert_eq!(answer, ["", "", "cannot-hold"], "{row:?}");
            continue;
        }
        let close = |text: &str, printed: &str, tolerance: f64| {
            let (ours, theirs): (f64, f64) = (text.parse().unwrap(), printed.parse().unwrap());
            assert!((ours - theirs).abs() <= tolerance, "{text} {row:?}");
        };
        // Half of the last digits printed.
        close(&answer[0], &row[4], 0.51e-4);
        close(&answer[1], &row[5], 0.51e-5);
        let back = format!(
            "heading_deg,speed_kn,set_deg,drift_kn\n{},{},{},{}\n",
            answer[0], &row[1], &row[2], &row[3]
        );
        let made = cells(&answered("reckon made-good", &back), 2).remove(0);
        let way: f64 = answer[1].parse().unwrap();
        let (track, speed): (f64, f64) = (made[0].parse().unwrap(), made[1].parse().unwrap());
        assert!((speed - way.abs()).abs() < 1e-9, "{row:?}");
        let line: f64 = row[0].parse::<f64>().unwrap() + if way < 0.0 { 180.0 } else { 0.0 };
        let off = (track - line + 180.0).rem_euclid(360.0) - 180.0;
        assert!(off.abs() < 1e-6, "{track} {row:?}");
    }
}

#[test]
fn a_boat_that_stands_still_has_no_track() {
    let table = "heading_deg,speed_kn,set_deg,drift_kn\n0,0,0,0\n";
    assert_eq!(cells(&answered("reckon made-good", table), 2), [["", "0"]]);
}

#[test]
fn the_naval_observatorys_days_through_the_command() {
    let rows = rows(include_str!("../../../../tests/data/sun/usno_2026.csv"));
    let mut table = "lat,lon,date\n".to_owned();
    rows.iter().for_each(|row| table += &format!("{},{},{}\n", &row[0], &row[1], &row[2]));
    let mut compared = 0;
    for (row, answer) in rows.iter().zip(cells(&answered("reckon sun", &table), 6)) {
        // Of the rows where the local day has each once; the days by the sun and by the clock are
        // the same there.
        if row.iter().any(|cell| cell == "-") {
            continue;
        }
        let offset: i64 = row[3].parse().unwrap();
        for (column, cell) in [(4, 1), (5, 3), (6, 0), (7, 4)] {
            let at: Timestamp = answer[cell].parse().unwrap();
            let printed: Timestamp = format!("{}T{}Z", &row[2], &row[column]).parse().unwrap();
            let off = at.as_second() + offset * 3600 - printed.as_second();
            // Half a minute, and what stands in the tests of the sun itself.
            assert!(off.abs() <= 38, "{off} s in {row:?}: {answer:?}");
            compared += 1;
        }
        assert_eq!(answer[5], "day-and-night");
    }
    assert!(compared > 500, "{compared}");
}

#[test]
fn days_without_rise_or_set() {
    let table = "date,lat,lon\n2025-06-21,78.2167,15.6333\n2025-06-21,-77.85,166.6667\n2026-12-09,-65.9885,106.0737\n";
    let answers = cells(&answered("reckon sun", table), 6);
    // Skyfield's states for Longyearbyen and McMurdo.
    assert_eq!([&answers[0][1], &answers[0][3], &answers[0][5]], ["", "", "never-sets"]);
    assert_eq!([&answers[1][1], &answers[1][3], &answers[1][5]], ["", "", "never-rises"]);
    // Rise and set, and no dark.
    assert_eq!([&answers[2][0], &answers[2][4], &answers[2][5]], ["", "", "day-and-night"]);
    assert!(!answers[2][1].is_empty() && !answers[2][3].is_empty());
}

/// A port file of a station of NOAA's constants.
fn port_file(folder: &std::path::Path, station: &str) -> String {
    let rows = rows(include_str!("../../../../tests/data/tides/noaa_constants.csv"));
    let mut text = String::new();
    for row in rows.iter().filter(|row| &row[0] == station) {
        if text.is_empty() {
            text = format!(
                "(version: 1, name: {:?}, datum: \"MLLW\", mean_level_m: {}, constituents: [\n",
                &row[1], &row[2]
            );
        }
        text += &format!("    ({:?}, {}, {}),\n", &row[3], &row[4], &row[5]);
    }
    let path = folder.join("port.ron");
    std::fs::write(&path, text + "])\n").unwrap();
    path.display().to_string()
}

#[test]
fn heights_of_tide_at_noaas_stations() {
    let folder = tempfile::tempdir().unwrap();
    let rows = rows(include_str!("../../../../tests/data/tides/noaa_computed_2026.csv"));
    for (station, mean) in [("9447130", 2.024), ("8443970", 1.586)] {
        let file = port_file(folder.path(), station);
        let rows: Vec<_> = rows.iter().filter(|row| &row[0] == station).collect();
        let table: String = rows.iter().map(|row| format!("{}\n", &row[1])).collect();
        let output = answered(&format!("reckon tide --port {file}"), &format!("time\n{table}"));
        assert!(output.starts_with("time,height_m\n"));
        for (row, answer) in rows.iter().zip(cells(&output, 1)) {
            let (ours, theirs): (f64, f64) = (answer[0].parse().unwrap(), row[2].parse().unwrap());
            assert!((ours - mean - theirs).abs() < 0.005, "{row:?} {ours}");
        }
    }
}

#[test]
fn heights_at_the_ports_of_a_chart() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("chart.ron");
    let chart = chart::practice().unwrap();
    std::fs::write(&path, chart::format::write(&chart)).unwrap();
    let (file, tides) = (path.display(), chart::water::Tides::of(&chart).unwrap());
    // Out of order and over a New Year: no answer hangs on the row before it.
    let times =
        ["2026-06-14T12:00Z", "2027-01-01T00:10Z", "2026-06-14T12:00Z", "1950-02-28T23:59Z"];
    let table = format!("time\n{}\n", times.join("\n"));
    for (name, port) in [("Galamond Quay", "#galamond"), ("Port Ustorna", "#port")] {
        let gauge = tides.gauge(name).unwrap();
        // The command line of these tests is cut at spaces.
        let output = answered(&format!("reckon tide --port chart:{file}{port}"), &table);
        let named = format!("reckon tide --port chart:{file} --name {}", &port[1..]);
        assert_eq!(answered(&named, &table), output);
        for (time, answer) in times.iter().zip(cells(&output, 1)) {
            let height = gauge.height(time.parse().unwrap()).unwrap().unwrap().as_metres();
            let off = answer[0].parse::<f64>().unwrap() - height;
            assert!(off.abs() < 1e-6, "{name} {time} {off}");
        }
        let answers = cells(&output, 1);
        assert_eq!(answers[0], answers[2]);
    }
    let refused = |port: &str| refused(&format!("reckon tide --port {port}"), "time\n");
    assert_eq!(
        refused(&format!("chart:{file}")),
        format!(
            "--port: which of the chart's ports? write chart:{file}#Port Ustorna or #Delovhaven or \
             #Cadulstead or #Galamond Quay or #Halelstead"
        )
    );
    assert!(
        refused(&format!("chart:{file}#nowhere")).starts_with("--port: no port is named “nowhere”")
    );
    assert_eq!(refused("chart:/no/such/chart.ron#a"), "/no/such/chart.ron: there is no such file");
    assert_eq!(
        refused("port.ron --name a"),
        "--name: a port file has one port; names are those of chart:FILE"
    );
}

#[test]
fn a_printed_table_answers_for_its_own_time() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("port.ron");
    let text = r#"(version: 1, name: "Skarv", datum: "chart datum", waters: [
        ("2026-06-14T06:00Z", 5), ("2026-06-14T12:00Z", 1)])"#;
    std::fs::write(&path, text).unwrap();
    let line = format!("reckon tide --port {}", path.display());
    let table = "time\n2026-06-14T06:00Z\n2026-06-14T08:00Z\n2026-06-14T12:00Z\n";
    let heights = cells(&answered(&line, table), 1);
    for (height, expected) in heights.iter().zip([5.0, 4.0, 1.0]) {
        assert!((height[0].parse::<f64>().unwrap() - expected).abs() < 1e-9, "{height:?}");
    }
    let outside = "time\n2026-06-14T08:00Z\n2026-06-14T12:01Z\n2026-06-14T06:00Z\n";
    let said = "stdin:3:1: 2026-06-14T12:01:00Z is outside the table of Skarv, which goes from \
                2026-06-14T06:00:00Z to 2026-06-14T12:00:00Z";
    assert_eq!(refused(&line, outside), said);
    let (exit, output, errors) = strandline(&format!("{line} --skip-bad"), outside);
    assert_eq!(exit, Exit::Done);
    let heights: Vec<String> = cells(&output, 1).into_iter().flatten().collect();
    assert_eq!((heights[1].as_str(), heights.len()), ("", 3));
    assert_eq!(errors, format!("1 row without an answer, the first: {said}\n"));
}

#[test]
fn times_may_be_written_in_any_usual_form() {
    let folder = tempfile::tempdir().unwrap();
    let file = port_file(folder.path(), "9447130");
    let table = "time\n2026-06-21T14:05Z\n2026-06-21T14:05\n2026-06-21 14:05:00\n2026-06-21T15:05+01:00\n2026-06-21T140500Z\n";
    let heights = cells(&answered(&format!("reckon tide --port {file}"), table), 1);
    assert!(heights.iter().all(|height| *height == heights[0]), "{heights:?}");
    assert_eq!(heights.len(), 5);
}

#[test]
fn what_is_wrong_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let file = port_file(folder.path(), "9447130");
    let tide = |table: &str| refused(&format!("reckon tide --port {file}"), table);
    assert_eq!(
        tide("time\n2026-13-01T00:00Z\n"),
        "stdin:2:1: time “2026-13-01T00:00Z” is not a time; write an instant: 2026-06-21T14:05Z"
    );
    for odd in ["2026-06-21T14:05[Europe/London]", "2026-06-21T14:05+99:00"] {
        assert!(tide(&format!("time\n{odd}\n")).contains("is not a time"), "{odd}");
    }
    assert_eq!(
        tide("time\n2101-01-01T00:00Z\n"),
        "stdin:2:1: 2101-01-01T00:00:00Z is not within the years 1900 to 2100, for which tides and \
         light are reckoned"
    );
    assert_eq!(
        refused("reckon sun", "lat,lon,date\n57,-2,21.6.2026\n"),
        "stdin:2:7: date “21.6.2026” is not a date; write a day: 2026-06-21"
    );
    assert_eq!(
        refused("reckon heading", "track_deg,speed_kn,set_deg,drift_kn\n0,-1,0,0\n"),
        "stdin:2:3: speed in knots -1 is not within 0 to 1,000 kn"
    );
    assert_eq!(
        refused("reckon tide --port /no/such/port.ron", "time\n"),
        "/no/such/port.ron: there is no such file"
    );
    let broken = folder.path().join("broken.ron");
    std::fs::write(
        &broken,
        "(version: 1, name: \"a\", datum: \"\", mean_level_m: 0, constituents: [(\"M99\", 1, 2)])",
    )
    .unwrap();
    let (exit, _, errors) = strandline(&format!("reckon tide --port {}", broken.display()), "");
    assert_eq!(exit, Exit::Bad);
    assert!(errors.contains("no constituent is called \"M99\""), "{errors}");
}
