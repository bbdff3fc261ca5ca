//! Where everything stands: a pure function of the size of the screen and of what is open.
//!
//! The view draws into these rectangles and the pointer is read by them; neither remembers one.

mod progress;

pub use progress::ProgressParts;

use ratatui::layout::{Rect, Size};

use crate::draw;
use crate::state::Overlay;

/// How the screen is divided.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Too small to draw a chart in.
    TooSmall,
    /// The chart across the whole width, the readings folded into two lines below it.
    Folded,
    /// The chart with a column of readings and the table of legs beside it.
    Wide,
}

impl Shape {
    /// How a screen of `size` is divided.
    pub fn of(size: Size) -> Shape {
        let fits = |least: Size| size.width >= least.width && size.height >= least.height;
        match size {
            _ if fits(WIDE) => Shape::Wide,
            _ if fits(LEAST) => Shape::Folded,
            _ => Shape::TooSmall,
        }
    }

    /// Whether readings and legs have a column of their own.
    pub fn has_column(self) -> bool {
        self == Shape::Wide
    }
}

/// The least size of the screen on which a chart is drawn.
pub const LEAST: Size = Size { width: 60, height: 20 };

/// From this size on the readings have a column of their own.
const WIDE: Size = Size { width: 110, height: 32 };

/// The word about a chart of no real place.
pub const INVENTED: &str = "invented chart: no such place";

/// The columns of that word, and one before it.
const STATUS: u16 = INVENTED.len() as u16 + 1;

/// The rows that the panes of readings take in their column.
const READINGS_ROWS: u16 = 20;

/// The rows of the Water pane, the last blank at most places, and of one where there is less room.
const WATER_ROWS: u16 = 10;
const WATER_ROWS_LEAST: u16 = 5;

/// The rows that the table of legs keeps when the Water pane is shortened.
const LEGS_KEPT: u16 = 6;

/// The rows of the leg strip on a high screen and on a low one, and the height from which on it
/// is there at all.
const STRIP_ROWS: u16 = 4;
const STRIP_ROWS_LEAST: u16 = 3;
pub(crate) const STRIP_FROM: u16 = 24;

/// The least rows of practice under the chart of a small screen.
const DRILL_ROWS_LEAST: u16 = 6;

/// What of the screen is there only at times.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Shown {
    /// Whether there is water to tell of: the Water pane.
    pub water: bool,
    /// Whether the leg strip is open.
    pub strip: bool,
    /// With practice in hand, the rows that it asks for where it stands under the chart. It takes the place of all
    /// that is read off.
    pub drill: Option<u16>,
}

/// The parts of the screen. A part that is not there has no width or no height.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Layout {
    /// How the screen is divided.
    pub shape: Shape,
    /// The whole screen.
    pub screen: Rect,
    /// The chart with its frame.
    pub chart: Rect,
    /// The panes of readings, one above the other.
    pub readings: Rect,
    /// The Water pane below them.
    pub water: Rect,
    /// The leg strip along the foot of the chart.
    pub strip: Rect,
    /// The table of legs: a heading, the rows, the sum.
    pub legs: Rect,
    /// The readings folded into two lines.
    pub folded: Rect,
    /// Practice, in place of all readings: a column, or a band under the chart.
    pub drill: Rect,
    /// What the program says: titles, whether all is saved, messages. Without it, messages
    /// stand in place of the second line of folded readings.
    pub notice: Rect,
    /// The line of hints.
    pub hints: Rect,
    /// Behind the hints: the word about the chart that is always on the screen.
    pub status: Rect,
}

impl Layout {
    /// The parts of a screen of `size` on which this is shown.
    pub fn new(size: Size, shown: Shown) -> Layout {
        let screen = Rect::new(0, 0, size.width, size.height);
        match (Shape::of(size), shown.drill) {
            (Shape::TooSmall, _) => Layout::nothing(Shape::TooSmall, screen),
            (Shape::Folded, None) => Layout::folded(screen, shown),
            (Shape::Folded, Some(rows)) => Layout::over_drill(screen, rows),
            (Shape::Wide, None) => Layout::wide(screen, shown),
            (Shape::Wide, Some(_)) => Layout::beside_drill(screen),
        }
    }

    /// None of the parts.
    fn nothing(shape: Shape, screen: Rect) -> Layout {
        let none = Rect::default();
        Layout {
            shape,
            screen,
            chart: none,
            readings: none,
            water: none,
            strip: none,
            legs: none,
            folded: none,
            drill: none,
            notice: none,
            hints: none,
            status: none,
        }
    }

    /// The chart beside the column of practice.
    fn beside_drill(screen: Rect) -> Layout {
        let column = column(screen.width);
        let (body, left) = (screen.height - 2, screen.width - column);
        let (hints, status) = foot(screen);
        Layout {
            chart: Rect::new(0, 0, left - 1, body),
            drill: Rect::new(left, 0, column - 1, body),
            notice: Rect::new(0, body, screen.width, 1),
            hints,
            status,
            ..Layout::nothing(Shape::Wide, screen)
        }
    }

