//! Directions in degrees, alike on every machine.

use super::dice::Xy;

/// Degrees in a radian.
const DEGREES: f64 = 57.295_779_513_082_32;

/// The direction of a vector in degrees clockwise from its y axis, 0 to 360.
///
/// Good to 0.001 degree. The arctangent is Hastings's polynomial (Approximations for Digital
/// Computers, 1955, sheet 11), because the platforms' own differ in their last bits.
pub(super) fn degrees((x, y): Xy) -> f64 {
    let (across, along) = (x.abs(), y.abs());
    let greater = across.max(along);
    if greater <= 0.0 {
        return 0.0;
    }
    let ratio = across.min(along) / greater;
    let acute = if across <= along { arctangent(ratio) } else { 90.0 - arctangent(ratio) };
    match (x >= 0.0, y >= 0.0) {
        (true, true) => acute,
        (true, false) => 180.0 - acute,
        (false, false) => 180.0 + acute,
        (false, true) => 360.0 - acute,
    }
}

/// The arctangent of 0 to 1, in degrees.
fn arctangent(ratio: f64) -> f64 {
    let square = ratio * ratio;
    let tail = -0.085_133_0 + square * 0.020_835_1;
    let series = 0.999_866_0 + square * (-0.330_299_5 + square * (0.180_141_0 + square * tail));
    DEGREES * ratio * series
}

/// A whole degree from 0 to 359 nearest to a number of degrees.
pub(super) fn whole(degrees: f64) -> f64 {
    let turned = degrees.round() % 360.0;
    if turned < 0.0 { turned + 360.0 } else { turned }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn directions_agree_with_the_arctangent_of_this_machine() {
        for step in 0..3600 {
            let wanted = f64::from(step) / 10.0;
            let (sine, cosine) = wanted.to_radians().sin_cos();
            let off = (degrees((sine * 7.0, cosine * 7.0)) - wanted).abs();
            assert!(off.min(360.0 - off) < 0.001, "{wanted} degrees is off by {off}");
        }
    }

    #[test]
    fn whole_degrees_stay_within_a_turn() {
        let cases = [(359.6, 0.0), (-0.4, 0.0), (-1.0, 359.0), (361.2, 1.0), (44.5, 45.0)];
        for (degrees, wanted) in cases {
            assert_eq!(whole(degrees).abs(), wanted, "{degrees}");
        }
    }
}
