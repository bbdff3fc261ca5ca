//! Passages out of the table, beside those that are walked and those that are stepped.

use super::*;

const HOUR: SignedDuration = SignedDuration::from_hours(1);

/// A tide of 12.4 h along an axis: a knot every so many seconds, from so many hours before the
/// departure on, for two days.
fn tide(axis: f64, greatest: f64, every: f64, before: f64, later: f64) -> Run {
    let knots = (0..).map(|index| f64::from(index) * every - 3600.0 * before);
    let rate = |at: f64| greatest * (std::f64::consts::TAU * (at / 3600.0 - later) / 12.4).sin();
    let knot = |at: f64| {
        let rate = rate(at);
        (at, if rate < 0.0 { axis + 180.0 } else { axis }, rate.abs())
    };
    run(&knots.take_while(|at| *at < 48.0 * 3600.0).map(knot).collect::<Vec<_>>())
}

/// Two tides by the hour and one by five minutes, off the table's own time.
fn tides(greatest: f64) -> [Run; 3] {
    [
        tide(50.0, greatest, 3600.0, 2.3, 0.4),
        tide(80.0, 0.8 * greatest, 3600.0, 3.1, 1.1),
        tide(65.0, 1.1 * greatest, 300.0, 2.0, 0.0),
    ]
}

/// Out and back in parts of 300 m, sixteen kilometres in all.
fn line(tides: &[Run; 3]) -> Vec<Stretch<'_>> {
    let part = |index: usize| {
        let out = 40.0 + 5.0 * (index % 9) as f64;
        let share = (index % 27) as f64 / 27.0;
        Stretch {
            track: degrees(if index < 27 { out } else { out + 180.0 }),
            length: 300.0 * Length::METRE,
            water: vec![(0.5 - 0.5 * share, &tides[0]), (0.5 * share, &tides[1]), (0.5, &tides[2])],
        }
    };
    (0..54).map(part).collect()
}

fn table<'a>(line: &[Stretch<'a>], boat: Boat) -> Table<'a> {
    Table::new(line.to_vec(), boat, departs(), departs() + 40 * HOUR)
}

#[test]
fn within_five_seconds_of_small_steps() {
    // From a stream that is easily stemmed to one that leaves a hundredth of the boat's speed.
    for (greatest, starts) in [(1.0, 40), (2.0, 40), (2.6, 60), (3.2, 60)] {
        let tides = tides(greatest);
        let line = line(&tides);
        let boat = Boat::new(knots(3.0));
        let table = table(&line, boat);
        let (mut worst, mut halted) = (0.0_f64, 0);
        for start in 0..starts {
            let departs = departs() + SignedDuration::from_mins(12) * start;
            let looked_up = table.walk(0..line.len(), departs);
            match (looked_up, stepped(&line, boat, departs, 5.0)) {
                (Ok(swift), Some(time)) => {
                    let off = swift.arrives.duration_since(departs).as_secs_f64() - time;
                    worst = worst.max(off.abs());
                }
                (Err(_), None) => halted += 1,
                (swift, time) => panic!("{greatest} {start}: {swift:?} but {time:?}"),
            }
        }
        assert!(worst < 1.0, "{greatest}: {worst} s");
        assert_eq!(halted > 0, greatest > 3.0, "{greatest}: {halted}");
    }
}

#[test]
fn as_the_walk_has_it() {
    for greatest in [0.7, 1.5, 2.2, 2.6, 3.2, 3.8] {
        let tides = tides(greatest);
        let line = line(&tides);
        let boat =
            Boat::new(knots(3.0)).with_leeway(Stream { set: degrees(330.0), drift: knots(0.2) });
        let table = table(&line, boat);
        for start in 0..150 {
            let departs = departs() + SignedDuration::from_secs(437) * start;
            let walked = walk(&line, boat, departs);
            match (table.walk(0..line.len(), departs), walked.halt) {
                (Ok(swift), None) => same(&swift, &walked),
                (Err(found), Some(halt)) => {
                    assert_eq!((found.stretch, found.why), (halt.stretch, halt.why));
                    let off = found.at.duration_since(halt.at).as_secs_f64();
                    assert!(off.abs() < 1.0, "{greatest} {start}: {off}");
                    let off = found.along.as_metres() - halt.along.as_metres();
                    assert!(off.abs() < 1.0, "{greatest} {start}: {off}");
                }
                (swift, halt) => panic!("{greatest} {start}: {swift:?} but {halt:?}"),
            }
        }
    }
}

