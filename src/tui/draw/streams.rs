//! Streams as arrows on the water: on a lattice that stays with the ground, and beside the signs of
//! the stations. They make way for everything that is written, and for shores and the route.

use super::Scene;
use super::ground::Grounds;
use super::sheet::{Sheet, Taken, columns};
use crate::glyphs::{Sign, Strength, arrow};
use crate::state::Arrow;
use crate::theme::{Ground, Role, Theme};
use ratatui::buffer::Buffer;
use ratatui::style::Style;

/// Metres across a column beyond which a station has no sign of its own, but its arrow alone.
const STATIONS_TO: f64 = 130.0;

/// Draws the stations in sight: a sign with the stream behind it, or from afar the stream alone, which
/// in a narrows is all that there is room for.
pub(super) fn stations(scene: &Scene<'_>, theme: &Theme, sheet: &mut Sheet, buffer: &mut Buffer) {
    let near = sheet.view.metres_per_column <= STATIONS_TO;
    let symbol = Sign::Station.symbol();
    for it in scene.streams.iter().filter(|it| it.station) {
        let Some((column, row)) = sheet.cell_of(it.at) else { continue };
        let glyph = glyph(it, scene);
        let sign = if near { symbol.character(scene.dots).to_string() } else { String::new() };
        let width = columns(&sign) + columns(glyph);
        if sheet.is_taken((column, row), width, Taken::WORDS.and(Taken::ROUTE)) {
            continue;
        }
        sheet.write((column, row), &sign, theme.ink(symbol.role), buffer);
        sheet.write((column + columns(&sign), row), glyph, style(it, theme), buffer);
    }
}

/// Draws the arrows between the stations.
pub(super) fn between(
    scene: &Scene<'_>,
    theme: &Theme,
    ground: &Grounds,
    sheet: &Sheet,
    buffer: &mut Buffer,
) {
    for it in scene.streams.iter().filter(|it| !it.station) {
        let Some((column, row)) = sheet.cell_of(it.at) else { continue };
        let glyph = glyph(it, scene);
        if is_free((column, row), columns(glyph), ground, sheet) {
            // Nothing is taken: the pencil and the cursor go over it.
            for (cell, letter) in (column..).zip(glyph.chars()) {
                sheet.put((cell, row), letter, style(it, theme), buffer);
            }
        }
    }
}

fn glyph(it: &Arrow, scene: &Scene<'_>) -> &'static str {
    let up = scene.norths.map_or(0.0, |norths| norths.convergence.as_degrees_east());
    arrow(it.stream, up, scene.dots)
}

fn style(it: &Arrow, theme: &Theme) -> Style {
    theme.ink(match Strength::of(it.stream.drift.as_knots()) {
        Strength::Slack => Role::StreamSlack,
        Strength::Weak => Role::Stream,
        Strength::Fair | Strength::Strong => Role::StreamStrong,
    })
}

/// Whether nothing that says more stands in the cells, or words right beside them.
fn is_free((column, row): (i32, i32), width: i32, ground: &Grounds, sheet: &Sheet) -> bool {
    let others = Taken::WORDS.and(Taken::ROUTE).and(Taken::SHORE);
    let beside = |column| sheet.taken(column, row).is_some_and(|taken| taken.has(Taken::WORDS));
    let afloat = (column..column + width)
        .all(|column| ground.at(column, row).is_some_and(|it| it < Ground::Drying));
    afloat
        && !sheet.is_taken((column, row), width, others)
        && !beside(column - 1)
        && !beside(column + width)
}
