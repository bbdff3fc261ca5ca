//! Tests of the chart on paper.

use nav::{Length, geodesic};

use super::*;
use crate::draw::{Outline, Page};
use crate::pdf;

fn area() -> Area {
    Area::at(Spot::new(6.0, 6.0), Size::new(198.0, 150.0))
}

fn chart() -> Chart {
    chart::practice().unwrap()
}

fn page(drawn: &Drawn) -> Page {
    Page { size: Size::new(210.0, 162.0), items: drawn.items.clone() }
}

fn drawn(chart: &Chart, part: Part) -> Drawn {
    let coast = Coast::of(chart);
    Chartlet::of(chart, &coast, None).draw(area(), part).unwrap()
}

/// The white and black rectangles whose width is the length of the bars, NM first.
fn bars(drawn: &Drawn) -> Vec<Area> {
    let is_bar = |outline: &Outline| Area::around(outline.spots());
    let paths = drawn.items.iter().filter_map(|item| match item {
        Item::Path(path) if path.fill.is_none() => is_bar(&path.outline),
        _ => None,
    });
    paths.filter(|area| (area.height - Mm(1.0)).abs() < Mm(1e-9)).collect()
}

#[test]
fn the_scale_bars_are_true_on_the_ground() {
    let chart = chart();
    for one_to in [10_000, 25_000, 50_000, 150_000] {
        let scale = Scale::new(one_to).unwrap();
        let drawn = drawn(&chart, Part::At(chart.extent, scale));
        let bars = bars(&drawn);
        assert_eq!(bars.len(), 2);
        for (bar, metres) in bars.iter().zip([1852.0, 1000.0]) {
            // What lies as far apart on the ground, by a geodesic, is as far apart on paper.
            let units = bar.width / scale.of_metres(metres);
            let distance = Length::from_metres(metres * units).unwrap();
            for bearing in [0.0, 90.0, 215.0] {
                let bearing = nav::Bearing::from_degrees(bearing).unwrap();
                let from = drawn.frame.position;
                let to = geodesic::direct(from, bearing, distance).position;
                let [a, b] = [from, to].map(|at| {
                    let point = chart.grid.forward(at).unwrap().point;
                    let (x, y) = (point.easting.as_metres(), point.northing.as_metres());
                    drawn.frame.spot(chart::Point { x, y })
                });
                assert!((a.distance(b) - bar.width).abs() < Mm(0.02), "1:{one_to}");
            }
        }
    }
}

/// The bars measured in a picture of the page, at 600 dots per inch: an A4 page across.
#[test]
fn the_scale_bars_are_as_long_when_they_are_printed() {
    let chart = chart();
    let scale = Scale::new(50_000).unwrap();
    let drawn = drawn(&chart, Part::At(chart.extent, scale));
    let page = page(&drawn);
    let file = crate::png::write(&page, 600.0).unwrap();
    let dots = 600.0 / 25.4;
    let rows = crate::tests::rows(&file, (page.size.width.0 * dots).round() as usize);
    for (bar, metres) in bars(&drawn).iter().zip([1852.0, 1000.0]) {
        let row = &rows[(bar.middle().y.0 * dots) as usize];
        let dark: Vec<usize> =
            row.chunks(3).enumerate().filter(|(_, dot)| dot[0] < 128).map(|(x, _)| x).collect();
        // The line around the bar reaches half its width beyond either end.
        let near =
            |x: &&usize| (**x as f64 / dots - bar.middle().x.0).abs() < bar.width.0 / 2.0 + 1.0;
        let (first, last) =
            (dark.iter().find(near).unwrap(), dark.iter().rev().find(near).unwrap());
        let measured = (last - first + 1) as f64 / dots - 0.12;
        let units = (bar.width / scale.of_metres(metres)).round();
        let truth = units * metres * 1000.0 / 50_000.0;
        assert!((measured - truth).abs() < 0.1, "{measured} {truth}");
    }
}

#[test]
fn world_mercator_has_true_scales_too() {
    // At 60 degrees north a metre of the plane is half a metre of ground.
    let grid = nav::Grid::parse("EPSG:3395").unwrap();
    let at = nav::Position::from_degrees(60.0, 5.0).unwrap();
    let there = grid.forward(at).unwrap().point;
    let centre = chart::Point { x: there.easting.as_metres(), y: there.northing.as_metres() };
    let scale = Scale::new(50_000).unwrap();
    let frame = Frame::new(&grid, centre, area(), scale).unwrap();
    assert!((frame.of_grid_metres(1000.0) / Mm(20.0) - 0.5).abs() < 0.002);
}

