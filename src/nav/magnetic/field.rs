//! The field at one place and date, in the terms of geomagnetism.

use std::fmt;

use super::{DecimalYear, EllipsoidHeight};
use crate::{OutOfRange, Variation};

/// A magnetic flux density, or a part of one along an axis, stored in nanotesla.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct FluxDensity(f64);

impl FluxDensity {
    pub(super) const fn nanotesla(nanotesla: f64) -> FluxDensity {
        FluxDensity(nanotesla)
    }

    /// In nanotesla.
    pub const fn as_nanotesla(self) -> f64 {
        self.0
    }
}

/// Whole nanotesla: `17300 nT`.
impl fmt::Display for FluxDensity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} nT", crate::text::decimals(self.0, 0))
    }
}

/// The angle by which the field points below the horizontal, -90 to 90 degrees, down positive:
/// magnetic dip, which geophysics calls inclination.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Dip(f64);

impl Dip {
    pub(super) const fn degrees(degrees: f64) -> Dip {
        Dip(degrees)
    }

    /// In degrees, down positive.
    pub const fn as_degrees(self) -> f64 {
        self.0
    }
}

/// The change of a quantity in a year.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct PerYear<T>(pub T);

/// One standard deviation of a variation taken from a model, never negative.
///
/// It covers the model's own error and the local field of the rocks beneath, not what lies
/// about in the boat.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct VariationError(f64);

impl VariationError {
    /// For a horizontal field of so many nanotesla, by the error model of WMM2025: √(0.26² +
    /// (5417/H)²) degrees.
    pub(super) fn of_wmm2025(horizontal: f64) -> VariationError {
        // At the magnetic poles the compass points anywhere.
        VariationError(0.26_f64.hypot(5417.0 / horizontal).min(180.0))
    }

    /// In degrees.
    pub const fn as_degrees(self) -> f64 {
        self.0
    }
}

/// What a compass is good for, by the strength of the horizontal field that turns it
/// (WMM2025 technical report, section 1.8).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CompassZone {
    /// 6,000 nT and over: an ordinary compass works.
    Usual,
    /// From 2,000 nT to under 6,000 nT: it becomes inaccurate.
    Caution,
    /// Under 2,000 nT: not to be relied on at all.
    Blackout,
}

impl CompassZone {
    pub(super) fn of(horizontal: FluxDensity) -> CompassZone {
        match horizontal.0 {
            nanotesla if nanotesla < 2000.0 => CompassZone::Blackout,
            nanotesla if nanotesla < 6000.0 => CompassZone::Caution,
            _ => CompassZone::Usual,
        }
    }
}

/// `usual`, `caution zone`, `blackout zone`.
impl fmt::Display for CompassZone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            CompassZone::Usual => "usual",
            CompassZone::Caution => "caution zone",
            CompassZone::Blackout => "blackout zone",
        })
    }
}

/// The magnetic field at a place and date.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Field {
    /// From true to magnetic north, east positive.
    pub variation: Variation,
    /// Below the horizontal.
    pub dip: Dip,
    /// The horizontal part: what turns a compass.
    pub horizontal: FluxDensity,
    /// The part towards true north.
    pub north: FluxDensity,
    /// The part towards true east.
    pub east: FluxDensity,
    /// The part down.
    pub down: FluxDensity,
    /// The whole.
    pub total: FluxDensity,
    /// How all of these change in a year.
    pub rates: FieldRates,
    /// One standard deviation of the variation.
    pub variation_error: VariationError,
    /// What a compass is good for here.
    pub zone: CompassZone,
    pub(super) year: DecimalYear,
    pub(super) height: EllipsoidHeight,
}

/// The changes of the field in a year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FieldRates {
    /// Of the variation, east positive.
    pub variation: PerYear<Variation>,
    /// Of the dip.
    pub dip: PerYear<Dip>,
    /// Of the horizontal part.
    pub horizontal: PerYear<FluxDensity>,
    /// Of the part towards true north.
    pub north: PerYear<FluxDensity>,
    /// Of the part towards true east.
    pub east: PerYear<FluxDensity>,
    /// Of the part down.
    pub down: PerYear<FluxDensity>,
    /// Of the whole.
    pub total: PerYear<FluxDensity>,
}

/// A reason not to take a variation at its word.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum FieldWarning {
    /// A date before or after the years that the model was made for.
    #[error(
        "{0} is outside the years of the magnetic model, 2025.0 to 2030.0: the variation is extrapolated"
    )]
    Year(DecimalYear),
    /// A height below or above those that the model was made for.
    #[error("a height of {0} km is outside those of the magnetic model, -1 km to 850 km")]
    Height(f64),
    /// The horizontal field is weak.
    #[error(
        "caution zone: the horizontal field of {0} is under 6000 nT and a compass is inaccurate"
    )]
    Caution(FluxDensity),
    /// There is next to no horizontal field.
    #[error(
        "blackout zone: the horizontal field of {0} is under 2000 nT and a compass is not to be relied on"
    )]
    Blackout(FluxDensity),
}

impl Field {
    /// What to warn of, the gravest last; empty in the usual case.
    #[must_use]
    pub fn warnings(&self) -> Vec<FieldWarning> {
        let mut warnings = Vec::new();
        if !(2025.0..=2030.0).contains(&self.year.as_years()) {
            warnings.push(FieldWarning::Year(self.year));
        }
        if !(-1.0..=850.0).contains(&self.height.as_kilometres()) {
            warnings.push(FieldWarning::Height(self.height.as_kilometres()));
        }
        match self.zone {
            CompassZone::Usual => {}
            CompassZone::Caution => warnings.push(FieldWarning::Caution(self.horizontal)),
            CompassZone::Blackout => warnings.push(FieldWarning::Blackout(self.horizontal)),
        }
        warnings
    }
}

impl PerYear<Variation> {
    /// A change of `degrees` a year, east positive.
    ///
    /// # Errors
    /// [`OutOfRange`] when it is not within -180 to 180.
    pub fn from_degrees_east(degrees: f64) -> Result<PerYear<Variation>, OutOfRange> {
        Variation::from_degrees_east(degrees).map(PerYear)
    }

    /// The change over so many years.
    pub(super) fn over_years(self, years: f64) -> f64 {
        self.0.as_degrees_east() * years
    }
}
