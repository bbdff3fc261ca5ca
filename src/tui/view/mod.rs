//! The state, drawn. Nothing here changes it, and nothing here can fail.

mod ascii;
mod chart;
mod curve;
mod drill;
mod fix;
mod fold;
mod folded;
mod foot;
mod ink;
mod inks;
mod legs;
mod line;
mod near;
mod overlay;
mod panes;
mod plot;
mod progress;
mod readings;
mod sailed;
mod small;
mod starts;
mod strip;
mod thread;
mod water;

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

pub(crate) use drill::{
    choice_at as drill_choice_at, given as drill_given, is_answer as drill_is_answer,
    last_top as drill_last_top, page_rows as drill_page_rows, rows_wanted as drill_rows,
};
pub(crate) use overlay::{drills_row_at, help_last_top};
pub(crate) use readings::reference;
pub(crate) use strip::place_at as strip_place;

use crate::State;
use crate::draw::Drawer;
use crate::glyphs::DotSet;
use crate::layout::Shape;
use crate::state::Hand;
use crate::theme::Theme;
use inks::Inks;
use readings::Readings;

/// Draws all of `state` into `area`, which is the whole screen.
pub fn view(state: &State, theme: &Theme, area: Rect, buffer: &mut Buffer, drawer: &mut Drawer) {
    let inks = Inks::new(theme);
    let layout = state.layout();
    let area = area.intersection(buffer.area);
    buffer.set_style(area, inks.plain);
    if layout.shape == Shape::TooSmall {
        small::draw(area, &inks, buffer);
    } else {
        whole(state, theme, &inks, buffer, drawer);
    }
    if state.settings.dots == DotSet::Ascii {
        ascii::plain(area, buffer);
    }
}

/// Draws a screen that is large enough for a chart.
fn whole(state: &State, theme: &Theme, inks: &Inks, buffer: &mut Buffer, drawer: &mut Drawer) {
    let layout = state.layout();
    chart::draw(state, theme, buffer, drawer);
    if state.hand == Hand::Drill {
        // What is read off would answer for the reader.
        drill::draw(state, inks, buffer);
        foot::notice(state, &Readings::default(), inks, buffer);
        foot::hints(state, inks, buffer);
        return overlay::draw(state, &Readings::default(), inks, buffer);
    }
    let readings = readings::readings(state);
    if layout.shape.has_column() {
        panes::draw(state, &readings, inks, buffer);
        if let Some(water) = &readings.water {
            water::draw(state, water, inks, buffer);
        }
        legs::draw(state, &readings, inks, buffer);
        foot::notice(state, &readings, inks, buffer);
    } else {
        folded::draw(state, &readings, inks, buffer);
    }
    strip::draw(state, inks, buffer);
    foot::hints(state, inks, buffer);
    overlay::draw(state, &readings, inks, buffer);
}

#[cfg(test)]
mod tests;
