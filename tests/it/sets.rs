//! A coach's exercise set in the real program: written, shared, run as text and on the screen, handed in, put on paper.

use std::fs;
use std::io::Write;
use std::process::Stdio;

use chart::coast::Coast;
use practice::memory::{self, Outcome};
use practice::{Ground, Question};

use crate::driver::Home;

const SET: &str = r#"(
    version: 1,
    title: "Week 3, norths",
    words: "No notes, please.",
    chart: Made(seed: 7, size: "10x8"),
    seed: 5,
    minutes: 10,
    parts: [
        (kinds: ["back"], count: 1, tolerance: Degrees(5)),
        (kinds: ["to-magnetic"], count: 1),
    ],
)
"#;

/// A home with the set in it.
fn home() -> Home {
    let home = Home::new();
    fs::write(home.path().join("week3.ron"), SET).unwrap();
    home
}

/// The set's questions, reckoned here.
fn questions() -> Vec<Question> {
    let set = practice::set::read(SET).unwrap();
    let practice::set::SetChart::Made { seed, wishes } = &set.chart else { panic!() };
    let chart = chart::maker::make(*seed, wishes).unwrap();
    let coast = Coast::of(&chart);
    set.questions(&Ground::new(&chart, &coast)).unwrap()
}

fn run(home: &Home, args: &[&str]) -> String {
    let done = home.run(args);
    let errors = String::from_utf8(done.stderr).unwrap();
    assert!(done.status.success(), "{args:?}: {errors}");
    String::from_utf8(done.stdout).unwrap()
}

/// What the program says to somebody who types this.
fn typed(home: &Home, args: &[&str], lines: &str) -> String {
    let mut program = home.program();
    program.args(args).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = program.spawn().unwrap();
    child.stdin.take().unwrap().write_all(lines.as_bytes()).unwrap();
    let done = child.wait_with_output().unwrap();
    let errors = String::from_utf8(done.stderr).unwrap();
    assert!(done.status.success() && errors.is_empty(), "{args:?}: {errors}");
    String::from_utf8(done.stdout).unwrap()
}

