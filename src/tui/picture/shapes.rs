//! The shapes of characters that are drawings rather than letters. A font may lack them, or draw
//! them so that neighbours do not join.

use crate::glyphs::dots_of;
use std::fmt::Write as _;

/// The width of a cell in the picture's units; its height is twice that.
pub(super) const WIDTH: u32 = 8;
/// The height of a cell.
pub(super) const HEIGHT: u32 = 16;

/// How the path of a shape is painted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) enum Paint {
    /// Filled.
    Area,
    /// Round dots.
    Dots,
    /// Lines.
    Lines,
    /// Heavy lines.
    HeavyLines,
}

/// Adds the path of `glyph` in the cell whose corner is at `(x, y)` to `path`; nothing if it is a
/// letter.
pub(super) fn paint(glyph: char, x: u32, y: u32, path: &mut String) -> Option<Paint> {
    if let Some(eighths) = lower_block(glyph) {
        let height = HEIGHT * eighths / 8;
        let _ = write!(path, "M{x} {}h{WIDTH}v{height}h-{WIDTH}z", y + HEIGHT - height);
        return Some(Paint::Area);
    }
    if let Some((across, down, bits)) = dots_of(glyph) {
        let braille = ('\u{2800}'..='\u{28ff}').contains(&glyph);
        dots(braille, (across, down, bits), (x, y), path);
        return Some(if braille { Paint::Dots } else { Paint::Area });
    }
    let (arms, paint) = arms(glyph)?;
    let (middle_x, middle_y) = (x + WIDTH / 2, y + HEIGHT / 2);
    let ends = [(middle_x, y), (x + WIDTH, middle_y), (middle_x, y + HEIGHT), (x, middle_y)];
    for (end_x, end_y) in arms.chars().filter_map(|arm| Some(ends["urdl".find(arm)?])) {
        let _ = write!(path, "M{middle_x} {middle_y}L{end_x} {end_y}");
    }
    Some(paint)
}

fn dots(round: bool, (across, down, bits): (u8, u8, u8), (x, y): (u32, u32), path: &mut String) {
    for dot in 0..across * down {
        if bits >> dot & 1 == 0 {
            continue;
        }
        let (column, row) = (u32::from(dot % across), u32::from(dot / across));
        let (width, height) = (WIDTH / u32::from(across), f64::from(HEIGHT) / f64::from(down));
        let (left, top) = (x + column * width, f64::from(y) + f64::from(row) * height);
        let _ = match round {
            true => write!(path, "M{} {}h0", left + width / 2, top + height / 2.0),
            false => write!(path, "M{left} {top:.2}h{width}v{height:.2}h-{width}z"),
        };
    }
}

/// How many eighths of the cell a block fills from its foot.
fn lower_block(glyph: char) -> Option<u32> {
    ('▁'..='█').contains(&glyph).then(|| glyph as u32 - '▁' as u32 + 1)
}

/// The arms of a line drawing character: up, right, down, left of the cell's middle.
fn arms(glyph: char) -> Option<(&'static str, Paint)> {
    let arms = match glyph {
        '─' => "lr",
        '│' => "ud",
        '┌' | '╭' => "rd",
        '┐' | '╮' => "ld",
        '└' | '╰' => "ur",
        '┘' | '╯' => "ul",
        '├' => "udr",
        '┤' => "udl",
        '┬' => "lrd",
        '┴' => "lru",
        '┼' => "lrud",
        '╶' => "r",
        '╴' => "l",
        '╷' => "d",
        '╵' => "u",
        '┣' => return Some(("udr", Paint::HeavyLines)),
        '┫' => return Some(("udl", Paint::HeavyLines)),
        '━' => return Some(("lr", Paint::HeavyLines)),
        '┃' => return Some(("ud", Paint::HeavyLines)),
        '╺' => return Some(("r", Paint::HeavyLines)),
        '╸' => return Some(("l", Paint::HeavyLines)),
        _ => return None,
    };
    Some((arms, Paint::Lines))
}
