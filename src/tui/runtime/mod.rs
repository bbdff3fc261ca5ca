//! The only part that touches the terminal, the clock and signals, and through `files` the disk.

mod bearings;
mod canvas;
mod colours;
mod desk;
mod events;
mod opening;
#[cfg(unix)]
mod signals;
mod sittings;
mod terminal;
mod timers;
mod wire;
mod workers;

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::{Duration, Instant};

use anyhow::Context as _;
use jiff::Timestamp;
use ratatui::layout::Size;

use crate::glyphs::DotSet;
use crate::job::{Outcome, Ticket};
use crate::theme::{Colours, Theme, Tone};
use crate::{Command, Msg, State, update};
use canvas::Canvas;
use desk::Desk;
pub(crate) use desk::{middle, with_keys};
use opening::Opened;
use timers::Timers;
use workers::Workers;

/// The least time between two frames.
const FRAME: Duration = Duration::from_millis(8);

/// What the screen is started with.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// The chart's file; without one the chart of the last time, or the built-in one.
    pub chart: Option<PathBuf>,
    /// The route's file; without one the chart's own.
    pub route: Option<PathBuf>,
    /// A coach's exercise set, which is begun on its own chart; no chart or route is named with it.
    pub set: Option<PathBuf>,
    /// The user's keys; without one `keys.ron` in the configuration folder, if it is there.
    pub key_file: Option<PathBuf>,
    /// How many colours; without a word what the environment says.
    pub colours: Option<Colours>,
    /// Light on dark or dark on light.
    pub tone: Tone,
    /// What the chart is drawn with; without a word what was used the last time.
    pub dots: Option<DotSet>,
}

/// Something from outside.
#[cfg_attr(not(unix), allow(dead_code, reason = "signals come on Unix alone"))]
enum Event {
    /// Something for the state.
    Msg(Msg),
    /// The program is asked to stop for a while.
    Stop,
    /// The program goes on after it was stopped.
    Continue,
    /// The program is asked to end, by the signal of this number.
    End(i32),
    /// The terminal is gone.
    Lost(std::io::Error),
    /// Work has ended; nothing came of it if it was given up.
    Worked {
        /// Which request it answers.
        ticket: Ticket,
        /// What came of it.
        outcome: Option<Outcome>,
    },
    /// So many bytes of a shore are read, of as many as the file has.
    Opening {
        /// How many.
        read: u64,
        /// How many there are, if that is known.
        size: Option<u64>,
    },
    /// Chart and route are open, or why not.
    Opened(Box<anyhow::Result<(State, Desk)>>),
    /// Work has panicked, and this is what it said.
    Panicked(String),
}

/// Why the loop ended.
enum End {
    /// The reader left.
    Quit,
    /// A signal of this number.
    Signal(i32),
}

/// Runs the screen on the terminal until the reader leaves.
///
/// # Errors
/// When there is no terminal, when chart, route or keys cannot be read, and when the terminal is
/// lost. Whatever was done on the route is saved before.
pub fn run(options: &Options) -> anyhow::Result<()> {
    terminal::check()?;
    let theme = Theme::new(options.tone, options.colours.unwrap_or_else(colours::of_environment));
    let (sender, receiver) = channel();
    #[cfg(unix)]
    signals::listen(sender.clone()).context("cannot listen for signals")?;
    terminal::leave_on_panic();
    let _leaves = terminal::Leaves;
    let (mut state, desk) = match opening::open(options, &sender, &receiver)? {
        (Opened::All(opened), true) => *opened,
        (Opened::All(opened), false) => {
            terminal::enter()?;
            events::listen(sender.clone()).context("cannot listen to the terminal")?;
            *opened
        }
        (Opened::Nothing(end), _) => {
            terminal::leave();
            return ended(end, Ok(()));
        }
    };
    let workers = Workers::new(sender);
    let canvas = Canvas::new();
    let timers = Timers::new(Instant::now());
    let mut screen = Screen { state: &mut state, desk, theme, canvas, receiver, workers, timers };
    let end = screen.run();
    let kept = screen.finish();
    terminal::leave();
    ended(end?, kept)
}

/// Ends as the reader asked, or by the signal that came.
fn ended(end: End, kept: anyhow::Result<()>) -> anyhow::Result<()> {
    match end {
        End::Quit => kept,
        #[cfg(unix)]
        End::Signal(signal) => signals::die_of(signal),
        #[cfg(not(unix))]
        End::Signal(_) => kept,
    }
}

struct Screen<'a> {
    state: &'a mut State,
    desk: Desk,
    theme: Theme,
    canvas: Canvas,
    receiver: Receiver<Event>,
    workers: Workers,
    timers: Timers,
}

