//! Drills, lines in and lines out.

use std::fs;
use std::path::Path;

use clap::Parser;
use files::Folders;
use insta::assert_snapshot;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use practice::memory::{self, Answered, Outcome, Record};
use practice::{Kind, Level, MistakeKind};
use rstest::rstest;
use serde_json::Value;

use super::run_in;
use crate::testing::run;
use crate::{Cli, Command, Exit, Io};

/// Where a home has what is kept.
fn folders(home: &Path) -> Folders {
    let folder = |name| home.join(name);
    let (data, state) = (folder("data"), folder("state"));
    Folders { data, state, config: folder("config"), cache: folder("cache") }
}

/// A drill with its record in this folder, or without one: what it said, and what it said of errors.
fn held(arguments: &str, input: &str, home: Option<&Path>) -> (String, String) {
    let all = ["strandline", "drill"].into_iter();
    let all = all.chain(arguments.split(' ').filter(|argument| !argument.is_empty()));
    let Some(Command::Drill(args)) = Cli::try_parse_from(all).unwrap().command else {
        panic!("no drill")
    };
    let folders = home.map(folders);
    let (mut input, mut output, mut errors) = (input.as_bytes(), Vec::new(), Vec::new());
    let io = &mut Io {
        input: &mut input,
        output: &mut output,
        errors: &mut errors,
        terminal: false,
        to_terminal: false,
        manual: &[],
    };
    assert_eq!(run_in(args, folders, io).unwrap(), Exit::Done);
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (text(output), text(errors))
}

fn drill(arguments: &str, input: &str) -> String {
    let (output, errors) = held(arguments, input, None);
    assert_eq!(errors, "");
    for line in output.lines().filter(|line| !line.starts_with(['{', ' '])) {
        assert!(line.chars().count() <= 80, "{line}");
    }
    output
}

#[test]
fn the_kinds_are_listed() {
    assert_snapshot!(drill("--list", ""));
}

#[test]
fn a_drill_is_held() {
    let typed = "?\n?\n?\nhalf past\n330 M\n\n110\n230 M\nq\n";
    assert_snapshot!(drill("back --seed 7", typed));
}

#[test]
fn a_drill_of_all_kinds_is_held() {
    let typed =
        "008\n96 M\nQB 542 814\n1.6 kn\na\n\n40 min\n49 24.1N 28 33.1W\n301\nwb\n4\n?\n270\n";
    assert_snapshot!(drill("mixed --seed 12 --count 12 --level 2", typed));
}

#[test]
fn a_paper_has_its_answers_at_the_end() {
    assert_snapshot!(drill("mixed --seed 3 --count 22 --level 3 --answers", ""));
}

#[test]
fn nobody_is_there_to_answer() {
    let said = drill("time --seed 1 --count 3", "");
    assert_eq!(said.matches(" of 3 · ").count(), 3);
    assert!(said.ends_with("no such place exists.\n"), "{said}");
    assert!(!said.contains("right"), "{said}");
}

#[test]
fn json_has_the_answers_apart() {
    let said = drill("mixed --seed 7 --count 22 --json", "");
    let document: Value = serde_json::from_str(&said).unwrap();
    let list = |name: &str| document[name].as_array().unwrap().clone();
    assert_eq!((list("questions").len(), list("answers").len()), (22, 22));
    for (question, answer) in list("questions").iter().zip(list("answers")) {
        assert_eq!(question["number"], answer["number"]);
        assert!(question.get("answer").is_none() && answer["answer"].is_string());
    }
    assert_eq!(document["invented"], true);
    assert_eq!(said, drill("mixed --seed 7 --count 22 --json", ""));
}

#[test]
fn what_has_no_place_on_the_chart_is_drawn_in_text() {
    let said = drill("twelfths --seed 1 --count 2", "99 m\n\n");
    let drawn = said.split("\n1 of 2").nth(1).unwrap().split("\n2 of 2").collect::<Vec<_>>();
    assert!(drawn[0].contains("└───") && drawn[0].contains("◎ right  ⊗ yours\n"), "{said}");
    assert!(drawn[1].contains("└───") && drawn[1].contains("◎ right\n"), "{said}");
    assert!(!drill("back --seed 7 --count 1", "\n").contains('◎'));
}

