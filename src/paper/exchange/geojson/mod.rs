//! GeoJSON (RFC 7946) of points and lines.
//!
//! A route goes out as a feature collection: a `Point` for each of its points, a `LineString` for each leg, cut
//! where it crosses the 180th meridian (section 3.1.9), and a `Point` for each thing of the chart that goes with
//! it. What GeoJSON has no place for is in the foreign member `strandline` (section 6.1): of the collection what
//! the route has beside its points, in the form of the route file; of a feature the number of its point or leg,
//! and how the leg to the point runs.

mod nested;
mod own;
mod read;
mod write;

pub(super) use read::read;
pub(super) use write::write;
