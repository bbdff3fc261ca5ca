//! What is in sight when a question is put, and after it was marked.

use practice::Shown;

use super::*;

fn seen(driver: &Driver, at: chart::Point) -> bool {
    driver.state.cell_of(at).is_some()
}

fn of(shown: &Shown) -> Vec<chart::Point> {
    match shown {
        Shown::Point { at, .. } | Shown::Tick { at, .. } => vec![*at],
        Shown::Line { from, to, .. } => vec![*from, *to],
        Shown::Path(points) => points.clone(),
        Shown::Square(_) => Vec::new(),
    }
}

#[test]
fn what_a_question_shows_is_in_sight_and_what_is_drawn_of_its_answer_after_it() {
    for (width, height) in [(200, 60), (80, 24), (60, 20)] {
        for kind in Kind::ALL {
            for seed in 0..4 {
                let mut driver = asked(*kind, Level::Third, seed);
                driver.send(Msg::Resize(Size { width, height }));
                // Looked at from afar and from close by.
                let now = driver.clock;
                for keys in ["+*12", "w"] {
                    driver.keys(&format!("Esc {keys}")).unwrap();
                    driver.send(Msg::Clock(Wanted::TakenUp, now));
                    let question = put(&driver).question.clone();
                    let choices = question.choices.iter().filter_map(|it| it.at);
                    for at in question.shown.iter().flat_map(of).chain(choices) {
                        assert!(seen(&driver, at), "{kind} {seed}: {at:?}");
                    }
                }
                driver.keys("o").unwrap();
                let (put, _) = driver.state.practice.told().unwrap();
                let question = put.question.clone();
                for at in question.shown.iter().chain(&question.drawn).flat_map(of) {
                    assert!(seen(&driver, at), "{kind} {seed}: {at:?}");
                }
            }
        }
    }
}

/// Two questions that show the same and are answered elsewhere are looked at alike.
#[test]
fn where_one_looks_does_not_tell_where_the_answer_is() {
    for kind in [Kind::Find, Kind::Fix, Kind::Where, Kind::Reference, Kind::LatLon] {
        for seed in 0..6 {
            let driver = asked(kind, Level::Second, seed);
            let other = asked(kind, Level::Second, seed + 100);
            let mut question = (*put(&driver).question).clone();
            question.answer = put(&other).question.answer.clone();
            question.drawn = put(&other).question.drawn.clone();
            let mut moved = driver.clone();
            let ticket = moved.state.work.ask(crate::job::Task::Question, |_| None).ticket();
            let since = moved.clock;
            let outcome = crate::job::Outcome::Question(Some(std::sync::Arc::new(question)), since);
            moved.send(Msg::Worked { ticket, outcome });
            assert_eq!(moved.state.view, driver.state.view, "{kind} {seed}");
        }
    }
}
