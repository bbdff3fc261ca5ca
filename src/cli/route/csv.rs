//! A route's legs as CSV: a row a leg, full precision first, then the printed text.

use std::io::Write;

use super::Shown;

const COLUMNS: [&str; 21] = [
    "leg",
    "to",
    "to_lat_deg",
    "to_lon_deg",
    "distance_m",
    "bearing_true_deg",
    "bearing_grid_deg",
    "bearing_magnetic_deg",
    "time_s",
    "stop_s",
    "elapsed_s",
    "arrives",
    "reference",
    "true",
    "grid",
    "magnetic",
    "back_magnetic",
    "nm",
    "km",
    "time",
    "clock",
];

pub(super) fn write(shown: &Shown<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    let mut csv = csv::Writer::from_writer(to);
    csv.write_record(COLUMNS)?;
    let Shown { route, chart, reckoning, style, .. } = *shown;
    let ends = reckoning.points.iter().skip(1);
    let rows = plan::table::legs(route, reckoning, &chart.grid, style);
    for ((leg, end), row) in reckoning.legs.iter().zip(ends).zip(rows) {
        let bearings = leg.bearings.as_ref();
        csv.write_record([
            row.number,
            row.to.name,
            end.at.lat.as_degrees().to_string(),
            end.at.lon.as_degrees().to_string(),
            leg.distance.as_metres().to_string(),
            number(bearings.map(|b| b.from_true.as_degrees())),
            number(bearings.and_then(|b| b.from_grid).map(|b| b.as_degrees())),
            number(bearings.and_then(|b| b.from_magnetic).map(|b| b.as_degrees())),
            number(leg.time.map(|time| time.as_secs_f64())),
            end.stop.as_secs().to_string(),
            number(end.elapsed.map(|time| time.as_secs_f64())),
            end.arrives.as_ref().map(ToString::to_string).unwrap_or_default(),
            row.to.reference,
            row.from_true,
            row.from_grid,
            row.from_magnetic,
            row.back_magnetic,
            row.nautical_miles,
            row.kilometres,
            row.time,
            row.to.clock,
        ])?;
    }
    csv.flush()?;
    Ok(())
}

fn number(value: Option<f64>) -> String {
    value.map(|value| value.to_string()).unwrap_or_default()
}
