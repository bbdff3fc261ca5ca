//! The styles of everything that is written beside and over the chart, by what they are for.

use ratatui::style::{Modifier, Style};

use crate::theme::{Role, Theme};

/// A theme's styles for words.
#[derive(Debug, Clone, Copy)]
pub(super) struct Inks {
    /// What is read.
    pub(super) plain: Style,
    /// The figures that go on a card.
    pub(super) figure: Style,
    /// What goes without saying: rules, labels, units in headings.
    pub(super) quiet: Style,
    /// The name of a pane, a box, a group.
    pub(super) heading: Style,
    /// A key to press.
    pub(super) key: Style,
    /// The row that is chosen.
    pub(super) chosen: Style,
    /// A word of caution.
    pub(super) warn: Style,
    /// What is wrong or could not be done.
    pub(super) wrong: Style,
    /// What goes with the group, or is as it should be.
    pub(super) with: Style,
    /// What goes against it.
    pub(super) against: Style,
    /// What goes across, and water.
    pub(super) across: Style,
    /// What takes longer.
    pub(super) slow: Style,
    /// The right answer, as on the chart.
    pub(super) answer: Style,
    /// The reader's own answer, as on the chart.
    pub(super) yours: Style,
    /// The border of a box.
    pub(super) frame: Style,
}

impl Inks {
    pub(super) fn new(theme: &Theme) -> Inks {
        Inks {
            plain: theme.style(Role::Text),
            figure: theme.style(Role::Figure),
            quiet: theme.style(Role::Dim),
            heading: theme.style(Role::Heading),
            key: theme.style(Role::Key),
            chosen: theme.chosen(),
            warn: theme.style(Role::Warn),
            wrong: theme.style(Role::Error),
            with: theme.style(Role::Landing),
            against: theme.style(Role::Warn),
            across: theme.style(Role::WaterName).remove_modifier(Modifier::ITALIC),
            slow: theme.style(Role::Mark),
            answer: theme.style(Role::Answer),
            yours: theme.style(Role::Yours),
            frame: theme.style(Role::Frame),
        }
    }
}
