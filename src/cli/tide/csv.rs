//! High and low waters, as CSV: a row for each.

use std::io::Write;

use super::{Report, water_word};
use crate::when;

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    let mut csv = csv::Writer::from_writer(to);
    csv.write_record(["port", "water", "utc", "local", "height_m"])?;
    for turn in report.days.iter().flat_map(|(_, day)| &day.turns) {
        csv.write_record([
            report.gauge.name(),
            water_word(turn.water),
            &when::utc(turn.at),
            &when::local(turn.at, &report.zone),
            &turn.height.as_metres().to_string(),
        ])?;
    }
    csv.flush()?;
    Ok(())
}
