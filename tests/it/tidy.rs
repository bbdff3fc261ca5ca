//! The house rules, held by tests: who may depend on what, what the pure crates may not touch,
//! and what every source file looks like.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The crates from the lowest layer up, each with the layers it may stand on.
const LAYERS: &[(&str, &[&str])] = &[
    ("nav", &[]),
    ("chart", &["nav"]),
    ("plan", &["nav", "chart"]),
    ("paper", &["nav", "chart", "plan"]),
    ("practice", &["nav", "chart", "plan"]),
    ("files", &["nav", "chart", "plan", "paper", "practice"]),
    ("cli", &["nav", "chart", "plan", "paper", "practice", "files"]),
    ("tui", &["nav", "chart", "plan", "paper", "practice", "files"]),
];

/// Crates that do no I/O and read neither clock nor environment.
const PURE: &[&str] = &["nav", "chart", "plan", "paper", "practice"];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every Rust file below `folder`, in a stable order.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut todo = vec![folder.to_path_buf()];
    while let Some(folder) = todo.pop() {
        for entry in fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                todo.push(path);
            } else if path.extension().is_some_and(|e| e == "rs") {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// The code of a file up to its tests and without comment lines, with line numbers.
fn code(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines()
        .enumerate()
        .take_while(|(_, line)| !line.contains("#[cfg(test)]"))
        .filter(|(_, line)| !line.trim_start().starts_with("//"))
        .map(|(index, line)| (index + 1, line))
}

fn is_test(path: &Path) -> bool {
    let name = path.to_string_lossy();
    name.ends_with("tests.rs") || name.contains("/tests/")
}

/// Every line of code in `folders` that holds one of `words`, as `file:line: code`.
fn offenders(folders: &[PathBuf], words: &[&str], except: &str) -> Vec<String> {
    let mut found = Vec::new();
    for path in folders.iter().flat_map(|folder| sources(folder)) {
        let shown = path.strip_prefix(root()).unwrap().to_string_lossy().into_owned();
        if is_test(&path) || (!except.is_empty() && shown.starts_with(except)) {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap();
        for (number, line) in code(&text) {
            if words.iter().any(|word| line.contains(word)) {
                found.push(format!("{shown}:{number}: {}", line.trim()));
            }
        }
    }
    found
}

/// The packages that a build for this machine links, as cargo knows them.
fn metadata() -> serde_json::Value {
    let rustc = Command::new("rustc").arg("-vV").output().unwrap();
    let version = String::from_utf8(rustc.stdout).unwrap();
    let host = version.lines().find_map(|line| line.strip_prefix("host: ")).unwrap();
    let out = Command::new(env!("CARGO"))
        .args(["metadata", "--offline", "--locked", "--format-version", "1"])
        .args(["--filter-platform", host])
        .current_dir(root())
        .output()
        .unwrap();
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    serde_json::from_slice(&out.stdout).unwrap()
}

#[test]
fn arrows_between_crates_never_run_back() {
    for (name, may) in LAYERS {
        let manifest =
            fs::read_to_string(root().join("src").join(name).join("Cargo.toml")).unwrap();
        let dependencies = manifest.split("[dependencies]").nth(1).unwrap();
        for (other, _) in LAYERS {
            let stands_on = dependencies.lines().any(|l| l.starts_with(&format!("{other}.")));
            assert!(
                !stands_on || may.contains(other),
                "`{name}` must not depend on `{other}`: allowed are {may:?}"
            );
        }
    }
}

#[test]
fn the_pure_crates_touch_nothing_outside_themselves() {
    let folders: Vec<_> = PURE.iter().map(|name| root().join("src").join(name)).collect();
    let words = [
        "std::fs",
        "std::env",
        "std::net",
        "std::process",
        "std::thread",
        "SystemTime",
        "Instant::now",
        "Timestamp::now",
        "Zoned::now",
        "stdin()",
        "stdout()",
        "stderr()",
        "println!",
        "eprintln!",
        "TimeZone::system",
        "static mut",
    ];
    let generator = "src/nav/grid/pack_ostn15.rs";
    assert_eq!(offenders(&folders, &words, generator), Vec::<String>::new());
}

#[test]
fn the_terminal_is_named_in_the_runtime_only() {
    let folder = root().join("src");
    let found = offenders(&[folder], &["crossterm"], "src/tui/runtime");
    assert_eq!(found, Vec::<String>::new());
}

#[test]
fn nothing_is_promised_to_be_safe() {
    let found: Vec<_> = offenders(&[root().join("src")], &["safe", "Safe"], "")
        .into_iter()
        .filter(|line| line.contains('"'))
        .collect();
    assert_eq!(found, Vec::<String>::new());
}

#[test]
fn every_source_file_says_what_it_is_and_stays_short() {
    for path in sources(&root().join("src")).into_iter().chain(sources(&root().join("tests"))) {
        let text = fs::read_to_string(&path).unwrap();
        let shown = path.strip_prefix(root()).unwrap().display();
        assert!(
            text.starts_with("//!") || text.starts_with("#![doc"),
            "{shown} does not begin with what it is (`//!`)"
        );
        let table = text.lines().take(12).any(|line| line.contains("Data table"));
        let lines = text.lines().count();
        assert!(table || lines <= 800, "{shown} has {lines} lines; 800 is the most");
    }
}

#[test]
fn the_licences_of_all_that_is_linked_are_permissive() {
    const ALLOWED: &[&str] = &[
        "MIT",
        "Apache-2.0",
        "BSD-2-Clause",
        "BSD-3-Clause",
        "Zlib",
        "Unicode-3.0",
        "0BSD",
        "Unlicense",
        "BSL-1.0",
        "ISC",
    ];
    for package in metadata()["packages"].as_array().unwrap() {
        let licence = package["license"].as_str().unwrap_or_else(|| named_by_its_text(package));
        // `A OR B` needs one that is allowed, `A AND B` all of them.
        let fits = licence.replace(['(', ')'], "").split(" AND ").all(|part| {
            part.replace('/', " OR ")
                .split(" OR ")
                .any(|one| ALLOWED.contains(&one.trim().split(" WITH ").next().unwrap_or("")))
        });
        assert!(fits, "{} has the licence `{licence}`", package["name"]);
    }
}

/// The licence of a package that gives its text alone, if it is one that we know by its words.
fn named_by_its_text(package: &serde_json::Value) -> &'static str {
    let text = package["license_file"].as_str().and_then(|file| {
        let manifest = Path::new(package["manifest_path"].as_str()?);
        fs::read_to_string(manifest.parent()?.join(file)).ok()
    });
    let words: Vec<_> = text.as_deref().unwrap_or("").split_whitespace().collect();
    let granted = "Permission is hereby granted, free of charge, to any person obtaining a copy";
    if words.starts_with(&["MIT", "License"]) && words.join(" ").contains(granted) {
        return "MIT";
    }
    ""
}

#[test]
fn every_dependency_is_justified_in_the_guide() {
    let guide = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let table = guide.split("## Dependencies").nth(1).unwrap().split("\n## ").next().unwrap();
    let rows = table.lines().filter_map(|row| row.strip_prefix("| `")?.split('`').next());
    let justified: BTreeSet<&str> = rows.collect();
    let manifest = fs::read_to_string(root().join("Cargo.toml")).unwrap();
    let shared = manifest.split("[workspace.dependencies]").nth(1).unwrap();
    let shared = shared.split("\n[").next().unwrap().lines();
    let shared = shared.filter(|line| line.contains('=') && !line.contains("path ="));
    let taken: BTreeSet<&str> = shared.filter_map(|line| line.split(' ').next()).collect();
    assert_eq!(justified, taken, "the guide's table, and what the manifest takes");
}

#[test]
fn no_snapshot_waits_for_a_decision() {
    let waiting: Vec<_> = fs::read_dir(root().join("snapshots"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .filter(|name| name.ends_with(".snap.new"))
        .collect();
    assert_eq!(waiting, Vec::<String>::new());
}
