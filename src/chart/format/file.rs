//! The file as it stands: a chart whose shore is in the file or beside it.

use serde::Deserialize;

use super::fields::{Corners, lines, name, note};
use crate::geojson::Shore;
use crate::model::{
    Chart, DepthArea, Drying, Gate, Hazard, Land, Landing, Mark, Place, Point, Port, Race, Ring,
    Stream,
};

/// What a chart file holds.
#[derive(Debug, Clone, PartialEq)]
pub enum ChartFile {
    /// The whole chart.
    Whole(Chart),
    /// A chart whose shore is in a file of its own.
    ShoreBeside(ShoreBeside),
}

/// A chart that lacks the shore which a file beside it holds.
#[derive(Debug, Clone, PartialEq)]
pub struct ShoreBeside {
    /// The path of the shore's file from the folder of the chart: never absolute, never upwards.
    pub path: String,
    chart: Chart,
}

impl ShoreBeside {
    /// The part of the grid that the chart covers.
    pub fn extent(&self) -> crate::Extent {
        self.chart.extent
    }

    /// The grid on which the shore is wanted.
    pub fn grid(&self) -> &nav::Grid {
        &self.chart.grid
    }

    /// The whole chart.
    pub fn with_shore(self, shore: Shore) -> Chart {
        let mut chart = self.chart;
        chart.land.extend(shore.land);
        chart.shorelines.extend(shore.lines);
        chart
    }
}

impl ChartFile {
    /// The chart as far as the text goes.
    pub(super) fn chart_as_written(&self) -> &Chart {
        match self {
            ChartFile::Whole(chart) | ChartFile::ShoreBeside(ShoreBeside { chart, .. }) => chart,
        }
    }

    /// The same with every ring's inside on its left hand.
    pub(super) fn turned(mut self) -> ChartFile {
        let (ChartFile::Whole(chart) | ChartFile::ShoreBeside(ShoreBeside { chart, .. })) =
            &mut self;
        rings(chart).for_each(Ring::turn_left);
        self
    }
}

/// Every ring of a chart.
fn rings(chart: &mut Chart) -> impl Iterator<Item = &mut Ring> {
    let land = chart
        .land
        .iter_mut()
        .flat_map(|land| std::iter::once(&mut land.shore).chain(&mut land.lakes));
    land.chain(chart.drying.iter_mut().map(|area| &mut area.edge))
        .chain(chart.depths.iter_mut().map(|area| &mut area.edge))
        .chain(chart.races.iter_mut().map(|race| &mut race.edge))
}

/// The fields of the file, in the order in which they are written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Chart")]
pub(super) struct File {
    #[serde(rename = "version")]
    _version: u32,
    #[serde(deserialize_with = "name")]
    title: String,
    #[serde(default)]
    invented: bool,
    #[serde(default, deserialize_with = "note")]
    source: String,
    grid: super::grid::Written,
    extent: Corners,
    shore: WrittenShore,
    #[serde(default, deserialize_with = "lines")]
    shorelines: Vec<Vec<Point>>,
    #[serde(default)]
    drying: Vec<Drying>,
    #[serde(default)]
    depths: Vec<DepthArea>,
    #[serde(default)]
    landings: Vec<Landing>,
    #[serde(default)]
    hazards: Vec<Hazard>,
    #[serde(default)]
    races: Vec<Race>,
    #[serde(default)]
    gates: Vec<Gate>,
    #[serde(default)]
    places: Vec<Place>,
    #[serde(default)]
    marks: Vec<Mark>,
    #[serde(default)]
    ports: Vec<Port>,
    #[serde(default)]
    streams: Vec<Stream>,
}

#[derive(Deserialize)]
#[serde(rename = "Shore")]
enum WrittenShore {
    Here(Vec<Land>),
    File(Path),
}

/// A path that cannot lead out of the chart's folder, checked where the parser still knows the
/// line.
#[derive(Deserialize)]
#[serde(try_from = "String")]
struct Path(String);

impl TryFrom<String> for Path {
    type Error = String;

    fn try_from(path: String) -> Result<Path, String> {
        let cleaned = crate::clean::clean(&path, crate::clean::NOTE);
        let leads_out = path.is_empty()
            || path.contains(['\\', ':'])
            || path.split('/').any(|part| part.is_empty() || part == "." || part == "..");
        if leads_out || cleaned != path {
            return Err(format!(
                "the shore's file `{cleaned}` is not a plain path from the chart's folder; \
                 right are `coast.geojson` or `shores/coast.geojson`"
            ));
        }
        Ok(Path(path))
    }
}

/// Fails with the field that is wrong, and how.
impl TryFrom<File> for ChartFile {
    type Error = (&'static str, String);

    fn try_from(file: File) -> Result<ChartFile, Self::Error> {
        let (land, beside) = match file.shore {
            WrittenShore::Here(land) => (land, None),
            WrittenShore::File(Path(path)) => (Vec::new(), Some(path)),
        };
        let chart = Chart {
            title: file.title,
            invented: file.invented,
            source: file.source,
            grid: file.grid.grid().map_err(|why| ("grid", why))?,
            extent: file.extent.extent().map_err(|why| ("extent", why))?,
            land,
            shorelines: file.shorelines,
            drying: file.drying,
            depths: file.depths,
            landings: file.landings,
            hazards: file.hazards,
            races: file.races,
            gates: file.gates,
            places: file.places,
            marks: file.marks,
            ports: file.ports,
            streams: file.streams,
        };
        Ok(match beside {
            None => ChartFile::Whole(chart),
            Some(path) => ChartFile::ShoreBeside(ShoreBeside { path, chart }),
        })
    }
}
