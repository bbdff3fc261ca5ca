//! Limits as options.

use anyhow::Context;
use clap::Args;
use plan::{Limit, Limits};

/// The limits, each as it is typed.
#[derive(Debug, Args)]
#[command(next_help_heading = "Limits")]
pub(super) struct LimitArgs {
    /// The worst state in which a race may be met: quiet, running or worst; running if none is given
    #[arg(long, value_name = "STATE")]
    worst_race: Option<String>,
    /// The least light left at the landing, to the end of civil twilight, or none for the dark; 1 h if
    /// none is given
    #[arg(long, value_name = "TIME")]
    light_left: Option<String>,
    /// The longest wait, all waits together; 1 h if none is given
    #[arg(long, value_name = "TIME")]
    longest_wait: Option<String>,
    /// The greatest drift of the water anywhere on the way, in knots
    #[arg(long, value_name = "KNOTS")]
    greatest_drift: Option<String>,
    /// The least height of tide at the landing, in metres above datum
    #[arg(long, value_name = "METRES", allow_hyphen_values = true)]
    least_height: Option<String>,
    /// The longest day from launch to landing
    #[arg(long, value_name = "TIME")]
    longest_day: Option<String>,
    /// By how many hundredths longer than the day's best a start counts as slow; 25 if none is given
    #[arg(long, value_name = "PERCENT")]
    slow: Option<String>,
}

impl LimitArgs {
    /// These over those that stand.
    pub(super) fn over(&self, limits: Limits) -> anyhow::Result<Limits> {
        let typed = [
            (Limit::Race, "--worst-race", &self.worst_race),
            (Limit::Light, "--light-left", &self.light_left),
            (Limit::Wait, "--longest-wait", &self.longest_wait),
            (Limit::Drift, "--greatest-drift", &self.greatest_drift),
            (Limit::Height, "--least-height", &self.least_height),
            (Limit::Day, "--longest-day", &self.longest_day),
            (Limit::Slow, "--slow", &self.slow),
        ];
        typed.into_iter().try_fold(limits, |limits, (limit, option, text)| match text {
            Some(text) => limits.with(limit, text).context(option),
            None => Ok(limits),
        })
    }
}
