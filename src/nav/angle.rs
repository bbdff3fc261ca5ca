//! Sines and cosines of degrees.

/// The sine and the cosine of an angle in degrees, exact at the quarter turns.
pub(crate) fn sin_cos_degrees(degrees: f64) -> (f64, f64) {
    let quarters = (degrees / 90.0).round();
    let (sin, cos) = (degrees - 90.0 * quarters).to_radians().sin_cos();
    match quarters.rem_euclid(4.0) {
        1.0 => (cos, -sin),
        2.0 => (-sin, -cos),
        3.0 => (-cos, sin),
        _ => (sin, cos),
    }
}
