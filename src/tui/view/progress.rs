//! How practice has gone: the skills in a list, the chosen one plotted over time, its kinds of exercise, and what recurs.

mod below;
mod list;
mod plot;

use practice::memory::{Progress, Weakness};
use practice::{Kind, Skill};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::ink::Pen;
use super::inks::Inks;
use super::overlay::frame;
use crate::action::Act;
use crate::glyphs::DotSet;
use crate::layout::{OverlayLayout, ProgressParts};
use crate::state::{ProgressPage, State};

pub(super) fn draw(
    state: &State,
    open: &ProgressPage,
    parts: &OverlayLayout,
    inks: &Inks,
    buffer: &mut Buffer,
) {
    let progress = &*open.progress;
    let foot = state.practice.not_kept.as_ref().map(|why| format!("not kept: {why}"));
    let foot = foot.as_deref().unwrap_or("Esc closes");
    frame(parts.area, "How practice has gone", foot, inks, buffer);
    if progress.all.answered == 0 {
        return nothing_yet(state, parts.rows, inks, buffer);
    }
    let Some((skill, gone)) = progress.row(open.row) else { return };
    let sheet = Sheet { progress, skill, plain: state.settings.dots == DotSet::Ascii, inks };
    let of = ProgressParts::of(parts.rows, progress.rows());
    list::draw(&sheet, open.row, &of, buffer);
    plot::draw(&sheet, gone, &of, buffer);
    below::draw(&sheet, &of, buffer);
}

/// What a page without answers says.
fn nothing_yet(state: &State, area: Rect, inks: &Inks, buffer: &mut Buffer) {
    let key = |act| state.keymap.shown(act).unwrap_or_default();
    let mut pen = Pen::new(buffer, area);
    pen.words("Nothing is practised yet.", inks.heading);
    pen.down();
    let begin = format!(
        "{} shows what can be practised, and {} begins ten minutes of it.",
        key(Act::DrillList),
        key(Act::Accept)
    );
    pen.words(&begin, inks.plain);
    pen.down();
    pen.words(
        "Each answer is kept. Then this page shows how each skill goes from week to week, when it comes back, and \
         which mistake recurs.",
        inks.plain,
    );
}

/// What the page is drawn with.
struct Sheet<'a> {
    progress: &'a Progress,
    /// The chosen skill; nothing for all together.
    skill: Option<Skill>,
    /// Whether only characters of every keyboard are there.
    plain: bool,
    inks: &'a Inks,
}

impl Sheet<'_> {
    /// The chosen skill's kinds as one learns them; of all together those that come next.
    fn kinds(&self) -> Vec<Kind> {
        match self.skill {
            None => self.progress.schedule.in_turn().iter().map(|item| item.kind).collect(),
            Some(skill) => Kind::ALL.iter().copied().filter(|kind| kind.skill() == skill).collect(),
        }
    }

    fn recurs(&self) -> impl Iterator<Item = &Weakness> {
        let wanted = |it: &&Weakness| self.skill.is_none_or(|skill| skill == it.skill);
        self.progress.weaknesses.iter().filter(wanted)
    }
}
