//! Parts of charts for a sheet of paper.

use super::*;
use crate::tests::Water;
use crate::{Answer, Level, Plan, Shown, Sitting};

/// Every place that a learner must find on the chart, found here from the question alone.
fn places(question: &Question) -> Vec<Point> {
    let mut all: Vec<Point> = question.choices.iter().filter_map(|choice| choice.at).collect();
    for shown in &question.shown {
        match shown {
            Shown::Point { at, .. } | Shown::Tick { at, .. } => all.push(*at),
            Shown::Line { from, to, .. } => all.extend([*from, *to]),
            Shown::Path(path) => all.extend(path),
            Shown::Square(square) => {
                let corner = square.south_west;
                all.push(Point { x: corner.easting.as_metres(), y: corner.northing.as_metres() });
            }
        }
    }
    if let Answer::Place { at, .. } = question.answer {
        all.push(at);
    }
    if question.kind == Kind::AlongShore {
        for drawn in &question.drawn {
            if let Shown::Path(path) = drawn {
                all.extend(path);
            }
        }
    }
    all
}

fn mixed(seed: u64, level: Level) -> Sitting {
    Sitting::new(Plan::Kinds { kinds: Kind::ALL.to_vec(), level, seed, count: 22 })
}

#[test]
fn all_that_is_asked_lies_on_a_part_that_the_sheet_shows() {
    let water = Water::practice();
    let ground = water.ground();
    let mut seen = HashSet::new();
    for sheet in Sheet::ALL {
        for (seed, level) in [(7, Level::First), (8, Level::Second), (9, Level::Third)] {
            let sitting = mixed(seed, level);
            let part = sheet.part(&ground, seed, |ground| sitting.rest(ground)).unwrap();
            let size = (part.width() / 1000.0, part.height() / 1000.0);
            let fits = |times: &f64| {
                let mut sizes = sheet.kilometres().into_iter();
                sizes.any(|(across, up)| {
                    size.0 <= across * times + 0.1 && size.1 <= up * times + 0.1
                })
            };
            assert_eq!(TIMES.iter().position(fits), Some(0), "{sheet:?} {seed}: {size:?}");
            assert_eq!(
                about(ground.chart.extent, part.center(), (part.width(), part.height())),
                part
            );
            let questions = sitting.rest(&ground.within(part));
            assert_eq!(questions.len(), 22);
            let kinds: HashSet<Kind> = questions.iter().map(|it| it.kind).collect();
            assert_eq!(kinds.len(), 22);
            for question in &questions {
                for at in places(question) {
                    let (low, high) = (part.min(), part.max());
                    let within = low.x <= at.x && at.x <= high.x && low.y <= at.y && at.y <= high.y;
                    assert!(within, "{sheet:?} {seed}: {}", question.text);
                }
            }
            // The same again, and of another seed another part.
            assert_eq!(sheet.part(&ground, seed, |ground| sitting.rest(ground)), Some(part));
            assert!(seen.insert(format!("{part:?}")));
        }
    }
}

#[test]
fn a_chart_that_has_room_has_no_part_and_one_without_names_none_either() {
    let wishes = chart::maker::Wishes { width_km: 8, height_km: 10, ..Default::default() };
    let small = chart::maker::make(7, &wishes).unwrap();
    let coast = chart::coast::Coast::of(&small);
    let ground = Ground::new(&small, &coast);
    let sitting = mixed(7, Level::First);
    assert_eq!(Sheet::A4.part(&ground, 7, |ground| sitting.rest(ground)), None);
    let bare = r#"(version: 1, title: "Bare", invented: true, grid: Named("UTM:25N"),
        extent: (south_west: (500000, 5200000), north_east: (540000, 5240000)), shore: Here([]))"#;
    let Ok(chart::format::ChartFile::Whole(bare)) = chart::format::read(bare) else { panic!() };
    let coast = chart::coast::Coast::of(&bare);
    let ground = Ground::new(&bare, &coast);
    assert_eq!(Sheet::A4.part(&ground, 7, |ground| sitting.rest(ground)), None);
}

/// As it was when this was written: another part would be another paper for a seed that was printed.
#[test]
fn a_seed_keeps_its_part() {
    let water = Water::practice();
    let ground = water.ground();
    let corner = |sheet: Sheet, seed| {
        let sitting = mixed(seed, Level::First);
        let part = sheet.part(&ground, seed, |ground| sitting.rest(ground)).unwrap();
        (part.min().x, part.min().y, part.width(), part.height())
    };
    insta::assert_debug_snapshot!([
        corner(Sheet::A4, 1),
        corner(Sheet::A4, 7),
        corner(Sheet::A3, 1)
    ]);
}