    /// The chart above as many rows of practice as are asked for, within half of the height.
    fn over_drill(screen: Rect, rows: u16) -> Layout {
        let body = screen.height - 1;
        let rows = rows.clamp(DRILL_ROWS_LEAST, body / 2);
        let (hints, status) = foot(screen);
        Layout {
            chart: Rect::new(0, 0, screen.width, body - rows),
            drill: Rect::new(0, body - rows, screen.width, rows),
            hints,
            status,
            ..Layout::nothing(Shape::Folded, screen)
        }
    }

    fn wide(screen: Rect, shown: Shown) -> Layout {
        let column = column(screen.width);
        let body = screen.height - 2;
        let (hints, status) = foot(screen);
        let left = screen.width - column;
        let (chart, strip) = over_strip(Rect::new(0, 0, left - 1, body), screen, shown);
        let water = match body - READINGS_ROWS {
            _ if !shown.water => 0,
            room if room >= WATER_ROWS + LEGS_KEPT => WATER_ROWS,
            _ => WATER_ROWS_LEAST,
        };
        let above = READINGS_ROWS + water;
        Layout {
            chart,
            strip,
            readings: Rect::new(left, 0, column - 1, READINGS_ROWS),
            water: Rect::new(left, READINGS_ROWS, column - 1, water),
            legs: Rect::new(left, above, column - 1, body - above),
            notice: Rect::new(0, body, screen.width, 1),
            hints,
            status,
            ..Layout::nothing(Shape::Wide, screen)
        }
    }

    fn folded(screen: Rect, shown: Shown) -> Layout {
        let body = screen.height - 3;
        let (hints, status) = foot(screen);
        let (chart, strip) = over_strip(Rect::new(0, 0, screen.width, body), screen, shown);
        Layout {
            chart,
            strip,
            folded: Rect::new(0, body, screen.width, 2),
            hints,
            status,
            ..Layout::nothing(Shape::Folded, screen)
        }
    }

    /// The drawing within the chart's frame.
    pub fn sea(&self) -> Rect {
        draw::inner(self.chart)
    }

    /// The rows of the table of legs, without its heading and its sum.
    pub fn leg_rows(&self) -> Rect {
        inside(self.legs, 0, 1, 2)
    }
}

/// The parts of an overlay.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OverlayLayout {
    /// All of it, with its border.
    pub area: Rect,
    /// The line of text in it.
    pub line: Rect,
    /// What is said about that line.
    pub note: Rect,
    /// The rows to choose from.
    pub rows: Rect,
}

/// The parts of `overlay` on a screen of `size`.
pub fn overlay(size: Size, overlay: &Overlay) -> OverlayLayout {
    let (width, height, line, note) = match overlay {
        Overlay::Help { .. } => (186, size.height.saturating_sub(2), 0, 1),
        Overlay::List(_) => (84, 22, 1, 0),
        Overlay::Jump(_) => (66, 11, 1, 1),
        Overlay::Ask(_) => (66, 7, 1, 4),
        Overlay::Legs => (84, size.height.saturating_sub(4), 0, 1),
        Overlay::Dividers => (66, 13, 0, 1),
        Overlay::Tide => (132, 34, 0, 2),
        Overlay::Starts(open) => (155, if open.days > 1 { 36 } else { 28 }, 0, 0),
        Overlay::Limits { .. } => (84, 10, 0, 1),
        Overlay::Drills(_) => (84, 30, 0, 1),
        Overlay::Progress(_) => (132, 40, 0, 0),
    };
    let area = centred(size, width, height);
    let inner = inside(area, 2, 1, 1);
    let from = |skip: u16, rows: u16| {
        let skip = skip.min(inner.height);
        Rect::new(inner.x, inner.y + skip, inner.width, rows.min(inner.height - skip))
    };
    OverlayLayout {
        area,
        line: from(0, line),
        note: from(line, note),
        rows: from(line + note, u16::MAX),
    }
}

/// The chart, and the leg strip along its foot where it is open and there is room for both.
fn over_strip(both: Rect, screen: Rect, shown: Shown) -> (Rect, Rect) {
    let rows = match screen.height {
        _ if !shown.strip => 0,
        rows if rows >= WIDE.height => STRIP_ROWS,
        rows if rows >= STRIP_FROM => STRIP_ROWS_LEAST,
        _ => 0,
    };
    let height = both.height - rows;
    (Rect { height, ..both }, Rect { y: both.y + height, height: rows, ..both })
}

/// The columns of heights beside the curve of the tide.
const HEIGHTS: u16 = 7;

/// The plot of the tide's curve in the rows of its overlay: beside the heights, under the line of the
/// route's times, over those of light and hours.
pub fn tide_plot(rows: Rect) -> Rect {
    let Rect { x, y, width, height } = rows;
    let left = HEIGHTS.min(width);
    Rect::new(x + left, y + 1, width - left, height.saturating_sub(3))
}

