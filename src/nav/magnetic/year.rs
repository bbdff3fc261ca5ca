//! Dates as the field models count them.

use std::fmt;

use jiff::civil::Date;

use crate::OutOfRange;

/// A moment as a year and its fraction: 2026.5 is the middle of 2026.
///
/// ```
/// use nav::magnetic::DecimalYear;
/// let july = DecimalYear::from_date(jiff::civil::date(2026, 7, 2));
/// assert!((july.as_years() - 2026.4986).abs() < 5e-5);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct DecimalYear(f64);

impl DecimalYear {
    /// The moment `years`, of the calendar from -9999 to 9999.
    ///
    /// # Errors
    /// [`OutOfRange`] when it is not within -9999 to 10,000.
    pub fn new(years: f64) -> Result<DecimalYear, OutOfRange> {
        OutOfRange::check("year", years, (-9999.0, 10_000.0), "-9999 to 10,000").map(DecimalYear)
    }

    /// The beginning of the day `date`, by the share of its year's days that have passed.
    #[must_use]
    pub fn from_date(date: Date) -> DecimalYear {
        let passed = f64::from(date.day_of_year() - 1) / f64::from(date.days_in_year());
        DecimalYear(f64::from(date.year()) + passed)
    }

    /// In years.
    pub const fn as_years(self) -> f64 {
        self.0
    }
}

/// Tenths of a year: `2026.5`.
impl fmt::Display for DecimalYear {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.1}", self.0)
    }
}
