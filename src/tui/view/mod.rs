//! The state, drawn.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::State;
use crate::theme::Theme;

/// Draws all of `state` into `area`.
pub fn view(state: &State, _theme: &Theme, area: Rect, buffer: &mut Buffer) {
    if let Some(message) = &state.message {
        buffer.set_stringn(
            area.x,
            area.y,
            &message.text,
            usize::from(area.width),
            ratatui::style::Style::new(),
        );
    }
}
