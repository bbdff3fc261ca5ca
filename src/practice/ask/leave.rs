//! When to leave, to be somewhere in time.

use chart::Point;
use jiff::SignedDuration;
use nav::{Length, Speed, text};

use super::{Throw, pace};
use crate::figure::{Figure, Line, Part, Read, Tick};
use crate::water::{DAY, day};
use crate::words::{clock, plain, whole};
use crate::{Answer, MistakeKind, Question, Shown, Tolerance};

/// What the day must keep to.
struct Asked {
    /// When to be there, in minutes of the clock that it is told on.
    there: i64,
    tenths_of_mile: i64,
    pace: nav::Pace,
    /// Minutes.
    stop: i64,
    /// Tenths of knots along the way, against it negative.
    stream: i64,
    /// How many hours the watch is ahead of the clock that the time is told on.
    ahead: i64,
}

/// Where to be, and why then.
struct Place {
    name: String,
    at: Point,
    /// The day, where it is the slack of one of the chart's streams.
    slack_on: Option<String>,
}

/// When must we leave to be at the narrows at slack?
pub(super) fn leave(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let (place, asked) = asked(throw)?;
    let under_way = asked.under_way(asked.stream)?;
    let right = asked.leaves(under_way);
    let tolerance = Tolerance::Units(throw.level.of([1.0, 3.0, 5.0]));
    let grid = &throw.ground.chart.grid;
    let mut question = Question::new(asked.text(&place), Answer::Clock(right), tolerance, grid);
    question.basis = "reckoned, to some minutes: common practice, no published source";
    question.shown = vec![Shown::Point { at: place.at, label: place.name }];
    let time = text::duration(SignedDuration::from_mins(under_way));
    question.hints = vec![
        "How long are you under way? Then count back from the time to be there.".to_owned(),
        "Put stops on the time under way, and see that all times are on one clock.".to_owned(),
        format!("You are under way for {time}."),
    ];
    question.steps = asked.steps(under_way);
    question.figures = vec![asked.figure(under_way)];
    asked.mistakes(&mut question, under_way);
    Some(question)
}

/// A plain run; then with a stop; then in a stream, with the time told on another clock.
fn asked(throw: &mut Throw<'_, '_>) -> Option<(Place, Asked)> {
    let level = throw.level.number();
    let tenths = throw.level.of([(20, 40, 10), (20, 45, 5), (20, 45, 5)]);
    let stream = *throw.dice.pick(&[-10, -5, 5, 10])?;
    let slack = if throw.has_streams() { Some(slack(throw)?) } else { None };
    let (place, there) = match slack {
        Some(slack) => slack,
        None => {
            let spot = throw.dice.pick(throw.ground.calls())?;
            let place = Place { name: spot.name.clone(), at: spot.at, slack_on: None };
            (place, throw.dice.stepped(12 * 60, 18 * 60, throw.level.of([15, 5, 1])))
        }
    };
    let asked = Asked {
        there,
        tenths_of_mile: throw.dice.stepped(20, 110, if level == 1 { 10 } else { 1 }),
        pace: pace::pace(throw.dice.stepped(tenths.0, tenths.1, tenths.2), true)?,
        stop: if level == 1 { 0 } else { throw.dice.stepped(10, 45, 5) },
        stream: if level == 3 { stream } else { 0 },
        ahead: if level == 3 { 1 } else { 0 },
    };
    Some((place, asked))
}

/// When one of the chart's streams is slack on a day, in minutes of UTC's day: to a quarter of an hour at the first level, if it ever
/// is; nothing where the chart has none.
fn slack(throw: &mut Throw<'_, '_>) -> Option<(Place, i64)> {
    let waters = throw.ground.waters();
    let stream = throw.dice.pick(&waters.streams)?;
    let slack = throw.dice.pick(&stream.slacks)?;
    let times = waters.ports.get(stream.port)?.tides().map(|tide| tide.high + slack.later);
    let by_day = |at: &i64| (12 * 60..=18 * 60).contains(&at.rem_euclid(DAY));
    let all: Vec<i64> = times.filter(by_day).collect();
    let step = throw.level.of([15, 1, 1]);
    let round: Vec<i64> = all.iter().copied().filter(|at| at % step == 0).collect();
    let at = *throw.dice.pick(if round.is_empty() { &all } else { &round })?;
    let place = Place { name: stream.name.clone(), at: stream.at, slack_on: Some(day(at)) };
    Some((place, at.rem_euclid(DAY)))
}

impl Asked {
    /// The minutes under way with a stream of so many tenths of knots along the way.
    fn under_way(&self, stream: i64) -> Option<i64> {
        let way = self.tenths_of_mile as f64 / 10.0 * Length::NAUTICAL_MILE;
        let over_ground = Speed::from_knots(self.pace.speed().as_knots() + stream as f64 / 10.0);
        let time = nav::Pace::new(over_ground.ok()?, nav::PaceUnit::Knots).time_for(way)?;
        whole(time.as_secs_f64() / 60.0, 1.0)
    }

