//! A spherical harmonic model of the field, and its value at a place.

use std::cmp::Ordering;

use super::field::{CompassZone, Dip, Field, FieldRates, FluxDensity, PerYear, VariationError};
use super::{DecimalYear, wmm2025};
use crate::angle::sin_cos_degrees;
use crate::{Ellipsoid, OutOfRange, Position, Variation};

/// The model's highest degree.
const DEGREE: usize = 12;
/// The geomagnetic reference radius in km (section 1.2).
const RADIUS: f64 = 6371.2;

/// A height above the WGS 84 ellipsoid, within tens of metres of that above mean sea level,
/// which makes no difference to the field.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct EllipsoidHeight(f64);

impl EllipsoidHeight {
    /// On the ellipsoid: near enough where a kayak is.
    pub const ZERO: EllipsoidHeight = EllipsoidHeight(0.0);

    /// A height of so many kilometres.
    ///
    /// # Errors
    /// [`OutOfRange`] when it is not within -10 to 10,000.
    pub fn from_kilometres(kilometres: f64) -> Result<EllipsoidHeight, OutOfRange> {
        OutOfRange::check("height in km", kilometres, (-10.0, 10_000.0), "-10 to 10,000 km")
            .map(EllipsoidHeight)
    }

    /// In kilometres.
    pub const fn as_kilometres(self) -> f64 {
        self.0
    }
}

/// A model of the main magnetic field and its change.
///
/// ```
/// use nav::Position;
/// use nav::magnetic::{DecimalYear, EllipsoidHeight, FieldModel};
/// // The technical report's example for 2027.5: at 80° N, 0° E, on the ellipsoid.
/// let place = Position::from_degrees(80.0, 0.0)?;
/// let field = FieldModel::wmm2025().at(place, EllipsoidHeight::ZERO, DecimalYear::new(2027.5)?);
/// assert_eq!(field.variation.to_string(), "2.6°E");
/// assert!((field.total.as_nanotesla() - 55_253.9).abs() < 0.05);
/// # Ok::<(), nav::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy)]
pub struct FieldModel {
    epoch: f64,
    coefficients: &'static [Gauss],
}

/// Two coefficients of one degree and order with their changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Gauss {
    pub(super) degree: usize,
    pub(super) order: usize,
    /// g, h in nT, then their changes in nT a year.
    pub(super) values: [f64; 4],
}

impl Gauss {
    pub(super) const fn of(degree: usize, order: usize, values: [f64; 4]) -> Gauss {
        Gauss { degree, order, values }
    }
}

/// The field, or its change, along three axes.
#[derive(Debug, Clone, Copy, Default)]
struct Parts {
    north: f64,
    east: f64,
    down: f64,
}

impl FieldModel {
    /// The World Magnetic Model 2025, made for 2025.0 to 2030.0.
    #[must_use]
    pub const fn wmm2025() -> FieldModel {
        FieldModel { epoch: 2025.0, coefficients: &wmm2025::COEFFICIENTS }
    }

    /// The field at a position, height and date.
    ///
    /// **Accuracy**: the model's own test values to their printed digits; how far the true
    /// field may lie from that is the answer's [`variation_error`](Field::variation_error).
    /// Outside the model's years and heights there is an answer too, with
    /// [warnings](Field::warnings). At a pole, north is the direction of the meridian by which
    /// the pole is named.
    #[must_use]
    pub fn at(self, position: Position, height: EllipsoidHeight, year: DecimalYear) -> Field {
        let place = Place::new(position, height);
        let (main, change) = self.synthesis(&place, year.as_years() - self.epoch);
        let (b, db) = (place.level(main), place.level(change));
        let horizontal = b.north.hypot(b.east);
        let total = horizontal.hypot(b.down);
        // Equations 19 and 20; where a divisor is nothing, its change has no meaning.
        let by = |over: f64, under: f64| if under == 0.0 { 0.0 } else { over / under };
        let horizontal_change = by(b.north * db.north + b.east * db.east, horizontal);
        let total_change = by(horizontal * horizontal_change + b.down * db.down, total);
        let dip_change = by(horizontal * db.down - b.down * horizontal_change, total * total);
        let turn = by(b.north * db.east - b.east * db.north, horizontal * horizontal);
        let flux = FluxDensity::nanotesla;
        Field {
            variation: Variation::degrees_east(b.east.atan2(b.north).to_degrees()),
            dip: Dip::degrees(b.down.atan2(horizontal).to_degrees()),
            horizontal: flux(horizontal),
            north: flux(b.north),
            east: flux(b.east),
            down: flux(b.down),
            total: flux(total),
            rates: FieldRates {
                variation: PerYear(Variation::degrees_east(turn.to_degrees())),
                dip: PerYear(Dip::degrees(dip_change.to_degrees())),
                horizontal: PerYear(flux(horizontal_change)),
                north: PerYear(flux(db.north)),
                east: PerYear(flux(db.east)),
                down: PerYear(flux(db.down)),
                total: PerYear(flux(total_change)),
            },
            variation_error: VariationError::of_wmm2025(horizontal),
            zone: CompassZone::of(flux(horizontal)),
            year,
            height,
        }
    }

