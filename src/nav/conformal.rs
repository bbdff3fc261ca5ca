//! The conformal latitude, by which an ellipsoid is laid on a sphere without bending angles.
//!
//! Latitudes are handled by their tangents, which keeps full precision from the equator to the
//! poles: C. F. F. Karney, Transverse Mercator with an accuracy of a few nanometers,
//! J. Geodesy 85 (2011), equations (7) to (9) and (19) to (21).

/// The secant of an angle from its tangent, which is far from the square root of the greatest
/// number even at the pole.
pub(crate) fn secant(tau: f64) -> f64 {
    (1.0 + tau * tau).sqrt()
}

/// The tangent of the conformal latitude, from the tangent `tau` of the geodetic one.
pub(crate) fn conformal(e2: f64, tau: f64) -> f64 {
    let e = e2.sqrt();
    let sec = secant(tau);
    let sigma = (e * (e * tau / sec).atanh()).sinh();
    tau * secant(sigma) - sigma * sec
}

/// The tangent of the geodetic latitude, from the tangent `tau_c` of the conformal one, by
/// Newton's method.
pub(crate) fn geodetic(e2: f64, tau_c: f64) -> f64 {
    let rest = 1.0 - e2;
    let mut tau = tau_c / rest;
    for _ in 0..4 {
        let trial = conformal(e2, tau);
        let sec = secant(tau);
        let step = (tau_c - trial) / secant(trial) * (1.0 + rest * tau * tau) / (rest * sec);
        tau += step;
        // The function is straight but for e⁴: what a step leaves is e⁴ of its square.
        if step.abs() < 1e-7 * sec {
            break;
        }
    }
    tau
}

/// The equatorial radius over the radius of the parallel where the geodetic latitude's
/// tangent is `tau`: √(1 - e² sin²) / cos, without the difference of two great numbers at the pole.
pub(crate) fn parallel(e2: f64, tau: f64) -> f64 {
    (1.0 + (1.0 - e2) * tau * tau).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Ellipsoid;

    #[test]
    fn there_and_back() {
        let e2 = Ellipsoid::WGS84.eccentricity_squared();
        for degrees in (-900..=900).map(|tenths| f64::from(tenths) / 10.0) {
            let tau = degrees.to_radians().tan();
            let back = geodetic(e2, conformal(e2, tau));
            // A few roundings of the last digit.
            assert!((back - tau).abs() <= 2e-15 * secant(tau), "{degrees}: {tau} {back}");
        }
    }
}
