//! The words for how it has gone: the same on the screen and on the command line.

use jiff::Timestamp;
use jiff::tz::TimeZone;

use super::{Gone, Item, Progress, Weakness};

impl Gone {
    /// Right answers of questions put: `54/63`; empty where none was put.
    #[must_use]
    pub fn score(&self) -> String {
        if self.answered == 0 {
            return String::new();
        }
        format!("{}/{}", self.right, self.answered)
    }

    /// The share of right answers in per cent: `86`; empty where none was put.
    #[must_use]
    pub fn per_cent(&self) -> String {
        if self.answered == 0 {
            return String::new();
        }
        per_cent(self.right as f64 / self.answered as f64)
    }

    /// The levels of its kinds: `2`, or `1–3`; empty where none was asked.
    #[must_use]
    pub fn level(&self) -> String {
        match self.levels {
            None => String::new(),
            Some((low, high)) if low == high => low.number().to_string(),
            Some((low, high)) => format!("{}–{}", low.number(), high.number()),
        }
    }
}

impl Item {
    /// What is to be expected of the next answers, in per cent: `93`; empty where it was never asked.
    #[must_use]
    pub fn per_cent(&self) -> String {
        if self.due.is_none() { String::new() } else { per_cent(self.strength) }
    }
}

impl Progress {
    /// When something comes back, as [`due`] says it; empty where it was never asked.
    #[must_use]
    pub fn due(&self, at: Option<Timestamp>) -> String {
        at.map_or_else(String::new, |at| due(at, self.now, &self.zone))
    }
}

/// When something comes back: `now`, `today`, `tomorrow`, `in 5 days`, then the date.
#[must_use]
pub fn due(due: Timestamp, now: Timestamp, zone: &TimeZone) -> String {
    if due <= now {
        return "now".to_owned();
    }
    let day = |at| zone.to_datetime(at).date();
    let (today, day) = (day(now), day(due));
    match today.until(day).map_or(i32::MAX, |apart| apart.get_days()) {
        ..=0 => "today".to_owned(),
        1 => "tomorrow".to_owned(),
        days @ 2..=6 => format!("in {days} days"),
        _ => day.to_string(),
    }
}

impl Weakness {
    /// What recurs, and what helps: `What recurs in bearings: the back bearing for the bearing, 4 times in the last 10
    /// answers. Lay ...`
    #[must_use]
    pub fn said(&self) -> String {
        let (skill, advice) = (self.skill, self.mistake.advice());
        format!("What recurs in {skill}: {}. {advice}", self.often())
    }

    /// Which mistake, and how often: `the back bearing for the bearing, 4 times in the last 10 answers`.
    #[must_use]
    pub fn often(&self) -> String {
        let (mistake, times, of) = (self.mistake, self.times, self.answered);
        format!("{mistake}, {times} times in the last {of} answers")
    }
}

fn per_cent(share: f64) -> String {
    format!("{:.0}", 100.0 * share)
}

#[cfg(test)]
mod tests {
    use jiff::tz::offset;
    use rstest::rstest;

    use super::*;
    use crate::Level;
    use crate::memory::{Record, progress};

    #[rstest]
    #[case("2026-06-14T20:00:00Z", "now")]
    #[case("2026-06-14T21:59:00Z", "today")]
    #[case("2026-06-14T22:01:00Z", "tomorrow")]
    #[case("2026-06-16T09:00:00Z", "in 2 days")]
    #[case("2026-06-20T09:00:00Z", "in 6 days")]
    #[case("2026-06-21T09:00:00Z", "2026-06-21")]
    fn it_comes_back(#[case] due: &str, #[case] said: &str) {
        // Two hours ahead: the day ends at 22:00 UTC.
        let (now, zone) = ("2026-06-14T20:00:00Z".parse().unwrap(), TimeZone::fixed(offset(2)));
        let gone = progress(&Record::default(), now, &zone);
        assert_eq!(gone.due(Some(due.parse().unwrap())), said);
        assert_eq!(gone.due(None), "");
    }

    #[test]
    fn what_was_never_asked_has_no_figures() {
        let none = Gone::default();
        assert_eq!((none.score(), none.per_cent(), none.level()), Default::default());
        let levels = Some((Level::First, Level::Third));
        let some = Gone { answered: 3, right: 2, levels, ..none };
        assert_eq!([some.score(), some.per_cent(), some.level()], ["2/3", "67", "1–3"]);
    }
}
