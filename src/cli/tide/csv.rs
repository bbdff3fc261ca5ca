//! A tide as CSV: a row for each high and low water, each hour, or each day of a month.

use std::io::Write;

use nav::Length;
use nav::tide::Height;

use super::report::{DayOfTide, Report, Show};
use super::words;
use crate::when;

type Csv<'a> = csv::Writer<&'a mut dyn Write>;

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    let mut csv = csv::Writer::from_writer(to);
    match report.show {
        Show::Month => month(report, &mut csv)?,
        Show::Hours => hours(report, &mut csv)?,
        Show::Days => waters(report, &mut csv)?,
    }
    csv.flush()?;
    Ok(())
}

fn told(report: &Report<'_>, day: &DayOfTide) -> String {
    report.gauge.said(day.date)
}

fn number(number: Option<f64>) -> String {
    number.map_or_else(String::new, |number| number.to_string())
}

fn metres(length: Option<Length>) -> String {
    number(length.map(Length::as_metres))
}

fn waters(report: &Report<'_>, csv: &mut Csv<'_>) -> anyhow::Result<()> {
    csv.write_record([
        "port",
        "water",
        "utc",
        "local",
        "height_m",
        "later_min",
        "higher_m",
        "told",
    ])?;
    for day in &report.days {
        for (index, turn) in day.tide.turns.iter().enumerate() {
            let both = day.shifted.get(index);
            csv.write_record([
                report.gauge.name(),
                words::water(turn.water),
                &when::utc(turn.at),
                &when::local(turn.at, &report.zone),
                &turn.height.as_metres().to_string(),
                &number(both.map(words::minutes)),
                &metres(both.map(|both| both.higher)),
                &told(report, day),
            ])?;
        }
    }
    Ok(())
}

fn hours(report: &Report<'_>, csv: &mut Csv<'_>) -> anyhow::Result<()> {
    csv.write_record(["port", "utc", "local", "height_m", "twelfths_m", "difference_m", "told"])?;
    for day in &report.days {
        for hour in &day.hours {
            let [height, twelfths] =
                [hour.height, hour.twelfths].map(|height| metres(height.map(Height::above)));
            csv.write_record([
                report.gauge.name(),
                &when::utc(hour.at),
                &when::local(hour.at, &report.zone),
                &height,
                &twelfths,
                &metres(hour.difference()),
                &told(report, day),
            ])?;
        }
    }
    Ok(())
}

fn month(report: &Report<'_>, csv: &mut Csv<'_>) -> anyhow::Result<()> {
    csv.write_record(["port", "date", "range_m", "factor", "springs_or_neaps", "moon", "told"])?;
    for day in &report.days {
        let within = |at: jiff::Timestamp| (day.tide.from..day.tide.to).contains(&at);
        let springs = report.springs.iter().find(|(at, _)| within(*at));
        let moon = report.moon.iter().find(|(at, _)| within(*at));
        csv.write_record([
            report.gauge.name(),
            &day.date.to_string(),
            &metres(day.tide.range),
            &number(day.tide.factor),
            springs.map_or("", |(_, phase)| words::springs(*phase)),
            moon.map_or("", |(_, phase)| words::moon(*phase)),
            &told(report, day),
        ])?;
    }
    Ok(())
}
