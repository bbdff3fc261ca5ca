//! What lies on what, and that nothing falls off an edge.

use super::*;
use crate::glyphs::Sign;
use crate::picture::text;
use crate::theme::{Colours, Role, Theme, Tone};
use chart::coast::Coast;
use chart::model::{
    Hazard, HazardKind, Land, Landing, Mark, MarkKind, Place, PlaceKind, Race, Serves,
};
use chart::{Chart, Extent, Ring};
use nav::{Convergence, Variation};
use proptest::prelude::*;
use ratatui::style::Color;
use std::collections::HashSet;

fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// A coast made of numbers: an island of many points and all kinds of things on and around it.
pub(super) fn sample() -> Chart {
    let shore = (0..300).map(|i| {
        let angle = f64::from(i) / 300.0 * std::f64::consts::TAU;
        let radius = 3_000.0 + 700.0 * (angle * 5.0).sin() + 250.0 * (angle * 23.0).cos();
        point(670_000.0 + radius * angle.cos(), 350_000.0 + radius * angle.sin())
    });
    let around = |n: u32, radius: f64| {
        let angle = f64::from(n) * 2.399_963;
        point(670_000.0 + radius * angle.cos(), 350_000.0 + radius * angle.sin())
    };
    let word = |n: u32| {
        let letter = |n: u32| char::from(b'a' + (n % 26) as u8);
        format!("X{}{}{}", letter(n / 26), letter(n), "o".repeat(3 + n as usize % 5))
    };
    let kinds = [
        PlaceKind::Settlement,
        PlaceKind::Island,
        PlaceKind::Water,
        PlaceKind::Headland,
        PlaceKind::Inlet,
        PlaceKind::Narrows,
        PlaceKind::Skerry,
        PlaceKind::Hill,
    ];
    let places = (0..160u32).map(|n| Place {
        name: word(n),
        at: around(n, 300.0 + 30.0 * f64::from(n)),
        kind: kinds[n as usize % kinds.len()],
    });
    let hazards = (0..20u32).map(|n| Hazard {
        name: word(n + 200),
        at: around(n + 7, 3_300.0 + 40.0 * f64::from(n)),
        kind: HazardKind::DryingRock,
        note: String::new(),
    });
    Chart {
        title: "Sample".to_owned(),
        invented: true,
        source: String::new(),
        grid: nav::Grid::parse("UTM:25N").unwrap(),
        extent: Extent::new(point(660_000.0, 340_000.0), point(680_000.0, 360_000.0)),
        land: vec![Land { name: "Xaaooo".to_owned(), shore: Ring(shore.collect()), lakes: vec![] }],
        shorelines: vec![],
        drying: vec![],
        depths: vec![],
        landings: vec![Landing {
            name: "Xlanding".to_owned(),
            at: point(672_000.0, 352_000.0),
            ground: chart::model::Ground::Sand,
            serves: Serves::AnyTide,
            note: String::new(),
        }],
        hazards: hazards.collect(),
        races: vec![Race {
            name: "Xrace".to_owned(),
            edge: Ring(vec![
                point(666_000.0, 346_000.0),
                point(667_000.0, 346_000.0),
                point(667_000.0, 347_000.0),
            ]),
            runs: None,
            note: String::new(),
        }],
        gates: vec![],
        places: places.collect(),
        marks: vec![Mark {
            name: "Xlight".to_owned(),
            at: around(3, 4_000.0),
            kind: MarkKind::Light,
        }],
        ports: vec![],
        streams: vec![],
    }
}

/// What is made once for a chart.
struct Made {
    shapes: Arc<Shapes>,
    shores: Arc<Shores>,
}

impl Made {
    fn of(chart: &Chart) -> Made {
        let shores = Shores::of(Arc::new(Coast::of(chart)));
        Made { shapes: Arc::new(Shapes::new(chart)), shores: Arc::new(shores) }
    }
}

fn scene<'a>(chart: &'a Chart, made: &'a Made, view: View) -> Scene<'a> {
    Scene {
        chart,
        shapes: &made.shapes,
        shores: &made.shores,
        grid: &chart.grid,
        view,
        waypoints: &[],
        chosen_leg: None,
        chosen_waypoint: None,
        tracks: &[],
        fixing: Fixing::default(),
        tracing: Tracing::default(),
        drilled: Drilled::default(),
        sailing: Sailing::default(),
        pencil: &[],
        cursor: None,
        norths: None,
        pace: None,
        dots: DotSet::Braille,
        covered: &[],
        streams: &[],
        names: true,
        grid_lines: true,
    }
}

fn drawn(scene: &Scene<'_>, width: u16, height: u16) -> Buffer {
    let area = Rect::new(0, 0, width, height);
    let mut buffer = Buffer::empty(area);
    chart(scene, &Theme::new(Tone::Dark, Colours::True), area, &mut buffer, &mut Drawer::default());
    buffer
}

