//! The charts of tests, and how near is right on them.

use ::chart::coast::Coast;
use ::chart::{Chart, Point};
use paper::leaflet::Paper;
use paper::map::Asked;
use paper::workchart::Workchart;
use practice::set::BY_COACH;
use practice::{Ground, Kind, Plan, Sheet, Sitting, Tolerance};

use super::*;

fn practice() -> (Chart, Coast) {
    let chart = ::chart::practice().unwrap();
    let coast = Coast::of(&chart);
    (chart, coast)
}

fn questions(kind: Kind, level: u8, count: usize) -> Vec<Question> {
    let (chart, coast) = practice();
    let level = Level::from_number(level).unwrap();
    let plan = Plan::Kinds { kinds: vec![kind], level, seed: 5, count };
    Sitting::new(plan).rest(&Ground::new(&chart, &coast))
}

/// What [`Sheet::kilometres`] says, held against pages as they are set under a title of one line.
#[test]
fn a_sheet_has_room_for_its_part_at_its_scale() {
    let (chart, coast) = practice();
    let middle = chart.extent.center();
    for (sheet, paper) in [(Sheet::A4, Paper::A4), (Sheet::A3, Paper::A3)] {
        for (across, up) in sheet.kilometres() {
            // Whole hundreds of metres may be rounded up, by 37 m at most.
            let half = Point { x: across * 500.0 + 20.0, y: up * 500.0 + 20.0 };
            let room = vec![middle - half, middle + half];
            let asked = Asked { room, ..Asked::default() };
            let title = format!("Test: {}, chart", "Ö".repeat(35));
            let drawn = Workchart::new(&chart, &coast, &asked, &title, paper).unwrap();
            assert!(
                drawn.scale().one_to() <= Sheet::ONE_TO,
                "{sheet:?} {across} {}",
                drawn.scale()
            );
        }
    }
}

#[test]
fn nothing_is_asked_nearer_than_a_pencil_comes() {
    let pencil = 75.0;
    let tolerances = |kind, level| {
        let all = questions(kind, level, 12).into_iter();
        all.map(|it| (it.clone(), pencil::marked(&it, pencil))).collect::<Vec<_>>()
    };
    for (_, marked) in tolerances(Kind::Reference, 1) {
        assert_eq!(marked.tolerance, Tolerance::Metres(75.0));
    }
    let (mut finer, mut left) = (0, 0);
    for (own, marked) in tolerances(Kind::Bearing, 3) {
        let (Tolerance::Degrees(own), Tolerance::Degrees(least)) =
            (own.tolerance, marked.tolerance)
        else {
            panic!()
        };
        // 800 m to 4 km at 1:150,000: 5 to 27 mm, on which half a millimetre is one to six degrees.
        assert!(own <= least && (3.0..=6.5).contains(&least), "{least}");
        *if own < least { &mut finer } else { &mut left } += 1;
    }
    assert!(finer > 0 && left > 0, "{finer} {left}");
    for (own, marked) in tolerances(Kind::DistanceBySquares, 1) {
        let practice::Answer::Amount { value, .. } = own.answer else { panic!() };
        let near = match marked.tolerance {
            Tolerance::Units(kilometres) => kilometres,
            Tolerance::Share(share) => share * value,
            _ => panic!(),
        };
        assert!((near - (0.05 * value).max(0.15)).abs() < 0.01, "{value} {near}");
    }
    for (own, marked) in tolerances(Kind::LatLon, 1) {
        let (Tolerance::ArcMinutes(own), Tolerance::ArcMinutes(least)) =
            (own.tolerance, marked.tolerance)
        else {
            panic!()
        };
        assert!(own <= least && least >= 75.0 / 1852.0, "{least}");
    }
    // At 1:50,000 the questions' own tolerances are a hand's already; and a coach's own are never touched.
    for kind in [Kind::Reference, Kind::DistanceBySquares, Kind::LatLon, Kind::Back, Kind::Fix] {
        for it in questions(kind, 1, 12) {
            assert_eq!(pencil::marked(&it, 25.0), it);
        }
    }
    for it in questions(Kind::Reference, 1, 3) {
        let coached = it.with_tolerance(Tolerance::Metres(10.0), BY_COACH);
        assert_eq!(pencil::marked(&coached, pencil), coached);
    }
}

/// A name that is part of another is not meant by it.
#[test]
fn a_test_is_about_what_is_named_and_not_about_parts_of_names() {
    let (chart, coast) = practice();
    let ground = Ground::new(&chart, &coast);
    let question = questions(Kind::Reference, 1, 1).remove(0);
    let spot = ground.spots().iter().find(|spot| question.text.contains(&spot.name)).unwrap();
    let part =
        practice::Spot { name: spot.name.chars().take(3).collect(), ..ground.spots()[0].clone() };
    let asked = about::about(std::slice::from_ref(&question), &[part, spot.clone()]);
    assert_eq!(asked.points, [(spot.at, spot.name.clone())]);
    // An answer that is a place has room, and is not drawn.
    let fix = questions(Kind::Fix, 1, 1).remove(0);
    let practice::Answer::Place { at, .. } = fix.answer else { panic!() };
    let asked = about::about(&[fix], ground.spots());
    assert_eq!(asked.room, [at]);
    assert!(asked.points.iter().all(|(point, _)| *point != at));
}
