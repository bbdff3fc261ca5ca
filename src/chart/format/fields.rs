//! How single fields are read: strings cleaned, points as pairs.

use serde::{Deserialize, Deserializer};

use crate::clean::{NAME, NOTE, clean};
use crate::{Extent, Point};

/// A name: one line of at most [`NAME`] characters.
pub(crate) fn name<'de, D: Deserializer<'de>>(from: D) -> Result<String, D::Error> {
    Ok(clean(&String::deserialize(from)?, NAME))
}

/// A note: one line of at most [`NOTE`] characters.
pub(crate) fn note<'de, D: Deserializer<'de>>(from: D) -> Result<String, D::Error> {
    Ok(clean(&String::deserialize(from)?, NOTE))
}

/// A point: `(easting, northing)`.
pub(crate) fn point<'de, D: Deserializer<'de>>(from: D) -> Result<Point, D::Error> {
    <(f64, f64)>::deserialize(from).map(Point::from)
}

/// Two points.
pub(crate) fn pair<'de, D: Deserializer<'de>>(from: D) -> Result<(Point, Point), D::Error> {
    let (one, other) = <((f64, f64), (f64, f64))>::deserialize(from)?;
    Ok((one.into(), other.into()))
}

/// A thing that may be left out, written without `Some(...)` where it is there.
pub(crate) fn some<'de, D: Deserializer<'de>, T: Deserialize<'de>>(
    from: D,
) -> Result<Option<T>, D::Error> {
    T::deserialize(from).map(Some)
}

/// Open lines: a list of lists of points.
pub(crate) fn lines<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Vec<Point>>, D::Error> {
    let lines = Vec::<Vec<(f64, f64)>>::deserialize(from)?;
    Ok(lines.into_iter().map(|line| line.into_iter().map(Point::from).collect()).collect())
}

/// The extent as it is written: two corners, which must be the ones that they are called.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Extent")]
pub(super) struct Corners {
    #[serde(deserialize_with = "point")]
    south_west: Point,
    #[serde(deserialize_with = "point")]
    north_east: Point,
}

impl Corners {
    /// The extent, or what is wrong with it.
    pub(super) fn extent(self) -> Result<Extent, String> {
        let Corners { south_west: low, north_east: high } = self;
        // Written so that NaN is refused as well.
        if low.x < high.x && low.y < high.y {
            return Ok(Extent::new(low, high));
        }
        Err(format!(
            "the extent from ({}, {}) to ({}, {}) covers nothing; \
             south_west comes first and lies west and south of north_east",
            low.x, low.y, high.x, high.y
        ))
    }
}
