//! The heading that is found from along the line, beside those all round the compass.

use proptest::prelude::*;

use super::*;
use crate::Speed;
use crate::stream::{Knot, Run, vector};

fn run(departs: Timestamp, flows: &[(f64, f64)]) -> Run {
    let origin = departs.as_duration().as_secs_f64();
    let knot = |(index, &(set, drift)): (usize, &(f64, f64))| Knot {
        at: origin + 3600.0 * (index as f64 - 0.3),
        flow: vector(Bearing::wrapped(set), drift),
    };
    Run::new(flows.iter().enumerate().map(knot).collect())
}

fn flows() -> impl Strategy<Value = Vec<(f64, f64)>> {
    // Metres per second, for a boat of 1.5.
    (0.2..2.5_f64).prop_flat_map(|most| prop::collection::vec((0.0..360.0, 0.0..most), 24))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn none_of_all_round_the_compass_is_quicker(
        near in flows(), far in flows(), track in 0.0..360.0, kilometres in 1.0..15.0,
    ) {
        let departs = Timestamp::UNIX_EPOCH;
        let runs = [run(departs, &near), run(departs, &far)];
        let stretches = runs.each_ref().map(|run| Stretch {
            track: Bearing::wrapped(track),
            length: kilometres / 2.0 * Length::KILOMETRE,
            water: vec![(1.0, run)],
        });
        let boat = Boat::new(Speed::metres_per_second(1.5));
        let line = Line { stretches: &stretches, boat, clock: Clock::from(departs) };
        match (line.near(), line.quickest()) {
            (Some(best), Ok(quickest)) => {
                prop_assert!(best.seconds < quickest.seconds + 0.1, "{best:?} {quickest:?}");
                prop_assert!(best.is_there());
            }
            // Two headings closer together than the compass was looked at; none; or one all round.
            (Some(_), Err(_)) | (None, _) => {}
        }
    }

    /// Where the water is everywhere the same, letting it carry is never slower than holding the line
    /// (E. Zermelo, *Über das Navigationsproblem*, Zeitschrift für angewandte Mathematik und Mechanik
    /// 11, 1931: the heading does not turn).
    #[test]
    fn holding_the_line_is_no_quicker(
        flows in flows(), track in 0.0..360.0, kilometres in 1.0..15.0,
    ) {
        let departs = Timestamp::UNIX_EPOCH;
        let run = run(departs, &flows);
        let stretch = Stretch {
            track: Bearing::wrapped(track),
            length: kilometres * Length::KILOMETRE,
            water: vec![(1.0, &run)],
        };
        let boat = Boat::new(Speed::metres_per_second(1.5));
        let held = super::super::walk(std::slice::from_ref(&stretch), boat, departs);
        if let Some(held) = held.arrives()
            && let Ok(crossing) = one_heading(&[stretch], boat, departs)
        {
            prop_assert!(crossing.arrives <= held + SignedDuration::from_millis(5));
        }
    }
}
