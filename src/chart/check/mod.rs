//! Finds what is wrong with a chart.
//!
//! [`faults`] says whether a chart is one: every number a number, every ring simple, every
//! reference to something that is there. The reader of the format refuses a chart with a fault and
//! the writers of charts (generator, import) are held to the same. [`doubts`] says what is odd
//! about a chart that can be read all the same.

mod doubts;
mod fault;
mod races;
mod tangle;
#[cfg(test)]
mod tests;
mod walk;
mod water;

pub use doubts::{Doubt, doubts};
pub use fault::{Fault, Finding};
pub(crate) use tangle::{Meeting, meetings};
pub(crate) use water::{check_months, check_years};

use std::collections::HashSet;

use crate::format::Step::Element;
use crate::model::{Chart, Land, Point};
use walk::Walk;

/// The greatest easting or northing, either way, in metres: half way round the Earth.
pub const MOST_METRES: f64 = 20_000_000.0;

/// The least side of an extent, in metres.
pub const LEAST_EXTENT: f64 = 100.0;

/// Everything that is wrong with a chart, in the order of the format.
///
/// Which way round a ring is written is not a fault; the reader turns it.
pub fn faults(chart: &Chart) -> Vec<Finding> {
    let mut walk = Walk::new(chart.extent);
    walk.field("title", |walk| walk.named("the chart", &chart.title));
    walk.field("extent", |walk| extent(walk, chart));
    walk.field("shore", |walk| {
        // In the file the list stands in `Here(...)`.
        walk.step(Element(0), |walk| walk.each(&chart.land, land));
    });
    walk.field("shorelines", |walk| {
        walk.each(&chart.shorelines, |walk, line| walk.line(line));
    });
    areas(&mut walk, chart);
    things(&mut walk, chart);
    water::ports(&mut walk, chart);
    water::streams(&mut walk, chart);
    walk.findings
}

fn extent(walk: &mut Walk, chart: &Chart) {
    let (low, high) = (chart.extent.min(), chart.extent.max());
    let places = walk.field("south_west", |walk| walk.place(low))
        & walk.field("north_east", |walk| walk.place(high));
    if !places {
        return;
    }
    let metres = chart.extent.width().min(chart.extent.height());
    if metres < LEAST_EXTENT {
        walk.fault(Fault::Extent { metres });
    }
    for at in [low, Point { x: low.x, y: high.y }, Point { x: high.x, y: low.y }, high] {
        if let Err(why) = reach(chart, at) {
            walk.fault(Fault::BeyondGrid { at, why });
            return;
        }
    }
}

/// Whether the chart's grid has a latitude and longitude for a point.
fn reach(chart: &Chart, at: Point) -> Result<(), String> {
    let point = nav::GridPoint::from_metres(at.x, at.y).map_err(|error| error.to_string())?;
    chart.grid.inverse(point).map(drop).map_err(|error| error.to_string())
}

fn land(walk: &mut Walk, land: &Land) {
    walk.field("shore", |walk| walk.ring(&land.shore));
    walk.field("lakes", |walk| walk.each(&land.lakes, |walk, lake| walk.ring(lake)));
}

fn areas(walk: &mut Walk, chart: &Chart) {
    walk.field("drying", |walk| {
        walk.each(&chart.drying, |walk, area| {
            walk.number("height_m", "drying height", area.height_m, (-2.0, 20.0), "m");
            walk.field("edge", |walk| walk.ring(&area.edge));
        });
    });
    walk.field("depths", |walk| {
        walk.each(&chart.depths, |walk, area| {
            let (from_m, to_m) = (area.from_m, area.to_m);
            walk.number("from_m", "depth", from_m, (0.0, 12_000.0), "m");
            walk.number("to_m", "depth", to_m, (0.0, 12_000.0), "m");
            if from_m >= to_m {
                walk.fault(Fault::Depths { from_m, to_m });
            }
            walk.field("edge", |walk| walk.ring(&area.edge));
        });
    });
}

fn things(walk: &mut Walk, chart: &Chart) {
    walk.field("landings", |walk| {
        let mut seen = HashSet::new();
        walk.each(&chart.landings, |walk, landing| {
            walk.name("a landing", &landing.name);
            walk.at("a landing", landing.at);
            if !seen.insert(landing.name.clone()) {
                walk.same_name("landings", &landing.name);
            }
        });
    });
    walk.field("hazards", |walk| {
        walk.each(&chart.hazards, |walk, hazard| walk.at("a hazard", hazard.at));
    });
    races::races(walk, chart);
    races::gates(walk, chart);
    walk.field("places", |walk| {
        walk.each(&chart.places, |walk, place| {
            walk.name("a place", &place.name);
            walk.at("a place", place.at);
        });
    });
    walk.field("marks", |walk| {
        walk.each(&chart.marks, |walk, mark| {
            walk.name("a mark", &mark.name);
            walk.at("a mark", mark.at);
        });
    });
}
