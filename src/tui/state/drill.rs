//! Practice on the screen: the question in hand, what was answered, how it was marked.

use std::sync::Arc;

use chart::Point;
use jiff::Timestamp;
use practice::memory::{Progress, Record};
use practice::{Mark, Plan, Question, Sitting};

use super::Line;

/// Practice, as far as the screen knows of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Practice {
    /// Everything that was ever answered; nothing until it was asked for.
    pub record: Option<Arc<Record>>,
    /// Why what is answered is not kept, if it is not.
    pub not_kept: Option<String>,
    /// The sitting: begun and not ended, in hand or laid down.
    pub drill: Option<Drill>,
}

impl Practice {
    /// The question that stands, if one does.
    pub fn asked(&self) -> Option<&Put> {
        match &self.drill.as_ref()?.stage {
            Stage::Asked(put) => Some(put),
            _ => None,
        }
    }

    /// The answer that is being typed, while its line is open.
    pub fn line(&self) -> Option<&Line> {
        self.asked()?.line.as_ref()
    }
}

/// A sitting on the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct Drill {
    /// What is practised, and what was answered.
    pub sitting: Sitting,
    /// When it is over, if it goes by time.
    pub until: Option<Timestamp>,
    /// How far it is.
    pub stage: Stage,
}

/// How far a sitting is.
#[derive(Debug, Clone, PartialEq)]
pub enum Stage {
    /// The next question is being thrown.
    Throwing,
    /// A question stands.
    Asked(Put),
    /// It was answered or passed over, and is explained.
    Marked(Put, Told),
    /// There is no further question: how it went is told.
    Over,
    /// The chart has not what it takes for any question of it.
    Nothing,
}

/// A question that was put.
#[derive(Debug, Clone, PartialEq)]
pub struct Put {
    /// The question.
    pub question: Arc<Question>,
    /// Its number in the sitting, from one.
    pub number: usize,
    /// When it was put.
    pub since: Timestamp,
    /// How many of its hints are shown.
    pub hints: usize,
    /// The choice that is lit, where there are choices.
    pub choice: usize,
    /// The answer that is being typed, while its line is open.
    pub line: Option<Line>,
    /// Why the last thing that was typed is no answer.
    pub not_understood: Option<String>,
    /// The first line of it that is shown, where it has more than there is room for.
    pub top: usize,
}

/// What came of a question.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// What was answered, as it was given; empty where it was passed over.
    pub reply: String,
    /// Where the cursor was put, where the answer is a place.
    pub at: Option<Point>,
    /// Its mark; nothing where it was passed over.
    pub mark: Option<Mark>,
    /// The first line of the explanation that is shown, where it has more than there is room for.
    pub top: usize,
}

/// What can be practised, in a list.
#[derive(Debug, Clone, PartialEq)]
pub struct DrillList {
    /// Which row is chosen.
    pub row: usize,
    /// The rows.
    pub rows: Vec<DrillRow>,
}

/// A row of that list.
#[derive(Debug, Clone, PartialEq)]
pub struct DrillRow {
    /// What it says.
    pub words: String,
    /// What else there is to say of it: level, when it is due.
    pub note: String,
    /// What it does.
    pub does: DrillChoice,
}

/// What a row of the list does.
#[derive(Debug, Clone, PartialEq)]
pub enum DrillChoice {
    /// Takes up the sitting that was laid down.
    GoOn,
    /// Begins one.
    Begin(Plan),
    /// Shows how it has gone.
    Progress,
}

/// How it has gone, as a page.
#[derive(Debug, Clone, PartialEq)]
pub struct ProgressPage {
    /// How it has gone.
    pub progress: Arc<Progress>,
    /// The instant that it is told of.
    pub now: Timestamp,
    /// Which row is chosen: all together, then the skills in their order.
    pub row: usize,
}
