//! What is on a chart, in figures.

use std::fmt::{self, Display, Formatter};

use nav::text::{self, AngleStyle};
use nav::{Figures, GridPoint, Length, Position};
use serde::Serialize;

use crate::coast::Coast;
use crate::measure::{self, MeasureError};
use crate::model::{Ground, HazardKind, MarkKind, PlaceKind};
use crate::{Chart, OffGrid, Point};

/// What is on a chart. Written out it is a page of lines; serialised, an object of the same.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Description {
    title: String,
    invented: bool,
    source: String,
    grid: String,
    south_west: Corner,
    north_east: Corner,
    width_km: f64,
    height_km: f64,
    land: usize,
    lakes: usize,
    shorelines: usize,
    shore_vertices: usize,
    shore_length_km: f64,
    /// How rough the longest shore is, where dividers of the chart's scale can tell.
    slope: Option<Slope>,
    land_area_km2: f64,
    drying_areas: usize,
    depth_areas: usize,
    landings: Vec<Count>,
    hazards: Vec<Count>,
    races: usize,
    /// Of the races, those of which it is known when they run.
    races_with_conditions: usize,
    gates: Vec<String>,
    places: Vec<Count>,
    marks: Vec<Count>,
    ports: Vec<String>,
    streams: usize,
}

/// The slope of length against step of dividers, each by its logarithm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
struct Slope {
    slope: f64,
    narrowest_m: f64,
    widest_m: f64,
    #[serde(skip)]
    steps: (Length, Length),
}

impl Slope {
    fn new(found: measure::Slope) -> Self {
        let measure::Slope { slope, narrowest, widest } = found;
        let (narrowest_m, widest_m) = (narrowest.as_metres(), widest.as_metres());
        Self { slope, narrowest_m, widest_m, steps: (narrowest, widest) }
    }
}

/// A corner of the extent.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct Corner {
    easting_m: f64,
    northing_m: f64,
    /// Its grid reference, or empty beyond the grid's letters.
    reference: String,
    lat: f64,
    lon: f64,
    #[serde(skip)]
    position: Position,
}

/// How many there are of a kind.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct Count {
    kind: String,
    count: usize,
}

impl Description {
    /// What is on `chart`, whose shore is `coast`: of a shore alone the chart's own lists are empty.
    ///
    /// # Errors
    /// [`MeasureError`] where the chart's grid does not reach a corner of the extent or of a shore.
    pub fn new(chart: &Chart, coast: &Coast) -> Result<Description, MeasureError> {
        let shore = measure::total(&measure::shores(coast, None, &[])?);
        Ok(Description {
            title: chart.title.clone(),
            invented: chart.invented,
            source: chart.source.clone(),
            grid: chart.grid.name(),
            south_west: Corner::new(chart, chart.extent.min())?,
            north_east: Corner::new(chart, chart.extent.max())?,
            width_km: chart.extent.width() / 1000.0,
            height_km: chart.extent.height() / 1000.0,
            land: shore.islands,
            lakes: shore.lakes,
            shorelines: shore.open,
            shore_vertices: shore.vertices,
            shore_length_km: shore.length.as_kilometres(),
            slope: measure::roughness(chart, coast)?.map(Slope::new),
            land_area_km2: shore.land.as_square_kilometres(),
            drying_areas: chart.drying.len(),
            depth_areas: chart.depths.len(),
            landings: count(Ground::ALL, chart.landings.iter().map(|landing| landing.ground)),
            hazards: count(HazardKind::ALL, chart.hazards.iter().map(|hazard| hazard.kind)),
            races: chart.races.len(),
            races_with_conditions: chart.races.iter().filter(|race| race.runs.is_some()).count(),
            gates: chart.gates.iter().map(|gate| gate.name.clone()).collect(),
            places: count(PlaceKind::ALL, chart.places.iter().map(|place| place.kind)),
            marks: count(MarkKind::ALL, chart.marks.iter().map(|mark| mark.kind)),
            ports: chart.ports.iter().map(|port| port.name.clone()).collect(),
            streams: chart.streams.len(),
        })
    }
}

