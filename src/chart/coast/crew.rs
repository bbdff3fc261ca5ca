//! Who does the work on a large shore.

use std::ops::ControlFlow;
use std::sync::OnceLock;

/// Does a piece of work part by part, on as many threads as it has: this crate starts none.
///
/// Parts are cut by what there is to do and never by who does it, so that whatever the crew, the
/// result is the same.
pub trait Crew {
    /// Does `work` for every number below `parts`, each once, in any order and side by side; or
    /// breaks off before all are done.
    fn share(&mut self, parts: usize, work: &(dyn Fn(usize) + Sync)) -> ControlFlow<()>;
}

/// The thread that asks, alone: one part after the other, to the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Alone;

impl Crew for Alone {
    fn share(&mut self, parts: usize, work: &(dyn Fn(usize) + Sync)) -> ControlFlow<()> {
        (0..parts).for_each(work);
        ControlFlow::Continue(())
    }
}

/// What `work` makes of each number below `parts`, in order; nothing where it was broken off.
pub(super) fn each<T: Send + Sync>(
    crew: &mut dyn Crew,
    parts: usize,
    work: impl Fn(usize) -> T + Sync,
) -> Option<Vec<T>> {
    let made: Vec<OnceLock<T>> = (0..parts).map(|_| OnceLock::new()).collect();
    let outcome = crew.share(parts, &|part| {
        if let Some(place) = made.get(part) {
            place.get_or_init(|| work(part));
        }
    });
    let made = if outcome.is_break() { None } else { Some(made) };
    made?.into_iter().map(OnceLock::into_inner).collect()
}
