//! The work on a large shore, shared between threads.

use std::num::NonZero;
use std::ops::ControlFlow;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::thread;

use chart::coast::Crew;

use crate::Progress;

/// The most threads: each needs some memory for what it works on.
const MOST_THREADS: usize = 8;

/// How much of an import is reading the file, in its time: about so much.
const READING: f64 = 0.4;

/// How much of what is left to do is done by each piece of work. A guess: the first are the long
/// ones.
const PIECE: f64 = 0.2;

/// Threads of this process, which tell how far they are and may be broken off between two parts.
pub(crate) struct Threads<'a, 'p> {
    progress: &'a mut Progress<'p>,
    /// The size of the file, in whose bytes all progress is told.
    size: Option<u64>,
    /// How many bytes have been read.
    read: u64,
    /// What of all there is to do is done.
    done: f64,
}

impl<'a, 'p> Threads<'a, 'p> {
    /// For the import of a file, of that size if it is known.
    pub(crate) fn new(progress: &'a mut Progress<'p>, size: Option<u64>) -> Threads<'a, 'p> {
        Threads { progress, size, read: 0, done: 0.0 }
    }

    /// Tells that so many bytes of the file have been read.
    pub(crate) fn read(&mut self, read: u64) -> ControlFlow<()> {
        self.read = read;
        self.done = self.size.map_or(0.0, |size| READING * read as f64 / size.max(1) as f64);
        self.tell(self.done)
    }

    /// Tells that this part of everything is done.
    pub(crate) fn tell(&mut self, done: f64) -> ControlFlow<()> {
        let bytes = self.size.map_or(self.read, |size| (done.min(1.0) * size as f64) as u64);
        (self.progress)(bytes, self.size)
    }
}

impl Crew for Threads<'_, '_> {
    fn share(&mut self, parts: usize, work: &(dyn Fn(usize) + Sync)) -> ControlFlow<()> {
        let threads = thread::available_parallelism().map_or(1, NonZero::get);
        let (next, stop) = (AtomicUsize::new(0), AtomicBool::new(false));
        let do_next = || {
            let part = next.fetch_add(1, Ordering::Relaxed);
            let go_on = part < parts && !stop.load(Ordering::Relaxed);
            if go_on {
                work(part);
            }
            go_on
        };
        let (before, piece) = (self.done, (1.0 - self.done) * PIECE);
        let outcome = thread::scope(|scope| {
            for _ in 1..threads.min(MOST_THREADS).min(parts) {
                // Without another thread this one does it all.
                let helper = thread::Builder::new();
                let _ = helper.spawn_scoped(scope, || while do_next() {});
            }
            while do_next() {
                let share = next.load(Ordering::Relaxed).min(parts) as f64 / parts as f64;
                if self.tell(before + piece * share).is_break() {
                    stop.store(true, Ordering::Relaxed);
                    return ControlFlow::Break(());
                }
            }
            ControlFlow::Continue(())
        });
        self.done = before + piece;
        outcome
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_part_is_done_once_and_progress_only_rises() {
        let mut told = Vec::new();
        let mut progress = |read, _| {
            told.push(read);
            ControlFlow::Continue(())
        };
        let mut threads = Threads::new(&mut progress, Some(1000));
        assert!(threads.read(500).is_continue());
        for parts in [0, 1, 2, 100] {
            let done: Vec<AtomicUsize> = (0..parts).map(|_| AtomicUsize::new(0)).collect();
            let work = |part: usize| {
                done[part].fetch_add(1, Ordering::Relaxed);
            };
            assert!(threads.share(parts, &work).is_continue());
            assert!(done.iter().all(|times| times.load(Ordering::Relaxed) == 1));
        }
        assert!(told.is_sorted());
        assert!(told.first() == Some(&200) && told.last().is_some_and(|last| *last <= 1000));
    }

    #[test]
    fn work_is_broken_off_between_two_parts() {
        let mut progress = |_, _| ControlFlow::Break(());
        let done = AtomicUsize::new(0);
        let work = |_| {
            done.fetch_add(1, Ordering::Relaxed);
            thread::yield_now();
        };
        let outcome = Threads::new(&mut progress, None).share(100_000_000, &work);
        assert!(outcome.is_break());
        assert!(done.load(Ordering::Relaxed) < 100_000_000);
    }
}
