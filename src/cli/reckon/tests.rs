//! Tables in, tables out.

use std::io::Cursor;

use clap::Parser;
use rstest::rstest;

use crate::{Cli, Exit, Io};

/// What a command line gives for an input: how it ends, its output and its errors.
pub(super) fn strandline(line: &str, input: impl AsRef<[u8]>) -> (Exit, String, String) {
    let cli = Cli::try_parse_from(format!("strandline {line}").split(' ')).unwrap();
    let (mut output, mut errors) = (Vec::new(), Vec::new());
    let exit = crate::run(
        cli.command.unwrap(),
        &mut Io {
            input: &mut Cursor::new(input.as_ref()),
            output: &mut output,
            errors: &mut errors,
            terminal: false,
            to_terminal: false,
            manual: &[],
        },
    );
    (exit, String::from_utf8(output).unwrap(), String::from_utf8(errors).unwrap())
}

#[test]
fn a_table_that_cannot_be_opened_is_told_as_every_file_is() {
    let said = |path: &str| strandline(&format!("reckon rhumb {path}"), "");
    let (exit, output, errors) = said("/nowhere/table.csv");
    assert_eq!((exit, output.as_str()), (Exit::Bad, ""));
    assert_eq!(errors, "/nowhere/table.csv: there is no such file\n");
    assert_eq!(said("/").2, "/: this is a folder; a table is a file\n");
}

/// The output of a command that is done without a word.
pub(super) fn answered(line: &str, input: &str) -> String {
    let (exit, output, errors) = strandline(line, input);
    assert_eq!((exit, errors.as_str()), (Exit::Done, ""));
    output
}

/// The error of a command that fails.
pub(super) fn refused(line: &str, input: impl AsRef<[u8]>) -> String {
    let (exit, _, errors) = strandline(line, input);
    assert_eq!(exit, Exit::Bad, "{errors}");
    errors.trim_end().to_owned()
}

/// The last row's cells under some column, as numbers.
fn number(table: &str, column: &str) -> f64 {
    let mut lines = table.lines();
    let place = lines.next().unwrap().split(',').position(|name| name == column).unwrap();
    lines.last().unwrap().split(',').nth(place).unwrap().parse().unwrap()
}

#[test]
fn each_word_reads_and_appends_what_the_contract_says() {
    let header = |line: &str, reads: &str| answered(line, reads).trim_end().to_owned();
    for (line, reads, appends) in [
        ("inverse", "lat1,lon1,lat2,lon2", "distance_m,bearing1_deg,bearing2_deg"),
        ("direct", "lat1,lon1,bearing_deg,distance_m", "lat2,lon2,bearing2_deg"),
        ("rhumb", "lat1,lon1,lat2,lon2", "distance_m,bearing_deg"),
        (
            "to-grid --grid UTM:30N",
            "lat,lon",
            "easting_m,northing_m,convergence_deg,scale,reference",
        ),
        ("from-grid --grid UTM:30N", "easting_m,northing_m", "lat,lon"),
        ("from-grid --grid UTM:30N", "reference", "lat,lon"),
        (
            "variation",
            "lat,lon,height_km,year",
            "variation_deg,dip_deg,horizontal_nt,north_nt,east_nt,down_nt,total_nt,\
             variation_per_year_deg,variation_error_deg",
        ),
    ] {
        assert_eq!(header(&format!("reckon {line}"), reads), format!("{reads},{appends}"));
    }
}

/// GeographicLib 2.1's test suite, GeodSolve74, to its tolerances.
#[test]
fn a_published_geodesic() {
    let table =
        answered("reckon inverse", "lat1,lon1,lat2,lon2\n54.1589,15.3872,54.1591,15.3877\n");
    assert!((number(&table, "distance_m") - 39.527_686_385).abs() < 5e-9, "{table}");
    assert!((number(&table, "bearing1_deg") - 55.723_110_355).abs() < 5e-9, "{table}");
    assert!((number(&table, "bearing2_deg") - 55.723_515_675).abs() < 5e-9, "{table}");
    let back = "lat1,lon1,bearing_deg,distance_m\n54.1589,15.3872,55.723110355,39.527686385\n";
    let table = answered("reckon direct", back);
    assert!((number(&table, "lat2") - 54.1591).abs() < 1e-12, "{table}");
    assert!((number(&table, "lon2") - 15.3877).abs() < 1e-12, "{table}");
}

