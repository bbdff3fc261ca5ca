//! Lines of known length, and a real coast against an independent library's walks.

mod coast;
mod figures;
mod properties;

use super::*;

pub(super) fn at(lat: f64, lon: f64) -> Position {
    Position::from_degrees(lat, lon).unwrap()
}

pub(super) fn metres(metres: f64) -> Length {
    Length::from_metres(metres).unwrap()
}

/// A place this far east and north of one on the equator, in metres on the ground.
///
/// A plane is laid there with its middle on the equator: over a few kilometres it is as true as
/// their square over that of the Earth's radius, some parts in ten million.
pub(super) fn near_equator(east: f64, north: f64) -> Position {
    let wgs84 = nav::Ellipsoid::WGS84;
    let along_equator = wgs84.semi_major().as_metres();
    let along_meridian = along_equator * (1.0 - wgs84.eccentricity_squared());
    at((north / along_meridian).to_degrees(), 7.0 + (east / along_equator).to_degrees())
}
