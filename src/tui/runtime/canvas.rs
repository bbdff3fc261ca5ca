//! What stands on the terminal, and the least that makes it what it should be.

use std::io::{self, Stdout, Write, stdout};

use chart::{Point, View};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::wire::{Shift, Wire};
use crate::draw::Drawer;
use crate::theme::Theme;
use crate::{State, view};

/// The terminal's cells as they were last drawn.
///
/// Ratatui's own terminal asks for the cursor's position when it clears, and the answer would go
/// to the thread that reads keys; this one never asks anything.
pub(super) struct Canvas {
    out: Stdout,
    wire: Wire,
    /// What stands on the terminal, unless that is not known.
    shown: Buffer,
    is_known: bool,
    /// Where on the screen the chart was drawn, and the view of it.
    looked: (Rect, View),
    /// The room in which the next frame is drawn.
    next: Buffer,
    drawer: Drawer,
}

impl Canvas {
    pub(super) fn new() -> Canvas {
        Canvas {
            out: stdout(),
            wire: Wire::default(),
            shown: Buffer::default(),
            is_known: false,
            looked: (Rect::default(), View::new(Point::zero(), 1.0)),
            next: Buffer::default(),
            drawer: Drawer::default(),
        }
    }

    /// Forgets what stands on the terminal: the next frame is drawn whole.
    pub(super) fn forget(&mut self) {
        self.is_known = false;
    }

    /// Draws `state`, sending only the cells that are not as they should be.
    pub(super) fn draw(&mut self, state: &State, theme: &Theme) -> io::Result<()> {
        let area = Rect::new(0, 0, state.size.width, state.size.height);
        self.next.resize(area);
        self.next.reset();
        view(state, theme, area, &mut self.next, &mut self.drawer);
        let whole = !self.is_known || self.shown.area != area;
        if whole {
            self.shown.resize(area);
            self.shown.reset();
        }
        let looked = (state.layout().sea(), state.view);
        let shift = shift(std::mem::replace(&mut self.looked, looked), looked);
        let bytes = self.wire.frame(whole, &self.shown, &self.next, shift.filter(|_| !whole));
        // Whatever of a frame does not arrive, the next one starts afresh.
        self.is_known = false;
        if !bytes.is_empty() {
            self.out.write_all(bytes)?;
            self.out.flush()?;
        }
        std::mem::swap(&mut self.shown, &mut self.next);
        self.is_known = true;
        Ok(())
    }
}

/// How the chart moved on the screen from one view to the next, if by whole cells.
pub(super) fn shift((before, from): (Rect, View), (area, to): (Rect, View)) -> Option<Shift> {
    if before != area || from.metres_per_column != to.metres_per_column {
        return None;
    }
    let columns = (to.centre.x - from.centre.x) / to.metres_per_column;
    let rows = (from.centre.y - to.centre.y) / to.metres_per_row();
    let whole = |cells: f64| cells.abs() < 1e4 && (cells - cells.round()).abs() < 1e-6;
    let moved = whole(columns) && whole(rows) && (columns.abs() >= 0.5 || rows.abs() >= 0.5);
    moved.then(|| Shift { area, columns: columns.round() as i32, rows: rows.round() as i32 })
}
