//! Practice in the real program: questions answered, left in the middle, gone on with, and nothing lost.
//!
//! The tests reckon the questions and their answers themselves, from the record as it lies on disk.

use std::path::PathBuf;

use chart::Chart;
use chart::coast::Coast;
use jiff::Timestamp;
use practice::memory::{self, Outcome, Record};
use practice::{Answer, Ground, Long, Plan, Question, Sitting};

use crate::driver::{Home, Terminal};

const SIZE: (u16, u16) = (120, 40);
const DOWN: &str = "\x1b[B";
const COUNT: usize = 10;

/// The built-in chart and a home, to look over the program's shoulder.
struct Watch {
    home: Home,
    chart: Chart,
    coast: Coast,
}

impl Watch {
    fn new() -> Watch {
        let chart = chart::practice().unwrap();
        let coast = Coast::of(&chart);
        Watch { home: Home::new(), chart, coast }
    }

    fn file(&self) -> PathBuf {
        self.home.path().join("data/strandline/results.csv")
    }

    /// What was answered, as it lies on disk.
    fn record(&self) -> Record {
        let text = std::fs::read_to_string(self.file()).unwrap_or_default();
        memory::read(&text).unwrap()
    }

    /// The question that comes next.
    fn next(&self) -> Question {
        let ground = Ground::new(&self.chart, &self.coast);
        let sitting = Sitting::new(Plan::Due(Long::Questions(COUNT)));
        sitting.next(&self.record(), &ground, Timestamp::now()).unwrap()
    }

    /// The program at the question of this number of a sitting of ten.
    fn begun(&self) -> Terminal {
        let mut terminal = self.home.terminal(SIZE, &[]);
        terminal.wait_for(&["? all"]);
        terminal.keys("b");
        terminal.wait_for(&["10 questions of what is due"]);
        terminal.keys(DOWN);
        terminal.keys("\r");
        self.wait_put(&terminal, 1);
        terminal
    }

    /// Started again, the sitting that was left is gone on with at the question of this number.
    fn gone_on(&self, number: usize) -> Terminal {
        let mut terminal = self.home.terminal(SIZE, &[]);
        terminal.wait_for(&["? all", &format!("laid down at question {number} of {COUNT}")]);
        terminal.keys("b");
        terminal.wait_for(&["Go on: 10 questions", &format!("question {number} of {COUNT}")]);
        terminal.keys("\r");
        self.wait_put(&terminal, number);
        terminal
    }

    /// Waits until the next question stands, with all of its words.
    fn wait_put(&self, terminal: &Terminal, number: usize) {
        let question = self.next();
        terminal.wait(&format!("question {number}: {}", question.text), |screen| {
            let seen = screen.contents();
            let words = question.text.split_whitespace().all(|word| seen.contains(word));
            words
                && seen.contains(&format!("question {number} of {COUNT}"))
                && seen.contains("drill │")
        });
    }

    /// Writes an answer in the place of what is written, and waits until it is marked.
    fn answer(&self, terminal: &mut Terminal, answer: &str) {
        terminal.keys(&format!("a\x15{answer}\r"));
        terminal.wait_for(&["marked │"]);
    }

    /// Answers rightly.
    fn rightly(&self, terminal: &mut Terminal) {
        let question = self.next();
        self.answer(terminal, &written(&question, &question.answer));
        terminal.wait_for(&["Right"]);
    }

    /// Goes on to the question of this number.
    fn on(&self, terminal: &mut Terminal, number: usize) {
        terminal.keys("\r");
        self.wait_put(terminal, number);
    }
}

/// An answer as somebody writes it.
fn written(question: &Question, answer: &Answer) -> String {
    match answer {
        Answer::Choice(index) => char::from(b'a' + u8::try_from(*index).unwrap()).to_string(),
        Answer::Square { name, .. } => {
            let named = question.choices.iter().position(|choice| choice.text == *name);
            named.map_or_else(|| name.clone(), |index| written(question, &Answer::Choice(index)))
        }
        answer => answer.to_string(),
    }
}

/// Waits until all words of a sentence are seen, however they are broken into lines.
fn wait_words(terminal: &Terminal, sentence: &str) {
    terminal.wait(sentence, |screen| {
        let seen = screen.contents();
        sentence.split_whitespace().all(|word| seen.contains(word))
    });
}

fn outcomes(record: &Record) -> Vec<Outcome> {
    record.answered().iter().map(|it| it.outcome).collect()
}

