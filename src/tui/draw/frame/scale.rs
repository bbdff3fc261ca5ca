//! The scale: a bar of a round length in nautical miles, one in kilometres, one in minutes of
//! paddling at the present pace.

use nav::Speed;

const METRES_PER_NAUTICAL_MILE: f64 = 1_852.0;

/// The most columns of a bar, with its ends.
const LONGEST: i32 = 26;

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

/// The bars for a scale, each at most `room` columns long, the longest round length that fits.
pub(super) fn bars(metres_per_column: f64, pace: Option<Speed>, room: i32) -> Vec<Bar> {
    let room = room.min(LONGEST);
    let miles = lengths(&[1.0, 2.0, 5.0], 0.001)
        .into_iter()
        .map(|nm| (nm * METRES_PER_NAUTICAL_MILE, format!("{} NM", plain(nm))));
    let kilometres = lengths(&[1.0, 2.0, 5.0], 0.001).into_iter().map(|km| {
        let label = if km < 1.0 {
            format!("{} m", plain(km * 1_000.0))
        } else {
            format!("{} km", plain(km))
        };
        (km * 1_000.0, label)
    });
    let minutes = [1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 30.0, 60.0, 120.0, 240.0, 480.0, 1_440.0];
    let speed = pace.map_or(0.0, Speed::as_metres_per_second);
    let paddled = minutes.into_iter().map(move |min| {
        let label = if min < 60.0 {
            format!("{} min", plain(min))
        } else {
            format!("{} h", plain(min / 60.0))
        };
        (min * 60.0 * speed, label)
    });
    let fitting = |(metres, label): (f64, String)| {
        let length = (metres / metres_per_column).round();
        let least = label.chars().count() as f64 + 5.0;
        (length >= least && length <= f64::from(room))
            .then_some(Bar { label, length: length as i32 })
    };
    let longest =
        |candidates: Vec<(f64, String)>| candidates.into_iter().filter_map(fitting).next_back();
    [miles.collect(), kilometres.collect(), paddled.collect()]
        .into_iter()
        .filter_map(longest)
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
