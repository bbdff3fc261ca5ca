//! Distance, pace and time.

mod drawn;

use jiff::SignedDuration;
use nav::{Length, Pace, text};

use drawn::{line, way};

use super::Throw;
use super::hops::Hop;
use crate::ground::{Ground, Spot};
use crate::words::{plain, whole};
use crate::{Answer, MistakeKind, Question, Shown, Tolerance, Unit};

/// A distance in its unit, and a pace in its own.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Run {
    pub(crate) distance: f64,
    pub(crate) unit: Unit,
    pub(crate) pace: Pace,
}

/// A pace as it is asked for.
pub(super) fn pace(tenths: i64, knots: bool) -> Option<Pace> {
    let unit = if knots { "kn" } else { "km/h" };
    format!("{} {unit}", tenths as f64 / 10.0).parse().ok()
}

/// The number of a pace, in its own unit.
pub(super) fn number(pace: Pace) -> f64 {
    match pace.unit() {
        nav::PaceUnit::Knots => pace.speed().as_knots(),
        nav::PaceUnit::KilometresAnHour => pace.speed().as_kmh(),
    }
}

fn length(value: f64, unit: Unit) -> Option<Length> {
    match unit {
        Unit::Miles => Length::from_nautical_miles(value).ok(),
        _ => Length::from_kilometres(value).ok(),
    }
}

fn amount(value: f64, unit: Unit, decimals: usize) -> Answer {
    Answer::Amount { value, unit, decimals }
}

fn minutes(value: f64) -> Answer {
    amount(value.round(), Unit::Minutes, 0)
}

const MINUTES: &str = "reckoned, to some minutes: common practice, no published source";

/// How long does it take?
pub(super) fn time(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let (run, hop) = run(throw)?;
    let tolerance = Tolerance::Units(throw.level.of([1.0, 2.0, 3.0]));
    let mut question = run.time(tolerance, &throw.ground.chart.grid)?;
    let minutes = run.minutes()?;
    if throw.choosy && throw.level.number() == 3 && minutes < 60.0 {
        // Who rests once an hour is under way for more than one.
        return None;
    }
    if let Some((from, to)) = hop.and_then(|hop| ends(throw.ground, hop)) {
        question.text =
            format!("From {} to {} it is {}. {}", from.name, to.name, run.far(), run.asked());
        question.shown = vec![shown(from), shown(to)];
        question.drawn = way(from.at, to.at, minutes, &question.told());
    }
    Some(question)
}

/// A distance and a pace of one unit, of any, of two; at the third level with rests. The distance is that of a leg on the chart,
/// a round one at the first level, where the chart has any.
fn run<'a>(throw: &mut Throw<'a, '_>) -> Option<(Run, Option<&'a Hop>)> {
    let level = throw.level.number();
    let knots = level == 1 || throw.dice.coin();
    let paces = throw.level.of([(20, 40, 10), (20, 40, 5), (20, 40, 5)]);
    let slow = throw.dice.stepped(paces.0, paces.1, paces.2);
    let pace = pace(if knots { slow } else { slow * 2 }, knots)?;
    let rest = if level == 3 { throw.dice.stepped(5, 15, 5) } else { 0 };
    let pace = pace.with_rest_per_hour(SignedDuration::from_mins(rest)).ok()?;
    let same = level != 3 || throw.dice.below(4) == 0;
    let unit = if knots == same { Unit::Miles } else { Unit::Kilometres };
    let round = |hop: &&Hop| level > 1 || hop.tenths(unit) % 5 == 0;
    let hop = hop(throw, round);
    let tenths = match (hop, level) {
        (Some(hop), _) => hop.tenths(unit),
        (None, 1) => throw.dice.stepped(10, 90, 5),
        (None, _) => throw.dice.between(12, 160),
    };
    Some((Run { distance: tenths as f64 / 10.0, unit, pace }, hop))
}

/// One of the chart's legs over open water, while it is wished for.
fn hop<'a>(throw: &mut Throw<'a, '_>, fits: impl Fn(&&Hop) -> bool) -> Option<&'a Hop> {
    let legs = if throw.choosy { throw.ground.hops().legs.as_slice() } else { &[] };
    let fit: Vec<&Hop> = legs.iter().filter(fits).collect();
    throw.dice.pick(&fit).copied()
}

fn ends<'a>(ground: &'a Ground<'_>, hop: &Hop) -> Option<(&'a Spot, &'a Spot)> {
    let calls = ground.calls();
    Some((calls.get(hop.from)?, calls.get(hop.to)?))
}

fn shown(spot: &Spot) -> Shown {
    Shown::Point { at: spot.at, label: spot.name.clone() }
}

/// The unit of distance that belongs to a pace.
fn unit_of(pace: Pace) -> Unit {
    match pace.unit() {
        nav::PaceUnit::Knots => Unit::Miles,
        nav::PaceUnit::KilometresAnHour => Unit::Kilometres,
    }
}