fn same(swift: &Swift, walked: &Walk) {
    let off = swift.arrives.duration_since(walked.arrives().unwrap()).as_secs_f64();
    assert!(off.abs() < 1.0, "{off} s");
    let sums = walked.sums();
    let sorts =
        |times: Times| [times.with, times.against, times.across, times.slack, times.without_data];
    for (found, expected) in sorts(swift.times).into_iter().zip(sorts(sums.times)) {
        let off = (found - expected).as_secs_f64();
        // The table goes straight from node to node where hourly knots lie between.
        assert!(off.abs() < 30.0, "{off} s of {:?} and {:?}", swift.times, sums.times);
    }
    let greatest = sums.greatest.map_or(0.0, |greatest| greatest.stream.drift.as_knots());
    let found = swift.greatest.map_or(0.0, |greatest| greatest.as_knots());
    assert!((found - greatest).abs() < 0.02, "{swift:?} {greatest}");
    assert_eq!(swift.greatest.is_some(), sums.greatest.is_some());
}

/// From 1.9 kn one way to 1.7 kn the other in ten minutes, in the middle of a step, where the line turns
/// about: no parabola follows that.
#[test]
fn a_stream_that_swings_round() {
    let water = run(&[
        (0.0, 0.0, 0.0),
        (12_136.0, 325.6, 1.58),
        (16_724.0, 223.4, 1.87),
        (17_324.0, 0.0, 1.68),
        (23_549.0, 0.0, 0.0),
        (40_000.0, 0.0, 0.0),
    ]);
    let line =
        [stretch(74.3, 1.27, &water), stretch(266.2, 0.33, &water), stretch(0.0, 0.1, &water)];
    let boat = Boat::new(knots(2.5));
    let table = table(&line, boat);
    for start in 0..600 {
        let departs = departs() + SignedDuration::from_secs(10) * start + 3 * HOUR;
        let walked = walk(&line, boat, departs).arrives().unwrap();
        let off = table.walk(0..3, departs).unwrap().arrives.duration_since(walked);
        assert!(off.abs() < SignedDuration::from_millis(1_500), "{start}: {off:?}");
    }
}

#[test]
fn leg_by_leg_with_a_wait() {
    let tides = tides(1.8);
    let line = line(&tides);
    let boat = Boat::new(knots(3.0));
    let table = table(&line, boat);
    let first = table.walk(0..20, departs()).unwrap();
    let goes_on = first.arrives + SignedDuration::from_mins(95);
    let second = table.walk(20..54, goes_on).unwrap();
    let walked = walk(&line[20..], boat, goes_on).arrives().unwrap();
    assert!(second.arrives.duration_since(walked).abs() < SignedDuration::from_secs(1));
    // And in one piece as in two.
    let whole = table.walk(0..54, departs()).unwrap();
    let rest = table.walk(20..54, first.arrives).unwrap();
    assert!(whole.arrives.duration_since(rest.arrives).abs() < SignedDuration::from_millis(1));
    assert_eq!(table.walk(20..20, goes_on).unwrap().arrives, goes_on);
    assert_eq!(table.walk(54..90, goes_on).unwrap().arrives, goes_on);
}

