//! What lies at a point, in the chart's own names.

use crate::coast::{Ashore, Coast};
use crate::model::{Gate, Ground, Race};
use crate::{Chart, Point};

/// Where a point lies: what is there, and the nearest thing that has a name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Whereabouts<'a> {
    /// What is there.
    pub on: On<'a>,
    /// The nearest named place, landing, hazard or mark and where it stands, if there is any.
    pub nearest: Option<(&'a str, Point)>,
}

/// What is at a point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum On<'a> {
    /// Land of this name, or of none.
    Land(&'a str),
    /// Ground that dries, made of this.
    Drying(Ground),
    /// A race.
    Race(&'a Race),
    /// The water by a tidal gate, within 150 m of its line.
    Gate(&'a Gate),
    /// Water that covers at any tide, as far as the chart knows.
    Water,
}

impl Chart {
    /// Where `point` lies. `coast` is the chart's shore, in the chart or in a file of its own; the
    /// shore itself counts as land.
    #[must_use]
    pub fn whereabouts<'a>(&'a self, coast: &'a Coast, point: Point) -> Whereabouts<'a> {
        Whereabouts { on: self.on(coast, point), nearest: self.nearest(point) }
    }

    fn on<'a>(&'a self, coast: &'a Coast, point: Point) -> On<'a> {
        if let Some(name) = land_at(coast, point) {
            return On::Land(name);
        }
        if let Some(gate) = self.gates.iter().find(|gate| from_line(point, gate.line) < BY_A_GATE) {
            return On::Gate(gate);
        }
        if let Some(race) = self.races.iter().find(|race| race.edge.encloses(point)) {
            return On::Race(race);
        }
        match self.drying.iter().find(|drying| drying.edge.encloses(point)) {
            Some(drying) => On::Drying(drying.ground),
            None => On::Water,
        }
    }

    fn nearest(&self, point: Point) -> Option<(&str, Point)> {
        let places = self.places.iter().map(|place| (place.name.as_str(), place.at));
        let landings = self.landings.iter().map(|landing| (landing.name.as_str(), landing.at));
        let hazards = self.hazards.iter().map(|hazard| (hazard.name.as_str(), hazard.at));
        let marks = self.marks.iter().map(|mark| (mark.name.as_str(), mark.at));
        let square = |(_, at): &(&str, Point)| (at.x - point.x).powi(2) + (at.y - point.y).powi(2);
        places
            .chain(landings)
            .chain(hazards)
            .chain(marks)
            .filter(|(name, _)| !name.is_empty())
            .min_by(|a, b| square(a).total_cmp(&square(b)))
    }
}

/// How near to its line a point is by a gate, in metres of the grid.
const BY_A_GATE: f64 = 150.0;

/// Metres from a point to a straight line from end to end.
fn from_line(at: Point, (one, other): (Point, Point)) -> f64 {
    let (side, to) = (other - one, at - one);
    let along = (to.x * side.x + to.y * side.y) / (side.x * side.x + side.y * side.y);
    let foot = one + side * along.clamp(0.0, 1.0);
    (at - foot).x.hypot((at - foot).y)
}

/// The name of the land at a point, if there is land.
fn land_at(coast: &Coast, point: Point) -> Option<&str> {
    // Most points lie where nothing but this has to be asked.
    if !coast.on_land(point) {
        return None;
    }
    let line = match coast.ashore(point) {
        Ashore::Water => None,
        Ashore::Land(line) | Ashore::Shore(line) => coast.line(line),
    };
    line.filter(|line| line.is_closed()).map(|line| line.name())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::format::{self, ChartFile};
    use crate::model::Ground;

    const CHART: &str = r#"(
        version: 1,
        title: "Hollow Sound",
        invented: true,
        grid: Named("UTM:25N"),
        extent: (south_west: (500000, 5200000), north_east: (501000, 5201000)),
        shore: Here([
            (
                name: "Great Hollow",
                shore: [(500100, 5200100), (500500, 5200100), (500500, 5200500), (500100, 5200500)],
                lakes: [[(500200, 5200200), (500300, 5200200), (500300, 5200300), (500200, 5200300)]],
            ),
            (name: "", shore: [(500800, 5200800), (500900, 5200800), (500850, 5200900)]),
        ]),
        drying: [(height_m: 1, ground: Mud, edge: [
            (500400, 5200400), (500700, 5200400), (500700, 5200700), (500400, 5200700)])],
        races: [(name: "Hollow Race", edge: [
            (500600, 5200100), (500700, 5200100), (500650, 5200200)])],
        gates: [(name: "Hollow Door", line: ((500250, 5200850), (500350, 5200850)), station: "A",
            limit_kn: 2)],
        ports: [(name: "P", at: (500650, 5200700), tide: Constants(mean_level_m: 2, constituents: [
            (name: "M2", amplitude: 1, phase_deg: 0)]))],
        streams: [(name: "A", at: (500650, 5200700), rates: Greatest(
            flood_deg: 0, port: "P", flood_begins_h: -6, springs_kn: 4))],
        places: [(name: "Hollow Bay", at: (500550, 5200300), kind: Inlet)],
        hazards: [(name: "", at: (500650, 5200660), kind: SunkenRock)],
    )"#;

    fn chart() -> Chart {
        match format::read(CHART).unwrap() {
            ChartFile::Whole(chart) => chart,
            ChartFile::ShoreBeside(_) => panic!("the shore is here"),
        }
    }

    fn at(x: f64, y: f64) -> Point {
        Point { x: 500_000.0 + x, y: 5_200_000.0 + y }
    }

    #[test]
    fn what_is_at_a_point() {
        let chart = chart();
        let coast = Coast::of(&chart);
        let on = |x, y| chart.whereabouts(&coast, at(x, y)).on;
        assert_eq!(on(150.0, 150.0), On::Land("Great Hollow"));
        assert_eq!(on(250.0, 250.0), On::Water, "a lake is no land");
        assert_eq!(on(850.0, 850.0), On::Land(""));
        assert_eq!(on(450.0, 450.0), On::Land("Great Hollow"), "land covers drying ground");
        assert_eq!(on(600.0, 600.0), On::Drying(Ground::Mud));
        assert_eq!(on(650.0, 120.0), On::Race(&chart.races[0]));
        assert_eq!(on(300.0, 900.0), On::Gate(&chart.gates[0]));
        assert_eq!(on(600.0, 850.0), On::Water);
        assert_eq!(on(50.0, 50.0), On::Water);
        assert_eq!(on(100.0, 300.0), On::Land("Great Hollow"), "the shore itself");
    }

    #[test]
    fn the_nearest_of_what_has_a_name() {
        let chart = chart();
        let coast = Coast::of(&chart);
        let nearest = chart.whereabouts(&coast, at(650.0, 650.0)).nearest;
        assert_eq!(
            nearest,
            Some(("Hollow Bay", at(550.0, 300.0))),
            "a hazard without a name is none"
        );
        let bare = Chart { places: Vec::new(), hazards: Vec::new(), ..chart };
        assert_eq!(bare.whereabouts(&coast, at(0.0, 0.0)).nearest, None);
    }

    #[test]
    fn a_ray_through_a_corner_counts_once() {
        let diamond = [(10.0, 0.0), (20.0, 10.0), (10.0, 20.0), (0.0, 10.0)];
        let ring = crate::Ring(diamond.iter().map(|&(x, y)| Point { x, y }).collect());
        assert!(ring.encloses(Point { x: 10.0, y: 10.0 }));
        assert!(!ring.encloses(Point { x: -5.0, y: 10.0 }));
        assert!(!ring.encloses(Point { x: 5.0, y: 0.0 }));
        assert!(!ring.encloses(Point { x: 5.0, y: 20.0 }));
    }
}