/// The columns beside the chart of a wide screen, one of them between the two.
fn column(width: u16) -> u16 {
    match width {
        180.. => 48,
        140.. => 42,
        _ => 36,
    }
}

/// The last line of a screen: the hints, and the word about the chart behind them.
fn foot(screen: Rect) -> (Rect, Rect) {
    let y = screen.height - 1;
    let hints = screen.width - STATUS;
    (Rect::new(0, y, hints, 1), Rect::new(hints + 1, y, STATUS - 1, 1))
}

/// Less than this beside a box shows nothing of use.
const SCRAPS: u16 = 24;

/// A rectangle of this size, or what fits of it, in the middle and a little above it.
fn centred(size: Size, width: u16, height: u16) -> Rect {
    // Beside a box stands more than scraps, or nothing.
    let width = if size.width < width + SCRAPS { size.width } else { width };
    // The last line stays: the keys that count in the box, and what kind of chart this is.
    let height = height.min(size.height.saturating_sub(1));
    Rect::new((size.width - width) / 2, (size.height - height) / 3, width, height)
}

/// `area` without `sides` columns on the left and right, `top` rows above and `foot` below.
fn inside(area: Rect, sides: u16, top: u16, foot: u16) -> Rect {
    let top = top.min(area.height);
    let sides = sides.min(area.width / 2);
    let height = (area.height - top).saturating_sub(foot);
    Rect::new(area.x + sides, area.y + top, area.width - 2 * sides, height)
}

/// The first row to show of `total` in a window of `rows`, so that row `focus` is seen, as near to
/// the middle as the ends allow.
pub fn window(total: usize, focus: usize, rows: u16) -> usize {
    let rows = usize::from(rows);
    focus.saturating_sub(rows / 2).min(total.saturating_sub(rows))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(layout: &Layout) -> Vec<Rect> {
        let Layout { chart, readings, water, strip, legs, folded, drill, notice, .. } = *layout;
        [chart, readings, water, strip, legs, folded, drill, notice, layout.hints, layout.status]
            .into_iter()
            .filter(|r| !r.is_empty())
            .collect()
    }

    /// Whatever may be shown, with and without practice that asks for any number of rows.
    fn every_way() -> impl Iterator<Item = Shown> {
        let drills = [None, Some(0), Some(9), Some(u16::MAX)];
        drills.into_iter().flat_map(|drill| {
            [(false, false), (true, false), (false, true), (true, true)]
                .map(|(water, strip)| Shown { water, strip, drill })
        })
    }

    #[test]
    fn parts_lie_on_the_screen_and_apart_at_every_size() {
        for width in 0..260 {
            for height in 0..80 {
                for shown in every_way() {
                    let layout = Layout::new(Size { width, height }, shown);
                    let parts = parts(&layout);
                    for (i, part) in parts.iter().enumerate() {
                        assert_eq!(part.intersection(layout.screen), *part, "{width}x{height}");
                        assert!(
                            parts[i + 1..].iter().all(|o| !o.intersects(*part)),
                            "{width}x{height}"
                        );
                    }
                    let Layout { shape, chart, drill, readings, .. } = layout;
                    let has_chart = shape != Shape::TooSmall;
                    assert_eq!(has_chart && shown.drill.is_some(), !drill.is_empty());
                    match shown.drill {
                        Some(_) => {
                            assert!(!has_chart || chart.height >= 10, "{width}x{height}");
                            let others = [readings, layout.water, layout.legs, layout.strip];
                            assert!(others.iter().all(|part| part.is_empty()));
                            assert!(layout.folded.is_empty(), "{width}x{height}");
                        }
                        None if shape == Shape::Wide => assert!(layout.legs.height >= 5),
                        None => {}
                    }
                }
            }
        }
    }

    #[test]
    fn overlays_fit_every_size() {
        for width in 0..140 {
            for height in 0..50 {
                let size = Size { width, height };
                for open in [Overlay::Help { top: 0 }, Overlay::Legs, Overlay::Tide] {
                    let parts = overlay(size, &open);
                    let screen = Rect::new(0, 0, width, height);
                    for part in [parts.area, parts.line, parts.note, parts.rows] {
                        assert_eq!(part.intersection(screen), part, "{width}x{height}");
                    }
                }
            }
        }
    }

    #[test]
    fn the_three_sizes() {
        let shape = |width, height| Layout::new(Size { width, height }, Shown::default()).shape;
        assert_eq!(shape(200, 60), Shape::Wide);
        assert_eq!(shape(80, 24), Shape::Folded);
        assert_eq!(shape(60, 20), Shape::Folded);
        assert_eq!(shape(59, 20), Shape::TooSmall);
        assert_eq!(shape(0, 0), Shape::TooSmall);
    }

    #[test]
    fn a_window_shows_the_focus() {
        assert_eq!(window(5, 4, 10), 0);
        assert_eq!(window(100, 0, 10), 0);
        assert_eq!(window(100, 50, 10), 45);
        assert_eq!(window(100, 99, 10), 90);
        assert_eq!(window(3, 2, 0), 2);
    }
}
