//! The numbers of the grid lines: small leading figures, large principal ones; of meridians and
//! parallels their degrees.

use super::degrees::{label, short_label};
use super::{Board, Rules};
use crate::draw::Scene;
use crate::draw::grid::{Lines, Rule};
use crate::draw::sheet::{Sheet, columns};
use crate::theme::{Role, Theme};
use chart::Point;

/// Writes the numbers above and on the left, with a tick on the frame's line for each.
pub(super) fn draw(
    scene: &Scene<'_>,
    theme: &Theme,
    lines: &Lines,
    rules: &Rules,
    sheet: &Sheet,
    board: &mut Board<'_>,
) {
    let ascii = scene.dots == crate::glyphs::DotSet::Ascii;
    let (tick, words) = (theme.style(Role::Frame), theme.style(Role::FrameNumber));
    let (left, top) = (i32::from(sheet.area.x), i32::from(sheet.area.y));
    let mut free = i32::MIN;
    for easting in &lines.eastings {
        let Some((column, _)) = sheet.cell_of(Point { x: easting.at, y: sheet.view.centre.y })
        else {
            continue;
        };
        let (number, before) = above(easting, lines.interval, ascii);
        let x = left + column - before;
        board.put(left + column, top - 1, rules.grid_top, tick);
        if x > free && x + columns(&number) <= i32::from(board.area.right()) {
            board.write(x, top - 2, &number, words);
            free = x + columns(&number);
        }
    }
    for northing in &lines.northings {
        let Some((_, row)) = sheet.cell_of(Point { x: sheet.view.centre.x, y: northing.at }) else {
            continue;
        };
        board.put(left - 1, top + row, rules.grid_left, tick);
        let number = match northing.seconds {
            Some(seconds) => short_label(seconds, ascii),
            None => number(northing.at, lines.interval, ascii),
        };
        // What does not fit is the leading figures, which change least.
        let shown: String = number.chars().skip(number.chars().count().saturating_sub(3)).collect();
        board.write(left - 1 - columns(&shown), top + row, &shown, words);
    }
}

/// The number of a line above the chart, and how many columns of it stand left of the line.
fn above(line: &Rule, interval: f64, ascii: bool) -> (String, i32) {
    let Some(seconds) = line.seconds else {
        let number = number(line.at, interval, ascii);
        let before = principal_middle(&number);
        return (number, before);
    };
    let degrees = label(seconds, ['E', 'W'], ascii);
    let before = columns(&degrees) / 2;
    (degrees, before)
}

/// The column of a number's first principal figure.
fn principal_middle(number: &str) -> i32 {
    let small = number.chars().take_while(|c| !c.is_ascii_digit()).count();
    i32::try_from(small).unwrap_or(0)
}

/// The number of a grid line: kilometres with all but the last two figures small and raised, and
/// parts of a kilometre small and lowered: `⁶73`, `⁶73₅`.
pub(super) fn number(metres: f64, interval: f64, ascii: bool) -> String {
    let decimals = match interval {
        i if i >= 1_000.0 => 0,
        i if i >= 100.0 => 1,
        _ => 2,
    };
    let unit = 1_000 / 10_i64.pow(decimals);
    let count = (metres / unit as f64).round() as i64;
    let parts = 10_u64.pow(decimals);
    let (whole, part) = (count.unsigned_abs() / parts, count.unsigned_abs() % parts);
    let sign = if count < 0 { "-" } else { "" };
    let leading = match whole / 100 {
        0 => sign.to_owned(),
        hundreds => format!("{sign}{hundreds}"),
    };
    let principal = format!("{:02}", whole % 100);
    let width = decimals as usize;
    let rest = if decimals == 0 { String::new() } else { format!("{part:0width$}") };
    match (ascii, decimals) {
        (true, 0) => format!("{leading}{principal}"),
        (true, _) => format!("{leading}{principal}.{rest}"),
        (false, _) => format!("{}{principal}{}", moved(&leading, RAISED), moved(&rest, LOWERED)),
    }
}

const RAISED: [char; 11] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹', '⁻'];
const LOWERED: [char; 11] = ['₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉', '₋'];

fn moved(figures: &str, glyphs: [char; 11]) -> String {
    let glyph = |c: char| glyphs[c.to_digit(10).map_or(10, |d| d as usize)];
    figures.chars().map(glyph).collect()
}
