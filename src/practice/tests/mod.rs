//! The questions as a whole: thousands of each kind, their answers found again by another method.

mod again;
mod by_kind;
mod drawn;
mod hands;
mod mistakes;
mod own_water;
mod published;
mod walk;

use chart::Chart;
use chart::coast::Coast;
use chart::maker::{Wishes, make};
use rstest::rstest;

use crate::{Answer, Ground, Kind, Level, Question, Reply, Shown, ask, kind_of, seed_of};

/// A chart with its shore.
pub(crate) struct Water {
    chart: Chart,
    coast: Coast,
}

impl Water {
    fn of(chart: Chart) -> Water {
        let coast = Coast::of(&chart);
        Water { chart, coast }
    }

    pub(crate) fn practice() -> Water {
        Water::of(chart::practice().unwrap())
    }

    pub(crate) fn ground(&self) -> Ground<'_> {
        Ground::new(&self.chart, &self.coast)
    }
}

/// What must hold of every question.
fn check(question: &Question, ground: &Ground<'_>) {
    let about = || format!("{} {}: {question:#?}", question.kind, question.seed);
    assert!(question.mark_reply(&question.answer.reply()).right, "{}", about());
    // As it is printed it is right, too, and nothing is said to be off.
    let printed = question.answer.to_string();
    let mark = question.mark(&printed).unwrap();
    assert!(mark.right && mark.mistake.is_none(), "{}", about());
    for mistake in &question.mistakes {
        let mark = question.mark_reply(&mistake.answer.reply());
        assert!(!mark.right && mark.mistake.is_some(), "{mistake:?} {}", about());
    }
    let right = |choice: &&crate::Choice| question.mark(&choice.text).unwrap().right;
    let chosen = question.choices.iter().filter(right).count();
    assert_eq!(chosen, usize::from(!question.choices.is_empty()), "{}", about());
    let free = !matches!(question.answer, Answer::Square { .. } | Answer::Choice(_));
    assert!(!free || !question.text.contains(&printed), "given away: {}", about());
    assert!(!question.steps.is_empty() && question.hints.len() >= 3, "{}", about());
    nothing_is_given_away(question);
    by_kind::found_again(question, ground);
}

/// Neither the hints, nor what is written on the chart before the answer, nor the table say it.
fn nothing_is_given_away(question: &Question) {
    if matches!(question.answer, Answer::Square { .. } | Answer::Choice(_)) {
        return;
    }
    let answer = question.answer.to_string();
    let hint = question.hints.iter().find(|hint| hint.contains(&answer));
    let letters = matches!(question.answer, Answer::Letters(_));
    let mut cells = question.given.iter().flat_map(|table| &table.rows).flatten();
    assert!(letters || !cells.any(|cell| *cell == answer), "{question:#?}");
    assert_eq!(hint, None, "{answer} {question:#?}");
    for shown in &question.shown {
        let Shown::Point { label, .. } = shown else { panic!("more than a point: {question:#?}") };
        assert!(!label.contains(&answer), "{question:#?}");
    }
}

fn thousands(kind: Kind, count: u64) {
    let water = Water::practice();
    let ground = water.ground();
    let mut asked = 0;
    for seed in 0..count {
        let level = Level::ALL[(seed % 3) as usize];
        if let Some(question) = ask(kind, &ground, seed_of(1, seed), level) {
            check(&question, &ground);
            asked += 1;
        }
    }
    assert_eq!(asked, count, "{kind}");
}

macro_rules! every_kind {
    ($($name:ident $kind:ident,)*) => {
        $(
            #[test]
            fn $name() {
                thousands(Kind::$kind, IN_THE_SUITE);
            }
        )*

        #[test]
        fn no_kind_is_forgotten() {
            assert_eq!([$(Kind::$kind),*], Kind::ALL);
        }
    };
}

/// How many of each kind every run looks at.
const IN_THE_SUITE: u64 = 10_000;

