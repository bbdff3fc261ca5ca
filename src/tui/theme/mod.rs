//! What things look like, by the part that they play: no other module names a colour.

mod palette;

#[cfg(test)]
mod tests;

pub use palette::Role;
pub(crate) use palette::shown;

use ratatui::style::{Color, Modifier, Style};

/// How many colours the terminal shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Colours {
    /// Any.
    #[default]
    True,
    /// The 256 of the indexed palette.
    Indexed,
    /// The terminal's own sixteen.
    Sixteen,
    /// One; weight and texture alone tell things apart.
    None,
}

/// Light ink on a dark ground, or dark ink on paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Tone {
    /// For a room in the evening.
    #[default]
    Dark,
    /// For daylight.
    Paper,
}

/// What the ground or the water is, as the chart colours it; the later covers the earlier.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Ground {
    /// Deep water.
    Deep,
    /// Water of five to ten metres.
    Moderate,
    /// Water of two to five metres.
    Shallow,
    /// Water of less than two metres.
    Shoal,
    /// Ground that dries.
    Drying,
    /// Land.
    Land,
}

impl Ground {
    /// All of them, the deepest first.
    pub const ALL: [Ground; 6] = [
        Ground::Deep,
        Ground::Moderate,
        Ground::Shallow,
        Ground::Shoal,
        Ground::Drying,
        Ground::Land,
    ];
}

/// The looks of everything on the screen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Theme {
    colours: Colours,
    tone: Tone,
}

impl Default for Theme {
    fn default() -> Theme {
        Theme::new(Tone::default(), Colours::default())
    }
}

impl Theme {
    /// The theme of a tone for a terminal of so many colours.
    #[must_use]
    pub fn new(tone: Tone, colours: Colours) -> Theme {
        Theme { colours, tone }
    }

    /// How many colours it uses.
    #[must_use]
    pub fn colours(&self) -> Colours {
        self.colours
    }

    /// Its tone.
    #[must_use]
    pub fn tone(&self) -> Tone {
        self.tone
    }

    /// The ink of a role, without a ground: what it is written on shines through.
    #[must_use]
    pub fn ink(&self, role: Role) -> Style {
        let look = palette::look(role, self.tone);
        let style = Style::new().add_modifier(look.weight);
        match self.colours {
            Colours::None => style.add_modifier(look.weight_alone),
            Colours::Sixteen => style.fg(look.sixteen),
            Colours::Indexed => style.fg(palette::indexed(look.ink)),
            Colours::True => style.fg(palette::rgb(look.ink)),
        }
    }

    /// The style of a role away from the chart: its ink on the page.
    #[must_use]
    pub fn style(&self, role: Role) -> Style {
        self.ink(role).bg(self.page())
    }

    /// The colour of the screen behind everything that is not chart.
    #[must_use]
    pub fn page(&self) -> Color {
        let page = palette::page(self.tone);
        match self.colours {
            Colours::True => palette::rgb(page.tint),
            Colours::Indexed => Color::Indexed(page.indexed),
            Colours::Sixteen | Colours::None => Color::Reset,
        }
    }

    /// The style of a row or word that is chosen: readable on any terminal.
    #[must_use]
    pub fn chosen(&self) -> Style {
        let page = palette::chosen(self.tone);
        let ink = self.ink(Role::Text).add_modifier(Modifier::BOLD);
        match self.colours {
            Colours::True => ink.bg(palette::rgb(page.tint)),
            Colours::Indexed => ink.bg(Color::Indexed(page.indexed)),
            Colours::Sixteen | Colours::None => Style::new().add_modifier(Modifier::REVERSED),
        }
    }

    /// The tint under a kind of ground.
    #[must_use]
    pub fn tint(&self, ground: Ground) -> Color {
        let look = palette::ground(ground, self.tone);
        match self.colours {
            Colours::True => palette::rgb(look.tint),
            Colours::Indexed => Color::Indexed(look.indexed),
            Colours::Sixteen | Colours::None => Color::Reset,
        }
    }

    /// The ink of the texture of a kind of ground.
    #[must_use]
    pub fn texture(&self, ground: Ground) -> Style {
        let look = palette::ground(ground, self.tone);
        match self.colours {
            Colours::True => Style::new().fg(palette::rgb(look.texture)),
            Colours::Indexed => Style::new().fg(palette::indexed(look.texture)),
            Colours::Sixteen => Style::new().fg(look.sixteen),
            Colours::None => Style::new().add_modifier(Modifier::DIM),
        }
    }
}
