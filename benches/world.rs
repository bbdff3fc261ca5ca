//! A shore of the whole world: imported, kept, opened, looked at, with times and memory.
//!
//! Not divan's kind of benchmark: what is measured happens once, takes seconds, or is about memory.
//! `python3 benches/fetch_world.py` fetches a real shore of ten million vertices; without it the
//! same is done with one that is made here.
#![allow(clippy::expect_used, clippy::print_stdout, reason = "a bench")]

mod memory;

use std::fs;
use std::hint::black_box;
use std::io::{BufWriter, Write};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use chart::coast::Coast;
use chart::{Extent, Point};
use files::{Folders, OpenedChart, Overwrite};

/// How often what is quick is done.
const TIMES: usize = 200;

fn main() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/coast");
    let real = folder.join("world.geojson");
    let scratch = folder.join("bench");
    fs::create_dir_all(&scratch).expect("a folder below target");
    let file = if real.exists() {
        println!("real shore: {}", real.display());
        real
    } else {
        println!("no real shore: `python3 benches/fetch_world.py` fetches one; this one is made");
        made(&scratch.join("made.geojson"))
    };
    // Each in a process of its own, so that memory is that of the one thing.
    match std::env::var("STRANDLINE_BENCH").ok().as_deref() {
        None => {
            for part in ["import", "open", "window", "read"] {
                let run =
                    std::process::Command::new(std::env::current_exe().expect("this program"))
                        .env("STRANDLINE_BENCH", part)
                        .status();
                assert!(run.is_ok_and(|status| status.success()), "{part}");
            }
        }
        Some("import") => import(&file, &scratch),
        Some("open") => open(&file, &scratch),
        Some("window") => window(&file, &scratch),
        Some("read") => read_whole(&scratch),
        Some(other) => panic!("no part {other}"),
    }
}

fn folders(scratch: &Path) -> Folders {
    let folder = |name| scratch.join(name);
    Folders {
        data: folder("data"),
        state: folder("state"),
        config: folder("config"),
        cache: folder("cache"),
    }
}

fn opened(file: &Path, scratch: &Path) -> OpenedChart {
    let go_on = &mut |_, _| ControlFlow::Continue(());
    files::open_coast(file, Some(&folders(scratch)), go_on).expect("a shore")
}

fn import(file: &Path, scratch: &Path) {
    let _ = fs::remove_dir_all(scratch.join("cache"));
    let megabytes = fs::metadata(file).map_or(0, |known| known.len()) >> 20;
    let start = Instant::now();
    let imported =
        files::import_coast(file, &mut |_, _| ControlFlow::Continue(())).expect("a shore");
    say(&format!("import of {megabytes} MB, indexed, with levels"), start.elapsed(), "4 s");
    memory::tell("  of it at most", "VmHWM:", "700 MB");
    let path = scratch.join("world.shore");
    let start = Instant::now();
    files::save_coast(&path, &imported, Overwrite::Yes, &mut || ControlFlow::Continue(()))
        .expect("saved");
    say("saved as a shore file, on the disk", start.elapsed(), "-");
    println!(
        "  {} MB, {} vertices, {} levels of detail",
        fs::metadata(&path).map_or(0, |known| known.len()) >> 20,
        imported.shores.full().vertices(),
        imported.shores.levels().len()
    );
    // The cache for the parts that follow.
    drop(imported);
    opened(file, scratch);
}

fn open(file: &Path, scratch: &Path) {
    let start = Instant::now();
    let chart = opened(file, scratch);
    say("opened from the cache, the first time in a process", start.elapsed(), "20 ms");
    memory::tell("  resident", "VmRSS:", "300 MB");
    drop(chart);
    let times = (0..20).map(|_| timed(|| black_box(opened(file, scratch)))).collect();
    spread("opened from the cache", times, "20 ms");
}

