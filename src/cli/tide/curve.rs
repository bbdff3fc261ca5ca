//! A day's tide as a curve of blocks.

use ::chart::water::GaugeCurve;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

use crate::when;

/// How high it is, in rows.
const ROWS: usize = 8;

/// How long a column is.
const STEP: SignedDuration = SignedDuration::from_mins(20);

const EIGHTHS: [char; 9] = [' ', '▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];

/// The lines of the curve from one instant to another, the hours under it; blank where there is no
/// height, and none at all where there is none anywhere.
pub(super) fn lines(
    curve: &GaugeCurve,
    from: Timestamp,
    to: Timestamp,
    zone: &TimeZone,
) -> Vec<String> {
    let times: Vec<Timestamp> = when::every(from, to, STEP).filter(|at| *at < to).collect();
    let heights: Vec<Option<f64>> =
        times.iter().map(|at| Some(curve.height(*at)?.as_metres())).collect();
    let known = || heights.iter().copied().flatten();
    if known().next().is_none() {
        return Vec::new();
    }
    let half = |metres: f64| metres * 2.0;
    let low = half(known().fold(f64::INFINITY, f64::min)).floor() / 2.0;
    let high = half(known().fold(f64::NEG_INFINITY, f64::max)).ceil() / 2.0;
    let tall = (high - low).max(0.5);
    let mut lines = Vec::new();
    for row in (0..ROWS).rev() {
        let block = |height: &Option<f64>| {
            let Some(height) = height else { return ' ' };
            let eighths = (height - low) / tall * (ROWS * 8) as f64 - (row * 8) as f64;
            EIGHTHS[eighths.round().clamp(0.0, 8.0) as usize]
        };
        let label = match row {
            0 => format!("{:>4.1}", low + 0.0),
            row if row == ROWS - 1 => format!("{high:>4.1}"),
            _ => String::new(),
        };
        let blocks: String = heights.iter().map(block).collect();
        lines.push(format!("{label:>4} {}", blocks.trim_end()));
    }
    lines.push(hours(&times, zone));
    lines
}

/// Every third hour, written from its column on.
fn hours(times: &[Timestamp], zone: &TimeZone) -> String {
    let mut line = " ".repeat(5);
    for (column, at) in times.iter().enumerate() {
        let time = at.to_zoned_datetime(zone.clone()).time();
        if time.hour() % 3 == 0 && time.minute() < 20 {
            let written = line.chars().count();
            line.push_str(&" ".repeat((column + 5).saturating_sub(written)));
            line.push_str(&format!("{:02}", time.hour()));
        }
    }
    line
}
