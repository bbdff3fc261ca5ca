//! The heading that holds a line across a stream.

use chart::Point;
use nav::triangle::{Steer, Stream, heading, made_good};
use nav::{Bearing, Grid, Speed, True, Variation};

use super::flow::Flow;
use super::{Throw, laid_off};
use crate::water::moment;
use crate::words::{plain, whole};
use crate::{Answer, Ground, Mistake, MistakeKind, NorthOf, Question, Shown, Tolerance};

/// A triangle of boat, stream and ground.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Triangle {
    pub(crate) track: Bearing<True>,
    pub(crate) speed: Speed,
    pub(crate) stream: Stream,
    /// What the compass shows beside the chart, where the answer is to be steered.
    pub(crate) variation: Option<Variation>,
}

/// What do you steer to make good a line across a stream?
pub(super) fn across(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let level = throw.level.number();
    let own = if throw.has_streams() { Some(Flow::thrown(throw)?) } else { None };
    let step = throw.level.of([10, 5, 1]);
    let (set, drift) = match &own {
        Some(flow) => (flow.set, flow.drift),
        None => {
            let most = throw.level.of([15, 20, 24]);
            let drift = throw.dice.stepped(10, most, throw.level.of([5, 5, 1]));
            (throw.dice.stepped(0, 359, step), drift)
        }
    };
    let off = match level {
        1 => *throw.dice.pick(&[-90, 90])?,
        _ => throw.dice.stepped(-150, 150, step),
    };
    let speed = throw.level.of([(30, 40, 10), (25, 45, 5), (25, 45, 1)]);
    let speed = throw.dice.stepped(speed.0, speed.1, speed.2);
    let variation = throw.dice.between(2, 12) * if throw.dice.coin() { 1 } else { -1 };
    let degrees = |degrees: i64| Bearing::from_degrees(degrees as f64).ok();
    let triangle = Triangle {
        track: degrees(set + off)?,
        speed: Speed::from_knots(speed as f64 / 10.0).ok()?,
        stream: Stream { set: degrees(set)?, drift: Speed::from_knots(drift as f64 / 10.0).ok()? },
        variation: match level {
            3 => Some(Variation::from_degrees_east(variation as f64).ok()?),
            _ => None,
        },
    };
    let mut question = triangle.question(&throw.ground.chart.grid)?;
    let tells = |it: &Mistake| it.kind == MistakeKind::StreamLeftOut;
    if throw.choosy && !question.mistakes.iter().any(tells) {
        // A stream along the line asks for no heading of its own.
        return None;
    }
    let start = own.map_or(throw.ground.middle(), |flow| flow.of.at);
    question.drawn = triangle.drawn(throw.ground, start).unwrap_or_default();
    if let Some(Flow { of, when, .. }) = own {
        question.text = format!("{}, {}. {}", of.name, moment(when), question.text);
        question.shown = vec![Shown::Point { at: of.at, label: of.name.clone() }];
    }
    Some(question)
}

impl Triangle {
    pub(crate) fn question(self, grid: &Grid) -> Option<Question> {
        let Steer::MakesWay { heading, ground_speed } =
            heading(self.track, self.speed, self.stream)
        else {
            return None;
        };
        // Under a knot over the ground nobody would set out.
        if ground_speed.as_knots() < 1.0 {
            return None;
        }
        let right = Answer::bearing(whole(self.by_compass(heading), 1.0)? as f64, self.north());
        let mut question = Question::new(self.text(), right, Tolerance::Degrees(3.0), grid);
        question.basis = "a triangle drawn at 2 cm to the knot, its angles read to 2°, its sides to half a millimetre: common \
                          practice, no published source";
        question.hints = vec![
            "Draw the line that you want to make good, and from its start an hour of stream."
                .to_owned(),
            "From the end of the stream strike an arc of an hour's paddling across the line."
                .to_owned(),
        ];
        let from = self.stream.set.back();
        question.hints.push(format!(
            "The stream comes from {from}: the bow points to that side of {}.",
            self.track
        ));
        question.steps = self.steps(heading, ground_speed)?;
        self.mistakes(&mut question, heading);
        Some(question)
    }

    fn north(self) -> NorthOf {
        if self.variation.is_some() { NorthOf::Magnetic } else { NorthOf::True }
    }

