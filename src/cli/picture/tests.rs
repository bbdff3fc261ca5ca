//! Pictures of parts of charts.

use std::fs;
use std::path::PathBuf;

use rstest::rstest;

use crate::Exit;
use crate::testing::{Said, run};

fn demonstration() -> String {
    plan::format::write(&plan::demonstration().unwrap())
}

/// An SVG on standard output, of which the size in millimetres is given.
fn drawn(arguments: &[&str]) -> (String, String) {
    let all = ["picture"].iter().chain(arguments).copied();
    let Said { exit, output, errors, .. } = run(all, &demonstration());
    assert_eq!((exit, errors.as_str()), (Exit::Done, ""), "{arguments:?}");
    let sides = ["width=\"", "height=\""].map(|name| {
        let from = output.find(name).unwrap() + name.len();
        output[from..].split('"').next().unwrap().to_owned()
    });
    (output, sides.join(" "))
}

#[test]
fn a_whole_chart_or_a_route_on_an_a4() {
    let (chart, size) = drawn(&[]);
    assert_eq!(size, "297mm 210mm");
    assert!(chart.contains("no such place") && chart.contains("Not for navigation"));
    let (route, _) = drawn(&["practice", "-"]);
    let (whole, _) = drawn(&["practice", "-", "--whole"]);
    let scale = |svg: &str| {
        let from = svg.find(">1:").unwrap() + 3;
        svg[from..].split('<').next().unwrap().replace(',', "").parse::<u32>().unwrap()
    };
    assert!(scale(&route) < scale(&whole), "{} {}", scale(&route), scale(&whole));
    assert_eq!(scale(&whole), scale(&chart));
}

#[rstest]
// At a scale the page is as large as the part takes: 4 km at 1:20,000 are 200 mm, and what is around it.
#[case(&["--around", "Ollillan Narrows", "--scale", "1:20000"], "1:20,000", None)]
#[case(&["--around", "Ollillan Narrows", "--width", "2.5", "--height", "1", "--scale", "1:10,000"], "1:10,000", None)]
// Of a size the scale is the largest round one.
#[case(&["--around", "Ollillan Narrows", "--width", "4", "--size", "a4"], "1:25,000", Some("210mm 297mm"))]
#[case(&["--around", "Ollillan Narrows", "--size", "160x90"], "1:100,000", Some("160mm 90mm"))]
// Both: what has room.
#[case(&["--around", "Ollillan Narrows", "--size", "a5", "--scale", "50000"], "1:50,000", Some("148mm 210mm"))]
fn any_part_at_any_scale(
    #[case] arguments: &[&str],
    #[case] scale: &str,
    #[case] size: Option<&str>,
) {
    let (svg, drawn) = drawn(arguments);
    assert!(
        svg.contains(&format!(">{scale}<")),
        "{arguments:?}: {:?}",
        svg.find(">1:").map(|at| &svg[at..at + 20])
    );
    assert!(size.is_none_or(|size| size == drawn), "{drawn}");
}

#[test]
fn from_corner_to_corner_in_any_form_of_reference() {
    let chart = ::chart::practice().unwrap();
    let middle = chart.extent.center();
    let reference = |x: f64, y: f64| {
        let point = nav::GridPoint::from_metres(middle.x + x, middle.y + y).unwrap();
        (
            chart.grid.reference(point, nav::Figures::Six).unwrap(),
            chart.grid.inverse(point).unwrap().position,
        )
    };
    let ((low, _), (high, at)) = (reference(-2000.0, -1000.0), reference(2000.0, 1000.0));
    let position = nav::text::position(at, nav::text::AngleStyle::default());
    let by_reference = drawn(&["--extent", &low, &high, "--scale", "1:20000"]).1;
    // In any order; the middles of the squares are meant.
    assert_eq!(drawn(&["--extent", &high, &low, "--scale", "1:20000"]).1, by_reference);
    let by_position = drawn(&["--extent", &low, &position, "--scale", "1:20000"]).1;
    assert_ne!(by_position, "");
}

