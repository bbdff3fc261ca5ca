//! Sines and cosines of degrees.

/// The sine and the cosine of an angle in degrees, exact at the quarter turns and within two
/// units of the last place elsewhere.
///
/// Without a branch, so that a loop over many angles is worked several at a time.
#[inline]
pub(crate) fn sin_cos_degrees(degrees: f64) -> (f64, f64) {
    // Added to a number of moderate size it rounds it to a whole one, in the last bits.
    const TO_WHOLE: f64 = 1.5 * (1_u64 << 52) as f64;
    let rounded = degrees * (1.0 / 90.0) + TO_WHOLE;
    let quarter = rounded.to_bits() & 3;
    let (sin, cos) = kernel((degrees - 90.0 * (rounded - TO_WHOLE)).to_radians());
    let odd = quarter & 1 == 1;
    let (sin, cos) = if odd { (cos, sin) } else { (sin, cos) };
    (turned(sin, quarter & 2), turned(cos, (quarter + 1) & 2))
}

/// The number, or its negative when `half` is 2 and not 0.
#[inline]
fn turned(number: f64, half: u64) -> f64 {
    // The sign is the first of 64 bits.
    f64::from_bits(number.to_bits() ^ (half << 62))
}

/// Sine and cosine from -π/4 to π/4, by the polynomials of `__kernel_sin` and `__kernel_cos` in
/// Sun Microsystems' fdlibm 5.3 (1993), which are within 2⁻⁵⁷ there.
#[inline]
fn kernel(x: f64) -> (f64, f64) {
    const S: [f64; 6] = [
        -1.666_666_666_666_663_2e-1,
        8.333_333_333_322_49e-3,
        -1.984_126_982_985_795e-4,
        2.755_731_370_707_006_8e-6,
        -2.505_076_025_340_686_3e-8,
        1.589_690_995_211_55e-10,
    ];
    const C: [f64; 6] = [
        4.166_666_666_666_66e-2,
        -1.388_888_888_887_411e-3,
        2.480_158_728_947_673e-5,
        -2.755_731_435_139_066_3e-7,
        2.087_572_321_298_175e-9,
        -1.135_964_755_778_819_5e-11,
    ];
    let z = x * x;
    let poly = |c: &[f64; 6]| c[0] + z * (c[1] + z * (c[2] + z * (c[3] + z * (c[4] + z * c[5]))));
    let sin = x + z * x * poly(&S);
    let half = 0.5 * z;
    let near = 1.0 - half;
    let cos = near + (((1.0 - near) - half) + z * z * poly(&C));
    (sin, cos)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quarter_turns_are_exact() {
        for (degrees, exact) in [
            (0.0, (0.0, 1.0)),
            (90.0, (1.0, 0.0)),
            (180.0, (0.0, -1.0)),
            (270.0, (-1.0, 0.0)),
            (-90.0, (-1.0, 0.0)),
            (-180.0, (0.0, -1.0)),
            (360.0, (0.0, 1.0)),
        ] {
            assert_eq!(sin_cos_degrees(degrees), exact, "{degrees}");
        }
    }

    /// Against the platform's own functions, which are within a unit of the last place but get
    /// radians: that moves an angle of up to two turns by two roundings.
    #[test]
    fn the_platforms_functions_agree() {
        for step in -72_000..72_000 {
            let degrees = f64::from(step) * 0.01 + 0.001_234_5;
            let (sin, cos) = sin_cos_degrees(degrees);
            let theirs = degrees.to_radians().sin_cos();
            let leeway = 2.0 * f64::EPSILON * degrees.to_radians().abs().max(0.5);
            assert!((sin - theirs.0).abs() <= leeway, "{degrees}: {sin} {theirs:?}");
            assert!((cos - theirs.1).abs() <= leeway, "{degrees}: {cos} {theirs:?}");
            assert!((sin * sin + cos * cos - 1.0).abs() <= 4.0 * f64::EPSILON, "{degrees}");
        }
    }
}