/// Computed with RhumbSolve 2.1.2 (tests/data/geodesic/rhumb.csv).
#[test]
fn a_rhumb_line_across_the_180th_meridian() {
    let table = answered("reckon rhumb", "lat1,lon1,lat2,lon2\n50.0,179.5,50.5,-179.5\n");
    assert!((number(&table, "distance_m") - 90_444.062_291).abs() < 5e-7);
    assert!((number(&table, "bearing_deg") - 52.053_028_065_69).abs() < 5e-12);
}

/// The World Magnetic Model's official test values, first row for 2025.5.
#[test]
fn the_magnetic_field() {
    let (exit, table, errors) =
        strandline("reckon variation", "year,height_km,lat,lon\n2025.5,6,-36,-137\n");
    assert_eq!((exit, errors.as_str()), (Exit::Done, ""));
    assert!((number(&table, "variation_deg") - 20.28).abs() < 0.005, "{table}");
    assert!((number(&table, "dip_deg") + 52.11).abs() < 0.005, "{table}");
    assert!((number(&table, "east_nt") - 8_786.698_927).abs() < 5e-7, "{table}");
    assert!((number(&table, "variation_per_year_deg") - 0.025_348).abs() < 5e-7, "{table}");
}

#[test]
fn onto_a_grid_and_back() {
    let there = answered("reckon to-grid --grid UTM:30N", "lat,lon\n57.155,-2.08\n");
    let (easting, northing) = (number(&there, "easting_m"), number(&there, "northing_m"));
    let back = answered(
        "reckon from-grid --grid utm:30n",
        &format!("northing_m,easting_m\n{northing},{easting}\n"),
    );
    assert!((number(&back, "lat") - 57.155).abs() < 1e-9, "{back}");
    assert!((number(&back, "lon") + 2.08).abs() < 1e-9, "{back}");
    // By its reference: within the metre that ten figures name.
    let lettered = answered("reckon to-grid --grid MGRS", "lat,lon\n57.155,-2.08\n");
    let reference = lettered.trim_end().rsplit(',').next().unwrap();
    let back = answered("reckon from-grid --grid MGRS", &format!("reference\n{reference}\n"));
    assert!((number(&back, "lat") - 57.155).abs() < 1e-5, "{back}");
    assert!((number(&back, "lon") + 2.08).abs() < 2e-5, "{back}");
}

#[test]
fn onto_a_charts_own_grid_and_back() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("chart.ron");
    let wishes =
        chart::maker::Wishes { width_km: 10, height_km: 8, ..chart::maker::Wishes::default() };
    let chart = chart::maker::make(7, &wishes).unwrap();
    std::fs::write(&file, chart::format::write(&chart)).unwrap();
    let grid = format!("chart:{}", file.display());
    let middle = chart.extent.center();
    let point = nav::GridPoint::from_metres(middle.x, middle.y).unwrap();
    let place = chart.grid.inverse(point).unwrap().position;
    let (lat, lon) = (place.lat.as_degrees(), place.lon.as_degrees());
    let there =
        answered(&format!("reckon to-grid --grid {grid}"), &format!("lat,lon\n{lat},{lon}\n"));
    assert!((number(&there, "easting_m") - middle.x).abs() < 1e-6, "{there}");
    let reference = there.trim_end().rsplit(',').next().unwrap();
    assert_eq!(reference, chart.grid.reference(point, nav::Figures::Ten).unwrap());
    let back =
        answered(&format!("reckon from-grid --grid {grid}"), &format!("reference\n{reference}\n"));
    assert!((number(&back, "lat") - lat).abs() < 1e-5, "{back}");
    let missing = refused("reckon to-grid --grid chart:/no/such/chart.ron", "");
    assert_eq!(missing, "/no/such/chart.ron: there is no such file");
}

#[test]
fn rows_pass_through_as_they_were_written() {
    let table = "name,lon2,lat2,lat1,lon1\r\n\"Skarv, \"\"the\"\" holm\",0,0,0,0\r\n\"two\r\nlines\", 0 ,\"0\",+0,-0";
    assert_eq!(
        answered("reckon rhumb", table),
        "name,lon2,lat2,lat1,lon1,distance_m,bearing_deg\r\n\
         \"Skarv, \"\"the\"\" holm\",0,0,0,0,0,0\r\n\
         \"two\r\nlines\", 0 ,\"0\",+0,-0,0,0\r\n"
    );
}