    /// The departure by the watch.
    fn leaves(&self, under_way: i64) -> i64 {
        self.there + 60 * self.ahead - under_way - self.stop
    }

    fn text(&self, place: &Place) -> String {
        let miles = plain(self.tenths_of_mile as f64 / 10.0, 1);
        let name = &place.name;
        let there = match (&place.slack_on, self.ahead) {
            (Some(day), _) => format!(
                "{name}, {day}. You have {miles} NM to go, to be there when it is slack at {} UTC.",
                clock(self.there)
            ),
            (None, ahead) => format!(
                "It is {miles} NM to {name}, where you mean to be at {}{}.",
                clock(self.there),
                if ahead == 0 { "" } else { " UTC" }
            ),
        };
        let mut said = format!("{there} You make {} through the water", self.pace);
        if self.stream != 0 {
            let way = if self.stream > 0 { "with you" } else { "against you" };
            let rate = plain(self.stream.abs() as f64 / 10.0, 1);
            said += &format!(", a stream of {rate} kn runs {way} all the way");
        }
        if self.stop != 0 {
            let and = if self.stream == 0 { " and" } else { ", and you" };
            said += &format!("{and} stop for {} minutes on the way", self.stop);
        }
        let watch = match (self.ahead, &place.slack_on) {
            (0, None) => "",
            (0, Some(_)) => ", in UTC",
            _ => " by your watch, which is on UTC+1",
        };
        format!("{said}. When must you leave{watch}?")
    }

    fn steps(&self, under_way: i64) -> Vec<String> {
        let mut steps = Vec::new();
        if self.ahead != 0 {
            steps.push(format!(
                "By the watch you must be there at {}.",
                clock(self.there + 60 * self.ahead)
            ));
        }
        let way = plain(self.tenths_of_mile as f64 / 10.0, 1);
        let over_ground = self.pace.speed().as_knots() + self.stream as f64 / 10.0;
        let time = text::duration(SignedDuration::from_mins(under_way));
        steps
            .push(format!("{way} NM at {} kn over the ground take {time}.", plain(over_ground, 1)));
        if self.stop != 0 {
            let whole = text::duration(SignedDuration::from_mins(under_way + self.stop));
            steps.push(format!("With the stop that is {whole}."));
        }
        steps.push(format!("Taken off the time to be there: {}.", clock(self.leaves(under_way))));
        steps
    }

    /// The time line by the watch, its hours counted back from when to be there.
    fn figure(&self, under_way: i64) -> Figure {
        let (from, to) = (self.leaves(under_way), self.there + 60 * self.ahead);
        let end = |at: i64, word: &str| Tick {
            at: at as f64,
            sign: "┼",
            words: vec![word.to_owned(), clock(at)],
        };
        let hours = (1..).take_while(|hour| to - 60 * hour > from);
        let back = |hour: i64| Tick {
            at: (to - 60 * hour) as f64,
            sign: "┼",
            words: vec![format!("−{hour} h")],
        };
        let time = |minutes| text::duration(SignedDuration::from_mins(minutes));
        let part = |to: i64, word: &str, minutes, is_break| Part {
            to: to as f64,
            words: format!("{word} {}", time(minutes)),
            is_break,
        };
        let stop = (self.stop > 0).then(|| part(from + self.stop, "stop", self.stop, true));
        let way = part(to, "under way", under_way, false);
        Figure::Line(Line {
            from: from as f64,
            parts: stop.into_iter().chain([way]).collect(),
            ticks: [end(from, "leave"), end(to, "there")]
                .into_iter()
                .chain(hours.map(back))
                .collect(),
            right: Some(from as f64),
            fixed: Some(to as f64),
            read: Read::Clock,
        })
    }

    fn mistakes(&self, question: &mut Question, under_way: i64) {
        let mut mistake = |kind, minute: i64| {
            question.mistake(kind, Answer::Clock(minute.rem_euclid(24 * 60)));
        };
        let right = self.leaves(under_way);
        if self.ahead != 0 {
            mistake(MistakeKind::HourByZone, right - 60 * self.ahead);
            mistake(MistakeKind::HourByZone, right - 120 * self.ahead);
        }
        if self.stream != 0 {
            if let Some(still) = self.under_way(0) {
                mistake(MistakeKind::SpeedForGroundSpeed, self.leaves(still));
            }
            if let Some(other) = self.under_way(-self.stream) {
                mistake(MistakeKind::StreamReversed, self.leaves(other));
            }
        }
        if self.stop != 0 {
            mistake(MistakeKind::StopForgotten, right + self.stop);
        }
        for slip in pace::tenths_as_minutes(under_way as f64 / 60.0) {
            mistake(MistakeKind::MinutesForTenths, self.leaves(slip as i64));
        }
        mistake(MistakeKind::ForwardForBack, self.there + 60 * self.ahead + under_way + self.stop);
    }
}
