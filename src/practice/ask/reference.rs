//! Grid references, both ways.

mod wrong;

use chart::Point;
use nav::{Figures, Grid, Square};

use super::Throw;
use crate::ground::{Spot, on_grid};
use crate::{Answer, Choice, Question, Shown, Tolerance};
pub(crate) use wrong::mistakes;

/// Half a millimetre on paper of 1:50,000.
const ROAMER: f64 = 25.0;
const BY_ROAMER: &str = "a roamer on 1:50,000 paper is read to half a millimetre, 25 m on the ground: common practice, no \
                         published source";

/// The answer that is the reference of a point; nothing where the grid has no letters there.
pub(crate) fn reference(grid: &Grid, at: Point, figures: Figures) -> Option<Answer> {
    let point = on_grid(at)?;
    grid.square_letters(point)?;
    let text = grid.reference(point, figures).ok()?;
    let square = square(grid, &text)?;
    square.contains(point).then_some(Answer::Reference { text, square, at })
}

pub(super) fn square(grid: &Grid, text: &str) -> Option<Square> {
    grid.parse_reference(text, None).ok()
}

/// What is the six-figure reference of Long Ness light?
pub(super) fn of_a_mark(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let spot = throw.dice.pick(throw.ground.spots())?;
    if throw.choosy && !suits(throw.level.number(), spot.at) {
        return None;
    }
    let grid = &throw.ground.chart.grid;
    let answer = reference(grid, spot.at, Figures::Six)?;
    let text = format!("Give the six-figure reference of {}.", spot.name);
    let steps = counted(&answer.to_string())?;
    let mut question = Question::new(text, answer, Tolerance::Metres(ROAMER), grid);
    question.basis = BY_ROAMER;
    question.shown = vec![Shown::Point { at: spot.at, label: spot.name.clone() }];
    question.hints = hints(&steps);
    question.steps = steps;
    draw(&mut question);
    mistakes(&mut question, spot.at, Figures::Six);
    Some(question)
}

/// Whether a point suits a level: well within its square at the first, near an edge at the third.
fn suits(level: u8, at: Point) -> bool {
    let well_within = |metres: f64| (25.0..75.0).contains(&metres.rem_euclid(100.0));
    let both = (well_within(at.x), well_within(at.y));
    match level {
        1 => both == (true, true),
        2 => true,
        _ => both != (true, true),
    }
}

/// What do the figures of a receiver come to as a reference?
pub(super) fn of_coordinates(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let extent = throw.ground.chart.extent;
    let whole = |low: f64, high: f64| (low.ceil() as i64, high.floor() as i64 - 1);
    let (west, east) = whole(extent.min().x, extent.max().x);
    let (south, north) = whole(extent.min().y, extent.max().y);
    let at = Point {
        x: throw.dice.between(west, east) as f64,
        y: throw.dice.between(south, north) as f64,
    };
    let figures = match throw.level.number() {
        1 => [Figures::Four, Figures::Six],
        2 => [Figures::Six, Figures::Eight],
        _ => [Figures::Four, Figures::Eight],
    };
    let figures = *throw.dice.pick(&figures)?;
    let grid = &throw.ground.chart.grid;
    let answer = reference(grid, at, figures)?;
    let words = ["", "a two", "a four", "a six", "an eight", "a ten"][figures.each().min(5)];
    let letters = grid.square_letters(on_grid(at)?)?;
    let steps = cut_off(&answer.to_string(), at)?;
    let text = format!(
        "A receiver shows easting {:.0} and northing {:.0}, in the square {letters}. \
         What is that as {words}-figure reference?",
        at.x, at.y
    );
    let mut question = Question::new(text, answer, Tolerance::Exact, grid);
    question.basis = "counted, never rounded: the rule of the published grids";
    question.hints = vec![
        "The last five figures of each count the metres within the lettered square.".to_owned(),
        format!("Take {} figures of each, and drop the rest.", figures.each()),
    ];
    question.hints.extend(steps.first().cloned());
    question.steps = steps;
    draw(&mut question);
    mistakes(&mut question, at, figures);
    Some(question)
}

/// Which of these stands at QB 731 508?
pub(super) fn find(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let spot = throw.dice.pick(throw.ground.spots())?;
    let figures = throw.level.of([Figures::Four, Figures::Six, Figures::Six]);
    let grid = &throw.ground.chart.grid;
    let Answer::Reference { text, square, at } = reference(grid, spot.at, figures)? else {
        return None;
    };
    let answer = Answer::Square { name: spot.name.clone(), square };
    let asked = format!("Which of these stands at {text}?");
    let mut question = Question::new(asked, answer, Tolerance::Metres(ROAMER), grid);
    question.basis = BY_ROAMER;
    question.choices = choices(throw, spot, &question)?;
    question.hints = vec![
        "The first half of the figures is the easting: along, from the west.".to_owned(),
        "The second half is the northing: up, from the south.".to_owned(),
    ];
    question.hints.extend(followed(&text, &spot.name)?.first().cloned());
    question.steps = followed(&text, &spot.name)?;
    question.drawn =
        vec![Shown::Square(square), Shown::Point { at: spot.at, label: spot.name.clone() }];
    wrong::squares(&mut question, &text, at, figures);
    Some(question)
}

