//! The thread: anchors along a shore, the line laid by them, and what is read of it.
//!
//! The anchors and the wishes are what a hand has set, with a history of their own. Everything
//! else follows from them and from the cursor, and is brought up to date by `update`.

use std::sync::Arc;

use chart::Point;
use chart::trace::{Anchor, Laid, Trace, Way, Wishes};
use nav::Length;
use nav::magnetic::{DecimalYear, VariationSource};

use super::Reading;

/// A trace of a shore, with what the hand is about to add to it.
#[derive(Debug, Clone, Default)]
pub struct Thread {
    set: Set,
    /// What was set before, the last change last.
    past: Vec<Set>,
    /// What was taken back.
    future: Vec<Set>,
    /// The way of the piece to the cursor.
    pub way: Way,
    /// Whether anchors are free points although a shore is in reach.
    pub free: bool,
    /// The anchor chosen.
    pub chosen: Option<usize>,
    /// What the cursor has caught; nothing while the thread is not in hand.
    pub caught: Option<Caught>,
    /// The line through the anchors as they are shown, at no stand-off.
    pub(crate) plain: Option<Trace>,
    /// The line at its stand-off, as soon as it is laid.
    pub(crate) off: Option<Arc<Laid>>,
    /// From the last anchor to the cursor.
    pub(crate) live: Option<Trace>,
    /// What is read of the line as it is shown.
    pub(crate) reading: Option<Arc<Reading>>,
    /// The variation and the date that it was read with.
    pub(crate) read_with: Option<(VariationSource, DecimalYear)>,
    /// Whether the line becomes a leg of the route as soon as it is laid.
    pub(crate) becomes_leg: bool,
}

/// What a hand has set.
#[derive(Debug, Clone, PartialEq)]
pub struct Set {
    /// The anchors, each with the way of the piece that ends there.
    pub anchors: Vec<(Anchor, Way)>,
    /// How far off the shore the line is laid.
    pub stand_off: Length,
    /// The longest chord of the smoothed line; zero for every vertex.
    pub step: Length,
    /// The leg of the route that was taken up to be led otherwise.
    pub leg: Option<usize>,
}

impl Default for Set {
    fn default() -> Set {
        Set { anchors: Vec::new(), stand_off: Length::ZERO, step: Length::ZERO, leg: None }
    }
}

impl Set {
    /// What the line is wished like.
    pub fn wishes(&self) -> Wishes {
        Wishes { stand_off: self.stand_off.as_metres(), step: self.step.as_metres() }
    }

    /// The same without a stand-off.
    pub(crate) fn plain(&self) -> Wishes {
        Wishes { stand_off: 0.0, ..self.wishes() }
    }
}

/// What the cursor has caught.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Caught {
    /// The anchor that would stand there.
    pub anchor: Anchor,
    /// What it is on.
    pub on: CaughtOn,
    /// How far it is from the cursor, on the ground.
    pub distance: Length,
}

/// What a cursor can catch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CaughtOn {
    /// The first anchor: the line is led right round.
    First,
    /// A waypoint of the route, counted from zero.
    Waypoint(usize),
    /// The shore.
    Shore,
    /// Nothing: a free point at the cursor.
    Nothing,
}

impl Thread {
    /// The trace that was left off, without history.
    pub(crate) fn of(set: Set) -> Thread {
        Thread { set, ..Thread::default() }
    }

    /// What a hand has set.
    pub fn set(&self) -> &Set {
        &self.set
    }

    /// The anchors, each with the way of the piece that ends there.
    pub fn anchors(&self) -> &[(Anchor, Way)] {
        &self.set.anchors
    }

    /// Whether there are anchors enough for a line.
    pub fn has_line(&self) -> bool {
        self.set.anchors.len() > 1
    }

    /// The anchors as they are shown: one taken up is where it would be put down.
    pub fn shown_anchors(&self) -> &[(Anchor, Way)] {
        self.plain.as_ref().map_or(&self.set.anchors, Trace::anchors)
    }

    /// The line through the anchors, at its stand-off as soon as that is laid.
    pub fn line(&self) -> Option<&Laid> {
        let plain = self.plain.as_ref().map(Trace::laid);
        self.off.as_deref().or(plain).filter(|laid| laid.points.len() > 1)
    }

    /// Whether the line is as it was wished for: not while its stand-off is still being laid.
    pub fn is_laid(&self) -> bool {
        self.set.stand_off == Length::ZERO || self.off.is_some()
    }

    /// The piece from the last anchor to the cursor.
    pub fn live(&self) -> Option<&Laid> {
        self.live.as_ref().map(Trace::laid).filter(|laid| laid.points.len() > 1)
    }

    /// What is read of the line as it is shown; of an earlier one while that is worked out.
    pub fn reading(&self) -> Option<&Reading> {
        self.reading.as_deref()
    }

    /// The points of the line as it is shown, on to the cursor.
    pub(crate) fn shown_points(&self) -> impl Iterator<Item = Point> + '_ {
        let line = self.line().map_or(&[][..], |laid| &laid.points);
        let live = self.live().map_or(&[][..], |laid| &laid.points);
        // The piece to the cursor begins where a line without a stand-off ends.
        let again = usize::from(line.last().is_some() && line.last() == live.first());
        line.iter().chain(live.iter().skip(again)).copied()
    }

    /// Whether there is a change to take back.
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is a change that was taken back.
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// Changes what is set. What was taken back before is forgotten.
    pub(crate) fn change(&mut self, change: impl FnOnce(&mut Set)) {
        let before = self.set.clone();
        change(&mut self.set);
        if self.set != before {
            self.past.push(before);
            self.future.clear();
            self.set_anew();
        }
    }

    /// Takes the last change back, or makes it again. Whether there was one.
    pub(crate) fn step(&mut self, back: bool) -> bool {
        let (from, to) = match back {
            true => (&mut self.past, &mut self.future),
            false => (&mut self.future, &mut self.past),
        };
        let Some(set) = from.pop() else { return false };
        to.push(std::mem::replace(&mut self.set, set));
        self.set_anew();
        true
    }

    /// After a change of what is set: what was laid is laid no more.
    fn set_anew(&mut self) {
        self.way = Way::Shorter;
        self.becomes_leg = false;
        self.chosen = self.chosen.filter(|index| *index < self.set.anchors.len());
        self.forget_line();
    }

    /// Lets what was laid be laid anew.
    pub(crate) fn forget_line(&mut self) {
        self.plain = None;
        self.off = None;
        self.live = None;
    }
}
