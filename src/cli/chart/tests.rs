//! Charts on the command line, bytes in and bytes out.

use std::fs;
use std::path::PathBuf;

use clap::Parser;
use tempfile::TempDir;

use crate::{Cli, Exit, Io};

const COAST: &str = r#"{"type": "FeatureCollection", "features": [
{"type": "Feature", "properties": {"name": "Ytterholm"}, "geometry": {"type": "Polygon", "coordinates":
[[[15.0, 68.0], [15.02, 68.0], [15.02, 68.01], [15.0, 68.01], [15.0, 68.0]]]}},
{"type": "Feature", "properties": {}, "geometry": {"type": "Point", "coordinates": [15.1, 68.0]}},
{"type": "Feature", "properties": {}, "geometry": {"type": "LineString", "coordinates":
[[15.1, 68.0], [15.2, 68.0], [15.1, 68.1], [15.1, 68.0]]}}
]}
"#;

/// A folder that holds `coast.geojson`.
struct Desk(TempDir);

/// What a command came to.
struct Said {
    exit: Exit,
    output: String,
    errors: String,
}

impl Desk {
    fn new() -> Desk {
        let desk = Desk(tempfile::tempdir().unwrap());
        fs::write(desk.path("coast.geojson"), COAST).unwrap();
        desk
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// Runs `chart` with arguments, of which `@name` is a file of the folder.
    fn chart(&self, arguments: &str, input: &str) -> Said {
        let arguments =
            arguments.split_whitespace().map(|argument| match argument.strip_prefix('@') {
                Some(name) => self.path(name).to_string_lossy().into_owned(),
                None => argument.to_owned(),
            });
        let all = ["strandline", "chart"].map(str::to_owned).into_iter().chain(arguments);
        let command = Cli::try_parse_from(all).unwrap().command.unwrap();
        let (mut input, mut output, mut errors) = (input.as_bytes(), Vec::new(), Vec::new());
        let exit = crate::run(
            command,
            &mut Io {
                input: &mut input,
                output: &mut output,
                errors: &mut errors,
                terminal: false,
                to_terminal: false,
                manual: &[],
            },
        );
        let folder = format!("{}/", self.0.path().display());
        let text = |bytes| String::from_utf8(bytes).unwrap().replace(&folder, "");
        Said { exit, output: text(output), errors: text(errors) }
    }
}

#[test]
fn a_shore_is_imported_checked_and_described() {
    let desk = Desk::new();
    let said = desk.chart("import @coast.geojson --grid UTM:33N -o @coast.ron", "");
    assert_eq!(said.exit, Exit::Done);
    assert_eq!(said.errors, "left out: 1 point\n1 closed line encloses nothing; a polygon would\n");
    let said = desk.chart("check @coast.ron", "");
    assert_eq!((said.exit, said.output.as_str()), (Exit::Done, "nothing found\n"));
    let said = desk.chart("describe @coast.ron", "");
    assert!(said.output.starts_with("coast\nsource        Imported from coast\n"));
    assert!(said.output.contains("land          1 shore, 0 lakes, 1 open shoreline\n"));
}

#[test]
fn a_chart_is_made_as_wished_and_a_wish_that_is_none_tells_what_there_is() {
    let desk = Desk::new();
    let wishes = "--character lagoon --size 9x7 --tide meso --difficulty hard --title Lesson";
    let said = desk.chart(&format!("make --seed 7 {wishes} -o @lesson.ron"), "");
    assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
    let said = desk.chart("check @lesson.ron", "");
    assert_eq!((said.exit, said.output.as_str()), (Exit::Done, "nothing found\n"));
    let said = desk.chart("describe @lesson.ron", "");
    assert!(said.output.starts_with("Lesson\nAn invented place: it does not exist.\n"));
    assert!(said.output.contains("(seed 7, lagoon, tide 3.0 m, hard)"), "{}", said.output);
    assert!(said.output.contains("9.0 by 7.0 km"));
    for (wish, told) in [
        ("--character fjord", "there are mixed, skerries, sea-lochs, lagoon, cliffs, estuary"),
        ("--difficulty easy", "there are gentle, moderate, hard"),
        ("--tide 9m", "micro (1 m), meso (3 m), macro (6 m), or 0.5m to 8m"),
        ("--size 30", "each 6 to 80, as in 30x22"),
    ] {
        let arguments = format!("strandline chart make --seed 1 {wish}");
        let error = Cli::try_parse_from(arguments.split(' ')).unwrap_err().to_string();
        assert!(error.contains(told), "{error}");
    }
}

/// What was counted and measured of a shore alone is that of the chart made of it.
#[test]
fn a_shore_alone_is_described_by_what_is_in_it() {
    let desk = Desk::new();
    desk.chart("import @coast.geojson --grid UTM:33N -o @coast.ron", "");
    desk.chart("import @coast.geojson -o @coast.shore", "");
    let described = |name: &str| -> serde_json::Value {
        let said = desk.chart(&format!("describe @{name} --json"), "");
        serde_json::from_str(&said.output).unwrap()
    };
    let (chart, shore) = (described("coast.ron"), described("coast.shore"));
    for count in ["land", "lakes", "shorelines", "shore_vertices"] {
        assert_eq!(chart[count], shore[count], "{count}");
    }
    for measure in ["shore_length_km", "land_area_km2"] {
        let [chart, shore] = [&chart, &shore].map(|said| said[measure].as_f64().unwrap());
        assert!(shore > 0.5 && (chart - shore).abs() < 1e-3, "{measure}: {chart} {shore}");
    }
}

#[test]
fn a_file_that_is_there_is_replaced_only_by_force() {
    let desk = Desk::new();
    for command in ["import @coast.geojson --grid UTM:33N -o @out.ron", "make --seed 3 -o @out.ron"]
    {
        fs::write(desk.path("out.ron"), "mine").unwrap();
        let said = desk.chart(command, "");
        assert_eq!(said.exit, Exit::Bad);
        assert!(said.errors.contains("out.ron: "), "{}", said.errors);
        assert_eq!(fs::read_to_string(desk.path("out.ron")).unwrap(), "mine");
        assert_eq!(desk.chart(&format!("{command} --force"), "").exit, Exit::Done);
        assert_ne!(fs::read_to_string(desk.path("out.ron")).unwrap(), "mine");
    }
}

#[test]
fn a_bad_shore_leaves_nothing_behind() {
    let desk = Desk::new();
    fs::write(desk.path("coast.geojson"), &COAST[..300]).unwrap();
    let said = desk.chart("import @coast.geojson --grid UTM:33N -o @coast.ron", "");
    assert_eq!(said.exit, Exit::Bad);
    assert_eq!(
        said.errors,
        "coast.geojson:4:72: not GeoJSON (RFC 7946): the text ends in the middle of a string\n"
    );
    assert_eq!(fs::read_dir(desk.0.path()).unwrap().count(), 1);
}

#[test]
fn a_ring_that_crosses_itself_is_refused_left_out_or_mended() {
    let desk = Desk::new();
    // Two corners of the square are swapped.
    let twisted = COAST.replace("[15.02, 68.0], [15.02, 68.01]", "[15.02, 68.01], [15.02, 68.0]");
    assert_ne!(twisted, COAST);
    fs::write(desk.path("coast.geojson"), twisted).unwrap();
    let command = "import @coast.geojson --grid UTM:33N -o @coast.ron";
    let said = desk.chart(command, "");
    assert_eq!(said.exit, Exit::Bad);
    assert_eq!(
        said.errors,
        "coast.geojson:3:78: feature 1 \"Ytterholm\": a ring crosses itself at \
         [15.01, 68.005001]; repair it, or have it mended or left out\n"
    );
    let said = desk.chart(&format!("{command} --skip-bad"), "");
    assert!(said.errors.starts_with("left out: 1 point, 1 bad ring\n"), "{}", said.errors);
    let said = desk.chart(&format!("{command} --mend --force"), "");
    assert!(said.errors.contains("1 ring crossed itself and was cut there\n"), "{}", said.errors);
    assert_eq!(desk.chart("check @coast.ron", "").output, "nothing found\n");
}

#[test]
fn a_chart_can_point_to_its_shore() {
    let desk = Desk::new();
    let said = desk.chart("import @coast.geojson --grid UTM:33N -o @coast.ron --beside", "");
    assert_eq!(said.exit, Exit::Done);
    let text = fs::read_to_string(desk.path("coast.ron")).unwrap();
    assert!(text.contains("shore: File(\"coast.geojson\"),"), "{text}");
    let beside = desk.chart("describe @coast.ron --json", "").output;
    desk.chart("import @coast.geojson --grid UTM:33N -o @coast.ron --force", "");
    assert_eq!(desk.chart("describe @coast.ron --json", "").output, beside);
    fs::create_dir(desk.path("charts")).unwrap();
    let said = desk.chart("import @coast.geojson --grid UTM:33N -o @charts/a.ron --beside", "");
    assert_eq!(said.exit, Exit::Bad);
    assert!(said.errors.contains("is neither beside the chart nor below it"), "{}", said.errors);
}

#[test]
fn standard_input_and_output_take_the_place_of_files() {
    let desk = Desk::new();
    let said = desk.chart("import - --grid UTM:33N -o -", COAST);
    assert_eq!(said.exit, Exit::Done);
    assert_eq!(desk.chart("check -", &said.output).output, "nothing found\n");
    let described = desk.chart("describe - --json", &said.output).output;
    let described: serde_json::Value = serde_json::from_str(&described).unwrap();
    assert_eq!(described["title"], "Shore");
    assert_eq!(described["land"], 1);
}

#[test]
fn what_is_wrong_with_a_chart_is_found_line_by_line() {
    let desk = Desk::new();
    let text = "(version: 1, title: \"\", grid: Named(\"UTM:33N\"),
extent: (south_west: (500000, 0), north_east: (501000, 1000)),
shore: Here([(shore: [(0, 0), (9, 9), (9, 0), (0, 9)])]),
hazards: [(name: \"\u{1b}[2J\", at: (5, 5), kind: Wreck)])";
    let said = desk.chart("check -", text);
    assert_eq!(said.exit, Exit::No);
    assert_eq!(
        said.output,
        "standard input:1:21: the chart has no name; give it one
standard input:3:23: the ring meets itself at (4.5, 4.5), where sides 1 and 3 cross; \
a ring neither crosses nor touches itself
standard input:4:30: a hazard at (5, 5) lies outside the chart's extent; move it or widen the extent
"
    );
    let said = desk.chart("check - --json", text);
    assert_eq!(said.exit, Exit::No);
    let found: serde_json::Value = serde_json::from_str(&said.output).unwrap();
    assert_eq!(found.as_array().unwrap().len(), 3);
    assert_eq!((&found[0]["line"], &found[0]["column"]), (&1.into(), &21.into()));
    assert_eq!(found[0]["message"], "the chart has no name; give it one");
    let said = desk.chart("check -", "(version: 1, title: \u{1b}[2J");
    assert_eq!(said.exit, Exit::Bad);
    assert!(said.output.is_empty() && said.errors.starts_with("standard input:1:"));
    assert!(!said.errors.contains('\u{1b}'));
}

#[test]
fn a_made_chart_is_in_order_and_made_again_the_same() {
    let desk = Desk::new();
    let said = desk.chart("make --seed 7 --title Elsewhere", "");
    assert_eq!(said.exit, Exit::Done);
    assert_eq!(desk.chart("check -", &said.output).output, "nothing found\n");
    let described = desk.chart("describe -", &said.output).output;
    assert!(described.starts_with("Elsewhere"), "{described}");
    assert!(described.contains("An invented place: it does not exist."));
}

#[test]
fn folders_and_missing_files_are_named() {
    let desk = Desk::new();
    let said = desk.chart("check @", "");
    assert_eq!(said.exit, Exit::Bad);
    assert!(said.errors.contains("this is a folder; a chart is a file"), "{}", said.errors);
    let said = desk.chart("describe @nowhere.ron", "");
    assert_eq!(
        (said.exit, said.errors.as_str()),
        (Exit::Bad, "nowhere.ron: there is no such file\n")
    );
    let said = desk.chart("import @nowhere.geojson --grid UTM:33N -o @x.ron", "");
    assert_eq!(said.errors, "nowhere.geojson: there is no such file\n");
    let said = desk.chart("import @coast.geojson --grid UTM:99N -o @x.ron", "");
    assert!(said.errors.starts_with("--grid: "), "{}", said.errors);
}

/// A whole shore goes into the program's own file and into FlatGeobuf and out of them, and every command
/// that takes a chart takes each.
#[test]
fn whole_shores_are_imported_and_opened() {
    let desk = Desk::new();
    for (from, to) in [("coast.geojson", "a.shore"), ("a.shore", "a.fgb"), ("a.fgb", "b.shore")] {
        let said = desk.chart(&format!("import @{from} -o @{to}"), "");
        assert_eq!(said.exit, Exit::Done, "{}", said.errors);
        assert!(said.errors.ends_with("vertices\n"), "{}", said.errors);
        let again = desk.chart(&format!("import @{from} -o @{to}"), "");
        assert_eq!(again.exit, Exit::Bad);
        assert!(again.errors.contains("is there already; --force overwrites it"));
        let check = desk.chart(&format!("check @{to}"), "");
        let expected = match to {
            "a.shore" => (Exit::No, "a.shore: 1 point left out\n"),
            _ => (Exit::Done, "nothing found\n"),
        };
        assert_eq!((check.exit, check.output.as_str()), expected);
    }
    let grid = desk.chart("import @coast.geojson --grid UTM:30N -o @c.shore", "");
    assert!(grid.errors.contains("leave out --grid"), "{}", grid.errors);
    let none = desk.chart("import @coast.geojson -o @c.ron", "");
    assert!(none.errors.contains("a chart lies on a grid; name it"), "{}", none.errors);
}
