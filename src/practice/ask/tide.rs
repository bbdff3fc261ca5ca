//! The height of tide by the rule of twelfths.

use chart::Point;
use jiff::{SignedDuration, Timestamp};
use nav::Length;
use nav::tide::{Height, Printed, Turn, Water};

use super::Throw;
use crate::figure::{Column, Figure, Steps};
use crate::water::{DAY, Line, PortTable, day};
use crate::words::{clock, plain, whole};
use crate::{Answer, MistakeKind, Question, Shown, Table, Tolerance, Unit};

const TWELFTHS: &str = "the rule of twelfths: common practice, no published source";

/// Two or three lines of a tide table, and what is asked of them.
pub(crate) struct Asked {
    /// The port and the day that the table is of, and where the port stands; nothing where it is made up.
    port: Option<Port>,
    /// By minutes of the day.
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
    let tolerance = Tolerance::Units(throw.level.of([0.1, 0.1, 0.2]));
    asked.question(tolerance, &throw.ground.chart.grid)
}

fn asked(throw: &mut Throw<'_, '_>) -> Option<Asked> {
    let level = throw.level.number();
    let (port, lines) = if throw.choosy && !throw.ground.waters().ports.is_empty() {
        let (port, lines) = of_a_port(throw)?;
        (Some(port), lines)
    } else {
        (None, made_up(throw))
    };
    let second_half = level > 1 && throw.dice.coin();
    let from = if second_half { 1 } else { 0 };
    let length = lines.get(from + 1)?.minute - lines.get(from)?.minute;
    let at = lines.get(from)?.minute + length * throw.dice.between(1, 5) / 6;
    let ahead = if level == 3 { 1 } else { 0 };
    let bank = (level == 3).then(|| throw.dice.between(3, 25));
    Some(Asked { port, ahead, bank, ..Asked::new(lines, at)? })
}

type Port = (String, String, Option<Point>);

/// Lines out of the table of one of the chart's ports, by daylight; nothing where the chart has none.
fn of_a_port(throw: &mut Throw<'_, '_>) -> Option<(Port, Vec<Line>)> {
    let ports = &throw.ground.waters().ports;
    let table = throw.dice.pick(ports)?;
    let PortTable { name, at, .. } = table;
    let first = throw.level.number() == 1;
    // From about dawn, so that the last line is of the same day.
    let by_day = |lines: &&[Option<Line>]| {
        let begins = |line: Line| (4 * 60..12 * 60).contains(&line.minute.rem_euclid(DAY));
        lines.first().copied().flatten().is_some_and(begins)
    };
    // The first level's twelfth comes to whole or half tenths.
    let round = |lines: &&&[Option<Line>]| match lines {
        [Some(one), Some(other)] => (one.tenths - other.tenths) % 6 == 0,
        _ => true,
    };
    let all: Vec<&[Option<Line>]> =
        table.windows(if first { 2 } else { 3 }).filter(by_day).collect();
    let rounder: Vec<&[Option<Line>]> = all.iter().filter(round).copied().collect();
    let picked = throw.dice.pick(if rounder.is_empty() { &all } else { &rounder })?;
    let mut lines: Vec<Line> = picked.iter().copied().flatten().collect();
    let midnight = lines.first()?.minute.div_euclid(DAY) * DAY;
    lines.iter_mut().for_each(|line| line.minute -= midnight);
    Some(((name.clone(), day(midnight), *at), lines))
}

/// Lines of no port: what a chart without ports asks of.
fn made_up(throw: &mut Throw<'_, '_>) -> Vec<Line> {
    let level = throw.level.number();
    let low = throw.dice.between(2, 16);
    let range =
        if level == 1 { throw.dice.stepped(12, 72, 12) } else { throw.dice.between(14, 68) };
    let sixth = if level == 1 { 60 } else { throw.dice.between(56, 66) };
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
        let next = tenths(starts) + if starts == Water::High { -differs } else { differs };
        let minute = first + 12 * sixth + throw.dice.between(1, 9);
        lines.push(Line { minute, tenths: next, water: starts });
    }
    lines
}

impl Asked {
    /// The height at a minute of the day by some lines of a table.
    pub(crate) fn new(lines: Vec<Line>, at: i64) -> Option<Asked> {
        let turns = lines.iter().map(|line| Turn {
            at: instant(line.minute),
            height: Height::above_datum(line.tenths as f64 / 10.0 * Length::METRE),
            water: line.water,
        });
        let table = Printed::new(turns.collect()).ok()?;
        Some(Asked { port: None, table, lines, at, ahead: 0, bank: None })
    }

    pub(crate) fn question(&self, near: Tolerance, grid: &nav::Grid) -> Option<Question> {
        let right = whole(self.value(self.at)?, 0.1)? as f64 / 10.0;
        if right < 0.2 {
            // No water to speak of stands over the bank.
            return None;
        }
        let answer = Answer::Amount { value: right, unit: Unit::Metres, decimals: 1 };
        let mut question = Question::new(self.text(), answer, near, grid);
        question.basis = TWELFTHS;
        question.given = Some(self.given());
        if let Some((name, _, Some(at))) = &self.port {
            question.shown = vec![Shown::Point { at: *at, label: name.clone() }];
        }
        let range = self.range()?;
        question.hints = vec![
            "The range first: high water less low water. Then a twelfth of it.".to_owned(),
            "In the six sixths of the time go 1, 2, 3, 3, 2, 1 twelfths.".to_owned(),
            format!("The range is {}: a twelfth of it is {}.", metres(range), twelfth(range)),
        ];
        question.steps = self.steps(right)?;
        question.figures = self.figure().into_iter().collect();
        self.mistakes(&mut question);
        Some(question)
    }

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

