//! How each answer is got, step by step.

use jiff::SignedDuration;
use nav::{Bearing, GridPoint, Length, North, PaceUnit, text};
use plan::{Bearings, LegReading};

use super::{Worksheet, questions};
use crate::draw::Mm;
use crate::map::letter;

/// What a hand is allowed: common practice, no published source.
pub(super) struct Allowed {
    /// In each half of a reference, in tenths of a kilometre.
    pub(super) tenths: u32,
    /// A millimetre under the ruler, in metres of ground.
    pub(super) metres: f64,
    /// In the time of a leg.
    pub(super) time: SignedDuration,
}

/// In a bearing, in degrees.
const BEARING: f64 = 2.0;
/// In a reference, on paper: half a millimetre is as near as a romer is read.
const READ: Mm = Mm(0.5);

impl Allowed {
    pub(super) fn of(sheet: &Worksheet<'_>) -> Allowed {
        let metres = f64::from(sheet.scale().one_to()) / 1000.0;
        let tenths = (READ.0 * metres / 100.0).ceil().max(1.0) as u32;
        let millimetre = sheet.route.pace.time_for(metres * Length::METRE);
        let time = SignedDuration::from_mins(millimetre.unwrap_or_default().as_secs() / 60 + 1);
        Allowed { tenths, metres, time }
    }

    /// In the bearing of a line so long: what a millimetre at its end makes, where that is more.
    fn bearing(&self, ruled: Mm) -> f64 {
        (Mm(1.0) / ruled.max(Mm(1.0))).atan().to_degrees().ceil().max(BEARING)
    }
}

/// The two halves of a six-figure reference, each as the number of a grid line and the tenths beyond it. Nothing where
/// the lines that are drawn are not those that the reference counts, as on World Mercator.
pub(super) fn counted(reference: &str, at: GridPoint) -> Option<[String; 2]> {
    let mut halves = reference.split_whitespace().rev();
    let (up, along) = (halves.next()?, halves.next()?);
    let half = |digits: &str, metres: f64| {
        let tenths: i64 = digits.parse().ok().filter(|_| digits.len() == 3)?;
        // On a line of the grid either side may be meant.
        let near = [-0.01, 0.01].map(|more| ((metres + more) / 100.0).floor() as i64);
        let is_so = near.iter().any(|count| count.rem_euclid(1000) == tenths);
        is_so.then(|| format!("{} and {}: {digits}", &digits[..2], &digits[2..]))
    };
    Some([half(along, at.easting.as_metres())?, half(up, at.northing.as_metres())?])
}

/// The steps of a leg.
pub(super) fn steps(sheet: &Worksheet<'_>, index: usize, allowed: &Allowed) -> Vec<String> {
    let Some(leg) = sheet.reckoning.legs.get(index) else { return Vec::new() };
    let ruled = sheet.ruled(index);
    let mut steps = Vec::new();
    if let Some(bearings) = leg.bearings {
        steps.push(bearing(bearings, ruled.map(|ruled| allowed.bearing(ruled))));
    }
    steps.push(distance(leg, ruled, allowed));
    steps.extend(time(sheet, index, leg));
    steps
}

/// From grid north to true north to the compass's, and back.
fn bearing(bearings: Bearings, allowed: Option<f64>) -> String {
    let Bearings { from_true, from_grid, from_magnetic } = bearings;
    let mut steps = Vec::new();
    match from_grid {
        Some(grid) => {
            let (turn, side) = (between(grid, from_true), ["east", "west"]);
            let side = side[usize::from(turn < 0)];
            steps.push(format!("{} measured", exact(grid)));
            steps.push(format!(
                "{} (convergence: grid north is {side} of true) is {}",
                signed(turn),
                exact(from_true)
            ));
        }
        None => steps.push(format!("{} measured", exact(from_true))),
    }
    let allowed = allowed.map(|degrees| format!(" (±{degrees:.0}°)")).unwrap_or_default();
    let Some(magnetic) = from_magnetic else {
        return format!("Bearing: {}{allowed}; without a date none by compass.", steps.join("; "));
    };
    let turn = between(from_true, magnetic);
    let rule = if turn < 0 { "east is taken off" } else { "west is added" };
    let exact = exact(magnetic);
    steps.push(format!("{} (variation: {rule}) is {exact}, written {magnetic}", signed(turn)));
    let sign = if magnetic.figures() < 180 { '+' } else { '−' };
    let back = format!("back {magnetic} {sign} 180° is {}", magnetic.back());
    format!("Bearing: {}{allowed}; {back}.", steps.join("; "))
}

/// From the one bearing to the other in tenths of a degree, of what is written of both, so that the sum on paper is
/// right.
fn between<A: North, B: North>(from: Bearing<A>, to: Bearing<B>) -> i64 {
    (tenths(to) - tenths(from) + 1800).rem_euclid(3600) - 1800
}

/// `+ 9.8°`.
fn signed(tenths: i64) -> String {
    let sign = if tenths < 0 { '−' } else { '+' };
    format!("{sign} {:.1}°", tenths.abs() as f64 / 10.0)
}

