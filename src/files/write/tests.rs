//! Files written whole or not at all.

use super::*;

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// The last two steps, without what is looked at before.
fn replaced(path: &Path, contents: &[u8], overwrite: Overwrite) -> io::Result<()> {
    Beside::written(path.to_owned(), |new| new.write_all(contents))?.put(overwrite)
}

#[test]
fn a_file_is_made_and_replaced_and_nothing_else_lies_about() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.ron");
    save_text(&path, "one", Overwrite::No).unwrap();
    save_text(&path, "two", Overwrite::Yes).unwrap();
    assert_eq!(fs::read_to_string(&path).unwrap(), "two");
    let error = save_text(&path, "three", Overwrite::No).unwrap_err();
    assert!(error.to_string().ends_with("a.ron: is there already; --force overwrites it"));
    assert!(replaced(&path, b"three", Overwrite::No).is_err(), "even if it came just now");
    assert_eq!(fs::read_to_string(&path).unwrap(), "two");
    assert_eq!(names(folder.path()), ["a.ron"]);
}

#[test]
fn a_failure_on_the_way_leaves_the_old_file_whole() {
    let folder = tempfile::tempdir().unwrap();
    // The last step fails: a folder that is not empty stands where the file should go.
    let path = folder.path().join("a.ron");
    fs::create_dir(&path).unwrap();
    fs::write(path.join("x"), "old").unwrap();
    assert!(replaced(&path, b"new", Overwrite::Yes).is_err());
    assert_eq!(fs::read_to_string(path.join("x")).unwrap(), "old");
    assert_eq!(names(folder.path()), ["a.ron"]);
    // The first step fails.
    let nowhere = folder.path().join("no/a.ron");
    let error = save_text(&nowhere, "new", Overwrite::Yes).unwrap_err();
    assert!(error.to_string().ends_with("/no; make it first, or name another"), "{error}");
}

#[test]
fn a_file_that_is_marked_read_only_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.ron");
    fs::write(&path, "old").unwrap();
    let mut permissions = fs::metadata(&path).unwrap().permissions();
    permissions.set_readonly(true);
    fs::set_permissions(&path, permissions).unwrap();
    let error = save_text(&path, "new", Overwrite::Yes).unwrap_err();
    assert!(error.to_string().ends_with(
        "a.ron: is marked read-only, and is as it was; to save here, allow writing first"
    ));
    assert_eq!(fs::read_to_string(&path).unwrap(), "old");
}

#[cfg(unix)]
#[test]
fn permissions_are_kept_and_links_followed() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.ron");
    fs::write(&path, "old").unwrap();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    let link = folder.path().join("link.ron");
    symlink("a.ron", &link).unwrap();
    save_text(&link, "new", Overwrite::Yes).unwrap();
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(fs::read_to_string(&path).unwrap(), "new");
    assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
    // A link to a file that is not there yet makes it.
    let hope = folder.path().join("hope.ron");
    symlink("b.ron", &hope).unwrap();
    save_text(&hope, "new", Overwrite::Yes).unwrap();
    assert_eq!(names(folder.path()), ["a.ron", "b.ron", "hope.ron", "link.ron"]);
}

#[test]
fn files_that_belong_together_are_all_saved_or_none_is() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name);
    let pages = |words: &str| {
        ["1", "2", "3"]
            .map(|n| (path(&format!("card-{n}.svg")), format!("{words} {n}").into_bytes()))
    };
    save_all(&pages("new"), Overwrite::No).unwrap();
    assert_eq!(fs::read_to_string(path("card-3.svg")).unwrap(), "new 3");
    // The second is there already: the first, which went its way before, is not left behind.
    fs::remove_file(path("card-1.svg")).unwrap();
    let error = save_all(&pages("newer"), Overwrite::No).unwrap_err();
    assert!(error.to_string().ends_with("card-2.svg: is there already; --force overwrites it"));
    assert_eq!(names(folder.path()), ["card-2.svg", "card-3.svg"]);
    save_all(&pages("newest"), Overwrite::Yes).unwrap();
    assert_eq!(fs::read_to_string(path("card-2.svg")).unwrap(), "newest 2");
    // The last of them cannot be written.
    let mut more = pages("never").to_vec();
    more.push((path("no/card-4.svg"), Vec::new()));
    assert!(save_all(&more, Overwrite::Yes).is_err());
    assert_eq!(fs::read_to_string(path("card-1.svg")).unwrap(), "newest 1");
    assert_eq!(names(folder.path()), ["card-1.svg", "card-2.svg", "card-3.svg"]);
}

#[cfg(target_os = "linux")]
#[test]
fn a_device_is_written_to_and_stays_what_it_is() {
    use std::os::unix::fs::FileTypeExt;
    let is_device = |path: &str| fs::metadata(path).unwrap().file_type().is_char_device();
    save_bytes(Path::new("/dev/null"), b"words", Overwrite::No).unwrap();
    save_bytes(Path::new("/dev/null"), b"words", Overwrite::Yes).unwrap();
    let error = save_bytes(Path::new("/dev/full"), b"words", Overwrite::Yes).unwrap_err();
    assert_eq!(
        error.to_string(),
        "/dev/full: cannot be written: No space left on device (os error 28)"
    );
    assert!(is_device("/dev/null") && is_device("/dev/full"));
}

#[test]
fn what_an_interrupt_left_is_cleared_away_and_nothing_else_is() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("day.ron");
    let old = std::time::SystemTime::now() - std::time::Duration::from_secs(3600);
    let left = |name: &str| {
        let file = File::create(folder.path().join(name)).unwrap();
        file.set_modified(old).unwrap();
        file
    };
    // Of this file; of another; of no such form; one that is being written, which is locked; one just begun.
    drop(left(".day.ron.aB3xY9.new"));
    for other in
        [".night.ron.aB3xY9.new", ".day.ron.mine.new", "day.ron.aB3xY9.new", ".day.ron.aB3xY9.old"]
    {
        drop(left(other));
    }
    let written = left(".day.ron.locked.new");
    written.try_lock().unwrap();
    drop(File::create(folder.path().join(".day.ron.young1.new")).unwrap());
    replaced(&path, b"new", Overwrite::Yes).unwrap();
    assert_eq!(
        names(folder.path()),
        [
            ".day.ron.aB3xY9.old",
            ".day.ron.locked.new",
            ".day.ron.mine.new",
            ".day.ron.young1.new",
            ".night.ron.aB3xY9.new",
            "day.ron",
            "day.ron.aB3xY9.new",
        ]
    );
    drop(written);
    replaced(&path, b"newer", Overwrite::Yes).unwrap();
    assert!(!names(folder.path()).contains(&".day.ron.locked.new".to_owned()));
}

#[test]
fn a_file_that_is_being_written_is_locked() {
    let folder = tempfile::tempdir().unwrap();
    let new = beside(&folder.path().join("day.ron"), folder.path()).unwrap();
    let other = File::open(new.path()).unwrap();
    assert!(other.try_lock().is_err());
}
