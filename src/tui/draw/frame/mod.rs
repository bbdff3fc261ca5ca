//! The frame, like that of a printed map: numbers of the grid lines in the margin, latitude and
//! longitude on the inner edge, scale and norths along the foot.

mod degrees;
mod figures;
mod norths;
mod scale;

#[cfg(test)]
mod tests;

pub use norths::Norths;

use super::Scene;
use super::grid::Lines;
use super::sheet::{Sheet, columns};
use crate::glyphs::DotSet;
use crate::theme::{Role, Theme};
use chart::Point;
use nav::GridPoint;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

/// What the frame takes of the drawing: the numbers of the grid lines on the left and above, and
/// a line on every side.
const LEFT: u16 = 4;
const ABOVE: u16 = 2;
const RIGHT: u16 = 1;
const BELOW: u16 = 1;

/// The chart within its frame; empty if there is no room for both.
#[must_use]
pub fn inner(area: Rect) -> Rect {
    Rect {
        x: area.x.saturating_add(LEFT),
        y: area.y.saturating_add(ABOVE),
        width: area.width.saturating_sub(LEFT + RIGHT),
        height: area.height.saturating_sub(ABOVE + BELOW),
    }
}

/// The characters of the frame.
pub(super) struct Rules {
    pub(super) across: char,
    pub(super) down: char,
    pub(super) corners: [char; 4],
    /// A grid line ends here: at the top and on the left the tick points outwards.
    pub(super) grid_top: char,
    pub(super) grid_left: char,
    /// A minute ends here: the tick points inwards.
    pub(super) minute_top: char,
    pub(super) minute_right: char,
    pub(super) both_top: char,
}

impl Rules {
    fn of(dots: DotSet) -> Rules {
        match dots {
            DotSet::Ascii => Rules {
                across: '-',
                down: '|',
                corners: ['+'; 4],
                grid_top: '+',
                grid_left: '+',
                minute_top: '\'',
                minute_right: '-',
                both_top: '+',
            },
            _ => Rules {
                across: '─',
                down: '│',
                corners: ['┌', '┐', '└', '┘'],
                grid_top: '┴',
                grid_left: '┤',
                minute_top: '┬',
                minute_right: '┤',
                both_top: '┼',
            },
        }
    }
}

/// The frame's own drawing board: places outside `area` are left alone.
pub(super) struct Board<'b> {
    pub(super) area: Rect,
    pub(super) buffer: &'b mut Buffer,
}

impl Board<'_> {
    pub(super) fn put(&mut self, x: i32, y: i32, glyph: char, style: Style) {
        let (Ok(x), Ok(y)) = (u16::try_from(x), u16::try_from(y)) else { return };
        let inside = self.area.contains((x, y).into());
        if let (true, Some(cell)) = (inside, self.buffer.cell_mut((x, y))) {
            cell.set_char(glyph);
            super::sheet::ink(cell, style);
        }
    }

    pub(super) fn write(&mut self, x: i32, y: i32, words: &str, style: Style) {
        for (x, glyph) in (x..).zip(words.chars()) {
            self.put(x, y, glyph, style);
        }
    }
}

/// Draws the frame; the words that it writes inside the chart take their cells in `sheet`.
pub(super) fn draw(
    scene: &Scene<'_>,
    theme: &Theme,
    lines: &Lines,
    area: Rect,
    sheet: &mut Sheet,
    buffer: &mut Buffer,
) {
    let degrees = degrees::Degrees::of(scene, sheet);
    degrees.write_latitudes(theme, sheet, buffer);
    let mut board = Board { area, buffer };
    let rules = Rules::of(scene.dots);
    outline(theme, &rules, area, sheet.area, &mut board);
    figures::draw(scene, theme, lines, &rules, sheet, &mut board);
    degrees.draw(theme, &rules, sheet, &mut board);
    let foot = Foot::new(theme, area, scene.dots);
    foot.draw(scene, theme, &mut board);
}

