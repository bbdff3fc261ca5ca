//! A position from two bearings.

use chart::Point;
use nav::fix::{Sight, fix};
use nav::{Bearing, Grid, Magnetic, Position, True, Variation};

use super::{Throw, place};
use crate::ground::Spot;
use crate::words::whole;
use crate::{Answer, MistakeKind, NorthOf, Question, Shown, Tolerance};

/// Two marks, the whole degrees in which they bear, and the variation between compass and chart.
pub(crate) struct Asked<'a> {
    pub(crate) marks: [&'a Spot; 2],
    pub(crate) read: [f64; 2],
    /// Degrees, east positive; nothing where the bearings are true ones.
    pub(crate) variation: Option<i64>,
}

/// Where are we, if two marks bear so?
pub(super) fn two_bearings(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let ground = throw.ground;
    let marks = two_marks(throw)?;
    let boat = boat(throw, marks)?;
    let from = ground.chart.position(boat).ok()?;
    let variation = throw.dice.between(2, 14) * if throw.dice.coin() { 1 } else { -1 };
    let variation = (throw.level.number() > 1).then_some(variation);
    let bears = |spot: &Spot| {
        let seen = nav::geodesic::inverse(from, spot.position).bearing_at_start.as_degrees();
        Some(whole(seen - variation.unwrap_or(0) as f64, 1.0)?.rem_euclid(360) as f64)
    };
    let asked = Asked { marks, read: [bears(marks[0])?, bears(marks[1])?], variation };
    if cut(asked.read) < throw.level.of([50.0, 40.0, 30.0]) {
        return None;
    }
    let question = asked.question(&ground.chart.grid)?;
    let Answer::Place { at, .. } = question.answer else { return None };
    (!ground.coast.on_land(at)).then_some(question)
}

/// How far from the first mark the boat is at most, east or north, in metres.
const REACH: [i64; 3] = [3000, 4000, 6000];

/// A mark, and another that may be seen from where it is near.
fn two_marks<'a>(throw: &mut Throw<'a, '_>) -> Option<[&'a Spot; 2]> {
    let marks = throw.ground.marks();
    let (one, reach) = (throw.dice.pick(marks)?, throw.level.of(REACH) as f64);
    let away = |spot: &&Spot| (spot.at - one.at).x.hypot((spot.at - one.at).y);
    let fits = |spot: &&Spot| (300.0..2.0 * reach).contains(&away(spot));
    let others: Vec<&Spot> = marks.iter().filter(fits).collect();
    Some([one, throw.dice.pick(&others)?])
}

/// A place on the water that both marks are within some kilometres of, on whole tens of metres.
fn boat(throw: &mut Throw<'_, '_>, marks: [&Spot; 2]) -> Option<Point> {
    let (ground, reach) = (throw.ground, throw.level.of(REACH));
    let mut about = |middle: f64| {
        let moved = throw.dice.stepped(-reach, reach, 10);
        (middle / 10.0).round() * 10.0 + moved as f64
    };
    let boat = Point { x: about(marks[0].at.x), y: about(marks[0].at.y) };
    let extent = ground.chart.extent;
    let within = (extent.min().x..extent.max().x).contains(&boat.x)
        && (extent.min().y..extent.max().y).contains(&boat.y);
    let square = |spot: &Spot| (spot.at.x - boat.x).powi(2) + (spot.at.y - boat.y).powi(2);
    let far = (1.5 * reach as f64).powi(2);
    let suits = marks.iter().all(|mark| (500.0_f64.powi(2)..far).contains(&square(mark)));
    (within && suits && !ground.coast.on_land(boat)).then_some(boat)
}

/// The angle at which two lines cross.
fn cut([one, other]: [f64; 2]) -> f64 {
    let turn = (other - one).rem_euclid(180.0);
    turn.min(180.0 - turn)
}

