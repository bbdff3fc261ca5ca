//! What goes to another tool: a route on its chart, and things of the chart with it.

use chart::Chart;
use nav::{Length, Position};
use plan::table::{self, Style};
use plan::{Route, Steering, Waypoint};

use super::thin::{metres, thin};
use super::{Form, csv, geojson, gpx};
use crate::words;

/// What goes to another tool.
#[derive(Debug, Clone, Copy)]
pub struct Export<'a> {
    /// The route.
    pub route: &'a Route,
    /// The chart that it is laid on.
    pub chart: &'a Chart,
    /// What goes with it.
    pub with: &'a [With],
    /// The most points that the receiver takes; the lines of traced legs are thinned to that.
    pub most_points: Option<usize>,
    /// Whether the line of the whole route goes with it as a track.
    pub track: bool,
}

/// Things of a chart that go with a route.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum With {
    /// Where a kayak can land.
    Landings,
    /// What to keep clear of.
    Hazards,
    /// Fixed and floating marks.
    Marks,
    /// Names.
    Places,
}

/// The text of a file, and what is not in it, a sentence each.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// The text.
    pub text: String,
    /// What the form cannot hold, or was left out.
    pub left_out: Vec<String>,
}

impl Export<'_> {
    /// The file in a form.
    #[must_use]
    pub fn write(&self, form: Form) -> Written {
        match form {
            Form::Gpx => gpx::write(self),
            Form::GeoJson => geojson::write(self),
            Form::Csv => csv::write(self),
        }
    }

    /// What it is called: the route, or the chart where the route has no title.
    pub(super) fn title(&self) -> &str {
        if self.route.title.is_empty() { &self.chart.title } else { &self.route.title }
    }

    /// The cautions in one text.
    pub(super) fn cautions(&self) -> String {
        words::cautions(self.chart).join(" ")
    }

    /// What the file says of the route as a whole, in the form of the route file.
    pub(super) fn own_route(&self) -> String {
        plan::format::write(&Route { points: Vec::new(), ..self.route.clone() })
    }

    /// The points and legs in words.
    pub(super) fn stages(&self) -> Vec<Stage> {
        let Export { route, chart, .. } = *self;
        let reckoning = plan::reckon(route, &chart.grid);
        let style = Style::default();
        let points = table::points(route, &reckoning, &chart.grid, style);
        let legs = table::legs(route, &reckoning, &chart.grid, style).into_iter().map(Some);
        let legs = std::iter::once(None).chain(legs);
        let stage = |(point, leg): (table::PointRow, Option<table::LegRow>)| Stage {
            bearing: leg.as_ref().map_or_else(String::new, |leg| match &leg.from_magnetic {
                none if none.is_empty() => leg.from_true.clone(),
                magnetic => magnetic.clone(),
            }),
            nautical_miles: leg.as_ref().map(|leg| leg.nautical_miles.clone()).unwrap_or_default(),
            kilometres: leg.map(|leg| leg.kilometres).unwrap_or_default(),
            reference: point.reference,
        };
        points.into_iter().zip(legs).map(stage).collect()
    }

    /// The vertices of each leg between its ends, thinned where that is asked for; and by how much they stray.
    pub(super) fn lines(&self) -> (Vec<Vec<Position>>, Option<Thinning>) {
        let points = &self.route.points;
        let whole = |point: &Waypoint| {
            point.along.as_ref().map(|along| along.line.to_vec()).unwrap_or_default()
        };
        let lines: Vec<Vec<Position>> = points.iter().map(whole).collect();
        let all = points.len() + lines.iter().map(Vec::len).sum::<usize>();
        match self.most_points {
            Some(most) if all > most => thinned(points, &lines, all, most),
            _ => (lines, None),
        }
    }

    /// The things of the chart that go with it.
    pub(super) fn things(&self) -> Vec<Thing> {
        let chart = self.chart;
        let mut things = Vec::new();
        for with in self.with {
            let mut add = |name: &str, at, kind: &str, note: String| {
                // What lies beyond the grid's reach has no position; a chart has no such thing.
                if let Ok(at) = chart.position(at) {
                    let (name, kind) = (name.to_owned(), kind.to_owned());
                    things.push(Thing { at: plan::rounded(at), name, kind, note });
                }
            };
            match with {
                With::Landings => chart.landings.iter().for_each(|it| {
                    let facts = format!("{}, {}", it.ground, it.serves);
                    add(&it.name, it.at, "landing", sentences(facts, &it.note));
                }),
                With::Hazards => chart.hazards.iter().for_each(|it| {
                    add(&it.name, it.at, "hazard", sentences(it.kind.to_string(), &it.note));
                }),
                With::Marks => chart
                    .marks
                    .iter()
                    .for_each(|it| add(&it.name, it.at, "mark", it.kind.to_string())),
                With::Places => chart
                    .places
                    .iter()
                    .for_each(|it| add(&it.name, it.at, "place", it.kind.to_string())),
            }
        }
        things
    }
}

