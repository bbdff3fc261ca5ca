//! The questions, a module for each family.

mod advance;
mod back;
mod bearing;
mod card;
mod far;
pub(crate) mod fix;
mod flow;
pub(crate) mod heading;
mod hops;
mod latlon;
mod leave;
mod letters;
pub(crate) mod norths;
pub(crate) mod pace;
pub(crate) mod rate;
pub(crate) mod reference;
mod rose;
mod shore;
pub(crate) mod tide;

pub(crate) use hops::Hops;
pub(crate) use shore::Shores;

use chart::Point;
use nav::magnetic::VariationSource;
use nav::{Bearing, Figures, Grid, Length, PaceUnit, Position, Speed, True, rhumb};
use plan::{Frame, LegReading};

use crate::dice::Dice;
use crate::ground::{Spot, on_chart, on_grid};
use crate::words::whole;
use crate::{Answer, Ground, Kind, Level, Question};

/// How often the dice are thrown before it is said that the chart has no such question.
const THROWS: u64 = 400;

/// The question of this kind that a seed and a level give on this ground, alike on every machine; nothing where the chart has
/// not what the question needs, say no two landings on one shore.
///
/// It takes some tens of microseconds.
#[must_use]
pub fn ask(kind: Kind, ground: &Ground<'_>, seed: u64, level: Level) -> Option<Question> {
    (0..THROWS).find_map(|number| {
        let dice = Dice::new(seed, kind.name(), number * 4 + u64::from(level.number()));
        // What is only wished for, such as a point well within its square, is given up after some throws.
        let choosy = number < THROWS / 4;
        let question = thrown(kind, &mut Throw { ground, level, dice, choosy })?;
        let question = Question { kind, level, seed, ..question };
        (gives_nothing_away(&question) && ground.has(&question)).then_some(question)
    })
}

/// What a question is made of.
pub(crate) struct Throw<'a, 'g> {
    pub(crate) ground: &'a Ground<'g>,
    pub(crate) level: Level,
    pub(crate) dice: Dice,
    /// Whether what is wished for counts, too.
    pub(crate) choosy: bool,
}

fn thrown(kind: Kind, throw: &mut Throw<'_, '_>) -> Option<Question> {
    match kind {
        Kind::Reference => reference::of_a_mark(throw),
        Kind::Find => reference::find(throw),
        Kind::Figures => reference::of_coordinates(throw),
        Kind::Letters => letters::letters(throw),
        Kind::LatLon => latlon::of_a_mark(throw),
        Kind::ByEye => bearing::by_eye(throw),
        Kind::Bearing => bearing::measured(throw),
        Kind::Back => back::back(throw),
        Kind::ToMagnetic => norths::to_magnetic(throw),
        Kind::ToGrid => norths::to_grid(throw),
        Kind::DistanceByEye => far::by_eye(throw),
        Kind::DistanceBySquares => far::by_squares(throw),
        Kind::AlongShore => shore::along(throw),
        Kind::Time => pace::time(throw),
        Kind::Distance => pace::distance(throw),
        Kind::Twelfths => tide::twelfths(throw),
        Kind::Rate => rate::rate(throw),
        Kind::Heading => heading::across(throw),
        Kind::Fix => fix::two_bearings(throw),
        Kind::Where => advance::after_a_while(throw),
        Kind::Leave => leave::leave(throw),
        Kind::Card => card::card(throw),
    }
}

/// Whether the answer stands neither in the question and its table nor in its hints. A choice stands there with all the others,
/// and so do the letters of a square.
fn gives_nothing_away(question: &Question) -> bool {
    let answer = question.answer.to_string();
    let mut words = question.hints.iter().chain([&question.text]);
    let rows = question.given.iter().flat_map(|table| &table.rows);
    let mut cells = rows.flatten();
    match question.answer {
        Answer::Choice(_) | Answer::Square { .. } => true,
        Answer::Letters(_) => !words.any(|words| words.contains(&answer)),
        _ => !words.any(|words| words.contains(&answer)) && !cells.any(|cell| *cell == answer),
    }
}

impl<'a> Throw<'a, '_> {
    /// Whether the chart's own streams are asked of: while it is wished for, and wherever there are any.
    fn has_streams(&self) -> bool {
        self.choosy && !self.ground.waters().streams.is_empty()
    }

    /// Two things on the chart that are so many metres apart, by level from the least to the most.
    fn pair(&mut self, apart: [(f64, f64); 3]) -> Option<(&'a Spot, &'a Spot)> {
        let spots = self.ground.spots();
        let (from, to) = (self.dice.pick(spots)?, self.dice.pick(spots)?);
        let (least, most) = self.level.of(apart);
        let square = (from.at.x - to.at.x).powi(2) + (from.at.y - to.at.y).powi(2);
        (least * least..most * most).contains(&square).then_some((from, to))
    }
}

/// The leg from one thing to another, as a plan lays it.
fn leg(ground: &Ground<'_>, from: &Spot, to: &Spot) -> Option<LegReading> {
    let speed = Speed::from_knots(3.0).ok()?;
    let frame = Frame {
        grid: &ground.chart.grid,
        variation: VariationSource::Model,
        date: None,
        pace: nav::Pace::new(speed, PaceUnit::Knots),
    };
    Some(plan::lay(from.position, to.position, &frame))
}

/// The point that lies so far along a bearing.
fn laid_off(ground: &Ground<'_>, from: Point, way: Bearing<True>, far: Length) -> Option<Point> {
    let end = rhumb::direct(ground.chart.position(from).ok()?, way, far).ok()?;
    Some(on_chart(ground.chart.grid.forward(end).ok()?.point))
}

/// A position as a point of the chart in whole metres, with its six-figure reference.
fn place(grid: &Grid, position: Position) -> Option<(Point, String)> {
    let there = on_chart(grid.forward(position).ok()?.point);
    let at = Point { x: whole(there.x, 1.0)? as f64, y: whole(there.y, 1.0)? as f64 };
    Some((at, grid.reference(on_grid(at)?, Figures::Six).ok()?))
}
