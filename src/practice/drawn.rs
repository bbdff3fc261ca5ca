//! An answer that was given, drawn on the chart beside the right one.

use chart::Point;
use nav::{Figures, Grid, Square};

use crate::ground::{on_chart, on_grid};
use crate::mark::turn;
use crate::{Answer, Mistake, MistakeKind, NorthOf, Question, Reply, Shown};

impl Question {
    /// What an answer looks like on the chart, to stand beside the right one ([`Question::drawn`]): the square of a reference, the
    /// line of a bearing or of a distance, the marks' lines to a fix, the leg that was chosen. Where the answer comes of the mistake
    /// that its mark names, and the way of that can be drawn, the way is. Nothing where nothing of it can be drawn, as of a time or a height.
    ///
    /// ```
    /// use practice::{Ground, Kind, Level, Shown, ask};
    /// let chart = chart::practice()?;
    /// let coast = chart::coast::Coast::of(&chart);
    /// let ground = Ground::new(&chart, &coast);
    /// let question = ask(Kind::Reference, &ground, 7, Level::First).unwrap();
    /// let swapped = question.read(&question.mistakes[0].answer.to_string())?;
    /// let mark = question.mark_reply(&swapped);
    /// let drawn = question.drawn_reply(&swapped, mark.mistake);
    /// assert!(matches!(drawn[..], [Shown::Square(_), Shown::Point { .. }]));
    /// assert_ne!(drawn[0], question.drawn[0]);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn drawn_reply(&self, reply: &Reply, named: Option<MistakeKind>) -> Vec<Shown> {
        if let Some(way) = self.way_of(reply, named) {
            return way;
        }
        match (&self.answer, reply) {
            (Answer::Reference { .. }, Reply::Reference(square)) => of_square(&self.grid, square),
            (Answer::Square { .. }, Reply::At(at)) => vec![self.of_choice(*at)],
            (Answer::Place { .. }, Reply::At(at)) => self.of_place(*at),
            (
                Answer::Bearing { degrees, north },
                Reply::Bearing { degrees: given, north: said },
            ) => {
                let label = Answer::bearing(*given, said.unwrap_or(*north)).to_string();
                self.turned(turn(*degrees, *given), label).into_iter().collect()
            }
            (Answer::Amount { value, unit, decimals }, Reply::Amount(given)) if *value > 0.0 => {
                let said = Answer::Amount { value: *given, unit: *unit, decimals: *decimals };
                self.stretched(given / value, said.to_string()).into_iter().collect()
            }
            (Answer::Position(_), Reply::Position(position)) => {
                let there = self.grid.forward(*position).ok();
                let label = || Answer::Position(*position).to_string();
                there.map(|there| point(on_chart(there.point), label())).into_iter().collect()
            }
            (Answer::Choice(_), Reply::Choice(index)) => self.of_leg(*index).into_iter().collect(),
            _ => Vec::new(),
        }
    }

    /// How the mistake that is named of an answer is drawn, if it is one with a drawing of its own.
    fn way_of(&self, reply: &Reply, named: Option<MistakeKind>) -> Option<Vec<Shown>> {
        let leads =
            |it: &&Mistake| Some(it.kind) == named && it.answer.takes(reply, self.tolerance);
        let drawn = &self.mistakes.iter().find(leads)?.drawn;
        (!drawn.is_empty()).then(|| drawn.clone())
    }

    /// The points to be looked at, in order.
    fn points(&self) -> impl Iterator<Item = Point> {
        self.shown.iter().filter_map(|it| match it {
            Shown::Point { at, .. } => Some(*at),
            _ => None,
        })
    }

    /// The line that is the answer itself: the last one of the drawing.
    fn answer_line(&self) -> Option<(Point, Point)> {
        self.drawn.iter().rev().find_map(|it| match it {
            Shown::Line { from, to, .. } => Some((*from, *to)),
            _ => None,
        })
    }

    /// The answer's line turned clockwise about its beginning.
    fn turned(&self, degrees: f64, label: String) -> Option<Shown> {
        let (from, to) = self.answer_line()?;
        let ((sin, cos), way) = (degrees.to_radians().sin_cos(), to - from);
        let turned = Point { x: way.x * cos + way.y * sin, y: way.y * cos - way.x * sin };
        Some(Shown::Line { from, to: from + turned, label })
    }

    /// The answer's line made longer or shorter; of a way along the shore so much of it, as far as it goes.
    fn stretched(&self, times: f64, label: String) -> Option<Shown> {
        if let Some(path) = self.drawn.iter().find_map(path) {
            return (0.0..1.0).contains(&times).then(|| Shown::Path(part(path, times)));
        }
        let (from, to) = self.answer_line()?;
        Some(Shown::Line { from, to: from + (to - from) * times, label })
    }

    /// A place among the choices, by the name that it has there.
    fn of_choice(&self, at: Point) -> Shown {
        let chosen = self.choices.iter().find(|choice| choice.at == Some(at));
        let label = chosen.map(|choice| choice.text.clone());
        point(at, label.unwrap_or_else(|| six(&self.grid, at)))
    }

    /// A place, with the lines that lead to it from what is shown, each with its bearing.
    fn of_place(&self, at: Point) -> Vec<Shown> {
        let position = |at: Point| self.grid.inverse(on_grid(at)?).ok().map(|it| it.position);
        let bearing = |from: Point| {
            let line = nav::rhumb::inverse(position(from)?, position(at)?);
            Some(Answer::bearing(line.bearing.as_degrees().round(), NorthOf::True).to_string())
        };
        let line =
            |from: Point| Shown::Line { from, to: at, label: bearing(from).unwrap_or_default() };
        self.points().map(line).chain([point(at, six(&self.grid, at))]).collect()
    }

    /// The leg of a number, from 0, between the points that are shown.
    fn of_leg(&self, index: usize) -> Option<Shown> {
        let mut ends = self.points().skip(index);
        let label = self.choices.get(index)?.text.clone();
        Some(Shown::Line { from: ends.next()?, to: ends.next()?, label })
    }
}

