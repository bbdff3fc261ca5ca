//! A route with its history.

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

/// A change and the one that takes it back: as small as the change, so that history needs no limit.
#[derive(Debug, Clone)]
struct Step {
    word: String,
    forth: Edit,
    back: Edit,
}

impl Step {
    /// Whether `edit` goes on with this step: both move the same point.
    fn joins(&self, edit: &Edit) -> bool {
        matches!((&self.forth, edit),
            (Edit::Move { index, .. }, Edit::Move { index: next, .. }) if index == next)
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
        let back = edit.clone().make(&mut self.route)?;
        self.steps.truncate(self.done);
        if self.saved.is_some_and(|saved| saved > self.done) {
            self.saved = None;
        }
        self.steps.push(Step { word, forth: edit, back });
        self.done += 1;
        Ok(())
    }

    /// Like [`Document::apply`], but a move of the point that the last change moved joins that
    /// change, so that a drag or a run of nudges is taken back at once.
    ///
    /// # Errors
    /// As [`Document::apply`].
    pub fn apply_joined(&mut self, edit: Edit) -> Result<(), EditError> {
        let last = self.done.checked_sub(1).and_then(|last| self.steps.get_mut(last));
        let Some(step) = last.filter(|step| step.joins(&edit)) else {
            return self.apply(edit);
        };
        edit.clone().make(&mut self.route)?;
        step.forth = edit;
        self.steps.truncate(self.done);
        if self.saved.is_some_and(|saved| saved >= self.done) {
            self.saved = None;
        }
        Ok(())
    }

    /// Takes the last change back and returns its word, such as `drop 3`.
    pub fn undo(&mut self) -> Option<String> {
        let step = self.steps.get(self.done.checked_sub(1)?)?;
        // A step taken back on the very route that it made cannot fail.
        step.back.clone().make(&mut self.route).ok()?;
        self.done -= 1;
        Some(step.word.clone())
    }

    /// Makes the change that was last taken back again and returns its word.
    pub fn redo(&mut self) -> Option<String> {
        let step = self.steps.get(self.done)?;
        step.forth.clone().make(&mut self.route).ok()?;
        self.done += 1;
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