fn waypoints() -> Vec<Waypoint<'static>> {
    let at = [
        (665_000.0, 345_000.0),
        (668_000.0, 346_500.0),
        (674_500.0, 349_000.0),
        (674_000.0, 355_000.0),
    ];
    let named = at.map(|(x, y)| Waypoint { at: point(x, y), name: "" });
    named
        .into_iter()
        .chain([Waypoint { at: point(669_000.0, 354_500.0), name: "Xlunch" }])
        .collect()
}

/// The squares of 100 km that lie about the sample.
const SQUARES: [&str; 2] = ["25N FC", "25N FD"];

/// The runs of letters in the chart, without its frame.
fn words(buffer: &Buffer) -> Vec<String> {
    let inside = inner(buffer.area);
    let mut words = Vec::new();
    for y in inside.top()..inside.bottom() {
        let row: String =
            (inside.left()..inside.right()).map(|x| buffer[(x, y)].symbol().to_owned()).collect();
        words.extend(
            row.split(|c: char| !c.is_alphabetic()).filter(|w| w.len() > 1).map(str::to_owned),
        );
    }
    words
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn any_view_in_any_rectangle_is_drawn(
        x in 0u16..6, y in 0u16..6, width in 0u16..130, height in 0u16..50,
        east in -2e6..2e6f64, north in -2e6..2e6f64, scale in -3.0..6.0f64,
        dots in 0usize..7, colours in 0usize..4, near in any::<bool>(),
    ) {
        let chart_ = sample();
        let made = Made::of(&chart_);
        let centre = if near { chart_.extent.center() } else { point(east, north) };
        let stops = waypoints();
        let pencil = [stops[0].at, point(east, north)];
        let scene = Scene {
            waypoints: &stops,
            chosen_leg: Some(1),
            chosen_waypoint: Some(9),
            pencil: &pencil,
            cursor: Some(Cursor { at: centre, hand: '+' }),
            norths: Some(norths(1.0, -4.0)),
            pace: Some(Speed::from_knots(3.0).unwrap()),
            dots: DotSet::ALL[dots],
            ..scene(&chart_, &made, View::new(centre, 10f64.powf(scale)))
        };
        let colours = [Colours::True, Colours::Indexed, Colours::Sixteen, Colours::None][colours];
        // The buffer is smaller than what is drawn into: what does not fit is left out.
        let mut buffer = Buffer::empty(Rect::new(0, 0, 100, 40));
        chart(&scene, &Theme::new(Tone::Paper, colours), Rect::new(x, y, width, height), &mut buffer, &mut Drawer::default());
    }

    #[test]
    fn names_stand_whole_and_apart(scale in 0.6..2.3f64, east in -2_000.0..2_000.0f64, north in -2_000.0..2_000.0f64) {
        let chart = sample();
        let made = Made::of(&chart);
        let stops = waypoints();
        let view = View::new(point(670_000.0 + east, 350_000.0 + north), 10f64.powf(scale));
        let scene = Scene { waypoints: &stops, ..scene(&chart, &made, view) };
        let known: HashSet<String> = chart.places.iter().map(|p| p.name.clone())
            .chain(chart.hazards.iter().map(|h| h.name.clone()))
            .chain(["Xlunch", "Xrace", "Xlanding", "Xlight"].map(str::to_owned))
            .chain(SQUARES.map(|letters| letters.chars().skip(4).collect()))
            .collect();
        for word in words(&drawn(&scene, 120, 40)) {
            prop_assert!(known.contains(&word), "{} is no whole name", word);
        }
    }

    #[test]
    fn names_stay_in_place_while_the_cursor_moves(column in 0.0..115.0f64, row in 0.0..37.0f64) {
        let chart = sample();
        let made = Made::of(&chart);
        let view = View::new(point(670_000.0, 350_000.0), 60.0);
        let stops = waypoints();
        let still = Scene { waypoints: &stops, ..scene(&chart, &made, view) };
        let at = view.point_at(Cells { columns: 115, rows: 37 }, column, row);
        let pencil = [stops[4].at, at];
        let moving = Scene { pencil: &pencil, cursor: Some(Cursor { at, hand: '+' }), ..still };
        let (before, after) = (words(&drawn(&still, 120, 40)), words(&drawn(&moving, 120, 40)));
        // The cursor's own cells may hide a letter of one or two names.
        let lost = before.iter().filter(|word| !after.contains(word)).count();
        prop_assert!(lost <= 2, "{} names moved", lost);
    }
}

fn norths(convergence: f64, variation: f64) -> Norths {
    Norths {
        convergence: Convergence::from_degrees_east(convergence).unwrap(),
        variation: Variation::from_degrees_east(variation).unwrap(),
    }
}