#[test]
fn byte_order_mark_blank_lines_and_no_last_newline() {
    let table = "\u{feff}lat1,lon1,lat2,lon2\n\n1,2,1,2\n\r\n3,4,3,4";
    let expected = "lat1,lon1,lat2,lon2,distance_m,bearing_deg\n1,2,1,2,0,0\n3,4,3,4,0,0\n";
    assert_eq!(answered("reckon rhumb", table), expected);
    assert_eq!(answered("reckon rhumb -", table), expected);
}

#[test]
fn bytes_that_are_no_text_pass_through_where_they_are_not_read() {
    let table = b"lat1,lon1,lat2,lon2,note\n0,0,0,0,\xe9\n";
    let mut output = Vec::new();
    let cli = Cli::try_parse_from(["strandline", "reckon", "rhumb"]).unwrap();
    let io = &mut Io {
        input: &mut &table[..],
        output: &mut output,
        errors: &mut Vec::new(),
        terminal: false,
        to_terminal: false,
        manual: &[],
    };
    assert_eq!(crate::run(cli.command.unwrap(), io), Exit::Done);
    assert!(output.ends_with(b"0,0,0,0,\xe9,0,0\n"));
    let (.., error) = strandline("reckon rhumb", b"lat1,lon1,lat2,lon2\n0,\xe9,0,0\n");
    assert_eq!(error, "stdin:2:3: lon1 is not UTF-8 text\n");
}

#[test]
fn one_answer_can_follow_another() {
    let first = answered("reckon inverse", "lat1,lon1,lat2,lon2\n57,-2,57,-1\n");
    let second = answered("reckon rhumb", &first);
    assert!(second.starts_with(
        "lat1,lon1,lat2,lon2,distance_m,bearing1_deg,bearing2_deg,distance_m,bearing_deg\n"
    ));
    // As JSON the new answer stands for the column of its name.
    let json = answered("reckon rhumb --json", &first);
    assert_eq!(json.matches("distance_m").count(), 1);
}

#[test]
fn json_lines() {
    let table = "id,lat1,lon1,lat2,lon2\n\"a \"\"b\"\"\",0,0,0,0\n007,x,0,0,0\n";
    let (exit, output, errors) = strandline("reckon rhumb --json --skip-bad", table);
    assert_eq!(exit, Exit::Done);
    assert_eq!(
        output,
        "{\"id\":\"a \\\"b\\\"\",\"lat1\":0,\"lon1\":0,\"lat2\":0,\"lon2\":0,\"distance_m\":0,\"bearing_deg\":0}\n\
         {\"id\":\"007\",\"lat1\":\"x\",\"lon1\":0,\"lat2\":0,\"lon2\":0,\"distance_m\":null,\"bearing_deg\":null}\n"
    );
    assert_eq!(
        errors,
        "1 row without an answer, the first: stdin:3:5: lat1 “x” is not a number; write degrees: 57.155\n"
    );
    for line in output.lines() {
        let _: serde_json::Value = serde_json::from_str(line).unwrap();
    }
}

#[test]
fn bad_rows_are_skipped_and_counted_if_asked() {
    let table = "lat1,lon1,lat2,lon2\n1,2,1,2\n91,0,0,0\n1,2\n1,2,3,4,5\n3,4,3,4\n";
    let (exit, output, errors) = strandline("reckon rhumb --skip-bad", table);
    assert_eq!(exit, Exit::Done);
    assert_eq!(
        output,
        "lat1,lon1,lat2,lon2,distance_m,bearing_deg\n1,2,1,2,0,0\n91,0,0,0,,\n1,2,,,,\n\
         1,2,3,4,5,,\n3,4,3,4,0,0\n"
    );
    assert_eq!(
        errors,
        "3 rows without an answer, the first: stdin:3:1: latitude 91 is not within -90 to 90 \
         degrees\n"
    );
}

