//! The sea's surface: waves on it, and its edge.

use jiff::SignedDuration;
use nav::horizon::{self, HorizonError};
use nav::waves::{self, Blow, WavesError};
use nav::{Length, Speed};

use super::question::Answers;
use super::table::{Fault, Row};

/// `wind_ms`, `fetch_m`, `depth_m`, `hours`: the waves that a wind makes.
pub(super) fn waves(row: &Row<'_>, answers: &mut Answers) -> Result<(), Fault> {
    let blow = Blow {
        wind: row.value(0, Speed::from_metres_per_second)?,
        fetch: row.value(1, Length::from_metres)?,
        depth: unless_empty(row, 2, |read| row.value(read, Length::from_metres))?,
        time: unless_empty(row, 3, |read| hours(row, read))?,
    };
    let made = waves::waves(&blow).or_else(|error| {
        let read = match error {
            WavesError::Fetch(_) => 1,
            WavesError::Depth(_) => 2,
            WavesError::Time(_) => 3,
        };
        row.fault(read, error.to_string())
    })?;
    answers.numbers([made.height.as_metres(), made.period.as_secs_f64()]);
    Ok(())
}

/// `eye_m`, `target_m`: how far they see each other. Without a target it is the horizon.
pub(super) fn horizon(row: &Row<'_>, answers: &mut Answers) -> Result<(), Fault> {
    let eye = row.value(0, Length::from_metres)?;
    let target = unless_empty(row, 1, |read| row.value(read, Length::from_metres))?;
    let seen = horizon::range(eye, target.unwrap_or_default()).or_else(|error| {
        let read = match error {
            HorizonError::Eye(_) => 0,
            HorizonError::Target(_) => 1,
        };
        row.fault(read, error.to_string())
    })?;
    answers.numbers([seen.target.as_nautical_miles()]);
    Ok(())
}

/// What stands in a cell that may have nothing in it.
fn unless_empty<T>(
    row: &Row<'_>,
    read: usize,
    make: impl FnOnce(usize) -> Result<T, Fault>,
) -> Result<Option<T>, Fault> {
    if row.is_empty(read) { Ok(None) } else { make(read).map(Some) }
}

fn hours(row: &Row<'_>, read: usize) -> Result<SignedDuration, Fault> {
    let hours = row.number(read)?;
    match SignedDuration::try_from_secs_f64(hours * 3600.0) {
        Ok(time) => Ok(time),
        Err(_) => row.fault(
            read,
            format!(
                "hours {hours:e} are more than can be counted; leave it empty for a wind without end"
            ),
        ),
    }
}

#[cfg(test)]
mod tests;