impl Corner {
    fn new(chart: &Chart, at: Point) -> Result<Corner, OffGrid> {
        let position = chart.position(at)?;
        let point = GridPoint::from_metres(at.x, at.y)?;
        Ok(Corner {
            easting_m: at.x,
            northing_m: at.y,
            reference: chart.grid.reference(point, Figures::Six).unwrap_or_default(),
            lat: position.lat.as_degrees(),
            lon: position.lon.as_degrees(),
            position,
        })
    }
}

/// How many there are of each kind, kinds without any left out.
fn count<K: Copy + PartialEq + Display>(
    kinds: &[K],
    found: impl Iterator<Item = K> + Clone,
) -> Vec<Count> {
    let of = |kind: &K| found.clone().filter(|other| other == kind).count();
    kinds
        .iter()
        .map(|kind| Count { kind: kind.to_string(), count: of(kind) })
        .filter(|count| count.count > 0)
        .collect()
}

impl Display for Description {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        let title = if self.title.is_empty() { "(no title)" } else { &self.title };
        writeln!(f, "{title}")?;
        if self.invented {
            writeln!(f, "An invented place: it does not exist.")?;
        }
        if !self.source.is_empty() {
            row(f, "source", &self.source)?;
        }
        row(f, "grid", &self.grid)?;
        row(f, "south-west", &self.south_west)?;
        row(f, "north-east", &self.north_east)?;
        let (width, height) = (self.width_km, self.height_km);
        row(f, "extent", format_args!("{width:.1} by {height:.1} km"))?;
        self.shore(f)?;
        row(f, "drying areas", self.drying_areas)?;
        row(f, "depth areas", self.depth_areas)?;
        row(f, "landings", Counts(&self.landings))?;
        row(f, "hazards", Counts(&self.hazards))?;
        match self.races {
            0 => row(f, "races", 0)?,
            races => {
                let known = self.races_with_conditions;
                row(f, "races", format_args!("{races}, {known} with their conditions"))?;
            }
        }
        let gates = if self.gates.is_empty() { "none".to_owned() } else { self.gates.join(", ") };
        row(f, "tidal gates", gates)?;
        row(f, "places", Counts(&self.places))?;
        row(f, "marks", Counts(&self.marks))?;
        let ports = if self.ports.is_empty() { "none".to_owned() } else { self.ports.join(", ") };
        row(f, "tidal ports", ports)?;
        row(f, "streams", self.streams)?;
        writeln!(f, "{}", text::CAUTION)
    }
}

impl Description {
    fn shore(&self, f: &mut Formatter<'_>) -> fmt::Result {
        let (land, lakes, lines) = (self.land, self.lakes, self.shorelines);
        let (land, lakes) = (many(land, "shore"), many(lakes, "lake"));
        row(f, "land", format_args!("{land}, {lakes}, {}", many(lines, "open shoreline")))?;
        row(f, "land area", format_args!("{:.1} km²", self.land_area_km2))?;
        let (kilometres, miles) = (self.shore_length_km, self.shore_length_km / 1.852);
        let vertices = self.shore_vertices;
        row(f, "shore", format_args!("{miles:.1} NM, {kilometres:.1} km, {vertices} vertices"))?;
        if let Some(Slope { slope, steps: (narrowest, widest), .. }) = self.slope {
            let (narrowest, widest) = (text::kilometres(narrowest), text::kilometres(widest));
            let steps = format!("dividers from {narrowest} to {widest} on the longest shore");
            row(f, "slope", format_args!("{slope:.3}, {steps}"))?;
        }
        Ok(())
    }
}

/// `1 lake`, `2 lakes`.
fn many(count: usize, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}

