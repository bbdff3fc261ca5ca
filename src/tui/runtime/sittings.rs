//! Practice that was begun and not ended, as a session keeps it.

use files::{KeptQuestion, KeptSet, KeptSitting, Session, sum_of};
use jiff::{SignedDuration, Timestamp};
use practice::memory::{self, Record};
use practice::set::{Changed, Set};
use practice::{Kind, Level, Long, Plan, Sitting};

use crate::State;
use crate::action::Act;
use crate::state::{Again, Drill, Line, Practice, Put, Stage};

/// Puts what was laid down where it is found, and gives a word about it: of the set that is opened with the checksum of its chart, if
/// one is, else on this chart, a set only where there is nothing else.
pub(super) fn take_out(
    state: &mut State,
    session: &Session,
    opened: Option<(&Set, u32)>,
    now: Timestamp,
) -> Option<String> {
    let here = state.chart.title.clone();
    // What the chart says is summed up only where a set may have been left on it.
    let titled = session.sets.values().any(|kept| kept.chart == here);
    let sum = opened.map(|(_, sum)| sum).or_else(|| titled.then(|| sum_of(&state.chart)));
    let is_here = |kept: &KeptSet| kept.chart == here && Some(kept.sum) == sum;
    state.practice.elsewhere = elsewhere(session, &here, is_here);
    if let Some((set, sum)) = opened {
        // Of a set that was changed since, or its chart, what is taken out is told of and ends.
        let kept = session.sets.get(&set.title);
        let changed = kept.and_then(|kept| kept.changed(set, sum));
        state.practice.chart_changed = changed == Some(Changed::Chart);
        state.practice.drill = kept.and_then(|kept| of_set(kept, now));
        return None;
    }
    let on_chart = session.sittings.get(&here).and_then(|kept| drill(kept, plan(kept)?, now));
    let mut sets = session.sets.values().filter(|kept| is_here(kept));
    let drill = on_chart.or_else(|| sets.find_map(|kept| of_set(kept, now)))?;
    let word = match drill.sitting.plan() {
        Plan::Set(set) => format!("“{}” is laid down at {}", set.title, drill.place()),
        Plan::Due(_) | Plan::Kinds { .. } => format!("practice is laid down at {}", drill.place()),
    };
    state.practice.drill = Some(drill);
    let key = state.keymap.shown(Act::DrillList)?;
    Some(format!("{word}; {key} goes on with it"))
}

/// What is laid down and can be gone on with after another start, in words.
fn elsewhere(session: &Session, here: &str, is_here: impl Fn(&KeptSet) -> bool) -> Vec<String> {
    let charts = session.sittings.keys().filter(|title| *title != here);
    let charts = charts.map(|title| format!("Laid down on “{title}”: open that chart to go on."));
    let sets = session.sets.iter().filter(|(_, kept)| !is_here(kept));
    let sets = sets.map(|(title, _)| format!("Laid down: the set “{title}”; open it to go on."));
    charts.chain(sets).collect()
}

/// Keeps what was begun and not ended: a set by its title, all else by the title of the chart. Beside a set that was opened,
/// whose chart has this checksum, nothing else is kept: what is laid down on its chart stays where it is.
pub(super) fn keep(session: &mut Session, state: &State, opened: Option<u32>, now: Timestamp) {
    let (practice, chart) = (&state.practice, &state.chart.title);
    match practice.drill.as_ref().map(|drill| drill.sitting.plan()) {
        // As it was left on another chart, until it begins anew.
        Some(Plan::Set(_)) if practice.chart_changed => {}
        Some(Plan::Set(set)) => {
            let before = session.sets.get(&set.title).map(|kept| kept.sum);
            let kept = kept(practice, now).zip(opened.or(before));
            let kept = kept.map(|(sitting, sum)| {
                let (text, chart) = (practice::set::write(set), chart.clone());
                KeptSet { text, chart, sum, sitting }
            });
            session.lay_down_set(&set.title, kept);
        }
        _ if opened.is_some() => {}
        _ => session.lay_down(chart, kept(practice, now)),
    }
}

