//! Waypoints, hazards, marks, landings: a character each, at the cell where it lies.

use super::Scene;
use super::sheet::{Sheet, Taken};
use crate::glyphs::{Sign, waypoint_number};
use crate::theme::{Role, Theme};
use chart::Point;
use ratatui::buffer::Buffer;
use ratatui::style::{Modifier, Style};

/// Metres across a column beyond which signs of a kind would crowd the chart.
const HAZARDS_TO: f64 = 160.0;
const LANDINGS_TO: f64 = 130.0;
const MARKS_TO: f64 = 260.0;
const HILLS_TO: f64 = 130.0;
const GATES_TO: f64 = 260.0;

/// Draws all signs; where two fall into one cell, the one that matters more to the plan stays.
pub(super) fn draw(scene: &Scene<'_>, theme: &Theme, sheet: &mut Sheet, buffer: &mut Buffer) {
    waypoints(scene, theme, sheet, buffer);
    let scale = sheet.view.metres_per_column;
    let chart = scene.chart;
    let hazards = chart.hazards.iter().map(|h| (h.at, Sign::of_hazard(h.kind), HAZARDS_TO));
    let marks = chart.marks.iter().map(|m| (m.at, Sign::of_mark(m.kind), MARKS_TO));
    // Before what lies beside it: whether a gate is open decides the day.
    let gates = chart.gates.iter().map(|g| ((g.line.0 + g.line.1) / 2.0, Sign::Gate, GATES_TO));
    let landings = chart.landings.iter().map(|l| (l.at, Sign::Landing, LANDINGS_TO));
    let places = chart.places.iter().filter_map(|p| {
        let sign = Sign::of_place(p.kind)?;
        Some((p.at, sign, if sign == Sign::Hill { HILLS_TO } else { f64::INFINITY }))
    });
    for (at, sign, farthest) in gates.chain(hazards).chain(marks).chain(landings).chain(places) {
        if scale <= farthest {
            one(at, sign, theme, sheet, buffer);
        }
    }
}

fn one(at: Point, sign: Sign, theme: &Theme, sheet: &mut Sheet, buffer: &mut Buffer) {
    let Some(cell) = sheet.cell_of(at) else { return };
    let free = sheet.taken(cell.0, cell.1).is_some_and(|t| !t.has(Taken::WORDS.and(Taken::ROUTE)));
    if !free {
        return;
    }
    let symbol = sign.symbol();
    sheet.put(cell, symbol.character(sheet.dots), theme.ink(symbol.role), buffer);
    sheet.take(cell.0, cell.1, Taken::WORDS.and(Taken::SIGN));
}

/// Writes the numbers of the waypoints. One that falls onto an earlier one is left to it.
fn waypoints(scene: &Scene<'_>, theme: &Theme, sheet: &mut Sheet, buffer: &mut Buffer) {
    for (index, waypoint) in scene.waypoints.iter().enumerate() {
        let Some((column, row)) = sheet.cell_of(waypoint.at) else { continue };
        let lit = scene.chosen_waypoint == Some(index);
        let style = waypoint_style(theme, lit);
        if !lit && sheet.taken(column, row).is_none_or(|t| t.has(Taken::WORDS)) {
            continue;
        }
        match waypoint_number(index + 1, sheet.dots) {
            Some(number) => sheet.put((column, row), number, style, buffer),
            None => {
                let sign = Sign::Waypoint.symbol().character(sheet.dots);
                sheet.put((column, row), sign, style, buffer);
                sheet.write((column + 1, row), &(index + 1).to_string(), style, buffer);
            }
        }
        sheet.take(column, row, Taken::WORDS.and(Taken::SIGN));
    }
}

fn waypoint_style(theme: &Theme, lit: bool) -> Style {
    let style = theme.ink(Role::Waypoint);
    if lit { style.add_modifier(Modifier::REVERSED) } else { style }
}
