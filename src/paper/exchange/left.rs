//! What a foreign file holds and is not kept, counted while it is read and said once.

use super::moment::Zone;

/// A kind of what is not kept, or is taken otherwise than it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Heights above the sea.
    Heights,
    /// The time of a point that is no fix of a track.
    Times,
    /// Links to pages.
    Links,
    /// Where a point came from, its class and the sign to show it by.
    Classes,
    /// Satellites, dilution of precision and other qualities of a fix.
    Qualities,
    /// Names and words of track points.
    FixTexts,
    /// What another program adds in a form of its own.
    Extensions,
    /// Elements that the format does not know.
    Unknown,
    /// A description beside a comment.
    Descriptions,
    /// Texts that were cut.
    Cut,
    /// Times in a zone of their own.
    Zones,
    /// Times without a zone.
    NoZone,
    /// Areas, and features without a place.
    Shapes,
    /// Columns and properties that are not known.
    Columns,
    /// The author, the licence, the key words and the description of the file.
    About,
}

impl Kind {
    const ALL: [Kind; 15] = [
        Kind::Heights,
        Kind::Times,
        Kind::Links,
        Kind::Classes,
        Kind::Qualities,
        Kind::FixTexts,
        Kind::Extensions,
        Kind::Unknown,
        Kind::Descriptions,
        Kind::Cut,
        Kind::Zones,
        Kind::NoZone,
        Kind::Shapes,
        Kind::Columns,
        Kind::About,
    ];

    const fn said(self) -> &'static str {
        match self {
            Kind::Heights => "heights are left out",
            Kind::Times => "times of points that are no fixes are left out",
            Kind::Links => "links are left out",
            Kind::Classes => "sources, classes, numbers and signs are left out",
            Kind::Qualities => "qualities of fixes are left out, such as their satellites",
            Kind::FixTexts => "names and words of track points are left out",
            Kind::Extensions => "additions in another program's own form are left out",
            Kind::Unknown => "elements that the format does not have are left out",
            Kind::Descriptions => "descriptions beside a comment are left out",
            Kind::Cut => "texts are longer than is kept, and are cut",
            Kind::Zones => "times are in a zone of their own, and are turned into UTC",
            Kind::NoZone => "times have no zone, and are taken for UTC",
            Kind::Shapes => "areas and features without a place are left out",
            Kind::Columns => "further columns or properties are left out",
            Kind::About => "author, licence, key words and description of the file are left out",
        }
    }
}

/// The counts.
#[derive(Debug, Default)]
pub(super) struct Left([u64; Kind::ALL.len()]);

impl Left {
    pub(super) fn count(&mut self, kind: Kind) {
        if let Some(count) = self.0.get_mut(kind as usize) {
            *count += 1;
        }
    }

    /// What another count has, as well.
    pub(super) fn add(&mut self, other: &Left) {
        for (count, more) in self.0.iter_mut().zip(other.0) {
            *count += more;
        }
    }

    pub(super) fn zone(&mut self, zone: Zone) {
        match zone {
            Zone::Utc => {}
            Zone::Other => self.count(Kind::Zones),
            Zone::None => self.count(Kind::NoZone),
        }
    }

    /// A sentence for each kind that there is, with how many.
    pub(super) fn said(&self) -> Vec<String> {
        let counted = Kind::ALL.iter().zip(self.0).filter(|&(_, count)| count > 0);
        counted.map(|(kind, count)| format!("{} ({count})", kind.said())).collect()
    }
}
