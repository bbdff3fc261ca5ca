//! The moon's phases.

use jiff::Timestamp;

use crate::moment::{DateOutside, seconds, timestamp};
use crate::sun::terrestrial_ahead;

/// A quarter of the moon's round.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MoonPhase {
    /// With the sun.
    New,
    /// Half lit, waxing.
    FirstQuarter,
    /// Opposite the sun.
    Full,
    /// Half lit, waning.
    LastQuarter,
}

/// Seconds from 1970 of a Julian day.
fn of_julian_day(day: f64) -> f64 {
    (day - 2_440_587.5) * 86_400.0
}

/// Mean new moons between 1900 and 2100 and the days between two (Meeus, chapter 49).
const FIRST: f64 = 2_451_550.097_66;
const MONTH: f64 = 29.530_588_861;

/// The moon's phases between two instants, in order.
///
/// By J. Meeus, *Astronomical Algorithms*, 2nd edition (1998), chapter 49, whose mean error is 4
/// seconds. Springs follow new and full moon by the age of the tide, a day or two in most places:
/// see [`Port::springs_and_neaps`](super::Port::springs_and_neaps).
///
/// # Errors
/// [`DateOutside`] before 1900 and after 2100.
///
/// ```
/// use nav::tide::{MoonPhase, moon_phases};
/// // Meeus, example 49.a: the new moon of 1977 February 18, 3 h 37 min 42 s in terrestrial time.
/// let phases = moon_phases("1977-02-15T00Z".parse()?, "1977-02-20T00Z".parse()?)?;
/// assert_eq!(phases.len(), 1);
/// assert_eq!(phases[0].1, MoonPhase::New);
/// assert!(phases[0].0.to_string().starts_with("1977-02-18T03:36:"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn moon_phases(
    from: Timestamp,
    to: Timestamp,
) -> Result<Vec<(Timestamp, MoonPhase)>, DateOutside> {
    let (from, to) = (seconds(from)?, seconds(to)?);
    // Quarters from the first of 2000; true phases lie within a day of mean ones.
    let quarter = |at: f64| (at - of_julian_day(FIRST)) / 86_400.0 / (MONTH / 4.0);
    let (first, last) = (quarter(from).floor() as i32 - 1, quarter(to).ceil() as i32 + 1);
    let phases = (first..=last).map(|quarter| {
        let phase = match quarter.rem_euclid(4) {
            0 => MoonPhase::New,
            1 => MoonPhase::FirstQuarter,
            2 => MoonPhase::Full,
            _ => MoonPhase::LastQuarter,
        };
        let terrestrial = of_julian_day(julian_ephemeris_day(f64::from(quarter) / 4.0, phase));
        (terrestrial - terrestrial_ahead(terrestrial), phase)
    });
    let within = phases.filter(|(at, _)| (from..=to).contains(at));
    Ok(within.map(|(at, phase)| (timestamp(at), phase)).collect())
}

/// A term: what it comes to in days, the power of the eccentricity, and how often sun's anomaly,
/// moon's anomaly and moon's argument of latitude go into its sine.
type Term = (f64, i32, [f64; 3]);

