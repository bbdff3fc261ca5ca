//! What was measured, as CSV: a row for each shore, and one for each step of the dividers under it,
//! whose `step_m` is not empty and whose lengths are what they found.

use std::io::Write;

use ::chart::measure::Shore;

use super::Report;

const COLUMNS: [&str; 11] = [
    "name",
    "closed",
    "vertices",
    "step_m",
    "length_m",
    "back_length_m",
    "grid_length_m",
    "straight_m",
    "indentation",
    "land_area_m2",
    "slope",
];

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    let mut csv = csv::Writer::from_writer(to);
    csv.write_record(COLUMNS)?;
    for shore in &report.shores {
        csv.write_record(row(shore))?;
        let measured = &shore.measured;
        for divided in &measured.divided {
            let mut row: [String; 11] = Default::default();
            row[0].clone_from(&shore.name);
            row[1] = measured.closed.to_string();
            row[2] = measured.vertices.to_string();
            row[3] = divided.onwards.step.as_metres().to_string();
            row[4] = divided.onwards.length().as_metres().to_string();
            row[5] = divided.back.length().as_metres().to_string();
            csv.write_record(row)?;
        }
    }
    csv.flush()?;
    Ok(())
}

fn row(shore: &Shore) -> [String; 11] {
    let measured = &shore.measured;
    let maybe = |number: Option<f64>| number.map_or_else(String::new, |number| number.to_string());
    [
        shore.name.clone(),
        measured.closed.to_string(),
        measured.vertices.to_string(),
        String::new(),
        measured.length.as_metres().to_string(),
        String::new(),
        measured.on_grid.as_metres().to_string(),
        maybe(measured.straight.map(nav::Length::as_metres)),
        maybe(measured.indentation),
        maybe(measured.closed.then(|| shore.land.as_square_metres())),
        maybe(measured.slope.map(|slope| slope.slope)),
    ]
}
