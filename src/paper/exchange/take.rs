//! A route of what another tool wrote.

use nav::{Length, Position};
use plan::track::Track;
use plan::{Along, Document, EditError, Kept, Line, Link, Route, Waypoint};

use super::left::{Kind, Left};
use super::thin::thin;
use super::{ForeignPoint, ForeignRoute, Own};

/// A route, and what of the file is not in it, a sentence each.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// The route.
    pub route: Route,
    /// What is not in it.
    pub left_out: Vec<String>,
}

/// Why there is no route.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum TakeError {
    /// It would have no points.
    #[error("there are no points in it")]
    Empty,
    /// The names alone are more than a route holds.
    #[error("{0} of its points have names; a route holds at most {most} points", most = Route::MOST_POINTS)]
    Names(usize),
    /// It is out of the bounds of a route.
    #[error(transparent)]
    Bounds(#[from] EditError),
}

impl ForeignRoute {
    /// The route on a chart of this title.
    ///
    /// A route that this program wrote comes back whole. Of one with more points than a route holds, those
    /// without a name are thinned.
    ///
    /// # Errors
    /// [`TakeError`] when it has no points or too many names.
    pub fn taken(&self, chart: &str) -> Result<Taken, TakeError> {
        let mut left = Left::default();
        let mut route = self.own.as_deref().cloned().unwrap_or_else(|| Route::new(chart));
        // A route without a title goes out by its chart's.
        let untitled = route.title.is_empty() && self.own.is_some() && self.name == route.chart;
        if !untitled && !self.name.is_empty() {
            route.title = cut(&self.name, Route::MOST_TITLE, &mut left);
        }
        route.chart = chart.to_owned();
        let mut thinning = None;
        let points = if self.points.iter().any(|point| point.own.is_some()) {
            joined(&self.points, &mut left)?
        } else {
            let kept;
            (kept, thinning) = fitted(&self.points)?;
            kept.into_iter().map(|point| plain(point, &mut left)).collect()
        };
        route.points = points;
        finished(route, left.said().into_iter().chain(thinning).collect())
    }
}

/// A route through points, in their order.
///
/// # Errors
/// As [`ForeignRoute::taken`].
pub fn through(points: &[ForeignPoint], title: &str, chart: &str) -> Result<Taken, TakeError> {
    let route =
        ForeignRoute { name: title.to_owned(), points: points.to_vec(), ..ForeignRoute::default() };
    route.taken(chart)
}

/// A route along a track, thinned so that it strays from the track by no more than `within`, with legs across
/// the gaps between its segments.
///
/// # Errors
/// As [`ForeignRoute::taken`].
pub fn along_track(track: &Track, within: Length, chart: &str) -> Result<Taken, TakeError> {
    let line: Vec<Position> = track.fixes().iter().map(|fix| fix.at).collect();
    let thinned = thin(&line, [], within, Route::MOST_POINTS);
    let kept = thinned.kept.iter().filter_map(|&index| line.get(index));
    let mut left = Left::default();
    let title = cut(track.name(), Route::MOST_TITLE, &mut left);
    let points = kept.map(|&at| Waypoint::new(at)).collect::<Vec<_>>();
    let mut left_out = left.said();
    left_out.push(format!(
        "of {} fixes {} are points of the route, which strays from the track by {} at most; their times are left out",
        line.len(),
        points.len(),
        thinned.strays_said(),
    ));
    let gaps = track.segments().len().saturating_sub(1);
    if gaps > 0 {
        left_out.push(format!("gaps of the track are straight legs, or parts of them ({gaps})"));
    }
    finished(Route { title, points, ..Route::new(chart) }, left_out)
}

/// The route within its bounds.
fn finished(route: Route, left_out: Vec<String>) -> Result<Taken, TakeError> {
    if route.points.is_empty() {
        return Err(TakeError::Empty);
    }
    Ok(Taken { route: Document::new(route)?.route().clone(), left_out })
}

