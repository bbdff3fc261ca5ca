//! The height of tide by the rule of twelfths.

use jiff::{SignedDuration, Timestamp};
use nav::Length;
use nav::tide::{Height, Printed, Turn, Water};

use super::Throw;
use crate::words::{clock, plain, whole};
use crate::{Answer, MistakeKind, Question, Table, Tolerance, Unit};

const TWELFTHS: &str = "the rule of twelfths: common practice, no published source";

/// A turn of the tide, its minute of the day and its height in tenths of a metre.
#[derive(Debug, Clone, Copy)]
struct Line {
    minute: i64,
    tenths: i64,
    water: Water,
}

/// Two or three lines of a tide table, and what is asked of them.
struct Asked {
    lines: Vec<Line>,
    table: Printed,
    /// The minute of the table's clock.
    at: i64,
    /// How many hours the watch is ahead of the table.
    ahead: i64,
    /// How high the bank dries over which the depth is asked, in tenths; nothing where the height is asked.
    bank: Option<i64>,
}

fn instant(minute: i64) -> Timestamp {
    // Any day will do: only differences count.
    Timestamp::UNIX_EPOCH + SignedDuration::from_mins(24 * 60 + minute)
}

/// The height of tide, or the depth over a bank, between two turns.
pub(super) fn twelfths(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let asked = asked(throw)?;
    let exact = asked.value(asked.at)?;
    let right = whole(exact, 0.1)? as f64 / 10.0;
    if right < 0.2 {
        // No water to speak of stands over the bank.
        return None;
    }
    let answer = Answer::Amount { value: right, unit: Unit::Metres, decimals: 1 };
    let tolerance = Tolerance::Units(throw.level.of([0.1, 0.1, 0.2]));
    let mut question = Question::new(asked.text(), answer, tolerance, &throw.ground.chart.grid);
    question.basis = TWELFTHS;
    question.given = Some(asked.given());
    question.hints = vec![
        "The range first: high water less low water. Then a twelfth of it.".to_owned(),
        "In the six sixths of the time go 1, 2, 3, 3, 2, 1 twelfths.".to_owned(),
    ];
    question.steps = asked.steps(right)?;
    asked.mistakes(&mut question);
    Some(question)
}

fn asked(throw: &mut Throw<'_, '_>) -> Option<Asked> {
    let level = throw.level.number();
    let low = throw.dice.between(2, 16);
    let range =
        if level == 1 { throw.dice.stepped(12, 72, 12) } else { throw.dice.between(14, 68) };
    let sixth = throw.level.of([60, 0, 0]);
    let sixth = if sixth > 0 { sixth } else { throw.dice.between(56, 66) };
    let first = throw.dice.stepped(5 * 60, 10 * 60, if level == 1 { 10 } else { 1 });
    let starts = if throw.dice.coin() { Water::High } else { Water::Low };
    let other = if starts == Water::High { Water::Low } else { Water::High };
    let tenths = |water: Water| if water == Water::High { low + range } else { low };
    let mut lines = vec![
        Line { minute: first, tenths: tenths(starts), water: starts },
        Line { minute: first + 6 * sixth, tenths: tenths(other), water: other },
    ];
    if level > 1 {
        // The next turn, a little higher or lower than the first, so that the right half must be chosen.
        let differs = throw.dice.between(1, 3);
        let next = lines[0].tenths + if starts == Water::High { -differs } else { differs };
        lines.push(Line {
            minute: first + 12 * sixth + throw.dice.between(1, 9),
            tenths: next,
            water: starts,
        });
    }
    let second_half = level > 1 && throw.dice.coin();
    let from = if second_half { 1 } else { 0 };
    let length = lines[from + 1].minute - lines[from].minute;
    let at = lines[from].minute + length * throw.dice.between(1, 5) / 6;
    let ahead = if level == 3 { 1 } else { 0 };
    let bank = (level == 3).then(|| throw.dice.between(3, 25));
    let turns = lines.iter().map(|line| Turn {
        at: instant(line.minute),
        height: Height::above_datum(line.tenths as f64 / 10.0 * Length::METRE),
        water: line.water,
    });
    Some(Asked { table: Printed::new(turns.collect()).ok()?, lines, at, ahead, bank })
}

impl Asked {
    /// The height by twelfths in metres at a minute of the table's clock.
    fn height(&self, minute: i64) -> Option<f64> {
        Some(self.table.height(instant(minute)).ok()?.twelfths.as_metres())
    }

    /// What is asked for: the height, or what stands over the bank.
    fn value(&self, minute: i64) -> Option<f64> {
        Some(self.height(minute)? - self.bank.unwrap_or(0) as f64 / 10.0)
    }