/// Zone, band and letters on the grid of a zone; nothing on the grid of the world, whose metres
/// nobody counts.
#[test]
fn squares_have_the_letters_of_their_grid() {
    let sample = sample();
    let shown = |chart: &Chart| {
        let made = Made::of(chart);
        let middle = chart.extent.center();
        let view = View::new(point(middle.x, middle.y + 50_000.0), 2_000.0);
        text(&drawn(&scene(chart, &made, view), 120, 60))
    };
    let utm = shown(&sample);
    for square in SQUARES {
        assert!(utm.contains(square), "{square} in\n{utm}");
    }
    let world = Chart { grid: nav::Grid::parse("EPSG:3395").unwrap(), ..sample };
    let world = shown(&world);
    assert!(!["31N ", "32N "].iter().any(|zone| world.contains(zone)), "{world}");
}

#[test]
fn signs_are_never_written_over() {
    let chart = sample();
    let made = Made::of(&chart);
    let view = View::new(point(670_000.0, 350_000.0), 100.0);
    let buffer = drawn(&scene(&chart, &made, view), 120, 40);
    let inside = inner(buffer.area);
    let cells = Cells { columns: inside.width, rows: inside.height };
    let mut seen = 0;
    for hazard in &chart.hazards {
        let (x, y) = view.cells_of(cells, hazard.at);
        if x >= 0.0 && y >= 0.0 && x < f64::from(cells.columns) && y < f64::from(cells.rows) {
            let cell = &buffer[(inside.x + x as u16, inside.y + y as u16)];
            let rock = Sign::DryingRock.symbol().glyph.to_string();
            assert_eq!(cell.symbol(), rock, "{} at {x} {y}", hazard.name);
            seen += 1;
        }
    }
    assert!(seen > 5);
}

#[test]
fn names_stay_in_place_while_the_view_is_panned() {
    let chart = sample();
    let made = Made::of(&chart);
    let view = View::new(point(670_000.0, 350_000.0), 60.0);
    let places = |view: View| {
        let buffer = drawn(&scene(&chart, &made, view), 140, 50);
        let inside = inner(buffer.area);
        let mut found = HashSet::new();
        for y in inside.top()..inside.bottom() {
            for x in inside.left()..inside.right() {
                if buffer[(x, y)].symbol() == "X" {
                    found.insert((x, y));
                }
            }
        }
        (found, inside)
    };
    let ((before, inside), (after, _)) = (places(view), places(view.panned(3.0, 0.0)));
    // Away from the edges, where names come and go, all move along with the ground.
    let middle = |x: u16| x > inside.left() + 30 && x < inside.right() - 40;
    let inner: Vec<_> = before.iter().filter(|(x, _)| middle(*x)).collect();
    let kept = inner.iter().filter(|(x, y)| after.contains(&(x - 3, *y))).count();
    assert!(inner.len() > 10, "{}", inner.len());
    assert!(kept * 20 >= inner.len() * 19, "{kept} of {} stayed", inner.len());
}

#[test]
fn without_colour_the_kinds_of_ground_still_differ() {
    let chart_ = sample();
    let made = Made::of(&chart_);
    let area = Rect::new(0, 0, 80, 24);
    let mut buffer = Buffer::empty(area);
    let scene = scene(&chart_, &made, View::fit(chart_.extent, Cells { columns: 75, rows: 21 }));
    chart(
        &scene,
        &Theme::new(Tone::Dark, Colours::None),
        area,
        &mut buffer,
        &mut Drawer::default(),
    );
    assert!(buffer.content.iter().all(|cell| (cell.fg, cell.bg) == (Color::Reset, Color::Reset)));
    let blank = |x: u16, y: u16| (x..x + 12).filter(|x| buffer[(*x, y)].symbol() == " ").count();
    assert!(blank(36, 12) < 9, "land is stippled");
    assert_eq!(blank(8, 4), 12, "deep water is empty");
}

#[test]
fn every_dot_set_draws_shore_and_route() {
    let chart_ = sample();
    let made = Made::of(&chart_);
    let stops = waypoints();
    let theme = Theme::default();
    for dots in DotSet::ALL {
        let view = View::fit(chart_.extent, Cells { columns: 75, rows: 21 });
        let scene = Scene { waypoints: &stops, dots, ..scene(&chart_, &made, view) };
        let buffer = drawn(&scene, 80, 24);
        let inked =
            |role| buffer.content.iter().filter(|c| Some(c.fg) == theme.ink(role).fg).count();
        assert!(inked(Role::Shore) > 20, "{dots:?}");
        assert!(inked(Role::Route) > 15, "{dots:?}");
        if dots == DotSet::Ascii {
            assert!(text(&buffer).is_ascii());
        }
    }
}
