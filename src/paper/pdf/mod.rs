//! Pages as a PDF: compressed, the type embedded, its words to be selected and searched.
//!
//! The same pages give the same bytes: nothing of the machine or the hour is in them unless it is handed in.

mod content;
mod fonts;
mod words;

#[cfg(test)]
mod tests;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use pdf_writer::types::PageMode;
use pdf_writer::writers::DocumentInfo;
use pdf_writer::{Date, Filter, Finish, Name, Pdf, Rect, Ref, TextStr};
use std::io::Write;

use crate::draw::{Page, Pt};
use fonts::Fonts;

/// What a document says of itself.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct About<'a> {
    /// What it is called.
    pub title: &'a str,
    /// When it was made, if it is to say so.
    pub made: Option<Timestamp>,
}

/// Pages as they leave.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Set {
    /// The file.
    pub bytes: Vec<u8>,
    /// How many letters are shown as boxes, since the font lacks them.
    pub missing: usize,
}

/// Hands out the numbers of the objects.
struct Numbers(i32);

impl Numbers {
    fn next(&mut self) -> Ref {
        self.0 += 1;
        Ref::new(self.0)
    }
}

/// The pages as a PDF.
#[must_use]
pub fn write(pages: &[Page], about: &About<'_>) -> Set {
    let mut numbers = Numbers(0);
    let [catalog, tree, info] = [(); 3].map(|()| numbers.next());
    let mut fonts = Fonts::new(&mut numbers);
    let mut pdf = Pdf::new();
    pdf.set_version(1, 7);
    let mut kids = Vec::with_capacity(pages.len());
    for page in pages {
        let [id, stream] = [(); 2].map(|()| numbers.next());
        let drawn = packed(&content::of(page, &mut fonts));
        pdf.stream(stream, &drawn).filter(Filter::FlateDecode);
        write_page(&mut pdf, page, [id, tree, stream], &fonts);
        kids.push(id);
    }
    // The count of pages of a document that can be held in memory.
    pdf.pages(tree).count(kids.len() as i32).kids(kids.iter().copied());
    let missing = fonts.missing();
    fonts.write(&mut pdf, &mut numbers);
    write_catalog(&mut pdf, catalog, tree);
    write_info(pdf.document_info(info), about);
    Set { bytes: pdf.finish(), missing }
}

fn write_page(pdf: &mut Pdf, page: &Page, [id, tree, stream]: [Ref; 3], fonts: &Fonts) {
    let [width, height] = [page.size.width, page.size.height].map(|mm| Pt::from(mm).0 as f32);
    let mut written = pdf.page(id);
    written.parent(tree).media_box(Rect::new(0.0, 0.0, width, height)).contents(stream);
    let mut resources = written.resources();
    let mut list = resources.fonts();
    for (name, font) in fonts.names() {
        list.pair(Name(name.as_bytes()), font);
    }
}

fn write_catalog(pdf: &mut Pdf, catalog: Ref, tree: Ref) {
    let mut written = pdf.catalog(catalog);
    written.pages(tree).page_mode(PageMode::UseNone).lang(TextStr("en-GB"));
    let mut wishes = written.viewer_preferences();
    wishes.display_doc_title(true);
    // A page that is printed larger or smaller has no true scale.
    wishes.pair(Name(b"PrintScaling"), Name(b"None"));
}

fn write_info(mut info: DocumentInfo<'_>, about: &About<'_>) {
    info.title(TextStr(about.title));
    info.producer(TextStr("Strandline"));
    if let Some(made) = about.made {
        let utc = TimeZone::UTC.to_datetime(made);
        // Of a jiff date every part is within the bounds that a PDF's date has.
        let date = Date::new(utc.year() as u16)
            .month(utc.month() as u8)
            .day(utc.day() as u8)
            .hour(utc.hour() as u8)
            .minute(utc.minute() as u8)
            .second(utc.second() as u8)
            .utc_offset_hour(0)
            .utc_offset_minute(0);
        info.creation_date(date);
    }
    info.finish();
}

/// Bytes packed by zlib. Into memory it cannot fail, and were it to, nothing would be shown.
fn packed(bytes: &[u8]) -> Vec<u8> {
    let mut packer = ZlibEncoder::new(Vec::new(), Compression::new(6));
    let written = packer.write_all(bytes);
    written.and_then(|()| packer.finish()).unwrap_or_default()
}
