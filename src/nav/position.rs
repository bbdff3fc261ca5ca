//! Latitude, longitude and position on a datum.

use std::fmt;
use std::marker::PhantomData;

use crate::{Ellipsoid, OutOfRange};

/// A geodetic latitude, -90 to 90 degrees, north positive.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Latitude(f64);

impl Latitude {
    /// A latitude of `degrees`, north positive.
    ///
    /// # Errors
    /// [`OutOfRange`] when it is not within -90 to 90.
    pub fn from_degrees(degrees: f64) -> Result<Latitude, OutOfRange> {
        OutOfRange::check("latitude", degrees, (-90.0, 90.0), "-90 to 90 degrees").map(Latitude)
    }

    /// For numbers computed in this crate.
    pub(crate) const fn clamped(degrees: f64) -> Latitude {
        Latitude(degrees.clamp(-90.0, 90.0))
    }

    /// In degrees, north positive.
    pub const fn as_degrees(self) -> f64 {
        self.0
    }

    /// In radians, north positive.
    pub const fn as_radians(self) -> f64 {
        self.0.to_radians()
    }
}

/// A geodetic longitude, -180 to 180 degrees, east positive; -180 and 180 are the same meridian.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Longitude(f64);

impl Longitude {
    /// A longitude of `degrees`, east positive.
    ///
    /// # Errors
    /// [`OutOfRange`] when it is not within -180 to 180.
    pub fn from_degrees(degrees: f64) -> Result<Longitude, OutOfRange> {
        OutOfRange::check("longitude", degrees, (-180.0, 180.0), "-180 to 180 degrees")
            .map(Longitude)
    }

    /// A longitude of `degrees`, east positive, any whole turns taken off.
    ///
    /// # Errors
    /// [`OutOfRange`] when `degrees` is not finite.
    pub fn wrapping(degrees: f64) -> Result<Longitude, OutOfRange> {
        OutOfRange::finite("longitude", degrees).map(Longitude::wrapped)
    }

    /// For numbers computed in this crate, which are finite by their construction.
    pub(crate) fn wrapped(degrees: f64) -> Longitude {
        if (-180.0..=180.0).contains(&degrees) {
            return Longitude(degrees);
        }
        let turned = degrees.rem_euclid(360.0);
        Longitude(if turned > 180.0 { turned - 360.0 } else { turned })
    }

    /// In degrees, east positive.
    pub const fn as_degrees(self) -> f64 {
        self.0
    }

    /// In radians, east positive.
    pub const fn as_radians(self) -> f64 {
        self.0.to_radians()
    }

    /// Degrees from `meridian` east to this longitude, the shorter way: over -180 to 180.
    #[must_use]
    pub fn degrees_east_of(self, meridian: Longitude) -> f64 {
        Longitude::wrapped(self.0 - meridian.0).0
    }
}

/// A geodetic datum: which ellipsoid, laid where, latitudes and longitudes refer to.
pub trait Datum: Copy + fmt::Debug + 'static {
    /// The datum's usual name.
    const NAME: &'static str;
    /// The ellipsoid that its latitudes and longitudes are laid on.
    const ELLIPSOID: Ellipsoid;
}

/// World Geodetic System 1984 (EPSG:4326), the datum of satellite receivers and of everything
/// in this program that names no other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wgs84 {}

impl Datum for Wgs84 {
    const NAME: &'static str = "WGS 84";
    const ELLIPSOID: Ellipsoid = Ellipsoid::WGS84;
}

/// A position by latitude and longitude on the datum `D`.
///
/// A position on one datum cannot stand in for one on another: on an old national datum
/// the same figures name a place a hundred metres away.
///
/// ```
/// use nav::Position;
/// let here: Position = Position::from_degrees(57.155, -2.08).unwrap();
/// assert_eq!(here.lat.as_degrees(), 57.155);
/// assert!(<Position>::from_degrees(91.0, 0.0).is_err());
/// ```
pub struct Position<D: Datum = Wgs84> {
    /// The latitude.
    pub lat: Latitude,
    /// The longitude.
    pub lon: Longitude,
    datum: PhantomData<D>,
}

impl<D: Datum> Position<D> {
    /// The position at `lat` and `lon`.
    pub const fn new(lat: Latitude, lon: Longitude) -> Position<D> {
        Position { lat, lon, datum: PhantomData }
    }

    /// The position at `lat` degrees north and `lon` degrees east.
    ///
    /// # Errors
    /// [`OutOfRange`] when `lat` is not within -90 to 90 or `lon` not within -180 to 180.
    pub fn from_degrees(lat: f64, lon: f64) -> Result<Position<D>, OutOfRange> {
        Ok(Position::new(Latitude::from_degrees(lat)?, Longitude::from_degrees(lon)?))
    }

    /// For numbers computed in this crate.
    pub(crate) fn computed(lat: f64, lon: f64) -> Position<D> {
        Position::new(Latitude::clamped(lat), Longitude::wrapped(lon))
    }
}

// By hand, since a derive would ask the same of the datum, which has no values.
impl<D: Datum> Clone for Position<D> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<D: Datum> Copy for Position<D> {}
impl<D: Datum> PartialEq for Position<D> {
    fn eq(&self, other: &Self) -> bool {
        self.lat == other.lat && self.lon == other.lon
    }
}
impl<D: Datum> fmt::Debug for Position<D> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "({}, {}) on {}", self.lat.0, self.lon.0, D::NAME)
    }
}
