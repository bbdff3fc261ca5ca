//! The Earth's magnetic field and the compass: variation at a place and date.
//!
//! **Reference**: NOAA NCEI and British Geological Survey, The US/UK World Magnetic Model for
//! 2025-2030, technical report (2024); equation numbers are its.

mod field;
mod model;
mod source;
mod wmm2025;
mod year;

pub use field::{
    CompassZone, Dip, Field, FieldRates, FieldWarning, FluxDensity, PerYear, VariationError,
};
pub use model::{EllipsoidHeight, FieldModel};
pub use source::{PrintedVariation, VariationAt, VariationSource};
pub use year::DecimalYear;

#[cfg(test)]
mod tests;
