//! Tests of the SVG.

use quick_xml::Reader;
use quick_xml::events::Event;

use super::*;
use crate::draw::{Area, Pt, Size};

fn page() -> Page {
    let mut page = Page::new(Size::new(100.0, 60.0));
    let at = |y: f64| Spot::new(50.0, y);
    let sheet = Area::at(Spot::new(1.0, 1.0), Size::new(98.0, 58.0));
    page.items.push(Item::both(Outline::rectangle(sheet), Ink::Grey(0.9), Stroke::black(0.5)));
    let circle = Outline::circle(Spot::new(80.0, 30.0), Mm(12.0));
    page.items.push(Item::clipped(
        sheet.inset(Mm(5.0)),
        vec![Item::stroke(circle, Stroke::dotted(Ink::BLACK, 0.5, 1.5))],
    ));
    page.items.push(Text::new("A & B <\"c\"> d'E\u{1}", at(20.0), Pt(14.0)).middle().bold().into());
    page.items.push(Text::new("ab שלום 12", at(35.0), Pt(12.0)).right().into());
    page.items
        .push(Text::new("Ærøskøbing", at(50.0), Pt(10.0)).turned(-20.0).on_white(Mm(0.6)).into());
    page
}

/// The texts of a document, if it is well formed.
fn texts(svg: &str) -> Vec<String> {
    let mut reader = Reader::from_str(svg);
    reader.config_mut().check_end_names = true;
    let (mut found, mut within) = (Vec::new(), false);
    loop {
        match reader.read_event().unwrap() {
            Event::Eof => return found,
            Event::Start(tag) => {
                within = matches!(tag.name().as_ref(), "text" | "title");
                if within {
                    found.push(String::new());
                }
                assert!(tag.attributes().all(|attribute| attribute.is_ok()));
            }
            Event::End(_) => within = false,
            Event::Text(text) if within => {
                found.last_mut().unwrap().push_str(&text);
            }
            Event::GeneralRef(name) if within => {
                let letter = quick_xml::escape::resolve_predefined_entity(&name).unwrap();
                found.last_mut().unwrap().push_str(letter);
            }
            _ => {}
        }
    }
}

#[test]
fn a_document_is_well_formed_and_holds_its_words() {
    let svg = write(&page(), "One & <two>");
    let words = ["One & <two>", "A & B <\"c\"> d'E", "ab שלום 12", "Ærøskøbing"];
    assert_eq!(texts(&svg), words);
    assert!(svg.contains("width=\"100mm\" height=\"60mm\" viewBox=\"0 0 100 60\""));
    assert_eq!(svg, write(&page(), "One & <two>"));
}

#[test]
fn every_letter_that_is_used_is_drawn_once() {
    let svg = write(&page(), "");
    let mut used = 0;
    for part in svg.split("<use href=\"#").skip(1) {
        let name = part.split('"').next().unwrap();
        assert_eq!(svg.matches(&format!("<path id=\"{name}\" ")).count(), 1, "{name}");
        used += 1;
    }
    // Each glyph once, spaces too; those on white twice.
    assert_eq!(used, "A & B <'c'> d'E?".len() + 10 + 2 * 10);
}

#[test]
fn numbers_say_no_more_than_they_mean() {
    let cases = [(0.0, "0"), (-0.000_1, "0"), (1.5, "1.5"), (100.0, "100"), (0.000_6, "0.001")];
    for (value, text) in cases {
        assert_eq!(number(value), text);
    }
}

/// For a look by eye.
#[test]
#[ignore = "writes files to look at"]
fn show() {
    crate::tests::show("page.svg", write(&page(), "A page").as_bytes());
}
