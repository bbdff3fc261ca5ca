//! The error of a constructor that was given a number it cannot take.

/// A number from outside that is not finite or not within its bounds.
///
/// The message names the quantity, the value and the bound.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{quantity} {} is not within {bounds}", shown(*.value))]
pub struct OutOfRange {
    /// What the number was meant to be, in the trade's word.
    pub quantity: &'static str,
    /// The value as it was given.
    pub value: f64,
    /// The values that would be right, in words.
    pub bounds: &'static str,
}

/// A number that is no longer than one can read.
fn shown(value: f64) -> String {
    if value.abs() < 1e15 { value.to_string() } else { format!("{value:e}") }
}

impl OutOfRange {
    /// `value` itself if it is finite and within `low..=high`.
    pub(crate) fn check(
        quantity: &'static str,
        value: f64,
        (low, high): (f64, f64),
        bounds: &'static str,
    ) -> Result<f64, OutOfRange> {
        if value.is_finite() && (low..=high).contains(&value) {
            Ok(value)
        } else {
            Err(OutOfRange { quantity, value, bounds })
        }
    }

    /// `value` itself if it is finite.
    pub(crate) fn finite(quantity: &'static str, value: f64) -> Result<f64, OutOfRange> {
        Self::check(quantity, value, (f64::MIN, f64::MAX), "the finite numbers")
    }
}
