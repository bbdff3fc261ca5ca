//! What is drawn of the tide itself.

use jiff::{SignedDuration, Timestamp};
use nav::tide::Water;
use plan::depart::{Lights, Sky};

use super::page::Page;
use super::{Scale, means, turn_words};
use crate::glyphs::DotSet;
use crate::state::{PortDay, Stand, State};
use crate::view::ink::width;

/// Draws the curve: a dot column a dot, joined where it is steep.
pub(super) fn curve(port: &PortDay, scale: &Scale, page: &mut Page<'_>) {
    let mut mask = page.mask();
    let (columns, rows) = (mask.width(), mask.height());
    let mut last: Option<i64> = None;
    for x in 0..columns {
        let at = scale.at((x as f64 + 0.5) / columns as f64);
        let Some(height) = port.height(at) else {
            last = None;
            continue;
        };
        let down = (scale.high - height.as_metres()) / (scale.high - scale.low);
        let y = (down * rows as f64) as i64;
        let from = last.map_or(y, |last| if last < y { last + 1 } else { last - 1 });
        let joined = if last == Some(y) { y..=y } else { from.min(y)..=from.max(y) };
        for y in joined {
            mask.set(x as i64, y);
        }
        last = Some(y);
    }
    page.lay(&mask, page.inks.figure);
}

/// Draws the moment: a line from top to foot, and a mark on the curve.
pub(super) fn moment(state: &State, port: &PortDay, scale: &Scale, page: &mut Page<'_>) {
    let at = state.moment.at();
    let Some(column) = scale.column(at) else { return };
    for row in 0..page.plot.height {
        if page.is_free(column, row, 1) {
            page.put(column, row, "│", page.inks.key);
        }
    }
    if let Some(height) = port.height(at) {
        let mark = if page.dots == DotSet::Ascii { "O" } else { "●" };
        page.put(column, scale.row(height.as_metres()), mark, page.inks.key);
    }
}

/// Writes time and height at each high and low water, over the one and under the other.
pub(super) fn turns(state: &State, port: &PortDay, scale: &Scale, page: &mut Page<'_>) {
    for turn in &port.day.turns {
        let Some(column) = scale.column(turn.at) else { continue };
        let row = scale.row(turn.height.as_metres());
        let words = turn_words(state, turn);
        let last = page.plot.width.saturating_sub(width(&words));
        let middle = column.saturating_sub(width(&words) / 2).min(last);
        let rows = match turn.water {
            Water::High => [row.checked_sub(1), row.checked_sub(2)],
            Water::Low => [Some(row + 1), Some(row + 2)],
        };
        // Aside where the line of the moment stands in the way.
        let aside = (0..=width(&words) + 2)
            .flat_map(|by| [middle.saturating_sub(by), (middle + by).min(last)]);
        let places = rows.into_iter().flatten();
        let places = places.flat_map(|row| aside.clone().map(move |left| (left, row)));
        page.put_first(places, &words, page.inks.figure);
    }
}

/// Draws mean high and low waters as broken lines with their names.
pub(super) fn mean_levels(gauge: &chart::water::Gauge, scale: &Scale, page: &mut Page<'_>) {
    for mean in means(gauge).into_iter().flatten() {
        let words = format!("{} {:.1}", mean.words, mean.height_m);
        level(mean.height_m, &words, scale, page);
    }
}

/// Draws the height of the drying ground under the cursor.
pub(super) fn drying(state: &State, scale: &Scale, page: &mut Page<'_>) {
    if let Some(Stand { dries_m, .. }) = state.stand_at(state.cursor) {
        level(dries_m, &format!("here dries {dries_m:.1}"), scale, page);
    }
}

/// Draws a height across the plot as a broken line, its words at the right end or the left.
fn level(metres: f64, words: &str, scale: &Scale, page: &mut Page<'_>) {
    let row = scale.row(metres);
    let right = page.plot.width.saturating_sub(width(words));
    if !page.put_first([(right, row), (0, row)], words, page.inks.quiet) {
        return;
    }
    for column in (0..page.plot.width).step_by(3) {
        if page.is_free(column, row, 1) {
            page.put(column, row, "·", page.inks.quiet);
        }
    }
}

/// Writes whole metres at the left side.
pub(super) fn heights(scale: &Scale, page: &mut Page<'_>) {
    let rows = f64::from(page.plot.height) / (scale.high - scale.low);
    let step = [1.0, 2.0, 5.0, 10.0].into_iter().find(|step| step * rows >= 2.0).unwrap_or(20.0);
    let mut metres = (scale.low / step).ceil() * step;
    while metres < scale.high {
        let words = format!("{:>4.0} m", metres + 0.0);
        let (x, y) =
            (page.plot.x.saturating_sub(width(&words) + 1), page.plot.y + scale.row(metres));
        page.write(x, y, &words, page.inks.quiet);
        metres += step;
    }
}

/// Writes the hours of the clock along the foot.
pub(super) fn hours(state: &State, port: &PortDay, scale: &Scale, page: &mut Page<'_>) {
    let an_hour = f64::from(page.plot.width) * 3600.0 / scale.seconds;
    let every = [1, 2, 3, 4, 6].into_iter().find(|n| f64::from(*n) * an_hour >= 4.0).unwrap_or(12);
    let y = page.plot.bottom() + 1;
    let mut at = port.day.from;
    while at < port.day.to {
        let clock = at.to_zoned_datetime(state.clock().clone());
        if let (0, Some(column)) = (clock.hour() % every as i8, scale.column(at)) {
            page.write(page.plot.x + column, y, &format!("{:02}", clock.hour()), page.inks.quiet);
        }
        let Ok(next) = at.checked_add(SignedDuration::from_hours(1)) else { return };
        at = next;
    }
}

/// Draws the light over the hours: night dense, twilight thin, day open.
pub(super) fn light(light: Option<&Lights>, scale: &Scale, page: &mut Page<'_>) {
    let Some(light) = light else { return };
    let y = page.plot.bottom();
    for column in 0..page.plot.width {
        let at: Timestamp = scale.at((f64::from(column) + 0.5) / f64::from(page.plot.width));
        let sign = match light.sky(at) {
            Sky::Day => "─",
            Sky::Twilight => "░",
            Sky::Dark => "▓",
        };
        page.write(page.plot.x + column, y, sign, page.inks.quiet);
    }
}