#[test]
fn what_is_typed_cannot_command_the_terminal() {
    let said = drill("time --seed 1 --count 1", "\u{1b}[2J\u{202e}\n");
    assert!(!said.contains(['\u{1b}', '\u{202e}']), "{said:?}");
}

#[test]
fn a_chart_that_has_not_what_it_takes_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bare.ron");
    let bare = r#"(version: 1, title: "Bare", invented: true, grid: Named("UTM:25N"),
        extent: (south_west: (500000, 5200000), north_east: (501000, 5201000)), shore: Here([]))"#;
    fs::write(&path, bare).unwrap();
    let path = path.to_str().unwrap();
    let said = run(["drill", "reference", "--chart", path], "");
    assert_eq!(said.exit, Exit::Bad);
    assert_eq!(
        said.errors,
        "the chart “Bare” has not what it takes to ask for the six-figure reference of a mark; take another \
         chart or kind\n"
    );
    // What needs no chart is asked all the same.
    let said = drill(&format!("mixed --chart {path} --count 8 --seed 1"), "");
    assert_eq!(said.matches(" of 8 · ").count(), 8);
}

#[rstest]
#[case("drill --seed 7", "required")]
#[case("drill --minutes 5 --count 3", "cannot be used with")]
#[case("drill progress --level 2", "unexpected")]
#[case("drill nothing", "“nothing” is no kind of exercise; there is reference, find,")]
#[case("drill time --level 4", "“4” is no level; it is 1, 2 or 3")]
#[case("drill time --count 0", "0 is not in 1..=1000")]
fn what_is_asked_for_wrongly_is_told(#[case] line: &str, #[case] said: &str) {
    let all = ["strandline"].into_iter().chain(line.split(' '));
    let error = <crate::Cli as clap::Parser>::try_parse_from(all).unwrap_err().to_string();
    assert!(error.contains(said), "{error}");
}

#[test]
fn a_session_is_kept_left_and_taken_up_again() {
    let home = tempfile::tempdir().unwrap();
    let home = Some(home.path());
    // Ten questions in two goes: what is left with q is the first of the next.
    let (first, errors) = held("", "?\n\nXX 123 456\n\n\n\nq\n", home);
    assert_eq!(errors, "");
    assert!(first.starts_with("Practice: what is due, 10 min, on"), "{first}");
    let questions = |said: &str| -> Vec<String> {
        let mut found: Vec<String> = Vec::new();
        for line in said.lines() {
            let begins = line.starts_with(|letter: char| letter.is_ascii_digit());
            match found.last_mut() {
                _ if begins && line.contains(" · ") => found.push(String::new()),
                Some(question) => *question += &format!("{line}\n"),
                None => {}
            }
        }
        found
    };
    let text = |it: &str| it.split("\n>").next().unwrap().to_owned();
    let left = questions(&first).last().unwrap().clone();
    let (second, _) = held("--count 6", "\n\n\n\n\n\n", home);
    assert_eq!(text(&left), text(&questions(&second)[0]));
    let (csv, _) = held("export", "", home);
    let record = memory::read(&csv).unwrap();
    let asked = questions(&first).len() - 1 + 6;
    assert_eq!(record.answered().len(), asked, "{csv}");
    assert_eq!(record.answered()[0].hints, 1);
    // Nothing is kept where nothing is to be.
    held("--count 2 --no-record", "\n\n", home);
    held("back --count 1 --seed 7", "\n", home);
    let (after, _) = held("export", "", home);
    assert_eq!(memory::read(&after).unwrap().answered().len(), asked + 1);
}

#[test]
fn a_session_by_the_schedule() {
    assert_snapshot!(drill("--count 4", "?\n\n123\n\n\n\n\n"));
}

#[test]
fn a_record_that_cannot_be_read_ends_it_before_it_begins() {
    let home = tempfile::tempdir().unwrap();
    fs::create_dir(home.path().join("data")).unwrap();
    fs::write(home.path().join("data/results.csv"), "nothing\n").unwrap();
    let folder = |name| home.path().join(name);
    let (data, state) = (folder("data"), folder("state"));
    let folders = Folders { data, state, config: folder("config"), cache: folder("cache") };
    let error = super::Keeper::open(Some(folders)).err().unwrap().to_string();
    assert!(error.contains("results.csv:1:1: a record begins with the line version,"), "{error}");
}

