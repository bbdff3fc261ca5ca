//! Taking the terminal and giving it back: one way in, one way out.

use std::io::{IsTerminal, Write, stderr, stdin, stdout};
use std::panic;
use std::sync::atomic::{AtomicBool, Ordering};

use anyhow::{Context as _, bail};
use ratatui::crossterm::cursor::{Hide, Show};
use ratatui::crossterm::event::{
    DisableBracketedPaste, DisableFocusChange, DisableMouseCapture, EnableBracketedPaste,
    EnableFocusChange, EnableMouseCapture,
};
use ratatui::crossterm::style::{ResetColor, force_color_output};
use ratatui::crossterm::terminal::{
    self, DisableLineWrap, EnableLineWrap, EndSynchronizedUpdate, EnterAlternateScreen,
    LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};
use ratatui::crossterm::{execute, queue};
use ratatui::layout::Size;

use super::workers;

/// How a program ends that has panicked.
const PANIC: i32 = 101;

/// Whether the terminal is ours at the moment.
static OURS: AtomicBool = AtomicBool::new(false);

/// Gives the terminal back when it goes out of scope, whichever way.
pub(super) struct Leaves;

impl Drop for Leaves {
    fn drop(&mut self) {
        leave();
    }
}

/// Whether there is a terminal to draw on and to read keys from.
pub(super) fn check() -> anyhow::Result<()> {
    if !stdout().is_terminal() || !stdin().is_terminal() {
        bail!(
            "there is no terminal to draw on; `strandline screen` draws without one, and \
             `strandline --help` lists the commands that need none"
        );
    }
    Ok(())
}

/// The size of the terminal; none at all if it does not say.
pub(super) fn size() -> anyhow::Result<Size> {
    Ok(super::size_of(terminal::size().context("the terminal does not say its size")?))
}

/// Takes the terminal.
pub(super) fn enter() -> anyhow::Result<()> {
    // The theme alone decides about colour: left to itself, crossterm would answer `NO_COLOR`
    // with resets that take bold and reverse away too.
    force_color_output(true);
    enable_raw_mode().context("cannot take the terminal")?;
    OURS.store(true, Ordering::SeqCst);
    execute!(
        stdout(),
        EnterAlternateScreen,
        DisableLineWrap,
        Hide,
        EnableMouseCapture,
        EnableBracketedPaste,
        EnableFocusChange
    )
    .context("cannot take the terminal")
}

/// Gives the terminal back as it was: on leaving, on an error, in a panic, before stopping.
/// A terminal that is gone takes no answer, so nothing here can fail.
pub(super) fn leave() {
    if !OURS.swap(false, Ordering::SeqCst) {
        return;
    }
    let mut out = stdout();
    let _ = queue!(
        out,
        EndSynchronizedUpdate,
        DisableFocusChange,
        DisableBracketedPaste,
        DisableMouseCapture,
        ResetColor,
        Show,
        EnableLineWrap,
        LeaveAlternateScreen
    );
    let _ = out.flush();
    let _ = disable_raw_mode();
}

/// Gives the terminal back to the shell and stops until the program is continued, which comes
/// back as an event of its own.
pub(super) fn suspend() {
    leave();
    #[cfg(unix)]
    super::signals::stop();
}

/// Makes a panic on any thread give the terminal back, say what it says, and end the program.
/// Everything done before is on disk. One of a worker is sent to the loop, which ends the same way.
pub(super) fn leave_on_panic() {
    let say = panic::take_hook();
    panic::set_hook(Box::new(move |info| {
        if workers::keep_panic(&info.to_string()) {
            return;
        }
        leave();
        say(info);
        std::process::exit(PANIC);
    }));
}

/// Ends the program for a panic on another thread, which said this.
pub(super) fn end_by_panic(said: &str) -> ! {
    leave();
    // Standard error may be gone with the terminal.
    let _ = writeln!(stderr(), "a worker {said}");
    std::process::exit(PANIC);
}
