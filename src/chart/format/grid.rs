//! The grid of a chart, as it is read and written.

use std::fmt::{self, Write};

use nav::{ChartGrid, Grid, GridPoint, Lettering, Position};
use serde::Deserialize;

use super::fields::name;
use super::write::Quoted;

/// The grid as it stands in the file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Grid")]
pub(super) enum Written {
    Named(#[serde(deserialize_with = "name")] String),
    Own {
        #[serde(deserialize_with = "name")]
        title: String,
        origin: Origin,
        #[serde(default = "one")]
        scale: f64,
        #[serde(default)]
        false_origin: (f64, f64),
        #[serde(default)]
        lettering: Letters,
    },
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Origin {
    lat: f64,
    lon: f64,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, rename = "Lettering")]
pub(super) struct Letters {
    south_west: (f64, f64),
    rows: Vec<String>,
}

fn one() -> f64 {
    1.0
}

impl Written {
    /// The grid, or what is wrong with it.
    pub(super) fn grid(&self) -> Result<Grid, String> {
        match self {
            Written::Named(name) => named(name),
            Written::Own { title, origin, scale, false_origin, lettering } => {
                own(title, origin, *scale, *false_origin, lettering)
                    .map_err(|error| error.to_string())
            }
        }
    }
}

fn named(name: &str) -> Result<Grid, String> {
    match Grid::parse(name).map_err(|error| error.to_string())? {
        Grid::Mgrs => Err("MGRS is a grid for each zone, a chart lies on one; \
                           name its zone, as in UTM:33N"
            .to_owned()),
        grid => Ok(grid),
    }
}

fn own(
    title: &str,
    origin: &Origin,
    scale: f64,
    (easting, northing): (f64, f64),
    letters: &Letters,
) -> Result<Grid, nav::ChartGridError> {
    let origin = Position::from_degrees(origin.lat, origin.lon)?;
    let false_origin = GridPoint::from_metres(easting, northing)?;
    let lettering = if letters.rows.is_empty() {
        Lettering::NONE
    } else {
        let (easting, northing) = letters.south_west;
        Lettering::rows(GridPoint::from_metres(easting, northing)?, &letters.rows)?
    };
    ChartGrid::new(title, origin, scale, false_origin, lettering).map(Grid::Chart)
}

/// Writes the grid's value and what ends its line.
pub(super) fn write(out: &mut String, grid: &Grid) -> fmt::Result {
    let Grid::Chart(own) = grid else {
        return writeln!(out, "Named({}),", Quoted(&grid.name()));
    };
    let (origin, false_origin) = (own.origin(), own.false_origin());
    writeln!(out, "Own(\n        title: {},", Quoted(own.title()))?;
    let (lat, lon) = (origin.lat.as_degrees(), origin.lon.as_degrees());
    writeln!(out, "        origin: (lat: {lat}, lon: {lon}),")?;
    writeln!(out, "        scale: {},", own.scale())?;
    writeln!(out, "        false_origin: {},", Metres(false_origin))?;
    if own.lettering().is_lettered() {
        let corner = Metres(own.lettering().south_west());
        writeln!(out, "        lettering: (south_west: {corner}, rows: [")?;
        for row in own.lettering().to_rows() {
            writeln!(out, "            {},", Quoted(&row))?;
        }
        writeln!(out, "        ]),")?;
    }
    writeln!(out, "    ),")
}

/// A grid point as `(easting, northing)`.
struct Metres(GridPoint);

impl fmt::Display for Metres {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "({}, {})", self.0.easting.as_metres(), self.0.northing.as_metres())
    }
}