/// The points that are kept of a route of any length, and what that does to it.
fn fitted(points: &[ForeignPoint]) -> Result<(Vec<&ForeignPoint>, Option<String>), TakeError> {
    if points.len() <= Route::MOST_POINTS {
        return Ok((points.iter().collect(), None));
    }
    let line: Vec<Position> = points.iter().map(|point| point.at).collect();
    let named = |index: &usize| points.get(*index).is_some_and(|point| !point.name.is_empty());
    let names: Vec<usize> = (0..points.len()).filter(named).collect();
    // Both ends are kept as well.
    if names.len() + 2 > Route::MOST_POINTS {
        return Err(TakeError::Names(names.len()));
    }
    let thinned = thin(&line, names, Length::ZERO, Route::MOST_POINTS);
    let kept: Vec<_> = thinned.kept.iter().filter_map(|&index| points.get(index)).collect();
    let said = format!(
        "of {} points {} are kept, as many as a route holds; it strays by {} at most",
        points.len(),
        kept.len(),
        thinned.strays_said()
    );
    Ok((kept, Some(said)))
}

/// The points of a route that this program wrote, with the lines of its legs.
fn joined(points: &[ForeignPoint], left: &mut Left) -> Result<Vec<Waypoint>, TakeError> {
    let mut joined = Vec::new();
    let mut between: Vec<Position> = Vec::new();
    for point in points {
        if matches!(point.own.as_deref(), Some(Own::Between)) {
            between.push(point.at);
            continue;
        }
        let mut waypoint = plain(point, left);
        if let Some(Own::Facts(facts)) = point.own.as_deref() {
            let Waypoint { stop, steer, along, at, kept, .. } = facts.clone();
            let kept = waypoint.kept.take().or(kept);
            waypoint = Waypoint { stop, steer, along, kept, ..waypoint };
            if is_same(at, waypoint.at) {
                waypoint.at = at;
            }
        }
        let line = std::mem::take(&mut between);
        if joined.is_empty() {
            // Another tool has taken the first point out: what leads to this one is no leg.
            (waypoint.along, waypoint.steer) = (None, plan::Steering::Line);
        } else if let Some(along) = &mut waypoint.along {
            along.line = Line::new(line)?;
        } else if !line.is_empty() {
            let line = Line::new(line)?;
            waypoint.along = Some(Along::new(line, &[], Length::ZERO, Length::ZERO));
            waypoint.steer = plan::Steering::Line;
        }
        joined.push(waypoint);
    }
    Ok(joined)
}

/// Whether two positions are one, the 180th meridian being that of -180.
fn is_same(one: Position, other: Position) -> bool {
    one.lat == other.lat && one.lon.degrees_east_of(other.lon) == 0.0
}

fn plain(point: &ForeignPoint, left: &mut Left) -> Waypoint {
    let name = cut(&point.name, Waypoint::MOST_NAME, left);
    Waypoint {
        note: cut(&point.note, Waypoint::MOST_NOTE, left),
        kept: point.kept.as_deref().and_then(|kept| within(kept, left)),
        ..Waypoint::new(point.at).named(&name)
    }
}

/// What is kept of a point, within the bounds of a route. An address that is cut leads nowhere.
fn within(kept: &Kept, left: &mut Left) -> Option<Box<Kept>> {
    let mut links = Vec::new();
    for Link { address, text, kind } in &kept.links {
        let fits = address.chars().count() <= Kept::MOST_TEXT && links.len() < Kept::MOST_LINKS;
        if !fits {
            left.count(Kind::Links);
            continue;
        }
        let [text, kind] = [text, kind].map(|words| cut(words, Kept::MOST_WORDS, left));
        links.push(Link { address: address.clone(), text, kind });
    }
    let kept = Kept {
        height: kept.height,
        symbol: cut(&kept.symbol, Kept::MOST_WORDS, left),
        class: cut(&kept.class, Kept::MOST_WORDS, left),
        description: cut(&kept.description, Kept::MOST_TEXT, left),
        links,
    };
    kept.some()
}

fn cut(text: &str, most: usize, left: &mut Left) -> String {
    if text.chars().count() > most {
        left.count(Kind::Cut);
    }
    chart::clean::clean(text, most)
}
