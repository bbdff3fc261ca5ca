//! Dot sets, signs and textures.

use super::*;
use crate::theme::Ground;
use std::collections::HashSet;
use unicode_width::UnicodeWidthChar;

#[test]
fn every_pattern_of_dots_has_its_own_glyph_of_one_column() {
    for set in DotSet::ALL {
        let (across, down) = set.size();
        let patterns = 0..=((1u16 << (across * down)) - 1) as u8;
        let glyphs: HashSet<char> = patterns.clone().map(|bits| set.glyph(bits)).collect();
        assert_eq!(glyphs.len(), patterns.len(), "{set:?}");
        assert!(glyphs.iter().all(|g| g.width() == Some(1)), "{set:?}");
    }
}

#[test]
fn dots_are_numbered_row_by_row() {
    assert_eq!(DotSet::Braille.glyph(0b01), '⠁');
    assert_eq!(DotSet::Braille.glyph(0b10), '⠈');
    assert_eq!(DotSet::Braille.glyph(0b1100_0000), '⣀');
    assert_eq!(DotSet::Quadrant.glyph(0b0110), '▞');
    assert_eq!(DotSet::Octant.glyph(0b0011), '🮂');
    assert_eq!(DotSet::Ascii.glyph(0b10), '.');
}

#[test]
fn a_name_finds_its_set_and_a_wrong_one_is_told_the_right_ones() {
    for set in DotSet::ALL {
        assert_eq!(set.name().parse(), Ok(set));
    }
    let wrong = "brail".parse::<DotSet>().unwrap_err().to_string();
    assert_eq!(
        wrong,
        "no dots are called 'brail'; there are braille, octant, sextant, quadrant, half-block, dot, ascii"
    );
}

#[test]
fn signs_are_one_column_wide_and_differ_by_shape() {
    for ascii in [false, true] {
        let set = if ascii { DotSet::Ascii } else { DotSet::Braille };
        let all: HashSet<char> = Sign::ALL.iter().map(|s| s.symbol().character(set)).collect();
        assert_eq!(all.len(), Sign::ALL.len());
        assert!(all.iter().all(|g| g.width() == Some(1) && g.is_ascii() == ascii));
    }
}

#[test]
fn waypoints_are_ringed_up_to_twenty() {
    assert_eq!(waypoint_number(1, DotSet::Braille), Some('①'));
    assert_eq!(waypoint_number(20, DotSet::Braille), Some('⑳'));
    assert_eq!(waypoint_number(21, DotSet::Braille), None);
    assert_eq!(waypoint_number(0, DotSet::Braille), None);
    assert_eq!(waypoint_number(9, DotSet::Ascii), Some('9'));
    assert_eq!(waypoint_number(10, DotSet::Ascii), None);
}

/// The share of dots, or of cells with a character, that a texture sets.
fn density(ground: Ground, set: DotSet) -> f64 {
    let (across, down) = set.size();
    let cells = (-8..8).flat_map(|row| (-8..8).map(move |column| (column, row)));
    let marks: u32 = cells
        .map(|(column, row)| match texture(ground, set, column, row) {
            Texture::Dots(bits) => bits.count_ones(),
            Texture::Character(' ') => 0,
            Texture::Character(_) => u32::from(across * down),
        })
        .sum();
    f64::from(marks) / (256.0 * f64::from(across * down))
}

#[test]
fn textures_thin_out_as_water_deepens_and_no_two_are_alike() {
    for set in DotSet::ALL {
        let [deep, moderate, shallow, shoal, drying, land] = Ground::ALL.map(|g| density(g, set));
        assert_eq!(deep, 0.0);
        assert!(
            moderate > 0.0 && moderate < shallow && shallow < shoal && shoal <= drying,
            "{set:?}"
        );
        assert!(land > 0.0 && land < drying, "{set:?}");
        let look = |g: Ground| {
            let rows =
                (0..8).map(|row| (0..8).map(|c| texture(g, set, c, row)).collect::<Vec<_>>());
            rows.collect::<Vec<_>>()
        };
        for (i, a) in Ground::ALL.iter().enumerate() {
            for b in &Ground::ALL[i + 1..] {
                assert_ne!(look(*a), look(*b), "{set:?}: {a:?} {b:?}");
            }
        }
    }
}

#[test]
fn races_are_drawn_by_every_set() {
    for set in DotSet::ALL {
        let drawn =
            (0..3).any(|c| !matches!(race(set, c, 0), Texture::Dots(0) | Texture::Character(' ')));
        assert!(drawn, "{set:?}");
    }
}
