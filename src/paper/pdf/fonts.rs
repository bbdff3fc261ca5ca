//! The type in a PDF: each face cut to the glyphs that the pages have.

use std::collections::BTreeMap;

use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, Str};
use subsetter::GlyphRemapper;

use super::{Numbers, packed};
use crate::font::{Face, Read, Shaped};

const SYSTEM: SystemInfo<'static> =
    SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };

/// The faces of a document.
pub(super) struct Fonts {
    faces: [Used; 2],
    missing: usize,
}

/// What is used of a face.
struct Used {
    face: Face,
    id: Ref,
    codes: GlyphRemapper,
    /// What the glyph of each code is read as.
    reads: BTreeMap<u16, String>,
}

/// A glyph to be shown.
#[derive(Debug, Clone, Copy)]
pub(super) struct Code {
    /// Its number in the font as it is cut.
    pub(super) code: u16,
    /// How far right of the line's beginning it stands, as a part of the size of type.
    pub(super) at: f64,
    /// How far above the base line.
    pub(super) up: f64,
    /// How far the font moves the pen after it.
    pub(super) moves: f64,
}

/// What stands for a letter that the font lacks.
const UNKNOWN: &str = "\u{FFFD}";

impl Fonts {
    pub(super) fn new(numbers: &mut Numbers) -> Fonts {
        let faces = Face::ALL.map(|face| Used {
            face,
            id: numbers.next(),
            codes: GlyphRemapper::new(),
            reads: BTreeMap::new(),
        });
        Fonts { faces, missing: 0 }
    }

    /// What a face is called in the pages.
    pub(super) const fn name(&self, face: Face) -> &'static str {
        match face {
            Face::Regular => "R",
            Face::Bold => "B",
        }
    }

    /// The names of the faces that are used so far.
    pub(super) fn names(&self) -> impl Iterator<Item = (&'static str, Ref)> + '_ {
        let used = self.faces.iter().filter(|used| !used.reads.is_empty());
        used.map(|used| (self.name(used.face), used.id))
    }

    pub(super) const fn missing(&self) -> usize {
        self.missing
    }

    /// The glyphs of a line in the order in which they are read, which from now on are in the font,
    /// and whether they alone are read as the words.
    pub(super) fn codes(&mut self, shaped: &Shaped, words: &str) -> (Vec<Code>, bool) {
        self.missing += shaped.missing;
        let used = &mut self.faces[shaped.face as usize];
        let mut speak = true;
        let code = |read: Read<'_>| {
            let glyph = read.glyph;
            let code = used.codes.remap(glyph.id);
            let letters = if glyph.id == 0 { UNKNOWN } else { read.letters };
            let known = used.reads.entry(code).or_insert_with(|| letters.to_owned());
            speak &= known == read.letters;
            Code { code, at: read.at, up: glyph.up, moves: used.advance(glyph.id) }
        };
        let codes = shaped.read(words).into_iter().map(code).collect();
        (codes, speak)
    }

    pub(super) fn write(self, pdf: &mut Pdf, numbers: &mut Numbers) {
        for used in self.faces.into_iter().filter(|used| !used.reads.is_empty()) {
            used.write(pdf, numbers);
        }
    }
}

impl Used {
    /// How far the font moves the pen after a glyph, as a part of the size of type.
    fn advance(&self, glyph: u16) -> f64 {
        let Some(tables) = self.face.tables() else { return 0.0 };
        let units = tables.glyph_hor_advance(ttf_parser::GlyphId(glyph)).unwrap_or(0);
        f64::from(units) / f64::from(tables.units_per_em())
    }

    fn write(&self, pdf: &mut Pdf, numbers: &mut Numbers) {
        let [cid, descriptor, file, reads] = [(); 4].map(|()| numbers.next());
        let name = format!("{}+{}", self.tag(), self.face.name());
        let name = Name(name.as_bytes());
        let mut font = pdf.type0_font(self.id);
        font.base_font(name).encoding_predefined(Name(b"Identity-H"));
        font.descendant_font(cid).to_unicode(reads);
        font.finish();
        let mut glyphs = pdf.cid_font(cid);
        glyphs.subtype(CidFontType::Type2).base_font(name).system_info(SYSTEM);
        glyphs.font_descriptor(descriptor).default_width(0.0);
        glyphs.cid_to_gid_map_predefined(Name(b"Identity"));
        let widths = self.codes.remapped_gids().map(|gid| (self.advance(gid) * 1000.0) as f32);
        glyphs.widths().consecutive(0, widths);
        glyphs.finish();
        self.write_descriptor(pdf, descriptor, file, name);
        // The whole font is right too, only larger.
        let cut = subsetter::subset(self.face.data(), 0, &self.codes);
        let cut = cut.unwrap_or_else(|_| self.face.data().to_owned());
        pdf.stream(file, &packed(&cut))
            .filter(Filter::FlateDecode)
            .pair(Name(b"Length1"), cut.len() as i32);
        let mut map = UnicodeCmap::new(Name(b"Reads"), SYSTEM);
        for (code, letters) in self.reads.iter().filter(|(_, letters)| !letters.is_empty()) {
            map.pair_with_multiple(*code, letters.chars());
        }
        let map = packed(&map.finish().into_vec());
        pdf.cmap(reads, &map).filter(Filter::FlateDecode);
    }

    fn write_descriptor(&self, pdf: &mut Pdf, descriptor: Ref, file: Ref, name: Name<'_>) {
        let Some(tables) = self.face.tables() else { return };
        let per_mille = |units: i16| f32::from(units) * 1000.0 / tables.units_per_em() as f32;
        let all = tables.global_bounding_box();
        let (low, high) = ((all.x_min, all.y_min), (all.x_max, all.y_max));
        pdf.font_descriptor(descriptor)
            .name(name)
            .flags(FontFlags::SYMBOLIC)
            .bbox(Rect::new(
                per_mille(low.0),
                per_mille(low.1),
                per_mille(high.0),
                per_mille(high.1),
            ))
            .italic_angle(0.0)
            .ascent(per_mille(tables.ascender()))
            .descent(per_mille(tables.descender()))
            .cap_height(per_mille(tables.capital_height().unwrap_or(tables.ascender())))
            .stem_v(if self.face == Face::Bold { 140.0 } else { 80.0 })
            .font_file2(file);
    }

    /// Six capitals that tell subsets of one font apart, by their glyphs (FNV-1a).
    fn tag(&self) -> String {
        let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
        for byte in self.codes.remapped_gids().flat_map(u16::to_be_bytes) {
            hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
        (0..6).map(|place| char::from(b'A' + (hash >> (8 * place)) as u8 % 26)).collect()
    }
}
