//! The stream, as CSV: a row for each hour.

use std::io::Write;

use super::Report;
use crate::when;

pub(super) fn write(report: &Report, to: &mut dyn Write) -> anyhow::Result<()> {
    let mut csv = csv::Writer::from_writer(to);
    csv.write_record(["utc", "local", "set_deg", "rate_kn"])?;
    for (at, stream) in &report.hours {
        csv.write_record([
            when::utc(*at),
            when::local(*at, &report.zone),
            stream.set.as_degrees().to_string(),
            stream.drift.as_knots().to_string(),
        ])?;
    }
    csv.flush()?;
    Ok(())
}
