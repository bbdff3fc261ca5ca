//! The help overlay: everything that can be done, by group, in as many columns as there is room for.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::super::ink::{self, Pen};
use super::super::inks::Inks;
use super::frame;
use crate::action::{Action, Group, Keymap, table};
use crate::layout::OverlayLayout;
use crate::state::State;

/// What the program is for, and what not.
const ABOUT: &str = "For planning and teaching: not for navigation.";

/// The columns that keys take, with the gap behind them.
const KEYS: u16 = 25;
/// The least width of a column of help.
const COLUMN: u16 = 84;
/// The gap between two columns of help.
const GAP: u16 = 4;

/// A line of help.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Line {
    Blank,
    Heading(&'static str),
    /// Keys, or nothing in a line that goes on; then words.
    Entry(String, String),
    /// Words across the whole column.
    Words(String),
}

pub(super) fn draw(
    state: &State,
    top: usize,
    parts: &OverlayLayout,
    inks: &Inks,
    buffer: &mut Buffer,
) {
    let columns = columns(&state.keymap, parts.rows.width);
    let rows = usize::from(parts.rows.height);
    let longest = columns.iter().map(Vec::len).max().unwrap_or(0);
    let top = top.min(longest.saturating_sub(rows));
    let foot = match longest > rows {
        true => format!(
            "{} to {} of {longest} · Up, Down · Esc closes",
            top + 1,
            (top + rows).min(longest)
        ),
        false => "Esc closes".to_owned(),
    };
    frame(parts.area, "Everything that can be done", &foot, inks, buffer);
    Pen::new(buffer, parts.note).write(ABOUT, inks.warn);
    let width = column_width(parts.rows.width);
    for (index, lines) in columns.iter().enumerate() {
        let left = u16::try_from(index).unwrap_or(u16::MAX).saturating_mul(width + GAP);
        let area = Rect { x: parts.rows.x.saturating_add(left), width, ..parts.rows };
        let mut pen = Pen::new(buffer, area);
        for line in lines.iter().skip(top).take(rows) {
            write(&mut pen, line, inks);
        }
    }
}

/// The last row of help that can stand at the top of its box.
pub(crate) fn last_top(keymap: &Keymap, rows: Rect) -> usize {
    let longest = columns(keymap, rows.width).iter().map(Vec::len).max().unwrap_or(0);
    longest.saturating_sub(usize::from(rows.height))
}

fn write(pen: &mut Pen<'_>, line: &Line, inks: &Inks) {
    match line {
        Line::Blank => {}
        Line::Heading(title) => {
            pen.write(title, inks.heading).skip(1).rule("─", inks.quiet);
        }
        Line::Entry(keys, words) => {
            pen.skip(1).write(keys, inks.key).to(KEYS).write(words, inks.plain);
        }
        Line::Words(words) => {
            pen.skip(1).write(words, inks.plain);
        }
    }
    pen.down();
}

fn column_count(width: u16) -> u16 {
    ((width + GAP) / (COLUMN + GAP)).max(1)
}

fn column_width(width: u16) -> u16 {
    let count = column_count(width);
    (width - GAP * (count - 1)) / count
}

/// The help in columns of about one length; a group is never torn.
fn columns(keymap: &Keymap, width: u16) -> Vec<Vec<Line>> {
    let column = column_width(width);
    let mut groups: Vec<Vec<Line>> = Group::ALL
        .into_iter()
        .map(|group| lines(group, keymap, column.saturating_sub(KEYS)))
        .collect();
    groups.push(about(column.saturating_sub(1)));
    let total: usize = groups.iter().map(|lines| lines.len() + 1).sum();
    let share = total.div_ceil(usize::from(column_count(width)));
    let mut columns = vec![Vec::new()];
    for group in groups {
        let full = columns.len() < usize::from(column_count(width))
            && columns.last().is_some_and(|last: &Vec<Line>| last.len() + group.len() / 2 > share);
        if full {
            columns.push(Vec::new());
        }
        if let Some(last) = columns.last_mut() {
            if !last.is_empty() {
                last.push(Line::Blank);
            }
            last.extend(group);
        }
    }
    columns
}

/// What comes behind the actions: the program's name and the whole caution.
fn about(room: u16) -> Vec<Line> {
    let name = concat!("Strandline ", env!("CARGO_PKG_VERSION"));
    let words = ink::wrapped(nav::text::CAUTION, room).into_iter();
    std::iter::once(Line::Heading(name)).chain(words.map(Line::Words)).collect()
}

/// A group's heading and its actions, their help wrapped to `room` columns.
fn lines(group: Group, keymap: &Keymap, room: u16) -> Vec<Line> {
    let mut lines = vec![Line::Heading(group.title())];
    for action in table().iter().filter(|action| action.group == group) {
        let keys: Vec<String> = keymap.keys(action.act).iter().map(ToString::to_string).collect();
        let mut keys = ink::fit(&keys.join(", "), KEYS - 2).into_owned();
        for words in ink::wrapped(&words(action), room) {
            lines.push(Line::Entry(std::mem::take(&mut keys), words));
        }
    }
    lines
}

fn words(action: &Action) -> String {
    match action.mouse {
        "" => action.help.to_owned(),
        mouse => format!("{} · pointer: {mouse}", action.help),
    }
}
