//! A track of a million points read from GPX and compared with a route, with times and memory.
//!
//! Not divan's kind of benchmark: what is measured takes seconds, and is about memory.
#![allow(clippy::expect_used, clippy::print_stdout, reason = "a bench")]

mod memory;

use std::fs::{self, File};
use std::hint::black_box;
use std::io::{BufWriter, Write};
use std::ops::ControlFlow;
use std::path::Path;
use std::time::Instant;

use chart::coast::Coast;
use chart::water::Tides;
use jiff::{SignedDuration, Timestamp};
use nav::{Length, geodesic, rhumb};
use paper::exchange::Form;
use plan::compare::{Settings, compare};
use plan::unrolled::Ground;

const POINTS: usize = 1_000_000;

fn main() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/compare");
    fs::create_dir_all(&folder).expect("a folder below target");
    // Each in a process of its own, so that memory is that of the one thing.
    for every in [1, 10] {
        let path = folder.join(format!("track-{every}.gpx"));
        match std::env::var("STRANDLINE_BENCH").ok() {
            None => {
                write(&path, every);
                let run =
                    std::process::Command::new(std::env::current_exe().expect("this program"))
                        .env("STRANDLINE_BENCH", every.to_string())
                        .status();
                assert!(run.is_ok_and(|status| status.success()), "{every}");
                let _ = fs::remove_file(&path);
            }
            Some(asked) if asked == every.to_string() => measure(&path, every),
            Some(_) => {}
        }
    }
}

fn measure(path: &Path, every: usize) {
    let megabytes = fs::metadata(path).map_or(0, |known| known.len()) >> 20;
    let route = plan::demonstration().expect("the route that is built in");
    let chart = chart::practice().expect("the chart that is built in");
    let (coast, tides) = (Coast::of(&chart), Tides::of(&chart).expect("its tides"));
    let ground = Ground { chart: &chart, coast: &coast, tides: Some(&tides) };
    let start = Instant::now();
    let go_on = &mut |_, _| ControlFlow::Continue(());
    let file = files::open_foreign(path, Some(Form::Gpx), go_on).expect("a track");
    let read = start.elapsed();
    let track = file.tracks.into_iter().next().expect("a track");
    let compared = compare(&track, &route, &ground, &Settings::default()).expect("compared");
    let all = start.elapsed();
    println!(
        "{POINTS} points {every} s apart, {megabytes} MB: read {:.0} ms, read and compared {:.0} ms (goal 2000 ms)",
        read.as_secs_f64() * 1e3,
        all.as_secs_f64() * 1e3,
    );
    println!(
        "  {} used, {:.0} km made, {} stops",
        compared.cleaning.used,
        compared.whole.made.as_kilometres(),
        compared.stops.len()
    );
    black_box(compared);
    memory::tell("  at most", "VmHWM:", "200 MB");
}

/// The demonstration gone to and fro at three knots, with noise, stops, doubled times and wild fixes.
fn write(path: &Path, every: usize) {
    let route = plan::demonstration().expect("the route that is built in");
    let mut out = BufWriter::new(File::create(path).expect("a file below target"));
    let mut dice = 7_u64;
    let mut part = || {
        dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (dice >> 11) as f64 / (1_u64 << 53) as f64 - 0.5
    };
    let head = r#"<?xml version="1.0"?><gpx version="1.1" creator="bench" xmlns="http://www.topografix.com/GPX/1/1"><trk><name>bench</name><trkseg>"#;
    writeln!(out, "{head}").expect("written");
    let start: Timestamp = "2026-06-14T12:45:00Z".parse().expect("an instant");
    let (mut number, mut leg, mut along) = (0, 0, 0.0);
    let legs: Vec<_> = route.points.windows(2).map(|pair| (pair[0].at, pair[1].at)).collect();
    let legs: Vec<_> =
        legs.iter().copied().chain(legs.iter().rev().map(|&(a, b)| (b, a))).collect();
    while number < POINTS {
        let (from, to) = legs[leg % legs.len()];
        let line = rhumb::inverse(from, to);
        let stop = leg % 8 == 5 && along == 0.0;
        for _ in 0..if stop { 1200 / every } else { 1 } {
            let so_far = (along * Length::METRE).min(line.distance);
            let at = rhumb::direct(from, line.bearing, so_far).expect("on the line");
            let wild = if number % 5000 == 777 { 4_000.0 } else { 8.0 };
            let off = geodesic::direct(at, line.bearing, part() * wild * Length::METRE).position;
            let seconds = (number - usize::from(number % 999 == 1)) * every;
            let when = start + SignedDuration::from_secs(seconds as i64);
            let (lat, lon) = (off.lat.as_degrees() + part() * 8e-5, off.lon.as_degrees());
            writeln!(
                out,
                "<trkpt lat=\"{lat:.7}\" lon=\"{lon:.7}\"><ele>{:.1}</ele><time>{when}</time></trkpt>",
                part() * 3.0
            )
            .expect("written");
            number += 1;
        }
        along += 1.55 * every as f64;
        if along > line.distance.as_metres() {
            (leg, along) = (leg + 1, 0.0);
        }
    }
    writeln!(out, "</trkseg></trk></gpx>").expect("written");
    out.flush().expect("written");
}
