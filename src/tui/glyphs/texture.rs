//! What tells kinds of ground apart without colour: land is stippled, drying ground hatched,
//! shallow water ruled with dashes that thin out as it deepens, deep water empty.

use super::DotSet;
use crate::theme::Ground;

/// The texture of a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Texture {
    /// Dots, as [`DotSet::glyph`] takes them.
    Dots(u8),
    /// A character of its own, where cells have too few dots for a pattern.
    Character(char),
}

/// The texture of a kind of ground in the cell at `column`, `row`, counted from the grid's origin
/// so that it moves with the ground.
pub(crate) fn texture(ground: Ground, dots: DotSet, column: i64, row: i64) -> Texture {
    match dots.size() {
        (2, down) => {
            let down = i64::from(down);
            let mut bits = 0;
            for y in 0..down {
                for x in 0..2 {
                    if is_dot(ground, column * 2 + x, row * down + y) {
                        bits |= 1 << (y * 2 + x);
                    }
                }
            }
            Texture::Dots(bits)
        }
        _ => Texture::Character(character(ground, dots, column, row)),
    }
}

fn is_dot(ground: Ground, x: i64, y: i64) -> bool {
    let (x8, y8) = (x.rem_euclid(8), y.rem_euclid(8));
    match ground {
        Ground::Deep => false,
        Ground::Moderate => (x8, y8) == (1, 1) || (x8, y8) == (5, 5),
        Ground::Shallow => (y8 == 1 && x8 < 2) || (y8 == 5 && (x8 == 4 || x8 == 5)),
        Ground::Shoal => (y8 % 4 == 1) && ((x8 + y8 - 1) % 8 < 4),
        Ground::Drying => (x + y).rem_euclid(3) == 0,
        Ground::Land => (x8 % 4 == 0 && y8 % 4 == 0) || (x8 % 4 == 2 && y8 % 4 == 2),
    }
}

fn character(ground: Ground, dots: DotSet, column: i64, row: i64) -> char {
    let every = |n: i64| (column + row * (n / 2)).rem_euclid(n) == 0;
    let ascii = dots == DotSet::Ascii;
    match ground {
        Ground::Land if every(2) => [':', '·'][usize::from(!ascii)],
        Ground::Drying => ['/', '╱'][usize::from(!ascii)],
        Ground::Shoal if every(2) => '-',
        Ground::Shallow if every(4) => '-',
        Ground::Moderate if every(8) => '-',
        _ => ' ',
    }
}

/// The texture of broken water.
pub(crate) fn race(dots: DotSet, column: i64, row: i64) -> Texture {
    let (2, down) = dots.size() else {
        return Texture::Character('~');
    };
    let down = i64::from(down);
    let mut bits = 0;
    for y in 0..down {
        for x in 0..2 {
            let across = (column * 2 + x).rem_euclid(6);
            let wave = if across < 3 { across } else { 6 - across };
            if (row * down + y).rem_euclid(4) == wave {
                bits |= 1 << (y * 2 + x);
            }
        }
    }
    Texture::Dots(bits)
}
