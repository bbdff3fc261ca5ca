//! The route as a value.

use chart::Chart;
use chart::clean::clean;
use jiff::SignedDuration;
use nav::magnetic::VariationSource;
use nav::{OutOfRange, Pace, PaceUnit, Position, Speed};

use crate::along::bounded;
use crate::{Along, Departure, EditError, Kept, Limits, Line, Steering, Weather};

/// A route: points in order, and what its times are reckoned from.
#[derive(Debug, Clone, PartialEq)]
pub struct Route {
    /// What it is called, or empty.
    pub title: String,
    /// The title of the chart that it is laid on.
    pub chart: String,
    /// Launch, turning points and landing, in the order in which they are reached.
    pub points: Vec<Waypoint>,
    /// How fast the group gets along, as [`written_pace`] rounds it.
    pub pace: Pace,
    /// Where the variation of its magnetic bearings comes from.
    pub variation: VariationSource,
    /// When the group leaves; nothing until it is set.
    pub departure: Option<Departure>,
    /// The wind of the day, as [`Weather::checked`] rounds it; none is reckoned with until it is set.
    pub wind: Option<Weather>,
    /// What a start must keep to, as [`Limits::checked`] rounds it.
    pub limits: Limits,
}

/// A route was opened on another chart than its own.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the route is laid on the chart “{laid_on}”, not on “{open}”; open it with its own chart")]
pub struct OtherChart {
    /// The title of the route's own chart.
    pub laid_on: String,
    /// The title of the chart that is open.
    pub open: String,
}

/// A point of a route.
#[derive(Debug, Clone, PartialEq)]
pub struct Waypoint {
    /// Its name, or empty. Two points may share one: a route can pass a place twice.
    pub name: String,
    /// Where it is, rounded as [`rounded`] does.
    pub at: Position,
    /// How long the group stays there.
    pub stop: SignedDuration,
    /// A word about it, or empty.
    pub note: String,
    /// How the leg that ends here runs; straight if nothing is said. The first point ends no leg.
    pub along: Option<Along>,
    /// How the leg that ends here is steered where the water moves. A traced leg is steered on its line.
    pub steer: Steering,
    /// What another program says of it that a plan has no use for.
    pub kept: Option<Box<Kept>>,
}

impl Route {
    /// The most points that a route holds: three figures number them.
    pub const MOST_POINTS: usize = 999;
    /// The most characters in a title.
    pub const MOST_TITLE: usize = 80;

    /// A route without points, on the chart of this title, at three knots.
    pub fn new(chart: &str) -> Route {
        Route {
            title: String::new(),
            chart: chart.to_owned(),
            points: Vec::new(),
            pace: usual_pace(),
            variation: VariationSource::Model,
            departure: None,
            wind: None,
            limits: Limits::default(),
        }
    }

    /// Whether the route is laid on `chart`.
    ///
    /// # Errors
    /// [`OtherChart`] when it is laid on a chart of another title: its points are where they are
    /// on the Earth, but may have neither water nor paper under them here.
    pub fn check_chart(&self, chart: &Chart) -> Result<(), OtherChart> {
        if self.chart == chart.title {
            return Ok(());
        }
        Err(OtherChart { laid_on: self.chart.clone(), open: chart.title.clone() })
    }

    /// The line of leg `index`, counted from zero, both ends included; nothing if there is no such leg.
    pub fn line_of(
        &self,
        index: usize,
    ) -> Option<impl DoubleEndedIterator<Item = Position> + Clone> {
        let (from, to) = (self.points.get(index)?, self.points.get(index + 1)?);
        let between = to.along.as_ref().map(|along| &along.line[..]).unwrap_or_default();
        Some(std::iter::once(from.at).chain(between.iter().copied()).chain([to.at]))
    }

    /// This route with its text cleaned and its positions rounded, if it keeps every bound.
    pub(crate) fn checked(self) -> Result<Route, EditError> {
        if self.points.len() > Route::MOST_POINTS {
            return Err(EditError::TooManyPoints);
        }
        let points: Vec<Waypoint> =
            self.points.into_iter().map(Waypoint::checked).collect::<Result<_, _>>()?;
        if let Some(first) = points.first() {
            first.check_first()?;
        }
        bounded_vertices(vertices(&points))?;
        let title = text("title", &self.title, Route::MOST_TITLE)?;
        let (pace, limits) = (written_pace(self.pace)?, self.limits.checked()?);
        let wind = self.wind.map(Weather::checked).transpose()?;
        Ok(Route { title, points, pace, wind, limits, ..self })
    }
}

impl Waypoint {
    /// The most characters in a name.
    pub const MOST_NAME: usize = 60;
    /// The most characters in a note.
    pub const MOST_NOTE: usize = 400;
    /// The longest stop: a week.
    pub const LONGEST_STOP: SignedDuration = SignedDuration::from_hours(7 * 24);

