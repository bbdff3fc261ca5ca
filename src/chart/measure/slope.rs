//! How the length found falls as the step grows.

use super::Walk;
use nav::Length;

/// The slope of length against step, each by its logarithm, over a range of steps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slope {
    /// The slope: 0 for a straight line, about -0.2 to -0.3 for a much indented coast.
    pub slope: f64,
    /// The narrowest step.
    pub narrowest: Length,
    /// The widest step.
    pub widest: Length,
}

/// The slope of the least squares' line through the logarithms of step and length of these walks;
/// nothing when they are not of two steps at least, and when a length is none.
#[must_use]
pub fn slope(walks: &[Walk]) -> Option<Slope> {
    let logs = |walk: &Walk| (walk.step.as_metres().ln(), walk.length().as_metres().ln());
    let logs: Vec<(f64, f64)> = walks.iter().map(logs).collect();
    // Far fewer than 2⁵³.
    let count = logs.len() as f64;
    let mean = |of: fn(&(f64, f64)) -> f64| logs.iter().map(of).sum::<f64>() / count;
    let (step, length) = (mean(|log| log.0), mean(|log| log.1));
    let spread: f64 = logs.iter().map(|log| (log.0 - step).powi(2)).sum();
    let shared: f64 = logs.iter().map(|log| (log.0 - step) * (log.1 - length)).sum();
    let slope = shared / spread;
    let steps = walks.iter().map(|walk| walk.step);
    let (narrowest, widest) = (steps.clone().reduce(Length::min)?, steps.reduce(Length::max)?);
    (slope.is_finite() && narrowest < widest).then_some(Slope { slope, narrowest, widest })
}
