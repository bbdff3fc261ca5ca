//! A route with its history.

use crate::edit::Back;
use crate::{Edit, EditError, Route};

/// A route that changes through edits alone, with every revision kept and the saved one marked.
///
/// ```
/// use nav::Position;
/// use plan::{Document, Edit, Route, Waypoint};
/// let at = Position::from_degrees(57.155, -2.08)?;
/// let mut document = Document::new(Route::new("Somewhere"))?;
/// document.apply(Edit::Insert { index: 0, waypoint: Waypoint::new(at) })?;
/// assert_eq!(document.route().points.len(), 1);
/// assert_eq!(document.undo().as_deref(), Some("drop 1"));
/// assert!(document.route().points.is_empty());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone)]
pub struct Document {
    route: Route,
    /// The steps taken and, past `done`, those taken back.
    steps: Vec<Step>,
    done: usize,
    /// The value of `done` at which the route is as it was last saved.
    saved: Option<usize>,
}

/// A change that was made, or taken back.
#[derive(Debug, Clone)]
struct Step {
    word: String,
    /// What may go on with it.
    open: Open,
    /// What takes it back or, once it is taken back, makes it again.
    swap: Back,
}

/// What goes on with a step, rather than begin another.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Open {
    /// A move of the point of this index, and lines for the legs at it.
    Move(usize),
    /// Lines for the legs at the point of this index.
    Legs(usize),
    /// A line for the leg that ends at the point of this index.
    Leg(usize),
    Nothing,
}

impl Open {
    const fn after(edit: &Edit) -> Open {
        match edit {
            Edit::Move { index, .. } => Open::Move(*index),
            Edit::Insert { index, .. } => Open::Legs(*index),
            Edit::Delete { index } | Edit::SetAlong { index, .. } => Open::Leg(*index),
            _ => Open::Nothing,
        }
    }

    fn takes(self, edit: &Edit) -> bool {
        match (self, edit) {
            (Open::Move(open), Edit::Move { index, .. })
            | (Open::Leg(open), Edit::SetAlong { index, .. }) => *index == open,
            (Open::Move(open) | Open::Legs(open), Edit::SetAlong { index, .. }) => {
                *index == open || *index == open + 1
            }
            _ => false,
        }
    }
}

impl Document {
    /// A document that holds `route`, saved as it is, without history.
    ///
    /// # Errors
    /// [`EditError`] when the route breaks a bound that [`Document::apply`] keeps.
    pub fn new(route: Route) -> Result<Document, EditError> {
        Ok(Document { route: route.checked()?, steps: Vec::new(), done: 0, saved: Some(0) })
    }

    /// The route as it stands.
    pub const fn route(&self) -> &Route {
        &self.route
    }

    /// Makes a change. Changes that were taken back are forgotten.
    ///
    /// # Errors
    /// [`EditError`] when the change asks for a point that is not there or breaks a bound;
    /// the document is as it was.
    pub fn apply(&mut self, edit: Edit) -> Result<(), EditError> {
        let word = edit.word(self.route.points.len());
        let open = Open::after(&edit);
        let swap = edit.make(&mut self.route)?;
        self.steps.truncate(self.done);
        if self.saved.is_some_and(|saved| saved > self.done) {
            self.saved = None;
        }
        self.steps.push(Step { word, open, swap });
        self.done += 1;
        Ok(())
    }

    /// Like [`Document::apply`], but what goes on with the last change joins it, and is taken back
    /// with it at once: a move of the point that it moved, as in a drag or a run of nudges, and
    /// [`Edit::SetAlong`] for the legs at the point that it moved or put in, for the leg left where
    /// it took a point out, or for the leg that it set.
    ///
    /// # Errors
    /// As [`Document::apply`].
    pub fn apply_joined(&mut self, edit: Edit) -> Result<(), EditError> {
        let last = self.done.checked_sub(1).and_then(|last| self.steps.get_mut(last));
        let Some(step) = last.filter(|step| step.open.takes(&edit)) else {
            return self.apply(edit);
        };
        let later = edit.make(&mut self.route)?;
        step.swap.join(later, &self.route);
        self.steps.truncate(self.done);
        if self.saved.is_some_and(|saved| saved >= self.done) {
            self.saved = None;
        }
        Ok(())
    }

    /// Takes the last change back and returns its word, such as `drop 3`.
    pub fn undo(&mut self) -> Option<String> {
        let before = self.done.checked_sub(1)?;
        let word = self.swap(before)?;
        self.done = before;
        Some(word)
    }

    /// Makes the change that was last taken back again and returns its word.
    pub fn redo(&mut self) -> Option<String> {
        let word = self.swap(self.done)?;
        self.done += 1;
        Some(word)
    }

    /// Takes a step, back if it was made and again if it was taken back.
    fn swap(&mut self, step: usize) -> Option<String> {
        let step = self.steps.get_mut(step)?;
        step.swap = step.swap.clone().make(&mut self.route).ok()?;
        Some(step.word.clone())
    }

    /// The word of the change that [`Document::undo`] would take back.
    pub fn can_undo(&self) -> Option<&str> {
        Some(self.steps.get(self.done.checked_sub(1)?)?.word.as_str())
    }

    /// The word of the change that [`Document::redo`] would make again.
    pub fn can_redo(&self) -> Option<&str> {
        Some(self.steps.get(self.done)?.word.as_str())
    }

    /// Whether the route is as it was last saved.
    pub fn is_saved(&self) -> bool {
        self.saved == Some(self.done)
    }

    /// Marks the route as saved.
    pub const fn mark_saved(&mut self) {
        self.saved = Some(self.done);
    }
}

#[cfg(test)]
mod tests;
