//! A place in the forms that a rescue service can use.
//!
//! Latitude and longitude in degrees and minutes, and where it helps the true bearing and the distance in
//! nautical miles from a known place, are how a position is given in a distress message (Radio Regulations, Atlantic
//! City 1947, article 37 § 14; 47 CFR 80.316 (c)). The reference on the chart's grid is for who has that chart.

use chart::model::PlaceKind;
use nav::{Figures, GridPoint, Position, rhumb, text};
use plan::table::Style;

use crate::card::Plan;

/// A place in words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Place {
    /// Latitude and longitude on WGS 84, with one space between.
    pub position: String,
    /// The reference on the chart's grid; empty where the grid does not reach.
    pub reference: String,
    /// How far from the nearest named landing, cape or mark, and in which direction: `1.2 NM 047°T from Ness`; empty
    /// where the chart names none.
    pub from: String,
}

/// What is nearer than this to a named place is at it, in metres.
const AT: f64 = 100.0;

/// Writes places.
#[derive(Debug)]
pub(super) struct Places<'a> {
    plan: &'a Plan<'a>,
    style: Style,
    named: Vec<(&'a str, Position)>,
}

impl<'a> Places<'a> {
    pub(super) fn new(plan: &'a Plan<'a>, form: text::AngleForm) -> Places<'a> {
        let chart = plan.chart;
        let capes = chart.places.iter().filter(|place| place.kind == PlaceKind::Headland);
        let capes = capes.map(|place| (place.name.as_str(), place.at));
        let landings = chart.landings.iter().map(|landing| (landing.name.as_str(), landing.at));
        let marks = chart.marks.iter().map(|mark| (mark.name.as_str(), mark.at));
        let all = landings.chain(capes).chain(marks).filter(|(name, _)| !name.is_empty());
        let named = all.filter_map(|(name, at)| {
            let at = GridPoint::from_metres(at.x, at.y).ok()?;
            Some((name, chart.grid.inverse(at).ok()?.position))
        });
        Places { plan, style: Style::new(Figures::Six, form), named: named.collect() }
    }

    /// A place in all forms.
    pub(super) fn place(&self, at: Position) -> Place {
        Place {
            position: text::position(at, self.style.angles).replace("  ", " "),
            reference: self.reference(at),
            from: self.from(at),
        }
    }

    fn reference(&self, at: Position) -> String {
        let grid = &self.plan.chart.grid;
        let point = grid.forward(at).ok();
        let reference = point.and_then(|on| grid.reference(on.point, self.style.figures).ok());
        reference.unwrap_or_default()
    }

    fn from(&self, at: Position) -> String {
        let lines = self.named.iter().map(|(name, place)| (name, rhumb::inverse(*place, at)));
        let nearest = lines
            .min_by(|(_, a), (_, b)| a.distance.as_metres().total_cmp(&b.distance.as_metres()));
        match nearest {
            None => String::new(),
            Some((name, line)) if line.distance.as_metres() < AT => format!("at {name}"),
            Some((name, line)) => {
                format!("{} {} from {name}", text::nautical_miles(line.distance), line.bearing)
            }
        }
    }
}
