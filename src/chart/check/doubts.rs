//! What is odd about a chart that can be read: not wrong by itself, but worth a look.

use super::fault::Finding;
use crate::coast::Coast;
use crate::format::Step::{Element, Field};
use crate::model::{Chart, Gate, Point, Ring};
use crate::whereabouts::On;

/// How far from the nearest shore a landing may lie, in metres: further off it is drawn in open
/// water.
const FAR_FROM_SHORE: f64 = 150.0;

/// What is odd about a chart, and what to do about it.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Doubt {
    /// A real place without a source.
    #[error("the place is not invented, but the chart names no source; name it and its terms")]
    NoSource,
    /// A landing away from the shore.
    #[error(
        "the landing \"{name}\" lies {metres:.0} m from the nearest shore; move it to within {} m",
        FAR_FROM_SHORE
    )]
    FarFromShore {
        /// The landing.
        name: String,
        /// How far it is from the shore.
        metres: f64,
    },
    /// Something of the water on land.
    #[error("{what} lies on land at ({}, {}); move it to the water", at.x, at.y)]
    OnLand {
        /// What kind of thing.
        what: &'static str,
        /// Where it lies.
        at: Point,
    },
    /// A gate that bars no water.
    #[error("the line of the gate \"{name}\" lies on land; it leads across the narrows")]
    NoWater {
        /// The gate.
        name: String,
    },
    /// A gate that can be passed by.
    #[error(
        "the line of the gate \"{name}\" ends in the water at ({}, {}); lead it to the shore, or a \
         boat passes beside it",
        at.x, at.y
    )]
    PassedBy {
        /// The gate.
        name: String,
        /// Where it ends.
        at: Point,
    },
    /// A shore that nobody sees.
    #[error("this shore lies wholly outside the chart's extent; leave it out or widen the extent")]
    Unseen,
}

/// What is odd about a chart, in the order of the format.
pub fn doubts(chart: &Chart) -> Vec<Finding<Doubt>> {
    let mut doubts = Vec::new();
    if !chart.invented && chart.source.is_empty() {
        // Where there is no source, the title is the nearest that there is.
        doubts.push(Finding { way: vec![Field("title")], fault: Doubt::NoSource });
    }
    for (index, land) in chart.land.iter().enumerate() {
        if is_unseen(chart, &land.shore) {
            let way = vec![Field("shore"), Element(0), Element(index)];
            doubts.push(Finding { way, fault: Doubt::Unseen });
        }
    }
    doubts.extend(chart.landings.iter().enumerate().filter_map(|(index, landing)| {
        let metres = from_shore(chart, landing.at)?;
        let (way, name) = (way_to("landings", index), landing.name.clone());
        let far = metres > FAR_FROM_SHORE;
        far.then_some(Finding { way, fault: Doubt::FarFromShore { name, metres } })
    }));
    let coast = Coast::of(chart);
    doubts.extend(on_land(
        chart,
        &coast,
        "hazards",
        "a hazard",
        chart.hazards.iter().map(|h| h.at),
    ));
    doubts.extend(chart.gates.iter().enumerate().filter_map(|(index, gate)| {
        let (step, fault) = gate_doubt(&coast, gate)?;
        let way = [Field("gates"), Element(index), Field("line")].into_iter().chain(step);
        Some(Finding { way: way.collect(), fault })
    }));
    doubts.extend(on_land(
        chart,
        &coast,
        "streams",
        "a stream",
        chart.streams.iter().map(|s| s.at),
    ));
    doubts
}

/// What is odd about a gate's line, and at which of its ends.
fn gate_doubt(coast: &Coast, gate: &Gate) -> Option<(Option<crate::format::Step>, Doubt)> {
    /// How many places of the line are looked at.
    const PLACES: u32 = 64;
    let (name, (one, other)) = (gate.name.clone(), gate.line);
    let along = |place: u32| one + (other - one) * (f64::from(place) / f64::from(PLACES));
    if (0..=PLACES).all(|place| coast.on_land(along(place))) {
        return Some((None, Doubt::NoWater { name }));
    }
    let ends = [one, other].into_iter().enumerate();
    let (end, at) = ends.into_iter().find(|(_, at)| !coast.on_land(*at))?;
    Some((Some(Element(end)), Doubt::PassedBy { name, at }))
}

fn way_to(list: &'static str, index: usize) -> Vec<crate::format::Step> {
    vec![Field(list), Element(index), Field("at")]
}

