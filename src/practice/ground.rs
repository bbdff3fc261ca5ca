//! The ground that questions are asked on.

use std::collections::HashSet;

use chart::coast::{Coast, ShorePoint};
use chart::{Chart, Point};
use nav::{GridPoint, Position};

/// Something on the chart that has a name and stands at a point: a mark, a landing, a hazard.
#[derive(Debug, Clone, PartialEq)]
pub struct Spot {
    /// Its name, which nothing else on the chart has.
    pub name: String,
    /// Where it stands.
    pub at: Point,
    /// Where that is on the Earth.
    pub position: Position,
}

/// How far from the shore a landing may stand to be one of it, in metres.
const ON_THE_SHORE: f64 = 150.0;

/// A chart and its shore, made ready for questions.
#[derive(Debug, Clone)]
pub struct Ground<'a> {
    /// The chart.
    pub chart: &'a Chart,
    /// Its shore.
    pub coast: &'a Coast,
    spots: Vec<Spot>,
    /// How many of the spots, from the first, are marks to take a bearing of.
    marks: usize,
    /// The landings that stand on a shore, and where.
    ashore: Vec<(Spot, ShorePoint)>,
}

impl<'a> Ground<'a> {
    /// The chart, with all on it that has a name of its own and stands at a point.
    ///
    /// ```
    /// use practice::{Ground, Kind, Level, ask};
    /// let chart = chart::practice()?;
    /// let coast = chart::coast::Coast::of(&chart);
    /// let ground = Ground::new(&chart, &coast);
    /// let question = ask(Kind::Reference, &ground, 7, Level::First).unwrap();
    /// let mark = question.mark(&question.answer.to_string())?;
    /// assert!(mark.right);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn new(chart: &'a Chart, coast: &'a Coast) -> Ground<'a> {
        let named = |name: &'a str, at: Point| (name, at);
        let marks = chart.marks.iter().map(|it| named(&it.name, it.at));
        let landings = chart.landings.iter().map(|it| named(&it.name, it.at));
        let hazards = chart.hazards.iter().map(|it| named(&it.name, it.at));
        let mut seen = HashSet::new();
        let mut spot = |(name, at): (&str, Point)| {
            let own = !name.is_empty() && seen.insert(name.to_lowercase());
            let position = chart.position(at).ok().filter(|_| own)?;
            Some(Spot { name: name.to_owned(), at, position })
        };
        let mut spots: Vec<Spot> = marks.filter_map(&mut spot).collect();
        let marks = spots.len();
        spots.extend(landings.filter_map(&mut spot));
        let on_shore = |spot: &Spot| {
            let near = coast.nearest(spot.at, ON_THE_SHORE)?;
            Some((spot.clone(), near.on))
        };
        let ashore = spots.iter().skip(marks).filter_map(on_shore).collect();
        spots.extend(hazards.filter_map(&mut spot));
        Ground { chart, coast, spots, marks, ashore }
    }

    /// Everything that questions ask for by name.
    pub fn spots(&self) -> &[Spot] {
        &self.spots
    }

    /// The marks that a bearing is taken of.
    pub(crate) fn marks(&self) -> &[Spot] {
        &self.spots[..self.marks]
    }

    /// The landings that stand on a shore, and where on it.
    pub(crate) fn ashore(&self) -> &[(Spot, ShorePoint)] {
        &self.ashore
    }

    /// The middle of the chart.
    pub(crate) fn middle(&self) -> Point {
        (self.chart.extent.min() + self.chart.extent.max()) / 2.0
    }
}

/// A point of the chart as one of its grid; nothing for what is no number.
pub(crate) fn on_grid(at: Point) -> Option<GridPoint> {
    GridPoint::from_metres(at.x, at.y).ok()
}

/// The same the other way.
pub(crate) fn on_chart(at: GridPoint) -> Point {
    Point { x: at.easting.as_metres(), y: at.northing.as_metres() }
}
