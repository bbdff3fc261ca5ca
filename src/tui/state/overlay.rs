//! What lies open on top of the chart.

use chart::Point;
use nav::{Length, Turn};
use plan::Limit;

use super::{DrillList, Line, ProgressPage, Read, StartsBox};
use crate::action::{Act, Context};

/// Something open on top of the chart. The topmost has the keys.
#[derive(Debug, Clone, PartialEq)]
pub enum Overlay {
    /// Everything that can be done.
    Help {
        /// The first row shown.
        top: usize,
    },
    /// The table of legs, where the screen has no room for it beside the chart.
    Legs,
    /// What dividers find along the trace.
    Dividers,
    /// The day's tide as a curve.
    Tide,
    /// The list of actions.
    List(List),
    /// The jump box.
    Jump(Jump),
    /// A question with a line to answer in.
    Ask(Ask),
    /// The departure strip.
    Starts(StartsBox),
    /// The limits that starts are judged by.
    Limits {
        /// Which of them is chosen.
        row: usize,
    },
    /// What can be practised.
    Drills(DrillList),
    /// How practice has gone.
    Progress(ProgressPage),
}

impl Overlay {
    /// What has the keys while this is topmost.
    pub fn context(&self) -> Context {
        match self {
            Overlay::Help { .. } => Context::Help,
            Overlay::Legs => Context::Legs,
            Overlay::Dividers => Context::Dividers,
            Overlay::Tide => Context::Tide,
            Overlay::List(_) => Context::List,
            Overlay::Jump(_) => Context::Jump,
            Overlay::Ask(_) => Context::Ask,
            Overlay::Starts(_) => Context::Starts,
            Overlay::Limits { .. } => Context::Limits,
            Overlay::Drills(_) => Context::Drills,
            Overlay::Progress(_) => Context::Progress,
        }
    }

    /// The line of text that it holds.
    pub(crate) fn line_mut(&mut self) -> Option<&mut Line> {
        match self {
            Overlay::Help { .. }
            | Overlay::Legs
            | Overlay::Dividers
            | Overlay::Tide
            | Overlay::Starts(_)
            | Overlay::Limits { .. }
            | Overlay::Drills(_)
            | Overlay::Progress(_) => None,
            Overlay::List(list) => Some(&mut list.line),
            Overlay::Jump(jump) => Some(&mut jump.line),
            Overlay::Ask(ask) => Some(&mut ask.line),
        }
    }
}

/// The list of actions.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct List {
    /// What was typed to filter it.
    pub line: Line,
    /// The actions that it leaves.
    pub acts: Vec<Act>,
    /// Which of them is chosen.
    pub row: usize,
}

/// The jump box.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Jump {
    /// What was typed.
    pub line: Line,
    /// What it finds, the best first.
    pub found: Vec<Found>,
    /// Which of them is chosen.
    pub row: usize,
    /// What is wrong with it, if it finds nothing.
    pub wrong: Option<String>,
}

/// A place that the jump box found.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Where it is on the chart's grid.
    pub at: Point,
    /// Its name, or its reference or position as it was understood.
    pub title: String,
    /// What it is.
    pub kind: FoundKind,
}

/// What the jump box found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FoundKind {
    /// A square by its grid reference: its middle.
    Reference,
    /// A latitude and longitude.
    Position,
    /// A waypoint by its name.
    Waypoint,
    /// Something on the chart by its name: the word for it.
    Named(&'static str),
}

impl FoundKind {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            FoundKind::Reference => "grid reference",
            FoundKind::Position => "latitude, longitude",
            FoundKind::Waypoint => "waypoint",
            FoundKind::Named(word) => word,
        }
    }
}

/// A question with a line to answer in.
#[derive(Debug, Clone, PartialEq)]
pub struct Ask {
    /// What is asked.
    pub question: Question,
    /// The answer so far.
    pub line: Line,
    /// How the answer is understood, or what is wrong with it.
    pub answer: Result<Answer, String>,
}

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// The name of a waypoint.
    Name(usize),
    /// The minutes that the group stops at a waypoint.
    Stop(usize),
    /// The group's pace.
    Pace,
    /// When the group leaves.
    Departure,
    /// Where the variation is taken from.
    Variation,
    /// What the route is called.
    Title,
    /// The wind.
    Wind,
    /// One of the limits.
    Limit(Limit),
    /// How far off the shore the trace is laid.
    StandOff,
    /// By what step it is smoothed.
    Smoothing,
    /// The bearing of what the cursor has caught.
    Bearing,
    /// How far off each bearing may be.
    BearingError,
}

/// An answer understood.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The change that it makes.
    pub change: Change,
    /// How it is understood, in words.
    pub words: String,
}

/// What an answer changes.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// The route.
    Route(plan::Edit),
    /// How far off the shore the trace is laid.
    StandOff(Length),
    /// By what step it is smoothed.
    Smoothing(Length),
    /// The bearing of what the cursor has caught.
    Bearing(Read),
    /// How far off each bearing may be.
    BearingError(Turn),
}

impl From<plan::Edit> for Change {
    fn from(edit: plan::Edit) -> Change {
        Change::Route(edit)
    }
}

impl Question {
    /// The question, as the heading of its box.
    pub fn title(self) -> String {
        match self {
            Question::Name(index) => format!("Name of waypoint {}", index + 1),
            Question::Stop(index) => format!("Stop at waypoint {}", index + 1),
            Question::Pace => "Pace".to_owned(),
            Question::Departure => "Departure".to_owned(),
            Question::Variation => "Variation".to_owned(),
            Question::Title => "Title of the route".to_owned(),
            Question::Wind => "Wind".to_owned(),
            Question::Limit(limit) => format!("Limit: {limit}"),
            Question::StandOff => "Stand-off from the shore".to_owned(),
            Question::Smoothing => "Step that smooths the line".to_owned(),
            Question::Bearing => "Bearing from you".to_owned(),
            Question::BearingError => "How far off each bearing may be".to_owned(),
        }
    }

    /// What an answer looks like.
    pub fn example(self) -> &'static str {
        match self {
            Question::Name(_) => "a name, or nothing",
            Question::Stop(_) => "minutes: 20, or 1 h 10, or 0 for none",
            Question::Pace => "3 kn, or 5.5 km/h",
            Question::Departure => "2026-06-14 09:30, or 09:30, or none",
            Question::Variation => "model, or as printed: 4°30′W 2019 8′E",
            Question::Title => "a title, or nothing",
            Question::Wind => {
                "from and speed: 240 12 kn, up to 16 kn; x1.5 behind it for high decks; none"
            }
            Question::Limit(limit) => limit.right(),
            Question::StandOff => "50 m, 0.2 km or 0.1 NM, up to 2 km; 0 is the shore itself",
            Question::Smoothing => {
                "200 m, 1 km or 0.5 NM, up to 20 km; 0 is every point of the shore"
            }
            Question::Bearing => "132 by the compass; 132T true, 132G by the grid's lines",
            Question::BearingError => "degrees: 3, up to 15",
        }
    }
}
