//! What practice says and shows at each size.

use std::sync::Arc;

use jiff::{SignedDuration, Timestamp};
use practice::memory::Answered;
use practice::{Ground, Kind, Level, MistakeKind, Plan, Question, Shown, Sitting, ask};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position as Cell, Rect, Size};
use rstest::rstest;

use super::*;
use crate::Shot;
use crate::draw::Drawer;
use crate::glyphs::{DotSet, Sign};
use crate::state::{Hand, Line, Told};
use crate::theme::{Colours, Theme, Tone};
use crate::view::view;

const SIZES: [(u16, u16); 4] = [(200, 60), (110, 32), (80, 24), (60, 20)];

fn began() -> Timestamp {
    "2026-06-14T09:00:00Z".parse().unwrap()
}

/// The practice chart with practice in hand, no question yet.
fn state() -> State {
    let mut state = Shot { size: (80, 24), ..Shot::default() }.driver().unwrap().state;
    state.hand = Hand::Drill;
    let plan = Plan::Kinds { kinds: Kind::ALL.to_vec(), level: Level::First, seed: 1, count: 10 };
    let sitting = Sitting::new(plan);
    state.practice.drill = Some(Drill {
        sitting,
        until: None,
        laid_down: None,
        again: None,
        stage: Stage::Throwing,
        top: 0,
    });
    state
}

fn question(state: &State, kind: Kind, seed: u64, level: Level) -> Question {
    ask(kind, &Ground::new(&state.chart, state.coast()), seed, level).unwrap()
}

fn put(question: Question) -> Put {
    Put {
        question: Arc::new(question),
        number: 3,
        since: began(),
        hints: 0,
        choice: None,
        line: None,
        draft: Line::default(),
        not_understood: None,
        top: 0,
    }
}

fn stage(state: &mut State, stage: Stage) {
    state.practice.drill.as_mut().unwrap().stage = stage;
}

/// What came of an answer in words.
fn told(question: &Question, reply: &str) -> Told {
    let mark = Some(question.mark(reply).unwrap());
    Told { reply: reply.to_owned(), at: None, mark, top: 0 }
}

fn sized(state: &mut State, (width, height): (u16, u16)) {
    state.size = Size { width, height };
    state.view = chart::View::fit(state.chart.extent, state.cells());
}

fn drawn(state: &State) -> Buffer {
    let area = Rect::new(0, 0, state.size.width, state.size.height);
    let mut buffer = Buffer::empty(area);
    let theme = Theme::new(Tone::Dark, Colours::None);
    view(state, &theme, area, &mut buffer, &mut Drawer::default());
    buffer
}

/// The rows of a part of the screen.
fn rows_of(buffer: &Buffer, area: Rect) -> Vec<String> {
    let row = |y| (area.left()..area.right()).map(|x| buffer[(x, y)].symbol()).collect::<String>();
    (area.top()..area.bottom()).map(|y| row(y).trim_end().to_owned()).collect()
}

fn screen(state: &State) -> String {
    rows_of(&drawn(state), Rect::new(0, 0, state.size.width, state.size.height)).join("\n")
}

/// All that can be read in the pane, page by page.
fn read(state: &mut State) -> String {
    let mut all = String::new();
    for top in 0..=last_top(state) {
        match &mut state.practice.drill.as_mut().unwrap().stage {
            Stage::Asked(put) => put.top = top,
            Stage::Marked(_, told) => told.top = top,
            _ => state.practice.drill.as_mut().unwrap().top = top,
        }
        let mut buffer = Buffer::empty(Rect::new(0, 0, state.size.width, state.size.height));
        let inks = Inks::new(&Theme::new(Tone::Dark, Colours::None));
        draw(state, &inks, &mut buffer);
        all += &rows_of(&buffer, state.layout().drill).join("\n");
        all.push('\n');
    }
    all
}

fn has_words(all: &str, text: &str, why: &str) {
    for word in text.split_whitespace() {
        assert!(all.contains(word), "{word:?} of {text:?} {why} in\n{all}");
    }
}

