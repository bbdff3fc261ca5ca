//! Tests of setting text.

use proptest::prelude::*;

use super::*;
use crate::draw::{Item, Spot};
use crate::font::{self, Face};

const SIZE: Pt = Pt(8.0);

fn width(words: &str) -> Mm {
    font::width(Face::Regular, words, SIZE)
}

#[test]
fn type_shrinks_to_seven_points_and_no_further() {
    let name = "A very long name of a place";
    assert_eq!(shrunk(Face::Regular, name, Pt(12.0), Mm(200.0)), Pt(12.0));
    assert_eq!(shrunk(Face::Regular, name, Pt(12.0), Mm(5.0)), Pt(7.0));
    let fits = shrunk(Face::Regular, name, Pt(12.0), Mm(45.0));
    assert!(fits > Pt(7.0) && fits < Pt(12.0), "{fits:?}");
}

#[test]
fn a_line_of_several_scripts_is_as_long_as_its_words() {
    let words = "סכלםשל ييجسثثت";
    let each: Mm = words.split_inclusive(' ').map(width).sum();
    assert!((each - width(words)).abs() < Mm(0.01), "{each:?} {:?}", width(words));
    for room in 80..300 {
        let room = Mm(f64::from(room) / 10.0);
        for line in lines(Face::Regular, words, SIZE, room) {
            assert!(width(&line) <= room, "{line} {room:?}");
        }
    }
}

proptest! {
    #[test]
    fn lines_have_room_in_any_script(
        words in "([a-zé]{1,9} |[а-я]{1,9} |[א-ת]{1,9} |[ابتثجحدرسصطعقكلامنهوي]{1,9} |[0-9(-]{1,3}){0,16}",
        room in 8.0..60.0,
    ) {
        for line in lines(Face::Regular, &words, SIZE, Mm(room)) {
            prop_assert!(width(&line) <= Mm(room), "{line}");
        }
    }

    #[test]
    fn lines_have_room_and_lose_nothing(words in "[a-zé ]{0,120}", room in 8.0..60.0) {
        let set = lines(Face::Regular, &words, SIZE, Mm(room));
        let letters = |text: &str| text.chars().filter(|c| *c != ' ').collect::<String>();
        prop_assert_eq!(letters(&set.concat()), letters(&words));
        for line in &set {
            prop_assert!(width(line) <= Mm(room), "{line}");
        }
    }

    #[test]
    fn runs_have_room_and_lose_nothing(
        parts in prop::collection::vec((any::<bool>(), "[a-zé]{1,30} ?([a-z]{1,9} ){0,4}"), 0..9),
        room in 15.0..80.0,
    ) {
        let face = |bold: bool| if bold { Face::Bold } else { Face::Regular };
        let parts: Vec<(Face, String)> =
            parts.into_iter().map(|(bold, words)| (face(bold), words)).collect();
        let set = runs(&parts, SIZE, Mm(room));
        let letters = |all: &[(Face, String)]| -> Vec<(Face, char)> {
            let each = all.iter().flat_map(|(face, words)| words.chars().map(|c| (*face, c)));
            each.filter(|(_, c)| *c != ' ').collect()
        };
        prop_assert_eq!(letters(&set.concat()), letters(&parts));
        for line in &set {
            let (last, others) = line.split_last().unwrap();
            let wide: Mm = others.iter().map(|(face, words)| font::width(*face, words, SIZE)).sum();
            let seen = wide + font::width(last.0, last.1.trim_end(), SIZE);
            prop_assert!(seen <= Mm(room + 0.01), "{line:?}");
        }
    }

    #[test]
    fn cells_do_not_overlap_and_keep_within_the_table(
        rows in prop::collection::vec(("[a-z ]{0,60}", 0u32..100_000, "[A-Z]{2} [0-9]{3}"), 1..12),
        room in 40.0..120.0,
    ) {
        let columns =
            [Column::figures("no"), Column::wrapped("to"), Column::words("at"), Column::figures("km")];
        let rows: Vec<Row> = rows.into_iter().enumerate().map(|(index, (name, km, at))| Row {
            cells: vec![
                Cell::new(index.to_string()),
                Cell::bold(name),
                Cell::new(at),
                Cell::new(km.to_string()),
            ],
            note: String::new(),
        }).collect();
        let Some(table) = Table::new(&columns, &rows, SIZE, Mm(room)) else { return Ok(()) };
        let mut at = Spot::new(10.0, 10.0);
        let mut areas = Vec::new();
        let mut set = table.head(at);
        at = at.moved(Mm::ZERO, table.head_height());
        for index in 0..table.rows() {
            set.extend(table.row(index, at));
            at = at.moved(Mm::ZERO, table.row_height(index));
        }
        for item in &set {
            if let Item::Text(text) = item {
                prop_assert!(text.area().left >= Mm(9.999) && text.area().right() <= Mm(10.001 + room));
                // Letters rise and hang less than the area of a line.
                let area = text.area();
                let core = area.between(area.top + Mm(0.5), area.bottom() - Mm(0.4)).inset(Mm(0.01));
                prop_assert!(areas.iter().all(|other| !core.overlaps(other)), "{text:?}");
                areas.push(core);
            }
        }
    }
}