/// Some months of practice: bearings turned the wrong way for a while, the rest ever better.
fn months() -> Record {
    let mut record = Record::default();
    for day in 0..200_i64 {
        let kind = Kind::ALL[(day * 7 % 22) as usize];
        let wrong = (day * day) % 200 > day;
        let answered = Answered {
            when: Timestamp::from_second(1_780_000_000 + 86_400 * day).unwrap(),
            kind: if day > 190 { Kind::ToGrid } else { kind },
            level: Level::First,
            seed: 7,
            chart: "Hollow Sound".to_owned(),
            outcome: if wrong || day > 194 { Outcome::Wrong } else { Outcome::Right },
            hints: 0,
            off: String::new(),
            mistake: (day > 194).then_some(MistakeKind::VariationWrongWay),
            seconds: 40,
            set: String::new(),
            learner: String::new(),
        };
        assert!(record.keep(answered));
    }
    record
}

#[test]
fn a_page_of_progress() {
    let now = Timestamp::from_second(1_780_000_000 + 86_400 * 200).unwrap();
    let zone = TimeZone::UTC;
    let page = |record: &Record, kinds| {
        let mut page = Vec::new();
        super::progress::page(&memory::progress(record, now, &zone), kinds, &mut page).unwrap();
        let page = String::from_utf8(page).unwrap();
        assert!(page.lines().all(|line| line.chars().count() <= 80), "{page}");
        page
    };
    let none = page(&Record::default(), true);
    assert_eq!(none, "Nothing is practised yet; strandline drill begins.\n");
    assert_snapshot!(page(&months(), false));
    assert_snapshot!(page(&months(), true));
}

#[test]
fn progress_as_json() {
    let home = tempfile::tempdir().unwrap();
    held("back --count 2 --seed 7", "1\n\n", Some(home.path()));
    let (said, _) = held("progress --json", "", Some(home.path()));
    let document: Value = serde_json::from_str(&said).unwrap();
    assert_eq!(document["all"]["answered"], 2);
    assert_eq!(document["kinds"][0]["kind"], "back");
    assert_eq!(document["skills"][2]["right"], 0);
}

#[test]
fn a_paper_of_twenty_questions() {
    let paper = drill("paper --questions 20 --seed 7 --answers none", "");
    assert_snapshot!(paper);
    let answers = drill("paper --questions 20 --seed 7 --answers only", "");
    assert_snapshot!(answers);
    assert!(!paper.contains("Worked answers"));
}

#[test]
fn a_paper_is_the_same_again_with_its_answers_apart() {
    let folder = tempfile::tempdir().unwrap();
    let file = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let made = |name: &str| {
        drill_to(&format!("paper --seed 7 --answers apart -o {}", file(name)));
        fs::read(file(name)).unwrap()
    };
    let (one, two) = (made("one.pdf"), made("two.pdf"));
    assert!(one.starts_with(b"%PDF") && one == two);
    let answers = fs::read(file("one-answers.pdf")).unwrap();
    assert!(answers.starts_with(b"%PDF") && answers != one);
    assert!(String::from_utf8(made("one.md")).unwrap().contains("Time allowed: "));
}

fn drill_to(arguments: &str) {
    let (output, errors) = held(arguments, "", None);
    assert_eq!(output, "");
    assert!(errors.starts_with("written: "), "{errors}");
}

/// A folder with a set in it, and the set's path.
fn set_in(folder: &Path, text: &str) -> String {
    let path = folder.join("set.ron");
    fs::write(&path, text).unwrap();
    path.to_str().unwrap().to_owned()
}

const TIMED: &str = r#"(version: 1, title: "Week 3, norths", words: "No notes.", seed: 5, minutes: 10, hints: false,
    parts: [(kinds: ["back"], count: 2, tolerance: Degrees(5)), (kinds: ["reference"], level: 2, count: 1)])"#;

