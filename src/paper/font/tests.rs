//! Tests of the type.

use super::*;

#[test]
fn both_faces_can_be_read_and_hold_the_signs_of_a_card() {
    let signs = "0123456789°′″½→←↑↓▲△●○×–—…“”’·NMkm ÆØÅæøåÉéñşŁłÞð Ελλάδα Москва שלום سلام";
    for face in Face::ALL {
        assert!(face.tables().is_some());
        assert_eq!(shape(face, signs).missing, 0, "{face:?}");
    }
}

#[test]
fn what_the_font_lacks_is_a_box_and_is_counted() {
    let shaped = shape(Face::Bold, "ab 海峡");
    assert_eq!((shaped.glyphs.len(), shaped.missing), (5, 2));
    assert!(shaped.width > 1.5);
}

#[test]
fn an_accent_of_its_own_stands_over_its_letter() {
    // Composed where the font has the letter; else set over it, without moving the pen.
    assert_eq!(shape(Face::Regular, "e\u{301}").glyphs.len(), 1);
    let odd = shape(Face::Regular, "q\u{301}x");
    assert_eq!(odd.glyphs.len(), 3);
    assert_eq!(odd.glyphs[1].advance, 0.0);
    assert_eq!(odd.glyphs[0].shows, 0..3);
    assert_eq!(odd.glyphs[2].shows, 3..4);
}

#[test]
fn words_from_right_to_left_stand_so() {
    let shaped = shape(Face::Regular, "ab שלום 12");
    assert!(shaped.right_to_left);
    let starts: Vec<usize> = shaped.glyphs.iter().map(|glyph| glyph.shows.start).collect();
    // a b space, then the number left of the word, whose last letter comes first.
    assert_eq!(starts, [0, 1, 2, 12, 13, 11, 9, 7, 5, 3]);
    // Arabic letters take the forms of their places.
    let arabic = shape(Face::Regular, "سلام");
    assert_eq!(arabic.missing, 0);
    assert!(arabic.glyphs.len() <= 4);
}

#[test]
fn letters_join_also_after_a_word_of_another_script() {
    let ids = |words: &str| -> Vec<u16> {
        shape(Face::Regular, words).glyphs.iter().map(|glyph| glyph.id).collect()
    };
    let apart: Vec<u16> = "مالس".chars().flat_map(|c| ids(&c.to_string())).collect();
    let (hebrew, arabic) = (ids("שלום "), ids("سلام"));
    assert_ne!(arabic, apart);
    // On paper the word that is read last stands on the left.
    assert_eq!(ids("שלום سلام"), [arabic.clone(), hebrew].concat());
    let shaped = shape(Face::Regular, "שלום سلام");
    let read: String = shaped.read("שלום سلام").iter().map(|read| read.letters).collect();
    assert_eq!(read, "שלום سلام");
    assert_eq!(ids("سلام שלום"), [ids("שלום"), ids("سلام ")].concat());
}

#[test]
fn the_licence_is_the_one_that_the_fonts_carry() {
    let licence = include_str!("../fonts/LICENCE.txt");
    for face in Face::ALL {
        let names = face.tables().unwrap().names();
        let text = |id| names.into_iter().find(|name| name.name_id == id && name.is_unicode());
        let carried = text(ttf_parser::name_id::LICENSE).unwrap().to_string().unwrap();
        assert!(licence.contains(carried.replace("\r\n", "\n").trim()), "{face:?}");
        let version = text(ttf_parser::name_id::VERSION).unwrap().to_string().unwrap();
        assert_eq!(version, "Version 2.37");
    }
}

#[test]
fn widths_are_those_of_the_font() {
    let figures = width(Face::Regular, "0000000000", Pt(72.0));
    let one = shape(Face::Regular, "0").width;
    assert!((figures.0 - 254.0 * one).abs() < 1e-9);
    for figure in "123456789".chars() {
        assert_eq!(shape(Face::Regular, &figure.to_string()).width, one);
    }
}
