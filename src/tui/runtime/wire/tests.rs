//! What is sent to the terminal, held against what stands on it.

use super::pen::Look;
use super::*;
use crate::driver::Driver;
use crate::runtime::canvas::shift;
use crate::testing;
use crate::theme::{Colours, Theme, Tone};
use chart::coast::Coast;
use chart::coast::detail::Shores;
use proptest::prelude::*;
use ratatui::backend::{Backend as _, CrosstermBackend};
use ratatui::layout::Rect;
use ratatui::style::{Color, Modifier, Style};
use rstest::rstest;

/// A terminal that knows nothing but what it was sent.
struct Screen {
    parser: vt100::Parser,
    shown: Buffer,
    wire: Wire,
}

impl Screen {
    fn new(width: u16, height: u16) -> Screen {
        let size = |cells: u16| std::num::NonZeroU16::new(cells).unwrap();
        let mut parser = vt100::Parser::new(size(height), size(width), 0);
        // Something of another's, which the first frame has to clear.
        parser.process(b"\x1b[41;1mx\x1b[5;5Hother");
        let shown = Buffer::empty(Rect::new(0, 0, width, height));
        Screen { parser, shown, wire: Wire::default() }
    }

    /// Sends `next` and holds what the terminal shows against it; returns how many bytes it took.
    fn show(&mut self, cleared: bool, next: &Buffer, shift: Option<Shift>) -> usize {
        let bytes = self.wire.frame(cleared, &self.shown, next, shift);
        self.parser.process(bytes);
        let sent = bytes.len();
        self.shown = next.clone();
        check(next, self.parser.screen());
        sent
    }
}

fn check(wanted: &Buffer, screen: &vt100::Screen) {
    for y in 0..wanted.area.height {
        let mut covered = 0;
        for x in 0..wanted.area.width {
            let (want, got) = (&wanted[(x, y)], screen.cell(y, x).unwrap());
            if covered > 0 {
                covered -= 1;
                assert!(got.is_wide_continuation(), "{x}, {y}");
                continue;
            }
            let contents = if got.has_contents() { got.contents() } else { " " };
            assert_eq!(contents, want.symbol(), "{x}, {y}");
            let look = Look::of(want);
            assert_eq!(got.bgcolor(), parsed(want.bg), "ground at {x}, {y}");
            if look.has_ink() {
                assert_eq!(got.fgcolor(), parsed(want.fg), "ink at {x}, {y}");
            }
            let weight = [
                (Modifier::BOLD, got.bold()),
                (Modifier::ITALIC, got.italic()),
                (Modifier::UNDERLINED, got.underline()),
                (Modifier::REVERSED, got.inverse()),
            ];
            let matters = if want.symbol() == " " { 2 } else { 0 };
            for (modifier, is) in weight.into_iter().skip(matters) {
                assert_eq!(is, want.modifier.contains(modifier), "{modifier:?} at {x}, {y}");
            }
            if want.symbol() != " " {
                assert_eq!(got.dim(), want.modifier.contains(Modifier::DIM), "dim at {x}, {y}");
            }
            covered = columns_of(want.symbol()) - 1;
        }
    }
}

fn columns_of(symbol: &str) -> usize {
    unicode_width::UnicodeWidthStr::width(symbol)
}

fn parsed(colour: Color) -> vt100::Color {
    let names = [
        Color::Black,
        Color::Red,
        Color::Green,
        Color::Yellow,
        Color::Blue,
        Color::Magenta,
        Color::Cyan,
        Color::Gray,
        Color::DarkGray,
        Color::LightRed,
        Color::LightGreen,
        Color::LightYellow,
        Color::LightBlue,
        Color::LightMagenta,
        Color::LightCyan,
        Color::White,
    ];
    match colour {
        Color::Reset => vt100::Color::Default,
        Color::Rgb(r, g, b) => vt100::Color::Rgb(r, g, b),
        Color::Indexed(index) => vt100::Color::Idx(index),
        named => {
            let index = names.iter().position(|name| *name == named).unwrap();
            vt100::Color::Idx(u8::try_from(index).unwrap())
        }
    }
}

/// One letter or stretch of letters somewhere on a buffer.
#[derive(Debug, Clone)]
struct Stroke {
    at: (u16, u16),
    words: &'static str,
    style: Style,
}

const WIDTH: u16 = 31;
const HEIGHT: u16 = 7;

fn stroke() -> impl Strategy<Value = Stroke> {
    let words = prop::sample::select(vec![
        "a",
        "bb",
        " ",
        "    ",
        "              ",
        "⣿",
        "⠁⠂⠃",
        "海",
        "海 岸",
        "e\u{301}",
        "─┤",
        "░",
        "kayak",
        "⚓\u{fe0f}",
        "█",
    ]);
    let colours = vec![
        Color::Reset,
        Color::Red,
        Color::LightBlue,
        Color::Indexed(99),
        Color::Rgb(1, 20, 200),
        Color::Rgb(1, 20, 201),
    ];
    let colour = || prop::sample::select(colours.clone());
    let weights = Modifier::BOLD | Modifier::ITALIC | Modifier::UNDERLINED | Modifier::REVERSED;
    let weight = prop_oneof![
        3 => Just(Modifier::empty()),
        1 => Just(Modifier::DIM),
        2 => (0..=weights.bits()).prop_map(move |bits| Modifier::from_bits_truncate(bits) & weights),
    ];
    ((0..WIDTH, 0..HEIGHT), words, colour(), colour(), weight).prop_map(
        |(at, words, fg, bg, weight)| Stroke {
            at,
            words,
            style: Style::new().fg(fg).bg(bg).add_modifier(weight),
        },
    )
}

