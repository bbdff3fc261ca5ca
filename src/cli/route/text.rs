//! A route on a page 80 columns wide.

mod passage;

use std::io::{self, Write};

use nav::magnetic::VariationSource;
use nav::text::CAUTION;
use plan::table::{AlongRow, LegRow, PointRow, StretchRow, fitted};

use super::Shown;
use crate::day::Through;
use crate::page::{COLUMNS, paragraph};

/// What the figures leave out; the caution follows.
const LEFT_OUT: &str =
    "Times are at the group's pace alone: stream, wind and waves are not in them.";
const LEFT_OUT_OF_LEGS: &str = "Times of the table of legs are at the group's pace alone; those \
                                through the stream have the stream and the wind's push in them.";
const STRAIGHT: &str = "Legs are straight lines, whatever lies on them.";
const STRAIGHT_OR_TRACED: &str = "Legs are straight lines, whatever lies on them, but for those along \
                                  the shore: these are as long as the line traced, and their \
                                  stretches lead from one point of it to the next, whatever lies \
                                  between.";

pub(super) fn write(shown: &Shown<'_>, to: &mut dyn Write) -> io::Result<()> {
    head(shown, to)?;
    writeln!(to)?;
    points(shown, to)?;
    if !shown.reckoning.legs.is_empty() {
        writeln!(to)?;
        legs(shown, to)?;
    }
    writeln!(to)?;
    if let Some(through) = shown.through {
        passage::write(through, to)?;
        writeln!(to)?;
    }
    let notes = shown.through.map(|through| through.notes()).unwrap_or_default();
    for warning in shown.warnings().into_iter().chain(notes) {
        paragraph("", &format!("Note: {warning}"), to)?;
    }
    let traced = shown.reckoning.legs.iter().any(|leg| leg.along.is_some());
    let lines = if traced { STRAIGHT_OR_TRACED } else { STRAIGHT };
    let left_out = if shown.through.is_some() { LEFT_OUT_OF_LEGS } else { LEFT_OUT };
    paragraph("", &format!("{left_out} {lines}"), to)?;
    if let Some(through) = shown.through {
        paragraph("", &format!("{} {}", through.told.join(" "), Through::LEFT_OUT), to)?;
    }
    paragraph("", CAUTION, to)
}

fn head(shown: &Shown<'_>, to: &mut dyn Write) -> io::Result<()> {
    let Shown { route, chart, .. } = *shown;
    let title = if route.title.is_empty() { "Route without a title" } else { &route.title };
    writeln!(to, "{}", fitted(title, COLUMNS))?;
    paragraph("", &format!("on the chart {}", chart.title), to)?;
    if chart.invented {
        paragraph("", "The chart is invented: the place does not exist.", to)?;
    }
    let departs = match &route.departure {
        Some(departure) => departure.moment().strftime("%A %-d %B %Y, %H:%M, %:Q").to_string(),
        None => "not set".to_owned(),
    };
    let assumed = if shown.assumed { " (not set; today at nine is assumed)" } else { "" };
    let rest = match route.pace.rest_per_hour().as_mins() {
        0 => String::new(),
        minutes => format!(", {minutes} min of rest in each hour"),
    };
    paragraph("", &format!("Departure {departs}{assumed}. Pace {}{rest}.", route.pace), to)?;
    paragraph("", &variation(shown), to)
}

/// Where the magnetic bearings come from, and the variation on the way.
fn variation(shown: &Shown<'_>) -> String {
    let source = match shown.route.variation {
        VariationSource::Model => "World Magnetic Model 2025",
        VariationSource::Printed(_) => "as printed on a chart",
    };
    let on_legs = shown.reckoning.legs.iter().filter_map(|leg| leg.variation.as_ref());
    let mut seen: Vec<String> = on_legs.map(|at| at.variation.to_string()).collect();
    seen.dedup();
    match &seen[..] {
        [] => format!("Variation: {source}."),
        [only] => format!("Variation {only}: {source}."),
        [first, .., last] => format!("Variation {first} to {last}: {source}."),
    }
}

