//! From the chart to the compass, and back.

use jiff::civil::date;
use nav::magnetic::{DecimalYear, PerYear, PrintedVariation};
use nav::{Bearing, Convergence, Grid, GridNorth, Magnetic, Variation};

use super::Throw;
use super::rose::{ray, reach};
use crate::question::RECKONED;
use crate::words::{plain, whole};
use crate::{Answer, Ground, Level, MistakeKind, NorthOf, Question, Shown, Tolerance};

/// What lies between the norths, as a chart's margin says it.
pub(crate) struct Norths {
    convergence: Convergence,
    variation: Variation,
    /// In sentences.
    said: String,
    /// How the variation of the year is got, where the printed one is older.
    step: Option<String>,
}

/// A grid bearing is given; what does the compass show?
pub(super) fn to_magnetic(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let (norths, grid) = (norths(throw)?, bearing(throw));
    let question = norths.to_magnetic(grid, near(throw.level), &throw.ground.chart.grid)?;
    Some(Question { drawn: norths.drawn(throw.ground, grid, &question), ..question })
}

/// A compass bearing is given; where does it lie on the chart's grid?
pub(super) fn to_grid(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let (norths, read) = (norths(throw)?, bearing(throw));
    let question = norths.to_grid(read, near(throw.level), &throw.ground.chart.grid)?;
    let (convergence, variation) = norths.angles();
    let grid = read + variation - convergence;
    Some(Question { drawn: norths.drawn(throw.ground, grid, &question), ..question })
}

/// Reckoned in whole degrees; with a variation that has grown old, to a degree.
fn near(level: Level) -> Tolerance {
    level.of([Tolerance::Exact, Tolerance::Exact, Tolerance::Degrees(1.0)])
}

fn bearing(throw: &mut Throw<'_, '_>) -> f64 {
    // Round ones first; at the third level those that run over north.
    let near_north = throw.level.number() == 3 && throw.dice.coin();
    let degrees = match (throw.level.number(), near_north) {
        (1, _) => throw.dice.stepped(30, 330, 10),
        (_, true) => throw.dice.between(-8, 8),
        _ => throw.dice.between(0, 359),
    };
    degrees.rem_euclid(360) as f64
}

fn asked(
    text: String,
    right: f64,
    north: NorthOf,
    near: Tolerance,
    grid: &Grid,
) -> Option<Question> {
    let answer = Answer::bearing(whole(right, 1.0)? as f64, north);
    let mut question = Question::new(text, answer, near, grid);
    question.basis = match near {
        Tolerance::Exact => RECKONED,
        _ => {
            "reckoned, a variation of the year to half a degree: common practice, no published source"
        }
    };
    let rule = match north {
        NorthOf::Magnetic => "From chart to compass west is added and east is taken off.",
        _ => "From compass to chart east is added and west is taken off.",
    };
    question.hints = vec![
        "Draw the norths as short lines from one point, and the bearing beside them.".to_owned(),
        rule.to_owned(),
    ];
    Some(question)
}

/// Whole degrees with the grid on true north, then with convergence, then a printed variation that has grown old.
fn norths(throw: &mut Throw<'_, '_>) -> Option<Norths> {
    let west = throw.dice.coin();
    let sign = if west { -1 } else { 1 };
    match throw.level.number() {
        1 => {
            let degrees = throw.dice.between(2, 12);
            let said = format!("Magnetic north lies {degrees}° {} of grid north.", side(west));
            Norths::new(0.0, (sign * degrees) as f64, said, None)
        }
        2 => {
            let variation = throw.dice.between(3, 14);
            let apart = throw.dice.between(1, 3) * if throw.dice.coin() { 1 } else { -1 };
            let said = format!(
                "Grid north lies {}° {} of true north; the variation is {variation}° {}.",
                apart.abs(),
                side(apart < 0),
                side(west)
            );
            Norths::new(apart as f64, (sign * variation) as f64, said, None)
        }
        _ => old_variation(throw, sign),
    }
}