#[test]
fn rows_before_a_bad_one_are_answered() {
    let (exit, output, errors) =
        strandline("reckon rhumb", "lat1,lon1,lat2,lon2\n1,2,1,2\n1,2,,2\n1,2,1,2\n");
    assert_eq!(exit, Exit::Bad);
    assert_eq!(output, "lat1,lon1,lat2,lon2,distance_m,bearing_deg\n1,2,1,2,0,0\n");
    assert_eq!(errors, "stdin:3:5: lat2 is empty; write degrees: 57.155\n");
}

#[rstest]
#[case("", "stdin:1:1: nothing to read; a header must name lat1, lon1, lat2, lon2")]
#[case("\n\n", "stdin:1:1: nothing to read; a header must name lat1, lon1, lat2, lon2")]
#[case(
    "lat1,lon1,lat2\n",
    "stdin:1:1: no column lon2; the header must name lat1, lon1, lat2, lon2"
)]
#[case(
    "lat1;lon1;lat2;lon2\n",
    "stdin:1:1: no column lat1; the header must name lat1, lon1, lat2, lon2; columns are divided by commas"
)]
#[case("lat1,lon1,lat2,lon2,lat1\n", "stdin:1:21: a second column lat1; one is read")]
#[case(
    "ö,lat1,lon1,lat2,lon2\nÄÖÜ,1,2,NaN,4\n",
    "stdin:2:9: lat2 “NaN” is not a number; write degrees: 57.155"
)]
#[case(
    "lat1,lon1,lat2,lon2\n1,2,3,\"4,5\"\n",
    "stdin:2:7: lon2 “4,5” is not a number; write degrees: 57.155"
)]
#[case(
    "n,lat1,lon1,lat2,lon2\n\"a\nb\",1,2,3,inf\n",
    "stdin:3:10: lon2 “inf” is not a number; write degrees: 57.155"
)]
#[case("lat1,lon1,lat2,lon2\n1,2,3\n", "stdin:2:6: a row of 3 cells under a header of 4")]
#[case("lat1,lon1,lat2,lon2\n1,2,3,4,5\n", "stdin:2:9: a row of 5 cells under a header of 4")]
#[case("lat1,lon1,lat2,lon2\n1,\"2,3,4\n1,2,3,4\n", "stdin:2:3: this quote is never closed")]
#[case(
    "lat1,lon1,lat2,lon2\n1,\"2\"3,4,5\n",
    "stdin:2:6: text behind a closing quote; a quote within quotes is written twice"
)]
#[case(
    "lat1,lon1,lat2,lon2\n1,2,-90.1,4\n",
    "stdin:2:5: latitude -90.1 is not within -90 to 90 degrees"
)]
#[case(
    "lat1,lon1,lat2,lon2\n\u{1b}[2J,2,1,4\n",
    "stdin:2:1: lat1 “\u{fffd}[2J” is not a number; write degrees: 57.155"
)]
fn errors_name_line_column_and_reason(#[case] table: &str, #[case] message: &str) {
    assert_eq!(refused("reckon inverse", table), message);
}

#[test]
fn errors_of_the_other_words() {
    assert_eq!(
        refused("reckon variation", "lat,lon,height_km,year\n57,-2,-6371,2026\n"),
        "stdin:2:7: height in km -6371 is not within -10 to 10,000 km"
    );
    assert_eq!(
        refused("reckon from-grid --grid UTM:30N", "lat\n"),
        "stdin:1:1: no column easting_m; the header must name easting_m and northing_m, or reference"
    );
    assert!(refused("reckon to-grid --grid EPSG:4326", "").starts_with("--grid: \"EPSG:4326\""));
    assert!(
        refused("reckon to-grid --grid UTM:30N", "lat,lon\n57,88\n").starts_with("stdin:2:1: ")
    );
    assert_eq!(
        refused("reckon rhumb --json", "lat1,lon1,lat2,lon2,a,a\n"),
        "stdin:1:23: a second column a; JSON needs each name once"
    );
    assert!(refused("reckon rhumb /no/such/table.csv", "").starts_with("/no/such/table.csv: "));
}

