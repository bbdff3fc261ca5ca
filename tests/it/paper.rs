//! What the real program puts on paper: where it goes, and what is left when it has no room.

use std::fs;
use std::process::{Command, Output};

use crate::driver::Home;

const ROUTE: &str = "day.ron";

/// A folder with the demonstration in it.
fn home() -> Home {
    let home = Home::new();
    let route = plan::demonstration().unwrap();
    files::save_route(&home.path().join(ROUTE), &route).unwrap();
    home
}

/// The names in the folder, hidden ones too.
fn names(home: &Home) -> Vec<String> {
    let entries = fs::read_dir(home.path()).unwrap().map(|entry| entry.unwrap());
    let files = entries.filter(|entry| entry.file_type().unwrap().is_file());
    let mut names: Vec<String> =
        files.map(|entry| entry.file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

/// A shell's line in the folder, in which `strandline` is the program.
fn shell(home: &Home, line: &str) -> Output {
    let program = env!("CARGO_BIN_EXE_strandline");
    let line = line.replace("strandline", program);
    let known = home.program();
    let known = known.get_envs().filter_map(|(name, value)| Some((name, value?)));
    let mut bash = Command::new("bash");
    bash.args(["-c", &line]).env_clear().envs(known).current_dir(home.path());
    bash.output().unwrap()
}

/// Exit 2 with one line on standard error, which is given.
fn refused(out: &Output) -> String {
    let said = String::from_utf8_lossy(&out.stderr).into_owned();
    assert_eq!(out.status.code(), Some(2), "{said}");
    assert_eq!(said.lines().count(), 1, "{said}");
    said
}

/// A disk on which no file has room for more than some blocks of 1024 bytes.
const FULL: &str = "trap '' XFSZ; ulimit -f 8; ";

#[test]
fn a_full_disk_leaves_nothing_half_written() {
    let home = home();
    let out = shell(&home, &format!("{FULL} strandline card {ROUTE} --sides 2 -o card.pdf"));
    let said = refused(&out);
    assert!(said.starts_with("card.pdf: cannot be saved, and is as it was: "), "{said}");
    assert_eq!(names(&home), [ROUTE]);
    let out = shell(&home, &format!("{FULL} strandline card {ROUTE} -o card.svg"));
    assert!(refused(&out).starts_with("card-1.svg: "));
    assert_eq!(names(&home), [ROUTE]);
}

#[test]
fn a_full_disk_leaves_the_old_file_whole() {
    let home = home();
    let card = home.path().join("card.pdf");
    assert!(shell(&home, &format!("strandline card {ROUTE} -o card.pdf")).status.success());
    let old = fs::read(&card).unwrap();
    assert!(old.starts_with(b"%PDF"));
    let line = format!("{FULL} strandline card {ROUTE} --size a4 --force -o card.pdf");
    refused(&shell(&home, &line));
    assert!(fs::read(&card).unwrap() == old);
    assert_eq!(names(&home), ["card.pdf", ROUTE]);
}

#[test]
fn files_that_are_there_are_left_alone_without_force() {
    let home = home();
    fs::write(home.path().join("card.pdf"), "mine").unwrap();
    let out = home.run(&["card", ROUTE, "-o", "card.pdf"]);
    assert_eq!(refused(&out), "card.pdf: is there already; --force overwrites it\n");
    assert_eq!(fs::read_to_string(home.path().join("card.pdf")).unwrap(), "mine");
    let out = home.run(&["card", ROUTE, "-o", "cards/card.pdf"]);
    assert_eq!(
        refused(&out),
        "cards/card.pdf: there is no folder cards; make it first, or name another\n"
    );
    assert_eq!(names(&home), ["card.pdf", ROUTE]);
}

#[cfg(target_os = "linux")]
#[test]
fn a_device_that_is_full_is_told_of_and_stays_a_device() {
    use std::os::unix::fs::FileTypeExt;
    let home = home();
    let full = "No space left on device (os error 28)";
    for format in ["pdf", "svg --page 1", "txt", "md"] {
        let line = format!("strandline card {ROUTE} -o - --format {format} > /dev/full");
        let said = refused(&shell(&home, &line));
        assert!(said.contains(full), "{format}: {said}");
        let line = format!("strandline card {ROUTE} --force -o /dev/full --format {format}");
        let said = refused(&shell(&home, &line));
        assert_eq!(said, format!("/dev/full: cannot be written: {full}\n"));
    }
    assert!(fs::metadata("/dev/full").unwrap().file_type().is_char_device());
    assert_eq!(names(&home), [ROUTE]);
}

#[cfg(unix)]
#[test]
fn pipes_are_written_to_and_a_reader_that_has_gone_is_no_error() {
    let home = home();
    let line = format!(
        "mkfifo pipe; head -c 4 pipe > begin & strandline card {ROUTE} --format pdf -o pipe; \
         echo $?; wait; test -p pipe && cat begin"
    );
    let out = shell(&home, &line);
    assert_eq!(String::from_utf8_lossy(&out.stdout), "0\n%PDF", "{out:?}");
    let line = format!("strandline picture practice {ROUTE} | true; echo ${{PIPESTATUS[0]}}");
    let out = shell(&home, &line);
    assert_eq!((String::from_utf8_lossy(&out.stdout).as_ref(), out.stderr.len()), ("0\n", 0));
}

#[test]
fn the_card_is_one_key_on_the_screen() {
    let home = home();
    let route = home.path().join(ROUTE);
    let chart = home.path().join("chart.ron");
    files::save_chart(&chart, &chart::practice().unwrap(), files::Overwrite::No).unwrap();
    let pdf = |name: &str| fs::read(home.path().join(name)).unwrap();
    let mut terminal = home.terminal((120, 40), &["chart.ron", ROUTE]);
    terminal.wait_for(&["? all"]);
    terminal.keys("C");
    terminal.wait_for(&["card: ", "day.pdf"]);
    let first = pdf("day.pdf");
    assert!(first.starts_with(b"%PDF-1.7") && first.ends_with(b"%%EOF"));
    // The command line's is the same to the byte.
    let out = home.run(&["card", ROUTE, "--chart", "chart.ron", "--format", "pdf"]);
    assert!(out.stdout == first, "{}", String::from_utf8_lossy(&out.stderr));
    // What somebody else put there is left alone, and the next name is taken.
    fs::write(home.path().join("day.pdf"), "mine").unwrap();
    terminal.keys("C");
    terminal.wait_for(&["day-2.pdf"]);
    assert!(pdf("day-2.pdf") == first && pdf("day.pdf") == b"mine");
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    assert_eq!(files::open_route(&route).unwrap(), plan::demonstration().unwrap());
}
