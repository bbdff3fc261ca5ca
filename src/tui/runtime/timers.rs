//! What is due at its time: the next tick of an instant that plays, another try at saving.

use std::time::{Duration, Instant};

use crate::Msg;

/// How often an instant that plays moves on.
pub(super) const TICK: Duration = Duration::from_millis(200);

/// How long after a failed save, and after the last that was heard, it is tried again.
pub(super) const RETRY: Duration = Duration::from_secs(5);

/// The times at which something is due.
pub(super) struct Timers {
    tick: Option<Instant>,
    retry: Instant,
}

impl Timers {
    pub(super) fn new(now: Instant) -> Timers {
        Timers { tick: None, retry: now + RETRY }
    }

    /// Lets ticks come, or come no more.
    pub(super) fn play(&mut self, playing: bool, now: Instant) {
        self.tick = playing.then(|| self.tick.unwrap_or(now + TICK));
    }

    /// Something was heard from outside.
    pub(super) fn heard(&mut self, now: Instant) {
        self.retry = now + RETRY;
    }

    /// What is due now.
    pub(super) fn due(&mut self, now: Instant) -> Option<Msg> {
        if let Some(tick) = self.tick.filter(|tick| *tick <= now) {
            // Ticks that were missed do not come later all at once.
            self.tick = Some((tick + TICK).max(now));
            return Some(Msg::Tick);
        }
        (self.retry <= now).then(|| {
            self.retry = now + RETRY;
            Msg::Retry
        })
    }

    /// How long until something is due.
    pub(super) fn next_in(&self, now: Instant) -> Duration {
        let next = self.tick.map_or(self.retry, |tick| tick.min(self.retry));
        next.saturating_duration_since(now)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const MS: Duration = Duration::from_millis(1);

    #[test]
    fn ticks_come_while_it_plays_and_never_all_at_once() {
        let start = Instant::now();
        let mut timers = Timers::new(start);
        assert_eq!((timers.due(start), timers.next_in(start)), (None, RETRY));
        timers.play(true, start);
        timers.play(true, start + 150 * MS);
        assert_eq!(timers.next_in(start + 150 * MS), 50 * MS);
        assert_eq!(timers.due(start + 199 * MS), None);
        assert_eq!(timers.due(start + 200 * MS), Some(Msg::Tick));
        assert_eq!(timers.next_in(start + 200 * MS), TICK);
        let late = start + 2100 * MS;
        assert_eq!(timers.due(late), Some(Msg::Tick));
        assert_eq!(timers.due(late), Some(Msg::Tick));
        assert_eq!(timers.due(late), None);
        timers.play(false, late);
        assert_eq!(timers.due(late + 400 * MS), None);
    }

    #[test]
    fn what_failed_is_tried_again_while_it_plays_too() {
        let start = Instant::now();
        let mut timers = Timers::new(start);
        timers.heard(start + 1000 * MS);
        timers.play(true, start);
        let mut tries = 0;
        for step in 0..120 {
            tries += u32::from(timers.due(start + step * 100 * MS) == Some(Msg::Retry));
        }
        assert_eq!(tries, 2);
    }
}