/// A coach's day: a first set is changed and shared, each of three learners has a home, leaves the set and goes on, as text and on the
/// screen, and what they hand in is looked at together.
#[test]
fn a_class_works_on_a_set_leaves_it_goes_on_and_hands_in() {
    let coach = Home::new();
    run(&coach, &["drill", "set", "-o", "first.ron"]);
    let first = fs::read_to_string(coach.path().join("first.ron")).unwrap();
    let set = first.replace("References and bearings", "Week 4").replace("seed: 1,", "seed: 11,");
    fs::write(coach.path().join("week4.ron"), &set).unwrap();
    let asked: serde_json::Value =
        serde_json::from_str(&run(&coach, &["drill", "--set", "week4.ron", "--json"])).unwrap();
    let right: Vec<String> = asked["answers"]
        .as_array()
        .unwrap()
        .iter()
        .map(|it| it["answer"].as_str().unwrap().to_owned() + "\n")
        .collect();
    assert_eq!(right.len(), 14);
    let hand_in = |name: &str, answer: &dyn Fn(&Home)| {
        let home = Home::new();
        fs::write(home.path().join("week4.ron"), &set).unwrap();
        answer(&home);
        let handed = run(&home, &["drill", "export", "--set", "Week 4", "--learner", name]);
        fs::write(coach.path().join(format!("{name}.csv")), handed).unwrap();
    };
    let drill = ["drill", "--set", "week4.ron"];
    hand_in("Signe", &|home| {
        let said = typed(home, &drill, &(right[..5].concat() + "q\n"));
        assert!(said.contains("5 of 14 right") && said.contains("goes on at question 6 of 14"));
        // On the screen it goes on where it was left as text, and the other way round.
        let mut terminal = home.terminal((120, 40), &["--set", "week4.ron"]);
        terminal.wait_for(&["question 6 of 14", "goes on where it was left"]);
        terminal.keys("o");
        terminal.wait_for(&["marked │"]);
        terminal.keys("q");
        assert!(terminal.wait_end().success());
        let said = typed(home, &drill, &right[6..].concat());
        assert!(said.contains("It goes on where it was left, at question 7 of 14."), "{said}");
        assert!(said.contains("13 of 14 right"), "{said}");
    });
    hand_in("Tor", &|home| {
        typed(home, &drill, &right.concat());
    });
    hand_in("Ada", &|home| {
        typed(home, &drill, &("\n".repeat(3) + "q\n"));
        // The coach has another seed in the meantime: nothing of hers is lost.
        fs::write(home.path().join("week4.ron"), set.replace("seed: 11", "seed: 12")).unwrap();
        let said = typed(home, &drill, "q\n").replace('\n', " ");
        assert!(
            said.contains("“Week 4” was edited since it was left at question 4 of 14;"),
            "{said}"
        );
    });
    let files = ["Ada.csv", "Signe.csv", "Tor.csv"];
    let class =
        run(&coach, &[&["drill", "class", "--questions", "week4.ron"], &files[..]].concat());
    assert!(class.starts_with("Week 4: 3 learners, 14 questions."), "{class}");
    let row = |name: &str| class.lines().find(|line| line.starts_with(name)).unwrap();
    assert!(row("Signe").contains(" 13/14 "), "{class}");
    assert!(row("Tor").contains(" 14/14 "), "{class}");
    assert!(row("Ada").contains(" 0/3 "), "{class}");
    // What nobody of two answered comes first, in the order of the set.
    let hardest: Vec<&str> = class.lines().filter(|line| line.contains(" · ")).collect();
    let numbers: Vec<&str> = hardest.iter().filter_map(|line| line.split(' ').next()).collect();
    assert_eq!(numbers, ["6", "1", "2", "3"], "{class}");
}