impl Run {
    pub(crate) fn time(self, tolerance: Tolerance, grid: &nav::Grid) -> Option<Question> {
        let pace = self.pace;
        let exact = self.minutes()?;
        let right = whole(exact, 1.0)? as f64;
        let asked = format!("You have {} to go. {}", self.far(), self.asked());
        let mut question = Question::new(asked, minutes(right), tolerance, grid);
        question.hints = vec![
            "Time is distance by speed, both in the same unit.".to_owned(),
            "A tenth of an hour is six minutes.".to_owned(),
            format!(
                "At {pace} a {} takes {} minutes.",
                if unit_of(pace) == Unit::Miles { "mile" } else { "kilometre" },
                plain(60.0 / number(pace), 1)
            ),
        ];
        let end = vec![question.told(), self.far()];
        question.figures = vec![line(pace, exact, format!("{} at {pace}", self.far()), end, 1.0)];
        question.basis = MINUTES;
        question.steps = self.time_steps(right)?;
        self.time_mistakes(&mut question, right);
        Some(question)
    }

    /// How long it takes, in minutes.
    fn minutes(self) -> Option<f64> {
        let way = length(self.distance, self.unit)?;
        Some(self.pace.time_for(way)?.as_secs_f64() / 60.0)
    }

    /// What is asked of it.
    fn asked(self) -> String {
        let rest = self.pace.rest_per_hour();
        let rests = if rest.is_zero() {
            String::new()
        } else {
            format!(", with {} minutes of rest in each hour", rest.as_mins())
        };
        format!("You paddle at {}{rests}. How long does it take?", self.pace)
    }

    /// How far it is, written.
    fn far(self) -> String {
        format!("{} {}", plain(self.distance, 1), self.unit.sign())
    }

    /// The distance in the pace's own unit.
    fn distance_at_pace(self) -> Option<f64> {
        let way = length(self.distance, self.unit)?;
        Some(match self.pace.unit() {
            nav::PaceUnit::Knots => way.as_nautical_miles(),
            nav::PaceUnit::KilometresAnHour => way.as_kilometres(),
        })
    }

    fn time_steps(self, right: f64) -> Option<Vec<String>> {
        let (own, unit) = (self.distance_at_pace()?, unit_of(self.pace));
        let own_said = format!("{} {}", plain(own, 2), unit.sign());
        let mut steps = Vec::new();
        if unit != self.unit {
            let said = plain(self.distance, 1);
            steps.push(format!(
                "In the pace's own unit, {said} {} are {own_said}.",
                self.unit.sign()
            ));
        }
        let hours = own / number(self.pace);
        steps.push(format!("{own_said} at {} are {}.", self.pace, in_hours(hours)));
        let rest = self.pace.rest_per_hour().as_mins();
        if rest > 0 {
            steps.push(format!(
                "Of each hour {} minutes are paddled: by 60/{} it takes {}.",
                60 - rest,
                60 - rest,
                in_hours(right / 60.0)
            ));
        }
        steps.push(format!("In hours and minutes: {}.", minutes(right)));
        Some(steps)
    }

    fn time_mistakes(self, question: &mut Question, right: f64) {
        let hours = right / 60.0;
        let own = self.distance_at_pace().unwrap_or(self.distance);
        let pace = number(self.pace);
        let stretched = right / (own / pace);
        for slip in tenths_as_minutes(hours) {
            question.mistake(MistakeKind::MinutesForTenths, minutes(slip));
        }
        if self.unit != unit_of(self.pace) {
            let kind = units_confused(self.unit);
            question.mistake(kind, minutes(self.distance / pace * stretched));
            let twice = own * own / self.distance;
            let twice_wrong = self.distance * self.distance / own;
            question.mistake(kind, minutes(twice_wrong / pace * stretched));
            question.mistake(kind, minutes(twice / pace * stretched));
        }
        if !self.pace.rest_per_hour().is_zero() {
            question.mistake(MistakeKind::RestsForgotten, minutes(own / pace * 60.0));
        }
        question.mistake(MistakeKind::WrongWayRound, minutes(pace / own * 60.0));
        question.mistake(MistakeKind::WrongWayRound, minutes(pace * own));
    }
}

/// What comes of reading a decimal fraction of an hour as minutes: 1.43 hours as 1 h 43, 1.4 as 1 h 40 or 1 h 04.
pub(super) fn tenths_as_minutes(hours: f64) -> [f64; 3] {
    let whole = hours.floor() * 60.0;
    let part = hours.fract();
    let tenths = (part * 10.0).round();
    [whole + (part * 100.0).round(), whole + tenths * 10.0, whole + tenths]
}

/// `1 hour`, `1.43 hours`
fn in_hours(hours: f64) -> String {
    let number = plain(hours, 2);
    format!("{number} hour{}", if number == "1" { "" } else { "s" })
}

