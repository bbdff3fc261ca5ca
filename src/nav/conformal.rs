//! The conformal latitude, by which an ellipsoid is laid on a sphere without bending angles.
//!
//! Latitudes are handled by their tangents, which keeps full precision from the equator to the
//! poles: C. F. F. Karney, Transverse Mercator with an accuracy of a few nanometers,
//! J. Geodesy 85 (2011), equations (7) to (9) and (19) to (21).

/// The tangent of the conformal latitude, from the tangent `tau` of the geodetic one.
pub(crate) fn conformal(e2: f64, tau: f64) -> f64 {
    let secant = tau.hypot(1.0);
    let e = e2.sqrt();
    let sigma = (e * (e * tau / secant).atanh()).sinh();
    tau * sigma.hypot(1.0) - sigma * secant
}

/// The tangent of the geodetic latitude, from the tangent `tau_c` of the conformal one, by
/// Newton's method. Three steps are exact from the equator to the pole.
pub(crate) fn geodetic(e2: f64, tau_c: f64) -> f64 {
    let rest = 1.0 - e2;
    let mut tau = tau_c / rest;
    for _ in 0..3 {
        let trial = conformal(e2, tau);
        tau +=
            (tau_c - trial) / trial.hypot(1.0) * (1.0 + rest * tau * tau) / (rest * tau.hypot(1.0));
    }
    tau
}

/// The equatorial radius over the radius of the parallel where the geodetic latitude's
/// tangent is `tau`: √(1 - e² sin²) / cos, without the difference of two great numbers at the pole.
pub(crate) fn parallel(e2: f64, tau: f64) -> f64 {
    (1.0 + (1.0 - e2) * tau * tau).sqrt()
}