#[test]
fn each_format_has_its_own_first_bytes() {
    let folder = tempfile::tempdir().unwrap();
    for (name, begins) in [("a.svg", &b"<?xml"[..]), ("a.png", b"\x89PNG"), ("a.PDF", b"%PDF-1.7")]
    {
        let path = folder.path().join(name);
        let said = run(
            [
                "picture",
                "--around",
                "Ollillan Narrows",
                "--size",
                "a6",
                "--dpi",
                "60",
                "-o",
                path.to_str().unwrap(),
            ],
            "",
        );
        assert_eq!(said.exit, Exit::Done, "{}", said.errors);
        assert_eq!(said.errors, format!("written: {}\n", path.display()));
        assert!(fs::read(&path).unwrap().starts_with(begins), "{name}");
    }
    let again = run(["picture", "-o", folder.path().join("a.svg").to_str().unwrap()], "");
    assert_eq!(again.exit, Exit::Bad);
    assert!(again.errors.ends_with("a.svg: is there already; --force overwrites it\n"));
}

#[rstest]
#[case(&["--around", "Nowhere"], "--around: no name on the chart begins with “Nowhere”")]
#[case(&["--extent", "Ollillan Narrows", "Ollillan Narrows"], "the two corners lie on one line")]
#[case(&["--around", "0°N 0°E"], "0°N 0°E is not on this chart")]
#[case(&["--scale", "1:1000"], "the most is 1500 mm")]
#[case(&["--size", "20x20"], "has no room for a chart: the least is 85 by 70 mm")]
#[case(&["--size", "5000x5000"], "a page of 5000 by 5000 mm is too large: the most is 1500 mm")]
#[case(&["--format", "txt"], "--format txt is none of these: svg, png, pdf")]
#[case(&["-o", "a.docx"], "a.docx: the name ends in none of .svg, .png, .pdf; or say --format")]
#[case(&["-o", "no-such-folder/a.svg"], "no-such-folder/a.svg: there is no folder no-such-folder; make it first")]
#[case(&["no-such-chart.ron"], "no-such-chart.ron: there is no such file")]
#[case(&["practice", "no-such-route.ron"], "no-such-route.ron: there is no such file")]
#[case(&["--format", "png", "--dpi", "2400"], "pixels")]
fn what_cannot_be_drawn_is_said_in_one_line(#[case] arguments: &[&str], #[case] expected: &str) {
    let said = run(["picture"].iter().chain(arguments).copied(), "");
    assert_eq!((said.exit, said.output.as_str()), (Exit::Bad, ""));
    assert!(said.errors.contains(expected), "{}", said.errors);
    assert_eq!(said.errors.lines().count(), 1, "{}", said.errors);
}

#[rstest]
#[case(&["--scale", "1:0"], "1:1,000 to 1:200,000,000")]
#[case(&["--scale", "99999999999999"], "1:1,000 to 1:200,000,000")]
#[case(&["--scale", "large"], "write a scale such as 1:25000")]
#[case(&["--size", "a9"], "write a3, a4, a5 or a6")]
#[case(&["--size", "1x-5"], "millimetres across and down")]
#[case(&["--size", "NaNx5"], "millimetres across and down")]
#[case(&["--around", "x", "--width", "0"], "write kilometres from 0.01 to 40000")]
#[case(&["--height", "2"], "--around")]
#[case(&["--around", "x", "--whole"], "cannot be used with")]
#[case(&["--dpi", "0"], "from 10 to 2400")]
#[case(&["--extent", "x"], "2 values required")]
fn what_is_typed_wrong_is_said_where_it_is_typed(
    #[case] arguments: &[&str],
    #[case] expected: &str,
) {
    use clap::Parser;
    let all = ["strandline", "picture"].iter().chain(arguments);
    let error = crate::Cli::try_parse_from(all).unwrap_err().to_string();
    assert!(error.contains(expected), "{error}");
}

#[test]
fn a_shore_of_the_world_is_drawn_true_on_the_ground() {
    // At 60 degrees north a metre of World Mercator is half a metre of ground.
    let folder = tempfile::tempdir().unwrap();
    let path: PathBuf = folder.path().join("rock.geojson");
    let ring = "[[10,60],[10.2,60],[10.2,60.1],[10,60.1],[10,60]]";
    let shore = format!(r#"{{"type":"Polygon","coordinates":[{ring}]}}"#);
    fs::write(&path, shore).unwrap();
    let svg = drawn(&[
        path.to_str().unwrap(),
        "--around",
        "60°03′N 10°06′E",
        "--width",
        "10",
        "--scale",
        "1:100000",
    ]);
    let width: f64 = svg.1.split("mm").next().unwrap().parse().unwrap();
    // 10 km at 1:100,000 are 100 mm, and the frame around them.
    assert!((105.0..135.0).contains(&width), "{width}");
}
