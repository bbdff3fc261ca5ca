//! Everything that a sheet is told from.

use super::place::Places;
use super::schedule::Schedule;
use super::{People, Sheet};
use crate::card::{self, Plan};
use crate::leaflet::Block;

/// A part of a sheet.
pub(super) type Part = Vec<Block<'static>>;

/// A plan with its people, ready to be told of.
pub(super) struct Told<'a> {
    pub(super) plan: &'a Plan<'a>,
    pub(super) people: People,
    pub(super) sheet: &'a Sheet,
    /// What the card of the same plan says.
    pub(super) card: card::Content,
    /// Nothing of a plan without a leg.
    pub(super) schedule: Option<Schedule>,
    pub(super) places: Places<'a>,
}

impl<'a> Told<'a> {
    pub(super) fn new(plan: &'a Plan<'a>, people: Option<&People>, sheet: &'a Sheet) -> Told<'a> {
        Told {
            plan,
            people: people.cloned().unwrap_or_default(),
            sheet,
            card: card::Content::of(plan),
            schedule: Schedule::of(plan),
            places: Places::new(plan, sheet.form),
        }
    }

    /// What a point of the route is called, from zero: its name, or `point 3`.
    pub(super) fn name(&self, point: usize) -> String {
        let name = self.plan.route.points.get(point).map(|point| point.name.as_str());
        match name {
            Some(name) if !name.is_empty() => name.to_owned(),
            _ => format!("point {}", point + 1),
        }
    }

    /// The last point's number, from zero; nothing of a route without points.
    pub(super) fn last(&self) -> Option<usize> {
        self.plan.route.points.len().checked_sub(1)
    }

    /// A point in all forms: `Slip, 49°30.90′N 028°43.52′W (WGS 84), QB 731 508 (Ocean grid)`.
    pub(super) fn point(&self, point: usize) -> Option<String> {
        let place = self.places.place(self.plan.route.points.get(point)?.at);
        let position = format!("{}, {} (WGS 84)", self.name(point), place.position);
        Some(match place.reference.as_str() {
            "" => position,
            reference => format!("{position}, {reference} ({})", self.plan.chart.grid.name()),
        })
    }
}

/// A paragraph.
pub(super) fn words(words: impl Into<String>) -> Block<'static> {
    Block::Paragraph(words.into())
}

/// The words that are there, with something between.
pub(super) fn joined<'a>(words: impl IntoIterator<Item = &'a str>, between: &str) -> String {
    let some: Vec<&str> = words.into_iter().filter(|words| !words.is_empty()).collect();
    some.join(between)
}

/// A row of a table.
pub(super) fn row<const N: usize>(cells: [&str; N]) -> Vec<String> {
    cells.map(str::to_owned).to_vec()
}
