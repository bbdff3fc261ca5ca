//! Signals, as events.

use std::io;
use std::sync::mpsc::Sender;
use std::thread;

use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGTSTP};
use signal_hook::iterator::Signals;
use signal_hook::low_level::emulate_default_handler;

use super::Event;

/// Sends an event for every signal that concerns the terminal or asks the program to end.
pub(super) fn listen(sender: Sender<Event>) -> io::Result<()> {
    let mut signals = Signals::new([SIGTERM, SIGHUP, SIGINT, SIGQUIT, SIGTSTP, SIGCONT])?;
    thread::Builder::new().name("signals".to_owned()).spawn(move || {
        for signal in signals.forever() {
            let event = match signal {
                SIGTSTP => Event::Stop,
                SIGCONT => Event::Continue,
                end => Event::End(end),
            };
            if sender.send(event).is_err() {
                return;
            }
        }
    })?;
    Ok(())
}

/// Stops the program as if it had not asked for the signal. Returns when it is continued.
pub(super) fn stop() {
    let _ = emulate_default_handler(SIGTSTP);
}

/// Ends the program by a signal, so that who sent it sees that it was obeyed.
pub(super) fn die_of(signal: i32) -> anyhow::Result<()> {
    emulate_default_handler(signal).map_err(Into::into)
}
