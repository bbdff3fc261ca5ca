//! Tests of the PDF.

use super::*;
use crate::draw::{Area, Ink, Item, Mm, Outline, Size, Spot, Stroke, Text};

const A6: Size = Size::new(105.0, 148.0);

fn pages() -> Vec<Page> {
    let mut one = Page::new(A6);
    one.items.push(Item::both(
        Outline::circle(Spot::new(50.0, 50.0), Mm(20.0)),
        Ink::Grey(0.9),
        Stroke::black(0.3),
    ));
    let at = |y: f64| Spot::new(10.0, y);
    one.items.push(Text::new("Jasumbey to Fjörðr, 057°M", at(20.0), Pt(12.0)).bold().into());
    one.items.push(Text::new("office ﬁne q\u{301}x AVAVA", at(30.0), Pt(12.0)).into());
    one.items.push(Text::new("ab שלום עולם 12", at(40.0), Pt(12.0)).into());
    one.items.push(Text::new("مرحبا سلام الأول", at(60.0), Pt(12.0)).into());
    one.items.push(Text::new("turned", at(80.0), Pt(9.0)).turned(30.0).on_white(Mm(0.5)).into());
    let mut two = Page::new(A6.turned());
    let clip = Area::at(Spot::new(10.0, 10.0), Size::new(30.0, 30.0));
    let line = Outline::line([Spot::default(), Spot::new(100.0, 100.0)]);
    two.items
        .push(Item::clipped(clip, vec![Item::stroke(line, Stroke::black(1.0).dashed(2.0, 1.0))]));
    two.items.push(Text::new("海峡", at(70.0), Pt(9.0)).into());
    vec![one, two]
}

fn written() -> Set {
    write(&pages(), &About { title: "Ærøy", made: None })
}

/// The objects of a file, found by its table: their offsets, checked to begin where it says.
fn offsets(bytes: &[u8]) -> Vec<usize> {
    let text = String::from_utf8_lossy(bytes);
    let tail = text.rsplit("startxref\n").next().unwrap();
    let start: usize = tail.lines().next().unwrap().parse().unwrap();
    let table = String::from_utf8_lossy(&bytes[start..]).into_owned();
    let mut lines = table.lines();
    assert_eq!(lines.next(), Some("xref"));
    let count: usize = lines.next().unwrap().split(' ').nth(1).unwrap().parse().unwrap();
    let rows = lines.take(count).enumerate().filter(|(_, row)| row.contains(" n"));
    rows.map(|(number, row)| {
        let offset: usize = row[..10].parse().unwrap();
        assert!(bytes[offset..].starts_with(format!("{number} 0 obj").as_bytes()), "{number}");
        offset
    })
    .collect()
}

/// What the streams of a file unpack to.
fn streams(bytes: &[u8]) -> Vec<Vec<u8>> {
    use std::io::Read;
    let find = |from: usize, word: &[u8]| {
        bytes[from..].windows(word.len()).position(|w| w == word).map(|at| from + at)
    };
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(start) = find(at, b"stream\n") {
        let end = find(start, b"\nendstream").unwrap();
        let mut out = Vec::new();
        flate2::read::ZlibDecoder::new(&bytes[start + 7..end]).read_to_end(&mut out).unwrap();
        found.push(out);
        at = end + 10;
    }
    found
}

#[test]
fn a_file_is_whole_and_always_the_same() {
    let set = written();
    assert_eq!(set, written());
    assert!(set.bytes.starts_with(b"%PDF-1.7"));
    assert!(offsets(&set.bytes).len() > 12);
    let text = String::from_utf8_lossy(&set.bytes);
    assert_eq!(text.matches("/Type /Page\n").count(), 2);
    assert!(text.contains("/Count 2") && text.contains("/PrintScaling /None"));
    assert!(text.contains("/MediaBox [0 0 297.6378 419.52756]"), "A6 in points");
    assert!(!text.contains("CreationDate"));
    let dated = About { title: "", made: Some("2026-06-14T09:30:00Z".parse().unwrap()) };
    let dated = write(&pages(), &dated).bytes;
    assert!(String::from_utf8_lossy(&dated).contains("(D:20260614093000Z"));
}

#[test]
fn only_the_letters_used_are_embedded_and_they_can_be_read() {
    let set = written();
    assert_eq!(set.missing, 2, "the two letters of the strait");
    let text = String::from_utf8_lossy(&set.bytes);
    assert_eq!(text.matches("/FontFile2").count(), 2);
    assert_eq!(text.matches("/ToUnicode").count(), 2);
    assert!(set.bytes.len() < 40_000, "{}", set.bytes.len());
    let streams = streams(&set.bytes);
    // The shaped words that no glyphs spell are written beside them.
    let page = String::from_utf8_lossy(&streams[0]).into_owned();
    assert_eq!(page.matches("/ActualText").count(), 0, "{page}");
    assert_eq!(String::from_utf8_lossy(&streams[1]).matches("/ActualText").count(), 1);
    let fonts = streams.iter().filter_map(|stream| ttf_parser::Face::parse(stream, 0).ok());
    let glyphs: Vec<u16> = fonts.map(|font| font.number_of_glyphs()).collect();
    assert!(glyphs.len() == 2 && glyphs.iter().all(|count| *count < 70), "{glyphs:?}");
    let maps = streams.iter().filter(|stream| stream.starts_with(b"%!PS-Adobe-3.0 Resource-CMap"));
    assert_eq!(maps.count(), 2);
}

/// For a look by eye and by other readers: `PAPER_OUT=FOLDER cargo test -p paper -- --ignored`.
#[test]
#[ignore = "writes files to look at"]
fn show() {
    crate::tests::show("pdf.pdf", &written().bytes);
}
