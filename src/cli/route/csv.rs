//! A route's legs as CSV: a row a leg, full precision first, then the printed text, then what is
//! read of a leg along the shore: the shortest line between its ends, how many times longer it is, and
//! the bearings of its first and its last stretch. They are empty for a straight leg, as its own
//! bearings are for a leg along the shore. Last comes the leg's passage through the stream, empty where
//! there is none.

mod passage;

use std::io::Write;

use plan::Bearings;

use super::{Shown, runs};

const COLUMNS: [&str; 30] = [
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
    "runs",
    "straight_m",
    "times_longer",
    "first_bearing_true_deg",
    "first_bearing_grid_deg",
    "first_bearing_magnetic_deg",
    "last_bearing_true_deg",
    "last_bearing_grid_deg",
    "last_bearing_magnetic_deg",
];

pub(super) fn write(shown: &Shown<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    let mut csv = csv::Writer::from_writer(to);
    csv.write_record(COLUMNS.into_iter().chain(passage::COLUMNS))?;
    let Shown { route, chart, reckoning, style, .. } = *shown;
    let ends = reckoning.points.iter().skip(1);
    let rows = plan::table::legs(route, reckoning, &chart.grid, style);
    for (index, ((leg, end), row)) in reckoning.legs.iter().zip(ends).zip(rows).enumerate() {
        let [bearing_true, bearing_grid, bearing_magnetic] = degrees(leg.bearings);
        let along = leg.along.as_ref();
        let first = degrees(along.and_then(|along| along.first()?.bearings));
        let last = degrees(along.and_then(|along| along.last()?.bearings));
        let row = [
            row.number,
            row.to.name,
            end.at.lat.as_degrees().to_string(),
            end.at.lon.as_degrees().to_string(),
            leg.distance.as_metres().to_string(),
            bearing_true,
            bearing_grid,
            bearing_magnetic,
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
            runs(along.is_some()).to_owned(),
            number(along.map(|along| along.straight.as_metres())),
            number(leg.times_longer()),
        ];
        let passage = passage::cells(shown.through, index);
        csv.write_record(row.into_iter().chain(first).chain(last).chain(passage))?;
    }
    csv.flush()?;
    Ok(())
}

/// Degrees from true, grid and magnetic north.
fn degrees(bearings: Option<Bearings>) -> [String; 3] {
    [
        number(bearings.map(|b| b.from_true.as_degrees())),
        number(bearings.and_then(|b| b.from_grid).map(|b| b.as_degrees())),
        number(bearings.and_then(|b| b.from_magnetic).map(|b| b.as_degrees())),
    ]
}

fn number(value: Option<f64>) -> String {
    value.map(|value| value.to_string()).unwrap_or_default()
}
