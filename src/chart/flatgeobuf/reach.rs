//! The longitudes and latitudes that a part of a grid covers.

use nav::{Grid, GridPoint};

use super::Bounds;
use crate::Extent;

/// How many places are looked at along each side.
const STEPS: u32 = 32;

/// What is added on each side, as a part of the whole: the sides bend between the places, and the
/// shore just outside belongs to what is seen and measured at the edge.
const MARGIN: f64 = 0.1;

/// The rectangle around `extent` of `grid`, with a margin. Its longitudes hang together: across
/// the 180th meridian they go on beyond it. The whole world where the grid does not reach.
pub(super) fn around(grid: &Grid, extent: Extent) -> Bounds {
    let world = Bounds { west: -180.0, south: -90.0, east: 180.0, north: 90.0 };
    let (low, high) = (extent.min(), extent.max());
    let mut found = Bounds::NONE;
    let mut middle: Option<f64> = None;
    for (i, j) in (0..=STEPS).flat_map(|i| (0..=STEPS).map(move |j| (i, j))) {
        let part = |step: u32| f64::from(step) / f64::from(STEPS);
        let x = low.x + (high.x - low.x) * part(i);
        let y = low.y + (high.y - low.y) * part(j);
        let place = GridPoint::from_metres(x, y).ok().and_then(|point| grid.inverse(point).ok());
        let Some(place) = place else { return world };
        let (lat, lon) = (place.position.lat.as_degrees(), place.position.lon.as_degrees());
        let about = *middle.get_or_insert(lon);
        let lon = lon - ((lon - about) / 360.0).round() * 360.0;
        let here = Bounds { west: lon, south: lat, east: lon, north: lat };
        found = found.and(&here);
    }
    let east = MARGIN * (found.east - found.west);
    let north = MARGIN * (found.north - found.south);
    if found.east - found.west + 2.0 * east >= 180.0 {
        return world;
    }
    Bounds {
        west: found.west - east,
        south: (found.south - north).max(-90.0),
        east: found.east + east,
        north: (found.north + north).min(90.0),
    }
}

/// The rectangle in parts that lie within -180 to 180 degrees.
pub(super) fn parts(whole: &Bounds) -> Vec<Bounds> {
    let turned = |turn: f64| {
        let (west, east) = (whole.west + turn, whole.east + turn);
        Bounds { west: west.max(-180.0), east: east.min(180.0), ..*whole }
    };
    let parts = [-360.0, 0.0, 360.0].map(turned);
    parts.into_iter().filter(|part| part.west <= part.east).collect()
}
