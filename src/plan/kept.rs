//! What another program says of a point that a plan has no use for, kept so that it goes out again as it came.

use nav::Length;

use crate::EditError;
use crate::along::bounded;
use crate::route::text;

/// What another program says of a point.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Kept {
    /// Its height above the sea, on whatever level that program goes by.
    pub height: Option<Length>,
    /// The sign to show it by, or empty.
    pub symbol: String,
    /// Its class, or empty.
    pub class: String,
    /// A description beside its note, or empty.
    pub description: String,
    /// Pages about it.
    pub links: Vec<Link>,
}

/// A page about a point.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Link {
    /// Its address.
    pub address: String,
    /// What it is called, or empty.
    pub text: String,
    /// Its media type, or empty.
    pub kind: String,
}

impl Kept {
    /// The most characters in a sign, a class, and what a link is called.
    pub const MOST_WORDS: usize = 60;
    /// The most characters in a description and an address.
    pub const MOST_TEXT: usize = 400;
    /// The most links.
    pub const MOST_LINKS: usize = 4;

    /// Nothing where nothing is kept.
    #[must_use]
    pub fn some(self) -> Option<Box<Kept>> {
        (self != Kept::default()).then(|| Box::new(self))
    }

    /// The same of the point in another place, which has another height.
    pub(crate) fn moved(&self) -> Option<Box<Kept>> {
        Kept { height: None, ..self.clone() }.some()
    }

    /// The same with its texts cleaned, if they keep their bounds.
    pub(crate) fn checked(self) -> Result<Option<Box<Kept>>, EditError> {
        bounded("links of a point", self.links.len(), Kept::MOST_LINKS)?;
        let link = |link: Link| {
            Ok(Link {
                address: text("link's address", &link.address, Kept::MOST_TEXT)?,
                text: text("link's text", &link.text, Kept::MOST_WORDS)?,
                kind: text("link's kind", &link.kind, Kept::MOST_WORDS)?,
            })
        };
        let kept = Kept {
            height: self.height,
            symbol: text("symbol", &self.symbol, Kept::MOST_WORDS)?,
            class: text("class", &self.class, Kept::MOST_WORDS)?,
            description: text("description", &self.description, Kept::MOST_TEXT)?,
            links: self.links.into_iter().map(link).collect::<Result<_, EditError>>()?,
        };
        Ok(kept.some())
    }
}
