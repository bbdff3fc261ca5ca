//! What is drawn of an answer: the right one, and one that was given.

use chart::Point;

use super::Water;
use crate::{
    Answer, Ground, Kind, Level, Mistake, MistakeKind, Question, Reply, Shown, ask, seed_of,
};

/// What each kind draws of its answer on the chart, but for the hours along a line; a question of time, height or letters alone has no
/// place there, and is drawn in cells of text.
fn draws(kind: Kind) -> &'static str {
    match kind {
        Kind::Reference | Kind::Find | Kind::Figures => "square, point",
        Kind::LatLon => "line, line, point",
        Kind::ByEye | Kind::Bearing | Kind::DistanceByEye | Kind::DistanceBySquares => "line",
        Kind::Back => "line, line",
        Kind::ToMagnetic | Kind::ToGrid => "line, line, line, line",
        Kind::AlongShore => "path",
        Kind::Heading => "line, line, line",
        Kind::Fix | Kind::Where => "line, line, point",
        Kind::Card => "line",
        Kind::Time | Kind::Distance => "line, point",
        _ => "",
    }
}

fn what(drawn: &[Shown]) -> String {
    let name = |it: &Shown| match it {
        Shown::Point { .. } => "point",
        Shown::Tick { .. } => "hour",
        Shown::Line { .. } => "line",
        Shown::Path(_) => "path",
        Shown::Square(_) => "square",
    };
    drawn.iter().map(name).filter(|name| *name != "hour").collect::<Vec<_>>().join(", ")
}

fn asked(ground: &Ground<'_>, kind: Kind, seed: u64) -> Question {
    ask(kind, ground, seed_of(5, seed), Level::Second).unwrap()
}

#[test]
fn the_answer_is_drawn_wherever_it_has_a_place_on_the_chart() {
    let water = Water::practice();
    for &kind in Kind::ALL {
        for seed in 0..20 {
            let question = asked(&water.ground(), kind, seed);
            assert_eq!(what(&question.drawn), draws(kind), "{kind} {question:#?}");
            assert!(!question.drawn.is_empty() || question.has_figure(), "{kind}");
        }
    }
}

/// Whatever is drawn of the right answer is drawn of a wrong one that is named, elsewhere.
#[test]
fn a_named_mistake_is_drawn_beside_the_answer() {
    let water = Water::practice();
    let mut drawn = 0;
    for &kind in Kind::ALL {
        for seed in 0..40 {
            let question = asked(&water.ground(), kind, seed);
            for mistake in &question.mistakes {
                let way = question.drawn_reply(&mistake.answer.reply(), Some(mistake.kind));
                // Longer than the shore's line, or beyond what the grid can say.
                let off = match kind {
                    Kind::AlongShore => mistake.kind == MistakeKind::WrongScale,
                    _ => kind == Kind::LatLon && mistake.kind != MistakeKind::MinuteOffByOne,
                };
                assert!(
                    !way.is_empty() || draws(kind).is_empty() || off,
                    "{mistake:?} {question:#?}"
                );
                assert!(way.is_empty() || way != question.drawn, "{mistake:?} {question:#?}");
                drawn += usize::from(!way.is_empty());
            }
        }
    }
    assert!(drawn > 1500, "{drawn}");
}

/// Where two mistakes lead to one answer, the one is drawn that is named: that which this learner made before.
#[test]
fn of_two_mistakes_the_one_that_is_named_is_drawn() {
    let water = Water::practice();
    let drawn = |it: &&Mistake| !it.drawn.is_empty();
    let questions = Kind::ALL.iter().map(|&kind| asked(&water.ground(), kind, 3));
    let mut found =
        questions.filter(|it| it.mistakes.len() > 1 && it.mistakes.iter().any(|it| drawn(&it)));
    let mut question = found.next().unwrap();
    let first = question.mistakes.iter().find(drawn).unwrap().clone();
    let kind = question.mistakes.iter().map(|it| it.kind).find(|it| *it != first.kind).unwrap();
    let drawn = vec![Shown::Point { at: Point { x: 1.0, y: 2.0 }, label: "here".to_owned() }];
    let second = Mistake { kind, drawn: drawn.clone(), ..first.clone() };
    question.mistakes = vec![first.clone(), second];
    let reply = first.answer.reply();
    for (lately, named, way) in [(vec![], first.kind, &first.drawn), (vec![kind], kind, &drawn)] {
        let mark = question.mark_knowing(&reply, &lately);
        assert_eq!(mark.mistake, Some(named));
        assert_eq!(question.drawn_reply(&reply, mark.mistake), *way);
    }
}

