//! Practice on the screen: the question in hand, what was answered, how it was marked.

use std::sync::Arc;

use chart::Point;
use jiff::Timestamp;
use practice::memory::{Progress, Record};
use practice::{Kind, Level, Mark, Plan, Question, Reply, Sitting};

use super::Line;
use crate::action::Context;

/// Practice, as far as the screen knows of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Practice {
    /// Everything that was ever answered; nothing until it was asked for.
    pub record: Option<Arc<Record>>,
    /// Why what is answered is not kept, if it is not.
    pub not_kept: Option<String>,
    /// The sitting: begun and not ended, in hand or laid down.
    pub drill: Option<Drill>,
    /// Whether the chart of the set that was left was changed since: it cannot be gone on with.
    pub chart_changed: bool,
    /// What is laid down and cannot be gone on with here, in words.
    pub elsewhere: Vec<String>,
}

impl Practice {
    /// Marks an answer, knowing what was answered before.
    pub fn mark(&self, question: &Question, reply: &Reply) -> Mark {
        let none = Record::default();
        self.record.as_deref().unwrap_or(&none).mark(question, reply)
    }

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

    /// The question that was marked, and what came of it.
    pub fn told(&self) -> Option<(&Put, &Told)> {
        match &self.drill.as_ref()?.stage {
            Stage::Marked(put, told) => Some((put, told)),
            _ => None,
        }
    }

    /// What has the keys while the sitting is in hand and nothing lies on top of the chart.
    pub(crate) fn context(&self) -> Context {
        match self.drill.as_ref().map(|drill| &drill.stage) {
            Some(Stage::Asked(Put { line: Some(_), .. })) => Context::Reply,
            None | Some(Stage::Asked(_) | Stage::Throwing) => Context::Drill,
            Some(Stage::Marked(..) | Stage::Over | Stage::Nothing) => Context::Marked,
        }
    }

    /// The question that stands, to be changed.
    pub(crate) fn asked_mut(&mut self) -> Option<&mut Put> {
        match &mut self.drill.as_mut()?.stage {
            Stage::Asked(put) => Some(put),
            _ => None,
        }
    }
}

/// A sitting on the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct Drill {
    /// What is practised, and what was answered.
    pub sitting: Sitting,
    /// When it is over, if it goes by time.
    pub until: Option<Timestamp>,
    /// Since when it is laid down, if it is; the time until it is taken up again is not counted.
    pub laid_down: Option<Timestamp>,
    /// The question that stood when the program was left, to be put again.
    pub again: Option<Again>,
    /// How far it is.
    pub stage: Stage,
    /// In the end the first line of how it went that is shown, where there is more than there is room for.
    pub top: usize,
}

impl Drill {
    /// The first line that is shown of what there is more of than there is room for.
    pub fn top(&self) -> usize {
        match &self.stage {
            Stage::Asked(put) => put.top,
            Stage::Marked(_, told) => told.top,
            Stage::Throwing | Stage::Over | Stage::Nothing => self.top,
        }
    }

    /// Whether there is nothing in it to go on with.
    pub fn is_ended(&self) -> bool {
        matches!(self.stage, Stage::Over | Stage::Nothing)
    }

    /// Where it is: `question 6 of 10`, the one that stands or comes next.
    pub fn place(&self) -> String {
        self.sitting.place()
    }
}

/// A question, by what it takes to put it again as it stood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Again {
    /// Its kind.
    pub kind: Kind,
    /// How hard it is.
    pub level: Level,
    /// What it was thrown from.
    pub seed: u64,
    /// How many of its hints were shown.
    pub hints: usize,
    /// What was written of the answer.
    pub draft: String,
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
    /// The choice that is lit, where there are choices: the one that is written.
    pub choice: Option<usize>,
    /// The answer that is being typed, while its line is open.
    pub line: Option<Line>,
    /// What was written of the answer before its line was closed.
    pub draft: Line,
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