every_kind! {
    references_of_marks Reference,
    places_of_references Find,
    figures_of_coordinates Figures,
    letters_of_squares Letters,
    latitudes_and_longitudes LatLon,
    bearings_by_eye ByEye,
    bearings_by_measuring Bearing,
    back_bearings Back,
    grid_to_magnetic ToMagnetic,
    magnetic_to_grid ToGrid,
    distances_by_eye DistanceByEye,
    distances_by_squares DistanceBySquares,
    distances_along_shores AlongShore,
    times Time,
    distances Distance,
    heights_of_tide Twelfths,
    rates_of_streams Rate,
    headings Heading,
    fixes Fix,
    places_after_a_while Where,
    departures Leave,
    route_cards Card,
}

#[rstest]
#[case(3)]
#[case(4)]
fn made_charts_have_questions_of_every_kind(#[case] seed: u64) {
    let wishes = Wishes { width_km: 14, height_km: 12, ..Wishes::default() };
    let water = Water::of(make(seed, &wishes).unwrap());
    let ground = water.ground();
    for &kind in Kind::ALL {
        for level in Level::ALL {
            for number in 0..6 {
                match ask(kind, &ground, seed_of(seed, number), level) {
                    Some(question) => check(&question, &ground),
                    None => assert!(
                        matches!(kind, Kind::AlongShore | Kind::Card | Kind::Fix | Kind::Where),
                        "{kind} {}",
                        level.number()
                    ),
                }
            }
        }
    }
}

#[test]
fn the_same_seed_asks_the_same() {
    let water = Water::practice();
    let (one, other) = (water.ground(), water.ground());
    for &kind in Kind::ALL {
        let asked = ask(kind, &one, 7, Level::Second);
        assert_eq!(asked, ask(kind, &other, 7, Level::Second));
        assert_ne!(asked.unwrap().text, ask(kind, &one, 8, Level::Second).unwrap().text);
    }
}

#[test]
fn a_chart_without_anything_has_the_questions_that_need_no_chart() {
    let bare = Chart {
        marks: Vec::new(),
        landings: Vec::new(),
        hazards: Vec::new(),
        ports: Vec::new(),
        streams: Vec::new(),
        races: Vec::new(),
        gates: Vec::new(),
        ..chart::practice().unwrap()
    };
    let water = Water::of(bare);
    let ground = water.ground();
    let asked: Vec<Kind> = Kind::ALL
        .iter()
        .copied()
        .filter(|kind| ask(*kind, &ground, 1, Level::First).is_some())
        .collect();
    assert_eq!(
        asked,
        [
            Kind::Figures,
            Kind::Letters,
            Kind::Back,
            Kind::ToMagnetic,
            Kind::ToGrid,
            Kind::Time,
            Kind::Distance,
            Kind::Twelfths,
            Kind::Rate,
            Kind::Heading,
        ]
    );
}

/// A thousand of all kinds by turns, and none is missing.
#[test]
fn a_mixed_thousand() {
    let water = Water::practice();
    let ground = water.ground();
    let asked = |number: usize| {
        ask(kind_of(Kind::ALL, 7, number)?, &ground, seed_of(7, number as u64), Level::Second)
    };
    assert_eq!((0..1000).filter_map(asked).count(), 1000);
}

/// The cursor is marked as words are.
#[test]
fn the_cursor_is_put_on_a_square() {
    let water = Water::practice();
    let ground = water.ground();
    let question = ask(Kind::Find, &ground, 5, Level::Second).unwrap();
    let Answer::Square { square, name } = &question.answer else { panic!() };
    let centre = crate::ground::on_chart(square.centre());
    assert!(question.mark_at(centre).right);
    let spot = ground.spots().iter().find(|spot| spot.name == *name).unwrap();
    assert!(question.mark_at(spot.at).right);
    let beside = chart::Point { x: centre.x + 100.0, y: centre.y };
    let mark = question.mark_at(beside);
    assert!(!mark.right && mark.mistake.is_some(), "{mark:?}");
    assert_eq!(mark.off.as_deref(), Some("50 m too far east"));
    assert!(!question.mark_reply(&Reply::Choice(0)).right);
}