/// The terms of table 49.A that new moon (first size) and full moon (second size) share.
const SYZYGY: [(f64, Term); 24] = [
    (-0.40614, (-0.40720, 0, [0.0, 1.0, 0.0])),
    (0.17302, (0.17241, 1, [1.0, 0.0, 0.0])),
    (0.01614, (0.01608, 0, [0.0, 2.0, 0.0])),
    (0.01043, (0.01039, 0, [0.0, 0.0, 2.0])),
    (0.00734, (0.00739, 1, [-1.0, 1.0, 0.0])),
    (-0.00515, (-0.00514, 1, [1.0, 1.0, 0.0])),
    (0.00209, (0.00208, 2, [2.0, 0.0, 0.0])),
    (-0.00111, (-0.00111, 0, [0.0, 1.0, -2.0])),
    (-0.00057, (-0.00057, 0, [0.0, 1.0, 2.0])),
    (0.00056, (0.00056, 1, [1.0, 2.0, 0.0])),
    (-0.00042, (-0.00042, 0, [0.0, 3.0, 0.0])),
    (0.00042, (0.00042, 1, [1.0, 0.0, 2.0])),
    (0.00038, (0.00038, 1, [1.0, 0.0, -2.0])),
    (-0.00024, (-0.00024, 1, [-1.0, 2.0, 0.0])),
    (-0.00007, (-0.00007, 0, [2.0, 1.0, 0.0])),
    (0.00004, (0.00004, 0, [0.0, 2.0, -2.0])),
    (0.00004, (0.00004, 0, [3.0, 0.0, 0.0])),
    (0.00003, (0.00003, 0, [1.0, 1.0, -2.0])),
    (0.00003, (0.00003, 0, [0.0, 2.0, 2.0])),
    (-0.00003, (-0.00003, 0, [1.0, 1.0, 2.0])),
    (0.00003, (0.00003, 0, [-1.0, 1.0, 2.0])),
    (-0.00002, (-0.00002, 0, [-1.0, 1.0, -2.0])),
    (-0.00002, (-0.00002, 0, [1.0, 3.0, 0.0])),
    (0.00002, (0.00002, 0, [0.0, 4.0, 0.0])),
];

/// The terms of the quarters.
const QUARTER: [Term; 24] = [
    (-0.62801, 0, [0.0, 1.0, 0.0]),
    (0.17172, 1, [1.0, 0.0, 0.0]),
    (-0.01183, 1, [1.0, 1.0, 0.0]),
    (0.00862, 0, [0.0, 2.0, 0.0]),
    (0.00804, 0, [0.0, 0.0, 2.0]),
    (0.00454, 1, [-1.0, 1.0, 0.0]),
    (0.00204, 2, [2.0, 0.0, 0.0]),
    (-0.00180, 0, [0.0, 1.0, -2.0]),
    (-0.00070, 0, [0.0, 1.0, 2.0]),
    (-0.00040, 0, [0.0, 3.0, 0.0]),
    (-0.00034, 1, [-1.0, 2.0, 0.0]),
    (0.00032, 1, [1.0, 0.0, 2.0]),
    (0.00032, 1, [1.0, 0.0, -2.0]),
    (-0.00028, 2, [2.0, 1.0, 0.0]),
    (0.00027, 1, [1.0, 2.0, 0.0]),
    (-0.00005, 0, [-1.0, 1.0, -2.0]),
    (0.00004, 0, [0.0, 2.0, 2.0]),
    (-0.00004, 0, [1.0, 1.0, 2.0]),
    (0.00004, 0, [-2.0, 1.0, 0.0]),
    (0.00003, 0, [1.0, 1.0, -2.0]),
    (0.00003, 0, [3.0, 0.0, 0.0]),
    (0.00002, 0, [0.0, 2.0, -2.0]),
    (0.00002, 0, [-1.0, 1.0, 2.0]),
    (-0.00002, 0, [1.0, 3.0, 0.0]),
];

/// The planets' terms: millionths of a day, degrees, degrees a month.
const PLANETS: [(f64, f64, f64); 14] = [
    (325.0, 299.77, 0.107_408),
    (165.0, 251.88, 0.016_321),
    (164.0, 251.83, 26.651_886),
    (126.0, 349.42, 36.412_478),
    (110.0, 84.66, 18.206_239),
    (62.0, 141.74, 53.303_771),
    (60.0, 207.14, 2.453_732),
    (56.0, 154.84, 7.306_860),
    (47.0, 34.52, 27.261_239),
    (42.0, 207.19, 0.121_824),
    (40.0, 291.34, 1.844_379),
    (37.0, 161.72, 24.198_154),
    (35.0, 239.56, 25.513_099),
    (23.0, 331.55, 3.592_518),
];

