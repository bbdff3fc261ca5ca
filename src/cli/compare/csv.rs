//! A comparison as a table: a row for each point of the route, with the stage that ends there.

use std::io::Write;

use jiff::Timestamp;
use nav::Length;
use plan::compare::Times;

use super::Report;
use crate::when;

const HEAD: [&str; 22] = [
    "point",
    "name",
    "passed",
    "nearest_m",
    "planned_utc",
    "by_start_utc",
    "came_utc",
    "went_utc",
    "stage_from",
    "planned_m",
    "made_m",
    "moving_s",
    "stopped_s",
    "unseen_s",
    "across_m",
    "ground_kn",
    "water_m",
    "water_s",
    "water_kn",
    "off_m",
    "strays",
    "lat_lon",
];

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    let mut table = csv::Writer::from_writer(to);
    table.write_record(HEAD)?;
    let compared = report.compared;
    for (index, (point, passing)) in report.route.points.iter().zip(&compared.points).enumerate() {
        let planned = |times: &Option<Times>| {
            utc(times.as_ref().and_then(|times| times.arrives.get(index).copied().flatten()))
        };
        let mut row = vec![
            (index + 1).to_string(),
            point.name.clone(),
            passing.passed.to_string(),
            passing.nearest.map(metres).unwrap_or_default(),
            planned(&compared.planned),
            planned(&compared.from_start),
            utc(passing.arrives),
            utc(passing.leaves),
        ];
        let stage = compared.stages.iter().find(|stage| stage.to == index);
        match stage {
            Some(stage) => {
                let figures = &stage.figures;
                let seconds = |time: jiff::SignedDuration| format!("{:.0}", time.as_secs_f64());
                let knots = |speed: Option<nav::Speed>| {
                    speed.map(|speed| format!("{:.3}", speed.as_knots())).unwrap_or_default()
                };
                let strays = compared
                    .strays
                    .iter()
                    .filter(|stray| (stage.from..stage.to).contains(&stray.farthest.leg));
                row.extend([
                    (stage.from + 1).to_string(),
                    metres(stage.planned),
                    metres(figures.made),
                    seconds(figures.moving),
                    seconds(figures.stopped),
                    seconds(figures.unseen),
                    metres(figures.across),
                    knots(figures.over_ground()),
                    metres(figures.water),
                    seconds(figures.water_time),
                    knots(figures.through_water()),
                    metres(stage.off),
                    strays.count().to_string(),
                ]);
            }
            None => row.extend(std::iter::repeat_n(String::new(), 13)),
        }
        row.push(format!("{:.7} {:.7}", point.at.lat.as_degrees(), point.at.lon.as_degrees()));
        table.write_record(row)?;
    }
    table.flush()?;
    Ok(())
}

fn utc(at: Option<Timestamp>) -> String {
    at.map(when::utc).unwrap_or_default()
}

fn metres(length: Length) -> String {
    format!("{:.1}", length.as_metres())
}
