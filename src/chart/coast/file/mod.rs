//! The program's own shore file: the arrays of a [`Coast`](super::Coast) at every level of detail, as they lie in
//! memory, so that opening one is no work. `SHORE.md` beside this file describes it byte by byte.
//!
//! It is made by [`Gatherer`] from the features of a larger file, on World Mercator (EPSG:3395), in
//! whole centimetres of that plane: a vertex moves by at most 0.7 cm there, and by less on the
//! ground the farther it lies from the equator.

mod crossed;
mod directory;
mod fault;
mod gather;
mod open;
#[cfg(test)]
mod tests;
mod write;

pub use crossed::{Crossed, crossed};
pub use fault::ShoreFileError;
pub use gather::{Feature, Gatherer, MOST_VERTICES, Told};
pub use open::{check, open};
pub use write::write;

use super::Scale;
use crate::clean::{NAME, NOTE, clean};
use crate::geojson::{Import, LeftOut, Shore};
use crate::{Chart, Extent, Point};

/// The ending of the names of shore files.
pub const ENDING: &str = "shore";

/// The first bytes of a shore file: no text has them, and a copy that changes line ends breaks them.
pub const MAGIC: [u8; 8] = *b"\x89SHORE\r\n";

/// The version of the format that is written and read.
pub const VERSION: u32 = 1;

/// Whole centimetres of the plane: as far as 192.9 degrees east and west, 85.9 north and south.
const SCALE: Scale = Scale { origin: Point { x: 0.0, y: 0.0 }, tick: 0.01 };

/// What a shore file says of itself.
#[derive(Debug, Clone, PartialEq)]
pub struct About {
    /// What the chart of it is called.
    pub title: String,
    /// Where it came from.
    pub source: String,
    /// What it covers, in metres on the plane.
    pub extent: Extent,
    /// What was odd about the shore when it was imported.
    pub told: Told,
}

/// How much is held against its checksums when a file is opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trust {
    /// The head, the directory, lines and runs: what everything else hangs on. No query reads beyond the
    /// file, whatever the rest holds.
    Cache,
    /// Every byte.
    Nothing,
}

/// [`About`] as text: RON.
#[derive(serde::Serialize, serde::Deserialize)]
struct Written {
    title: String,
    source: String,
    extent: [f64; 4],
    told: Told,
}

impl About {
    fn to_bytes(&self) -> Vec<u8> {
        let About { title, source, extent, told } = self.clone();
        let (low, high) = (extent.min(), extent.max());
        let written = Written { title, source, extent: [low.x, low.y, high.x, high.y], told };
        ron::to_string(&written).unwrap_or_default().into_bytes()
    }

    fn of_bytes(bytes: &[u8]) -> Result<About, ShoreFileError> {
        let what = directory::Part::About.name();
        let broken = |why: String| ShoreFileError::Broken { what, why };
        let written: Written =
            ron::de::from_bytes(bytes).map_err(|error| broken(error.to_string()))?;
        let [west, south, east, north] = written.extent;
        if !written.extent.iter().all(|metres| metres.is_finite()) {
            return Err(broken("its extent is no number".to_owned()));
        }
        Ok(About {
            title: clean(&written.title, NAME),
            source: clean(&written.source, NOTE),
            extent: Extent::new((west, south), (east, north)),
            told: written.told,
        })
    }

    /// A chart without anything but its shore, which is not in its lists.
    #[must_use]
    pub fn chart(&self) -> Chart {
        let shore = Import { shore: Shore::default(), left_out: LeftOut::default() };
        let grid = nav::Grid::WorldMercator(nav::WorldMercator::new());
        let chart = shore.into_chart(grid, &self.title, &self.source);
        Chart { extent: self.extent, ..chart }
    }
}
