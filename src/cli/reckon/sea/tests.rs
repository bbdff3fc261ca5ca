//! Waves and horizons, a table in, a table out.

use crate::Exit;
use crate::reckon::tests::{answered, published, refused, strandline};

#[test]
fn what_they_read_and_append() {
    let header = |line: &str, reads: &str| {
        let appends = answered(line, reads);
        appends.trim_end().strip_prefix(reads).map(str::to_owned).unwrap()
    };
    assert_eq!(header("reckon waves", "wind_ms,fetch_m,depth_m,hours"), ",height_m,period_s");
    assert_eq!(header("reckon horizon", "eye_m,target_m"), ",distance_nm");
    assert!(refused("reckon waves", "wind_ms,fetch_m,depth_m\n").contains("no column hours"));
}

/// The whole table through the command: its rows deep and with a depth, to half of the sixth figure.
#[test]
fn the_table_of_waves() {
    const TABLE: &str = include_str!("../../../../tests/data/waves/fetch_limited.csv");
    let given = [("U10_m_s", "wind_ms"), ("fetch_m", "fetch_m")];
    let with_depth = [given.as_slice(), &[("depth_m", "depth_m")]].concat();
    let rest = |columns: &str| {
        let line = |line: &str| {
            let header = line.starts_with("U10");
            format!(
                "{}{line}\n",
                if header { columns.to_owned() } else { ",".repeat(columns.matches(',').count()) }
            )
        };
        TABLE.lines().filter(|line| !line.starts_with('#')).map(line).collect::<String>()
    };
    let deep = rest("depth_m,hours,").replacen("fetch_m,depth_m,", "fetch_m,their_depth_m,", 1);
    for (table, names, kind) in [
        (deep, [given.as_slice(), &[("depth_m", "depth_m"), ("hours", "hours")]].concat(), "deep"),
        (rest("hours,"), [with_depth.as_slice(), &[("hours", "hours")]].concat(), "shallow"),
    ] {
        let rows = published("reckon waves", &table, &names);
        assert_eq!(rows.len(), 84);
        for row in rows {
            for (name, letter) in [("height_m", "H_m"), ("period_s", "T_s")] {
                let printed = |kind: &str| row[&format!("their_spm_{kind}_{letter}")];
                let expected = printed("deep").min(printed(kind));
                assert!((row[name] / expected - 1.0).abs() < 1e-5, "{name} in {row:?}");
            }
        }
    }
}

#[test]
fn the_table_of_horizons() {
    const TABLE: &str = include_str!("../../../../tests/data/sailings/bowditch2024_table12.csv");
    let mut rows = 0;
    for line in TABLE.lines().filter(|line| !line.starts_with('#')).skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let [feet, miles] = [cells[0], cells[1]].map(|cell| cell.parse::<f64>().unwrap());
        let table = answered("reckon horizon", &format!("eye_m,target_m\n{},\n", feet * 0.3048));
        let found: f64 = table.trim_end().rsplit(',').next().unwrap().parse().unwrap();
        let tolerance = if cells[4].is_empty() { 0.051 } else { 0.11 };
        assert!((found - miles).abs() < tolerance, "{line}: {found}");
        rows += 1;
    }
    assert!(rows > 50);
}

#[test]
fn rows_deep_shallow_and_short() {
    let table = answered(
        "reckon waves",
        "wind_ms,fetch_m,depth_m,hours\n10,10000,,\n10,10000,2,\n10,10000,,1\n10,10000,2,1\n0,10000,2,1\n",
    );
    let heights: Vec<f64> = table
        .lines()
        .skip(1)
        .map(|line| line.split(',').nth(4).unwrap().parse().unwrap())
        .collect();
    let [deep, shallow, short, both, calm] = heights[..] else { panic!("{table}") };
    assert!(
        deep > shallow && deep > short && both < shallow && both < short && calm == 0.0,
        "{table}"
    );
    let json = answered("reckon waves --json", "wind_ms,fetch_m,depth_m,hours\n0,500,,\n");
    assert_eq!(
        json,
        "{\"wind_ms\":0,\"fetch_m\":500,\"depth_m\":\"\",\"hours\":\"\",\"height_m\":0,\"period_s\":0}\n"
    );
}

#[test]
fn errors_name_the_cell() {
    let waves =
        |row: &str| refused("reckon waves", format!("wind_ms,fetch_m,depth_m,hours\n{row}\n"));
    assert_eq!(waves("-1,1,,"), "stdin:2:1: speed in m/s -1 is not within 0 to 514.4 m/s");
    assert_eq!(waves("1,-5,,"), "stdin:2:3: fetch in metres -5 is not within 0 and more");
    assert_eq!(waves("1,5,-2,"), "stdin:2:5: depth in metres -2 is not within 0 and more");
    assert_eq!(waves("1,5,2,-3"), "stdin:2:7: hours -3 is not within 0 and more");
    assert_eq!(waves("1,5,deep,"), "stdin:2:5: depth_m “deep” is not a number; write metres: 1250");
    assert!(waves("1,5,2,1e300").starts_with("stdin:2:7: hours 1"));
    assert_eq!(
        refused("reckon horizon", "eye_m,target_m\n1,-4\n"),
        "stdin:2:3: height of target in metres -4 is not within 0 to 10,000 m"
    );
    let (exit, output, errors) =
        strandline("reckon horizon --skip-bad", "eye_m,target_m\n,2\n3.048,30.48\n");
    assert_eq!(exit, Exit::Done);
    assert_eq!(output.lines().nth(1), Some(",2,"));
    // Bowditch: 10 ft and 100 ft see each other at 15.4 NM.
    assert!(output.lines().nth(2).unwrap().starts_with("3.048,30.48,15.39"), "{output}");
    assert!(
        errors.starts_with("1 row without an answer, the first: stdin:2:1: eye_m is empty"),
        "{errors}"
    );
}