/// A move of part of the screen, which may be said and not be.
fn moved() -> impl Strategy<Value = Option<Shift>> {
    let area = (0..6u16, 0..3u16, 12..20u16, 3..5u16);
    let shift = (area, -6..7i32, -3..4i32).prop_map(|((x, y, width, height), columns, rows)| {
        Shift { area: Rect::new(x, y, width, height), columns, rows }
    });
    prop::option::of(shift)
}

/// Moves what stands in part of a buffer, cell by cell.
fn move_picture(buffer: &mut Buffer, shift: Shift) {
    let before = buffer.clone();
    for at in shift.area.positions() {
        let from = (i32::from(at.x) + shift.columns, i32::from(at.y) + shift.rows);
        let from = (u16::try_from(from.0).ok(), u16::try_from(from.1).ok());
        if let (Some(x), Some(y)) = from
            && shift.area.contains((x, y).into())
            && columns_of(before[(x, y)].symbol()) == 1
        {
            buffer[at] = before[(x, y)].clone();
        }
    }
    tidy(buffer);
}

/// Puts blanks under wide characters, as drawing would.
fn tidy(buffer: &mut Buffer) {
    for y in 0..HEIGHT {
        for x in 0..WIDTH {
            let columns = columns_of(buffer[(x, y)].symbol());
            if columns == 2 && x + 1 < WIDTH {
                buffer[(x + 1, y)].reset();
            } else if columns == 2 {
                buffer[(x, y)].reset();
            }
        }
    }
}

/// The parser knows one intensity at a time.
fn one_intensity(buffer: &mut Buffer) {
    for cell in &mut buffer.content {
        if cell.modifier.contains(Modifier::BOLD) {
            cell.modifier.remove(Modifier::DIM);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_terminal_shows_what_it_should(
        frames in prop::collection::vec((prop::collection::vec(stroke(), 0..25), moved()), 1..6),
    ) {
        let mut screen = Screen::new(WIDTH, HEIGHT);
        let mut buffer = Buffer::empty(Rect::new(0, 0, WIDTH, HEIGHT));
        let mut cleared = true;
        for (strokes, shift) in frames {
            if let Some(shift) = shift.filter(|_| !cleared) {
                move_picture(&mut buffer, shift);
            }
            for Stroke { at, words, style } in strokes {
                buffer.set_string(at.0, at.1, words, style);
            }
            one_intensity(&mut buffer);
            screen.show(cleared, &buffer, shift.filter(|_| !cleared));
            prop_assert_eq!(screen.show(false, &buffer, None), 0);
            cleared = false;
        }
    }
}

/// Steps of looking about the practice chart.
const PANS: &str = "Ctrl-Left Ctrl-Left Ctrl-Down Ctrl-Right Ctrl-Right Ctrl-Up Ctrl-Up Ctrl-Down";
const MOVES: &str = "l l j L J h Right Down";
const ZOOMS: &str = "+ + - + - -";

fn practice() -> Driver {
    let mut driver = testing::driver(200, 60);
    let chart = std::sync::Arc::new(chart::practice().unwrap());
    driver.state.shapes = std::sync::Arc::new(chart::dots::Shapes::new(&chart));
    driver.state.shores = std::sync::Arc::new(Shores::of(std::sync::Arc::new(Coast::of(&chart))));
    driver.state.chart = chart;
    driver.keys("w +*4").unwrap();
    driver
}

/// How many bytes ratatui's own back end sends for the same.
fn stock(shown: &Buffer, next: &Buffer) -> usize {
    // Without it, `NO_COLOR` where the tests run would do away with the peer's colours.
    ratatui::crossterm::style::force_color_output(true);
    let mut out = Vec::new();
    CrosstermBackend::new(&mut out).draw(shown.diff(next).into_iter()).unwrap();
    out.len()
}

#[rstest]
fn a_series_takes_fewer_bytes(
    #[values(Colours::True, Colours::Indexed, Colours::Sixteen, Colours::None)] colours: Colours,
    #[values((PANS, 50), (MOVES, 80), (ZOOMS, 75))] series: (&str, usize),
) {
    let theme = Theme::new(Tone::Dark, colours);
    let mut driver = practice();
    let mut screen = Screen::new(200, 60);
    screen.show(true, &driver.buffer(&theme), None);
    let (mut ours, mut theirs) = (0, 0);
    for key in series.0.split(' ') {
        let before = screen.shown.clone();
        let looked = (driver.state.layout().sea(), driver.state.view);
        driver.keys(key).unwrap();
        let now = (driver.state.layout().sea(), driver.state.view);
        let next = driver.buffer(&theme);
        ours += screen.show(false, &next, shift(looked, now));
        theirs += stock(&before, &next);
        assert_eq!(screen.show(false, &next, None), 0, "{key}");
    }
    assert!(ours * 100 <= theirs * series.1, "{ours} bytes, the stock back end {theirs}");
}