#[test]
fn everything_keeps_within_its_area_and_is_large_enough_to_read() {
    let chart = chart();
    for part in [
        Part::All(chart.extent),
        Part::At(chart.extent, Scale::new(25_000).unwrap()),
        Part::At(chart.extent, Scale::new(5_000_000).unwrap()),
    ] {
        let drawn = drawn(&chart, part);
        for item in &drawn.items {
            if let Some(extent) = item.area() {
                assert!(area().inset(Mm(-0.01)).holds(&extent), "{extent:?}");
            }
        }
        for text in page(&drawn).texts() {
            assert!(text.size >= LEAST, "{text:?}");
            assert!(area().holds(&text.area()), "{text:?}");
        }
    }
}

#[test]
fn names_do_not_lie_on_each_other() {
    let chart = chart();
    let page = page(&drawn(&chart, Part::All(chart.extent)));
    let texts = page.texts();
    let names: Vec<Area> =
        texts.iter().filter(|text| text.halo > Mm::ZERO).map(|text| text.area()).collect();
    assert!(names.len() > 20, "{}", names.len());
    // Letters rise and hang less than the area of a line.
    let cores = names.iter().map(|area| area.between(area.top + Mm(0.9), area.bottom() - Mm(0.6)));
    let cores: Vec<Area> = cores.collect();
    for (index, one) in cores.iter().enumerate() {
        assert!(cores[index + 1..].iter().all(|other| !other.overlaps(one)), "{one:?}");
    }
}

#[test]
fn the_scale_is_the_largest_round_one_that_has_room() {
    let chart = chart();
    let drawn = drawn(&chart, Part::All(chart.extent));
    let shown = drawn.frame.extent();
    assert!(shown.width() >= chart.extent.width() && shown.height() >= chart.extent.height());
    let inner = drawn.frame.area;
    let larger = drawn.frame.scale.one_to() / 5 * 4;
    let frame =
        Frame::new(&chart.grid, chart.extent.center(), inner, Scale::new(larger).unwrap()).unwrap();
    let shown = frame.extent();
    assert!(shown.width() < chart.extent.width() || shown.height() < chart.extent.height());
}

#[test]
fn land_that_reaches_beyond_the_frame_is_land_up_to_its_edge() {
    let chart = chart();
    let coast = Coast::of(&chart);
    for (x, y) in [(675_000.0, 345_000.0), (678_000.0, 342_000.0), (661_000.0, 360_000.0)] {
        let centre = chart::Point { x, y };
        let scale = Scale::new(10_000).unwrap();
        let frame = Frame::new(&chart.grid, centre, area(), scale).unwrap();
        let outline = ground::land(&coast, &frame);
        for column in 0..20 {
            for row in 0..15 {
                let spot = area()
                    .middle()
                    .moved(Mm(f64::from(column) * 9.7 - 97.0), Mm(f64::from(row) * 9.7 - 70.0));
                let is_land = coast.on_land(frame.point(spot));
                assert_eq!(winding(&outline, spot) > 0, is_land, "{x} {y} {spot:?}");
            }
        }
    }
}

/// How often straight outlines run around a place, counter-clockwise on paper.
fn winding(outline: &Outline, at: Spot) -> i32 {
    use crate::draw::Step;
    let (mut start, mut pen, mut count) = (Spot::default(), Spot::default(), 0);
    let mut side = |a: Spot, b: Spot| {
        if (a.y > at.y) != (b.y > at.y) && a.x + (b.x - a.x) * ((at.y - a.y) / (b.y - a.y)) > at.x {
            count += if b.y < a.y { 1 } else { -1 };
        }
    };
    for step in &outline.steps {
        match *step {
            Step::Move(to) => (start, pen) = (to, to),
            Step::Line(to) => {
                side(pen, to);
                pen = to;
            }
            Step::Close => side(pen, start),
            Step::Curve(..) => panic!("land has no curves"),
        }
    }
    count
}

/// For a look by eye.
#[test]
#[ignore = "writes files to look at"]
fn show() {
    let chart = chart();
    let coast = Coast::of(&chart);
    for (name, inks, part) in [
        ("chart", Inks::Black, Part::All(chart.extent)),
        ("close", Inks::Black, Part::At(chart.extent, Scale::new(40_000).unwrap())),
        ("colour", Inks::Colour, Part::At(chart.extent, Scale::new(60_000).unwrap())),
    ] {
        let chartlet = Chartlet { inks, ..Chartlet::of(&chart, &coast, None) };
        let page = page(&chartlet.draw(area(), part).unwrap());
        let set = pdf::write(&[page], &pdf::About::default());
        crate::tests::show(&format!("{name}.pdf"), &set.bytes);
    }
}