/// A variation printed for a year gone by, with its change.
fn old_variation(throw: &mut Throw<'_, '_>, sign: i64) -> Option<Norths> {
    let printed = sign * throw.dice.stepped(180, 780, 15);
    let change = throw.dice.stepped(-12, 12, 2);
    let (then, now) = (throw.dice.between(2014, 2022), 2026);
    let year = |year: i64| i16::try_from(year).ok().map(|year| date(year, 1, 1));
    let said = PrintedVariation {
        variation: Variation::from_degrees_east(printed as f64 / 60.0).ok()?,
        year: DecimalYear::from_date(year(then)?),
        change_per_year: PerYear::from_degrees_east(change as f64 / 60.0).ok()?,
    };
    let today = nav::magnetic::VariationSource::Printed(said);
    let anywhere = nav::Position::from_degrees(0.0, 0.0).ok()?;
    let today = today.at(anywhere, DecimalYear::from_date(year(now)?)).variation;
    // Half degrees of convergence, the variation of the year to half a degree: as fine as a compass card is read.
    let half = whole(today.as_degrees_east(), 0.5)? as f64 / 2.0;
    let apart = throw.dice.between(6, 9) as f64 / 2.0 * if throw.dice.coin() { 1.0 } else { -1.0 };
    // A degree is near enough: so far apart, true, grid and magnetic are not taken for each other, nor for a careless reading.
    if half.abs() < apart.abs() + 1.5 {
        return None;
    }
    let text = format!(
        "Grid north lies {} of true north. The chart prints: variation {} ({then}), {}. It is {now}.",
        signed(apart),
        minutes(printed),
        match change {
            0 => "no change".to_owned(),
            east if east > 0 => format!("moving {east}′ east a year"),
            west => format!("moving {}′ west a year", -west),
        }
    );
    let years = now - then;
    let step = match change {
        0 => format!("The variation has not changed: {}.", signed(half)),
        _ => format!(
            "The variation in {now}, after {years} years of {}′ {}: {}.",
            change.abs(),
            side(change < 0),
            signed(half)
        ),
    };
    Norths::new(apart, half, text, Some(step))
}

impl Norths {
    /// What the compass shows of a grid bearing.
    pub(crate) fn to_magnetic(&self, grid: f64, near: Tolerance, of: &Grid) -> Option<Question> {
        let given = Bearing::<GridNorth>::from_degrees(grid).ok()?;
        let magnetic = given.to_true(self.convergence).to_magnetic(self.variation);
        let text =
            format!("{} The chart's grid gives {given}. What do you steer by compass?", self.said);
        let mut question = asked(text, magnetic.as_degrees(), NorthOf::Magnetic, near, of)?;
        question.steps = self.steps(given, magnetic, true)?;
        question.hints.extend(self.nearly(&question.steps, true));
        let (c, v) = self.angles();
        let mut mistake = |kind, degrees| {
            question.mistake(kind, Answer::bearing(degrees, NorthOf::Magnetic));
        };
        mistake(MistakeKind::VariationWrongWay, grid + c + v);
        mistake(MistakeKind::ConvergenceWrongWay, grid - c - v);
        mistake(MistakeKind::GridForTrue, grid - v);
        mistake(MistakeKind::GridForMagnetic, grid);
        mistake(MistakeKind::TrueForMagnetic, grid + c);
        mistake(MistakeKind::VariationWrongWay, grid - c + v);
        mistake(MistakeKind::BackForBearing, magnetic.back().as_degrees());
        Some(question)
    }

    /// Where a compass bearing lies on the grid.
    pub(crate) fn to_grid(&self, read: f64, near: Tolerance, of: &Grid) -> Option<Question> {
        let given = Bearing::<Magnetic>::from_degrees(read).ok()?;
        let grid = given.to_true(self.variation).to_grid(self.convergence);
        let text = format!(
            "{} You take a bearing by compass: {given}. Which bearing do you lay off from the grid lines?",
            self.said
        );
        let mut question = asked(text, grid.as_degrees(), NorthOf::Grid, near, of)?;
        question.steps = self.steps(grid, given, false)?;
        question.hints.extend(self.nearly(&question.steps, false));
        let (c, v) = self.angles();
        let mut mistake =
            |kind, degrees| question.mistake(kind, Answer::bearing(degrees, NorthOf::Grid));
        mistake(MistakeKind::VariationWrongWay, read - v - c);
        mistake(MistakeKind::ConvergenceWrongWay, read + v + c);
        mistake(MistakeKind::TrueForGrid, read + v);
        mistake(MistakeKind::MagneticForGrid, read);
        mistake(MistakeKind::MagneticForTrue, read - c);
        mistake(MistakeKind::VariationWrongWay, read - v + c);
        mistake(MistakeKind::BackForBearing, grid.back().as_degrees());
        Some(question)
    }

