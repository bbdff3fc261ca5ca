//! A stream's rate by the 50/90 rule, between neaps and springs.

use jiff::{SignedDuration, Timestamp};
use nav::stream::{GreatestRates, Rule};
use nav::tide::MeanRanges;
use nav::triangle::Stream;
use nav::{Bearing, Length, Speed};

use super::Throw;
use crate::words::{clock, plain, whole};
use crate::{Answer, MistakeKind, Question, Table, Tolerance, Unit};

const FIFTY_NINETY: &str = "the 50/90 rule: common practice, no published source";

/// What is known of the stream, in tenths of knots and of metres.
struct Asked {
    springs: i64,
    neaps: i64,
    ranges: (i64, i64),
    range: i64,
    /// When it is slack, in minutes of the day.
    slack: i64,
    /// How many hours later the rate is asked for.
    hours: i64,
}

/// How fast does it run so many hours after slack?
pub(super) fn rate(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let asked = asked(throw);
    let right =
        whole(asked.rate(Rule::FiftyNinety, asked.greatest()?, asked.hours)?, 0.1)? as f64 / 10.0;
    let tolerance = Tolerance::Units(throw.level.of([0.1, 0.2, 0.2]));
    let at = clock(asked.slack + 60 * asked.hours);
    let text = format!(
        "The range today is {:.1} m. It is slack at {}, and again six hours later. By the 50/90 rule, how \
         fast does the stream run at {at}?",
        asked.range as f64 / 10.0,
        clock(asked.slack)
    );
    let mut question = Question::new(text, knots(right), tolerance, &throw.ground.chart.grid);
    question.basis = FIFTY_NINETY;
    question.given = Some(asked.given());
    question.hints = vec![
        "First the greatest rate of the day: where does its range lie between neaps and springs?"
            .to_owned(),
        "Then the hour: 50, 90, 100, 90, 50 hundredths of the greatest rate.".to_owned(),
    ];
    question.steps = asked.steps(right)?;
    asked.mistakes(&mut question);
    Some(question)
}

fn knots(value: f64) -> Answer {
    Answer::Amount { value, unit: Unit::Knots, decimals: 1 }
}

/// Mean springs or neaps at the first level, then half and quarter ways, then any.
fn asked(throw: &mut Throw<'_, '_>) -> Asked {
    let neaps = throw.dice.stepped(10, 24, 2);
    let springs = neaps + throw.dice.stepped(10, 24, 4);
    let low = throw.dice.stepped(12, 28, 4);
    let high = low + throw.dice.stepped(12, 28, 4);
    let quarters = match throw.level.number() {
        1 => *throw.dice.pick(&[0, 4]).unwrap_or(&4),
        2 => throw.dice.between(1, 3),
        _ => 0,
    };
    let range = match throw.level.number() {
        3 => throw.dice.between(low + 1, high - 1),
        _ => low + (high - low) * quarters / 4,
    };
    let slack = throw.dice.stepped(5 * 60, 14 * 60, throw.level.of([60, 5, 1]));
    let hours = throw.dice.between(1, 5);
    Asked { springs, neaps, ranges: (high, low), range, slack, hours }
}

impl Asked {
    /// Where the day's range lies between neaps, 0, and springs, 1.
    fn factor(&self) -> Option<f64> {
        let metres = |tenths: i64| tenths as f64 / 10.0 * Length::METRE;
        let ranges = MeanRanges::new(metres(self.ranges.0), metres(self.ranges.1)).ok()?;
        Some(ranges.factor(metres(self.range)))
    }

    /// The greatest rate of the day, in knots.
    fn greatest(&self) -> Option<f64> {
        Some(self.at_factor(self.factor()?))
    }

    fn at_factor(&self, factor: f64) -> f64 {
        (self.neaps as f64 + (self.springs - self.neaps) as f64 * factor) / 10.0
    }

    /// The rate so many hours after slack by a rule, in knots.
    fn rate(&self, rule: Rule, greatest: f64, hours: i64) -> Option<f64> {
        let set = Bearing::NORTH;
        let drift = Speed::from_knots(greatest).ok()?;
        let rates = GreatestRates {
            first: Stream { set, drift },
            first_begins: SignedDuration::ZERO,
            second: Stream { set: set.back(), drift },
            second_begins: SignedDuration::from_hours(6),
            rule,
        };
        let slack = Timestamp::UNIX_EPOCH;
        let run = rates.run(&[slack]);
        Some(run.at(slack + SignedDuration::from_hours(hours))?.drift.as_knots())
    }

    fn given(&self) -> Table {
        let row = |name: &str, range: i64, rate: i64| {
            let tenths = |value: i64| format!("{:.1}", value as f64 / 10.0);
            vec![name.to_owned(), format!("{} m", tenths(range)), format!("{} kn", tenths(rate))]
        };
        Table {
            head: ["", "mean range", "greatest rate"].map(str::to_owned).to_vec(),
            rows: vec![
                row("springs", self.ranges.0, self.springs),
                row("neaps", self.ranges.1, self.neaps),
            ],
        }
    }

    fn steps(&self, right: f64) -> Option<Vec<String>> {
        let hundredths = (self.rate(Rule::FiftyNinety, 1.0, self.hours)? * 100.0).round();
        let greatest = self.greatest()?;
        let hours = if self.hours == 1 { "hour" } else { "hours" };
        Some(vec![
            format!(
                "A range of {:.1} m is {}: the greatest rate of the day is {} kn.",
                self.range as f64 / 10.0,
                nav::text::springs_or_neaps(self.factor()?),
                plain(greatest, 2)
            ),
            format!(
                "{} {hours} after slack it runs at {hundredths} hundredths of that: {right:.1} kn.",
                self.hours
            ),
        ])
    }

    fn mistakes(&self, question: &mut Question) {
        let Some(greatest) = self.greatest() else { return };
        let mut mistake = |kind, value: Option<f64>| {
            if let Some(value) = value {
                question.mistake(kind, knots((value * 10.0).round() / 10.0));
            }
        };
        let by_rule = |greatest, hours| self.rate(Rule::FiftyNinety, greatest, hours);
        mistake(MistakeKind::SpringsForNeaps, by_rule(self.at_factor(1.0), self.hours));
        mistake(MistakeKind::NeapsForSprings, by_rule(self.at_factor(0.0), self.hours));
        mistake(MistakeKind::GreatestForHour, Some(greatest));
        let thirds = self.rate(Rule::Thirds, greatest, self.hours);
        mistake(MistakeKind::WrongHour, by_rule(greatest, self.hours - 1));
        mistake(MistakeKind::WrongHour, by_rule(greatest, self.hours + 1));
        mistake(MistakeKind::ThirdsForFiftyNinety, thirds);
        if let Some(factor) = self.factor() {
            let kind = if factor < 0.5 {
                MistakeKind::SpringsForNeaps
            } else {
                MistakeKind::NeapsForSprings
            };
            mistake(kind, by_rule(self.at_factor(1.0 - factor), self.hours));
        }
    }
}