fn tenths<N: North>(bearing: Bearing<N>) -> i64 {
    ((bearing.as_degrees() * 10.0).round() as i64).rem_euclid(3600)
}

/// To a tenth of a degree, `077.9°M`.
fn exact<N: North>(bearing: Bearing<N>) -> String {
    format!("{:05.1}°{}", tenths(bearing) as f64 / 10.0, N::LETTER)
}

fn distance(leg: &LegReading, ruled: Option<Mm>, allowed: &Allowed) -> String {
    let written = (text::kilometres(leg.distance), text::nautical_miles(leg.distance));
    let metres = text::kilometres(allowed.metres * Length::METRE);
    let ruled = ruled.map(|ruled| format!("{:.1} mm × {metres} is ", ruled.0)).unwrap_or_default();
    let (kilometres, miles) = (leg.distance.as_kilometres(), leg.distance.as_nautical_miles());
    format!(
        "Distance: {ruled}{kilometres:.2} km, written {}; {kilometres:.2} ÷ 1.852 is {miles:.2} NM, written {} \
         (±{metres}).",
        written.0, written.1
    )
}

fn time(sheet: &Worksheet<'_>, index: usize, leg: &LegReading) -> Option<String> {
    let time = leg.time?;
    let pace = sheet.route.pace;
    let far = match pace.unit() {
        PaceUnit::Knots => format!("{:.2} NM", leg.distance.as_nautical_miles()),
        PaceUnit::KilometresAnHour => format!("{:.2} km", leg.distance.as_kilometres()),
    };
    let minutes = time.as_secs_f64() / 60.0;
    let clock = sheet.reckoning.departs(index).map(|departs| {
        let (from, to) = (letter(index), letter(index + 1));
        let at = questions::clock(sheet, index + 1);
        format!("; leave {from} at {}, at {to} by {at}", text::clock(&departs))
    });
    let (written, clock) = (text::duration(time), clock.unwrap_or_default());
    Some(format!("Time: {far} at {pace} is {minutes:.1} min, written {written}{clock}."))
}

#[cfg(test)]
mod tests {
    use nav::{Convergence, True, Variation};

    use super::*;

    #[test]
    fn references_are_counted_along_then_up() {
        let half = |a: &str| a.to_owned();
        let at = |x, y| GridPoint::from_metres(x, y).unwrap();
        let there = at(673_199.0, 350_800.0);
        let both = Some([half("73 and 1: 731"), half("50 and 8: 508")]);
        assert_eq!(counted("QB 731 508", there), both);
        // A tenth of a millimetre below the line.
        assert_eq!(counted("QB 731 508", at(673_100.0, 350_799.999_9)), both);
        assert_eq!(counted("QB 731 508", at(673_250.0, 350_800.0)), None);
        assert_eq!(counted("QB 73 50", there), None);
        assert_eq!(counted("", there), None);
    }

    fn worked(from_true: f64, convergence: f64, variation: f64) -> String {
        let from_true = Bearing::<True>::from_degrees(from_true).unwrap();
        let convergence = Convergence::from_degrees_east(convergence).unwrap();
        let variation = Variation::from_degrees_east(variation).unwrap();
        let bearings = Bearings {
            from_true,
            from_grid: Some(from_true.to_grid(convergence)),
            from_magnetic: Some(from_true.to_magnetic(variation)),
        };
        bearing(bearings, Some(2.0))
    }

    #[test]
    fn signs_follow_the_rules_of_the_trade() {
        assert_eq!(
            worked(68.1, 2.3, -9.8),
            "Bearing: 065.8°G measured; + 2.3° (convergence: grid north is east of true) is 068.1°T; + 9.8° \
             (variation: west is added) is 077.9°M, written 078°M (±2°); back 078°M + 180° is 258°M."
        );
        assert_eq!(
            worked(1.0, -1.2, 3.0),
            "Bearing: 002.2°G measured; − 1.2° (convergence: grid north is west of true) is 001.0°T; − 3.0° \
             (variation: east is taken off) is 358.0°M, written 358°M (±2°); back 358°M − 180° is 178°M."
        );
    }

    #[test]
    fn sums_on_paper_are_right_to_the_tenth() {
        for step in 0..720 {
            let said = worked(f64::from(step) * 0.537, 1.749, -9.449);
            let numbers: Vec<f64> = said
                .split(|c: char| !c.is_ascii_digit() && c != '.')
                .filter(|part| part.contains('.') && part.len() > 2)
                .filter_map(|part| part.parse().ok())
                .collect();
            let [grid, convergence, truth, variation, magnetic] = numbers[..5] else { panic!() };
            let off = |a: f64, b: f64| ((a - b + 540.0).rem_euclid(360.0) - 180.0).abs();
            assert!(off(grid + convergence, truth) < 1e-6, "{said}");
            assert!(off(truth + variation, magnetic) < 1e-6, "{said}");
        }
    }

    #[test]
    fn bearings_of_tenths_have_three_figures_before_them() {
        let bearing = |degrees| Bearing::<True>::from_degrees(degrees).unwrap();
        assert_eq!(exact(bearing(7.04)), "007.0°T");
        assert_eq!(exact(bearing(359.97)), "000.0°T");
    }
}
