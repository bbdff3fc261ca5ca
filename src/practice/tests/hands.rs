//! Answers typed by hand, each with a mistake that people make.

use jiff::SignedDuration;
use nav::triangle::Stream;
use nav::{Bearing, Figures, Grid, Pace, Speed, Variation};
use rstest::rstest;

use crate::ask::heading::Triangle;
use crate::ask::norths::Norths;
use crate::ask::pace::{Run, how_far};
use crate::ask::reference::{mistakes, reference};
use crate::{MistakeKind as M, Question, Tolerance, Unit};

fn grid() -> Grid {
    chart::practice().unwrap().grid
}

/// The six-figure reference of a point 49 m east and 51 m north in its square.
fn six_figures() -> Question {
    let (grid, at) = (grid(), chart::Point { x: 673_149.0, y: 350_851.0 });
    let answer = reference(&grid, at, Figures::Six).unwrap();
    let mut question = Question::new(String::new(), answer, Tolerance::Metres(25.0), &grid);
    mistakes(&mut question, at, Figures::Six);
    question
}

/// 100°G, grid north 2° east of true, variation 7° west: 109°M.
fn compass() -> Question {
    let norths = Norths::new(2.0, -7.0, String::new(), None).unwrap();
    norths.to_magnetic(100.0, Tolerance::Exact, &grid()).unwrap()
}

/// The same the other way: 109°M is 100°G.
fn on_the_grid() -> Question {
    let norths = Norths::new(2.0, -7.0, String::new(), None).unwrap();
    norths.to_grid(109.0, Tolerance::Exact, &grid()).unwrap()
}

/// 4.3 NM at 3 kn: 86 minutes.
fn time() -> Question {
    let run = Run { distance: 4.3, unit: Unit::Miles, pace: "3 kn".parse().unwrap() };
    run.time(Tolerance::Units(2.0), &grid()).unwrap()
}

/// 8 km at 3 kn with ten minutes' rest in each hour: 104 minutes.
fn time_with_rests() -> Question {
    let pace: Pace = "3 kn".parse().unwrap();
    let pace = pace.with_rest_per_hour(SignedDuration::from_mins(10)).unwrap();
    let run = Run { distance: 8.0, unit: Unit::Kilometres, pace };
    run.time(Tolerance::Units(3.0), &grid()).unwrap()
}

/// 1 h 25 at 3 kn: 4.25 NM, 7.9 km.
fn distance() -> Question {
    let time = SignedDuration::from_mins(85);
    how_far("3 kn".parse().unwrap(), time, Unit::Kilometres, Tolerance::Units(0.1), &grid())
        .unwrap()
}

/// 090° at 4 kn across 1.5 kn of stream to the south, variation 5° west: 068°T, 073°M.
fn across() -> Question {
    let knots = |knots| Speed::from_knots(knots).unwrap();
    let degrees = |degrees| Bearing::from_degrees(degrees).unwrap();
    let triangle = Triangle {
        track: degrees(90.0),
        speed: knots(4.0),
        stream: Stream { set: degrees(180.0), drift: knots(1.5) },
        variation: Some(Variation::from_degrees_east(-5.0).unwrap()),
    };
    triangle.question(&grid()).unwrap()
}

#[rstest]
#[case(six_figures(), "QB 731 508", None)]
#[case(six_figures(), "qb731508", None)]
#[case(six_figures(), "731508", None)]
#[case(six_figures(), "QB 508 731", Some(M::EastingNorthingSwapped))]
#[case(six_figures(), "QB 731 509", Some(M::RoundedNotCounted))]
#[case(six_figures(), "QB 732 509", Some(M::NorthEastCorner))]
#[case(six_figures(), "QB 730 508", Some(M::TenthsOffByOne))]
#[case(six_figures(), "QB 741 508", Some(M::NextSquare))]
#[case(six_figures(), "QB 73 50", Some(M::FiguresTooFew))]
#[case(six_figures(), "QB 7314 5085", Some(M::FiguresTooMany))]
#[case(compass(), "109", None)]
#[case(compass(), "109 M", None)]
#[case(compass(), "095", Some(M::VariationWrongWay))]
#[case(compass(), "105", Some(M::ConvergenceWrongWay))]
#[case(compass(), "107", Some(M::GridForTrue))]
#[case(compass(), "100", Some(M::GridForMagnetic))]
#[case(compass(), "102", Some(M::TrueForMagnetic))]
#[case(compass(), "289", Some(M::BackForBearing))]
#[case(compass(), "109 T", Some(M::TrueForMagnetic))]
#[case(compass(), "109 G", Some(M::GridForMagnetic))]
#[case(on_the_grid(), "100", None)]
#[case(on_the_grid(), "114", Some(M::VariationWrongWay))]
#[case(on_the_grid(), "104", Some(M::ConvergenceWrongWay))]
#[case(on_the_grid(), "102", Some(M::TrueForGrid))]
#[case(on_the_grid(), "109", Some(M::MagneticForGrid))]
#[case(on_the_grid(), "107", Some(M::MagneticForTrue))]
#[case(time(), "1h25", None)]
#[case(time(), "86 min", None)]
#[case(time(), "1.43 h", None)]
#[case(time(), "1 h 43", Some(M::MinutesForTenths))]
#[case(time(), "1 h 40", Some(M::MinutesForTenths))]
#[case(time(), "1 h 04", Some(M::MinutesForTenths))]
#[case(time(), "42 min", Some(M::WrongWayRound))]
#[case(time(), "13", Some(M::WrongWayRound))]
#[case(time_with_rests(), "1 h 44", None)]
#[case(time_with_rests(), "192", Some(M::KilometresForMiles))]
#[case(time_with_rests(), "86", Some(M::RestsForgotten))]
#[case(distance(), "7.9 km", None)]
#[case(distance(), "4.25 NM", None)]
#[case(distance(), "4.3", Some(M::MilesForKilometres))]
#[case(distance(), "7.0", Some(M::MinutesForTenths))]
#[case(across(), "073", None)]
#[case(across(), "75 M", None)]
#[case(across(), "117", Some(M::StreamAdded))]
#[case(across(), "095", Some(M::StreamLeftOut))]
#[case(across(), "063", Some(M::VariationWrongWay))]
#[case(across(), "068", Some(M::TrueForMagnetic))]
fn hands(#[case] question: Question, #[case] typed: &str, #[case] mistake: Option<M>) {
    let mark = question.mark(typed).unwrap();
    assert_eq!(mark.right, mistake.is_none(), "{typed}: {mark:?}");
    assert_eq!(mark.mistake, mistake, "{typed}: {mark:?}");
}

/// What fits no mistake is said to be wrong, how far off, and no more.
#[test]
fn what_fits_no_mistake_is_not_named() {
    let mark = time().mark("50").unwrap();
    assert_eq!((mark.right, mark.mistake), (false, None));
    assert_eq!(mark.said, ["Not so: 36 min too little.", "It is 1 h 26."]);
}

#[test]
fn what_is_near_enough_is_right_and_the_answer_is_told() {
    let mark = across().mark("75").unwrap();
    assert_eq!(
        mark.said,
        ["Right: 2° too far clockwise, and within 3° is near enough.", "It is 073°M."]
    );
    let mark = six_figures().mark("QB 732 508").unwrap();
    assert!(!mark.right);
    assert_eq!(mark.said[0], "Not so: 100 m too far east.");
}
