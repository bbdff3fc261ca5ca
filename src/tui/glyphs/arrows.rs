//! Arrows for streams: eight ways, stronger ones with two lines, slack water a dot.

use nav::triangle::Stream;

use super::DotSet;

/// How strong a stream is, as the chart tells it apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Strength {
    /// Under a fifth of a knot: hardly any.
    Slack,
    /// Under one knot.
    Weak,
    /// Under two knots: a third of a paddler's speed and more.
    Fair,
    /// Two knots and more, against which a group makes little or no way.
    Strong,
}

impl Strength {
    /// The strength of a rate in knots.
    #[must_use]
    pub fn of(knots: f64) -> Strength {
        match knots {
            knots if knots < 0.2 => Strength::Slack,
            knots if knots < 1.0 => Strength::Weak,
            knots if knots < 2.0 => Strength::Fair,
            _ => Strength::Strong,
        }
    }
}

/// From north round by the east: one line, two lines, and the typewriter's stand-ins.
const THIN: [&str; 8] = ["↑", "↗", "→", "↘", "↓", "↙", "←", "↖"];
const DOUBLE: [&str; 8] = ["⇑", "⇗", "⇒", "⇘", "⇓", "⇙", "⇐", "⇖"];
const PLAIN: [&str; 8] = ["^", "^>", ">", "v>", "v", "<v", "<", "<^"];

/// The arrow of a stream on the chart, whose up lies so many degrees east of true north: one
/// character, or with the typewriter's two.
#[must_use]
pub fn arrow(stream: Stream, up_deg: f64, dots: DotSet) -> &'static str {
    let strength = Strength::of(stream.drift.as_knots());
    let eighth = ((stream.set.as_degrees() - up_deg) / 45.0).round().rem_euclid(8.0) as usize;
    match (strength, dots) {
        (Strength::Slack, DotSet::Ascii) => ".",
        (Strength::Slack, _) => "•",
        (_, DotSet::Ascii) => PLAIN[eighth % 8],
        (Strength::Strong, _) => DOUBLE[eighth % 8],
        (_, _) => THIN[eighth % 8],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use nav::{Bearing, Speed};

    fn of(degrees: f64, knots: f64) -> &'static str {
        let set = Bearing::from_degrees(degrees).unwrap();
        let drift = Speed::from_knots(knots).unwrap();
        arrow(Stream { set, drift }, 0.0, DotSet::Braille)
    }

    #[test]
    fn arrows_point_where_the_stream_sets_and_grow_with_it() {
        assert_eq!([of(0.0, 0.5), of(22.0, 0.5), of(23.0, 1.5)], ["↑", "↑", "↗"]);
        assert_eq!([of(90.0, 2.0), of(225.0, 3.0), of(337.6, 2.1)], ["⇒", "⇙", "⇑"]);
        assert_eq!([of(90.0, 0.19), of(90.0, 0.2), of(359.9, 1.0)], ["•", "→", "↑"]);
        let set = Bearing::from_degrees(45.0).unwrap();
        let stream = Stream { set, drift: Speed::from_knots(1.0).unwrap() };
        assert_eq!(arrow(stream, 0.0, DotSet::Ascii), "^>");
        assert_eq!(arrow(stream, 30.0, DotSet::Braille), "↑", "by the chart's own up");
    }
}
