//! Shores opened, kept and saved.

use std::fs;

use super::*;

const SHORE: &str = r#"{"type": "Feature", "properties": {"name": "Square"}, "geometry": {"type": "Polygon", "coordinates":
    [[[-32.9, 51.5], [-32.89, 51.5], [-32.89, 51.51], [-32.9, 51.51], [-32.9, 51.5]]]}}"#;

fn go_on(_: u64, _: Option<u64>) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

struct Home {
    home: tempfile::TempDir,
    folders: Folders,
}

impl Home {
    fn new() -> Home {
        let home = tempfile::tempdir().unwrap();
        let folder = |name| home.path().join(name);
        let folders = Folders {
            data: folder("data"),
            state: folder("state"),
            config: folder("config"),
            cache: folder("cache"),
        };
        fs::write(home.path().join("isle.geojson"), SHORE).unwrap();
        Home { home, folders }
    }

    fn path(&self, name: &str) -> std::path::PathBuf {
        self.home.path().join(name)
    }

    fn kept(&self) -> Vec<String> {
        let names = fs::read_dir(self.folders.cache.join("shores")).into_iter().flatten();
        names.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect()
    }

    fn open(&self, name: &str) -> Result<OpenedChart, FileError> {
        open_coast(&self.path(name), Some(&self.folders), &mut go_on)
    }
}

#[test]
fn a_shore_alone_is_a_chart_on_world_mercator_and_is_kept() {
    let home = Home::new();
    let first = home.open("isle.geojson").unwrap();
    assert_eq!((first.chart.title.as_str(), first.chart.invented), ("isle", false));
    assert_eq!(first.chart.grid.name(), "EPSG:3395");
    assert_eq!(first.coast.lines().next().unwrap().name(), "Square");
    let kept = home.kept();
    assert_eq!(kept.len(), 1);
    // The second time the file itself is not read.
    let told = open_coast(&home.path("isle.geojson"), Some(&home.folders), &mut |_, _| {
        panic!("read again")
    });
    assert_eq!(told.unwrap().shores, first.shores);
    // A changed file is read anew, and its earlier shore goes.
    fs::write(home.path("isle.geojson"), SHORE.replace("Square", "Quadrangle")).unwrap();
    let second = home.open("isle.geojson").unwrap();
    assert_eq!(second.coast.lines().next().unwrap().name(), "Quadrangle");
    assert_eq!(home.kept().len(), 1);
    assert_ne!(home.kept(), kept);
}

#[test]
fn a_broken_shore_in_the_cache_is_made_anew() {
    let home = Home::new();
    let first = home.open("isle.geojson").unwrap();
    let kept = home.folders.cache.join("shores").join(&home.kept()[0]);
    drop(first);
    // As a disk might: another file in its place, as long.
    let size = fs::metadata(&kept).unwrap().len();
    fs::remove_file(&kept).unwrap();
    fs::write(&kept, vec![7; size as usize]).unwrap();
    assert_eq!(home.open("isle.geojson").unwrap().coast.lines().len(), 1);
    assert_ne!(fs::read(&kept).unwrap()[0], 7);
}

#[test]
fn a_shore_goes_from_form_to_form() {
    let home = Home::new();
    let imported = import_coast(&home.path("isle.geojson"), &mut go_on).unwrap();
    let points = |coast: &Coast| -> Vec<chart::Point> {
        coast.lines().flat_map(|line| line.points().collect::<Vec<_>>()).collect()
    };
    for name in ["isle.shore", "isle.fgb"] {
        let path = home.path(name);
        let mut patient = || ControlFlow::Continue(());
        save_coast(&path, &imported, Overwrite::No, &mut patient).unwrap();
        let again = save_coast(&path, &imported, Overwrite::No, &mut patient).unwrap_err();
        assert!(matches!(again.why, Why::Exists));
        let opened = home.open(name).unwrap();
        assert_eq!(points(&opened.coast), points(imported.shores.full()), "{name}");
        assert_eq!(opened.chart.extent, imported.about.extent);
        assert_eq!(crate::open_chart(&path).unwrap().title, "isle");
        assert_eq!(crate::check_chart(&path).unwrap().len(), 0);
    }
}

