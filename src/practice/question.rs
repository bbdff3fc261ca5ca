//! A question with its answer.

use std::fmt;

use chart::Point;
use nav::text::{self, AngleForm, AngleStyle};
use nav::{Grid, Position, Square};

use crate::figure::Figure;
use crate::words::{clock, plain};
use crate::{Kind, Level, Mistake, MistakeKind, Reply};

/// A question, with all that it takes to mark an answer and to teach what was wrong.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// Its kind.
    pub kind: Kind,
    /// How hard it is.
    pub level: Level,
    /// What it was thrown from.
    pub seed: u64,
    /// What is asked, in sentences.
    pub text: String,
    /// Figures that are given with it, if there are any.
    pub given: Option<Table>,
    /// What is to be looked at on the chart.
    pub shown: Vec<Shown>,
    /// What can be chosen from; empty where the answer is free.
    pub choices: Vec<Choice>,
    /// The right answer.
    pub answer: Answer,
    /// How near to it an answer is right.
    pub tolerance: Tolerance,
    /// Where the tolerance, or the rule that was used, comes from.
    pub basis: &'static str,
    /// What helps, from a nudge to nearly all.
    pub hints: Vec<String>,
    /// How the answer is got, step by step.
    pub steps: Vec<String>,
    /// The answer drawn on the chart: where it is a direction or a distance, the last line is the answer itself.
    pub drawn: Vec<Shown>,
    /// The answer drawn in cells of text, where the chart has no place for it.
    pub(crate) figures: Vec<Figure>,
    /// What comes of the usual mistakes, the likeliest first: none of it is within the tolerance.
    pub mistakes: Vec<Mistake>,
    /// All that was noted of mistakes, also what is within the tolerance: another tolerance tells others apart.
    pub(crate) usual: Vec<Mistake>,
    /// The grid that references are read on.
    pub(crate) grid: Grid,
}

/// A table with a head.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// What stands over the columns; empty cells where nothing does.
    pub head: Vec<String>,
    /// The rows, each of as many cells.
    pub rows: Vec<Vec<String>>,
}

/// Something to look at, or to be drawn, on the chart.
#[derive(Debug, Clone, PartialEq)]
pub enum Shown {
    /// A point and what it is called.
    Point {
        /// Where.
        at: Point,
        /// What to write beside it; may be empty.
        label: String,
    },
    /// A straight line from one point to another.
    Line {
        /// Where it begins.
        from: Point,
        /// Where it ends.
        to: Point,
        /// What to write beside it; may be empty.
        label: String,
    },
    /// A mark on a line, as of an hour of the way.
    Tick {
        /// Where.
        at: Point,
        /// What to write beside it; may be empty.
        label: String,
    },
    /// A line through several points.
    Path(Vec<Point>),
    /// A square of the grid.
    Square(Square),
}

/// One of several answers.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// What it says.
    pub text: String,
    /// Where it stands on the chart, if it is a place.
    pub at: Option<Point>,
}

/// From which north a bearing is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum NorthOf {
    /// True north.
    True,
    /// The chart grid's north.
    Grid,
    /// The compass's north.
    Magnetic,
}

impl NorthOf {
    /// `T`, `G`, `M`.
    #[must_use]
    pub const fn letter(self) -> char {
        match self {
            NorthOf::True => 'T',
            NorthOf::Grid => 'G',
            NorthOf::Magnetic => 'M',
        }
    }

    /// `true`, `grid`, `magnetic`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            NorthOf::True => "true",
            NorthOf::Grid => "grid",
            NorthOf::Magnetic => "magnetic",
        }
    }
}

/// What an amount is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Nautical miles.
    Miles,
    /// Kilometres.
    Kilometres,
    /// Metres of height or depth.
    Metres,
    /// Minutes of time.
    Minutes,
    /// Knots.
    Knots,
}

impl Unit {
    /// As it is written behind a number: `NM`.
    #[must_use]
    pub const fn sign(self) -> &'static str {
        match self {
            Unit::Miles => "NM",
            Unit::Kilometres => "km",
            Unit::Metres => "m",
            Unit::Minutes => "min",
            Unit::Knots => "kn",
        }
    }
}

