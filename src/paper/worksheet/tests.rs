//! Tests of practice sheets.

use nav::geodesic;

use super::*;
use crate::draw::{Area, Item, Page, Spot};
use crate::map::{LEAST, letter};
use crate::pdf;

struct Ground {
    chart: Chart,
    coast: Coast,
}

impl Ground {
    fn practice() -> Ground {
        Ground::of(chart::practice().unwrap())
    }

    fn of(chart: Chart) -> Ground {
        let coast = Coast::of(&chart);
        Ground { chart, coast }
    }

    fn water(&self) -> Water<'_> {
        Water { chart: &self.chart, coast: &self.coast }
    }

    fn lots(&self, seed: u64, legs: usize) -> Lots {
        Lots {
            seed,
            legs,
            around: None,
            pace: Route::new("").pace,
            departure: Some("2026-06-14T09:30[-02:00]".parse().unwrap()),
            variation: nav::magnetic::VariationSource::Model,
        }
    }
}

const A4: Wishes = Wishes { paper: Paper::A4, scale: None, inks: Inks::Black };

fn at(one_to: u32) -> Wishes {
    Wishes { scale: Some(Scale::new(one_to).unwrap()), ..A4 }
}

fn checked(pages: &[Page], paper: &Paper) {
    let all = Area::of(paper.sheet).inset(Mm(4.0));
    for page in pages {
        for item in &page.items {
            assert!(item.area().is_none_or(|area| all.holds(&area)), "{item:?}");
        }
        assert!(page.texts().iter().all(|text| text.size >= LEAST));
        let words: Vec<&str> = page.texts().iter().map(|text| text.words.as_str()).collect();
        let words = words.join(" ");
        assert!(words.contains("no such place") && words.contains("Not for navigation"), "{words}");
        assert!(!words.contains('…'));
    }
}

/// A number in front of its unit.
fn number(words: &str) -> f64 {
    words.trim_end_matches(|c: char| !c.is_ascii_digit()).parse().unwrap()
}

/// The answers derived again: distances and directions from the geodesic between the points, the grid's from the
/// differences of their eastings and northings, references from the metres, none of it by way of `plan`.
fn second_method(sheet: &Worksheet<'_>) {
    let grid = &sheet.water.chart.grid;
    let answers = sheet.answers();
    let table = answers.blocks.iter().find_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    let rows = &table.unwrap().rows;
    let points = &sheet.route.points;
    assert_eq!(rows.len(), points.len());
    let departure = sheet.route.departure.as_ref().unwrap().moment();
    let year = nav::magnetic::DecimalYear::from_date(departure.date());
    let mut minutes = 0.0;
    for (index, pair) in points.windows(2).enumerate() {
        let [from, to] = [pair[0].at, pair[1].at];
        let row = &rows[index + 1];
        assert_eq!(row[0], format!("{}–{}", letter(index), letter(index + 1)));
        let [a, b] = [from, to].map(|at| grid.forward(at).unwrap().point);
        let (east, north) = (
            b.easting.as_metres() - a.easting.as_metres(),
            b.northing.as_metres() - a.northing.as_metres(),
        );
        let off =
            |said: f64, derived: f64| ((said - derived + 540.0).rem_euclid(360.0) - 180.0).abs();
        // Half a degree of rounding, and what a rhumb line over some kilometres is from the chord of the grid.
        let from_grid = east.atan2(north).to_degrees();
        assert!(off(number(&row[2]), from_grid) < 0.6, "{row:?} {from_grid}");
        let line = geodesic::inverse(from, to);
        let variation = nav::magnetic::VariationSource::Model.at(from, year).variation;
        let magnetic = line.bearing_at_start.as_degrees() - variation.as_degrees_east();
        assert!(off(number(&row[3]), magnetic) < 0.7, "{row:?} {magnetic}");
        assert!((off(number(&row[3]), number(&row[4])) - 180.0).abs() < 1e-9, "{row:?}");
        // Half of the last digit written, and a rhumb line of a few kilometres over the geodesic.
        let metres = line.distance.as_metres();
        let scaled = if row[5].ends_with("km") { 1000.0 } else { 1.0 };
        assert!((number(&row[5]) * scaled - metres).abs() <= 0.05 * scaled + 1.0 + 0.5, "{row:?}");
        assert!((number(&row[6]) - metres / 1852.0).abs() <= 0.051, "{row:?}");
        let pace = sheet.route.pace.speed().as_knots();
        let took = metres / 1852.0 / pace * 60.0;
        minutes += took + if index > 0 { points[index].stop.as_secs_f64() / 60.0 } else { 0.0 };
        let clock =
            (departure.hour() as f64).mul_add(60.0, f64::from(departure.minute())) + minutes;
        let (hours, rest) = row[8].split_once(':').unwrap();
        let said = hours.parse::<f64>().unwrap() * 60.0 + rest.parse::<f64>().unwrap();
        assert!((said - clock).abs() < 0.6 + 0.02 * index as f64, "{row:?} {clock}");
        // Ruler and scale give the distance again.
        let ruled = sheet.ruled(index).unwrap().0 * f64::from(sheet.scale().one_to()) / 1000.0;
        assert!((ruled - metres).abs() < metres * 2e-3 + 1.0, "{ruled} {metres}");
        // Tenths counted from the corner of the hundred kilometre square.
        // A point laid on a line of the grid is on it to a tenth of a millimetre, as a route is rounded.
        let tenths = |metres: f64| (((metres + 1e-3) / 100.0).floor() as i64).rem_euclid(1000);
        let (east, north) = (tenths(b.easting.as_metres()), tenths(b.northing.as_metres()));
        assert!(row[1].ends_with(&format!("{east:03} {north:03}")), "{row:?} {east} {north}");
    }
}