fn units_confused(given: Unit) -> MistakeKind {
    match given {
        Unit::Kilometres => MistakeKind::KilometresForMiles,
        _ => MistakeKind::MilesForKilometres,
    }
}

/// How far do we get?
pub(super) fn distance(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let level = throw.level.number();
    let knots = level == 1 || throw.dice.coin();
    let slow = throw.level.of([(20, 40, 10), (20, 40, 5), (20, 40, 1)]);
    let slow = throw.dice.stepped(slow.0, slow.1, slow.2);
    let pace = pace(if knots { slow } else { slow * 2 }, knots)?;
    let hop = hop(throw, |_| true);
    let (least, most, step) = throw.level.of([(30, 240, 15), (20, 260, 5), (17, 290, 1)]);
    // More than half of the leg, and no more than all of it.
    let knots_made = pace.speed().as_knots();
    let (least, most) = match hop {
        Some(hop) => {
            let most = most.min((hop.miles / knots_made * 60.0) as i64);
            (least.max(most / 2), most)
        }
        None => (least, most),
    };
    if most < least + step {
        return None;
    }
    let time = throw.dice.stepped(least + step - 1, most, step);
    let same = level != 3 || throw.dice.below(4) == 0;
    let unit = if knots == same { Unit::Miles } else { Unit::Kilometres };
    let tolerance = Tolerance::Units(throw.level.of([0.1, 0.1, 0.2]));
    let grid = &throw.ground.chart.grid;
    let mut question = how_far(pace, SignedDuration::from_mins(time), unit, tolerance, grid)?;
    if let Some((hop, (from, to))) = hop.and_then(|hop| Some((hop, ends(throw.ground, hop)?))) {
        let said = text::duration(SignedDuration::from_mins(time));
        question.text = format!(
            "From {} you paddle towards {} at {pace}. {}",
            from.name,
            to.name,
            how_far_in(&said, unit)
        );
        question.shown = vec![shown(from), shown(to)];
        let part = knots_made * time as f64 / 60.0 / hop.miles;
        let end = from.at + (to.at - from.at) * part;
        question.drawn = way(from.at, end, time as f64, &question.told());
    }
    Some(question)
}

fn how_far_in(time: &str, unit: Unit) -> String {
    format!("How far do you get in {time}? In {}.", name(unit))
}

fn name(unit: Unit) -> &'static str {
    if unit == Unit::Miles { "nautical miles" } else { "kilometres" }
}

pub(crate) fn how_far(
    pace: Pace,
    time: SignedDuration,
    unit: Unit,
    tolerance: Tolerance,
    grid: &nav::Grid,
) -> Option<Question> {
    let way = pace.speed().over(time);
    let in_unit = |way: Length| match unit {
        Unit::Miles => way.as_nautical_miles(),
        _ => way.as_kilometres(),
    };
    let exact = in_unit(way);
    let right = whole(exact, 0.1)? as f64 / 10.0;
    let said = text::duration(time);
    let asked = format!("You paddle at {pace}. {}", how_far_in(&said, unit));
    let mut question = Question::new(asked, amount(right, unit, 1), tolerance, grid);
    question.hints = vec![
        "Distance is speed times time, the time in hours.".to_owned(),
        "Six minutes are a tenth of an hour.".to_owned(),
    ];
    question.basis = "reckoned, to a tenth or two: common practice, no published source";
    let (hours, number) = (time.as_secs_f64() / 3600.0, number(pace));
    let own = unit_of(pace);
    let run = format!("{} {}", plain(hours * number, 2), own.sign());
    let are = if hours == 1.0 { "is" } else { "are" };
    let as_hours = format!("{said} {are} {}.", in_hours(hours));
    question.steps = vec![as_hours.clone(), format!("At {pace} that is {run}.")];
    question.hints.push(as_hours);
    if own != unit {
        question.steps.push(format!("In {}: {right:.1} {}.", name(unit), unit.sign()));
    }
    let (end, minutes) = (vec![said.clone(), question.told()], time.as_secs_f64() / 60.0);
    let over = format!("{said} at {pace}");
    question.figures = vec![line(pace, minutes, over, end, minutes / exact)];
    let as_printed = (time.as_mins() / 60) as f64 + (time.as_mins() % 60) as f64 / 100.0;
    let mut mistake = |kind, value: f64| {
        question.mistake(kind, amount((value * 10.0).round() / 10.0, unit, 1));
    };
    mistake(MistakeKind::MinutesForTenths, exact / hours * as_printed);
    if own != unit {
        mistake(units_confused(own), hours * number);
        mistake(units_confused(own), hours * number * (hours * number / exact));
    }
    mistake(MistakeKind::WrongWayRound, exact / hours / hours);
    mistake(MistakeKind::WrongWayRound, hours / number);
    Some(question)
}