/// A line of a label and what it says.
fn row(f: &mut Formatter<'_>, label: &str, what: impl Display) -> fmt::Result {
    writeln!(f, "{label:<13} {what}")
}

/// Reference, then latitude and longitude.
impl Display for Corner {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        if self.reference.is_empty() {
            write!(f, "{} {}", self.easting_m, self.northing_m)?;
        } else {
            write!(f, "{}", self.reference)?;
        }
        write!(f, "  {}", text::position(self.position, AngleStyle::default()))
    }
}

/// `12: 5 sand, 7 rock`, or `none`.
struct Counts<'a>(&'a [Count]);

impl Display for Counts<'_> {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        let all: usize = self.0.iter().map(|count| count.count).sum();
        let parts: Vec<String> =
            self.0.iter().map(|Count { kind, count }| format!("{count} {kind}")).collect();
        match all {
            0 => f.write_str("none"),
            _ => write!(f, "{all}: {}", parts.join(", ")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::format::{self, ChartFile};

    const CHART: &str = r#"(
        version: 1,
        title: "Hollow Sound",
        invented: true,
        grid: Own(
            title: "Hollow grid",
            origin: (lat: 47.3, lon: -38.6),
            false_origin: (670000, 350000),
            lettering: (south_west: (600000, 300000), rows: ["QB"]),
        ),
        extent: (south_west: (660000, 340000), north_east: (690000, 362000)),
        shore: Here([(
            name: "Great Hollow",
            shore: [(669000, 349000), (671000, 349000), (671000, 351000), (669000, 351000)],
            lakes: [[(669500, 349500), (670500, 349500), (670500, 350500), (669500, 350500)]],
        )]),
        landings: [
            (name: "Hollow Slip", at: (669000, 350000), ground: Slip, serves: AnyTide),
            (name: "West Sand", at: (669000, 350500), ground: Sand, serves: AnyTide),
            (name: "South Sand", at: (669500, 349000), ground: Sand, serves: AnyTide),
        ],
        marks: [(name: "Beacon Rock", at: (671500, 350000), kind: Beacon)],
    )"#;

    fn description() -> Description {
        match format::read(CHART).unwrap() {
            ChartFile::Whole(chart) => Description::new(&chart, &Coast::of(&chart)).unwrap(),
            ChartFile::ShoreBeside(_) => panic!("the shore is here"),
        }
    }

    /// On a transverse Mercator of scale 1 a square of 2 km by its origin is one on the ground, to
    /// a part in ten million.
    #[test]
    fn a_chart_is_described_in_lines() {
        let expected = "\
Hollow Sound
An invented place: it does not exist.
grid          Hollow grid
south-west    QB 600 400  47°12.6′N  038°43.9′W
north-east    QB 900 620  47°24.5′N  038°20.1′W
extent        30.0 by 22.0 km
land          1 shore, 1 lake, 0 open shorelines
land area     3.0 km²
shore         4.3 NM, 8.0 km, 4 vertices
slope         -0.060, dividers from 100 m to 1.6 km on the longest shore
drying areas  0
depth areas   0
landings      3: 2 sand, 1 slip
hazards       none
races         0
tidal gates   none
places        none
marks         1: 1 beacon
tidal ports   none
streams       0
";
        assert_eq!(description().to_string(), format!("{expected}{}\n", text::CAUTION));
    }

    #[test]
    fn the_same_as_json() {
        let json = serde_json::to_value(description()).unwrap();
        assert_eq!(json["south_west"]["reference"], "QB 600 400");
        assert_eq!(json["landings"][0]["kind"], "sand");
        assert_eq!(json["landings"][0]["count"], 2);
        let length = json["shore_length_km"].as_f64().unwrap();
        assert!((length - 8.0).abs() < 1e-5, "{length}");
        let area = json["land_area_km2"].as_f64().unwrap();
        assert!((area - 3.0).abs() < 1e-5, "{area}");
    }
}
