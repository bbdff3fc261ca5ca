//! Two who want one route.

use std::env;
use std::io::BufRead;
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};

use super::*;

#[test]
fn the_second_is_told_who_was_first_and_may_write_after() {
    let folder = tempfile::tempdir().unwrap();
    let route = folder.path().join("a.ron");
    let Lock::Held(first) = RouteLock::take(&route) else { panic!("the first holds it") };
    let Lock::Busy(holder) = RouteLock::take(&route) else { panic!("the second does not") };
    assert_eq!(holder.process, Some(std::process::id()));
    let told = holder.to_string();
    assert!(told.starts_with("open in another Strandline, process "), "{told}");
    assert!(told.ends_with(" UTC"), "{told}");
    drop(first);
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0, "the lock file is gone");
    assert!(matches!(RouteLock::take(&route), Lock::Held(_)));
}

#[test]
fn what_a_crash_left_behind_is_taken_over() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join(".a.ron.lock"), "999999 2026-01-01T00:00:00Z and so on").unwrap();
    let Lock::Held(lock) = RouteLock::take(&folder.path().join("a.ron")) else {
        panic!("no lock is on it")
    };
    let said = fs::read_to_string(&lock.path).unwrap();
    assert!(said.starts_with(&std::process::id().to_string()) && !said.contains("so on"));
}

#[test]
fn where_no_lock_can_be_kept_it_says_so() {
    let nowhere = Path::new("no/such/folder/a.ron");
    assert!(matches!(RouteLock::take(nowhere), Lock::Impossible(_)));
}

#[cfg(unix)]
#[test]
fn two_names_of_one_file_have_one_lock() {
    let folder = tempfile::tempdir().unwrap();
    let link = folder.path().join("b.ron");
    std::os::unix::fs::symlink("a.ron", &link).unwrap();
    let first = RouteLock::take(&folder.path().join("a.ron"));
    assert!(matches!(first, Lock::Held(_)));
    assert!(matches!(RouteLock::take(&link), Lock::Busy(_)));
}

/// Where the second process of the test below finds its route.
const ROUTE: &str = "STRANDLINE_TEST_ROUTE";

#[test]
fn a_lock_is_seen_by_other_processes_and_goes_with_its_own() {
    let folder = tempfile::tempdir().unwrap();
    let route = folder.path().join("a.ron");
    let mut other = Command::new(env::current_exe().unwrap())
        .args(["--exact", "lock::tests::holds_a_lock_until_killed", "--nocapture"])
        .env(ROUTE, &route)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut lines = io::BufReader::new(other.stdout.take().unwrap()).lines();
    assert!(lines.any(|line| line.unwrap().ends_with("held")));
    let Lock::Busy(holder) = RouteLock::take(&route) else { panic!("the other holds it") };
    assert_eq!(holder.process, Some(other.id()));
    other.kill().unwrap();
    other.wait().unwrap();
    assert!(folder.path().join(".a.ron.lock").exists(), "killed, it left its file behind");
    assert!(matches!(RouteLock::take(&route), Lock::Held(_)));
}

/// The second process of the test above; run among the others it does nothing.
#[test]
fn holds_a_lock_until_killed() {
    let Some(route) = env::var_os(ROUTE) else { return };
    let lock = RouteLock::take(Path::new(&route));
    assert!(matches!(lock, Lock::Held(_)));
    writeln!(io::stdout(), "held").unwrap();
    // The input stays open until this process is killed, or the other one dies.
    let _ = io::stdin().read(&mut [0]);
}

#[cfg(unix)]
#[test]
fn a_lock_on_a_file_that_the_holder_before_removed_is_none() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join(".a.ron.lock");
    let opened_in_time = open(&path).unwrap();
    fs::remove_file(&path).unwrap();
    assert!(claim(opened_in_time, &path).unwrap().is_none());
    let opened_in_time = open(&path).unwrap();
    fs::remove_file(&path).unwrap();
    fs::write(&path, "").unwrap();
    assert!(claim(opened_in_time, &path).unwrap().is_none());
}

#[test]
fn there_is_never_more_than_one_holder() {
    let folder = tempfile::tempdir().unwrap();
    let route = folder.path().join("a.ron");
    let (holders, turns) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let compete = || {
        for _ in 0..300 {
            if let Lock::Held(_lock) = RouteLock::take(&route) {
                assert_eq!(holders.fetch_add(1, Ordering::SeqCst), 0);
                turns.fetch_add(1, Ordering::SeqCst);
                holders.fetch_sub(1, Ordering::SeqCst);
            }
        }
    };
    std::thread::scope(|scope| (0..4).for_each(|_| drop(scope.spawn(compete))));
    assert!(turns.into_inner() > 0);
}