#[test]
fn a_first_set_is_written_looked_at_and_run() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("first.ron").to_str().unwrap().to_owned();
    let (output, errors) = held(&format!("set -o {path}"), "", None);
    assert!(output.is_empty() && errors.starts_with("written: "), "{errors}");
    let (written, _) = held("set", "", None);
    assert_eq!(written, fs::read_to_string(&path).unwrap());
    assert_snapshot!(drill(&format!("--set {path} --answers"), ""));
    let said = drill(&format!("--set {path}"), "");
    assert_eq!(said.matches(" of 14 · ").count(), 14);
    // Everybody is asked the same.
    assert_eq!(said, drill(&format!("--set {path}"), ""));
    let document: Value =
        serde_json::from_str(&drill(&format!("--set {path} --json"), "")).unwrap();
    assert_eq!(
        (&document["set"], &document["minutes"]),
        (&"References and bearings".into(), &40.into())
    );
    assert_eq!(document["answers"].as_array().unwrap().len(), 14);
}

#[test]
fn a_set_is_run_and_handed_in_by_its_title() {
    let folder = tempfile::tempdir().unwrap();
    let path = set_in(folder.path(), TIMED);
    let home = Some(folder.path());
    held("back --count 1 --seed 7", "1\n", home);
    let (said, errors) = held(&format!("--set {path}"), "?\n\n1\nQB 123 456\n", home);
    assert_eq!(errors, "");
    // How long it took is the machine's to say.
    let (took, others): (Vec<&str>, Vec<&str>) =
        said.lines().partition(|line| line.starts_with("It took "));
    assert!(took.len() == 1 && took[0].ends_with(" of 10 min."), "{took:?}");
    assert_snapshot!(others.join("\n"));
    let (all, _) = held("export", "", home);
    assert_eq!(memory::read(&all).unwrap().answered().len(), 4);
    let of_set = |arguments: &str| {
        let arguments = ["drill", "export"].into_iter().chain(arguments.split('|'));
        let all = ["strandline"].into_iter().chain(arguments);
        let Some(Command::Drill(args)) = Cli::try_parse_from(all).unwrap().command else {
            panic!()
        };
        let folder = |name| folder.path().join(name);
        let (data, state) = (folder("data"), folder("state"));
        let folders = Folders { data, state, config: folder("config"), cache: folder("cache") };
        let mut output = Vec::new();
        let io = &mut Io {
            input: &mut "".as_bytes(),
            output: &mut output,
            errors: &mut Vec::new(),
            terminal: false,
            to_terminal: false,
            manual: &[],
        };
        let done = run_in(args, Some(folders), io).map_err(|error| error.to_string());
        done.map(|_| memory::read(&String::from_utf8(output).unwrap()).unwrap())
    };
    let handed = of_set("--set|Week 3, norths|--learner|Signe").unwrap();
    let named = |it: &Answered| it.set == "Week 3, norths" && it.learner == "Signe";
    assert!(handed.answered().len() == 3 && handed.answered().iter().all(named));
    assert_eq!(of_set("--since|2100-01-01").unwrap(), Record::default());
    assert_eq!(of_set("--since|2020-01-01").unwrap().answered().len(), 4);
    assert_eq!(
        of_set("--set|Week 4").unwrap_err(),
        "nothing is answered of a set “Week 4”; there is “Week 3, norths”"
    );
}

#[test]
fn a_set_that_is_wrong_is_told_with_its_place() {
    let folder = tempfile::tempdir().unwrap();
    let told = |text: &str, command: &[&str]| {
        let path = set_in(folder.path(), text);
        let said = run(["drill"].iter().chain(command).copied().chain(["--set", &path]), "");
        assert_eq!((said.exit, &*said.output), (Exit::Bad, ""));
        said.errors.replace(&path, "set.ron")
    };
    let wrong = TIMED.replace("Degrees", "Metres");
    for command in [&[][..], &["paper"]] {
        let said = told(&wrong, command);
        assert!(
            said.starts_with(
                "set.ron:2:52: a tolerance in Metres does not fit “back”; right is Degrees(0.5 to 45)"
            ),
            "{said}"
        );
    }
    let bare = r#"(version: 1, title: "Bare", invented: true, grid: Named("UTM:25N"),
        extent: (south_west: (500000, 5200000), north_east: (501000, 5201000)), shore: Here([]))"#;
    fs::write(folder.path().join("bare.ron"), bare).unwrap();
    let said = told(&TIMED.replace("seed: 5", "chart: File(\"bare.ron\")"), &[]);
    let wanted = "set.ron:2:73: the chart “Bare” has not what it takes to ask for reference; take another chart or other kinds\n";
    assert!(said.starts_with(wanted), "{said}");
}

