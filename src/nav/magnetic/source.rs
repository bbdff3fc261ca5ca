//! Where a plan's variation comes from: a model, or what a paper chart prints.

use super::field::{FieldWarning, PerYear, VariationError};
use super::{DecimalYear, EllipsoidHeight, FieldModel};
use crate::{Longitude, Position, Variation};

/// The source of a plan's variation.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum VariationSource {
    /// The World Magnetic Model 2025, at each place.
    #[default]
    Model,
    /// A paper chart's compass rose, for the whole plan.
    Printed(PrintedVariation),
}

/// The variation printed on a paper chart: `4°30′W 2015 (8′E)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrintedVariation {
    /// The variation printed.
    pub variation: Variation,
    /// The year that it is printed for; a whole year stands for its beginning.
    pub year: DecimalYear,
    /// The yearly change printed beside it, east positive.
    pub change_per_year: PerYear<Variation>,
}

/// The variation for a place and date.
#[derive(Debug, Clone, PartialEq)]
pub struct VariationAt {
    /// From true to magnetic north, east positive.
    pub variation: Variation,
    /// Its change in a year.
    pub change_per_year: PerYear<Variation>,
    /// One standard deviation; a printed variation has none.
    pub error: Option<VariationError>,
    /// What to warn of.
    pub warnings: Vec<FieldWarning>,
}

impl VariationSource {
    /// The variation at sea level for a position and date.
    ///
    /// ```
    /// use nav::magnetic::{DecimalYear, PerYear, PrintedVariation, VariationSource};
    /// use nav::{Position, Variation};
    /// // A chart says 4°30′W 2015 (8′E).
    /// let printed = VariationSource::Printed(PrintedVariation {
    ///     variation: Variation::from_degrees_east(-4.5)?,
    ///     year: DecimalYear::new(2015.0)?,
    ///     change_per_year: PerYear::from_degrees_east(8.0 / 60.0)?,
    /// });
    /// let here = Position::from_degrees(57.155, -2.08)?;
    /// // Eleven and a half years on it is 92 minutes less.
    /// let now = printed.at(here, DecimalYear::new(2026.5)?);
    /// assert_eq!(now.variation.to_string(), "3.0°W");
    /// # Ok::<(), nav::OutOfRange>(())
    /// ```
    #[must_use]
    pub fn at(&self, position: Position, year: DecimalYear) -> VariationAt {
        match self {
            VariationSource::Model => {
                let field = FieldModel::wmm2025().at(position, EllipsoidHeight::ZERO, year);
                VariationAt {
                    variation: field.variation,
                    change_per_year: field.rates.variation,
                    error: Some(field.variation_error),
                    warnings: field.warnings(),
                }
            }
            VariationSource::Printed(printed) => VariationAt {
                variation: printed.on(year),
                change_per_year: printed.change_per_year,
                error: None,
                warnings: Vec::new(),
            },
        }
    }
}

impl PrintedVariation {
    /// Carried on to `year` by the yearly change.
    fn on(&self, year: DecimalYear) -> Variation {
        let years = year.as_years() - self.year.as_years();
        let degrees = self.variation.as_degrees_east() + self.change_per_year.over_years(years);
        Variation::degrees_east(Longitude::wrapped(degrees).as_degrees())
    }
}