fn window(file: &Path, scratch: &Path) {
    let chart = opened(file, scratch);
    let coast: &Coast = &chart.coast;
    let extent = chart.chart.extent;
    let degree = 111_319.49;
    let mut dice = 12345_u64;
    let mut part = move || {
        dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (dice >> 11) as f64 / (1_u64 << 53) as f64
    };
    // Windows of one degree about vertices, since most of the world is without a shore.
    let lines = coast.lines().len();
    let mut sides = 0;
    let times = (0..TIMES)
        .map(|_| {
            let line = coast.lines().nth((part() * lines as f64) as usize).expect("a line");
            let at = line.vertex((part() * f64::from(line.sides())) as u32);
            let half = Point { x: degree / 2.0, y: degree / 2.0 };
            let within = Extent::new(at - half, at + half);
            timed(|| coast.for_runs_in(within, |run| sides += run.points.len()))
        })
        .collect();
    spread("a window of one degree, every vertex of the full shore", times, "0.5 ms");
    let full = timed(|| chart.coast.for_runs_in(extent, |run| sides += run.points.len()));
    say("every vertex of all", full, "-");
    black_box(sides);
    memory::tell("  resident after that", "VmRSS:", "300 MB");
}

/// What mapping saves: the same file read whole, every byte held against its checksum.
fn read_whole(scratch: &Path) {
    let path: PathBuf = scratch.join("world.shore");
    let open = || files::open_coast(&path, None, &mut |_, _| ControlFlow::Continue(()));
    let times = (0..5).map(|_| timed(|| black_box(open().expect("a shore")))).collect();
    spread("the same file not of the cache: read whole and held against its checksums", times, "-");
    memory::tell("  at most", "VmHWM:", "300 MB");
}

fn timed<T>(what: impl FnOnce() -> T) -> Duration {
    let start = Instant::now();
    black_box(what());
    start.elapsed()
}

fn say(what: &str, time: Duration, goal: &str) {
    println!("{what}: {:.3} ms (goal {goal})", time.as_secs_f64() * 1e3);
}

fn spread(what: &str, mut times: Vec<Duration>, goal: &str) {
    times.sort();
    let at = |part: usize| times[(times.len() - 1) * part / 100].as_secs_f64() * 1e3;
    println!("{what}: median {:.3} ms, p99 {:.3} ms (goal {goal})", at(50), at(99));
}

/// Ten million vertices: islands of all sizes, their shores by halving sides and moving the middles.
fn made(path: &Path) -> PathBuf {
    if path.exists() {
        return path.to_owned();
    }
    let mut out = BufWriter::new(fs::File::create(path).expect("a file below target"));
    let mut dice = 1_u64;
    let mut part = || {
        dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (dice >> 11) as f64 / (1_u64 << 53) as f64
    };
    let mut left = 10_000_000_i64;
    write!(out, "{{\"type\":\"GeometryCollection\",\"geometries\":[").expect("written");
    let mut first = true;
    while left > 0 {
        // As on Earth: few are large.
        let halvings = 3 + ((1.0 / (part() + 1e-5)).log2() as u32).min(16);
        let radius = 0.001 * f64::from(1 << (halvings / 2)) * (0.5 + part());
        let (lon, lat) = (-160.0 + 320.0 * part(), -70.0 + 140.0 * part());
        let count = 1 << halvings;
        let mut reach = vec![1.0; count + 1];
        let mut step = count;
        while step > 1 {
            for middle in (step / 2..count).step_by(step) {
                let mean = (reach[middle - step / 2] + reach[middle + step / 2]) / 2.0;
                reach[middle] =
                    mean * (1.0 + 0.7 * (part() - 0.5) * (step as f64 / count as f64).sqrt());
            }
            step /= 2;
        }
        write!(out, "{}{{\"type\":\"Polygon\",\"coordinates\":[[", if first { "" } else { "," })
            .expect("written");
        for (number, index) in (0..count).chain([0]).enumerate() {
            let angle = std::f64::consts::TAU * index as f64 / count as f64;
            let (x, y) = (
                lon + radius * reach[index] * angle.cos(),
                lat + radius * reach[index] * angle.sin(),
            );
            let comma = if number == 0 { "" } else { "," };
            write!(out, "{comma}[{x:.6},{y:.6}]").expect("written");
            left -= 1;
        }
        first = false;
        write!(out, "]]}}").expect("written");
    }
    write!(out, "]}}").expect("written");
    out.flush().expect("written");
    path.to_owned()
}
