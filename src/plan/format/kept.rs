//! What another program says of a point, in a route file.

use nav::Length;
use serde::Deserialize;
use serde::de::{Deserializer, Error as _};

use super::list::bounded_list;
use super::read::by;
use super::write::quoted;
use crate::EditError;
use crate::along::bounded;
use crate::kept::{Kept, Link};

#[derive(Deserialize)]
#[serde(rename = "Kept", deny_unknown_fields)]
struct KeptFile {
    #[serde(default, deserialize_with = "height")]
    height_m: Option<Length>,
    #[serde(default)]
    symbol: String,
    #[serde(default)]
    class: String,
    #[serde(default)]
    description: String,
    #[serde(default, deserialize_with = "links")]
    links: Vec<Link>,
}

#[derive(Deserialize)]
#[serde(rename = "Link", deny_unknown_fields)]
struct LinkFile {
    address: String,
    #[serde(default)]
    text: String,
    #[serde(default)]
    kind: String,
}

pub(super) fn read<'de, D: Deserializer<'de>>(d: D) -> Result<Option<Box<Kept>>, D::Error> {
    let KeptFile { height_m, symbol, class, description, links } = KeptFile::deserialize(d)?;
    let kept = Kept { height: height_m, symbol, class, description, links };
    kept.checked().map_err(D::Error::custom)
}

fn height<'de, D: Deserializer<'de>>(d: D) -> Result<Option<Length>, D::Error> {
    by(d, |metres: f64| Length::from_metres(metres).map(Some))
}

fn links<'de, D: Deserializer<'de>>(d: D) -> Result<Vec<Link>, D::Error> {
    bounded_list(d, |before: &Vec<Link>, LinkFile { address, text, kind }| {
        bounded("links of a point", before.len() + 1, Kept::MOST_LINKS)?;
        Ok::<_, EditError>(Link { address, text, kind })
    })
}

/// The field of a point that says it.
pub(super) fn written(kept: &Kept) -> String {
    let mut fields = Vec::new();
    fields.extend(kept.height.map(|height| format!("height_m: {:?}", height.as_metres())));
    let texts =
        [("symbol", &kept.symbol), ("class", &kept.class), ("description", &kept.description)];
    fields.extend(texts.into_iter().filter_map(|(name, text)| named(name, text)));
    if !kept.links.is_empty() {
        let links: Vec<String> = kept.links.iter().map(link).collect();
        fields.push(format!("links: [{}]", links.join(", ")));
    }
    format!("kept: ({})", fields.join(", "))
}

fn link(link: &Link) -> String {
    let address = Some(format!("address: {}", quoted(&link.address)));
    let fields = [address, named("text", &link.text), named("kind", &link.kind)];
    format!("({})", fields.into_iter().flatten().collect::<Vec<_>>().join(", "))
}

fn named(name: &str, text: &str) -> Option<String> {
    (!text.is_empty()).then(|| format!("{name}: {}", quoted(text)))
}