#[test]
fn a_paper_of_a_set_has_its_chart_its_time_and_its_words() {
    let folder = tempfile::tempdir().unwrap();
    let path = set_in(folder.path(), TIMED);
    let paper = drill(&format!("paper --set {path} --answers none"), "");
    assert_snapshot!(paper);
    let all = drill(&format!("paper --set {path}"), "");
    assert!(
        all.starts_with(paper.split("Answers\n").next().unwrap()) && all.contains("Worked answers")
    );
    let bare = drill(&format!("paper --set {path} --no-chart --answers none"), "");
    let bare = bare.replace('\n', " ");
    assert!(bare.contains("Work on the chart The Melorrel Isles (invented). One mark"), "{bare}");
    // As pages the chart is one of them, and the same twice.
    let file = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let made = |name: &str, more: &str| {
        drill_to(&format!("paper --set {path} {more} -o {}", file(name)));
        fs::read(file(name)).unwrap()
    };
    assert!(made("a.pdf", "") == made("b.pdf", ""));
    let pages = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).matches("/Type /Page\n").count();
    assert_eq!(pages(made("c.pdf", "--answers none")), 2);
    assert_eq!(pages(made("d.pdf", "--answers none --no-chart")), 1);
    assert_eq!(pages(made("e.pdf", "--answers only")), 1);
}

#[rstest]
#[case("drill back --set x.ron", "cannot be used with")]
#[case("drill --set x.ron --count 3", "cannot be used with")]
#[case("drill --set x.ron --minutes 3", "cannot be used with")]
#[case("drill paper --set x.ron --kind back", "cannot be used with")]
#[case("drill export --learner =1+1", "write a name that begins with a letter")]
fn a_set_has_its_own_questions(#[case] line: &str, #[case] said: &str) {
    let all = ["strandline"].into_iter().chain(line.split(' '));
    let error = <crate::Cli as clap::Parser>::try_parse_from(all).unwrap_err().to_string();
    assert!(error.contains(said), "{error}");
}

#[test]
fn a_class_hands_in_and_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let set = set_in(folder.path(), TIMED);
    let mut files = Vec::new();
    for (name, typed) in [("Signe", "070\n170\n\n"), ("Tor", "250\n170\n\n"), ("Ada", "\n\n\n")] {
        let home = folder.path().join(name);
        held(&format!("--set {set}"), typed, Some(&home));
        let file = folder.path().join(format!("{name}.csv"));
        let file = file.to_str().unwrap().to_owned();
        held(&format!("export --learner {name} -o {file}"), "", Some(&home));
        files.push(file);
    }
    assert_snapshot!(drill(&format!("class {}", files.join(" ")), ""));
    let document = drill(&format!("class --json {}", files.join(" ")), "");
    let document: Value = serde_json::from_str(&document).unwrap();
    assert_eq!(document["learners"][1]["learner"], "Signe");
    assert_eq!(document["learners"][1]["right"], 2);
    let said = run(["drill", "class", "--set", "Other", &files[0]], "");
    let wanted = "nothing is answered of a set “Other”; there is “Week 3, norths”\n";
    assert_eq!((said.exit, said.errors.as_str()), (Exit::Bad, wanted));
    // With the set's file the questions have their numbers and words, and what is of no set is left out.
    let ada = folder.path().join("Ada");
    held("back --count 3 --seed 7", "1\n1\n1\n", Some(&ada));
    held(&format!("export --learner Ada --force -o {}", files[2]), "", Some(&ada));
    let all = files.join(" ");
    assert_snapshot!(drill(&format!("class {all} --questions {set}"), ""));
    let document = drill(&format!("class --json {all} --questions {set}"), "");
    let document: Value = serde_json::from_str(&document).unwrap();
    let mut numbers: Vec<_> =
        document["questions"].as_array().unwrap().iter().map(|it| it["number"].as_u64()).collect();
    numbers.sort();
    assert_eq!(numbers, [Some(1), Some(2), Some(3)]);
}