/// An answer, right or wrong.
#[derive(Debug, Clone, PartialEq)]
pub enum Answer {
    /// A grid reference.
    Reference {
        /// As it is written: `QB 731 508`.
        text: String,
        /// The square that it names.
        square: Square,
        /// The point that was asked for; of a wrong answer, the middle of its square.
        at: Point,
    },
    /// A place within a square of the grid.
    Square {
        /// What it is called in words, for who answers in words.
        name: String,
        /// The square.
        square: Square,
    },
    /// A place on the chart.
    Place {
        /// Where.
        at: Point,
        /// Its six-figure reference, where the grid has letters.
        text: String,
    },
    /// The letters of a square.
    Letters(String),
    /// A direction.
    Bearing {
        /// In degrees, from 0 up to 360.
        degrees: f64,
        /// Counted from there.
        north: NorthOf,
    },
    /// An amount of something.
    Amount {
        /// How much, in the unit.
        value: f64,
        /// The unit.
        unit: Unit,
        /// How many decimals it is written with.
        decimals: usize,
    },
    /// A time of day, in minutes from midnight.
    Clock(i64),
    /// Latitude and longitude.
    Position(Position),
    /// The number of a choice, from 0.
    Choice(usize),
}

impl Answer {
    /// A bearing of any number of degrees.
    pub(crate) fn bearing(degrees: f64, north: NorthOf) -> Answer {
        Answer::Bearing { degrees: degrees.rem_euclid(360.0), north }
    }
}

/// As it is written: `QB 731 508`, `047°G`, `4.3 NM`, `1 h 25`, `14:05`; of a choice its letter.
impl fmt::Display for Answer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Answer::Reference { text, .. } | Answer::Place { text, .. } => f.write_str(text),
            Answer::Square { name, .. } => f.write_str(name),
            Answer::Letters(letters) => f.write_str(letters),
            Answer::Bearing { degrees, north } => {
                // Below 360 by construction; half degrees are printed where they are asked for.
                let (whole, half) = (degrees.floor(), degrees.fract());
                let half = if half == 0.0 { String::new() } else { plain(half, 1)[1..].to_owned() };
                write!(f, "{whole:03.0}{half}°{}", north.letter())
            }
            Answer::Amount { value, unit: Unit::Minutes, .. } => {
                let time = jiff::SignedDuration::from_mins(value.round() as i64);
                f.write_str(&text::duration(time))
            }
            Answer::Amount { value, unit, decimals } => {
                write!(f, "{value:.decimals$} {}", unit.sign())
            }
            Answer::Clock(minute) => f.write_str(&clock(*minute)),
            Answer::Position(at) => f.write_str(&text::position(*at, MINUTES)),
            Answer::Choice(index) => write!(f, "{}", letter(*index)),
        }
    }
}

/// Degrees and minutes to a tenth, as a chart's margin is read.
pub(crate) const MINUTES: AngleStyle = AngleStyle::new(AngleForm::DegreesMinutes, 1);

/// The letter of a choice: `a`.
pub(crate) fn letter(index: usize) -> char {
    // No question has more choices than the alphabet letters.
    char::from(b'a' + (index % 26) as u8)
}

/// How near to the right answer is right: what a hand with pencil, ruler and protractor can keep.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Tolerance {
    /// Reckoned, not measured: the answer itself, and what rounds to it.
    Exact,
    /// So many metres of the ground: of a reference or a square, so far beyond its edges.
    Metres(f64),
    /// So many degrees of a bearing.
    Degrees(f64),
    /// So many minutes of latitude, and of longitude.
    ArcMinutes(f64),
    /// This part of the right answer, more or less.
    Share(f64),
    /// So much of the answer's own unit; minutes of a clock.
    Units(f64),
}

