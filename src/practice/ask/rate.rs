//! A stream's rate by the 50/90 rule, between neaps and springs.

use chart::Point;
use jiff::{SignedDuration, Timestamp};
use nav::stream::{GreatestRates, Rule};
use nav::triangle::Stream;
use nav::{Bearing, Speed};

use super::Throw;
use crate::figure::{Column, Figure, Line, Part, Read, Steps, Tick};
use crate::water::{DAY, Tide, day, factor};
use crate::words::{clock, plain, whole};
use crate::{Answer, MistakeKind, Question, Shown, Table, Tolerance, Unit};

const FIFTY_NINETY: &str = "the 50/90 rule: common practice, no published source";

/// Where and when on the chart a stream is asked for.
pub(crate) struct Of {
    stream: String,
    at: Point,
    port: String,
    /// The minute of UTC from 1970 when it is slack.
    slack: i64,
}

/// What is known of the stream, in tenths of knots and of metres.
pub(crate) struct Asked {
    /// Nothing where it is made up.
    pub(crate) of: Option<Of>,
    pub(crate) springs: i64,
    pub(crate) neaps: i64,
    pub(crate) ranges: (i64, i64),
    pub(crate) range: i64,
    /// When it is slack, in minutes of the day.
    pub(crate) slack: i64,
    /// How many hours later the rate is asked for.
    pub(crate) hours: i64,
}

/// How fast does it run so many hours after slack?
pub(super) fn rate(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let asked = if throw.has_streams() { of_a_stream(throw)? } else { made_up(throw) };
    let tolerance = Tolerance::Units(throw.level.of([0.1, 0.2, 0.2]));
    let question = asked.question(tolerance, &throw.ground.chart.grid)?;
    // Most often an hour whose neighbours run otherwise; the greatest, at half time, comes up as well.
    let may_be_alike = throw.dice.below(8) == 0;
    let parted = !throw.choosy || may_be_alike || question.parts(MistakeKind::WrongHour);
    parted.then_some(question)
}

fn knots(value: f64) -> Answer {
    Answer::Amount { value, unit: Unit::Knots, decimals: 1 }
}

/// Mean springs or neaps at the first level, then half and quarter ways, then any.
fn made_up(throw: &mut Throw<'_, '_>) -> Asked {
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
    Asked { of: None, springs, neaps, ranges: (high, low), range, slack, hours }
}

/// One of the chart's streams on a day of its port's table: a mean one, one half or a quarter of the way, or any; nothing where
/// the chart has none that goes by a high water.
fn of_a_stream(throw: &mut Throw<'_, '_>) -> Option<Asked> {
    let waters = throw.ground.waters();
    let stream = throw.dice.pick(&waters.streams)?;
    let slack = *throw.dice.pick(&stream.slacks)?;
    let port = waters.ports.get(stream.port)?;
    let (high, low) = port.ranges?;
    let hours = throw.dice.between(1, 5);
    // Slack and the hour that is asked for by daylight of one day.
    let by_day = |tide: &Tide| {
        let slack = (tide.high + slack.later).rem_euclid(DAY);
        (5 * 60..16 * 60).contains(&slack) && (low..=high).contains(&tide.range)
    };
    let suits = |tide: &Tide| {
        let quarters = 4 * (tide.range - low);
        match throw.level.number() {
            1 => quarters == 0 || tide.range == high,
            2 => quarters % (high - low) == 0 && tide.range != low && tide.range != high,
            _ => true,
        }
    };
    let all: Vec<Tide> = port.tides().filter(by_day).collect();
    let fit: Vec<Tide> = all.iter().copied().filter(suits).collect();
    let tide = *throw.dice.pick(if fit.is_empty() { &all } else { &fit })?;
    let at = tide.high + slack.later;
    let of = Of { stream: stream.name.clone(), at: stream.at, port: port.name.clone(), slack: at };
    Some(Asked {
        of: Some(of),
        springs: slack.springs,
        neaps: slack.neaps,
        ranges: (high, low),
        range: tide.range,
        slack: at.rem_euclid(DAY),
        hours,
    })
}