#[test]
fn a_set_runs_on_the_screen_on_its_own_chart_and_is_handed_in() {
    let home = home();
    let questions = questions();
    let mut terminal = home.terminal((120, 40), &["--set", "week3.ron"]);
    terminal.wait_for(&["question 1 of 2", "No notes, please."]);
    // Four degrees beside the answer is near enough for this coach.
    let practice::Answer::Bearing { degrees, .. } = questions[0].answer else { panic!() };
    terminal.keys(&format!("a{:03.0}\r", (degrees + 4.0).rem_euclid(360.0)));
    terminal.wait_for(&["Right", "within 5°"]);
    terminal.keys("\r");
    terminal.wait_for(&["question 2 of 2"]);
    terminal.keys(&format!("a{}\r", questions[1].answer));
    terminal.wait_for(&["marked │"]);
    terminal.keys("\r");
    terminal.wait_for(&["2 of 2 right", "of 10 min"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    let handed_in =
        run(&home, &["drill", "export", "--set", "Week 3, norths", "--learner", "Signe"]);
    let record = memory::read(&handed_in).unwrap();
    let named = |it: &memory::Answered| {
        it.set == "Week 3, norths" && it.learner == "Signe" && it.outcome == Outcome::Right
    };
    assert!(record.answered().len() == 2 && record.answered().iter().all(named), "{handed_in}");
    // The next start has the chart that it would have had without.
    let mut terminal = home.terminal((120, 40), &[]);
    let shown = terminal.wait_for(&["? all"]);
    assert!(shown.contains("Melorrel Isles"), "{shown}");
    terminal.keys("q");
    assert!(terminal.wait_end().success());
}

/// Left in the middle it goes on at the next start, with what was answered; edited it begins anew.
#[test]
fn a_set_that_is_left_goes_on_and_one_that_is_edited_begins_anew() {
    let home = home();
    let questions = questions();
    let mut terminal = home.terminal((120, 40), &["--set", "week3.ron"]);
    terminal.wait_for(&["question 1 of 2", "No notes, please."]);
    terminal.keys("o");
    terminal.wait_for(&["marked │"]);
    terminal.keys("\r");
    terminal.wait_for(&["question 2 of 2"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    // Elsewhere one is told of it.
    let mut terminal = home.terminal((120, 40), &[]);
    terminal.wait_for(&["? all"]);
    terminal.keys("b");
    terminal.wait_for(&["Laid down: the set “Week 3, norths”"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    let mut terminal = home.terminal((120, 40), &["--set", "week3.ron"]);
    terminal.wait_for(&["question 2 of 2", "goes on where it was left"]);
    terminal.keys(&format!("a{}\r", questions[1].answer));
    terminal.wait_for(&["marked │"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    // Marked, not looked at to its end: it is gone on with behind its last question, or begun anew where it was edited.
    fs::write(home.path().join("week3.ron"), SET.replace("seed: 5", "seed: 6")).unwrap();
    let mut terminal = home.terminal((120, 40), &["--set", "week3.ron"]);
    terminal.wait_for(&["question 1 of 2", "was edited since it was left"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    // So it does where its chart is another one now: here made of another seed, in a file of the same title.
    let practice::set::SetChart::Made { wishes, .. } = practice::set::read(SET).unwrap().chart
    else {
        panic!()
    };
    let draw = |seed| {
        let mut chart = chart::maker::make(seed, &wishes).unwrap();
        chart.title = "The Bay".to_owned();
        fs::write(home.path().join("bay.ron"), chart::format::write(&chart)).unwrap();
    };
    let beside = SET.replace(r#"Made(seed: 7, size: "10x8")"#, r#"File("bay.ron")"#);
    fs::write(home.path().join("week3.ron"), beside).unwrap();
    draw(7);
    let mut terminal = home.terminal((120, 40), &["--set", "week3.ron"]);
    terminal.wait_for(&["question 1 of 2", "was edited since it was left"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    draw(8);
    let mut terminal = home.terminal((120, 40), &["--set", "week3.ron"]);
    terminal.wait_for(&["question 1 of 2", "was changed since the set was left"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    let kept = run(&home, &["drill", "export", "--set", "Week 3, norths"]);
    let kept = memory::read(&kept).unwrap();
    let outcomes: Vec<Outcome> = kept.answered().iter().map(|it| it.outcome).collect();
    assert_eq!(outcomes, [Outcome::Passed, Outcome::Right]);
}

#[test]
fn a_set_that_is_wrong_is_told_with_its_place_wherever_it_is_opened() {
    let home = home();
    let wrong = SET.replace("Degrees(5)", "Degrees(500)");
    fs::write(home.path().join("week3.ron"), wrong).unwrap();
    for args in [
        &["drill", "--set", "week3.ron"][..],
        &["drill", "paper", "--set", "week3.ron"],
        &["screen", "--set", "week3.ron"],
    ] {
        let done = home.run(args);
        assert_eq!(done.status.code(), Some(2), "{args:?}");
        let said = String::from_utf8(done.stderr).unwrap();
        let wanted =
            "week3.ron:9:48: Degrees(500) is no tolerance for “back”; right is Degrees(0.5 to 45)";
        assert!(said.contains(wanted), "{args:?}: {said}");
    }
}

#[test]
fn a_set_is_shared_as_text_and_on_paper() {
    let home = home();
    let said = run(&home, &["drill", "--set", "week3.ron"]);
    for question in questions() {
        let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(words(&said).contains(&words(&question.text)), "{said}");
    }
    run(&home, &["drill", "set", "-o", "first.ron"]);
    run(&home, &["drill", "paper", "--set", "first.ron", "-o", "one.pdf"]);
    run(&home, &["drill", "paper", "--set", "first.ron", "-o", "two.pdf"]);
    let read = |name: &str| fs::read(home.path().join(name)).unwrap();
    assert!(read("one.pdf").starts_with(b"%PDF") && read("one.pdf") == read("two.pdf"));
}