fn points(shown: &Shown<'_>, to: &mut dyn Write) -> io::Result<()> {
    let rows = plan::table::points(shown.route, shown.reckoning, &shown.chart.grid, shown.style);
    let wide = rows.iter().map(|row| row.reference.chars().count()).max().unwrap_or(0).max(9);
    line(to, &format!("   #  {:wide$}  {:23}  clock  stop    name", "reference", "position"))?;
    for (row, waypoint) in rows.into_iter().zip(&shown.route.points) {
        let PointRow { number, name, reference, position, stop, clock, .. } = row;
        let times = format!("{clock:5}  {stop:6}");
        line(to, &format!(" {number:>3}  {reference:wide$}  {position:23}  {times}  {name}"))?;
        if !waypoint.note.is_empty() {
            paragraph("      ", &waypoint.note, to)?;
        }
    }
    Ok(())
}

fn legs(shown: &Shown<'_>, to: &mut dyn Write) -> io::Result<()> {
    let Shown { route, chart, reckoning, style, .. } = *shown;
    line(to, " leg  true   grid   magn.  back   distance            time     leave  arrive")?;
    for row in plan::table::legs(route, reckoning, &chart.grid, style) {
        let LegRow { number, from_true, from_grid, from_magnetic, back_magnetic, .. } = &row;
        let LegRow { nautical_miles, kilometres, time, departs, to: end, .. } = &row;
        let bearings = match &row.along {
            Some(_) => "along the shore".to_owned(),
            None => row_of_bearings([from_true, from_grid, from_magnetic, back_magnetic]),
        };
        let times = format!("{time:>7}  {departs:5}  {}", end.clock);
        let distance = format!("{nautical_miles:>8} {kilometres:>8}");
        line(to, &format!(" {number:>3}  {bearings:26}  {distance}  {times}"))?;
        if let Some(along) = &row.along {
            stretches(along, to)?;
        }
    }
    let total = plan::table::total(reckoning);
    let distance = format!("{:>8} {:>8}", total.nautical_miles, total.kilometres);
    line(to, &format!("{:34}{distance}  {:>7}  under way", " whole route", total.under_way))?;
    if !total.stops.is_empty() {
        line(to, &format!("{:53}{:>7}  with stops", "", total.elapsed))?;
    }
    Ok(())
}

/// What is said of a leg along the shore, under its row.
fn stretches(along: &AlongRow, to: &mut dyn Write) -> io::Result<()> {
    for stretch in &along.stretches {
        let StretchRow { number, from_true, from_grid, from_magnetic, back_magnetic, .. } = stretch;
        let StretchRow { nautical_miles, kilometres, to: end, .. } = stretch;
        let bearings = row_of_bearings([from_true, from_grid, from_magnetic, back_magnetic]);
        let distance = format!("{nautical_miles:>8} {kilometres:>8}");
        line(to, &format!(" {number:>4} {bearings}  {distance}  to {end}"))?;
    }
    let AlongRow { straight_nautical_miles, straight_kilometres, times_longer, .. } = along;
    let longer = match times_longer.as_str() {
        "" => "A round: it ends where it starts.".to_owned(),
        times => format!(
            "{times} times the {straight_nautical_miles} {straight_kilometres} straight between its ends."
        ),
    };
    paragraph("      ", &longer, to)?;
    let AlongRow { stand_off, step, strays, .. } = along;
    let laid = match (stand_off.as_str(), step.as_str()) {
        ("", "") => "On the shore".to_owned(),
        (off, "") => format!("Laid {off} off"),
        ("", step) => format!("On the shore, smoothed at {step}"),
        (off, step) => format!("Laid {off} off, smoothed at {step}"),
    };
    paragraph("      ", &format!("{laid}; strays up to {strays} from its stretches."), to)
}

fn row_of_bearings([from_true, from_grid, from_magnetic, back]: [&String; 4]) -> String {
    format!("{from_true:5}  {from_grid:5}  {from_magnetic:5}  {back:5}")
}

/// A line of a table, cut to the page, without spaces at its end.
fn line(to: &mut dyn Write, text: &str) -> io::Result<()> {
    writeln!(to, "{}", fitted(text, COLUMNS).trim_end())
}
