//! What was measured, as a page of lines.

use std::fmt::Display;
use std::io::{self, Write};

use ::chart::measure::{Divided, Measured, Shore, Slope};
use nav::Length;
use nav::text::{self, AngleStyle};

use super::distance::written;
use super::{Piece, Report, title};
use ::chart::trace::Way;

/// How many of all shores are listed.
const LISTED: usize = 10;

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    let chart = &report.opened.chart;
    writeln!(to, "{}", if chart.title.is_empty() { "(no title)" } else { &chart.title })?;
    if chart.invented {
        writeln!(to, "An invented place: it does not exist.")?;
    }
    match (&report.piece, report.shores.iter().any(|shore| !shore.measured.divided.is_empty())) {
        (Some(piece), _) => {
            ends(piece, to)?;
            for shore in &report.shores {
                one(shore, to)?;
            }
        }
        (None, true) => {
            for shore in &report.shores {
                row(to, "shore", title(shore))?;
                one(shore, to)?;
            }
        }
        (None, false) => longest(report, to)?,
    }
    if report.piece.is_none() && report.shores.len() > 1 {
        whole(report, to)?;
    }
    for remark in &report.remarks {
        writeln!(to, "{remark}")?;
    }
    writeln!(to, "{}", text::CAUTION)
}

fn ends(piece: &Piece, to: &mut dyn Write) -> io::Result<()> {
    for (label, end) in ["from", "to"].into_iter().zip(&piece.ends) {
        let at = text::position(end.position, AngleStyle::default());
        let caught = written_near(end.caught);
        let what = [end.reference.as_str(), at.as_str()].join("  ");
        row(to, label, format_args!("{}; on the shore {caught} off", what.trim()))?;
    }
    if piece.way == Way::Longer {
        row(to, "way", "the longer")?;
    }
    if piece.wishes.stand_off > 0.0 {
        row(to, "stand-off", format_args!("{} m", piece.wishes.stand_off))?;
    }
    if piece.wishes.step > 0.0 {
        row(to, "smoothed by", format_args!("{} m", piece.wishes.step))?;
    }
    Ok(())
}

fn one(shore: &Shore, to: &mut dyn Write) -> io::Result<()> {
    let measured = &shore.measured;
    row(to, "along", both(measured.length))?;
    row(to, "on the grid", on_grid(measured.on_grid, measured.length))?;
    if let Some(straight) = measured.straight {
        row(to, "straight", both(straight))?;
    }
    if let Some(times) = measured.indentation {
        row(to, "indentation", format_args!("{times:.2} times as long as straight"))?;
    }
    if measured.closed {
        let lakes = if shore.lakes > 0 { ", without its lakes" } else { "" };
        row(to, "area", format_args!("{:.3} km²{lakes}", shore.land.as_square_kilometres()))?;
    }
    row(to, "vertices", measured.vertices)?;
    dividers(measured, to)
}

fn dividers(measured: &Measured, to: &mut dyn Write) -> io::Result<()> {
    if measured.divided.is_empty() {
        return Ok(());
    }
    row(to, "dividers at", format_args!("{:>14}{:>14}", "onwards", "back"))?;
    for Divided { onwards, back } in &measured.divided {
        let found = [onwards, back].map(|walk| exact(walk.length()));
        row(to, &written(onwards.step), format_args!("{:>14}{:>14}", found[0], found[1]))?;
    }
    if let Some(Slope { slope, narrowest, widest }) = measured.slope {
        let (narrowest, widest) = (written(narrowest), written(widest));
        row(to, "slope", format_args!("{slope:.3} from {narrowest} to {widest}"))?;
    }
    Ok(())
}

fn longest(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    for shore in report.shores.iter().take(LISTED) {
        let length = exact(shore.measured.length);
        let area = shore.land.as_square_kilometres();
        let area = if shore.measured.closed { format!("{area:.3} km²") } else { String::new() };
        writeln!(to, "{length:>14} {area:>18}  {}", title(shore))?;
    }
    let rest = report.shores.len().saturating_sub(LISTED);
    if rest > 0 {
        writeln!(to, "and {rest} more, shorter")?;
    }
    Ok(())
}

fn whole(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    let total = &report.total;
    let (islands, open, lakes) =
        (many(total.islands, "shore"), many(total.open, "open shore"), many(total.lakes, "lake"));
    row(to, "all", format_args!("{islands} round land, {open}, {lakes}"))?;
    row(to, "along", both(total.length))?;
    row(to, "on the grid", on_grid(total.on_grid, total.length))?;
    row(to, "area", format_args!("{:.3} km²", total.land.as_square_kilometres()))?;
    row(to, "vertices", total.vertices)
}

/// `4.3 NM, 8.013 km`.
fn both(length: Length) -> String {
    format!("{}, {}", text::nautical_miles(length), exact(length))
}

/// `8.013 km`: to a metre, since a measured length is not rounded as a leg's is.
fn exact(length: Length) -> String {
    format!("{:.3} km", length.as_kilometres())
}

/// `8.010 km, 3.2 m shorter than on the ground`.
fn on_grid(on_grid: Length, length: Length) -> String {
    let longer = (on_grid - length).as_metres();
    let word = if longer < 0.0 { "shorter" } else { "longer" };
    let off = longer.abs();
    // A hundredth of a metre is the chart's own rounding.
    let off = if off < 1e4 { format!("{off:.2} m") } else { format!("{:.3} km", off / 1000.0) };
    format!("{}, {off} {word} than on the ground", exact(on_grid))
}

fn written_near(length: Length) -> String {
    format!("{:.1} m", length.as_metres())
}

/// `1 lake`, `2 lakes`.
fn many(count: usize, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}

/// A line of a label and what it says.
fn row(to: &mut dyn Write, label: &str, what: impl Display) -> io::Result<()> {
    writeln!(to, "{label:<13} {what}")
}
