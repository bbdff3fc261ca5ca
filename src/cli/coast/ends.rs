//! Places as they are typed, caught by the nearest shore.

use ::chart::coast::ShorePoint;
use ::chart::{Named, Point};
use anyhow::{anyhow, bail};
use files::OpenedChart;
use nav::{Figures, GridPoint, Length, Position, geodesic, text};

/// An end of a piece of shore.
pub(super) struct End {
    /// As it was typed.
    pub(super) text: String,
    /// Where on the shore it was caught.
    pub(super) on: ShorePoint,
    /// The same by latitude and longitude.
    pub(super) position: Position,
    /// Its grid reference, or empty where the grid has none.
    pub(super) reference: String,
    /// How far from what was typed that is, on the ground.
    pub(super) caught: Length,
}

impl End {
    /// The place on the shore nearest to what `text` means.
    pub(super) fn find(opened: &OpenedChart, text: &str) -> anyhow::Result<End> {
        let meant = meant(opened, text.trim())?;
        let near = opened
            .coast
            .nearest(meant, f64::INFINITY)
            .ok_or_else(|| anyhow!("there is no shore near {text}"))?;
        let position = super::position(opened, near.on.at)?;
        let caught = geodesic::inverse(super::position(opened, meant)?, position).distance;
        let point = GridPoint::from_metres(near.on.at.x, near.on.at.y)?;
        let reference = opened.chart.grid.reference(point, Figures::Eight).unwrap_or_default();
        Ok(End { text: text.trim().to_owned(), on: near.on, position, reference, caught })
    }
}

/// The point of the chart that `text` names: by a name on the chart, as a grid reference, or as
/// latitude and longitude.
fn meant(opened: &OpenedChart, text: &str) -> anyhow::Result<Point> {
    if let Some(named) = named(opened, text)? {
        return Ok(named.at);
    }
    let (low, high) = (opened.chart.extent.min(), opened.chart.extent.max());
    let middle = (low + high) / 2.0;
    let near = GridPoint::from_metres(middle.x, middle.y).ok();
    let grid = &opened.chart.grid;
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
fn named<'a>(opened: &'a OpenedChart, text: &str) -> anyhow::Result<Option<Named<'a>>> {
    let wanted = text.to_lowercase();
    if wanted.is_empty() {
        bail!("no place is given");
    }
    let whole = |it: &Named<'_>| it.name.to_lowercase() == wanted;
    let begins = |it: &Named<'_>| it.name.to_lowercase().starts_with(&wanted);
    if let Some(found) = opened.chart.named().find(whole) {
        return Ok(Some(found));
    }
    let found: Vec<Named<'_>> = opened.chart.named().filter(begins).collect();
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