    /// The field and its yearly change on the sphere's axes (equations 10 to 15).
    fn synthesis(self, place: &Place, years: f64) -> (Parts, Parts) {
        let legendre = place.legendre();
        let (mut main, mut change) = (Parts::default(), Parts::default());
        for gauss in self.coefficients {
            let harmonic = place.harmonic(&legendre, gauss.degree, gauss.order);
            let [g, h, dg, dh] = gauss.values;
            harmonic.add_to(&mut main, g + years * dg, h + years * dh);
            harmonic.add_to(&mut change, dg, dh);
        }
        (main, change)
    }
}

/// A place by its geocentric latitude and radius.
struct Place {
    /// Sine and cosine of the geocentric latitude.
    sin: f64,
    cos: f64,
    /// Sine and cosine of the geocentric less the geodetic latitude.
    tilt: (f64, f64),
    /// The reference radius by the place's.
    ratio: f64,
    /// Sine and cosine of multiples of the longitude.
    longitudes: [(f64, f64); DEGREE + 1],
}

/// The functions that one pair of coefficients is multiplied by.
struct Harmonic {
    /// (a/r)ⁿ⁺²
    fall: f64,
    n: f64,
    m: f64,
    longitude: (f64, f64),
    /// The Legendre function, by the cosine of the latitude, and by its derivative southward.
    value: f64,
    by_cos: f64,
    slope: f64,
}

impl Harmonic {
    fn add_to(&self, parts: &mut Parts, g: f64, h: f64) {
        let (sin, cos) = self.longitude;
        let along = g * cos + h * sin;
        parts.north += self.fall * along * self.slope;
        parts.east += self.fall * self.m * (g * sin - h * cos) * self.by_cos;
        parts.down -= self.fall * (self.n + 1.0) * along * self.value;
    }
}

/// Schmidt semi-normalised functions P(n, 0), and P(n, m) / cos of the latitude from order 1 on,
/// which are polynomials and so as good at the poles as elsewhere.
type Legendre = [[f64; DEGREE + 1]; DEGREE + 1];

impl Place {
    fn new(position: Position, height: EllipsoidHeight) -> Place {
        // Equations 7 and 8.
        let (sin_phi, cos_phi) = sin_cos_degrees(position.lat.as_degrees());
        let e2 = Ellipsoid::WGS84.eccentricity_squared();
        let normal =
            Ellipsoid::WGS84.semi_major().as_kilometres() / (1.0 - e2 * sin_phi * sin_phi).sqrt();
        let across = (normal + height.as_kilometres()) * cos_phi;
        let along = (normal * (1.0 - e2) + height.as_kilometres()) * sin_phi;
        let radius = across.hypot(along);
        let (sin, cos) = (along / radius, across / radius);
        let lon = position.lon.as_degrees();
        Place {
            sin,
            cos,
            tilt: (sin * cos_phi - cos * sin_phi, cos * cos_phi + sin * sin_phi),
            ratio: RADIUS / radius,
            longitudes: std::array::from_fn(|m| sin_cos_degrees(m as f64 * lon)),
        }
    }

    /// From the sphere's axes to the ellipsoid's (equation 17).
    fn level(&self, parts: Parts) -> Parts {
        let (sin, cos) = self.tilt;
        Parts {
            north: parts.north * cos - parts.down * sin,
            east: parts.east,
            down: parts.north * sin + parts.down * cos,
        }
    }

    fn legendre(&self) -> Legendre {
        let mut p = [[0.0; DEGREE + 1]; DEGREE + 1];
        p[0][0] = 1.0;
        p[1][0] = self.sin;
        p[1][1] = 1.0;
        for n in 2..=DEGREE {
            let (before, last) = (p[n - 2], p[n - 1]);
            let twice = (2 * n - 1) as f64;
            p[n] = std::array::from_fn(|m| match m.cmp(&n) {
                Ordering::Greater => 0.0,
                Ordering::Equal => (twice / (twice + 1.0)).sqrt() * self.cos * last[n - 1],
                Ordering::Less => {
                    (twice * self.sin * last[m] - root(n - 1, m) * before[m]) / root(n, m)
                }
            });
        }
        p
    }

    fn harmonic(&self, p: &Legendre, degree: usize, order: usize) -> Harmonic {
        let n = degree as f64;
        let (value, by_cos, slope) = if order == 0 {
            let slope = -(n * (n + 1.0) / 2.0).sqrt() * self.cos * p[degree][1];
            (p[degree][0], 0.0, slope)
        } else {
            let by_cos = p[degree][order];
            let slope = n * self.sin * by_cos - root(degree, order) * p[degree - 1][order];
            (by_cos * self.cos, by_cos, slope)
        };
        Harmonic {
            fall: self.ratio.powi(degree as i32 + 2),
            n,
            m: order as f64,
            longitude: self.longitudes[order],
            value,
            by_cos,
            slope,
        }
    }
}

/// √(n² - m²), for m up to n.
fn root(n: usize, m: usize) -> f64 {
    ((n * n - m * m) as f64).sqrt()
}
