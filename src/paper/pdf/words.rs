//! A line of text in a PDF.

use pdf_writer::writers::PositionedItems;
use pdf_writer::{Content, Finish, Name, Str, TextStr};

use super::content::{Sheet, hundredths};
use super::fonts::Code;
use crate::draw::{Ink, Mm, Path, Stroke, Text};
use crate::font::trace::{self, Curves};
use crate::font::{self, Shaped};

/// Writes a line of text: what is copied from it are its words as they are read.
///
/// The glyphs come in the order in which they are read, also where that runs from right to left: readers
/// that go by places put them in order themselves, and the others need not.
pub(super) fn show(sheet: &mut Sheet<'_>, text: &Text) {
    if text.words.trim().is_empty() {
        return;
    }
    let shaped = font::shape(text.face, &text.words);
    if text.halo > Mm::ZERO {
        wipe(sheet, text, &shaped);
    }
    let (codes, speak) = sheet.fonts.codes(&shaped, &text.words);
    if speak {
        show_glyphs(sheet, text, &shaped, &codes);
        return;
    }
    // Where glyphs and letters do not go one to one the words are written beside them.
    let mut beside = sheet.content.begin_marked_content_with_properties(Name(b"Span"));
    beside.properties().actual_text(TextStr(&text.words));
    beside.finish();
    show_glyphs(sheet, text, &shaped, &codes);
    sheet.content.end_marked_content();
}

/// Wipes out what is under the letters. It is drawn, not written, so that it is not read; a wide line may
/// follow the curves coarsely.
fn wipe(sheet: &mut Sheet<'_>, text: &Text, shaped: &Shaped) {
    let outline = trace::line(text, shaped, Curves::Coarse);
    let stroke = Some(Stroke::new(Ink::WHITE, text.halo * 2.0).round());
    sheet.path(&Path { outline, fill: None, stroke });
}

fn show_glyphs(sheet: &mut Sheet<'_>, text: &Text, shaped: &Shaped, codes: &[Code]) {
    let back = text.before(Mm::from(text.size) * shaped.width);
    let (sin, cos) = text.turn.to_radians().sin_cos();
    let (x, y) = sheet.place(text.at.moved(back * -cos, back * -sin));
    let (sin, cos) = (sin as f32, cos as f32);
    sheet.fill_ink(text.ink);
    let name = Name(sheet.fonts.name(shaped.face).as_bytes());
    let content = sheet.content.begin_text();
    content.set_font(name, hundredths(text.size.0)).set_text_matrix([cos, -sin, sin, cos, x, y]);
    glyphs(content, codes, text.size.0);
    content.end_text();
}

fn glyphs(content: &mut Content, codes: &[Code], size: f64) {
    let mut pen = 0.0;
    // Glyphs that stand at one height are shown in one go.
    for run in codes.chunk_by(|a, b| a.up == b.up) {
        let up = run.first().map_or(0.0, |code| code.up);
        if up != 0.0 || pen != 0.0 {
            content.set_rise(hundredths(up * size));
        }
        let mut line = content.show_positioned();
        let mut items = line.items();
        let mut letters = Vec::new();
        for code in run {
            // Thousandths of the size, to a hundredth.
            let back = hundredths((pen - code.at) * 1000.0);
            if back != 0.0 {
                flush(&mut items, &mut letters);
                items.adjust(back);
                pen -= f64::from(back) / 1000.0;
            }
            letters.extend(code.code.to_be_bytes());
            pen += code.moves;
        }
        flush(&mut items, &mut letters);
    }
    if codes.iter().any(|code| code.up != 0.0) {
        content.set_rise(0.0);
    }
}

fn flush(items: &mut PositionedItems<'_>, letters: &mut Vec<u8>) {
    if !letters.is_empty() {
        items.show(Str(letters));
        letters.clear();
    }
}