#[test]
fn a_sitting_of_ten_questions_is_left_in_the_middle_and_gone_on_with() {
    let watch = Watch::new();
    let mut terminal = watch.begun();
    watch.rightly(&mut terminal);
    watch.on(&mut terminal, 2);

    terminal.keys("\t");
    terminal.wait_for(&["Hint 1"]);
    watch.rightly(&mut terminal);
    watch.on(&mut terminal, 3);

    let question = watch.next();
    let mistake = question.mistakes.first().expect("a usual mistake").clone();
    watch.answer(&mut terminal, &written(&question, &mistake.answer));
    terminal.wait_for(&["Not so"]);
    wait_words(&terminal, &format!("It looks like {}.", mistake.kind));
    watch.on(&mut terminal, 4);

    terminal.keys("o");
    terminal.wait_for(&["Passed over", "marked │"]);
    watch.on(&mut terminal, 5);
    watch.rightly(&mut terminal);
    watch.on(&mut terminal, 6);

    // Something is written of the answer, and the program is left.
    terminal.keys("\ta12");
    terminal.wait_for(&["answer │"]);
    terminal.keys("\x1b");
    terminal.wait_for(&["drill │"]);
    let before = watch.next();
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    assert_eq!(watch.record().answered().len(), 5);

    let mut terminal = watch.gone_on(6);
    assert_eq!(watch.next(), before);
    for number in 6..=COUNT {
        watch.rightly(&mut terminal);
        if number < COUNT {
            watch.on(&mut terminal, number + 1);
        }
    }
    terminal.keys("\r");
    terminal.wait_for(&["8 of 10 right, 1 passed over."]);

    let record = watch.record();
    let mut expected = vec![Outcome::Right; COUNT];
    (expected[2], expected[3]) = (Outcome::Wrong, Outcome::Passed);
    assert_eq!(outcomes(&record), expected);
    assert_eq!(record.answered()[1].hints, 1);
    assert_eq!(record.answered()[2].mistake, Some(mistake.kind));
    let text = std::fs::read_to_string(watch.file()).unwrap();
    assert_eq!(text.lines().count(), 1 + COUNT, "{text}");

    // Nothing is left of it, and what was learnt is on the list and on the page of progress.
    terminal.keys("\r");
    let list = terminal.wait_for(&["10 questions of what is due", "level 1"]);
    assert!(!list.contains("Go on:"), "{list}");
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    let progress = watch.home.run(&["drill", "progress"]);
    let page = String::from_utf8(progress.stdout).unwrap();
    assert!(page.contains("8 of 10 right"), "{page}");
}

#[test]
fn a_program_that_is_killed_loses_nothing_that_was_answered() {
    let watch = Watch::new();
    let mut terminal = watch.begun();
    watch.rightly(&mut terminal);
    watch.on(&mut terminal, 2);
    watch.rightly(&mut terminal);
    // While the explanation is read.
    terminal.signal("KILL");
    assert!(!terminal.wait_end().success());
    assert_eq!(outcomes(&watch.record()), [Outcome::Right; 2]);

    // While a question stands.
    let mut terminal = watch.gone_on(3);
    watch.rightly(&mut terminal);
    watch.on(&mut terminal, 4);
    let before = watch.next();
    terminal.signal("KILL");
    assert!(!terminal.wait_end().success());

    let mut terminal = watch.gone_on(4);
    assert_eq!(watch.next(), before);
    assert_eq!(outcomes(&watch.record()), [Outcome::Right; 3]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
}

#[cfg(unix)]
#[test]
fn what_cannot_be_kept_is_told_and_practice_goes_on() {
    let watch = Watch::new();
    std::fs::create_dir_all(watch.file().parent().unwrap()).unwrap();
    std::fs::write(watch.file(), "nothing\n").unwrap();
    let mut terminal = watch.home.terminal(SIZE, &[]);
    terminal.wait_for(&["? all"]);
    terminal.keys("b");
    terminal.wait_for(&["not kept", "results.csv:1:1"]);
    terminal.keys("\r");
    terminal.wait_for(&["question 1"]);
    terminal.keys("o");
    terminal.wait_for(&["Passed over", "not kept"]);
    terminal.keys("\r");
    terminal.wait_for(&["question 2"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    assert_eq!(std::fs::read_to_string(watch.file()).unwrap(), "nothing\n", "it is as it was");
}