#[test]
fn all_of_every_question_can_be_reached_at_every_size() {
    let mut state = state();
    for kind in Kind::ALL {
        for level in Level::ALL {
            for (seed, size) in (1..).zip(SIZES) {
                let it = question(&state, *kind, seed, level);
                stage(&mut state, Stage::Asked(Put { hints: 9, ..put(it.clone()) }));
                sized(&mut state, size);
                let all = read(&mut state);
                let why = format!("{kind} {level:?} {size:?}");
                has_words(&all, &it.text, &why);
                let cells =
                    it.given.iter().flat_map(|given| given.rows.iter().chain([&given.head]));
                cells.flatten().for_each(|cell| has_words(&all, cell, &why));
                it.choices.iter().for_each(|choice| has_words(&all, &choice.text, &why));
                it.hints.iter().for_each(|hint| has_words(&all, hint, &why));
                let pages = last_top(&state) + 1;
                assert_eq!(all.matches("Answer ›").count(), pages, "{why}\n{all}");
            }
        }
    }
}

#[test]
fn all_that_is_said_of_an_answer_can_be_reached_at_every_size() {
    let mut state = state();
    for kind in Kind::ALL {
        for (seed, size) in (1..).zip(SIZES) {
            let it = question(&state, *kind, seed, Level::Third);
            let wrong = it.mistakes.first().map(|it| it.answer.to_string());
            let wrong = wrong.unwrap_or_else(|| it.answer.to_string());
            let told = told(&it, &wrong);
            // That it is so stands beside what was answered.
            let is_so = format!("It is {}.", it.told());
            let mut said = told.mark.as_ref().unwrap().said.clone();
            said.retain(|said| *said != is_so);
            said.push(it.told());
            let said = said.join(" ");
            stage(&mut state, Stage::Marked(put(it.clone()), told));
            sized(&mut state, size);
            let all = read(&mut state);
            let why = format!("{kind} {size:?}");
            has_words(&all, &said, &why);
            it.steps.iter().for_each(|step| has_words(&all, step, &why));
            has_words(&all, it.basis, &why);
            has_words(&all, &it.text, &why);
            has_words(&all, &wrong, &why);
        }
    }
}

/// The answers that a question takes for usual mistakes.
fn mistaken(it: &Question) -> impl Iterator<Item = (String, Told)> {
    let replies = it.mistakes.iter().map(|it| it.answer.to_string());
    replies
        .filter_map(|reply| it.mark(&reply).ok().map(|_| told(it, &reply)))
        .map(|told| (told.reply.clone(), told))
}

#[test]
fn nothing_that_is_the_readers_or_the_answers_is_shown_while_a_question_stands() {
    let mut with = state();
    for kind in Kind::ALL {
        let it = question(&with, *kind, 2, Level::Second);
        stage(&mut with, Stage::Asked(put(it.clone())));
        for size in [(110, 32), (60, 20)] {
            sized(&mut with, size);
            let shown = drawn(&with);
            let mut bare = with.clone();
            let mut without = it.clone();
            without.drawn.clear();
            stage(&mut bare, Stage::Asked(put(without)));
            assert_eq!(drawn(&bare), shown, "{kind}");
            let mut planned = with.clone();
            planned.hand = Hand::Look;
            for keys in
                ["Enter Right*9 Up*3 Enter Right*20 Enter Esc A", "t Enter Right*9 Enter Esc"]
            {
                let mut driver = crate::driver::Driver::new(planned.clone());
                driver.keys(keys).unwrap();
                let mut state = driver.state;
                (state.hand, state.view, state.cursor) = (Hand::Drill, with.view, with.cursor);
                state.message = None;
                assert_eq!(drawn(&state), shown, "{kind} after {keys}");
            }
        }
    }
}

#[test]
fn the_answer_is_nowhere_on_the_screen_before_it_is_given() {
    let mut state = state();
    for kind in Kind::ALL {
        for level in Level::ALL {
            let it = question(&state, *kind, 4, level);
            // Choices and letters are given to choose from.
            if !it.choices.is_empty() || *kind == Kind::Letters {
                continue;
            }
            stage(&mut state, Stage::Asked(put(it.clone())));
            for size in [(200, 60), (60, 20)] {
                sized(&mut state, size);
                let (answer, screen) = (it.answer.to_string(), screen(&state));
                assert!(!screen.contains(&answer), "{kind} {answer}\n{screen}");
            }
        }
    }
}

