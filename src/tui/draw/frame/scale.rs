//! The scale: a bar of a round length in nautical miles, one in kilometres, one in minutes of
//! paddling at the present pace.

use nav::Speed;

const METRES_PER_NAUTICAL_MILE: f64 = 1_852.0;
const METRES_PER_KILOMETRE: f64 = 1_000.0;

/// The times of a bar, in minutes.
const MINUTES: [f64; 12] =
    [1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 30.0, 60.0, 120.0, 240.0, 480.0, 1_440.0];

/// How many columns bars may be long, from the longest that still reads as a scale to the shortest
/// that holds its label.
pub(super) const LENGTHS: [i32; 5] = [26, 21, 17, 14, 11];

/// A bar.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bar {
    label: String,
    /// How many columns it is long.
    length: i32,
}

impl Bar {
    /// The bar with its length written in its middle: `┣━ 1 NM ━━┫`. It reaches from the middle of
    /// its first character to the middle of its last.
    pub(super) fn words(&self, ascii: bool) -> String {
        let (start, rule, end) = if ascii { ('|', '-', '|') } else { ('┣', '━', '┫') };
        let label = format!(" {} ", self.label);
        let rules = self.length - 1 - i32::try_from(label.chars().count()).unwrap_or(0);
        let (before, after) = (rules / 2, rules - rules / 2);
        let line = |count: i32| rule.to_string().repeat(usize::try_from(count).unwrap_or(0));
        format!("{start}{}{label}{}{end}", line(before), line(after))
    }
}

/// The bars for a scale, each at most `most` columns long, the longest round length that fits.
pub(super) fn bars(metres_per_column: f64, pace: Option<Speed>, most: i32) -> Vec<Bar> {
    let metres_per_minute = pace.map_or(0.0, Speed::as_metres_per_second) * 60.0;
    let longest = |numbers: &[f64], metres: f64, label: fn(f64) -> String| {
        numbers.iter().rev().find_map(|&number| {
            let length = (number * metres / metres_per_column).round();
            // Most numbers are far too long or too short: no label need be written for them.
            if length > f64::from(most) || length < 5.0 {
                return None;
            }
            let label = label(number);
            let least = label.chars().count() as f64 + 5.0;
            (length >= least).then_some(Bar { label, length: length as i32 })
        })
    };
    let round = lengths(&[1.0, 2.0, 5.0], 0.001);
    [
        longest(&round, METRES_PER_NAUTICAL_MILE, |nm| format!("{} NM", plain(nm))),
        longest(&round, METRES_PER_KILOMETRE, |km| match km {
            metres if metres < 1.0 => format!("{} m", plain(metres * METRES_PER_KILOMETRE)),
            km => format!("{} km", plain(km)),
        }),
        longest(&MINUTES, metres_per_minute, |minutes| match minutes {
            minutes if minutes < 60.0 => format!("{} min", plain(minutes)),
            minutes => format!("{} h", plain(minutes / 60.0)),
        }),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Round numbers from `least` up, the shortest first.
fn lengths(round: &[f64], least: f64) -> Vec<f64> {
    let powers = (0..8).map(|power| least * 10_f64.powi(power));
    powers.flat_map(|ten| round.iter().map(move |r| r * ten)).collect()
}

/// A number without needless zeros.
fn plain(number: f64) -> String {
    let rounded = (number * 1_000.0).round() / 1_000.0;
    rounded.to_string()
}
