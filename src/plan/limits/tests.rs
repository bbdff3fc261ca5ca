//! Limits, written, read and bounded.

use jiff::SignedDuration;
use proptest::prelude::*;
use rstest::rstest;

use super::*;

fn any_limits() -> impl Strategy<Value = Limits> {
    let minutes = |most: SignedDuration| (0..=most.as_mins()).prop_map(SignedDuration::from_mins);
    let race = prop::sample::select(vec![RaceState::Quiet, RaceState::Running, RaceState::Worst]);
    let drift = (0.1..=30.0).prop_map(|knots| Speed::from_knots(knots).unwrap());
    let height = (-20.0..=20.0).prop_map(|m| Height::above_datum(Length::from_metres(m).unwrap()));
    (
        minutes(Limits::MOST_WAIT),
        prop::option::of(minutes(Limits::MOST_LIGHT)),
        race,
        prop::option::of(drift),
        prop::option::of(height),
        prop::option::of(minutes(Limits::MOST_DAY)),
        1..=400u16,
    )
        .prop_map(
            |(longest_wait, light_left, worst_race, drift, height, longest_day, slow)| Limits {
                longest_wait,
                light_left,
                worst_race,
                greatest_drift: drift,
                least_height: height,
                longest_day,
                slow_percent: slow,
            },
        )
}

proptest! {
    #[test]
    fn what_is_written_is_read_again(limits in any_limits()) {
        let limits = limits.checked().unwrap();
        prop_assert_eq!(limits.checked().unwrap(), limits);
        let read = Limit::ALL.into_iter().fold(Limits::default(), |read, limit| {
            read.with(limit, &limits.written(limit)).unwrap()
        });
        prop_assert_eq!(read, limits);
    }
}

#[rstest]
#[case(Limit::Wait, "1 h 10", "1 h 10")]
#[case(Limit::Wait, "1:10", "1 h 10")]
#[case(Limit::Wait, "70", "1 h 10")]
#[case(Limit::Wait, "0", "0 min")]
#[case(Limit::Light, "none", "none")]
#[case(Limit::Light, "45 min", "45 min")]
#[case(Limit::Race, "worst", "at its worst")]
#[case(Limit::Drift, "3,5 kn", "3.5 kn")]
#[case(Limit::Height, "-0.5 m", "-0.5 m")]
#[case(Limit::Slow, "30%", "30 %")]
fn limits_are_read_as_people_write_them(
    #[case] limit: Limit,
    #[case] text: &str,
    #[case] written: &str,
) {
    assert_eq!(Limits::default().with(limit, text).unwrap().written(limit), written);
}

#[rstest]
#[case(Limit::Wait, "none", "“none” is no longest wait; write minutes, 40 min, or 1 h 10")]
#[case(Limit::Wait, "25 h", "a longest wait of 1500 min is not within 0 and 1440 min")]
#[case(Limit::Wait, "1 h 70", "“1 h 70” is no longest wait; write minutes, 40 min, or 1 h 10")]
#[case(Limit::Race, "wild", "“wild” is no worst race; write quiet, running or worst")]
#[case(Limit::Drift, "0", "a greatest drift of 0 kn is not within 0.1 and 30 kn")]
#[case(Limit::Height, "99", "a least height of tide of 99 m is not within -20 and 20 m")]
#[case(Limit::Slow, "0", "slow by 0 % is not within 1 and 400 %")]
#[case(Limit::Slow, "NaN", "“NaN” is no slow; write hundredths, such as 25 %")]
fn what_is_no_limit_is_said(#[case] limit: Limit, #[case] text: &str, #[case] wanted: &str) {
    assert_eq!(Limits::default().with(limit, text).unwrap_err().to_string(), wanted);
}