fn point(at: Point, label: String) -> Shown {
    Shown::Point { at, label }
}

fn path(it: &Shown) -> Option<&[Point]> {
    if let Shown::Path(points) = it { Some(points) } else { None }
}

/// The six-figure reference of a point; nothing where the grid has none.
fn six(grid: &Grid, at: Point) -> String {
    on_grid(at).and_then(|at| grid.reference(at, Figures::Six).ok()).unwrap_or_default()
}

/// A square, and in its middle its reference.
fn of_square(grid: &Grid, square: &Square) -> Vec<Shown> {
    let centre = square.centre();
    let side = |figures: &&Figures| (figures.side() - square.side).as_metres().abs() < 0.5;
    let figures = Figures::ALL.iter().find(side);
    let label = figures.and_then(|figures| grid.reference(centre, *figures).ok());
    vec![Shown::Square(*square), point(on_chart(centre), label.unwrap_or_default())]
}

/// The first part of a line through several points, by its length.
fn part(points: &[Point], times: f64) -> Vec<Point> {
    let length = |pair: &[Point]| (pair[1] - pair[0]).x.hypot((pair[1] - pair[0]).y);
    let mut left = times * points.windows(2).map(length).sum::<f64>();
    let mut kept: Vec<Point> = points.first().copied().into_iter().collect();
    for pair in points.windows(2) {
        let side = length(pair);
        if side >= left {
            // A side without length is never longer than what is left, unless nothing is.
            let share = if side > 0.0 { left / side } else { 0.0 };
            kept.push(pair[0] + (pair[1] - pair[0]) * share);
            break;
        }
        kept.push(pair[1]);
        left -= side;
    }
    kept
}