/// The right one, the two nearest that are not in the square, and another.
fn choices(throw: &mut Throw<'_, '_>, right: &Spot, question: &Question) -> Option<Vec<Choice>> {
    // Twice the tolerance off, so that no cursor is right that was put on another.
    let beyond = Tolerance::Metres(2.0 * ROAMER);
    let elsewhere = |spot: &&Spot| !question.answer.takes(&crate::Reply::At(spot.at), beyond);
    let mut others: Vec<&Spot> = throw.ground.spots().iter().filter(elsewhere).collect();
    let square = |spot: &Spot| (spot.at.x - right.at.x).powi(2) + (spot.at.y - right.at.y).powi(2);
    others.sort_by(|a, b| square(a).total_cmp(&square(b)));
    let near = others.drain(..others.len().min(2)).collect::<Vec<_>>();
    let far = throw.dice.pick(&others).copied();
    let all = near.into_iter().chain(far).chain([right]);
    let mut choices: Vec<Choice> =
        all.map(|spot| Choice { text: spot.name.clone(), at: Some(spot.at) }).collect();
    throw.dice.shuffle(&mut choices);
    (choices.len() >= 3).then_some(choices)
}

/// How a reference is counted.
fn counted(reference: &str) -> Option<Vec<String>> {
    let (letters, east, north) = halves(reference)?;
    let axis = |figures: &str, side: &str, way: &str| {
        let (line, beyond) = line_and_parts(figures);
        match beyond {
            None => format!("The last grid line {side} of the point is {line}."),
            Some(parts) => format!(
                "The last grid line {side} of the point is {line}; the point lies {parts} of a square {way} of \
                 it: {figures}."
            ),
        }
    };
    Some(vec![
        axis(east, "west", "east"),
        axis(north, "south", "north"),
        format!("Along first, then up, behind the letters of the square {letters}: {reference}."),
    ])
}

/// How the figures of a coordinate are cut.
fn cut_off(reference: &str, at: Point) -> Option<Vec<String>> {
    let (letters, east, north) = halves(reference)?;
    let axis = |name: &str, metres: f64, figures: &str| {
        let (within, each) = (metres.rem_euclid(1e5).floor(), figures.len());
        format!(
            "The {name} is {within:05.0} m within the lettered square; its first {each} figures are {figures}."
        )
    };
    Some(vec![
        axis("easting", at.x, east),
        axis("northing", at.y, north),
        format!("Along first, then up, behind the letters of the square {letters}: {reference}."),
    ])
}

/// How a reference is followed to what stands there.
fn followed(reference: &str, name: &str) -> Option<Vec<String>> {
    let (_, east, north) = halves(reference)?;
    let axis = |figures: &str, way: &str| {
        let (line, beyond) = line_and_parts(figures);
        let beyond = beyond.map_or(String::new(), |parts| format!(", and {parts} beyond it"));
        format!("{way} to the grid line {line}{beyond}.")
    };
    Some(vec![
        axis(east, "Along"),
        axis(north, "Up"),
        format!("There is the square's south-west corner; in it stands {name}."),
    ])
}

/// `QB`, `731` and `508`.
fn halves(reference: &str) -> Option<(&str, &str, &str)> {
    let (rest, north) = reference.rsplit_once(' ')?;
    let (letters, east) = rest.rsplit_once(' ')?;
    Some((letters, east, north))
}

/// `73`, and `1 full tenth` or `14 full hundredths` if there are any more figures.
fn line_and_parts(figures: &str) -> (&str, Option<String>) {
    let (line, parts) = figures.split_at(figures.len().min(2));
    let number = match parts.trim_start_matches('0') {
        "" => "no",
        number => number,
    };
    let many = if number == "1" { "" } else { "s" };
    let of = match parts.len() {
        0 => return (line, None),
        1 => "tenth",
        _ => "hundredth",
    };
    (line, Some(format!("{number} full {of}{many}")))
}

fn hints(steps: &[String]) -> Vec<String> {
    let first =
        "Along first, then up: the line to the west, then the line to the south.".to_owned();
    std::iter::once(first).chain(steps.iter().take(2).cloned()).collect()
}

/// The square that the answer names, and the point in it.
fn draw(question: &mut Question) {
    if let Answer::Reference { text, square, at } = &question.answer {
        let point = Shown::Point { at: *at, label: text.clone() };
        question.drawn = vec![Shown::Square(*square), point];
    }
}
