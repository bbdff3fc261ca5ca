//! Places of a chart as they are typed.

use ::chart::{Chart, Named, Point};
use anyhow::bail;
use nav::{GridPoint, text};

/// The point of the chart that `text` names: by a name on the chart, as a grid reference, or as
/// latitude and longitude.
pub(crate) fn meant(chart: &Chart, text: &str) -> anyhow::Result<Point> {
    if let Some(named) = named(chart, text)? {
        return Ok(named.at);
    }
    let (low, high) = (chart.extent.min(), chart.extent.max());
    let middle = (low + high) / 2.0;
    let near = GridPoint::from_metres(middle.x, middle.y).ok();
    let grid = &chart.grid;
    let reference = grid.parse_reference(text, near).map(|square| square.centre());
    let position = text::parse_position(text);
    let point = match (reference, position) {
        (Ok(point), _) => point,
        (_, Ok(position)) => grid.forward(position)?.point,
        (Err(reference), Err(position)) => bail!(wrong(text, &reference, &position)),
    };
    let point = Point { x: point.easting.as_metres(), y: point.northing.as_metres() };
    if !(low.x..=high.x).contains(&point.x) || !(low.y..=high.y).contains(&point.y) {
        bail!("{text} is not on this chart");
    }
    Ok(point)
}

/// What of this name stands on the chart: the one whose whole name it is, else the one whose name
/// begins with it.
fn named<'a>(chart: &'a Chart, text: &str) -> anyhow::Result<Option<Named<'a>>> {
    let wanted = text.to_lowercase();
    if wanted.is_empty() {
        bail!("no place is given");
    }
    let whole = |it: &Named<'_>| it.name.to_lowercase() == wanted;
    let begins = |it: &Named<'_>| it.name.to_lowercase().starts_with(&wanted);
    if let Some(found) = chart.named().find(whole) {
        return Ok(Some(found));
    }
    let found: Vec<Named<'_>> = chart.named().filter(begins).collect();
    match found.as_slice() {
        [] => Ok(None),
        [one] => Ok(Some(*one)),
        [one, other, ..] => bail!(
            "{} names on the chart begin with “{text}”: {}, {}, …; give all of one",
            found.len(),
            one.name,
            other.name
        ),
    }
}

/// What is wrong with a text that means no place: what it looks most like says it.
fn wrong(text: &str, reference: &nav::ReferenceError, position: &impl std::fmt::Display) -> String {
    if !text.chars().any(|c| c.is_ascii_digit()) {
        return format!("no name on the chart begins with “{text}”");
    }
    let angular = text.contains(['°', '′', '″', '\'', '"', '.', ',', '-']);
    if angular { position.to_string() } else { reference.to_string() }
}
