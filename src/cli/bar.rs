//! The progress of long readings.

use std::sync::mpsc::{self, RecvTimeoutError};
use std::thread;
use std::time::Duration;

use indicatif::{ProgressBar, ProgressStyle};

/// The size from which on a file takes long enough for a bar, in bytes.
const LARGE: u64 = 4 << 20;

/// A bar on a terminal, for large files only.
pub(crate) struct Bar {
    shown: Option<ProgressBar>,
    terminal: bool,
}

impl Bar {
    /// None yet; shown on a terminal alone.
    pub(crate) const fn new(terminal: bool) -> Bar {
        Bar { shown: None, terminal }
    }

    /// Told how far it is: the bytes read and, where it is known, the size of the file.
    pub(crate) fn show(&mut self, read: u64, size: Option<u64>) {
        if !self.terminal || (self.shown.is_none() && size.unwrap_or(read) < LARGE) {
            return;
        }
        let bar = self.shown.get_or_insert_with(|| {
            let bar = size.map_or_else(ProgressBar::no_length, ProgressBar::new);
            let look = "{bar:30} {bytes} of {total_bytes}, {eta} to go";
            let look = if size.is_some() { look } else { "{spinner} {bytes}" };
            // Without a valid look the plain bar stays, which is no harm.
            if let Ok(style) = ProgressStyle::with_template(look) {
                bar.set_style(style);
            }
            bar.enable_steady_tick(Duration::from_millis(200));
            bar
        });
        bar.set_position(read);
    }

    /// Takes it off the terminal.
    pub(crate) fn clear(&self) {
        if let Some(bar) = &self.shown {
            bar.finish_and_clear();
        }
    }
}

/// Work that takes longer is told of.
const LONG: Duration = Duration::from_secs(1);

/// Does `work`; on a terminal, where that takes over a second, with a sign that it goes on.
pub(crate) fn while_long<T>(terminal: bool, words: &'static str, work: impl FnOnce() -> T) -> T {
    if !terminal {
        return work();
    }
    let (done, waiting) = mpsc::channel::<()>();
    thread::scope(|scope| {
        // Without another thread the work is done untold.
        let _ = thread::Builder::new().spawn_scoped(scope, move || {
            if waiting.recv_timeout(LONG) == Err(RecvTimeoutError::Timeout) {
                let sign = ProgressBar::new_spinner().with_message(words);
                sign.enable_steady_tick(Duration::from_millis(200));
                let _ = waiting.recv();
                sign.finish_and_clear();
            }
        });
        let result = work();
        drop(done);
        result
    })
}