/// Who leaves a set in text goes on with it in text, at the next question, with the tally of all.
#[test]
fn a_set_that_is_left_goes_on_at_the_next_question() {
    let folder = tempfile::tempdir().unwrap();
    let path = set_in(folder.path(), TIMED);
    let home = folder.path().join("home");
    let on = |typed: &str| {
        let (said, errors) = held(&format!("--set {path}"), typed, Some(&home));
        assert_eq!(errors, "");
        said
    };
    let first = on("070\nq\n");
    assert!(first.contains("Run again, the set goes on at question 2 of 3."), "{first}");
    let second = on("\nq\n");
    assert!(second.contains("It goes on where it was left, at question 2 of 3."), "{second}");
    assert!(second.contains("\n2 of 3 · ") && !second.contains("\n1 of 3 · "), "{second}");
    // Nobody is there: nothing changes.
    assert!(on("").contains("\n3 of 3 · "));
    // Only what it asks counts, not its comments.
    set_in(folder.path(), &format!("// For Tor.\n{TIMED}"));
    let third = on("QB 123 456\n");
    assert!(third.contains("\n3 of 3 · ") && third.contains("of 3 right."), "{third}");
    // At its end it begins anew.
    let again = on("q\n");
    assert!(again.contains("\n1 of 3 · ") && !again.contains("goes on where"), "{again}");
    let (csv, _) = held("export", "", Some(&home));
    assert_eq!(memory::read(&csv).unwrap().answered().len(), 3);
    // Left on the screen when its last question was marked: its end is told once, and it begins anew.
    let (mut session, _) = files::Session::open(&folders(&home));
    let set = practice::set::read(TIMED).unwrap();
    let sitting = files::KeptSitting { answered: csv, ..Default::default() };
    let sum = files::sum_of(&::chart::practice().unwrap());
    let kept =
        files::KeptSet { text: practice::set::write(&set), sum, sitting, ..Default::default() };
    session.lay_down_set(&set.title, Some(kept));
    session.keep(&folders(&home)).unwrap();
    assert!(on("q\n").contains("at its end, 3 of 3 answered."));
    assert!(on("q\n").contains("\n1 of 3 · "));
    // Nothing is kept, nor gone on with, where nothing is to be.
    on("070\nq\n");
    let (said, _) = held(&format!("--set {path} --no-record"), "070\nq\n", Some(&home));
    assert!(said.contains("\n1 of 3 · ") && !said.contains("goes on"), "{said}");
}

#[test]
fn a_set_that_was_edited_or_its_chart_begins_anew_and_keeps_its_answers() {
    let folder = tempfile::tempdir().unwrap();
    let wishes = ::chart::maker::Wishes { width_km: 8, height_km: 8, ..Default::default() };
    let mut chart = ::chart::maker::make(7, &wishes).unwrap();
    let draw = |chart: &::chart::Chart| {
        fs::write(folder.path().join("bay.ron"), ::chart::format::write(chart)).unwrap();
    };
    draw(&chart);
    let text = TIMED.replace("seed: 5", "chart: File(\"bay.ron\"), seed: 5");
    let path = set_in(folder.path(), &text);
    let home = folder.path().join("home");
    let on = |typed: &str| held(&format!("--set {path}"), typed, Some(&home)).0.replace('\n', " ");
    on("070\nq\n");
    chart.marks[0].at.x += 1.0;
    draw(&chart);
    let said = on("070\n\nq\n");
    assert!(
        said.contains(
            "the chart of “Week 3, norths” was changed since the set was left at question 2 of 3; it begins anew, and the answers \
             stay in the record."
        ),
        "{said}"
    );
    assert!(said.contains(" 1 of 3 · "), "{said}");
    set_in(folder.path(), &text.replace("Degrees(5)", "Degrees(6)"));
    let said = on("q\n");
    assert!(
        said.contains("“Week 3, norths” was edited since it was left at question 3 of 3;"),
        "{said}"
    );
    let (csv, _) = held("export", "", Some(&home));
    assert_eq!(memory::read(&csv).unwrap().answered().len(), 3);
}
