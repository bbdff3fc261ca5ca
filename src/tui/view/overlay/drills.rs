//! What can be practised: what is due, how it has gone, then every kind under the skill that it trains.

use practice::{Plan, Skill};
use ratatui::buffer::Buffer;

use super::super::ink::Pen;
use super::super::inks::Inks;
use super::{frame, row};
use crate::layout::{OverlayLayout, window};
use crate::state::{DrillChoice, DrillList, DrillRow, State};

/// A line of the box.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Line {
    /// The heading of the rows that train a skill.
    Heading(Skill),
    /// A row of the list.
    Row(usize),
}

pub(super) fn draw(
    state: &State,
    list: &DrillList,
    parts: &OverlayLayout,
    inks: &Inks,
    buffer: &mut Buffer,
) {
    frame(parts.area, "Practice", "Enter begins · Esc closes", inks, buffer);
    let mut pen = Pen::new(buffer, parts.note);
    match (&state.practice.not_kept, state.practice.elsewhere.first()) {
        (Some(why), _) => pen.write(&format!("Your answers are not kept: {why}"), inks.warn),
        (None, Some(word)) => pen.write(word, inks.quiet),
        (None, None) => pen.write("For practice, not for navigation.", inks.quiet),
    };
    let mut pen = Pen::new(buffer, parts.rows);
    for line in shown(list, parts.rows.height) {
        match line {
            Line::Heading(skill) => {
                pen.write(skill.name(), inks.heading).write(" ", inks.quiet);
                pen.rule("─", inks.quiet).down();
            }
            Line::Row(index) => {
                let Some(it) = list.rows.get(index) else { continue };
                row(&mut pen, &it.words, &it.note, index == list.row, inks);
            }
        }
    }
}

/// All lines of the box.
fn lines(list: &DrillList) -> Vec<Line> {
    let mut lines = Vec::with_capacity(list.rows.len() + Skill::ALL.len());
    let mut last = None;
    for (index, row) in list.rows.iter().enumerate() {
        let skill = skill(row);
        if let Some(skill) = skill.filter(|_| skill != last) {
            lines.push(Line::Heading(skill));
        }
        last = skill;
        lines.push(Line::Row(index));
    }
    lines
}

/// The skill that a row trains, where it is of one kind.
fn skill(row: &DrillRow) -> Option<Skill> {
    match &row.does {
        DrillChoice::Begin(Plan::Kinds { kinds, .. }) => match kinds.as_slice() {
            [kind] => Some(kind.skill()),
            _ => None,
        },
        _ => None,
    }
}

/// The lines that so many rows show, the chosen row among them.
fn shown(list: &DrillList, rows: u16) -> impl Iterator<Item = Line> {
    let lines = lines(list);
    let chosen = lines.iter().position(|line| *line == Line::Row(list.row)).unwrap_or(0);
    let first = window(lines.len(), chosen, rows);
    lines.into_iter().skip(first).take(usize::from(rows))
}

/// The row of the list that stands in the line `y` of so many that are shown.
pub(crate) fn row_at(list: &DrillList, rows: u16, y: u16) -> Option<usize> {
    match shown(list, rows).nth(usize::from(y))? {
        Line::Row(index) => Some(index),
        Line::Heading(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use practice::{Kind, Level, Long};

    fn list(row: usize) -> DrillList {
        let first = DrillRow {
            words: "ten minutes of what is due".to_owned(),
            note: String::new(),
            does: DrillChoice::Begin(Plan::Due(Long::Minutes(10))),
        };
        let of = |kind: &Kind| DrillRow {
            words: kind.what().to_owned(),
            note: "level 1".to_owned(),
            does: DrillChoice::Begin(Plan::Kinds {
                kinds: vec![*kind],
                level: Level::First,
                seed: 1,
                count: 10,
            }),
        };
        let rows = std::iter::once(first).chain(Kind::ALL.iter().map(of)).collect();
        DrillList { row, rows }
    }

    #[test]
    fn every_skill_has_one_heading_and_every_row_its_line() {
        let all = lines(&list(0));
        let is_heading = |line: &&Line| matches!(line, Line::Heading(_));
        assert_eq!(all.iter().filter(is_heading).count(), Skill::ALL.len());
        assert_eq!(all.len(), Skill::ALL.len() + Kind::ALL.len() + 1);
    }

    #[test]
    fn what_is_pressed_is_what_is_seen() {
        for row in 0..23 {
            let list = list(row);
            for (y, line) in shown(&list, 12).enumerate() {
                let pressed = row_at(&list, 12, y as u16);
                assert_eq!(
                    pressed.map(Line::Row),
                    Some(line).filter(|line| matches!(line, Line::Row(_)))
                );
            }
            assert!(shown(&list, 12).any(|line| line == Line::Row(row)), "the chosen one is seen");
            assert_eq!(row_at(&list, 12, 12), None);
        }
    }
}