#[test]
fn the_answers_are_those_of_a_second_method() {
    let ground = Ground::practice();
    let route = plan::demonstration().unwrap();
    second_method(&Worksheet::of_route(ground.water(), &route, &A4).unwrap());
    for seed in 1..6 {
        let sheet = Worksheet::of_lots(ground.water(), &ground.lots(seed, 6), &A4).unwrap();
        second_method(&sheet);
    }
}

#[test]
fn pages_hold_all_that_is_on_them() {
    let ground = Ground::practice();
    let route = plan::demonstration().unwrap();
    for wishes in [A4, Wishes { paper: Paper::A3, ..A4 }, at(100_000), at(75_000)] {
        let sheet = Worksheet::of_route(ground.water(), &route, &wishes).unwrap();
        let pages = sheet.pages(&sheet.whole()).unwrap();
        checked(&pages, sheet.paper());
        assert!(pages.len() >= 2);
    }
    for (seed, legs) in [(1, 1), (2, 6), (3, Lots::MOST_LEGS)] {
        for wishes in [A4, at(25_000), at(100_000)] {
            let sheet =
                Worksheet::of_lots(ground.water(), &ground.lots(seed, legs), &wishes).unwrap();
            checked(&sheet.pages(&sheet.whole()).unwrap(), sheet.paper());
        }
    }
}

#[test]
fn a_sheet_of_chance_is_one_page_of_questions_and_its_points_are_on_open_water() {
    let ground = Ground::practice();
    for seed in 0..12 {
        let sheet = Worksheet::of_lots(ground.water(), &ground.lots(seed, 6), &A4).unwrap();
        assert_eq!(sheet.legs(), 6, "{seed}");
        assert_eq!(sheet.scale().one_to(), 50_000);
        let questions = sheet.questions().set(sheet.paper()).unwrap();
        assert_eq!(questions.len(), 1, "{seed}");
        let points: Vec<Point> = sheet
            .route
            .points
            .iter()
            .map(|point| {
                let there = ground.chart.grid.forward(point.at).unwrap().point;
                Point { x: there.easting.as_metres(), y: there.northing.as_metres() }
            })
            .collect();
        assert!(points.iter().all(|point| !ground.coast.on_land(*point)));
        assert!(points.windows(2).all(|leg| !ground.coast.touches(leg[0], leg[1])));
    }
    let one = Worksheet::of_lots(ground.water(), &ground.lots(7, 6), &A4).unwrap();
    let again = Worksheet::of_lots(ground.water(), &ground.lots(7, 6), &A4).unwrap();
    assert_eq!(one.route, again.route);
    let other = Worksheet::of_lots(ground.water(), &ground.lots(8, 6), &A4).unwrap();
    assert_ne!(one.route, other.route);
}

