//! Practice that was begun and not ended, as a session keeps it.

use files::{KeptQuestion, KeptSitting, Session};
use jiff::{SignedDuration, Timestamp};
use practice::memory::{self, Record};
use practice::{Kind, Level, Long, Plan, Sitting};

use crate::State;
use crate::action::Act;
use crate::state::{Again, Drill, Line, Practice, Put, Stage};

/// Puts what was laid down on this chart where it is found, and gives a word about it.
pub(super) fn take_out(state: &mut State, session: &Session, now: Timestamp) -> Option<String> {
    let here = &state.chart.title;
    let elsewhere = session.sittings.keys().filter(|title| *title != here);
    state.practice.elsewhere = elsewhere.cloned().collect();
    let drill = session.sittings.get(here).and_then(|kept| drill(kept, now))?;
    let word = drill.place();
    state.practice.drill = Some(drill);
    let key = state.keymap.shown(Act::DrillList)?;
    Some(format!("practice is laid down at {word}; {key} goes on with it"))
}

/// What is kept of the practice at an instant; nothing of what is ended, or has not begun.
pub(super) fn kept(practice: &Practice, now: Timestamp) -> Option<KeptSitting> {
    let drill = practice.drill.as_ref().filter(|drill| !drill.is_ended())?;
    let (minutes, questions) = (drill.sitting.minutes(), drill.sitting.count());
    let (kinds, level, seed) = match drill.sitting.plan() {
        Plan::Due(_) => (Vec::new(), Level::First, 0),
        Plan::Kinds { kinds, level, seed, .. } => (kinds.clone(), *level, *seed),
        // A set is begun from its file.
        Plan::Set(_) => return None,
    };
    let mut record = Record::default();
    let all_kept = drill.sitting.answered().iter().all(|it| record.keep(it.clone()));
    let left = drill.until.map(|until| until.duration_since(drill.laid_down.unwrap_or(now)));
    all_kept.then(|| KeptSitting {
        minutes,
        questions,
        kinds: kinds.iter().map(|kind| kind.name().to_owned()).collect(),
        level: level.number(),
        seed,
        left_s: left.map(|left| left.as_secs()),
        answered: memory::write(&record),
        asked: asked(drill),
    })
}

fn asked(drill: &Drill) -> Option<KeptQuestion> {
    let of = |kind: Kind, level: Level, seed, hints, draft| KeptQuestion {
        kind: kind.name().to_owned(),
        level: level.number(),
        seed,
        hints,
        draft,
    };
    match &drill.stage {
        Stage::Asked(Put { question, hints, line, draft, .. }) => {
            let draft = line.as_ref().unwrap_or(draft);
            let it = question.as_ref();
            Some(of(it.kind, it.level, it.seed, *hints, Line::text(draft)))
        }
        // It was not put again yet.
        _ => {
            let it = drill.again.as_ref()?;
            Some(of(it.kind, it.level, it.seed, it.hints, it.draft.clone()))
        }
    }
}

/// What was kept, as far as it can be used.
fn drill(kept: &KeptSitting, now: Timestamp) -> Option<Drill> {
    let answered = memory::read(&kept.answered).ok()?.answered().to_vec();
    let sitting = Sitting::again(plan(kept)?, answered);
    let left = kept.left_s.map(SignedDuration::from_secs);
    let until = left.map(|left| now.saturating_add(left).unwrap_or(now));
    let again = kept.asked.as_ref().and_then(|it| {
        let (kind, level) = (it.kind.parse().ok()?, Level::from_number(it.level).ok()?);
        Some(Again { kind, level, seed: it.seed, hints: it.hints, draft: it.draft.clone() })
    });
    let stage = Stage::Throwing;
    Some(Drill { sitting, until, laid_down: Some(now), again, stage, top: 0 })
}