/// A point of the route with the leg to it, in words. What is not known is empty.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Stage {
    pub(super) bearing: String,
    pub(super) nautical_miles: String,
    pub(super) kilometres: String,
    pub(super) reference: String,
}

impl Stage {
    /// `047°M, 4.3 NM, 8.0 km, at QB 731 508`.
    pub(super) fn words(&self) -> String {
        let leg = [&self.bearing, &self.nautical_miles, &self.kilometres];
        let leg = leg.into_iter().filter(|word| !word.is_empty()).cloned();
        let reference = (!self.reference.is_empty()).then(|| format!("at {}", self.reference));
        leg.chain(reference).collect::<Vec<_>>().join(", ")
    }
}

/// A thing of the chart.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Thing {
    pub(super) at: Position,
    pub(super) name: String,
    pub(super) kind: String,
    pub(super) note: String,
}

fn sentences(facts: String, note: &str) -> String {
    if note.is_empty() { facts } else { format!("{facts}; {note}") }
}

/// What was thinned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Thinning {
    before: usize,
    after: usize,
    strays: Length,
}

impl Thinning {
    pub(super) fn said(self) -> String {
        let Thinning { before, after, strays } = self;
        let strays = metres(strays);
        format!(
            "of {before} points {after} are written; the line strays from the traced legs by {strays} at most"
        )
    }
}

fn thinned(
    points: &[Waypoint],
    lines: &[Vec<Position>],
    before: usize,
    most: usize,
) -> (Vec<Vec<Position>>, Option<Thinning>) {
    let mut all = Vec::with_capacity(before);
    let mut own = Vec::new();
    for (point, line) in points.iter().zip(lines) {
        all.extend(line);
        own.push(all.len());
        all.push(point.at);
    }
    let thinned = thin(&all, own.iter().copied(), Length::ZERO, most);
    let mut kept = thinned.kept.iter().copied().peekable();
    let mut next = |own: usize| {
        let mut line = Vec::new();
        while let Some(index) = kept.next_if(|&index| index < own) {
            line.extend(all.get(index));
        }
        kept.next();
        line
    };
    let lines = own.iter().map(|&own| next(own)).collect();
    let after = thinned.kept.len();
    (lines, Some(Thinning { before, after, strays: thinned.strays }))
}

/// A point in the form of the route file, if there is more to it than name, place and note. Of its line it has
/// what the vertices do not tell; they go as points between.
pub(super) fn facts(point: &Waypoint) -> Option<String> {
    let plain = point.stop.is_zero() && point.steer == Steering::Line && point.along.is_none();
    let plain = plain && point.kept.is_none();
    if plain {
        return None;
    }
    let along =
        point.along.clone().map(|along| plan::Along { line: plan::Line::default(), ..along });
    let bare = Waypoint { name: String::new(), note: String::new(), along, ..point.clone() };
    Some(plan::format::write_point(&bare))
}