    /// The range between them, in tenths of a metre.
    fn range(&self) -> Option<i64> {
        self.between().map(|(before, after)| (after.tenths - before.tenths).abs())
    }

    fn text(&self) -> String {
        let at = clock(self.at + 60 * self.ahead);
        let table = match (&self.port, self.ahead) {
            (None, 0) => String::new(),
            (None, _) => "The table is in UTC, your watch is on UTC+1. ".to_owned(),
            (Some((name, day, _)), 0) => {
                format!("These are the tides of {name} on {day}, in UTC. ")
            }
            (Some((name, day, _)), _) => {
                format!("These are the tides of {name} on {day}, in UTC; your watch is on UTC+1. ")
            }
        };
        let zone = if self.port.is_some() { " UTC" } else { "" };
        match self.bank {
            None => {
                format!("{table}By the rule of twelfths, how high is the tide at {at}{zone}?")
            }
            Some(dries) => format!(
                "{table}A bank {}dries {}. By the rule of twelfths, how much water stands over it at {at} by \
                 your watch?",
                if self.port.is_some() { "there " } else { "" },
                metres(dries)
            ),
        }
    }

    fn given(&self) -> Table {
        let name = |water| if water == Water::High { "high water" } else { "low water" };
        let row = |line: &Line| {
            vec![name(line.water).to_owned(), clock(line.minute), metres(line.tenths)]
        };
        let utc = self.ahead != 0 || self.port.is_some();
        let head = ["", if utc { "UTC" } else { "time" }, "height"];
        Table { head: head.map(str::to_owned).to_vec(), rows: self.lines.iter().map(row).collect() }
    }

    fn steps(&self, right: f64) -> Option<Vec<String>> {
        let (before, after) = self.between()?;
        let range = self.range()?;
        let part = (self.at - before.minute) as f64 / (after.minute - before.minute) as f64;
        let rises = after.tenths > before.tenths;
        let gone = (self.height(self.at)? - before.tenths as f64 / 10.0).abs();
        let mut steps = Vec::new();
        if self.ahead != 0 {
            steps.push(format!("By the table's clock it is {}.", clock(self.at)));
        }
        steps.push(format!(
            "The range is {}; a twelfth of it is {}.",
            metres(range),
            twelfth(range)
        ));
        steps.push(format!(
            "Of the {} from turn to turn {} are over: about {}.",
            nav::text::duration(SignedDuration::from_mins(after.minute - before.minute)),
            nav::text::duration(SignedDuration::from_mins(self.at - before.minute)),
            count((part * 6.0).round(), "sixth")
        ));
        let way = if rises { "It has risen" } else { "It has fallen" };
        steps.push(format!(
            "{way} {}, {} m: it stands {:.1} m above chart datum.",
            count((gone / range as f64 * 120.0).round(), "twelfth"),
            plain(gone, 2),
            self.height(self.at)?
        ));
        if let Some(dries) = self.bank {
            steps.push(format!("Less the {} that the bank dries: {right:.1} m.", metres(dries)));
        }
        Some(steps)
    }

    /// The tide from turn to turn in six steps; nothing where no step ends at the time that is asked for.
    fn figure(&self) -> Option<Figure> {
        let (before, after) = self.between()?;
        let (low, high) = (before.tenths.min(after.tenths), before.tenths.max(after.tenths));
        let long = after.minute - before.minute;
        let sixths = (self.at - before.minute) as f64 * 6.0 / long as f64;
        let at = (0..=6_usize).find(|sixth| (*sixth as f64 - sixths).abs() < 0.1)?;
        let rises = after.tenths > before.tenths;
        let column = |sixth: usize| Column {
            halves: if rises { OVER[sixth] } else { 12 - OVER[sixth] },
            step: match sixth.checked_sub(1) {
                Some(before) => format!("{}", OVER[sixth] - OVER[before]),
                None => String::new(),
            },
            when: clock(before.minute + long * sixth as i64 / 6),
        };
        let bank = self.bank.unwrap_or(0);
        // In twelfths over low water, where that is between the turns.
        let across = self.bank.map(|bank| (bank - low) * 12 / (high - low).max(1));
        Some(Figure::Steps(Steps {
            columns: (0..=6).map(column).collect(),
            at,
            base: (low - bank) as f64 / 10.0,
            half: (high - low) as f64 / 120.0,
            scale: vec![(12, metres(high)), (0, metres(low))],
            across: across.filter(|halves| (1..12).contains(halves)),
            words: "twelfths, in sixths of the time",
        }))
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
        mistake(MistakeKind::LowWaterForgotten, Some(height - from.min(to) - bank));
        // So close by, a height may as well be no more than carelessly reckoned.
        let apart = |value: &f64| ((value + bank - height) * 10.0).round().abs() >= 3.0;
        let sixth = length / 6;
        for at in [self.at - sixth, self.at + sixth] {
            let within = (before.minute..=after.minute).contains(&at);
            mistake(MistakeKind::WrongHour, self.value(at).filter(|_| within).filter(apart));
        }
        let part = (self.at - before.minute) as f64 / length as f64;
        mistake(MistakeKind::EvenRise, Some(from + (to - from) * part - bank).filter(apart));
    }
}

/// The twelfths that are over after so many sixths of the time.
const OVER: [i64; 7] = [0, 1, 3, 6, 9, 11, 12];

/// `1 sixth`, `2 sixths`
fn count(number: f64, of: &str) -> String {
    format!("{number} {of}{}", if number == 1.0 { "" } else { "s" })
}

/// A twelfth of a range in tenths of a metre, written.
fn twelfth(range: i64) -> String {
    format!("{} m", plain(range as f64 / 120.0, 2))
}

/// Tenths of a metre, written.
fn metres(tenths: i64) -> String {
    format!("{:.1} m", tenths as f64 / 10.0)
}
