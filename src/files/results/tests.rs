//! Results kept on the disk.

use std::thread;

use jiff::Timestamp;
use practice::memory::Outcome;
use practice::{Kind, Level};

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

fn answered(seed: u64) -> Answered {
    Answered {
        when: Timestamp::UNIX_EPOCH,
        kind: Kind::Back,
        level: Level::First,
        seed,
        chart: "Hollow Sound".to_owned(),
        outcome: Outcome::Right,
        hints: 0,
        off: String::new(),
        mistake: None,
        seconds: 9,
        set: String::new(),
        learner: String::new(),
    }
}

#[test]
fn results_are_added_and_none_is_lost() {
    let home = tempfile::tempdir().unwrap();
    let folders = folders(home.path());
    assert_eq!(open_results(&folders).unwrap(), Record::default());
    thread::scope(|scope| {
        for seed in 1..=6 {
            let folders = &folders;
            scope.spawn(move || keep_result(folders, answered(seed)).unwrap());
        }
    });
    let kept = open_results(&folders).unwrap();
    let mut seeds: Vec<u64> = kept.answered().iter().map(|it| it.seed).collect();
    seeds.sort_unstable();
    assert_eq!(seeds, [1, 2, 3, 4, 5, 6]);
    assert_eq!(fs::read_dir(&folders.data).unwrap().count(), 1, "nothing lies about");
}

#[test]
fn a_record_that_cannot_be_read_is_left_alone() {
    let home = tempfile::tempdir().unwrap();
    let folders = folders(home.path());
    keep_result(&folders, answered(1)).unwrap();
    let torn = fs::read_to_string(folders.results()).unwrap() + "1,2026-06-14T0";
    fs::write(folders.results(), &torn).unwrap();
    let error = keep_result(&folders, answered(2)).unwrap_err().to_string();
    assert!(error.ends_with("results.csv:3:1: this line has 2 cells; a result has 11: version,when,kind,level,seed,chart,outcome,hints,off,mistake,seconds"), "{error}");
    assert_eq!(fs::read_to_string(folders.results()).unwrap(), torn);
}
