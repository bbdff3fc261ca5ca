//! Routes that can be opened and saved, and what is said of files that are none.

use std::fs;
use std::path::PathBuf;

use rstest::rstest;
use tempfile::TempDir;

use super::*;

const GOOD: &str = "\u{feff}(version: 1, chart: \"C\", points: [(lat: 57.0, lon: -2.0)])";

fn file(contents: &[u8]) -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("day.ron");
    fs::write(&path, contents).unwrap();
    (folder, path)
}

/// What is said of the file, from its name on.
fn said(path: &Path) -> String {
    let said = open_route(path).unwrap_err().to_string();
    said[said.rfind("day").unwrap_or(0)..].to_owned()
}

#[test]
fn a_route_is_opened_and_saved() {
    let (_folder, path) = file(GOOD.as_bytes());
    let route = open_route(&path).unwrap();
    save_route(&path, &route).unwrap();
    assert_eq!(open_route(&path).unwrap(), route);
}

#[test]
fn what_another_program_wrote_is_kept() {
    let (folder, path) = file(GOOD.as_bytes());
    let (mut open, route) = RouteFile::open(&path).unwrap();
    let route = route.unwrap();
    assert_eq!(open.save(&route).unwrap(), None, "nobody else wrote");
    assert_eq!(open.save(&route).unwrap(), None, "nor since");
    for number in 1..=2 {
        let theirs = format!("(version: 1, chart: \"theirs {number}\", points: [])");
        fs::write(&path, &theirs).unwrap();
        let kept = open.save(&route).unwrap().unwrap();
        assert_eq!(kept, folder.path().join(format!("day.other-{number}.ron")));
        assert_eq!(fs::read_to_string(&kept).unwrap(), theirs);
        assert_eq!(open_route(&path).unwrap(), route);
    }
    fs::write(&path, b"\xFF no text at all").unwrap();
    assert!(open.save(&route).unwrap().is_some());
    fs::remove_file(&path).unwrap();
    assert_eq!(open.save(&route).unwrap(), None, "nothing there to keep");
}

#[test]
fn a_route_that_is_not_there_yet_is_opened_and_made() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("new.ron");
    let (mut open, route) = RouteFile::open(&path).unwrap();
    assert_eq!(route, None);
    fs::write(&path, GOOD).unwrap();
    assert!(open.save(&Route::new("C")).unwrap().is_some(), "somebody else made it first");
}

#[rstest]
#[case(
    b"(version: 1,\n chart: \"\xC3\xA9\xFF\"",
    "day.ron:2:11: the byte 0xFF is not part of UTF-8 text; a route is saved as UTF-8"
)]
#[case(
    b"(version: 7)",
    "day.ron:1:11: version 7 is not known here; this program reads versions 1 to 4"
)]
#[case(
    b"(version: 1,\n chart: \"C",
    "day.ron:2:9: the file ends in the middle; a route ends with `)`"
)]
#[case(
    b"(version: 1, chart: \"C\", points: [(lat: 91.0, lon: 2.0)])",
    "day.ron:1:41: latitude 91 is not within -90 to 90 degrees"
)]
#[case(b"", "day.ron:1:1: the file ends in the middle; a route ends with `)`")]
fn a_file_that_is_no_route_is_refused_at_its_place(#[case] contents: &[u8], #[case] message: &str) {
    let (_folder, path) = file(contents);
    assert_eq!(said(&path), message);
}

#[test]
fn an_input_is_read_like_a_file() {
    let mut good = GOOD.as_bytes();
    assert!(open_route(Source::or_input(Path::new("-"), &mut good)).is_ok());
    let error = open_route(Source::Input(&mut &b"()"[..])).unwrap_err();
    assert_eq!(error.to_string(), "standard input:1:2: `version` is missing; every route has it");
}

#[test]
fn what_is_not_a_readable_file_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("day.ron");
    assert_eq!(said(&path), "day.ron: there is no such file");
    fs::create_dir(&path).unwrap();
    assert_eq!(said(&path), "day.ron: this is a folder; a route is a file");
    assert!(said(&path.join("day.ron/day")).starts_with("day: "));
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_read_is_refused() {
    use std::os::unix::fs::PermissionsExt;
    let (_folder, path) = file(GOOD.as_bytes());
    fs::set_permissions(&path, fs::Permissions::from_mode(0o000)).unwrap();
    // Somebody who may read everything may read this too.
    if fs::File::open(&path).is_err() {
        assert_eq!(said(&path), "day.ron: cannot be read: Permission denied (os error 13)");
    }
}

/// A file that even the system's administrator cannot read from its start.
#[cfg(target_os = "linux")]
#[test]
fn a_file_that_fails_while_it_is_read_is_told() {
    let said = open_route("/proc/self/mem").unwrap_err().to_string();
    assert!(said.starts_with("/proc/self/mem: cannot be read: "), "{said}");
}

#[test]
fn a_line_of_a_gigabyte_is_refused_by_its_size() {
    let (_folder, path) = file(b"(");
    // A hole in the file: it takes no room on the disk.
    fs::OpenOptions::new().write(true).open(&path).unwrap().set_len(1 << 30).unwrap();
    assert_eq!(said(&path), "day.ron: is larger than 8 MB, the most that a route may have");
}

#[cfg(target_os = "linux")]
#[test]
fn what_has_no_size_and_no_end_is_refused_when_it_gets_too_long() {
    let said = open_route("/dev/zero").unwrap_err().to_string();
    assert_eq!(said, "/dev/zero: is larger than 8 MB, the most that a route may have");
}
