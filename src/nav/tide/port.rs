//! Ports: a mean level and the constants of its constituents.

use jiff::Timestamp;

use super::constituent::{Constituent, PhaseLag};
use super::curve::{Curve, Span};
use super::height::Height;
use super::node::NodalFactors;
use crate::Length;
use crate::moment::{DateOutside, seconds};

/// One constituent's constants at a port.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Harmonic {
    /// The constituent.
    pub constituent: Constituent,
    /// Half its range at the port, often written H.
    pub amplitude: Length,
    /// How far it lags behind its argument at Greenwich, often written G or g.
    pub phase: PhaseLag,
}

/// Why constants make no port.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PortError {
    /// Nothing to predict from.
    #[error("the port {port:?} has no constituents; at least one is needed")]
    NoConstituents {
        /// The port's name.
        port: String,
    },
    /// Two lines for one constituent.
    #[error("the port {port:?} has two lines for {constituent}; one is needed")]
    Twice {
        /// The port's name.
        port: String,
        /// The constituent.
        constituent: Constituent,
    },
    /// An amplitude below zero, or none that water has.
    #[error("the amplitude of {constituent} at {port:?}, {metres} m, is not within 0 to 20 m")]
    Amplitude {
        /// The port's name.
        port: String,
        /// The constituent.
        constituent: Constituent,
        /// The amplitude in metres.
        metres: f64,
    },
}

/// A port whose tide can be predicted.
///
/// ```
/// use nav::{Length, tide::{Constituent, Harmonic, Height, PhaseLag, Port}};
/// // Seattle's two largest (NOAA CO-OPS, station 9447130), above mean lower low water.
/// let harmonic = |name, metres, degrees| Harmonic {
///     constituent: Constituent::named(name).unwrap(),
///     amplitude: metres * Length::METRE,
///     phase: PhaseLag::from_degrees(degrees).unwrap(),
/// };
/// let port = Port::new(
///     "Seattle",
///     Height::above_datum(2.024 * Length::METRE),
///     vec![harmonic("M2", 1.063, 10.8), harmonic("K1", 0.834, 276.8)],
/// )
/// .unwrap();
/// let height = port.height("2019-08-30T18:23Z".parse().unwrap()).unwrap();
/// assert!((-0.6..0.6).contains(&height.as_metres()));
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Port {
    name: String,
    mean_level: Height,
    harmonics: Vec<Harmonic>,
    nodal: NodalFactors,
}

impl Port {
    /// The port called `name`, whose mean level is `mean_level` above its datum, with these constants.
    ///
    /// # Errors
    /// [`PortError`] when there is no constituent, one twice, or an amplitude outside 0 to 20 m.
    pub fn new(
        name: impl Into<String>,
        mean_level: Height,
        harmonics: Vec<Harmonic>,
    ) -> Result<Port, PortError> {
        let port = name.into();
        if harmonics.is_empty() {
            return Err(PortError::NoConstituents { port });
        }
        for (index, harmonic) in harmonics.iter().enumerate() {
            let &Harmonic { constituent, amplitude, .. } = harmonic;
            if harmonics[..index].iter().any(|earlier| earlier.constituent == constituent) {
                return Err(PortError::Twice { port, constituent });
            }
            let metres = amplitude.as_metres();
            if !(0.0..=20.0).contains(&metres) {
                return Err(PortError::Amplitude { port, constituent, metres });
            }
        }
        Ok(Port { name: port, mean_level, harmonics, nodal: NodalFactors::default() })
    }

    /// The same port with node factors reckoned otherwise.
    #[must_use]
    pub fn with_nodal_factors(self, nodal: NodalFactors) -> Port {
        Port { nodal, ..self }
    }

    /// The same port with its mean level `higher`, as a season or the weather has it.
    #[must_use]
    pub fn raised(self, higher: Length) -> Port {
        Port { mean_level: self.mean_level + higher, ..self }
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Its mean level, often written Z₀.
    pub const fn mean_level(&self) -> Height {
        self.mean_level
    }

    /// Its constants.
    pub fn harmonics(&self) -> &[Harmonic] {
        &self.harmonics
    }

    /// For when its node factors are reckoned.
    pub const fn nodal_factors(&self) -> NodalFactors {
        self.nodal
    }

    /// The height of tide at an instant.
    ///
    /// For more than a few of them, [`Port::curve`] is quicker.
    ///
    /// Accuracy: within 3 mm of an independent predictor by Schureman's formulas; within 0.6 cm of
    /// Rijkswaterstaat's hourly tables, whose printed digit is 1 cm. Weather is left out, and is
    /// often more than all of that.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn height(&self, at: Timestamp) -> Result<Height, DateOutside> {
        let seconds = seconds(at)?;
        Ok(Height::metres(Span::around(self, seconds).height(seconds)))
    }

    /// The tide from one instant to another, made ready for many questions.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn curve(&self, from: Timestamp, to: Timestamp) -> Result<Curve, DateOutside> {
        Ok(Curve::of(self, seconds(from)?, seconds(to)?))
    }

    /// The constants of a constituent, if the port has them.
    pub(super) fn harmonic(&self, name: &str) -> Option<&Harmonic> {
        self.harmonics.iter().find(|harmonic| harmonic.constituent.name() == name)
    }
}
