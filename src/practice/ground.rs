//! The ground that questions are asked on.

use std::collections::HashSet;
use std::sync::OnceLock;

use chart::coast::{Coast, ShorePoint};
use chart::{Chart, Extent, Point};
use nav::{GridPoint, Position};

use crate::ask::{Hops, Shores};
use crate::sheet::holds;
use crate::water::Waters;
use crate::{Answer, Kind, Question, Shown};

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

/// How many places of call a card can be made of.
const ENOUGH: usize = 10;

/// A chart and its shore, made ready for questions.
#[derive(Debug, Clone)]
pub struct Ground<'a> {
    /// The chart.
    pub chart: &'a Chart,
    /// Its shore.
    pub coast: &'a Coast,
    /// The part of the chart that all questions lie on; nothing for the whole of it.
    part: Option<Extent>,
    spots: Vec<Spot>,
    /// How many of the spots, from the first, are marks to take a bearing of.
    marks: usize,
    /// The landings that stand on a shore, and where.
    ashore: Vec<(Spot, ShorePoint)>,
    /// What a kayak can come to: landings and what stands in the water.
    afloat: Vec<Spot>,
    /// How many of these, from the first, are no hazards.
    calls: usize,
    /// The tables of its tides and streams, made when they are first asked for.
    waters: OnceLock<Waters>,
    /// The ways along its shores, likewise.
    shores: OnceLock<Shores>,
    /// The legs that a card may have, likewise.
    hops: OnceLock<Hops>,
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
        Ground::of(chart, coast, None)
    }

    /// The same of a part of the chart alone: nothing beyond it is asked for, and no answer lies there.
    #[must_use]
    pub fn within(&self, part: Extent) -> Ground<'a> {
        Ground::of(self.chart, self.coast, Some(part))
    }

    fn of(chart: &'a Chart, coast: &'a Coast, part: Option<Extent>) -> Ground<'a> {
        let named = |name: &'a str, at: Point| (name, at);
        let marks = chart.marks.iter().map(|it| named(&it.name, it.at));
        let landings = chart.landings.iter().map(|it| named(&it.name, it.at));
        let hazards = chart.hazards.iter().map(|it| named(&it.name, it.at));
        let mut seen = HashSet::new();
        let mut spot = |(name, at): (&str, Point)| {
            let own = !name.is_empty() && seen.insert(name.to_lowercase());
            let own = own && part.is_none_or(|part| holds(&part, at));
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
        let landings = spots.len();
        spots.extend(hazards.filter_map(&mut spot));
        let lands = marks..landings;
        let afloat = spots.iter().enumerate();
        let afloat = afloat.filter(|(index, it)| lands.contains(index) || !coast.on_land(it.at));
        let (calls, hazards): (Vec<_>, Vec<_>) = afloat.partition(|(index, _)| *index < landings);
        let (count, all) = (calls.len(), calls.into_iter().chain(hazards));
        let afloat = all.map(|(_, it)| it.clone()).collect();
        let (waters, shores, hops) = (OnceLock::new(), OnceLock::new(), OnceLock::new());
        let calls = count;
        Ground { chart, coast, part, spots, marks, ashore, afloat, calls, waters, shores, hops }
    }

    /// Whether all places of a question lie on the part that is asked of.
    pub(crate) fn has(&self, question: &Question) -> bool {
        self.part.is_none_or(|part| places(question).iter().all(|at| holds(&part, *at)))
    }

    /// Everything that questions ask for by name.
    pub fn spots(&self) -> &[Spot] {
        &self.spots
    }

    /// The marks that a bearing is taken of.
    pub(crate) fn marks(&self) -> &[Spot] {
        &self.spots[..self.marks]
    }

    /// What a kayak can come to.
    pub(crate) fn afloat(&self) -> &[Spot] {
        &self.afloat
    }

    /// Where a kayak calls: landings and marks in the water; where there are few of them, hazards as well.
    pub(crate) fn calls(&self) -> &[Spot] {
        match self.afloat.get(..self.calls) {
            Some(calls) if calls.len() >= ENOUGH => calls,
            _ => &self.afloat,
        }
    }

    /// The tables of its tides and streams.
    pub(crate) fn waters(&self) -> &Waters {
        self.waters.get_or_init(|| Waters::of(self.chart))
    }

    /// The ways along its shores.
    pub(crate) fn shores(&self) -> &Shores {
        self.shores.get_or_init(|| Shores::of(self))
    }

    /// The legs that a card may have.
    pub(crate) fn hops(&self) -> &Hops {
        self.hops.get_or_init(|| Hops::of(self))
    }

    /// Whether nothing of a shore lies on the straight way but about its ends, where landings are.
    pub(crate) fn clear(&self, from: Point, to: Point) -> bool {
        let tenth = (to - from) / 10.0;
        !self.coast.touches(from + tenth, to - tenth)
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

/// Where on the chart a question is at work: what is to be looked at, what can be chosen, and a place that is the answer. What is
/// drawn of an answer in figures, such as a rose, is no place; the way along a shore is one.
fn places(question: &Question) -> Vec<Point> {
    let mut all: Vec<Point> = question.choices.iter().filter_map(|choice| choice.at).collect();
    if let Answer::Place { at, .. } = question.answer {
        all.push(at);
    }
    let ways = question.drawn.iter().filter(|_| question.kind == Kind::AlongShore);
    for shown in question.shown.iter().chain(ways) {
        match shown {
            Shown::Point { at, .. } | Shown::Tick { at, .. } => all.push(*at),
            Shown::Line { from, to, .. } => all.extend([*from, *to]),
            Shown::Path(path) => all.extend(path),
            Shown::Square(square) => all.push(on_chart(square.south_west)),
        }
    }
    all
}

/// A point of the chart as one of its grid; nothing for what is no number.
pub(crate) fn on_grid(at: Point) -> Option<GridPoint> {
    GridPoint::from_metres(at.x, at.y).ok()
}

/// The same the other way.
pub(crate) fn on_chart(at: GridPoint) -> Point {
    Point { x: at.easting.as_metres(), y: at.northing.as_metres() }
}