/// Past marks in one go, or from mark to mark with each instant rounded: the same to a nanosecond for each,
/// in the table, out of it, where nothing is known, and where the boat halts.
#[test]
fn past_marks_as_from_mark_to_mark() {
    let tides = tides(2.9);
    let mut line = line(&tides);
    line[7].water.clear();
    line[30].water.clear();
    let table = Table::new(line, Boat::new(knots(3.0)), departs(), departs() + 30 * HOUR);
    let marks = [0, 1, 7, 8, 8, 21, 30, 40, 54];
    let close =
        |a: Timestamp, b: Timestamp| a.duration_since(b).abs() <= SignedDuration::from_nanos(10);
    let (mut arrived, mut halted) = (0, 0);
    for start in 0..700 {
        let departs = departs() + SignedDuration::from_mins(3) * start;
        let mut came = Vec::new();
        let past = table.walk_past(&marks, departs, |at| came.push(at));
        let (mut now, mut each, mut times) = (departs, Vec::new(), Times::default());
        let (mut greatest, mut halt) = (None::<f64>, None);
        for pair in marks.windows(2) {
            match table.walk(pair[0]..pair[1], now) {
                Ok(swift) => {
                    now = swift.arrives;
                    each.push(now);
                    times = [times, swift.times].into_iter().sum();
                    let knots = swift.greatest.map(|greatest| greatest.as_knots());
                    greatest = knots.into_iter().chain(greatest).reduce(f64::max);
                }
                Err(why) => {
                    halt = Some(why);
                    break;
                }
            }
        }
        assert!(came.iter().zip(&each).all(|(a, b)| close(*a, *b)), "{departs}");
        match (past, halt) {
            (Ok(swift), None) => {
                assert_eq!(came.len(), marks.len() - 2);
                assert!(close(swift.arrives, now), "{departs}");
                let off = |a: SignedDuration, b: SignedDuration| (a - b).abs();
                let bound = SignedDuration::from_nanos(20);
                let (a, b) = (swift.times, times);
                assert!(off(a.with, b.with) <= bound && off(a.against, b.against) <= bound);
                assert!(off(a.across, b.across) <= bound && off(a.slack, b.slack) <= bound);
                assert!(off(a.without_data, b.without_data) <= bound);
                let off = swift.greatest.unwrap().as_knots() - greatest.unwrap();
                assert!(off.abs() < 1e-9, "{departs}: {off}");
                arrived += 1;
            }
            (Err(past), Some(halt)) => {
                assert!(
                    past.stretch == halt.stretch && close(past.at, halt.at),
                    "{past:?} {halt:?}"
                );
                halted += 1;
            }
            (past, halt) => panic!("{departs}: {past:?} {halt:?}"),
        }
    }
    assert!(arrived > 100 && halted > 20, "{arrived} {halted}");
}

#[test]
fn what_lies_outside_is_walked() {
    let tides = tides(1.2);
    let mut line = line(&tides);
    line[7].water.clear();
    let boat = Boat::new(knots(3.0));
    // A table of two hours, one with its end first, and a time for which nothing is known.
    let short = Table::new(line.clone(), boat, departs(), departs() + 2 * HOUR);
    let none = Table::new(line.clone(), boat, departs(), departs() - HOUR);
    for start in [-30, -2, 0, 1, 3, 50, 100] {
        let departs = departs() + HOUR * start;
        let walked = walk(&line, boat, departs);
        for table in [&short, &none] {
            let swift = table.walk(0..line.len(), departs).unwrap();
            same(&swift, &walked);
        }
        let exact = none.walk(0..line.len(), departs).unwrap();
        let off = exact.arrives.duration_since(walked.arrives().unwrap());
        assert!(off.abs() < SignedDuration::from_micros(10));
        assert!(exact.times.without_data >= SignedDuration::from_mins(3));
    }
}

/// A later start never arrives earlier, at any length of wait.
#[test]
fn the_first_to_leave_is_the_first_to_arrive() {
    let tides = tides(2.5);
    let line = line(&tides);
    let table = table(&line, Boat::new(knots(3.0)));
    let mut last = None;
    for start in 0..4_000 {
        let departs = departs() + SignedDuration::from_secs(20) * start;
        let Ok(swift) = table.walk(0..line.len(), departs) else { continue };
        // But for what a stretch that is walked and one that is looked up may differ by.
        if let Some(last) = last {
            assert!(swift.arrives > last - SignedDuration::from_millis(300), "{departs}");
        }
        last = last.max(Some(swift.arrives));
    }
}
