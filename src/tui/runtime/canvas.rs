//! What stands on the terminal, and the least that makes it what it should be.

use std::io::{self, BufWriter, Stdout, Write, stdout};

use ratatui::backend::{Backend, CrosstermBackend};
use ratatui::buffer::Buffer;
use ratatui::crossterm::queue;
use ratatui::crossterm::terminal::{BeginSynchronizedUpdate, EndSynchronizedUpdate};
use ratatui::layout::Rect;

use crate::theme::Theme;
use crate::{State, view};

/// The terminal's cells as they were last drawn.
///
/// Ratatui's own terminal asks for the cursor's position when it clears, and the answer would go
/// to the thread that reads keys; this one never asks anything.
pub(super) struct Canvas {
    backend: CrosstermBackend<BufWriter<Stdout>>,
    shown: Option<Buffer>,
}

impl Canvas {
    pub(super) fn new() -> Canvas {
        let room = 64 * 1024;
        Canvas {
            backend: CrosstermBackend::new(BufWriter::with_capacity(room, stdout())),
            shown: None,
        }
    }

    /// Forgets what stands on the terminal: the next frame is drawn whole.
    pub(super) fn forget(&mut self) {
        self.shown = None;
    }

    /// Draws `state`, sending only the cells that are not as they should be.
    pub(super) fn draw(&mut self, state: &State, theme: &Theme) -> io::Result<()> {
        let area = Rect::new(0, 0, state.size.width, state.size.height);
        let mut next = Buffer::empty(area);
        view(state, theme, area, &mut next);
        let shown = self.shown.take().filter(|shown| shown.area == area);
        let whole = shown.is_none();
        let shown = shown.unwrap_or_else(|| Buffer::empty(area));
        let changed = shown.diff(&next);
        if whole || !changed.is_empty() {
            queue!(self.backend, BeginSynchronizedUpdate)?;
            if whole {
                self.backend.clear()?;
            }
            self.backend.draw(changed.into_iter())?;
            queue!(self.backend, EndSynchronizedUpdate)?;
            Write::flush(&mut self.backend)?;
        }
        self.shown = Some(next);
        Ok(())
    }
}