fn outline(theme: &Theme, rules: &Rules, area: Rect, inside: Rect, board: &mut Board<'_>) {
    let page = theme.style(Role::Frame);
    for y in area.top()..area.bottom() {
        for x in area.left()..area.right() {
            if !inside.contains((x, y).into()) {
                board.put(i32::from(x), i32::from(y), ' ', page);
            }
        }
    }
    let (left, top) = (i32::from(inside.x) - 1, i32::from(inside.y) - 1);
    let (right, foot) = (i32::from(inside.right()), i32::from(inside.bottom()));
    for x in left..=right {
        board.put(x, top, rules.across, page);
        board.put(x, foot, rules.across, page);
    }
    for y in top..=foot {
        board.put(left, y, rules.down, page);
        board.put(right, y, rules.down, page);
    }
    let corners = [(left, top), (right, top), (left, foot), (right, foot)];
    for ((x, y), glyph) in corners.into_iter().zip(rules.corners) {
        board.put(x, y, glyph, page);
    }
}

/// The foot of the frame: the scale bars from the left, the norths at the right.
struct Foot {
    y: i32,
    left: i32,
    right: i32,
    ascii: bool,
    rule: Style,
}

impl Foot {
    fn new(theme: &Theme, area: Rect, dots: DotSet) -> Foot {
        Foot {
            y: i32::from(area.bottom()) - 1,
            left: i32::from(area.left() + LEFT) + 1,
            right: i32::from(area.right()) - 2,
            ascii: dots == DotSet::Ascii,
            rule: theme.style(Role::Frame),
        }
    }

    fn draw(&self, scene: &Scene<'_>, theme: &Theme, board: &mut Board<'_>) {
        let style = theme.style(Role::FrameNumber);
        let (norths, bars) = self.shared(scene);
        board.write(self.right - columns(&norths), self.y, &norths, style);
        let mut x = self.left;
        for bar in bars {
            let words = bar.words(self.ascii);
            board.write(x, self.y, &words, style);
            x += columns(&words);
            board.put(x, self.y, if self.ascii { '-' } else { '─' }, self.rule);
            x += 1;
        }
    }

    /// How norths and bars share the foot: with as much about the norths as leaves room for the
    /// most bars.
    fn shared(&self, scene: &Scene<'_>) -> (String, Vec<scale::Bar>) {
        let foot = self.right - self.left;
        let norths = scene.norths.iter().flat_map(|norths| norths.words(self.ascii));
        let choices = norths.filter(|words| columns(words) < foot).map(|words| {
            let bars = self.bars(scene, foot - columns(&words));
            (words, bars)
        });
        most(choices, |(_, bars)| bars.len())
            .unwrap_or_else(|| (String::new(), self.bars(scene, foot)))
    }

    /// The bars that fit on `room` columns one behind the other: the longest that leave room for
    /// the most. With its last character and the rule behind it a bar takes two columns more than
    /// its length.
    fn bars(&self, scene: &Scene<'_>, room: i32) -> Vec<scale::Bar> {
        let fitting = |mut bars: Vec<scale::Bar>| {
            let mut left = room;
            bars.retain(|bar| {
                left -= columns(&bar.words(self.ascii)) + 1;
                left >= 0
            });
            bars
        };
        let choices = scale::LENGTHS
            .into_iter()
            .map(|most| scale::bars(ground_per_column(scene), scene.pace, most))
            .map(fitting);
        most(choices, Vec::len).unwrap_or_default()
    }
}

/// Metres on the ground across a column in the middle of the view: those of the grid by its scale.
fn ground_per_column(scene: &Scene<'_>) -> f64 {
    let Point { x, y } = scene.view.centre;
    let scale = || {
        let middle = scene.grid.inverse(GridPoint::from_metres(x, y).ok()?).ok()?;
        Some(scene.grid.forward(middle.position).ok()?.scale)
    };
    scene.view.metres_per_column / scale().unwrap_or(1.0)
}

/// The choice that counts most; the first of those that count as much.
fn most<T>(choices: impl Iterator<Item = T>, count: impl Fn(&T) -> usize) -> Option<T> {
    choices.reduce(|best, next| if count(&next) > count(&best) { next } else { best })
}
