//! Latitude and longitude on the inner edge of the frame.

use super::{Board, Rules};
use crate::draw::grid::multiples;
use crate::draw::sheet::{Sheet, Taken, columns};
use crate::draw::{Scene, graticule};
use crate::theme::{Role, Theme};
use nav::GridPoint;
use ratatui::buffer::Buffer;

/// The distances between ticks, in seconds of arc.
const STEPS: [f64; 17] = [
    1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 300.0, 600.0, 900.0, 1_800.0, 3_600.0, 7_200.0,
    18_000.0, 36_000.0, 72_000.0,
];

/// The least room between two labels of longitude, in columns, and of latitude, in rows.
const ROOM: (i32, i32) = (20, 6);

/// A tick: where it is along its edge, in cells, and what it says.
#[derive(Debug, Clone, PartialEq)]
struct Tick {
    at: i32,
    label: String,
}

/// The ticks of a drawing: longitudes along its upper edge, latitudes along its right one.
pub(super) struct Degrees {
    longitudes: Vec<Tick>,
    latitudes: Vec<Tick>,
}

impl Degrees {
    pub(super) fn of(scene: &Scene<'_>, sheet: &Sheet) -> Degrees {
        let ascii = scene.dots == crate::glyphs::DotSet::Ascii;
        let (width, height) = (sheet.cells.columns, sheet.cells.rows);
        let position = |x: f64, y: f64| {
            let point = sheet.view.point_at(sheet.cells, x, y);
            let point = GridPoint::from_metres(point.x, point.y).ok()?;
            scene.grid.inverse(point).ok().map(|found| found.position)
        };
        // Meridians and parallels are curves on the grid: the edge is walked and each crossing seen.
        let along_top = |x: u16| Some(position(f64::from(x), 0.0)?.lon.as_degrees() * 3_600.0);
        let down_right =
            |y: u16| Some(position(f64::from(width), f64::from(y))?.lat.as_degrees() * 3_600.0);
        // Where meridians are the grid lines, their numbers stand above already.
        let longitudes = if graticule::is_drawn(scene.grid) {
            Vec::new()
        } else {
            ticks(&along(width, along_top), ROOM.0, |s| label(s, ['E', 'W'], ascii))
        };
        Degrees {
            longitudes,
            latitudes: ticks(&along(height, down_right), ROOM.1, |s| label(s, ['N', 'S'], ascii)),
        }
    }

    /// Draws ticks and longitudes on the frame's lines.
    pub(super) fn draw(&self, theme: &Theme, rules: &Rules, sheet: &Sheet, board: &mut Board<'_>) {
        let (rule, words) = (theme.style(Role::Frame), theme.style(Role::Dim));
        let (left, top) = (i32::from(sheet.area.x), i32::from(sheet.area.y));
        for tick in &self.longitudes {
            let x = left + tick.at;
            let is_grid = board.buffer.cell((x.max(0) as u16, (top - 1).max(0) as u16));
            let is_grid = is_grid.is_some_and(|cell| cell.symbol().starts_with(rules.grid_top));
            board.put(x, top - 1, if is_grid { rules.both_top } else { rules.minute_top }, rule);
            let end = x + 1 + columns(&tick.label);
            let clear = end < left + i32::from(sheet.cells.columns);
            if clear {
                board.write(x + 1, top - 1, &tick.label, words);
            }
        }
        for tick in &self.latitudes {
            board.put(i32::from(sheet.area.right()), top + tick.at, rules.minute_right, rule);
        }
    }

    /// Writes latitudes inside the right edge and takes their cells.
    pub(super) fn write_latitudes(&self, theme: &Theme, sheet: &mut Sheet, buffer: &mut Buffer) {
        if sheet.cells.columns < 40 {
            return;
        }
        // Labels in the corners would run into those of longitude and into the foot.
        let last = i32::from(sheet.cells.rows) - 1;
        for tick in self.latitudes.iter().filter(|tick| (1..last).contains(&tick.at)) {
            let column = i32::from(sheet.cells.columns) - columns(&tick.label);
            sheet.write((column, tick.at), &tick.label, theme.ink(Role::Letters), buffer);
            sheet.take(column - 1, tick.at, Taken::WORDS);
        }
    }
}

/// A quantity at every cell's edge along a side of the drawing.
fn along(cells: u16, value: impl Fn(u16) -> Option<f64>) -> Vec<Option<f64>> {
    (0..=cells).map(value).collect()
}

/// The ticks where a quantity, in seconds of arc, passes a multiple of the finest step that leaves
/// at least `room` cells from tick to tick.
fn ticks(values: &[Option<f64>], room: i32, label: impl Fn(i64) -> String) -> Vec<Tick> {
    let rates = values.windows(2).filter_map(|pair| Some((pair[1]? - pair[0]?).abs()));
    let rate = rates.fold(0.0, f64::max);
    let Some(step) = STEPS.into_iter().find(|step| rate * f64::from(room) <= *step) else {
        return Vec::new();
    };
    let mut ticks = Vec::new();
    for (cell, pair) in values.windows(2).enumerate() {
        let (Some(a), Some(b)) = (pair[0], pair[1]) else { continue };
        // Past the antimeridian the longitude jumps: no tick is lost but the one on it.
        if (b - a).abs() > step {
            continue;
        }
        let crossed = multiples(a.min(b), a.max(b), step);
        let at = i32::try_from(cell).unwrap_or(i32::MAX);
        ticks.extend(crossed.first().map(|s| Tick { at, label: label(s.round() as i64) }));
    }
    ticks
}

/// Degrees and minutes, and seconds where there are some: `27°08′W`.
pub(super) fn label(seconds: i64, [plus, minus]: [char; 2], ascii: bool) -> String {
    let side = match seconds {
        s if s > 0 => plus.to_string(),
        s if s < 0 => minus.to_string(),
        _ => String::new(),
    };
    let seconds = seconds.unsigned_abs();
    let (degrees, minutes, seconds) = (seconds / 3_600, seconds / 60 % 60, seconds % 60);
    let (degree, minute, second) = if ascii { (' ', '\'', '"') } else { ('°', '′', '″') };
    match seconds {
        0 => format!("{degrees}{degree}{minutes:02}{minute}{side}"),
        _ => format!("{degrees}{degree}{minutes:02}{minute}{seconds:02}{second}{side}"),
    }
}

/// The last part that there is of degrees, minutes and seconds: `57°`, `08′`, `15″`.
pub(super) fn short_label(seconds: i64, ascii: bool) -> String {
    let seconds = seconds.unsigned_abs();
    let (degree, minute, second) = if ascii { (' ', '\'', '"') } else { ('°', '′', '″') };
    match (seconds / 3_600, seconds / 60 % 60, seconds % 60) {
        (degrees, 0, 0) => format!("{degrees}{degree}"),
        (_, minutes, 0) => format!("{minutes:02}{minute}"),
        (_, _, seconds) => format!("{seconds:02}{second}"),
    }
}
