//! Charts that can be opened and saved, and what is said of files that are none.

use std::fs;
use std::path::PathBuf;

use rstest::rstest;
use tempfile::TempDir;

use super::*;

const CHART: &str = r#"(version: 1, title: "Nowhere", grid: Named("UTM:25N"),
    extent: (south_west: (500000, 5700000), north_east: (530000, 5722000)),
    shore: Here([]))"#;

/// A square of land a hundredth of a degree wide, within the chart.
const SHORE: &str = r#"{"type": "Polygon", "coordinates":
    [[[-32.9, 51.5], [-32.89, 51.5], [-32.89, 51.51], [-32.9, 51.51], [-32.9, 51.5]]]}"#;

fn beside(shore: &str) -> String {
    CHART.replace("Here([])", &format!("File({shore:?})"))
}

fn folder(files: &[(&str, &str)]) -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        fs::write(folder.path().join(name), text).unwrap();
    }
    let chart = folder.path().join("chart.ron");
    (folder, chart)
}

/// What is said of the chart, without the folder's name.
fn said(folder: &TempDir, chart: &Path) -> String {
    let said = open_chart(chart).unwrap_err().to_string();
    said.replace(&format!("{}/", folder.path().display()), "")
}

#[test]
fn a_chart_is_opened_and_saved() {
    let (_folder, path) = folder(&[("chart.ron", CHART)]);
    let chart = open_chart(&path).unwrap();
    assert_eq!(chart.title, "Nowhere");
    let error = save_chart(&path, &chart, Overwrite::No).unwrap_err();
    assert!(matches!(error.why, Why::Exists));
    save_chart(&path, &chart, Overwrite::Yes).unwrap();
    assert_eq!(open_chart(&path).unwrap(), chart);
    assert_eq!(open_chart(Source::Input(&mut CHART.as_bytes())).unwrap(), chart);
}

#[test]
fn a_shore_beside_the_chart_is_read_too() {
    let (_folder, path) =
        folder(&[("chart.ron", &beside("coast.geojson")), ("coast.geojson", SHORE)]);
    let chart = open_chart(&path).unwrap();
    assert_eq!(chart.land.len(), 1);
    assert_eq!(chart.land[0].shore.0.len(), 4);
}

#[rstest]
#[case("coast.geojson", None, "coast.geojson: there is no such file")]
#[case(
    "coast.geojson",
    Some("{\"type\": \"Polygon\""),
    "coast.geojson:1:18: not GeoJSON (RFC 7946): the text ends in the middle of an object"
)]
#[case(
    "../coast.geojson",
    Some(SHORE),
    "chart.ron:3:18: the shore's file `../coast.geojson` is not a plain path from the chart's folder"
)]
#[case(
    "/etc/hosts",
    Some(SHORE),
    "chart.ron:3:18: the shore's file `/etc/hosts` is not a plain path from the chart's folder"
)]
fn what_is_wrong_with_the_shore_is_said_of_the_right_file(
    #[case] name: &str,
    #[case] shore: Option<&str>,
    #[case] message: &str,
) {
    let (folder, path) = folder(&[("chart.ron", &beside(name))]);
    if let Some(shore) = shore {
        fs::write(folder.path().join("coast.geojson"), shore).unwrap();
    }
    let said = said(&folder, &path);
    assert!(said.starts_with(message), "{said}");
}

#[rstest]
#[case(
    "version: 1",
    "version: 9",
    "chart.ron:1:11: version 9 of the chart format; this program reads version 1"
)]
#[case(
    "shore: Here([]))",
    "shore: Here([",
    "chart.ron:3:18: the text stops in the middle of the chart"
)]
#[case("500000", "NaN", "chart.ron:2:13: the extent from (NaN, 5700000)")]
fn what_is_wrong_with_a_chart_is_said_at_its_place(
    #[case] good: &str,
    #[case] bad: &str,
    #[case] message: &str,
) {
    let (folder, path) = folder(&[("chart.ron", &CHART.replacen(good, bad, 1))]);
    let said = said(&folder, &path);
    assert!(said.starts_with(message), "{said}");
}

#[test]
fn a_line_of_a_gigabyte_is_refused_with_a_word_about_shores() {
    let (folder, path) = folder(&[("chart.ron", "(")]);
    // A hole in the file: it takes no room on the disk.
    fs::OpenOptions::new().write(true).open(&path).unwrap().set_len(1 << 30).unwrap();
    assert_eq!(
        said(&folder, &path),
        "chart.ron: is larger than 128 MB, the most that a chart may have; a shore of that size \
         belongs in a GeoJSON file beside the chart"
    );
}

#[test]
fn an_import_tells_how_far_it_is_and_can_be_broken_off() {
    let (folder, _) = folder(&[("coast.geojson", SHORE)]);
    let path = folder.path().join("coast.geojson");
    let grid = nav::Grid::parse("UTM:25N").unwrap();
    let mut told = Vec::new();
    let import = import_shore(&path, &grid, BadRings::Refuse, |read, size| {
        told.push((read, size));
        ControlFlow::Continue(())
    });
    assert_eq!(import.unwrap().shore.land.len(), 1);
    let size = SHORE.len() as u64;
    assert!(told.iter().all(|(read, whole)| *read <= size && *whole == Some(size)), "{told:?}");
}