    /// Degrees as they are answered: by compass where a variation is given.
    fn by_compass(self, bearing: Bearing<True>) -> f64 {
        match self.variation {
            Some(variation) => bearing.to_magnetic(variation).as_degrees(),
            None => bearing.as_degrees(),
        }
    }

    fn text(self) -> String {
        let knots = |speed: Speed| plain(speed.as_knots(), 2);
        let asked = match self.variation {
            Some(variation) => {
                let degrees = variation.as_degrees_east();
                let side = if degrees < 0.0 { "west" } else { "east" };
                format!(
                    "What do you steer by compass, with a variation of {}° {side}?",
                    degrees.abs()
                )
            }
            None => "Which true heading do you steer?".to_owned(),
        };
        format!(
            "You paddle at {} kn and want to make good {}. The stream sets {} at {} kn. {asked}",
            knots(self.speed),
            self.track,
            self.stream.set,
            knots(self.stream.drift)
        )
    }

    fn steps(self, heading: Bearing<True>, ground_speed: Speed) -> Option<Vec<String>> {
        let off = self.track.turn_to(heading).as_degrees();
        let side = if off < 0.0 { "left" } else { "right" };
        let degrees = whole(off.abs(), 1.0)?;
        let over = plain(whole(ground_speed.as_knots(), 0.1)? as f64 / 10.0, 1);
        let steered = Answer::bearing(whole(heading.as_degrees(), 1.0)? as f64, NorthOf::True);
        let mut steps = vec![
            format!(
                "From the start draw the line along {}, and the stream of one hour: {} NM along {}.",
                self.track,
                plain(self.stream.drift.as_knots(), 2),
                self.stream.set
            ),
            format!(
                "From the stream's end an arc of {} NM cuts the line {over} NM from the start: that is the \
                 speed over the ground.",
                plain(self.speed.as_knots(), 2)
            ),
            format!(
                "From the stream's end to the cut is the way of the bow: {degrees}° to the {side} of the line, \
                 {steered}."
            ),
        ];
        if self.variation.is_some() {
            let magnetic = whole(self.by_compass(heading), 1.0)?;
            steps.push(format!(
                "By compass: {}.",
                Answer::bearing(magnetic as f64, NorthOf::Magnetic)
            ));
        }
        Some(steps)
    }

    fn mistakes(self, question: &mut Question, right: Bearing<True>) {
        let north = self.north();
        let mut mistake = |kind, degrees| question.mistake(kind, Answer::bearing(degrees, north));
        // To whole degrees, as the answer is.
        let right = Bearing::<True>::from_degrees(right.as_degrees().round()).unwrap_or(right);
        let correction = self.track.turn_to(right).as_degrees();
        let other_side = self.track.as_degrees() - correction;
        let offset = self.by_compass(right) - right.as_degrees();
        mistake(MistakeKind::StreamAdded, other_side + offset);
        if let Some(made) = made_good(self.track, self.speed, self.stream).track {
            mistake(MistakeKind::StreamAdded, made.as_degrees().round() + offset);
        }
        mistake(MistakeKind::StreamLeftOut, self.track.as_degrees() + offset);
        if self.variation.is_some() {
            mistake(MistakeKind::VariationWrongWay, right.as_degrees() - offset);
            mistake(MistakeKind::TrueForMagnetic, right.as_degrees());
        }
        mistake(MistakeKind::BackForBearing, self.by_compass(right.back()));
    }

    /// The triangle of half an hour.
    fn drawn(self, ground: &Ground<'_>, start: Point) -> Option<Vec<Shown>> {
        let half = jiff::SignedDuration::from_mins(30);
        let Steer::MakesWay { ground_speed, .. } = heading(self.track, self.speed, self.stream)
        else {
            return None;
        };
        let carried = laid_off(ground, start, self.stream.set, self.stream.drift.over(half))?;
        let end = laid_off(ground, start, self.track, ground_speed.over(half))?;
        let line =
            |from: Point, to: Point, label: &str| Shown::Line { from, to, label: label.to_owned() };
        Some(vec![
            line(start, end, "ground"),
            line(start, carried, "stream"),
            line(carried, end, "bow"),
        ])
    }
}