#[test]
fn doubtful_answers_are_remarked_on() {
    let table =
        "lat,lon,height_km,year\n57,-2,0,2031\n57,-2,0,2026\n57,-2,0,2032\n89,-121,28,2025\n";
    let (exit, _, errors) = strandline("reckon variation", table);
    assert_eq!(exit, Exit::Done);
    assert_eq!(
        errors,
        "2 rows, the first in line 2: Outside the magnetic model's years, 2025.0 to 2030.0: \
         extrapolated.\n\
         1 row, the first in line 5: Blackout zone, horizontal field under 2000 nT: no compass is \
         to be relied on.\n"
    );
}

#[test]
fn a_change_of_datum_says_how_good_it_is() {
    let (exit, _, errors) =
        strandline("reckon to-grid --grid EPSG:29903", "lat,lon\n53,-7\n53.1,-7\n");
    assert_eq!(exit, Exit::Done);
    assert_eq!(
        errors,
        "2 rows, the first in line 2: good to about 1 m: by a seven-parameter change of datum\n"
    );
    // The national grid shift is exact, and silent.
    let table = answered("reckon to-grid --grid EPSG:27700", "lat,lon\n52.658007833,1.716073973\n");
    // The national mapping agency's own test point TP01: 651409.804, 313177.450.
    assert!((number(&table, "easting_m") - 651_409.804).abs() < 0.001, "{table}");
    assert!((number(&table, "northing_m") - 313_177.450).abs() < 0.001, "{table}");
}

/// Every word, with a wrong cell in a column of each kind: line, column, what is wrong and what would be right in its unit.
#[rstest]
#[case("inverse", "lat1,lon1,lat2,lon2\n1,,3,4\n", "2:3: lon1 is empty; write degrees: 57.155")]
#[case(
    "direct",
    "lat1,lon1,bearing_deg,distance_m\n1,2,north,4\n",
    "2:5: bearing_deg “north” is not a number; write degrees: 132.5"
)]
#[case(
    "direct",
    "lat1,lon1,bearing_deg,distance_m\n1,2,3,4 m\n",
    "2:7: distance_m “4 m” is not a number; write metres: 1250"
)]
#[case(
    "direct",
    "lat1,lon1,bearing_deg,distance_m\n1,2,3,1e300\n",
    "2:7: distance_m 1e300 is not within -1e12 to 1e12 metres"
)]
#[case(
    "direct",
    "lat1,lon1,bearing_deg,distance_m\n1,2,1e9,4\n",
    "2:5: bearing_deg 1e9 is not within -360,000 to 360,000 degrees"
)]
#[case(
    "rhumb",
    "lat1,lon1,lat2,lon2\n1,2,3,1e300\n",
    "2:7: lon2 1e300 is not within -360,000 to 360,000 degrees"
)]
#[case(
    "to-grid --grid UTM:30N",
    "lat,lon\n-91,2\n",
    "2:1: latitude -91 is not within -90 to 90 degrees"
)]
#[case(
    "from-grid --grid UTM:30N",
    "easting_m,northing_m\n500000,x\n",
    "2:8: northing_m “x” is not a number; write metres: 1250"
)]
#[case(
    "from-grid --grid UTM:30N",
    "easting_m,northing_m\n500000,-1e8\n",
    "2:8: northing_m -100000000 is not within ±20,100,000 metres"
)]
#[case(
    "from-grid --grid MGRS",
    "reference\n\"\"\n",
    "2:1: reference is empty; write the grid's letters and figures"
)]
#[case(
    "variation",
    "lat,lon,height_km,year\n57,-2,,2026\n",
    "2:7: height_km is empty; write kilometres: 0.1"
)]
#[case(
    "variation",
    "lat,lon,height_km,year\n57,-2,0,May 2026\n",
    "2:9: year “May 2026” is not a number; write a year: 2026.5"
)]
#[case("sun", "lat,lon,date\n57,-2,\n", "2:7: date is empty; write a day: 2026-06-21")]
#[case(
    "heading",
    "track_deg,speed_kn,set_deg,drift_kn\n10,3 kn,0,1\n",
    "2:4: speed_kn “3 kn” is not a number; write knots: 3.5"
)]
#[case(
    "made-good",
    "heading_deg,speed_kn,set_deg,drift_kn\n10,3,0,-1\n",
    "2:8: speed in knots -1 is not within 0 to 1,000 kn"
)]
#[case(
    "fix",
    "lat1,lon1,bearing1_deg,lat2,lon2,bearing2_deg\n1,2,,4,5,6\n",
    "2:5: bearing1_deg is empty; write degrees: 132.5"
)]
#[case(
    "waves",
    "wind_ms,fetch_m,depth_m,hours\n600,1,,\n",
    "2:1: speed in m/s 600 is not within 0 to 514.4 m/s"
)]
#[case(
    "waves",
    "wind_ms,fetch_m,depth_m,hours\nf5,1,,\n",
    "2:1: wind_ms “f5” is not a number; write metres per second: 8.5"
)]
#[case(
    "waves",
    "wind_ms,fetch_m,depth_m,hours\n5,1,,long\n",
    "2:6: hours “long” is not a number; write hours: 6"
)]
#[case(
    "horizon",
    "eye_m,target_m\n1e300,\n",
    "2:1: height of eye in metres 1e300 is not within 0 to 10,000 m"
)]
fn every_word_says_what_would_be_right(
    #[case] what: &str,
    #[case] table: &str,
    #[case] message: &str,
) {
    // The same table with another column first, quotes about its cells, and an end of line of another kind.
    let moved = |line: &str| {
        let cells = line.split(',').map(|cell| format!("\"{}\"", cell.trim_matches('"')));
        format!("x,{}\r\n", cells.collect::<Vec<_>>().join(","))
    };
    assert_eq!(refused(&format!("reckon {what}"), table), format!("stdin:{message}"));
    let moved = table.lines().map(moved).collect::<String>().replacen("x,", "\u{feff}x,", 1);
    let said = refused(&format!("reckon {what}"), moved.clone());
    assert_eq!(said.splitn(4, ':').nth(3), message.splitn(3, ':').nth(2), "{moved}");
    let (exit, output, errors) = strandline(&format!("reckon {what} --skip-bad"), moved);
    assert_eq!(exit, Exit::Done);
    assert!(
        output.ends_with(",\r\n") && errors.starts_with("1 row without an answer"),
        "{output}{errors}"
    );
}

