//! The season's change of mean level, where a port states it by months: an option, never put on unasked.

use jiff::civil::Date;
use nav::Length;

use super::Gauge;

/// How many months a year of levels has.
const MONTHS: usize = 12;

/// Why the season's level is not to be had at a port.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SeasonError {
    /// Nobody stated it.
    #[error("{0} states no monthly levels (seasonal_m), so that the season cannot be put on")]
    NotStated(String),
    /// It is in the predictions already.
    #[error("the season is already in the heights of {port}, {by}; it is not put on twice")]
    Within {
        /// The port whose heights hold it.
        port: String,
        /// By what.
        by: &'static str,
    },
    /// The standard port's heights hold it, and nobody stated how much it is.
    #[error(
        "the heights of the standard port {0} hold the season already; without its monthly levels \
         (seasonal_m) it cannot be taken off before the differences"
    )]
    Standard(String),
}

/// Mean level by months, each of them reached in its middle and in proportion between two.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Months(Vec<f64>);

impl Months {
    /// From January on; of none or of another number than twelve nothing is known.
    pub(super) fn new(metres: &[f64]) -> Months {
        Months(if metres.len() == MONTHS { metres.to_vec() } else { Vec::new() })
    }

    /// What is added to mean level at noon of a day.
    fn on(&self, date: Date) -> Option<Length> {
        let days = f64::from(date.days_in_month());
        // From the middle of the month, in months.
        let past = (f64::from(date.day()) - 0.5) / days - 0.5;
        let month = usize::from(date.month().unsigned_abs()) - 1;
        let next = if past < 0.0 { month + MONTHS - 1 } else { month + 1 } % MONTHS;
        let (here, there) = (self.0.get(month)?, self.0.get(next)?);
        Length::from_metres(here + (there - here) * past.abs()).ok()
    }
}

/// What the season does at a port on a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Season {
    /// What is added at the port.
    pub added: Length,
    /// What its standard port's heights hold already, taken off before the differences.
    pub taken_off: Length,
}

impl Gauge {
    /// What the season adds to its mean level on a day, by the levels that it states for the months:
    /// each holds in the middle of its month, in proportion between two.
    ///
    /// # Errors
    /// [`SeasonError`] where no levels are stated, or the heights have the season in them: a printed
    /// table, and constants with the year's constituent SA.
    pub fn season(&self, date: Date) -> Result<Season, SeasonError> {
        let not_stated = || SeasonError::NotStated(self.name().to_owned());
        let within = self.season_within();
        if !self.is_secondary() {
            if let Some(by) = within {
                return Err(SeasonError::Within { port: self.name().to_owned(), by });
            }
            let added = self.months.on(date).ok_or_else(not_stated)?;
            return Ok(Season { added, taken_off: Length::ZERO });
        }
        let added = self.months.on(date).ok_or_else(not_stated)?;
        let taken_off = match within {
            None => Length::ZERO,
            Some(_) => {
                let missing = || SeasonError::Standard(self.standard().to_owned());
                self.standard_months.on(date).ok_or_else(missing)?
            }
        };
        Ok(Season { added, taken_off })
    }

    /// By what the heights of the port, or of its standard port, hold the season.
    fn season_within(&self) -> Option<&'static str> {
        match self.constants() {
            None => Some("as printed tables have it"),
            Some(port) => {
                let yearly = |one: &nav::tide::Harmonic| one.constituent.name() == "SA";
                port.harmonics().iter().any(yearly).then_some("by its constituent SA")
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn months_hold_in_their_middle_and_in_proportion_between() {
        let levels: Vec<f64> = (0..12).map(|month| 0.1 * f64::from(month)).collect();
        let months = Months::new(&levels);
        let on = |month, day| months.on(date(2026, month, day)).unwrap().as_metres();
        assert!((on(6, 15) - 0.5).abs() < 0.1 / 30.0);
        assert!((on(1, 16) - 0.0).abs() < 1e-12);
        // From 15 June noon to the middle of 16 July.
        assert!((on(6, 30) - 0.55).abs() < 0.1 / 30.0 && (on(7, 1) - 0.55).abs() < 0.1 / 30.0);
        // Over New Year from 1.1 m down to 0.
        assert!((on(12, 31) - 0.55).abs() < 0.03 && (on(1, 1) - 0.55).abs() < 0.03);
        assert_eq!(Months::new(&levels[1..]).on(date(2026, 6, 15)), None);
    }
}
