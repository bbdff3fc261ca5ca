//! A drawn screen as a picture in SVG 1.1.

use super::shapes::{HEIGHT, Paint, WIDTH, paint};
use super::text::{look, rows};
use crate::theme::{Theme, shown};
use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use unicode_width::UnicodeWidthStr;

/// The screen as an SVG document: cells of 8 by 16, letters as text in any monospaced font, each
/// word at its own place, dots and lines as shapes. Colours that the terminal chooses are shown as a
/// common terminal shows them on the theme's page.
#[must_use]
pub fn svg(buffer: &Buffer, theme: &Theme) -> String {
    let (width, height) =
        (u32::from(buffer.area.width) * WIDTH, u32::from(buffer.area.height) * HEIGHT);
    let page = hex(shown(theme.page(), theme, true));
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" \
         width=\"{width}\" height=\"{height}\" font-family=\"'DejaVu Sans Mono',Menlo,Consolas,monospace\" \
         font-size=\"13.29\">\n<rect width=\"{width}\" height=\"{height}\" fill=\"{page}\"/>\n"
    );
    let mut shapes = Shapes::default();
    for (row, cells) in rows(buffer).enumerate() {
        let y = row as u32 * HEIGHT;
        let mut column = 0;
        for run in cells.chunk_by(|a, b| look(a) == look(b)) {
            let x = column as u32 * WIDTH;
            column += run.len();
            let style = Style::of(&run[0], theme);
            if style.ground != page {
                let width = run.len() as u32 * WIDTH;
                let ground = &style.ground;
                let _ = writeln!(
                    out,
                    "<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{HEIGHT}\" fill=\"{ground}\"/>"
                );
            }
            shapes.add(run, (x, y), style);
        }
    }
    shapes.write(&mut out);
    out.push_str("</svg>\n");
    out
}

/// The line that letters stand on, from the top of their cell.
const BASE_LINE: u32 = 12;

/// How a run of cells is painted.
struct Style {
    ink: String,
    ground: String,
    weight: Modifier,
}

impl Style {
    fn of(cell: &Cell, theme: &Theme) -> Style {
        let ink = hex(shown(cell.fg, theme, false));
        let ground = hex(shown(cell.bg, theme, true));
        let swap = cell.modifier.contains(Modifier::REVERSED);
        let (ink, ground) = if swap { (ground, ink) } else { (ink, ground) };
        Style { ink, ground, weight: cell.modifier }
    }

    /// The attributes that letters of this style carry.
    fn attributes(&self) -> String {
        let mut out = format!("fill=\"{}\"", self.ink);
        let weights = [
            (Modifier::BOLD, " font-weight=\"bold\""),
            (Modifier::ITALIC, " font-style=\"italic\""),
            (Modifier::DIM, " opacity=\"0.6\""),
            (Modifier::UNDERLINED, " text-decoration=\"underline\""),
        ];
        for (weight, attribute) in weights {
            if self.weight.contains(weight) {
                out.push_str(attribute);
            }
        }
        out
    }
}

/// Shapes of one paint and ink share a path; letters of a run share an element.
#[derive(Default)]
struct Shapes {
    paths: BTreeMap<(Paint, bool, bool, String), String>,
    letters: String,
}

impl Shapes {
    fn add(&mut self, run: &[Cell], (x, y): (u32, u32), style: Style) {
        let attributes = style.attributes();
        let mut word = Word::default();
        for (index, cell) in run.iter().enumerate() {
            let (symbol, x) = (cell.symbol(), x + index as u32 * WIDTH);
            let plain = symbol.chars().all(|c| c.is_alphanumeric() && c < '\u{250}');
            if plain && !symbol.is_empty() {
                word.push(symbol, x);
                continue;
            }
            word.write(y, &attributes, &mut self.letters);
            if symbol.trim().is_empty() || self.add_shape(symbol, (x, y), &style) {
                continue;
            }
            word.push(symbol, x);
            word.write(y, &attributes, &mut self.letters);
        }
        word.write(y, &attributes, &mut self.letters);
    }

    fn add_shape(&mut self, symbol: &str, (x, y): (u32, u32), style: &Style) -> bool {
        let mut path = String::new();
        let found = symbol.chars().next().and_then(|glyph| paint(glyph, x, y, &mut path));
        let Some(paint) = found else {
            return false;
        };
        let bold = style.weight.contains(Modifier::BOLD);
        let dim = style.weight.contains(Modifier::DIM);
        let paths = self.paths.entry((paint, bold, dim, style.ink.clone())).or_default();
        paths.push_str(&path);
        true
    }

    fn write(&self, out: &mut String) {
        for ((paint, bold, dim, ink), path) in &self.paths {
            let width = match (paint, bold) {
                (Paint::Dots, false) => 2.6,
                (Paint::Dots, true) => 3.2,
                (Paint::HeavyLines, _) => 2.4,
                _ => 1.1,
            };
            let cap = if *paint == Paint::Dots { " stroke-linecap=\"round\"" } else { "" };
            let opacity = if *dim { " opacity=\"0.6\"" } else { "" };
            let _ = match paint {
                Paint::Area => writeln!(out, "<path fill=\"{ink}\"{opacity} d=\"{path}\"/>"),
                _ => writeln!(
                    out,
                    "<path fill=\"none\" stroke=\"{ink}\" stroke-width=\"{width}\"{cap}{opacity} d=\"{path}\"/>"
                ),
            };
        }
        out.push_str(&self.letters);
    }
}

/// Letters side by side, which one element holds; anything else stands alone, because it may come
/// from a font of another width.
#[derive(Default)]
struct Word {
    x: u32,
    letters: String,
    columns: u32,
}

impl Word {
    fn push(&mut self, symbol: &str, x: u32) {
        if self.columns == 0 {
            self.x = x;
        }
        escape(symbol, &mut self.letters);
        self.columns += symbol.width() as u32;
    }

    fn write(&mut self, y: u32, attributes: &str, out: &mut String) {
        if self.columns > 0 {
            let Word { x, letters, columns } = std::mem::take(self);
            let (base, width) = (y + BASE_LINE, columns * WIDTH);
            let _ = writeln!(
                out,
                "<text x=\"{x}\" y=\"{base}\" textLength=\"{width}\" {attributes}>{letters}</text>"
            );
        }
    }
}

fn hex(colour: Color) -> String {
    match colour {
        Color::Rgb(r, g, b) => format!("#{r:02x}{g:02x}{b:02x}"),
        _ => "#000000".to_owned(),
    }
}

/// Adds `text` to `out`, fit for XML 1.0: its own signs as entities, forbidden characters left out.
fn escape(text: &str, out: &mut String) {
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            c if c.is_control() || ('\u{fffe}'..='\u{ffff}').contains(&c) => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
}
