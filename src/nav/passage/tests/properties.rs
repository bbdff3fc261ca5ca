//! What holds for any stream.

use proptest::prelude::*;

use super::*;

/// Knots at random times over a day and more, up to 2 kn any way.
fn streams() -> impl Strategy<Value = Vec<(f64, f64, f64)>> {
    prop::collection::vec((600.0..7200.0, 0.0..360.0, 0.0..2.0), 30).prop_map(|gaps| {
        let mut at = -4000.0;
        let knot = |(gap, set, drift): (f64, f64, f64)| {
            at += gap;
            (at, set, drift)
        };
        gaps.into_iter().map(knot).collect()
    })
}

fn tracks() -> impl Strategy<Value = Vec<(f64, f64, bool)>> {
    prop::collection::vec((0.0..360.0, 0.05..3.0, any::<bool>()), 1..8)
}

fn line<'a>(tracks: &[(f64, f64, bool)], a: &'a Run, b: &'a Run) -> Vec<Stretch<'a>> {
    let one = |&(track, miles, first): &(f64, f64, bool)| {
        let both = vec![(0.4, a), (0.6, b)];
        Stretch { water: if first { vec![(1.0, a)] } else { both }, ..stretch(track, miles, a) }
    };
    tracks.iter().map(one).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// The film run backwards takes as long.
    #[test]
    fn reversed_in_time_and_stream(a in streams(), b in streams(), tracks in tracks()) {
        let (first, other) = (run(&a), run(&b));
        let boat = Boat::new(knots(2.5));
        let out = walk(&line(&tracks, &first, &other), boat, departs());
        prop_assert!(out.halt.is_none());
        let whole = seconds(&out);
        let back = |knots: &[(f64, f64, f64)]| {
            let turned = knots.iter().rev();
            run(&turned.map(|&(at, set, drift)| (whole - at, set + 180.0, drift)).collect::<Vec<_>>())
        };
        let (first, other) = (back(&a), back(&b));
        let tracks: Vec<_> =
            tracks.iter().rev().map(|&(track, miles, one)| (track + 180.0, miles, one)).collect();
        let back = walk(&line(&tracks, &first, &other), boat, departs());
        prop_assert!((seconds(&back) - whole).abs() < 1e-4, "{} {}", seconds(&back), whole);
    }

    /// A later start never arrives earlier.
    #[test]
    fn the_first_to_leave_is_the_first_to_arrive(
        a in streams(), b in streams(), tracks in tracks(), gap in 0.001..3000.0,
    ) {
        let (a, b) = (run(&a), run(&b));
        let line = line(&tracks, &a, &b);
        let boat = Boat::new(knots(2.5));
        let before = walk(&line, boat, departs()).arrives().unwrap();
        let later = departs() + SignedDuration::from_secs_f64(gap);
        let after = walk(&line, boat, later).arrives().unwrap();
        prop_assert!(after > before, "{after} {before}");
    }

    /// Each instant counts once, and the boat goes through the water all the time.
    #[test]
    fn the_times_make_up_the_whole(a in streams(), b in streams(), tracks in tracks()) {
        let (a, b) = (run(&a), run(&b));
        let walk = walk(&line(&tracks, &a, &b), Boat::new(knots(2.5)), departs());
        let sums = walk.sums();
        prop_assert!((sums.times.whole().as_secs_f64() - seconds(&walk)).abs() < 1e-6);
        let through = knots(2.5).as_metres_per_second() * seconds(&walk);
        prop_assert!((sums.through_water.as_metres() - through).abs() < 1e-3);
        for pair in walk.passed.windows(2) {
            prop_assert_eq!(pair[0].leaves, pair[1].enters);
        }
        let most = sums.greatest.map(|greatest| greatest.stream.drift.as_knots() + 1e-9);
        prop_assert!(most >= sums.mean().map(|mean| mean.drift.as_knots()));
    }

    /// Against the table: random knots, none of them at its own instants.
    #[test]
    fn the_table_agrees(a in streams(), b in streams(), tracks in tracks(), start in 0.0..20_000.0) {
        let (a, b) = (run(&a), run(&b));
        let line = line(&tracks, &a, &b);
        let boat = Boat::new(knots(2.5));
        let end = departs() + SignedDuration::from_hours(24);
        let table = Table::new(line.clone(), boat, departs(), end);
        let start = departs() + SignedDuration::from_secs_f64(start);
        let walked = walk(&line, boat, start).arrives().unwrap();
        let swift = table.walk(0..line.len(), start).unwrap();
        let off = swift.arrives.duration_since(walked).as_secs_f64();
        prop_assert!(off.abs() < 5.0, "{off}");
    }
}