impl Asked<'_> {
    pub(crate) fn question(&self, grid: &Grid) -> Option<Question> {
        let (at, text) = place(grid, self.crossing(self.bearings(1.0)?, self.marks)?)?;
        let near = self.tolerance(at, cut(self.read))?;
        let mut question = Question::new(self.text(), Answer::Place { at, text }, near, grid);
        question.basis = "two degrees in each bearing, as a hand compass is read afloat, and a pencil's width: common practice, no \
                          published source";
        self.teach(&mut question, at)?;
        self.mistakes(&mut question, grid);
        Some(question)
    }

    /// The bearings as true ones, so many times the variation put on: once, or by mistake not at all or the wrong way.
    fn bearings(&self, times: f64) -> Option<[Bearing<True>; 2]> {
        let variation = self.variation.unwrap_or(0) as f64 * times;
        let variation = Variation::from_degrees_east(variation).ok()?;
        let bearing =
            |read: f64| Some(Bearing::<Magnetic>::from_degrees(read).ok()?.to_true(variation));
        Some([bearing(self.read[0])?, bearing(self.read[1])?])
    }

    fn crossing(&self, bearings: [Bearing<True>; 2], marks: [&Spot; 2]) -> Option<Position> {
        let sight = |index: usize| Sight { mark: marks[index].position, bearing: bearings[index] };
        Some(fix(&[sight(0), sight(1)]).ok()?.position)
    }

    /// Two degrees at the farther mark's distance, and a pencil's width, in steps of 50 m.
    fn tolerance(&self, at: Point, cut: f64) -> Option<Tolerance> {
        let away = |spot: &Spot| (spot.at.x - at.x).hypot(spot.at.y - at.y);
        let farther = away(self.marks[0]).max(away(self.marks[1]));
        let aside = farther * 2_f64.to_radians() / cut.to_radians().sin();
        Some(Tolerance::Metres(whole(aside + 75.0, 50.0)? as f64 * 50.0))
    }

    fn north(&self) -> NorthOf {
        if self.variation.is_some() { NorthOf::Magnetic } else { NorthOf::True }
    }

    fn text(&self) -> String {
        let bearing = |index: usize| Answer::bearing(self.read[index], self.north());
        let how = match self.variation {
            Some(degrees) => {
                let side = if degrees < 0 { "west" } else { "east" };
                format!("By compass, with a variation of {}° {side}", degrees.abs())
            }
            None => "Counted from true north".to_owned(),
        };
        format!(
            "{how}, {} bears {} and {} bears {}. Where are you? A six-figure reference will do.",
            self.marks[0].name,
            bearing(0),
            self.marks[1].name,
            bearing(1)
        )
    }

    fn teach(&self, question: &mut Question, at: Point) -> Option<()> {
        let bearings = self.bearings(1.0)?;
        let line = |index: usize| Shown::Line {
            from: self.marks[index].at,
            to: at,
            label: bearings[index].back().to_string(),
        };
        let mark = |index: usize| Shown::Point {
            at: self.marks[index].at,
            label: self.marks[index].name.clone(),
        };
        question.shown = vec![mark(0), mark(1)];
        question.drawn = vec![line(0), line(1), Shown::Point { at, label: question.told() }];
        let back = bearings[0].back();
        question.hints = vec![
            "You are on a line through each mark: draw it from the mark along the back bearing."
                .to_owned(),
            "Draw true bearings: from a meridian, not from a grid line.".to_owned(),
            format!("The line from {} runs along {back}.", self.marks[0].name),
        ];
        if self.variation.is_some() {
            let [one, other] = bearings;
            question.steps.push(format!("With the variation taken in: {one} and {other}."));
        }
        for (mark, bearing) in self.marks.iter().zip(bearings) {
            question.steps.push(format!(
                "From {} draw the line along {}.",
                mark.name,
                bearing.back()
            ));
        }
        question.steps.push(format!("They cross at {}.", question.told()));
        Some(())
    }

    fn mistakes(&self, question: &mut Question, grid: &Grid) {
        let mut mistake = |kind, times: f64, marks: [&Spot; 2]| {
            let bearings = self.bearings(times);
            let there = bearings.and_then(|bearings| self.crossing(bearings, marks));
            if let Some((at, text)) = there.and_then(|there| place(grid, there)) {
                question.mistake(kind, Answer::Place { at, text });
            }
        };
        if self.variation.is_some() {
            mistake(MistakeKind::VariationWrongWay, -1.0, self.marks);
            mistake(MistakeKind::MagneticForTrue, 0.0, self.marks);
        }
        let [one, other] = self.marks;
        mistake(MistakeKind::MarksSwapped, 1.0, [other, one]);
    }
}