#[test]
fn a_row_without_end_is_not_read_into_memory() {
    let endless = format!("lat1,lon1,lat2,lon2\n1,2,3,\"{}", "x".repeat(3 << 20));
    assert_eq!(
        refused("reckon rhumb", endless),
        "stdin:2:1: this row is longer than 1 MiB; is a quote left open, or is it no table?"
    );
}

/// An output whose reader has gone.
struct Gone;

impl std::io::Write for Gone {
    fn write(&mut self, _: &[u8]) -> std::io::Result<usize> {
        Err(std::io::ErrorKind::BrokenPipe.into())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

#[test]
fn a_reader_that_has_gone_is_no_failure() {
    let cli = Cli::try_parse_from(["strandline", "reckon", "rhumb"]).unwrap();
    let mut errors = Vec::new();
    let io = &mut Io {
        input: &mut &b"lat1,lon1,lat2,lon2\n1,2,3,4\n"[..],
        output: &mut Gone,
        errors: &mut errors,
        terminal: false,
        to_terminal: false,
        manual: &[],
    };
    assert_eq!(crate::run(cli.command.unwrap(), io), Exit::Done);
    assert!(errors.is_empty());
}

/// A table of so many rows that is never in memory as a whole.
struct Rows {
    left: u32,
    row: &'static [u8],
    at: usize,
}

impl std::io::Read for Rows {
    fn read(&mut self, to: &mut [u8]) -> std::io::Result<usize> {
        if self.at == self.row.len() && self.left > 0 {
            (self.left, self.at) = (self.left - 1, 0);
        }
        let length = to.len().min(self.row.len() - self.at);
        to[..length].copy_from_slice(&self.row[self.at..self.at + length]);
        self.at += length;
        Ok(length)
    }
}

#[test]
fn many_rows_stream_through() {
    use std::io::{BufReader, Read};

    let header = &b"lat1,lon1,lat2,lon2\n"[..];
    let rows = Rows { left: 100_000, row: b"57.155,-2.08,57.2,-2.1\n", at: 23 };
    let mut output = std::io::BufWriter::new(Counted(0));
    let cli = Cli::try_parse_from(["strandline", "reckon", "inverse"]).unwrap();
    let io = &mut Io {
        input: &mut BufReader::new(header.chain(rows)),
        output: &mut output,
        errors: &mut Vec::new(),
        terminal: false,
        to_terminal: false,
        manual: &[],
    };
    assert_eq!(crate::run(cli.command.unwrap(), io), Exit::Done);
    assert_eq!(output.into_inner().unwrap().0, 100_001);
}

/// Counts lines and forgets them.
#[derive(Debug)]
struct Counted(usize);

impl std::io::Write for Counted {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0 += bytes.iter().filter(|&&byte| byte == b'\n').count();
        Ok(bytes.len())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

/// The published table in a file of `tests/data`, some columns under the contract's names and
/// all others left as they are; then answered, row by row, as numbers by name.
pub(super) fn published(
    line: &str,
    table: &str,
    names: &[(&str, &str)],
) -> Vec<std::collections::HashMap<String, f64>> {
    let table: String = table
        .lines()
        .filter(|line| !line.starts_with('#'))
        .map(|line| format!("{line}\n"))
        .collect();
    let (header, rows) = table.split_once('\n').unwrap();
    let renamed = |name: &str| {
        let found = names.iter().find(|(theirs, _)| *theirs == name);
        found.map_or(format!("their_{name}"), |(_, ours)| (*ours).to_owned())
    };
    let header: Vec<String> = header.split(',').map(renamed).collect();
    let (exit, output, errors) = strandline(line, format!("{}\n{rows}", header.join(",")));
    assert_eq!(exit, Exit::Done, "{errors}");
    let mut reader = csv::Reader::from_reader(output.as_bytes());
    let header = reader.headers().unwrap().clone();
    let row = |record: csv::StringRecord| {
        let cells = header.iter().zip(&record);
        cells.filter_map(|(name, cell)| Some((name.to_owned(), cell.parse().ok()?))).collect()
    };
    reader.records().map(|record| row(record.unwrap())).collect()
}

#[test]
fn published_geodesics_through_the_command() {
    const TABLE: &str = include_str!("../../../tests/data/geodesic/geodtest.csv");
    let ends =
        [("lat1_deg", "lat1"), ("lon1_deg", "lon1"), ("lat2_deg", "lat2"), ("lon2_deg", "lon2")];
    let rows = published("reckon inverse", TABLE, &ends);
    assert!(rows.len() > 200);
    for row in rows {
        assert!((row["distance_m"] - row["their_s12_m"]).abs() <= 20e-9, "{row:?}");
    }
    let start = [
        ("lat1_deg", "lat1"),
        ("lon1_deg", "lon1"),
        ("azi1_deg", "bearing_deg"),
        ("s12_m", "distance_m"),
    ];
    for row in published("reckon direct", TABLE, &start) {
        let metres = |degrees: f64| degrees.to_radians() * 6.4e6;
        let north = metres(row["lat2"] - row["their_lat2_deg"]);
        let east = (row["lon2"] - row["their_lon2_deg"] + 180.0).rem_euclid(360.0) - 180.0;
        let east = metres(east) * row["lat2"].to_radians().cos();
        assert!(north.hypot(east) <= 20e-9, "{row:?}");
    }
}

#[test]
fn the_magnetic_models_test_values_through_the_command() {
    const TABLE: &str = include_str!("../../../tests/data/wmm/wmm2025_testvalues.csv");
    let names = [
        ("decimal_year", "year"),
        ("altitude_km", "height_km"),
        ("lat_deg", "lat"),
        ("lon_deg", "lon"),
    ];
    for row in published("reckon variation", TABLE, &names) {
        // Half of each last printed digit; X, H and F as their table's header says.
        for (ours, theirs, tolerance) in [
            ("variation_deg", "their_D_deg", 0.005),
            ("dip_deg", "their_I_deg", 0.005),
            ("horizontal_nt", "their_H_nT", 6e-4),
            ("north_nt", "their_X_nT", 6e-4),
            ("east_nt", "their_Y_nT", 0.51e-6),
            ("down_nt", "their_Z_nT", 3e-6),
            ("total_nt", "their_F_nT", 6e-4),
            ("variation_per_year_deg", "their_Ddot_deg_yr", 0.51e-6),
        ] {
            assert!((row[ours] - row[theirs]).abs() < tolerance, "{ours} in {row:?}");
        }
    }
}