/// The Julian day of terrestrial time of the phase `k` months from the first of 2000.
fn julian_ephemeris_day(k: f64, phase: MoonPhase) -> f64 {
    let t = k / 1236.85;
    // (49.1), (49.4) to (49.7), (47.6)
    let mean =
        FIRST + MONTH * k + t * t * (0.000_154_37 - t * (0.000_000_150 - 0.000_000_000_73 * t));
    let sun = 2.5534 + 29.105_356_70 * k - t * t * (0.000_001_4 + 0.000_000_11 * t);
    let moon = 201.5643
        + 385.816_935_28 * k
        + t * t * (0.010_758_2 + t * (0.000_012_38 - 0.000_000_058 * t));
    let latitude = 160.7108 + 390.670_502_84 * k
        - t * t * (0.001_611_8 + t * (0.000_002_27 - 0.000_000_011 * t));
    let node =
        (124.7746 - 1.563_755_88 * k + t * t * (0.002_067_2 + 0.000_002_15 * t)).to_radians();
    let e = 1.0 - t * (0.002_516 + 0.000_007_4 * t);
    let angles = [sun, moon, latitude].map(f64::to_radians);
    let angle = |by: [f64; 3]| by[0] * angles[0] + by[1] * angles[1] + by[2] * angles[2];
    let term = |(size, power, by): Term| size * e.powi(power) * angle(by).sin();
    let main: f64 = match phase {
        MoonPhase::New => SYZYGY.iter().map(|&(_, new)| term(new)).sum(),
        MoonPhase::Full => SYZYGY.iter().map(|&(full, (_, e, by))| term((full, e, by))).sum(),
        MoonPhase::FirstQuarter | MoonPhase::LastQuarter => {
            let cos = |by| angle(by).cos();
            let w = 0.003_06 - 0.000_38 * e * cos([1.0, 0.0, 0.0])
                + 0.000_26 * cos([0.0, 1.0, 0.0])
                - 0.000_02 * cos([-1.0, 1.0, 0.0])
                + 0.000_02 * (cos([1.0, 1.0, 0.0]) + cos([0.0, 0.0, 2.0]));
            let w = if phase == MoonPhase::FirstQuarter { w } else { -w };
            QUARTER.iter().map(|&quarter| term(quarter)).sum::<f64>() + w
        }
    };
    let planet = |(size, at, rate): (f64, f64, f64)| {
        // The first has a square, by its own line in the chapter.
        let square = if size == 325.0 { -0.009_173 * t * t } else { 0.0 };
        size * 1e-6 * (at + rate * k + square).to_radians().sin()
    };
    mean + main - 0.000_17 * node.sin() + PLANETS.map(planet).iter().sum::<f64>()
}

#[cfg(test)]
mod tests {
    use super::super::tests::time;
    use super::*;

    /// Meeus, examples 49.a and 49.b (numbers from memory).
    #[test]
    fn meeuss_examples() {
        let new = julian_ephemeris_day(-283.0, MoonPhase::New);
        assert!((new - 2_443_192.651_18).abs() < 0.6e-5, "{new}");
        let last = julian_ephemeris_day(544.75, MoonPhase::LastQuarter);
        assert!((last - 2_467_636.491_86).abs() < 0.6e-5, "{last}");
    }

    #[test]
    fn a_years_phases_by_turns() {
        let phases = moon_phases(time("2026-01-01T00Z"), time("2027-01-01T00Z")).unwrap();
        assert!((49..=50).contains(&phases.len()), "{}", phases.len());
        for pair in phases.windows(2) {
            let days = pair[1].0.duration_since(pair[0].0).as_secs_f64() / 86_400.0;
            // A quarter is between 6.5 and 8.3 days long.
            assert!((6.5..8.3).contains(&days), "{pair:?}");
            let next = |phase| match phase {
                MoonPhase::New => MoonPhase::FirstQuarter,
                MoonPhase::FirstQuarter => MoonPhase::Full,
                MoonPhase::Full => MoonPhase::LastQuarter,
                MoonPhase::LastQuarter => MoonPhase::New,
            };
            assert_eq!(next(pair[0].1), pair[1].1);
        }
    }
}