impl Question {
    /// A question without hints, drawings or mistakes yet.
    pub(crate) fn new(text: String, answer: Answer, tolerance: Tolerance, grid: &Grid) -> Question {
        Question {
            kind: Kind::Reference,
            level: Level::First,
            seed: 0,
            text,
            given: None,
            shown: Vec::new(),
            choices: Vec::new(),
            answer,
            tolerance,
            basis: COMMON,
            hints: Vec::new(),
            steps: Vec::new(),
            drawn: Vec::new(),
            figures: Vec::new(),
            mistakes: Vec::new(),
            usual: Vec::new(),
            grid: grid.clone(),
        }
    }

    /// Notes what a mistake comes to, unless that cannot be told from the right answer or from a likelier mistake.
    pub(crate) fn mistake(&mut self, kind: MistakeKind, answer: Answer) {
        self.mistake_drawn(kind, answer, Vec::new());
    }

    /// The same with the way that the mistake goes, drawn.
    pub(crate) fn mistake_drawn(&mut self, kind: MistakeKind, answer: Answer, drawn: Vec<Shown>) {
        let mistake = Mistake { kind, answer, drawn };
        let taken = |other: &Mistake| other.answer == mistake.answer;
        let apart = !self.answer.takes(&mistake.answer.reply(), self.tolerance);
        if apart && !self.mistakes.iter().any(taken) {
            self.mistakes.push(mistake.clone());
        }
        self.usual.push(mistake);
    }

    /// Whether a mistake of this kind can be made so that no other comes within the tolerance of it.
    pub(crate) fn parts(&self, kind: MistakeKind) -> bool {
        let reply = |it: &Mistake| it.answer.reply();
        let alone = |it: &Mistake| {
            let mut others = self.mistakes.iter().filter(|other| other.kind != kind);
            !others.any(|other| other.answer.takes(&reply(it), self.tolerance))
        };
        self.mistakes.iter().find(|it| it.kind == kind).is_some_and(alone)
    }

    /// The same with another tolerance, such as a coach sets, and where that comes from. What a mistake comes to is told apart anew, so that none of it is
    /// within the tolerance; one that would make two choices right, or what is printed wrong, is not taken.
    #[must_use]
    pub fn with_tolerance(mut self, tolerance: Tolerance, basis: &'static str) -> Question {
        let takes = |reply: &Reply| self.answer.takes(reply, tolerance);
        let chosen = self.choices.iter().filter_map(|choice| self.read(&choice.text).ok());
        let printed = self.read(&self.answer.to_string());
        if chosen.filter(takes).count() > 1 || !printed.is_ok_and(|printed| takes(&printed)) {
            return self;
        }
        (self.tolerance, self.basis) = (tolerance, basis);
        self.mistakes.clear();
        for mistake in std::mem::take(&mut self.usual) {
            self.mistake_drawn(mistake.kind, mistake.answer, mistake.drawn);
        }
        self
    }

    /// The grid that references are read on: the chart's, or the one that the question has of its own.
    #[must_use]
    pub fn grid(&self) -> &Grid {
        &self.grid
    }

    /// Whether a place is asked for, which can be shown on the chart.
    #[must_use]
    pub const fn asks_for_place(&self) -> bool {
        matches!(self.answer, Answer::Square { .. } | Answer::Place { .. })
    }

    /// How near an answer must come, in words: `within 0.2 km`, `within 2°`; nothing where it must be the answer itself.
    #[must_use]
    pub fn how_near(&self) -> Option<String> {
        let units = match &self.answer {
            Answer::Amount { unit, .. } => unit.sign(),
            _ => "min",
        };
        Some(match self.tolerance {
            Tolerance::Exact => return None,
            Tolerance::Metres(metres) => format!("within {} m", plain(metres, 0)),
            Tolerance::Degrees(degrees) => format!("within {}°", plain(degrees, 1)),
            Tolerance::ArcMinutes(minutes) => format!("within {}′", plain(minutes, 2)),
            Tolerance::Share(share) => format!("within {} %", plain(share * 100.0, 0)),
            Tolerance::Units(amount) => format!("within {} {units}", plain(amount, 2)),
        })
    }
}

/// The basis where nothing is measured.
pub(crate) const RECKONED: &str = "reckoned, not measured";

/// The basis of most tolerances.
pub(crate) const COMMON: &str = "common practice, no published source";