    /// A point without a name, a stop or a note.
    pub fn new(at: Position) -> Waypoint {
        Waypoint {
            name: String::new(),
            at: rounded(at),
            stop: SignedDuration::ZERO,
            note: String::new(),
            along: None,
            steer: Steering::Line,
            kept: None,
        }
    }

    /// The same point with this name.
    #[must_use]
    pub fn named(self, name: &str) -> Waypoint {
        Waypoint { name: name.to_owned(), ..self }
    }

    /// The same point with the leg that ends there running along a shore.
    #[must_use]
    pub fn reached(self, along: Along) -> Waypoint {
        Waypoint { along: Some(along), ..self }
    }

    /// The same point with the leg that ends there steered so.
    #[must_use]
    pub fn steered(self, steer: Steering) -> Waypoint {
        Waypoint { steer, ..self }
    }

    /// Whether it can be a route's first point, which ends no leg.
    pub(crate) fn check_first(&self) -> Result<(), EditError> {
        if self.along.is_some() {
            return Err(EditError::FirstPoint);
        }
        if self.steer != Steering::Line {
            return Err(EditError::NothingToSteer);
        }
        Ok(())
    }

    /// Whether the leg that ends here can be steered as it says.
    pub(crate) fn check_steering(&self) -> Result<(), EditError> {
        if self.along.is_some() && self.steer == Steering::OneHeading {
            return Err(EditError::OneHeadingAlong);
        }
        Ok(())
    }

    pub(crate) fn checked(self) -> Result<Waypoint, EditError> {
        self.check_steering()?;
        Ok(Waypoint {
            name: text("name", &self.name, Waypoint::MOST_NAME)?,
            at: rounded(self.at),
            stop: stop(self.stop)?,
            note: text("note", &self.note, Waypoint::MOST_NOTE)?,
            along: self.along.map(Along::checked).transpose()?,
            steer: self.steer,
            kept: self.kept.map(|kept| kept.checked()).transpose()?.flatten(),
        })
    }
}

/// `at` rounded to 1e-9 of a degree, at most 0.06 mm of latitude away: what a route file holds.
///
/// That is within the 0.1 mm by which a grid reference counts a point short of a grid line as on
/// it, so that a point keeps its reference when it is dropped, also on the line itself.
///
/// A position is rounded once, as it enters a route, so that document and file agree to the last bit.
#[must_use]
pub fn rounded(at: Position) -> Position {
    // Adding zero turns a negative zero into a plain one, which the file would write differently.
    let round = |degrees: f64| (degrees * 1e9).round() / 1e9 + 0.0;
    let rounded: Result<Position, OutOfRange> =
        Position::from_degrees(round(at.lat.as_degrees()), round(at.lon.as_degrees()));
    // The bounds are whole degrees, so that rounding cannot leave them.
    rounded.unwrap_or(at)
}

/// `pace` as it is written: hundredths of its unit, whole minutes of rest. Like a position it is
/// rounded once, so that document and file agree.
///
/// # Errors
/// [`EditError::Pace`] when nothing is left of it.
pub fn written_pace(pace: Pace) -> Result<Pace, EditError> {
    let rest = SignedDuration::from_mins(pace.rest_per_hour().as_mins());
    let rounded = pace.to_string().parse::<Pace>().and_then(|pace| pace.with_rest_per_hour(rest));
    rounded.ok().filter(|pace| pace.speed().as_knots() > 0.0).ok_or(EditError::Pace(pace))
}

/// Common practice, no published source: a laden group makes about three knots.
fn usual_pace() -> Pace {
    Pace::new(Speed::from_knots(3.0).unwrap_or(Speed::KNOT), PaceUnit::Knots)
}

/// The vertices of all traced legs.
pub(crate) fn vertices(points: &[Waypoint]) -> usize {
    points.iter().filter_map(|point| point.along.as_ref()).map(|along| along.line.len()).sum()
}

/// Whether a route holds so many.
pub(crate) const fn bounded_vertices(vertices: usize) -> Result<(), EditError> {
    bounded("vertices in the route's traced legs", vertices, Line::MOST_IN_ROUTE)
}

/// `value` cleaned and trimmed, if it is not too long.
pub(crate) fn text(what: &'static str, value: &str, most: usize) -> Result<String, EditError> {
    match value.trim().chars().count() {
        count if count > most => Err(EditError::TooLong { what, count, most }),
        _ => Ok(clean(value, most)),
    }
}

/// `stop` in whole minutes, if it is within its bounds.
pub(crate) fn stop(stop: SignedDuration) -> Result<SignedDuration, EditError> {
    if stop.is_negative() || stop > Waypoint::LONGEST_STOP {
        return Err(EditError::Stop { minutes: stop.as_mins() });
    }
    Ok(SignedDuration::from_mins(stop.as_mins()))
}
