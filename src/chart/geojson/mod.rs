//! Shores from GeoJSON (RFC 7946).

use crate::model::{Land, Point};

/// A shore on a chart's grid.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Shore {
    /// What polygons enclose.
    pub land: Vec<Land>,
    /// Lines, which enclose nothing.
    pub lines: Vec<Vec<Point>>,
}
