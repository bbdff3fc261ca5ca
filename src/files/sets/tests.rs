//! Sets opened with their charts.

use std::fs;

use super::*;

fn set(chart: &str) -> String {
    format!("(version: 1, title: \"T\", chart: {chart}, parts: [(kinds: [\"back\"], count: 1)])")
}

#[test]
fn a_set_opens_its_own_chart_from_its_own_folder() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("set.ron");
    let opened = |chart: &str| {
        fs::write(&path, set(chart)).unwrap();
        open_set(&path)
    };
    assert_eq!(opened("BuiltIn").unwrap().chart, chart::practice().unwrap());
    let made = opened("Made(seed: 7, size: \"8x8\")").unwrap().chart;
    let wishes = chart::maker::Wishes { width_km: 8, height_km: 8, ..Default::default() };
    assert_eq!(made, chart::maker::make(7, &wishes).unwrap());
    // Beside the set, wherever the program was started.
    fs::create_dir(folder.path().join("charts")).unwrap();
    fs::write(folder.path().join("charts/bay.ron"), chart::format::write(&made)).unwrap();
    assert_eq!(opened("File(\"charts/bay.ron\")").unwrap().chart.title, made.title);
    let error = opened("File(\"bay.ron\")").unwrap_err().to_string();
    assert!(error.ends_with("set.ron:1:38: there is no chart `bay.ron` beside the set"), "{error}");
    // What is wrong with the chart is told with its own place.
    fs::write(folder.path().join("bay.ron"), "(version: 1,\n title: 5)").unwrap();
    let error = opened("File(\"bay.ron\")").unwrap_err().to_string();
    assert!(error.contains("bay.ron:2:"), "{error}");
}

/// Whatever a chart says is in its checksum, and nothing else.
#[test]
fn a_chart_is_known_again_by_its_checksum() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("set.ron");
    fs::write(&path, set("File(\"bay.ron\")")).unwrap();
    let wishes = chart::maker::Wishes { width_km: 8, height_km: 8, ..Default::default() };
    let made = chart::maker::make(7, &wishes).unwrap();
    let sum = |text: &str| {
        fs::write(folder.path().join("bay.ron"), text).unwrap();
        open_set(&path).unwrap().sum
    };
    let text = chart::format::write(&made);
    let first = sum(&text);
    assert_eq!(sum(&format!("// Of this year.\n{text}\n")), first);
    let mut moved = made.clone();
    moved.marks[0].at.x += 1.0;
    assert_ne!(sum(&chart::format::write(&moved)), first);
    let mut shore = made;
    shore.land[0].shore.0[1].y += 0.5;
    assert_ne!(sum(&chart::format::write(&shore)), first);
}

#[test]
fn what_is_wrong_is_told_with_file_line_and_column() {
    let text = "(version: 1, title: \"T\",\n parts: [(kinds: [\"bak\"], count: 1)])";
    let error = open_set(Source::Input(&mut text.as_bytes())).unwrap_err().to_string();
    assert!(error.starts_with("standard input:2:19: “bak” is no kind of exercise;"), "{error}");
    let long = " ".repeat((1 << 20) + 1);
    let error = open_set(Source::Input(&mut long.as_bytes())).unwrap_err().to_string();
    assert_eq!(
        error,
        "standard input: is larger than 1 MB, the most that a set of exercises may have"
    );
}
