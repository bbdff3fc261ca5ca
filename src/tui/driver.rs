//! The screen without a terminal: keys in, a buffer or text out.

use std::sync::Arc;

use jiff::{SignedDuration, Timestamp};
use practice::memory::Record;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::action::{ScriptError, Step, script};
use crate::draw::Drawer;
use crate::job::{Made, Unwatched};
use crate::theme::Theme;
use crate::{Command, Gesture, Msg, Pointer, State, update, view};

/// Drives a state by keys and pointer. What would be saved is taken as saved, and what would be
/// done beside the loop is done at once.
#[derive(Debug, Clone)]
pub struct Driver {
    /// The state as it stands.
    pub state: State,
    /// Whether the program was left.
    pub left: bool,
    /// How often the route would have been saved.
    pub saves: usize,
    /// The card that would have been put on disk last.
    pub card: Option<Made>,
    /// What was answered in practice, as it would be on disk.
    pub record: Record,
    /// Why what is answered is not kept; nothing if it is.
    pub not_kept: Option<String>,
    /// How often the session would have been kept.
    pub sessions: usize,
    /// What the clock says next.
    pub clock: Timestamp,
}

/// By how much the clock goes on each time that it is looked at.
const GOES_ON: SignedDuration = SignedDuration::from_secs(20);

impl Driver {
    /// A driver of `state`.
    pub fn new(state: State) -> Driver {
        let (size, clock) = (state.size, state.moment.started());
        let mut driver = Driver {
            state,
            left: false,
            saves: 0,
            card: None,
            record: Record::default(),
            not_kept: None,
            sessions: 0,
            clock,
        };
        // The runtime begins with the size of its terminal, too.
        driver.send(Msg::Resize(size));
        driver
    }

    /// Does what a script of keys says, as [`script`] reads it, until the program is left.
    ///
    /// # Errors
    /// [`ScriptError`] when it is none; then nothing is done.
    pub fn keys(&mut self, text: &str) -> Result<&mut Driver, ScriptError> {
        for step in script(text)? {
            match step {
                Step::Key(key) => self.send(Msg::Key(key)),
                Step::Drag(from, to) => {
                    self.point(Gesture::Press, from);
                    self.point(Gesture::Drag, to);
                    self.point(Gesture::Release, to);
                }
                Step::Hover(at) => self.point(Gesture::Hover, at),
                Step::Wheel(at, true) => self.point(Gesture::WheelUp, at),
                Step::Wheel(at, false) => self.point(Gesture::WheelDown, at),
            }
        }
        Ok(self)
    }

    /// Lets something happen, unless the program was left.
    pub fn send(&mut self, msg: Msg) {
        if self.left {
            return;
        }
        for command in update(&mut self.state, msg) {
            match command {
                Command::Save => {
                    self.saves += 1;
                    self.send(Msg::Saved);
                }
                Command::PutCard(made) => {
                    let (size, sides) = (made.size, made.sides);
                    self.card = Some(made);
                    self.send(Msg::CardPut { path: "card.pdf".to_owned(), size, sides });
                }
                Command::Quit => self.left = true,
                Command::Compute(job) => {
                    let ticket = job.ticket();
                    if let Some(outcome) = job.run(&Unwatched) {
                        self.send(Msg::Worked { ticket, outcome });
                    }
                }
                // Nothing is left to end: work is done where it is asked for.
                Command::Abandon(_) => {}
                Command::Clock(wanted) => {
                    let now = self.clock;
                    self.clock = now.saturating_add(GOES_ON).unwrap_or(now);
                    self.send(Msg::Clock(wanted, now));
                }
                Command::OpenRecord => {
                    self.send(Msg::Record(Ok(Arc::new(self.record.clone()))));
                }
                Command::KeepResult(answered) => {
                    let kept = self.record.keep(answered);
                    self.send(match &self.not_kept {
                        None if kept => Msg::ResultKept(Arc::new(self.record.clone())),
                        why => Msg::ResultNotKept(why.clone().unwrap_or_default()),
                    });
                }
                Command::KeepSession => self.sessions += 1,
                Command::Redraw | Command::Suspend => {}
            }
        }
    }

    fn point(&mut self, what: Gesture, (column, row): (u16, u16)) {
        self.send(Msg::Pointer(Pointer { what, column, row }));
    }

    /// The screen as it would be drawn.
    pub fn buffer(&self, theme: &Theme) -> Buffer {
        let area = Rect::new(0, 0, self.state.size.width, self.state.size.height);
        let mut buffer = Buffer::empty(area);
        view(&self.state, theme, area, &mut buffer, &mut Drawer::default());
        buffer
    }
}