impl Screen<'_> {
    fn run(&mut self) -> anyhow::Result<End> {
        self.send(Msg::Resize(terminal::size()?))?;
        if let Some(plan) = self.desk.begins.take() {
            self.send(Msg::Practise(plan))?;
        }
        self.draw()?;
        let mut drawn = Instant::now();
        loop {
            let mut event = self.idle();
            // What comes in while the last frame is fresh shares the next one.
            while let Some(now) = event {
                if let Some(end) = self.take(now)? {
                    return Ok(end);
                }
                event = self.wait(FRAME.saturating_sub(drawn.elapsed()));
            }
            self.draw()?;
            drawn = Instant::now();
        }
    }

    /// The next event; what is due at its time, before events that would hold it up; or that work
    /// goes on for long.
    fn idle(&mut self) -> Option<Event> {
        let now = Instant::now();
        self.timers.play(self.state.moment.is_playing(), now);
        if let Some(due) = self.timers.due(now) {
            return Some(Event::Msg(due));
        }
        let next = self.timers.next_in(now);
        let event = self.wait(self.workers.slow_in().map_or(next, |slow| slow.min(next)));
        let now = Instant::now();
        if event.is_some() {
            self.timers.heard(now);
            return event;
        }
        self.workers.slow().or_else(|| self.timers.due(now)).map(Event::Msg)
    }

    /// The next event, if it comes soon enough.
    fn wait(&self, longest: Duration) -> Option<Event> {
        match self.receiver.recv_timeout(longest) {
            Ok(event) => Some(event),
            Err(RecvTimeoutError::Timeout) => None,
            // The thread that reads the terminal says why before it ends; this is after that.
            Err(RecvTimeoutError::Disconnected) => {
                Some(Event::Lost(std::io::ErrorKind::UnexpectedEof.into()))
            }
        }
    }

    fn take(&mut self, event: Event) -> anyhow::Result<Option<End>> {
        match event {
            Event::Msg(msg) => return self.send(msg),
            Event::Stop => terminal::suspend(),
            Event::Continue => {
                terminal::enter()?;
                self.canvas.forget();
                return self.send(Msg::Resize(terminal::size()?));
            }
            Event::End(signal) => return Ok(Some(End::Signal(signal))),
            Event::Lost(error) => return Err(error).context("the terminal is gone"),
            Event::Worked { ticket, outcome } => {
                self.workers.ended(ticket);
                if let Some(outcome) = outcome {
                    return self.send(Msg::Worked { ticket, outcome });
                }
            }
            Event::Panicked(said) => terminal::end_by_panic(&said),
            // What is opened is open before the loop begins.
            Event::Opening { .. } | Event::Opened(_) => {}
        }
        Ok(None)
    }

    fn send(&mut self, msg: Msg) -> anyhow::Result<Option<End>> {
        for command in update(self.state, msg) {
            let end = match command {
                Command::Save => {
                    let came_of_it = self.desk.save(self.state);
                    self.send(came_of_it)?
                }
                Command::PutCard(made) => {
                    let came_of_it = self.desk.put_card(made);
                    self.send(came_of_it)?
                }
                Command::Redraw => {
                    self.canvas.forget();
                    None
                }
                Command::Clock(wanted) => self.send(Msg::Clock(wanted, Timestamp::now()))?,
                Command::OpenRecord => {
                    let read = self.desk.open_record();
                    self.send(read)?
                }
                Command::KeepResult(answered) => {
                    let came_of_it = self.desk.keep_result(answered);
                    self.send(came_of_it)?
                }
                Command::KeepSession => {
                    // Leaving, it is tried again, and told if it fails then, too.
                    let _ = self.desk.keep_session(self.state);
                    None
                }
                Command::Suspend => {
                    terminal::suspend();
                    None
                }
                Command::Compute(job) => {
                    self.workers.begin(job).context("cannot begin the work")?;
                    None
                }
                Command::Abandon(task) => {
                    self.workers.give_up(task);
                    None
                }
                Command::Quit => Some(End::Quit),
            };
            if end.is_some() {
                return Ok(end);
            }
        }
        Ok(None)
    }

    fn draw(&mut self) -> anyhow::Result<()> {
        self.canvas.draw(self.state, &self.theme).context("cannot draw on the terminal")
    }

    /// Saves what is not, and where the reader left off.
    fn finish(&mut self) -> anyhow::Result<()> {
        if !self.state.is_saved() {
            let came_of_it = self.desk.save(self.state);
            update(self.state, came_of_it);
        }
        self.desk.keep_session(self.state)
    }
}

/// The size of a screen, as the terminal gives it.
fn size_of((width, height): (u16, u16)) -> Size {
    Size { width, height }
}
