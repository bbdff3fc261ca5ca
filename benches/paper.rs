//! Paper: a card of twelve legs from plan to bytes, and a whole chart on a page.

#![allow(clippy::expect_used, missing_docs, reason = "a bench")]

use std::process::{Command, Stdio};

use chart::coast::Coast;
use chart::water::Tides;
use chart::{Chart, Point};
use divan::Bencher;
use jiff::SignedDuration;
use nav::GridPoint;
use paper::card::{Card, Plan, Size};
use paper::map::Chartlet;
use paper::{Sheet, pdf, picture, png, svg};
use plan::unrolled::Ground;
use plan::{Course, Passage, Route, Waypoint};

fn main() {
    divan::main();
}

/// A day on the practice chart, ready to be printed.
struct Day {
    chart: Chart,
    coast: Coast,
    tides: Tides,
    route: Route,
}

impl Day {
    /// Twelve legs about the middle of the chart, wherever they go.
    fn new() -> Day {
        let chart = chart::practice().expect("the chart is built in");
        let coast = Coast::of(&chart);
        let tides = Tides::of(&chart).expect("its tides can be told");
        let mut route = Route::new(&chart.title);
        route.departure = Some("2026-06-14T09:30[-02:00]".parse().expect("a time"));
        for n in 0..13 {
            let turn = f64::from(n) * 0.9;
            let far = 1200.0 + 160.0 * f64::from(n);
            let at = Point { x: 677_300.0 + far * turn.sin(), y: 350_000.0 + far * turn.cos() };
            let at = GridPoint::from_metres(at.x, at.y).expect("a point");
            let at = chart.grid.inverse(at).expect("on the grid").position;
            route.points.push(Waypoint::new(at).named("Savassa Pool"));
        }
        Day { chart, coast, tides, route }
    }

    fn passage(&self) -> (Course, Passage) {
        let ground = Ground { chart: &self.chart, coast: &self.coast, tides: Some(&self.tides) };
        let course = Course::new(&self.route, &ground);
        let departs = self.route.departure.as_ref().expect("it is set").moment().timestamp();
        let wait = SignedDuration::from_hours(2);
        let passage = course.passage(Some(&self.tides), departs, wait).expect("a date in range");
        (course, passage)
    }
}

/// What a command does after it has opened its files: tides, course, passage, card, file.
#[divan::bench(args = [Size::A4, Size::A5, Size::A6])]
fn a_card(bencher: Bencher<'_, '_>, size: Size) {
    let day = Day::new();
    bencher.bench(|| {
        let (course, passage) = day.passage();
        let plan = Plan {
            route: &day.route,
            chart: &day.chart,
            coast: &day.coast,
            tides: Some(&day.tides),
            passage: Some((&course, &passage)),
            profile: None,
        };
        let pages = Card { size, ..Card::default() }.set(&plan).expect("on the grid");
        pdf::write(&pages, &pdf::About::default())
    });
}

/// Target: under 150 ms. The card of twelve legs from the start of the program to the file on the disk.
#[divan::bench(args = ["a4", "a5", "a6"])]
fn start_to_file(bencher: Bencher<'_, '_>, size: &str) {
    let folder = tempfile::tempdir().expect("a folder");
    let (route, card) = (folder.path().join("day.ron"), folder.path().join("card.pdf"));
    files::save_route(&route, &Day::new().route).expect("the route is saved");
    let mut program = Command::new(env!("CARGO_BIN_EXE_strandline"));
    program.arg("card").arg(&route).args(["--force", "--size", size, "-o"]).arg(&card);
    program.stderr(Stdio::null());
    bencher.bench_local(|| assert!(program.status().expect("it starts").success()));
    assert!(card.exists());
}

/// A whole chart on an A4 page, in each format.
#[divan::bench(args = ["pdf", "svg", "png"])]
fn a_chart(bencher: Bencher<'_, '_>, format: &str) {
    let day = Day::new();
    let sheet = Sheet::On(paper::draw::Size::new(297.0, 210.0));
    bencher.bench(|| {
        let chartlet = Chartlet::of(&day.chart, &day.coast, Some(&day.route));
        let page = picture(&chartlet, day.chart.extent, sheet).expect("on the grid");
        match format {
            "pdf" => pdf::write(&[page], &pdf::About::default()).bytes.len(),
            "svg" => svg::write(&page, "").len(),
            _ => png::write(&page, 150.0).expect("a picture").len(),
        }
    });
}