fn on_land(
    chart: &Chart,
    coast: &Coast,
    list: &'static str,
    what: &'static str,
    points: impl Iterator<Item = Point>,
) -> impl Iterator<Item = Finding<Doubt>> {
    points
        .enumerate()
        .filter(|(_, at)| matches!(chart.whereabouts(coast, *at).on, On::Land(_)))
        .map(move |(index, at)| Finding {
            way: way_to(list, index),
            fault: Doubt::OnLand { what, at },
        })
}

/// Whether a shore's box misses the extent.
fn is_unseen(chart: &Chart, shore: &Ring) -> bool {
    let (low, high) = (chart.extent.min(), chart.extent.max());
    let all = |off: &dyn Fn(&Point) -> bool| shore.0.iter().all(off);
    all(&|p| p.x < low.x)
        || all(&|p| p.x > high.x)
        || all(&|p| p.y < low.y)
        || all(&|p| p.y > high.y)
}

/// Metres from a point to the nearest shore; nothing where there is none.
fn from_shore(chart: &Chart, at: Point) -> Option<f64> {
    let rings = chart.land.iter().flat_map(|land| land.shore.sides());
    let lines = chart
        .shorelines
        .iter()
        .flat_map(|line| line.iter().zip(line.iter().skip(1)).map(|(a, b)| (*a, *b)));
    rings.chain(lines).map(|side| from_side(at, side)).min_by(f64::total_cmp)
}

fn from_side(at: Point, (start, end): (Point, Point)) -> f64 {
    let (side, to) = (end - start, at - start);
    let square = side.x * side.x + side.y * side.y;
    let along = if square > 0.0 { (to.x * side.x + to.y * side.y) / square } else { 0.0 };
    let foot = start + side * along.clamp(0.0, 1.0);
    (at.x - foot.x).hypot(at.y - foot.y)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::format;

    fn found(text: &str) -> Vec<String> {
        let (file, faults) = format::examine(text).unwrap();
        assert_eq!(faults, []);
        let format::ChartFile::Whole(chart) = file else { panic!("the shore is here") };
        doubts(&chart)
            .iter()
            .map(|doubt| {
                let (line, column) = format::line_and_column(text, &doubt.way);
                format!("{line}:{column}: {}", doubt.fault)
            })
            .collect()
    }

    const CHART: &str = r#"(version: 1, title: "x", grid: Named("UTM:33N"),
extent: (south_west: (500000, 0), north_east: (501000, 1000)), source: "Survey, 2026",
shore: Here([
    (shore: [(500100, 100), (500500, 100), (500500, 500), (500100, 500)]),
    (shore: [(500100, 800), (500500, 800), (500500, 999), (500100, 999)]),
]),
landings: [(name: "Slip", at: (500500, 300), ground: Slip, serves: AnyTide)],
hazards: [(at: (500600, 300), kind: Wreck)],
gates: [(name: "Door", line: ((500450, 200), (500450, 900)), station: "A", limit_kn: 2)],
ports: [(name: "P", at: (500600, 300), tide: Constants(mean_level_m: 2, constituents: [
    (name: "M2", amplitude: 1, phase_deg: 0), (name: "S2", amplitude: 0.3, phase_deg: 0)]))],
streams: [(name: "A", at: (500600, 600), rates: Greatest(
    flood_deg: 0, port: "P", flood_begins_h: -6, springs_kn: 4))])"#;

    #[test]
    fn a_chart_in_order_raises_no_doubt() {
        assert_eq!(found(CHART), [""; 0]);
    }

    #[test]
    fn what_is_odd_is_said_at_its_place() {
        let odd = CHART
            .replace("Survey, 2026", "")
            .replace("]),\nlandings", "    (shore: [(0, 0), (9, 0), (0, 9)]),\n]),\nlandings")
            .replace("(500500, 300)", "(500800, 300)")
            .replace("(at: (500600, 300)", "(at: (500200, 300)")
            .replace("(500450, 900)", "(500450, 700)");
        assert_eq!(
            found(&odd),
            [
                "1:21: the place is not invented, but the chart names no source; \
                 name it and its terms",
                "6:5: this shore lies wholly outside the chart's extent; \
                 leave it out or widen the extent",
                "8:31: the landing \"Slip\" lies 300 m from the nearest shore; \
                 move it to within 150 m",
                "9:16: a hazard lies on land at (500200, 300); move it to the water",
                "10:46: the line of the gate \"Door\" ends in the water at (500450, 700); \
                 lead it to the shore, or a boat passes beside it",
            ]
        );
        let dry = CHART.replace("(500450, 900)", "(500450, 400)");
        let said = "9:30: the line of the gate \"Door\" lies on land; it leads across the narrows";
        assert_eq!(found(&dry), [said]);
    }
}