/// What is kept of the practice at an instant; nothing of what is ended, or has not begun.
fn kept(practice: &Practice, now: Timestamp) -> Option<KeptSitting> {
    let drill = practice.drill.as_ref().filter(|drill| !drill.is_ended())?;
    let (minutes, questions) = (drill.sitting.minutes(), drill.sitting.count());
    let (kinds, level, seed) = match drill.sitting.plan() {
        Plan::Due(_) => (Vec::new(), Level::First, 0),
        Plan::Kinds { kinds, level, seed, .. } => (kinds.clone(), *level, *seed),
        // Its text is kept, and tells them.
        Plan::Set(_) => (Vec::new(), Level::First, 0),
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

/// A set that was kept.
fn of_set(kept: &KeptSet, now: Timestamp) -> Option<Drill> {
    let set = practice::set::read(&kept.text).ok()?;
    drill(&kept.sitting, Plan::Set(set), now)
}

/// What was kept, as far as it can be used.
fn drill(kept: &KeptSitting, plan: Plan, now: Timestamp) -> Option<Drill> {
    let answered = memory::read(&kept.answered).ok()?.answered().to_vec();
    let sitting = Sitting::again(plan, answered);
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
    use crate::Msg;
    use crate::driver::Driver;
    use crate::testing::tidal;

    /// The same program begun anew, with what was kept.
    fn again(driver: &Driver, now: Timestamp) -> Driver {
        let mut session = Session::default();
        keep(&mut session, &driver.state, None, now);
        begun(&session, None, driver, now)
    }

    /// The program begun with a session, and with a set.
    fn begun(session: &Session, set: Option<&Set>, before: &Driver, now: Timestamp) -> Driver {
        on(tidal(80, 24), session, set, before, now)
    }

    /// The same on a chart of its own.
    fn on(
        mut next: Driver,
        session: &Session,
        set: Option<&Set>,
        before: &Driver,
        now: Timestamp,
    ) -> Driver {
        next.record = before.record.clone();
        next.clock = now;
        let opened = set.map(|set| (set, sum_of(&next.state.chart)));
        if let Some(word) = take_out(&mut next.state, session, opened, now) {
            next.state.say(word);
        }
        if let Some(set) = set {
            next.send(Msg::Practise(Plan::Set(set.clone())));
        }
        next
    }

    fn message(driver: &Driver) -> &str {
        driver.state.message.as_ref().map_or("", |message| &message.text)
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
        // Left when its last question is marked, before its end is seen: there is no sixth question.
        driver.keys("Enter o Enter o Enter o Enter o").unwrap();
        let mut next = again(&driver, driver.clock);
        assert_eq!(drill(&next).place(), "its end, 5 of 5 answered");
        next.keys("b Enter").unwrap();
        assert!(drill(&next).is_ended());
        driver.keys("Enter").unwrap();
        assert!(drill(&driver).is_ended());
        assert_eq!(kept(&driver.state.practice, driver.clock), None);
    }

    const SET: &str = r#"(version: 1, title: "Week 3", words: "No notes.", hints: false, seed: 5,
        parts: [(kinds: ["back"], count: 3, tolerance: Degrees(9)), (kinds: ["to-grid"], count: 1)])"#;

    /// The checksum of the chart that everything here is worked on.
    fn sum() -> u32 {
        sum_of(&tidal(80, 24).state.chart)
    }

    /// A set worked on to its second question, with an answer begun, and left.
    fn left() -> (Set, Session, Driver) {
        let set = practice::set::read(SET).unwrap();
        let mut session = Session::default();
        let mut driver = begun(&session, Some(&set), &tidal(80, 24), Timestamp::UNIX_EPOCH);
        assert_eq!(message(&driver), "No notes.");
        driver.keys("o Enter a '12'").unwrap();
        keep(&mut session, &driver.state, Some(sum()), driver.clock);
        (set, session, driver)
    }

    #[test]
    fn a_set_goes_on_where_it_was_left_when_it_is_opened_again() {
        let (set, session, driver) = left();
        let next = begun(&session, Some(&set), &driver, driver.clock);
        // With the coach's tolerance, and none of the hints that the set does not give.
        assert_eq!(put(&next).question, put(&driver).question);
        assert_eq!((put(&next).number, put(&next).draft.text().as_str()), (2, "12"));
        assert_eq!(message(&next), "“Week 3” goes on where it was left, at question 2 of 4");
        // To its end, where it is not kept any more.
        let mut next = next;
        next.keys("o Enter o Enter o Enter").unwrap();
        assert!(drill(&next).is_ended());
        assert!(drill(&next).sitting.answered().iter().all(|it| it.set == "Week 3"));
        let mut session = session;
        keep(&mut session, &next.state, Some(sum()), next.clock);
        assert!(session.sets.is_empty());
    }

    #[test]
    fn a_set_that_was_left_is_in_the_list_of_its_chart_without_its_file() {
        let (_, mut session, driver) = left();
        let mut next = begun(&session, None, &driver, driver.clock);
        assert_eq!(message(&next), "“Week 3” is laid down at question 2 of 4; b goes on with it");
        next.keys("b").unwrap();
        let screen = crate::picture::text(&next.buffer(&crate::theme::Theme::default()));
        assert!(screen.contains("Go on: Week 3"), "{screen}");
        assert!(screen.contains("question 2 of 4"), "{screen}");
        next.keys("Enter").unwrap();
        assert_eq!(put(&next).question, put(&driver).question);
        // It is kept again though nobody opened its file, and something else that is begun does not end it.
        next.keys("o Enter").unwrap();
        keep(&mut session, &next.state, None, next.clock);
        let next = begun(&session, None, &next, next.clock);
        assert_eq!(drill(&next).place(), "question 3 of 4");
        let mut next = next;
        next.keys("b Down Down Enter").unwrap();
        keep(&mut session, &next.state, None, next.clock);
        assert_eq!((session.sets.len(), session.sittings.len()), (1, 1));
        // On another chart it is told of.
        if let Some(kept) = session.sets.get_mut("Week 3") {
            kept.chart = "Hollow Sound".to_owned();
        }
        session.sittings.clear();
        let mut next = begun(&session, None, &next, next.clock);
        assert!(next.state.practice.drill.is_none());
        next.keys("b").unwrap();
        let screen = crate::picture::text(&next.buffer(&crate::theme::Theme::default()));
        assert!(screen.contains("Laid down: the set “Week 3”; open it to go on."), "{screen}");
    }

    #[test]
    fn a_set_that_was_edited_begins_anew_and_says_so() {
        let (_, mut session, driver) = left();
        // Only a comment and spaces: the same set.
        let same = format!("// For Signe.\n{SET}\n");
        let same = practice::set::read(&same).unwrap();
        assert_eq!(put(&begun(&session, Some(&same), &driver, driver.clock)).number, 2);
        let text = SET.replace("seed: 5", "seed: 6");
        let edited = practice::set::read(&text).unwrap();
        let mut next = begun(&session, Some(&edited), &driver, driver.clock);
        assert_eq!(put(&next).number, 1);
        assert_ne!(put(&next).question, put(&driver).question);
        assert_eq!(
            message(&next),
            "“Week 3” was edited since it was left at question 2 of 4; it begins anew, and the answers stay in the record. No notes."
        );
        // So it does where its chart is another one now.
        let mut moved = session.clone();
        if let Some(kept) = moved.sets.get_mut("Week 3") {
            kept.chart = "Hollow Sound".to_owned();
        }
        assert!(
            message(&begun(&moved, Some(&edited), &driver, driver.clock)).contains("was edited")
        );
        next.keys("o Enter").unwrap();
        keep(&mut session, &next.state, Some(sum()), next.clock);
        let next = begun(&session, Some(&edited), &next, next.clock);
        assert_eq!(drill(&next).place(), "question 2 of 4");
    }

    #[test]
    fn a_set_whose_chart_was_changed_begins_anew_and_says_so() {
        let (set, mut session, driver) = left();
        let changed = |title: &str| {
            let mut next = tidal(80, 24);
            let chart = std::sync::Arc::make_mut(&mut next.state.chart);
            chart.landings[0].at.x += 10.0;
            chart.title = title.to_owned();
            next
        };
        // Under its own title and under another.
        for title in ["Test Water", "Test Water, corrected"] {
            let next = on(changed(title), &session, Some(&set), &driver, driver.clock);
            assert_eq!(put(&next).number, 1);
            assert_eq!(
                message(&next),
                "the chart of “Week 3” was changed since the set was left at question 2 of 4; it begins anew, and the answers stay \
                 in the record. No notes."
            );
            assert_eq!(next.record, driver.record);
        }
        // In the list of the changed chart it is told of, and not to be gone on with.
        let mut next = on(changed("Test Water"), &session, None, &driver, driver.clock);
        assert!(next.state.practice.drill.is_none());
        next.keys("b").unwrap();
        let screen = crate::picture::text(&next.buffer(&crate::theme::Theme::default()));
        assert!(screen.contains("Laid down: the set “Week 3”; open it to go on."), "{screen}");
        // Begun anew it is kept on the new chart, and gone on with there.
        let mut next = on(changed("Test Water"), &session, Some(&set), &driver, driver.clock);
        let sum = sum_of(&next.state.chart);
        next.keys("o Enter o Enter").unwrap();
        keep(&mut session, &next.state, Some(sum), next.clock);
        let next = on(changed("Test Water"), &session, Some(&set), &next, next.clock);
        assert_eq!(drill(&next).place(), "question 3 of 4");
    }

    #[test]
    fn what_is_laid_down_on_the_chart_of_a_set_stays_where_it_is() {
        let mut driver = tidal(80, 24);
        driver.keys("b Down Enter o Enter").unwrap();
        let mut session = Session::default();
        keep(&mut session, &driver.state, None, driver.clock);
        let set = practice::set::read(SET).unwrap();
        let mut other = begun(&session, Some(&set), &driver, driver.clock);
        other.keys("o Enter").unwrap();
        keep(&mut session, &other.state, Some(sum()), other.clock);
        other.keys("o Enter o Enter o Enter Esc").unwrap();
        keep(&mut session, &other.state, Some(sum()), other.clock);
        let next = begun(&session, None, &driver, driver.clock);
        assert_eq!(drill(&next).sitting, drill(&driver).sitting);
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
        let drill = |kept: &KeptSitting| super::drill(kept, plan(kept)?, now);
        assert!(drill(&kinds(&["back"])).is_some());
        assert!(drill(&kinds(&["back", "knitting"])).is_none());
        assert!(drill(&KeptSitting { level: 9, ..kinds(&["back"]) }).is_none());
        assert!(drill(&KeptSitting::default()).is_none());
        let answered = "nothing".to_owned();
        assert!(drill(&KeptSitting { answered, ..kinds(&["back"]) }).is_none());
        assert!(of_set(&KeptSet::default(), now).is_none());
    }

    #[test]
    fn what_is_laid_down_on_another_chart_is_said() {
        let mut driver = tidal(80, 24);
        driver.keys("b Enter").unwrap();
        let mut session = Session::default();
        session.lay_down("Hollow Sound", kept(&driver.state.practice, driver.clock));
        let mut next = tidal(80, 24);
        assert_eq!(take_out(&mut next.state, &session, None, driver.clock), None);
        assert!(next.state.practice.drill.is_none());
        next.keys("b").unwrap();
        let screen = crate::picture::text(&next.buffer(&crate::theme::Theme::default()));
        assert!(screen.contains("Laid down on “Hollow Sound”"), "{screen}");
    }
}
