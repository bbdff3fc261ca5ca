//! Opening what may take long, a shore of a whole continent: beside the screen, which says how far
//! it is and gives it up on Esc.

use std::io::{Write, stdout};
use std::ops::ControlFlow;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender};
use std::thread;
use std::time::{Duration, Instant};

use anyhow::{Context as _, anyhow};
use ratatui::crossterm::cursor::MoveTo;
use ratatui::crossterm::queue;
use ratatui::crossterm::style::Print;
use ratatui::crossterm::terminal::{Clear, ClearType};

use super::desk::{self, Desk};
use super::{End, Event, Options, events, terminal, workers};
use crate::action::{Act, Context, Keymap};
use crate::{Msg, State};

/// An opening that is done so soon is not told of.
const SOON: Duration = Duration::from_millis(300);

/// How often it is told how far it is.
const TELL: Duration = Duration::from_millis(100);

/// What was opened, or why the program ends before.
pub(super) enum Opened {
    /// Chart, route and where the reader left off.
    All(Box<(State, Desk)>),
    /// Nothing: the reader gave it up, or a signal came.
    Nothing(End),
}

/// Opens chart and route on a thread of its own. The terminal is taken, and listened to, only if
/// that takes long; whether it was is told.
///
/// # Errors
/// When they cannot be opened, and when the terminal is gone.
pub(super) fn open(
    options: &Options,
    sender: &Sender<Event>,
    receiver: &Receiver<Event>,
) -> anyhow::Result<(Opened, bool)> {
    let given_up = Arc::new(AtomicBool::new(false));
    begin(options.clone(), sender.clone(), Arc::clone(&given_up))?;
    let mut last = None;
    let mut taken = false;
    let since = Instant::now();
    let mut end = End::Quit;
    loop {
        let wait = if taken { TELL } else { SOON.saturating_sub(since.elapsed()) };
        match receiver.recv_timeout(wait) {
            Ok(Event::Opened(opened)) if given_up.load(Ordering::Relaxed) => {
                drop(opened);
                return Ok((Opened::Nothing(end), taken));
            }
            Ok(Event::Opened(opened)) => return Ok((Opened::All(Box::new((*opened)?)), taken)),
            Ok(Event::Opening { read, size }) => last = Some((read, size)),
            Ok(Event::Panicked(said)) => terminal::end_by_panic(&said),
            Ok(Event::Lost(error)) => return Err(error).context("the terminal is gone"),
            Ok(Event::End(signal)) => {
                end = End::Signal(signal);
                given_up.store(true, Ordering::Relaxed);
            }
            Ok(Event::Msg(Msg::Key(key))) if gives_up(key) => {
                given_up.store(true, Ordering::Relaxed);
            }
            Ok(_) => {}
            Err(RecvTimeoutError::Timeout) if !taken => {
                terminal::enter()?;
                events::listen(sender.clone()).context("cannot listen to the terminal")?;
                taken = true;
                tell(last, false)?;
            }
            Err(RecvTimeoutError::Timeout) => tell(last, given_up.load(Ordering::Relaxed))?,
            Err(RecvTimeoutError::Disconnected) => return Err(anyhow!("nothing was opened")),
        }
    }
}

/// Whether a key leaves or steps back: by the table's own keys, since the user's are not read yet.
fn gives_up(key: crate::action::Key) -> bool {
    let act = Keymap::standard().ok().and_then(|keys| keys.act(Context::Look, key));
    matches!(act, Some(Act::Back | Act::Quit | Act::QuitAnywhere))
}

fn begin(
    options: Options,
    sender: Sender<Event>,
    given_up: Arc<AtomicBool>,
) -> std::io::Result<()> {
    let opening = move || {
        let mut told = Instant::now();
        let mut progress = |read: u64, size: Option<u64>| {
            if given_up.load(Ordering::Relaxed) {
                return ControlFlow::Break(());
            }
            if told.elapsed() >= TELL {
                told = Instant::now();
                let _ = sender.send(Event::Opening { read, size });
            }
            ControlFlow::Continue(())
        };
        workers::keep_panics();
        let opened = catch_unwind(AssertUnwindSafe(|| desk::open(&options, &mut progress)));
        let event = match opened {
            Ok(opened) => Event::Opened(Box::new(opened)),
            Err(_) => Event::Panicked(workers::said()),
        };
        // Nobody listening means that the program is leaving.
        let _ = sender.send(event);
    };
    thread::Builder::new().name("opening".to_owned()).spawn(opening)?;
    Ok(())
}

/// Says how far the opening is, in the middle of an empty screen.
fn tell(last: Option<(u64, Option<u64>)>, given_up: bool) -> anyhow::Result<()> {
    let size = terminal::size()?;
    let megabytes = |bytes: u64| bytes as f64 / 1e6;
    let words = match last {
        Some((read, Some(size))) if read < size => format!(
            "Reading the shore: {:.0} %, {:.0} of {:.0} MB",
            100.0 * megabytes(read) / megabytes(size),
            megabytes(read),
            megabytes(size)
        ),
        Some((_, Some(_))) => "Making the shore ready".to_owned(),
        Some((read, None)) => format!("Reading the shore: {:.0} MB", megabytes(read)),
        None => "Opening".to_owned(),
    };
    let mut out = stdout();
    queue!(out, Clear(ClearType::All))?;
    let row = size.height.saturating_sub(2) / 2;
    // Work on its way to the cache is not cut short: no half file stays there.
    let below = if given_up { "given up as soon as it can be" } else { "Esc gives it up" };
    for (row, line) in [(row, words.as_str()), (row + 1, below)] {
        let fits: String = line.chars().take(usize::from(size.width)).collect();
        let left = size.width.saturating_sub(fits.chars().count() as u16) / 2;
        queue!(out, MoveTo(left, row), Print(fits))?;
    }
    out.flush()?;
    Ok(())
}
