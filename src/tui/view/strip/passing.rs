//! The last row: what the leg passes, each with its sign where it comes abeam.

use chart::water::RaceState;
use nav::text;
use ratatui::buffer::Buffer;
use ratatui::style::Style;

use super::Band;
use crate::glyphs::Sign;
use crate::view::ink;

/// Something that is passed.
struct Item {
    column: u16,
    /// How many columns its sign goes on for.
    width: u16,
    sign: char,
    words: String,
    style: Style,
}

pub(super) fn draw(band: &Band<'_>, buffer: &mut Buffer) {
    let items = items(band);
    for item in &items {
        let sign = item.sign.to_string().repeat(usize::from(item.width));
        band.pen(item.column, buffer).write(&sign, item.style);
    }
    // Words stand behind their sign as far as the next one; what has no room is left to its sign.
    for (index, item) in items.iter().enumerate() {
        let from = item.column + item.width + 1;
        let to = items.get(index + 1).map_or(band.area.width, |next| next.column);
        let room = to.saturating_sub(from + 1);
        if room > 4 {
            let words = ink::fit(&item.words, room).into_owned();
            band.pen(from, buffer).write(&words, band.inks.plain);
        }
    }
}

/// Draws the signs alone, where nothing but the line of the leg stands.
pub(super) fn signs(band: &Band<'_>, buffer: &mut Buffer) {
    for item in items(band) {
        for column in item.column..item.column.saturating_add(item.width) {
            let cell = (band.area.x.saturating_add(column), band.area.y);
            if buffer.cell(cell).is_some_and(|cell| cell.symbol() == "─") {
                band.pen(column, buffer).write(&item.sign.to_string(), item.style);
            }
        }
    }
}

fn items(band: &Band<'_>) -> Vec<Item> {
    let mut items: Vec<Item> = races(band).chain(gates(band)).chain(landings(band)).collect();
    items.sort_by_key(|item| item.column);
    // Of several abeam of one place the weightiest stays.
    items.dedup_by(|next, kept| next.column < kept.column + kept.width);
    items
}

/// The sign of broken water.
const RACE: char = '≈';
/// The sign of a gate that is open, and of one that is shut or may be.
const OPEN: char = '‖';
const SHUT: char = '╫';

fn races<'a>(band: &'a Band<'_>) -> impl Iterator<Item = Item> + 'a {
    band.leg.races.iter().map(|race| {
        let column = band.column(race.from);
        let width = (band.column(race.to) - column).max(1);
        let (state, style) = match race.state {
            Some(RaceState::Quiet) => ("quiet", band.inks.with),
            Some(RaceState::Running) => ("running", band.inks.warn),
            Some(RaceState::Worst) => ("at its worst", band.inks.wrong),
            None => ("state not known", band.inks.warn),
        };
        Item { column, width, sign: RACE, words: format!("{} {state}", race.name), style }
    })
}

fn gates<'a>(band: &'a Band<'_>) -> impl Iterator<Item = Item> + 'a {
    band.leg.gates.iter().map(|gate| {
        let (sign, state, style) = match gate.open {
            Some(true) => (OPEN, "open", band.inks.with),
            Some(false) => (SHUT, "shut", band.inks.wrong),
            None => (SHUT, "not known whether open", band.inks.warn),
        };
        let words = format!("{} {state}", gate.name);
        Item { column: band.column(gate.along), width: 1, sign, words, style }
    })
}

fn landings<'a>(band: &'a Band<'_>) -> impl Iterator<Item = Item> + 'a {
    let sign = Sign::Landing.symbol().character(band.state.settings.dots);
    band.leg.line.landings.iter().filter_map(move |passed| {
        let landing = band.state.chart.landings.get(passed.landing)?;
        let words = format!("{} {}", landing.name, text::kilometres(passed.away));
        let column = band.column(passed.along);
        Some(Item { column, width: 1, sign, words, style: band.inks.with })
    })
}

/// How many landings are near.
pub(super) fn figures(band: &Band<'_>) -> String {
    match band.leg.line.landings.len() {
        0 => "no landing in 1 NM".to_owned(),
        1 => "1 landing in 1 NM".to_owned(),
        count => format!("{count} landings in 1 NM"),
    }
}