fn plan(kept: &KeptSitting) -> Option<Plan> {
    if kept.kinds.is_empty() {
        let minutes = kept.minutes.map(Long::Minutes);
        return Some(Plan::Due(minutes.or(kept.questions.map(Long::Questions))?));
    }
    let kinds = kept.kinds.iter().map(|kind| kind.parse().ok()).collect::<Option<Vec<Kind>>>()?;
    let (level, count) = (Level::from_number(kept.level).ok()?, kept.questions?);
    Some(Plan::Kinds { kinds, level, seed: kept.seed, count })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::driver::Driver;
    use crate::testing::tidal;

    /// The same program begun anew, with what was kept.
    fn again(driver: &Driver, now: Timestamp) -> Driver {
        let sitting = kept(&driver.state.practice, now);
        let mut session = Session::default();
        session.lay_down(&driver.state.chart.title, sitting);
        let mut next = tidal(80, 24);
        next.record = driver.record.clone();
        next.clock = now;
        take_out(&mut next.state, &session, now);
        next
    }

    fn drill(driver: &Driver) -> &Drill {
        driver.state.practice.drill.as_ref().unwrap()
    }

    fn put(driver: &Driver) -> Put {
        driver.state.practice.asked().unwrap().clone()
    }

    #[test]
    fn what_is_kept_goes_on_at_the_same_question_with_the_same_tally() {
        // What is due by number and by time, and a kind; left on the chart and in the line, with a hint.
        for begin in ["b Down Enter", "b Enter", "b Down*9 Enter"] {
            for leave in ["", "Tab a '12'", "a '12' Esc Esc"] {
                let mut driver = tidal(80, 24);
                driver.keys(&format!("{begin} o Enter o Enter {leave}")).unwrap();
                let now = driver.clock.saturating_add(SignedDuration::from_hours(30)).unwrap();
                let mut next = again(&driver, now);
                assert!(next.state.practice.elsewhere.is_empty());
                next.keys("b Enter").unwrap();
                let (before, after) = (put(&driver), put(&next));
                assert_eq!(after.question, before.question, "{begin} {leave}");
                assert_eq!((after.number, after.hints), (3, before.hints));
                let text = before.line.as_ref().unwrap_or(&before.draft).text();
                assert_eq!(after.draft.text(), text);
                assert_eq!(drill(&next).sitting, drill(&driver).sitting);
            }
        }
    }

    #[test]
    fn the_time_that_is_left_stays_left() {
        let mut driver = tidal(80, 24);
        driver.keys("b Enter").unwrap();
        let began = driver.clock;
        driver.keys("o Enter").unwrap();
        let left = drill(&driver).until.unwrap().duration_since(driver.clock);
        let mut next = again(&driver, driver.clock);
        next.clock = began.saturating_add(SignedDuration::from_hours(5)).unwrap();
        next.keys("b Enter").unwrap();
        let after = drill(&next).until.unwrap().duration_since(next.clock);
        assert!((after.as_secs() - left.as_secs()).abs() <= 60, "{after} {left}");
    }

    #[test]
    fn what_was_marked_is_not_asked_again_and_what_is_over_is_not_kept() {
        let mut driver = tidal(80, 24);
        driver.keys("b Down*9 Enter o").unwrap();
        let mut next = again(&driver, driver.clock);
        next.keys("b Enter").unwrap();
        assert_eq!(put(&next).number, 2);
        driver.keys("Enter o Enter o Enter o Enter o Enter").unwrap();
        assert!(drill(&driver).is_ended());
        assert_eq!(kept(&driver.state.practice, driver.clock), None);
    }

    #[test]
    fn what_cannot_be_used_is_passed_over() {
        let now = Timestamp::UNIX_EPOCH;
        let kinds = |names: &[&str]| KeptSitting {
            kinds: names.iter().map(|&name| name.to_owned()).collect(),
            level: 1,
            questions: Some(3),
            ..KeptSitting::default()
        };
        assert!(super::drill(&kinds(&["back"]), now).is_some());
        assert!(super::drill(&kinds(&["back", "knitting"]), now).is_none());
        assert!(super::drill(&KeptSitting { level: 9, ..kinds(&["back"]) }, now).is_none());
        assert!(super::drill(&KeptSitting::default(), now).is_none());
        let answered = "nothing".to_owned();
        assert!(super::drill(&KeptSitting { answered, ..kinds(&["back"]) }, now).is_none());
    }

    #[test]
    fn what_is_laid_down_on_another_chart_is_said() {
        let mut driver = tidal(80, 24);
        driver.keys("b Enter").unwrap();
        let mut session = Session::default();
        session.lay_down("Hollow Sound", kept(&driver.state.practice, driver.clock));
        let mut next = tidal(80, 24);
        assert_eq!(take_out(&mut next.state, &session, driver.clock), None);
        assert!(next.state.practice.drill.is_none());
        next.keys("b").unwrap();
        let screen = crate::picture::text(&next.buffer(&crate::theme::Theme::default()));
        assert!(screen.contains("Laid down on “Hollow Sound”"), "{screen}");
    }
}
