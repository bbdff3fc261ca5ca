//! Words turned into glyphs.

use std::ops::Range;

use rustybuzz::{Direction, UnicodeBuffer, script};
use unicode_bidi::BidiInfo;

use super::{Face, scripts};

/// A glyph where it stands; lengths are parts of the size of type.
#[derive(Debug, Clone, PartialEq)]
pub struct Glyph {
    /// Its number in the font; 0 is the box for what the font lacks.
    pub id: u16,
    /// The part of the words that it shows, alone or with its neighbours.
    pub shows: Range<usize>,
    /// How far the pen moves on.
    pub advance: f64,
    /// How far right of the pen it stands.
    pub right: f64,
    /// How far above the base line it stands.
    pub up: f64,
    /// Whether it is of words that run from right to left.
    pub backwards: bool,
}

/// A glyph as it is read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Read<'a> {
    /// The glyph.
    pub glyph: &'a Glyph,
    /// How far right of the line's beginning it stands, as a part of the size of type.
    pub at: f64,
    /// The letters that it stands for; none where its neighbour stands for them.
    pub letters: &'a str,
}

/// The letters of glyphs that show some together: one each, the rest with the last glyph; all with the
/// first where there are more glyphs than letters.
fn shared<'a>(cluster: &[(&'a Glyph, f64)], words: &'a str) -> Vec<Read<'a>> {
    let shows = cluster.first().and_then(|(glyph, _)| words.get(glyph.shows.clone()));
    let mut left = shows.unwrap_or_default();
    let enough = left.chars().count() >= cluster.len();
    let last = cluster.len() - 1;
    let take = |index: usize| {
        let one = left.chars().next().map_or(0, char::len_utf8);
        let (own, rest) = if enough && index < last { left.split_at(one) } else { (left, "") };
        left = rest;
        own
    };
    let letters: Vec<&str> = (0..cluster.len()).map(take).collect();
    let glyphs = cluster.iter().zip(letters);
    glyphs.map(|(&(glyph, at), letters)| Read { glyph, at, letters }).collect()
}

/// Words as glyphs, from left to right as they stand on paper.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Shaped {
    /// The face that they are of.
    pub face: Face,
    /// The glyphs.
    pub glyphs: Vec<Glyph>,
    /// How far the pen moves in all, as a part of the size of type.
    pub width: f64,
    /// How many glyphs are boxes, since the font lacks them.
    pub missing: usize,
    /// Whether some of the words run from right to left.
    pub right_to_left: bool,
}

impl Shaped {
    pub(super) fn new(face: Face, words: &str) -> Shaped {
        let mut shaped = Shaped { face, ..Shaped::default() };
        let order = BidiInfo::new(words, None);
        for paragraph in &order.paragraphs {
            let (levels, runs) = order.visual_runs(paragraph, paragraph.range.clone());
            for run in runs {
                let backwards = levels.get(run.start).is_some_and(|level| level.is_rtl());
                shaped.right_to_left |= backwards;
                shaped.run(words, run, backwards);
            }
        }
        shaped.width = shaped.glyphs.iter().map(|glyph| glyph.advance).sum();
        shaped.missing = shaped.glyphs.iter().filter(|glyph| glyph.id == 0).count();
        shaped
    }

    /// Adds a part of the words that runs one way, which may be of several scripts.
    fn run(&mut self, words: &str, part: Range<usize>, backwards: bool) {
        let Some(text) = words.get(part.clone()) else { return };
        let mut parts = scripts::parts(text);
        if backwards {
            parts.reverse();
        }
        for of_one in parts {
            self.script(words, part.start + of_one.start..part.start + of_one.end, backwards);
        }
    }

    /// Adds a part of the words that runs one way and is of one script.
    fn script(&mut self, words: &str, part: Range<usize>, backwards: bool) {
        let Some(tables) = self.face.tables() else { return };
        let Some(text) = words.get(part.clone()) else { return };
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(text);
        let forwards = Direction::LeftToRight;
        buffer.set_direction(if backwards { Direction::RightToLeft } else { forwards });
        buffer.guess_segment_properties();
        // Figures and signs alone are of no script.
        let is_latin = [script::LATIN, script::UNKNOWN].contains(&buffer.script()) && !backwards;
        let latin = self.face.latin().filter(|_| is_latin);
        let set = match latin {
            Some(latin) => {
                buffer.set_script(script::LATIN);
                rustybuzz::shape_with_plan(tables, latin, buffer)
            }
            None => rustybuzz::shape(tables, &[], buffer),
        };
        let em = f64::from(tables.units_per_em());
        let mut starts: Vec<usize> =
            set.glyph_infos().iter().map(|info| info.cluster as usize).collect();
        starts.sort_unstable();
        for (info, at) in set.glyph_infos().iter().zip(set.glyph_positions()) {
            let start = info.cluster as usize;
            let next = starts.get(starts.partition_point(|other| *other <= start));
            let end = next.copied().unwrap_or(text.len());
            self.glyphs.push(Glyph {
                // A font of this format has no more.
                id: u16::try_from(info.glyph_id).unwrap_or(0),
                shows: part.start + start..part.start + end,
                advance: f64::from(at.x_advance) / em,
                right: f64::from(at.x_offset) / em,
                up: f64::from(at.y_offset) / em,
                backwards,
            });
        }
    }

    /// The glyphs with the place of each, right of the line's beginning and above it.
    pub fn placed(&self) -> impl Iterator<Item = (&Glyph, f64, f64)> {
        let mut pen = 0.0;
        self.glyphs.iter().map(move |glyph| {
            let at = pen + glyph.right;
            pen += glyph.advance;
            (glyph, at, glyph.up)
        })
    }

    /// The glyphs in the order in which they are read, each with how far right of the line's beginning it stands
    /// and the letters that are its own.
    pub fn read<'a>(&'a self, words: &'a str) -> Vec<Read<'a>> {
        let mut order: Vec<(&Glyph, f64)> =
            self.placed().map(|(glyph, at, _)| (glyph, at)).collect();
        // Of what runs backwards the last glyph is read first; a mark then comes after its letter.
        for run in order.chunk_by_mut(|(a, _), (b, _)| a.backwards == b.backwards) {
            if run.first().is_some_and(|(glyph, _)| glyph.backwards) {
                run.reverse();
            }
        }
        order.sort_by_key(|(glyph, _)| glyph.shows.start);
        let together = order.chunk_by(|(a, _), (b, _)| a.shows == b.shows);
        together.flat_map(|cluster| shared(cluster, words)).collect()
    }
}