fn line(drawn: &[Shown]) -> (Point, Point, &str) {
    match drawn {
        [Shown::Line { from, to, label }] => (*from, *to, label),
        _ => panic!("{drawn:?}"),
    }
}

fn grid_bearing((from, to, _): (Point, Point, &str)) -> f64 {
    (to.x - from.x).atan2(to.y - from.y).to_degrees().rem_euclid(360.0)
}

/// By the plane's own trigonometry.
#[test]
fn a_wrong_bearing_is_the_line_turned_and_a_wrong_distance_the_line_stretched() {
    let water = Water::practice();
    let question = asked(&water.ground(), Kind::Bearing, 3);
    let Answer::Bearing { degrees, .. } = question.answer else { panic!() };
    let given = (degrees + 77.0).rem_euclid(360.0);
    let drawn = question.drawn_reply(&Reply::Bearing { degrees: given, north: None }, None);
    let found = grid_bearing(line(&drawn));
    assert!((found - given).abs() < 0.6, "{found} {given}");
    assert_eq!(line(&drawn).2, Answer::bearing(given, crate::NorthOf::Grid).to_string());
    assert_eq!(line(&drawn).0, line(&question.drawn).0);

    let question = asked(&water.ground(), Kind::DistanceBySquares, 3);
    let long = |drawn: &[Shown]| {
        let (from, to, _) = line(drawn);
        (to - from).x.hypot((to - from).y) / 1000.0
    };
    let drawn = question.drawn_reply(&question.read("3.3 km").unwrap(), None);
    assert!((long(&drawn) - 3.3).abs() < 0.05, "{drawn:?}");
    assert_eq!(line(&drawn).2, "3.3 km");
}

#[test]
fn a_reference_is_its_square_and_a_fix_the_marks_lines() {
    let water = Water::practice();
    let question = asked(&water.ground(), Kind::Reference, 1);
    let drawn = question.drawn_reply(&question.read("QB 731 508").unwrap(), None);
    let [Shown::Square(square), Shown::Point { label, .. }] = &drawn[..] else { panic!() };
    assert_eq!(square.south_west.easting.as_metres().rem_euclid(1e5).round(), 73_100.0);
    assert_eq!(label, "QB 731 508");

    let question = asked(&water.ground(), Kind::Fix, 1);
    let drawn = question.drawn_reply(&question.read("QB 731 508").unwrap(), None);
    assert_eq!(what(&drawn), "line, line, point");
    let question = asked(&water.ground(), Kind::Card, 1);
    let drawn = question.drawn_reply(&Reply::Choice(0), None);
    assert_eq!(line(&drawn).2, "leg 1");
}

/// A way along the shore that is said to be shorter ends where so much of it is gone.
#[test]
fn a_shorter_way_ends_on_the_shore() {
    let water = Water::practice();
    let question = asked(&water.ground(), Kind::AlongShore, 2);
    let Answer::Amount { value, .. } = question.answer else { panic!() };
    let length = |drawn: &[Shown]| {
        let [Shown::Path(points)] = drawn else { panic!("{drawn:?}") };
        let side = |pair: &[Point]| (pair[1] - pair[0]).x.hypot((pair[1] - pair[0]).y);
        points.windows(2).map(side).sum::<f64>()
    };
    let part = question.drawn_reply(&Reply::Amount(value * 0.7), None);
    assert!((length(&part) / length(&question.drawn) - 0.7).abs() < 1e-6);
    assert!(question.drawn_reply(&Reply::Amount(value * 1.4), None).is_empty());
}