    pub(crate) fn new(
        apart: f64,
        variation: f64,
        said: String,
        step: Option<String>,
    ) -> Option<Norths> {
        Some(Norths {
            convergence: Convergence::from_degrees_east(apart).ok()?,
            variation: Variation::from_degrees_east(variation).ok()?,
            said,
            step,
        })
    }

    /// The norths as lines from one point, grid north upwards, and the bearing among them.
    fn drawn(&self, ground: &Ground<'_>, grid: f64, question: &Question) -> Vec<Shown> {
        let (start, far) = (ground.middle(), reach(ground));
        let (convergence, variation) = self.angles();
        let north = |degrees: f64, name: &str| ray(start, degrees, far, name.to_owned());
        let mut drawn = vec![north(0.0, "grid north")];
        if convergence != 0.0 {
            drawn.push(north(-convergence, "true north"));
        }
        drawn.push(north(variation - convergence, "magnetic north"));
        drawn.push(ray(start, grid, far, question.told()));
        drawn
    }

    /// Convergence and variation in degrees, east positive.
    fn angles(&self) -> (f64, f64) {
        (self.convergence.as_degrees_east(), self.variation.as_degrees_east())
    }

    /// Nearly all of the way: every step but the last, or which way the one step goes.
    fn nearly(&self, steps: &[String], outwards: bool) -> Vec<String> {
        let (_, variation) = self.angles();
        let more = (variation < 0.0) == outwards;
        let way = if more { "added" } else { "taken off" };
        let one = || vec![format!("The {}° are {way}.", plain(variation.abs(), 1))];
        match steps.split_last() {
            Some((_, before)) if !before.is_empty() => before.to_vec(),
            _ => one(),
        }
    }

    /// The way from one bearing to the other over true north.
    fn steps(
        &self,
        grid: Bearing<GridNorth>,
        magnetic: Bearing<Magnetic>,
        outwards: bool,
    ) -> Option<Vec<String>> {
        let through = written(grid.to_true(self.convergence).as_degrees(), NorthOf::True)?;
        let direct = self.convergence == Convergence::ZERO;
        let grid = written(grid.as_degrees(), NorthOf::Grid)?;
        let magnetic = written(magnetic.as_degrees(), NorthOf::Magnetic)?;
        let (c, v) = self.angles();
        let mut steps: Vec<String> = self.step.clone().into_iter().collect();
        if direct && outwards {
            steps.push(format!("From grid to magnetic: {grid} {} is {magnetic}.", put_on(-v)));
        } else if direct {
            steps.push(format!("From magnetic to grid: {magnetic} {} is {grid}.", put_on(v)));
        } else if outwards {
            steps.push(format!("From grid to true north: {grid} {} is {through}.", put_on(c)));
            steps.push(format!("From true to magnetic: {through} {} is {magnetic}.", put_on(-v)));
        } else {
            steps.push(format!("From magnetic to true: {magnetic} {} is {through}.", put_on(v)));
            steps.push(format!("From true to grid north: {through} {} is {grid}.", put_on(-c)));
        }
        Some(steps)
    }
}

/// To half a degree.
fn written(degrees: f64, north: NorthOf) -> Option<String> {
    Some(Answer::bearing(whole(degrees, 0.5)? as f64 / 2.0, north).to_string())
}

/// `plus 3°`, `less 3°`
fn put_on(degrees: f64) -> String {
    let word = if degrees < 0.0 { "less" } else { "plus" };
    format!("{word} {}°", plain(degrees.abs(), 1))
}

fn side(west: bool) -> &'static str {
    if west { "west" } else { "east" }
}

/// `7.5° west`
fn signed(degrees: f64) -> String {
    format!("{}° {}", plain(degrees.abs(), 1), side(degrees < 0.0))
}

/// `7°30′W`
fn minutes(minutes: i64) -> String {
    let letter = if minutes < 0 { 'W' } else { 'E' };
    format!("{}°{:02}′{letter}", minutes.abs() / 60, minutes.abs() % 60)
}