#[test]
fn what_was_answered_wrongly_is_seen_beside_what_is_right() {
    let mut state = state();
    let mut seen = 0;
    for kind in Kind::ALL {
        let it = question(&state, *kind, 3, Level::Second);
        for (reply, told) in mistaken(&it) {
            let yours = given(&it, &told);
            // What lies in one cell with the right answer is told by its name alone.
            let names = yours.iter().filter_map(|it| match it {
                Shown::Point { label, .. } | Shown::Line { label, .. } => Some(label.clone()),
                _ => None,
            });
            let names: Vec<String> = names.filter(|name| !name.is_empty()).collect();
            if yours.is_empty() {
                continue;
            }
            stage(&mut state, Stage::Marked(put(it.clone()), told));
            for size in [(110, 32), (60, 20)] {
                sized(&mut state, size);
                let chart = rows_of(&drawn(&state), state.layout().chart).join("\n");
                let is_named = names.iter().any(|name| chart.contains(name));
                assert!(chart.contains('⊗') || is_named, "{kind}: {reply}\n{chart}");
                seen += 1;
            }
        }
    }
    assert!(seen > 60, "{seen}");
}

#[test]
fn what_has_no_place_on_the_chart_is_drawn_in_the_pane() {
    let mut state = state();
    let mut seen = 0;
    for kind in Kind::ALL {
        let it = question(&state, *kind, 3, Level::Third);
        for (_, told) in mistaken(&it).filter(|_| it.has_figure()) {
            let right = Told { mark: None, ..told.clone() };
            for size in SIZES {
                sized(&mut state, size);
                stage(&mut state, Stage::Marked(put(it.clone()), told.clone()));
                let all = read(&mut state);
                assert!(all.contains('◎') && all.contains('⊗'), "{kind} {size:?}\n{all}");
                seen += 1;
            }
            stage(&mut state, Stage::Marked(put(it.clone()), right));
            let all = read(&mut state);
            assert!(all.contains('◎') && !all.contains('⊗'), "{kind}\n{all}");
        }
    }
    assert!(seen > 60, "{seen}");
}

#[test]
fn a_back_bearing_is_seen_to_lead_the_other_way() {
    let mut state = state();
    let it = question(&state, Kind::Bearing, 3, Level::First);
    let [Shown::Line { from, to, .. }] = it.drawn[..] else { panic!("one line is drawn") };
    let back = it.mistakes.iter().find(|it| it.kind == MistakeKind::BackForBearing).unwrap();
    let told = told(&it, &back.answer.to_string());
    let [Shown::Line { to: other, .. }] = given(&it, &told)[..] else { panic!("one line") };
    let apart = ((to - from) + (other - from)).x.hypot(((to - from) + (other - from)).y);
    assert!(apart < 1.0, "{apart}");
    stage(&mut state, Stage::Marked(put(it), told));
    sized(&mut state, (200, 60));
    let all = screen(&state);
    assert!(all.contains("<⊗>"), "{all}");
}

/// Where on the screen the chart has signs of its own.
fn signs(state: &State) -> Vec<(Cell, String)> {
    let glyphs = Sign::ALL.map(|sign| sign.symbol().glyph.to_string());
    let (buffer, sea) = (drawn(state), state.layout().sea());
    let cells = sea.positions().map(|cell| (cell, buffer[cell].symbol().to_owned()));
    cells.filter(|(_, symbol)| glyphs.contains(symbol)).collect()
}

#[test]
fn no_word_or_line_covers_a_sign_of_the_chart() {
    let mut state = state();
    for kind in Kind::ALL {
        let it = question(&state, *kind, 6, Level::Second);
        let mut bare = it.clone();
        (bare.shown, bare.drawn, bare.choices) = (Vec::new(), Vec::new(), Vec::new());
        for size in [(200, 60), (110, 32)] {
            stage(&mut state, Stage::Asked(put(bare.clone())));
            sized(&mut state, size);
            let signs = signs(&state);
            assert!(signs.len() > 5, "{}", signs.len());
            for (reply, told) in mistaken(&it).take(2) {
                stage(&mut state, Stage::Marked(put(it.clone()), told));
                let shown = drawn(&state);
                for (cell, sign) in &signs {
                    assert_eq!(shown[*cell].symbol(), sign, "{kind} {reply} {cell}");
                }
            }
        }
    }
}

#[rstest]
fn plain_dots_have_plain_signs(#[values((200, 60), (80, 24), (60, 20))] size: (u16, u16)) {
    let mut state = state();
    state.settings.dots = DotSet::Ascii;
    for kind in Kind::ALL {
        let it = question(&state, *kind, 3, Level::Second);
        let told = mistaken(&it).next().map(|(_, told)| told);
        let told =
            told.unwrap_or_else(|| Told { reply: String::new(), at: None, mark: None, top: 0 });
        for next in [Stage::Asked(put(it.clone())), Stage::Marked(put(it.clone()), told)] {
            stage(&mut state, next);
            sized(&mut state, size);
            let screen = screen(&state);
            assert!(screen.is_ascii(), "{kind}\n{screen}");
        }
    }
}

