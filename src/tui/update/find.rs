//! What the jump box finds: a grid reference, a latitude and longitude, or a name.

use chart::{Chart, Extent, Point};
use nav::{GridPoint, text};

use crate::State;
use crate::state::{Found, FoundKind};

/// The most names that are listed.
const MOST: usize = 50;

/// The places that `wanted` can mean, the likeliest first, or what is wrong with it. Nothing is
/// wrong with no text at all.
pub(super) fn find(state: &State, wanted: &str) -> Result<Vec<Found>, String> {
    let wanted = wanted.trim();
    if wanted.is_empty() {
        return Ok(Vec::new());
    }
    let (reference, position) = (reference(state, wanted), position(state, wanted));
    let mut found: Vec<Found> = [&reference, &position].into_iter().flatten().cloned().collect();
    found.retain(|found| on_chart(state.chart.extent, found.at));
    found.extend(names(state, wanted));
    if found.is_empty() { Err(wrong(wanted, reference, position)) } else { Ok(found) }
}

/// What is wrong with a text that nothing was found for: what it looks most like says it.
fn wrong(
    wanted: &str,
    reference: Result<Found, String>,
    position: Result<Found, String>,
) -> String {
    let outside = |found: Found| format!("{} is not on this chart", found.title);
    if !wanted.chars().any(|c| c.is_ascii_digit()) {
        return format!("no name on the chart or of the route begins with “{wanted}”");
    }
    // Signs of an angle, or a letter of a quarter behind a figure.
    let angular = wanted.contains(['°', '′', '″', '\'', '"', '.', ',', '-'])
        || wanted.ends_with(['N', 'S', 'E', 'W', 'n', 's', 'e', 'w']);
    let (likely, other) = if angular { (position, reference) } else { (reference, position) };
    match (likely, other) {
        (Ok(found), _) | (Err(_), Ok(found)) => outside(found),
        (Err(why), Err(_)) => why,
    }
}

fn reference(state: &State, wanted: &str) -> Result<Found, String> {
    let near = GridPoint::from_metres(state.cursor.x, state.cursor.y).ok();
    let square =
        state.chart.grid.parse_reference(wanted, near).map_err(|error| error.to_string())?;
    let GridPoint { easting, northing } = square.centre();
    let at = Point { x: easting.as_metres(), y: northing.as_metres() };
    let figures = nav::Figures::ALL.into_iter().find(|figures| figures.side() == square.side);
    let written = figures.and_then(|f| state.chart.grid.reference(square.south_west, f).ok());
    let title = written.unwrap_or_else(|| wanted.to_owned());
    Ok(Found { at, title, kind: FoundKind::Reference })
}

fn position(state: &State, wanted: &str) -> Result<Found, String> {
    let position = text::parse_position(wanted).map_err(|error| error.to_string())?;
    let title = text::position(position, text::AngleStyle::default());
    let at = state
        .point_of(position)
        .ok_or_else(|| format!("the chart's grid does not reach {title}"))?;
    Ok(Found { at, title, kind: FoundKind::Position })
}

/// The names that begin with `wanted`, then those in which a later word does.
fn names(state: &State, wanted: &str) -> Vec<Found> {
    let wanted = wanted.to_lowercase();
    let waypoints = state.document.route().points.iter().filter_map(|waypoint| {
        let at = state.point_of(waypoint.at)?;
        Some(Found { at, title: waypoint.name.clone(), kind: FoundKind::Waypoint })
    });
    let named = waypoints.chain(on_the_chart(&state.chart));
    let mut found: Vec<(bool, Found)> = named
        .filter_map(|found| {
            let name = found.title.to_lowercase();
            let first = name.starts_with(&wanted);
            let later =
                || name.match_indices(' ').any(|(at, _)| name[at + 1..].starts_with(&wanted));
            (first || later()).then_some((!first, found))
        })
        .collect();
    found.sort_by(|a, b| (a.0, &a.1.title).cmp(&(b.0, &b.1.title)));
    found.into_iter().map(|(_, found)| found).take(MOST).collect()
}

fn on_the_chart(chart: &Chart) -> impl Iterator<Item = Found> + '_ {
    chart.named().map(|it| Found {
        at: it.at,
        title: it.name.to_owned(),
        kind: FoundKind::Named(it.what),
    })
}

fn on_chart(extent: Extent, Point { x, y }: Point) -> bool {
    let (low, high) = (extent.min(), extent.max());
    (low.x..=high.x).contains(&x) && (low.y..=high.y).contains(&y)
}
