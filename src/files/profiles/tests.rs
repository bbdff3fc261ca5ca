//! Trips kept on the disk.

use jiff::SignedDuration;
use jiff::civil::date;
use nav::{Length, Speed};

use super::*;

fn folders(home: &std::path::Path) -> Folders {
    let folder = |name| home.join(name);
    Folders {
        data: folder("data"),
        state: folder("state"),
        config: folder("config"),
        cache: folder("cache"),
    }
}

fn trip(day: i8) -> Trip {
    let date = date(2026, 6, day);
    Trip {
        date,
        began: date.at(8, 0, 0, 0).to_zoned_datetime(jiff::tz::TimeZone::UTC).unwrap().timestamp(),
        title: String::new(),
        moving: SignedDuration::from_hours(2),
        distance: 9_000.0 * Length::METRE,
        over_ground: Speed::from_knots(2.43).unwrap(),
        through_water: None,
        wind: None,
    }
}

#[test]
fn trips_are_added_and_none_is_lost() {
    let home = tempfile::tempdir().unwrap();
    let folders = folders(home.path());
    assert_eq!(open_profiles(&folders).unwrap(), []);
    keep_trip(&folders, "Club", trip(1)).unwrap();
    keep_trip(&folders, "club", trip(2)).unwrap();
    keep_trip(&folders, "Others", trip(1)).unwrap();
    let kept = open_profiles(&folders).unwrap();
    assert_eq!(kept.iter().map(|it| it.trips().len()).collect::<Vec<_>>(), [2, 1]);
    let before = fs::read_to_string(folders.profiles()).unwrap();
    let twice = keep_trip(&folders, "Club", trip(2)).unwrap_err();
    assert!(twice.to_string().contains("has this trip already"), "{twice}");
    assert!(keep_trip(&folders, "3 kn", trip(3)).is_err());
    assert_eq!(fs::read_to_string(folders.profiles()).unwrap(), before);
    let names = fs::read_dir(&folders.data).unwrap().count();
    assert_eq!(names, 1, "nothing lies about");
}

#[test]
fn programs_that_keep_at_once_lose_nothing() {
    let home = tempfile::tempdir().unwrap();
    let folders = folders(home.path());
    thread::scope(|scope| {
        for day in 1..=6 {
            let folders = &folders;
            scope.spawn(move || keep_trip(folders, "Club", trip(day)).unwrap());
        }
    });
    assert_eq!(open_profiles(&folders).unwrap()[0].trips().len(), 6);
}

#[test]
fn a_broken_file_is_left_alone_and_its_place_named() {
    let home = tempfile::tempdir().unwrap();
    let folders = folders(home.path());
    fs::create_dir_all(&folders.data).unwrap();
    let broken = "(version: 1,\n profiles: [(nam: 1)])";
    fs::write(folders.profiles(), broken).unwrap();
    let error = keep_trip(&folders, "Club", trip(1)).unwrap_err().to_string();
    assert!(error.contains("profiles.ron:2:"), "{error}");
    assert_eq!(fs::read_to_string(folders.profiles()).unwrap(), broken);
}