#[test]
fn a_choice_is_where_it_is_seen_to_be() {
    let mut state = state();
    for (kind, size) in [(Kind::Card, (110, 32)), (Kind::Card, (60, 20)), (Kind::Find, (80, 24))] {
        let it = question(&state, kind, 3, Level::Third);
        let count = it.choices.len();
        stage(&mut state, Stage::Asked(put(it)));
        sized(&mut state, size);
        let mut found = std::collections::BTreeSet::new();
        for top in 0..=last_top(&state) {
            if let Stage::Asked(put) = &mut state.practice.drill.as_mut().unwrap().stage {
                put.top = top;
            }
            let buffer = drawn(&state);
            for cell in state.layout().drill.positions() {
                if let Some(index) = choice_at(&state, cell) {
                    found.insert(index);
                }
                let letter = buffer[cell].symbol().to_owned();
                let next = Cell { x: cell.x + 1, ..cell };
                let is_letter = next.x < size.0 && buffer[next].symbol() == ")";
                if let ('a'..='z', true) = (letter.chars().next().unwrap(), is_letter) {
                    let index = usize::from(letter.as_bytes()[0] - b'a');
                    assert_eq!(choice_at(&state, cell), Some(index), "{letter} at {cell}");
                }
            }
        }
        assert_eq!(found.len(), count, "{kind} {size:?}");
    }
}

#[test]
fn the_chart_does_not_move_while_a_question_stands() {
    let mut state = state();
    for kind in Kind::ALL {
        let it = question(&state, *kind, 3, Level::Second);
        for size in [(80, 24), (60, 20), (100, 50)] {
            stage(&mut state, Stage::Asked(put(it.clone())));
            sized(&mut state, size);
            let before = state.layout();
            let not_understood = Some("“x” is no bearing; write three figures".to_owned());
            let line = Some(Line::new("x"));
            let later = Put { hints: 2, not_understood, line, ..put(it.clone()) };
            stage(&mut state, Stage::Asked(later));
            assert_eq!(state.layout(), before, "{kind} {size:?}");
        }
    }
}

/// An answer to keep of a question.
fn answered(it: &Question, told: &Told) -> Answered {
    Answered::new(it, "Test Water", told.mark.as_ref(), began(), SignedDuration::from_secs(40))
}

#[test]
fn in_the_end_it_is_told_how_it_went() {
    let mut state = state();
    let mut record = practice::memory::Record::default();
    for seed in 0..4 {
        let it = question(&state, Kind::Bearing, seed, Level::First);
        let back = it.mistakes.iter().find(|it| it.kind == MistakeKind::BackForBearing).unwrap();
        let kept = answered(&it, &told(&it, &back.answer.to_string()));
        assert!(record.keep(kept.clone()));
        state.practice.drill.as_mut().unwrap().sitting.note(kept);
    }
    let it = question(&state, Kind::Back, 1, Level::First);
    let right = answered(&it, &told(&it, &it.answer.to_string()));
    state.practice.drill.as_mut().unwrap().sitting.note(right);
    state.practice.record = Some(Arc::new(record));
    state.practice.not_kept = Some("the disk is full".to_owned());
    stage(&mut state, Stage::Over);
    for size in SIZES {
        sized(&mut state, size);
        let all = read(&mut state);
        for said in
            ["1 of 5 right", "the back bearing for the bearing, 4 times", "the disk is full"]
        {
            has_words(&all, said, "");
        }
        has_words(&all, "bearings: 4 of the last 4", "recurs");
        has_words(&all, "For practice, not for navigation.", "caution");
    }
}

#[test]
fn how_far_it_is_stands_in_the_heading() {
    let mut state = state();
    let it = question(&state, Kind::LatLon, 3, Level::Third);
    state.practice.drill.as_mut().unwrap().until = Some(began() + SignedDuration::from_secs(361));
    stage(&mut state, Stage::Asked(put(it)));
    for size in SIZES {
        sized(&mut state, size);
        let screen = screen(&state);
        // The pane is narrowest at the foot of a small screen and in the least column.
        let narrow = matches!(size.0, 60 | 110);
        let far = if narrow { " 3 of 10, 7 min left" } else { "question 3 of 10, 7 min left" };
        assert!(screen.contains(far), "{screen}");
        assert!(screen.contains("latitude and longitude, level 3"), "{screen}");
    }
    state.practice.drill.as_mut().unwrap().until = Some(began());
    assert!(screen(&state).contains("3 of 10, the last"));
}