#[test]
fn every_letter_is_on_the_chart_and_no_leg_is_drawn() {
    let ground = Ground::practice();
    let sheet = Worksheet::of_lots(ground.water(), &ground.lots(4, 6), &A4).unwrap();
    let pages = sheet.questions().set(sheet.paper()).unwrap();
    for index in 0..=6 {
        let letter = letter(index);
        let found =
            pages[0].texts().into_iter().any(|text| text.words == letter && text.halo.0 > 0.0);
        assert!(found, "{letter}");
    }
    let text = sheet.questions().text();
    assert!(!text.contains("Answers"), "{text}");
}

/// The distance between grid lines on the page is that of the scale.
#[test]
fn grid_squares_are_true_to_scale_on_the_page() {
    let ground = Ground::practice();
    for one_to in [25_000, 50_000, 100_000] {
        let sheet = Worksheet::of_lots(ground.water(), &ground.lots(4, 3), &at(one_to)).unwrap();
        let pages = sheet.questions().set(sheet.paper()).unwrap();
        let mut lines: Vec<f64> = Vec::new();
        let groups = pages[0].items.iter().filter_map(|item| match item {
            Item::Group(group) => Some(group),
            _ => None,
        });
        // Of the drawings of the chart the grid is the one with the most upright lines and no slanting ones.
        for item in groups.flat_map(|group| &group.items) {
            let Item::Path(path) = item else { continue };
            let spots: Vec<_> = path.outline.spots().collect();
            let upright = |ends: &&[Spot]| ends.len() == 2 && ends[0].x == ends[1].x;
            let level = |ends: &[Spot]| ends.len() == 2 && ends[0].y == ends[1].y;
            let straight = spots.chunks(2).all(|ends| upright(&ends) || level(ends));
            let found: Vec<f64> = spots.chunks(2).filter(upright).map(|ends| ends[0].x.0).collect();
            if straight && found.len() > lines.len() {
                lines = found;
            }
        }
        lines.sort_by(f64::total_cmp);
        assert!(lines.len() >= 3, "{lines:?}");
        // A kilometre of this grid on paper; its own scale is within 0.1% of one.
        let square = 1e6 / f64::from(one_to);
        for pair in lines.windows(2) {
            assert!((pair[1] - pair[0] - square).abs() < 0.05, "{one_to} {pair:?}");
        }
    }
}

#[test]
fn what_has_no_room_says_what_would() {
    let ground = Ground::practice();
    let route = plan::demonstration().unwrap();
    let error = Worksheet::of_route(ground.water(), &route, &at(10_000)).unwrap_err();
    let WorksheetError::NoRoom { fits, .. } = error else { panic!("{error}") };
    assert!(error.to_string().ends_with(&format!("{fits} fits")), "{error}");
    Worksheet::of_route(ground.water(), &route, &at(fits.one_to())).unwrap();
    let larger = layout::usual().filter(|scale| *scale < fits).last().unwrap();
    assert!(Worksheet::of_route(ground.water(), &route, &at(larger.one_to())).is_err());
    let mut short = route;
    short.points.truncate(1);
    let error = Worksheet::of_route(ground.water(), &short, &A4).unwrap_err();
    assert_eq!(error, WorksheetError::NoLeg(1));
}

