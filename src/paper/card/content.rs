//! What a card says, in words.

use nav::text;
use plan::table::{self, PointRow, Style};
use plan::{Reckoning, reckon};

use super::tide::TideOfDay;
use super::ways::{self, WayOut};
use super::{Plan, facts, leg, tide};
use crate::words;

/// A card in words. What is not known is empty or left out.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Content {
    /// What the route is called.
    pub title: String,
    /// What the chart is called.
    pub chart: String,
    /// What there is to know about the day, each with what it is called.
    pub facts: Vec<(String, String)>,
    /// Where the route begins.
    pub start: PointLine,
    /// The legs.
    pub legs: Vec<LegLine>,
    /// The tide of the day at the port nearest to the start.
    pub tide: Option<TideOfDay>,
    /// The ways out by leg.
    pub ways_out: Vec<WayOut>,
    /// What the reader should know of the figures.
    pub notes: Vec<String>,
    /// The cautions, which stand on every page.
    pub cautions: Vec<String>,
}

/// A point of the route.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PointLine {
    /// Its number, from one, as on the chart.
    pub number: String,
    /// Its name, or empty.
    pub name: String,
    /// Its reference; where the grid has none its position.
    pub reference: String,
    /// When the group leaves the first, and gets to the others.
    pub clock: String,
    /// What else there is to say: a stop, a note.
    pub notes: Vec<String>,
}

/// A leg of the route.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct LegLine {
    /// Where it ends.
    pub to: PointLine,
    /// `066°M`.
    pub bearing: String,
    /// `246°M`.
    pub back: String,
    /// What to steer, `071°M`; empty without a passage.
    pub steer: String,
    /// The mean stream on it, `214°T 1.2 kn`.
    pub set: String,
    /// `2.0 NM`.
    pub nautical_miles: String,
    /// `3.7 km`.
    pub kilometres: String,
    /// The time under way, `40 min`.
    pub time: String,
    /// What else there is to say: stretches along a shore, a wait, races, gates.
    pub notes: Vec<String>,
}

impl Content {
    /// What a card of a plan says.
    #[must_use]
    pub fn of(plan: &Plan<'_>) -> Content {
        let route = plan.route;
        let reckoning = reckon(route, &plan.chart.grid);
        let points = points(plan, &reckoning);
        let title = if route.title.is_empty() { "Deck card" } else { &route.title };
        Content {
            title: title.to_owned(),
            chart: plan.chart.title.clone(),
            facts: facts::of(plan, &reckoning),
            legs: leg::of(plan, &reckoning, points.get(1..).unwrap_or_default()),
            start: points.into_iter().next().unwrap_or_default(),
            tide: tide::of(plan, &reckoning),
            ways_out: ways::of(plan),
            notes: notes(plan, &reckoning),
            cautions: words::cautions(plan.chart),
        }
    }
}

fn points(plan: &Plan<'_>, reckoning: &Reckoning) -> Vec<PointLine> {
    let rows = table::points(plan.route, reckoning, &plan.chart.grid, Style::default());
    let lines = rows.into_iter().enumerate().map(|(index, row)| {
        let PointRow { number, name, reference, position, clock, stop, .. } = row;
        let reference = if reference.is_empty() { position } else { reference };
        let clock = plan.clock_at(index).unwrap_or(clock);
        let note = plan.route.points.get(index).map(|point| point.note.clone());
        let stop = if stop.is_empty() { stop } else { format!("stop {stop}") };
        let notes = [stop, note.unwrap_or_default()];
        let notes = notes.into_iter().filter(|note| !note.is_empty()).collect();
        PointLine { number, name, reference, clock, notes }
    });
    lines.collect()
}

impl Plan<'_> {
    /// When a point is reached by the passage, the first one left; nothing without a passage. Of a point beyond where
    /// it comes to nothing it is not known when.
    fn clock_at(&self, index: usize) -> Option<String> {
        let (course, passage) = self.passage?;
        let at = match index.checked_sub(1) {
            None => Some(passage.departs),
            Some(leg) => passage.legs.get(leg).map(|leg| leg.arrives),
        };
        let clock = |at: jiff::Timestamp| text::clock(&at.to_zoned_datetime(course.zone().clone()));
        Some(at.map(clock).unwrap_or_default())
    }
}

fn notes(plan: &Plan<'_>, reckoning: &Reckoning) -> Vec<String> {
    let mut notes = Vec::new();
    match plan.passage {
        Some((course, passage)) => {
            let halt = passage.halt.as_ref();
            notes.extend(
                halt.map(|halt| format!("The passage ends on the way: {}.", halt.words(course))),
            );
            notes.extend(passage.warnings.iter().map(|warning| sentence(&warning.to_string())));
        }
        None if reckoning.legs.is_empty() => {}
        None => {
            notes.push("Times by the pace alone: neither stream nor wind is in them.".to_owned())
        }
    }
    notes.extend(reckoning.warnings.iter().map(|warning| sentence(&warning.to_string())));
    notes
}

/// Words with a capital and a stop.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}