    /// The turn before and the turn after.
    fn between(&self) -> Option<(Line, Line)> {
        let holds = |pair: &&[Line]| (pair[0].minute..=pair[1].minute).contains(&self.at);
        self.lines.windows(2).find(holds).map(|pair| (pair[0], pair[1]))
    }

    fn text(&self) -> String {
        let at = clock(self.at + 60 * self.ahead);
        let watch = match self.ahead {
            0 => String::new(),
            _ => "The table is in UTC, your watch is on UTC+1. ".to_owned(),
        };
        match self.bank {
            None => format!("{watch}By the rule of twelfths, how high is the tide at {at}?"),
            Some(dries) => format!(
                "{watch}A bank dries {}. By the rule of twelfths, how much water stands over it at {at} by \
                 your watch?",
                metres(dries)
            ),
        }
    }

    fn given(&self) -> Table {
        let name = |water| if water == Water::High { "high water" } else { "low water" };
        let row = |line: &Line| {
            vec![name(line.water).to_owned(), clock(line.minute), metres(line.tenths)]
        };
        let head = ["", if self.ahead == 0 { "time" } else { "UTC" }, "height"];
        Table { head: head.map(str::to_owned).to_vec(), rows: self.lines.iter().map(row).collect() }
    }

    fn steps(&self, right: f64) -> Option<Vec<String>> {
        let (before, after) = self.between()?;
        let range = (after.tenths - before.tenths).abs();
        let part = (self.at - before.minute) as f64 / (after.minute - before.minute) as f64;
        let rises = after.tenths > before.tenths;
        let gone = (self.height(self.at)? - before.tenths as f64 / 10.0).abs();
        let mut steps = Vec::new();
        if self.ahead != 0 {
            steps.push(format!("By the table's clock it is {}.", clock(self.at)));
        }
        steps.push(format!(
            "The range is {}; a twelfth of it is {} m.",
            metres(range),
            plain(range as f64 / 120.0, 2)
        ));
        steps.push(format!(
            "Of the {} from turn to turn {} are over: about {}.",
            nav::text::duration(SignedDuration::from_mins(after.minute - before.minute)),
            nav::text::duration(SignedDuration::from_mins(self.at - before.minute)),
            count((part * 6.0).round(), "sixth")
        ));
        let way = if rises { "It has risen" } else { "It has fallen" };
        steps.push(format!(
            "{way} {}, {} m: {} m above chart datum.",
            count((gone / range as f64 * 120.0).round(), "twelfth"),
            plain(gone, 1),
            plain(self.height(self.at)?, 1)
        ));
        if let Some(dries) = self.bank {
            steps.push(format!("Less the {} that the bank dries: {right:.1} m.", metres(dries)));
        }
        Some(steps)
    }

    fn mistakes(&self, question: &mut Question) {
        let (Some((before, after)), Some(height)) = (self.between(), self.height(self.at)) else {
            return;
        };
        let bank = self.bank.unwrap_or(0) as f64 / 10.0;
        let mut mistake = |kind, value: Option<f64>| {
            if let Some(value) = value {
                let value = (value * 10.0).round() / 10.0;
                question.mistake(kind, Answer::Amount { value, unit: Unit::Metres, decimals: 1 });
            }
        };
        let (from, to) = (before.tenths as f64 / 10.0, after.tenths as f64 / 10.0);
        let length = after.minute - before.minute;
        mistake(MistakeKind::EbbForFlood, Some(from + to - height - bank));
        if self.ahead != 0 {
            mistake(MistakeKind::HourByZone, self.value(self.at + 60 * self.ahead));
            mistake(MistakeKind::HourByZone, self.value(self.at + 120 * self.ahead));
        }
        if self.bank.is_some() {
            mistake(MistakeKind::HeightBelow, Some(height + bank));
        }
        let sixth = length / 6;
        for at in [self.at - sixth, self.at + sixth] {
            let within = (before.minute..=after.minute).contains(&at);
            mistake(MistakeKind::WrongHour, self.value(at).filter(|_| within));
        }
        let part = (self.at - before.minute) as f64 / length as f64;
        mistake(MistakeKind::EvenRise, Some(from + (to - from) * part - bank));
        mistake(MistakeKind::LowWaterForgotten, Some(height - from.min(to) - bank));
    }
}

/// `1 sixth`, `2 sixths`
fn count(number: f64, of: &str) -> String {
    format!("{number} {of}{}", if number == 1.0 { "" } else { "s" })
}

/// Tenths of a metre, written.
fn metres(tenths: i64) -> String {
    format!("{:.1} m", tenths as f64 / 10.0)
}
