//! Everything on a chart that has a name.

use crate::{Chart, Point};

/// Something that has a name and stands somewhere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Named<'a> {
    /// Its name, never empty.
    pub name: &'a str,
    /// Where it stands: of a race, its middle.
    pub at: Point,
    /// What it is, in a word.
    pub what: &'static str,
}

impl Chart {
    /// Places, landings, marks, hazards and races that have a name, in this order.
    pub fn named(&self) -> impl Iterator<Item = Named<'_>> {
        let named = |name, at, what| Named { name, at, what };
        let places = self.places.iter().map(move |it| named(&it.name, it.at, "place"));
        let landings = self.landings.iter().map(move |it| named(&it.name, it.at, "landing"));
        let marks = self.marks.iter().map(move |it| named(&it.name, it.at, "mark"));
        let hazards = self.hazards.iter().map(move |it| named(&it.name, it.at, "hazard"));
        let races = self
            .races
            .iter()
            .filter_map(move |it| Some(named(&it.name, middle(&it.edge.0)?, "race")));
        places
            .chain(landings)
            .chain(marks)
            .chain(hazards)
            .chain(races)
            .filter(|it: &Named<'_>| !it.name.is_empty())
    }
}

fn middle(ring: &[Point]) -> Option<Point> {
    let sum = ring.iter().copied().reduce(|a, b| a + b)?;
    Some(sum / ring.len() as f64)
}
