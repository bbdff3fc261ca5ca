//! The passage on the chart: the curved track of a leg on one heading, a tick with its clock time at
//! every so many minutes, and where the group is at the moment that is looked at.

use super::over::Room;
use super::sheet::{Sheet, Taken};
use super::{Sailing, Scene};
use crate::glyphs::DotSet;
use crate::theme::{Role, Theme};
use chart::dots::path;
use ratatui::buffer::Buffer;
use ratatui::style::Modifier;

/// Draws the curved tracks in a dash of their own: beside the line of the leg, which stays whole.
pub(super) fn tracks(
    scene: &Scene<'_>,
    theme: &Theme,
    sheet: &mut Sheet,
    buffer: &mut Buffer,
    room: &mut Room,
) {
    let Sailing { tracks, .. } = &scene.sailing;
    if tracks.is_empty() {
        return;
    }
    // Two dots and two gaps.
    let part = u64::from(sheet.dots.size().0);
    let dots = room.empty(sheet);
    for track in tracks.iter() {
        path(&sheet.raster, track, |x, y, count| {
            if count / part % 4 < 2 {
                dots.set(x, y);
            }
        });
    }
    room.lay(theme.ink(Role::Route), sheet, buffer);
    for track in tracks.iter() {
        for at in *track {
            if let Some((column, row)) = sheet.cell_of(*at) {
                sheet.take(column, row, Taken::ROUTE);
            }
        }
    }
}

/// Draws the ticks of the clock, where no sign or number stands.
pub(super) fn ticks(scene: &Scene<'_>, theme: &Theme, sheet: &mut Sheet, buffer: &mut Buffer) {
    let tick = if sheet.dots == DotSet::Ascii { '+' } else { '•' };
    for clock in scene.sailing.clocks {
        let Some((column, row)) = sheet.cell_of(clock.at) else { continue };
        if sheet.taken(column, row).is_some_and(|taken| !taken.has(Taken::WORDS)) {
            sheet.put((column, row), tick, theme.ink(Role::Waypoint), buffer);
            sheet.take(column, row, Taken::WORDS.and(Taken::SIGN));
        }
    }
}

/// Draws the boat over what else stands there; a waypoint that it is at keeps its number.
pub(super) fn boat(scene: &Scene<'_>, theme: &Theme, sheet: &mut Sheet, buffer: &mut Buffer) {
    let Some(cell) = scene.sailing.boat.and_then(|at| sheet.cell_of(at)) else { return };
    let sign = if sheet.dots == DotSet::Ascii { 'Y' } else { '◈' };
    let style = theme.ink(Role::Cursor).add_modifier(Modifier::REVERSED);
    let at_a_waypoint = scene.waypoints.iter().any(|point| sheet.cell_of(point.at) == Some(cell));
    match sheet.screen(cell.0, cell.1, buffer) {
        Some(waypoint) if at_a_waypoint => waypoint.modifier |= Modifier::REVERSED,
        _ => sheet.put(cell, sign, style, buffer),
    }
    sheet.take(cell.0, cell.1, Taken::WORDS.and(Taken::SIGN));
}
