//! Ellipsoids of revolution: the figures that latitudes are laid on.

use crate::{Length, OutOfRange};

/// An ellipsoid of revolution, flattened at the poles.
///
/// ```
/// use nav::Ellipsoid;
/// let b = Ellipsoid::WGS84.semi_minor().as_metres();
/// assert!((b - 6_356_752.3142).abs() < 5e-5); // NIMA TR 8350.2, table 3.3
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ellipsoid {
    a: f64,
    f: f64,
}

impl Ellipsoid {
    /// WGS 84 (NIMA TR 8350.2, table 3.1; EPSG:7030).
    pub const WGS84: Ellipsoid = Ellipsoid { a: 6_378_137.0, f: 1.0 / 298.257_223_563 };
    /// GRS 1980 (Moritz, Geodetic Reference System 1980; EPSG:7019).
    pub const GRS80: Ellipsoid = Ellipsoid { a: 6_378_137.0, f: 1.0 / 298.257_222_101 };
    /// Airy 1830 (A guide to coordinate systems in Great Britain, annex A; EPSG:7001).
    pub const AIRY_1830: Ellipsoid = Ellipsoid::from_axes(6_377_563.396, 6_356_256.909);
    /// Airy modified 1849 (EPSG:7002), of the Irish Grid.
    pub const AIRY_MODIFIED: Ellipsoid = Ellipsoid { a: 6_377_340.189, f: 1.0 / 299.324_964_6 };
    /// International 1924, after Hayford (DMA TM 8358.2, table of ellipsoids; EPSG:7022).
    pub const INTERNATIONAL_1924: Ellipsoid = Ellipsoid { a: 6_378_388.0, f: 1.0 / 297.0 };
    /// Bessel 1841 (EPSG:7004).
    pub const BESSEL_1841: Ellipsoid = Ellipsoid { a: 6_377_397.155, f: 1.0 / 299.152_812_8 };

    const fn from_axes(a: f64, b: f64) -> Ellipsoid {
        Ellipsoid { a, f: (a - b) / a }
    }

    /// The ellipsoid of this equatorial radius and inverse flattening.
    ///
    /// # Errors
    /// [`OutOfRange`] when the radius is not within 1 km to 1,000,000 km, or the inverse
    /// flattening not within 100 to 1,000,000: no figure of the Earth is, and the series of
    /// this crate are cut off for flattenings as small as the Earth's.
    pub fn new(semi_major: Length, inverse_flattening: f64) -> Result<Ellipsoid, OutOfRange> {
        let a = OutOfRange::check(
            "equatorial radius in metres",
            semi_major.as_metres(),
            (1e3, 1e9),
            "1 km to 1,000,000 km",
        )?;
        let inverse = OutOfRange::check(
            "inverse flattening",
            inverse_flattening,
            (100.0, 1e6),
            "100 to 1,000,000",
        )?;
        Ok(Ellipsoid { a, f: 1.0 / inverse })
    }

    /// The equatorial radius, a.
    pub const fn semi_major(self) -> Length {
        Length::metres(self.a)
    }

    /// The polar radius, b = a (1 - f).
    pub const fn semi_minor(self) -> Length {
        Length::metres(self.a * (1.0 - self.f))
    }

    /// The flattening, f = (a - b) / a.
    pub const fn flattening(self) -> f64 {
        self.f
    }

    /// The third flattening, n = (a - b) / (a + b).
    pub const fn third_flattening(self) -> f64 {
        self.f / (2.0 - self.f)
    }

    /// The first eccentricity squared, e² = (a² - b²) / a².
    pub const fn eccentricity_squared(self) -> f64 {
        self.f * (2.0 - self.f)
    }

    /// In metres, for this crate's formulas.
    pub(crate) const fn a(self) -> f64 {
        self.a
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn axes_give_back_the_published_polar_radii() {
        // EPSG dataset: b of Airy 1830, Airy modified, GRS 1980; half of the last printed digit.
        for (ellipsoid, b, half_digit) in [
            (Ellipsoid::AIRY_1830, 6_356_256.909, 5e-4),
            // Printed cut off, not rounded.
            (Ellipsoid::AIRY_MODIFIED, 6_356_034.447, 1e-3),
            (Ellipsoid::GRS80, 6_356_752.314_1, 1e-4),
        ] {
            assert!((ellipsoid.semi_minor().as_metres() - b).abs() < half_digit, "{ellipsoid:?}");
        }
        let n = Ellipsoid::AIRY_1830.third_flattening();
        // The guide to coordinate systems in Great Britain, annex C: n = 0.00167322...
        assert!((n - 0.001_673_220).abs() < 5e-9, "{n}");
    }

    #[test]
    fn no_figure_of_the_earth() {
        let radius = Length::metres(6_378_137.0);
        assert!(Ellipsoid::new(radius, 298.257).is_ok());
        let flat = Ellipsoid::new(radius, 2.0).unwrap_err();
        assert_eq!(flat.to_string(), "inverse flattening 2 is not within 100 to 1,000,000");
        assert!(Ellipsoid::new(Length::ZERO, 298.257).is_err());
        assert!(Ellipsoid::new(radius, f64::NAN).is_err());
    }
}