impl Asked {
    pub(crate) fn question(&self, near: Tolerance, grid: &nav::Grid) -> Option<Question> {
        let exact = self.rate(Rule::FiftyNinety, self.greatest()?, self.hours)?;
        let right = whole(exact, 0.1)? as f64 / 10.0;
        let mut question = Question::new(self.text(), knots(right), near, grid);
        if let Some(of) = &self.of {
            question.shown = vec![Shown::Point { at: of.at, label: of.stream.clone() }];
        }
        question.basis = FIFTY_NINETY;
        question.given = Some(self.given());
        question.hints = vec![
            "First the greatest rate of the day: where does its range lie between neaps and springs?"
                .to_owned(),
            "Then the hour: 50, 90, 100, 90, 50 % of the greatest rate.".to_owned(),
            format!("The range is {}.", nav::text::springs_or_neaps(self.factor()?)),
        ];
        question.steps = self.steps(right)?;
        question.figures = vec![self.scale()?, self.by_the_hour()?];
        self.mistakes(&mut question);
        Some(question)
    }

    fn text(&self) -> String {
        let (range, slack) = (self.range as f64 / 10.0, clock(self.slack));
        let at = clock(self.slack + 60 * self.hours);
        match &self.of {
            None => format!(
                "The range today is {range:.1} m. It is slack at {slack}, and again six hours later. By the 50/90 \
                 rule, how fast does the stream run at {at}?"
            ),
            Some(of) => format!(
                "{}, {}. The range at {} is {range:.1} m. It is slack at {slack} UTC, and again six hours later. By \
                 the 50/90 rule, how fast does the stream run at {at} UTC?",
                of.stream,
                day(of.slack),
                of.port
            ),
        }
    }

    /// Where the day's range lies between neaps, 0, and springs, 1.
    fn factor(&self) -> Option<f64> {
        factor(self.ranges, self.range)
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
        let (greatest, factor) = (self.greatest()?, self.factor()?);
        let hours = if self.hours == 1 { "hour" } else { "hours" };
        let mut steps = vec![format!(
            "A range of {:.1} m is {}.",
            self.range as f64 / 10.0,
            nav::text::springs_or_neaps(factor)
        )];
        let knots = |tenths: i64| format!("{:.1} kn", tenths as f64 / 10.0);
        let greatest = plain(greatest, 2);
        steps.push(if self.range == self.ranges.0 || self.range == self.ranges.1 {
            format!("The greatest rate of the day is {greatest} kn.")
        } else {
            format!(
                "The greatest rate of the day is {} and {:.0} % of the {} up to springs: {greatest} kn.",
                knots(self.neaps),
                factor * 100.0,
                knots(self.springs - self.neaps)
            )
        });
        steps.push(format!(
            "{} {hours} after slack it runs at {hundredths} % of that: {right:.1} kn.",
            self.hours
        ));
        Some(steps)
    }

    /// Where the day lies between neaps and springs.
    fn scale(&self) -> Option<Figure> {
        let factor = self.factor()?;
        let tenths = |value: i64| plain(value as f64 / 10.0, 1);
        let tick = |at: f64, sign, name: &str, range: i64, rate: String| Tick {
            at,
            sign,
            words: vec![name.to_owned(), format!("{} m", tenths(range)), format!("{rate} kn")],
        };
        let ((high, low), range) = (self.ranges, self.range);
        let today = match range {
            range if range == low => "neaps, today",
            range if range == high => "springs, today",
            _ => "today",
        };
        let ends = [
            (range != low).then(|| tick(0.0, "├", "neaps", low, tenths(self.neaps))),
            (range != high).then(|| tick(1.0, "┤", "springs", high, tenths(self.springs))),
        ];
        let today = tick(factor, "●", today, range, plain(self.greatest()?, 2));
        let ticks = ends.into_iter().flatten().chain([today]).collect();
        Some(Figure::Line(Line {
            from: 0.0,
            parts: vec![Part { to: 1.0, words: String::new(), is_break: false }],
            ticks,
            right: None,
            fixed: None,
            read: Read::Not,
        }))
    }

    /// The stream from slack to slack, hour by hour.
    fn by_the_hour(&self) -> Option<Figure> {
        let greatest = self.greatest()?;
        let column = |hour: i64| {
            // Whole tenths of the greatest rate.
            let halves = (self.rate(Rule::FiftyNinety, 1.0, hour)? * 10.0).round() as i64;
            let when = clock(self.slack + 60 * hour);
            Some(Column { halves, step: (halves * 10).to_string(), when })
        };
        Some(Figure::Steps(Steps {
            columns: (1..=5).map(column).collect::<Option<_>>()?,
            at: usize::try_from(self.hours - 1).ok()?,
            base: 0.0,
            half: greatest / 10.0,
            scale: vec![(10, format!("{} kn", plain(greatest, 2))), (0, "slack".to_owned())],
            across: None,
            words: "% of the greatest, hour by hour",
        }))
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