/// World Mercator has the references of another grid: they cannot be counted along the lines that are drawn.
#[test]
fn where_references_cannot_be_counted_latitudes_are_asked_for() {
    let grid = nav::Grid::parse("EPSG:3395").unwrap();
    let ground = Ground::of(Chart { grid, ..chart::practice().unwrap() });
    let sheet = Worksheet::of_lots(ground.water(), &ground.lots(2, 5), &A4).unwrap();
    assert!(!sheet.by_grid());
    checked(&sheet.pages(&sheet.whole()).unwrap(), sheet.paper());
    let text = sheet.whole().text();
    assert!(text.contains("lat. and") && !text.contains("romer"), "{text}");
}

#[test]
fn charts_of_any_size_have_a_sheet() {
    for seed in [1, 2] {
        let chart = chart::maker::make(seed, &chart::maker::Wishes::default()).unwrap();
        let ground = Ground::of(chart);
        let sheet = Worksheet::of_lots(ground.water(), &ground.lots(seed, 6), &A4).unwrap();
        checked(&sheet.pages(&sheet.whole()).unwrap(), sheet.paper());
        second_method(&sheet);
    }
    // Two kilometres across, away from the land: a chart of water alone.
    let corner = Point { x: 600_000.0, y: 300_000.0 };
    let extent = Extent::new(corner, corner + Point { x: 2_000.0, y: 1_500.0 });
    let mut small = Chart { extent, ..chart::practice().unwrap() };
    small.landings.clear();
    let ground = Ground::of(small);
    let sheet = Worksheet::of_lots(ground.water(), &ground.lots(3, 4), &A4).unwrap();
    assert!(sheet.scale().one_to() <= 10_000, "{}", sheet.scale());
    checked(&sheet.pages(&sheet.whole()).unwrap(), sheet.paper());
}

#[test]
fn a_leg_along_a_shore_is_asked_in_its_stretches() {
    let ground = Ground::practice();
    let mut route = plan::demonstration().unwrap();
    let bend = nav::Position::from_degrees(49.53, -28.70).unwrap();
    let line = plan::Line::new([bend]).unwrap();
    let none = nav::Length::METRE * 0.0;
    route.points[2].along = Some(plan::Along::new(line, &[], none, none));
    let straight = straight::straight(&route, &ground.chart.grid);
    assert_eq!(straight.points.len(), route.points.len() + 1);
    assert!(straight.points.iter().all(|point| point.along.is_none()));
}

#[test]
fn a_sheet_in_plain_text() {
    let ground = Ground::practice();
    let mut route = plan::demonstration().unwrap();
    route.points.truncate(4);
    route.points[1].stop = jiff::SignedDuration::from_mins(15);
    let sheet = Worksheet::of_route(ground.water(), &route, &A4).unwrap();
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path(concat!(env!("CARGO_MANIFEST_DIR"), "/../../snapshots"));
    settings.set_prepend_module_to_snapshot(false);
    settings.bind(|| {
        insta::assert_snapshot!("worksheet-in-text", sheet.whole().text());
        insta::assert_snapshot!("worksheet-in-markdown", sheet.whole().markdown());
    });
}

/// For a look by eye.
#[test]
#[ignore = "writes files to look at"]
fn show() {
    let ground = Ground::practice();
    let route = plan::demonstration().unwrap();
    let show = |name: &str, sheet: &Worksheet<'_>| {
        let pages = sheet.pages(&sheet.whole()).unwrap();
        let set = pdf::write(&pages, &pdf::About { title: sheet.title(), made: None });
        crate::tests::show(&format!("worksheet-{name}.pdf"), &set.bytes);
    };
    show("route", &Worksheet::of_route(ground.water(), &route, &A4).unwrap());
    let a3 = Wishes { paper: Paper::A3, ..A4 };
    show("route-a3", &Worksheet::of_route(ground.water(), &route, &a3).unwrap());
    for (seed, legs, one_to) in [(1, 6, 50_000), (2, 4, 25_000), (3, 12, 100_000), (4, 25, 50_000)]
    {
        let lots = ground.lots(seed, legs);
        let sheet = Worksheet::of_lots(ground.water(), &lots, &at(one_to)).unwrap();
        show(&format!("{seed}"), &sheet);
    }
}