#[test]
fn what_is_stopped_leaves_nothing() {
    let home = Home::new();
    let stopped = import_coast(&home.path("isle.geojson"), &mut go_on).and_then(|imported| {
        let mut stop = || ControlFlow::Break(());
        save_coast(&home.path("isle.shore"), &imported, Overwrite::No, &mut stop)
    });
    assert!(stopped.unwrap_err().to_string().contains("stopped before the end"));
    // A file that is large enough for progress to be told.
    let long = format!("{}{}", SHORE, " ".repeat(1 << 20));
    fs::write(home.path("long.geojson"), long).unwrap();
    let error = open_coast(&home.path("long.geojson"), Some(&home.folders), &mut |_, _| {
        ControlFlow::Break(())
    });
    assert!(error.unwrap_err().to_string().ends_with("stopped before the end"));
    assert_eq!(home.kept(), Vec::<String>::new());
    let mut names: Vec<_> =
        fs::read_dir(home.home.path()).unwrap().map(|e| e.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(names, ["isle.geojson", "long.geojson"]);
}

#[test]
fn files_that_are_damaged_or_lie_are_refused_in_one_sentence() {
    let home = Home::new();
    let imported = import_coast(&home.path("isle.geojson"), &mut go_on).unwrap();
    let mut patient = || ControlFlow::Continue(());
    save_coast(&home.path("isle.shore"), &imported, Overwrite::No, &mut patient).unwrap();
    let mut bytes = fs::read(home.path("isle.shore")).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    for (name, contents, said) in [
        ("a.shore", &bytes[..], "damaged: the checksum of"),
        ("b.shore", &bytes[..middle], "bytes, of"),
        ("c.shore", b"", "not a shore file"),
        ("d.fgb", b"fgb\x03fgb\x00", "cut short: the head at byte 8"),
        ("e.fgb", b"x", "not FlatGeobuf"),
        ("f.geojson", b"{\"type\": \"Polygon\"", "f.geojson:1:18: not GeoJSON"),
    ] {
        fs::write(home.path(name), contents).unwrap();
        let error = home.open(name).unwrap_err().to_string();
        assert!(error.contains(said), "{name}: {error}");
    }
}

#[test]
fn a_chart_takes_its_part_of_a_flatgeobuf_beside_it() {
    let home = Home::new();
    let imported = import_coast(&home.path("isle.geojson"), &mut go_on).unwrap();
    let mut patient = || ControlFlow::Continue(());
    save_coast(&home.path("isle.fgb"), &imported, Overwrite::No, &mut patient).unwrap();
    let chart = r#"(version: 1, title: "Nowhere", grid: Named("UTM:25N"),
        extent: (south_west: (500000, 5700000), north_east: (530000, 5722000)), shore: File("isle.fgb"))"#;
    fs::write(home.path("chart.ron"), chart).unwrap();
    let opened = home.open("chart.ron").unwrap();
    assert_eq!((opened.chart.land.len(), opened.coast.lines().len()), (1, 1));
    assert_eq!(opened.chart.land[0].name, "Square");
}

#[test]
fn a_wrong_index_beside_a_chart_is_found_by_a_check() {
    let home = Home::new();
    let imported = import_coast(&home.path("isle.geojson"), &mut go_on).unwrap();
    let mut patient = || ControlFlow::Continue(());
    save_coast(&home.path("isle.fgb"), &imported, Overwrite::No, &mut patient).unwrap();
    let mut bytes = fs::read(home.path("isle.fgb")).unwrap();
    // The root of the index follows the head, whose size is at byte 8; its child is its fifth word.
    let head = u32::from_le_bytes(bytes[8..12].try_into().unwrap()) as usize;
    bytes[12 + head + 32] = 9;
    fs::write(home.path("isle.fgb"), bytes).unwrap();
    let chart = r#"(version: 1, title: "Nowhere", grid: Named("UTM:25N"),
        extent: (south_west: (500000, 5700000), north_east: (530000, 5722000)), shore: File("isle.fgb"))"#;
    fs::write(home.path("chart.ron"), chart).unwrap();
    assert_eq!(home.open("chart.ron").unwrap().chart.land.len(), 1);
    let found = crate::check_chart(&home.path("chart.ron")).unwrap();
    let said = found.first().map(ToString::to_string).unwrap_or_default();
    assert!(
        said.ends_with(
            "its index is wrong, and the whole file was read: node 0 points to 9, not 1"
        ),
        "{said}"
    );
}

#[test]
fn a_ring_that_crosses_itself_is_told() {
    let home = Home::new();
    let ring = "[[-32.9, 51.5], [-32.88, 51.51], [-32.88, 51.5], [-32.9, 51.51], [-32.9, 51.5]]";
    let text = format!(r#"{{"type": "Polygon", "coordinates": [{ring}]}}"#);
    fs::write(home.path("tie.geojson"), text).unwrap();
    let told = |name| rings_that_cross_themselves(&home.open(name).unwrap().coast);
    let said = told("tie.geojson").unwrap_or_default();
    assert!(said.starts_with("1 ring crosses itself at [-32.89"), "{said}");
    assert!(said.ends_with("; it is measured as it is given"), "{said}");
    assert_eq!(told("isle.geojson"), None);
}
