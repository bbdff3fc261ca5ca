//! Many days, a line for each.

use std::io::{self, Write};

use jiff::SignedDuration;
use nav::text::duration;
use plan::depart::{Start, Strip};

use super::{Report, strip, text};
use crate::page::paragraph;
use crate::when;

/// How much time a column covers: 50 of them in the longest day.
const COLUMN: SignedDuration = SignedDuration::from_mins(30);
/// As wide as `Sun 14 `.
const LABEL: usize = 7;

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> io::Result<()> {
    let strips: Vec<Strip> = report.days.iter().map(|day| Strip::of(day, COLUMN)).collect();
    let Some(first) = strips.first() else { return Ok(()) };
    let wide = strips.iter().map(|strip| strip.cells.len()).max().unwrap_or(0);
    let hours = strip::hours(first, LABEL);
    writeln!(to, "{hours:at$}best   time    latest", at = LABEL + wide + 1)?;
    let clock = |start: Option<&Start>| {
        start.map_or_else(|| "none".to_owned(), |start| when::clock(start.at, &report.zone))
    };
    for (day, cells) in report.days.iter().zip(&strips) {
        let took = day.best().and_then(|best| best.landing);
        let took = took.map_or_else(String::new, |landing| duration(landing.took));
        let (best, latest) = (clock(day.best()), clock(day.latest()));
        let (label, shades) = (day.date.strftime("%a %d").to_string(), report.signs.shades(cells));
        writeln!(to, "{label:LABEL$}{shades:wide$} {best:5}  {took:7} {latest}")?;
    }
    writeln!(to)?;
    text::legend(COLUMN, &report.signs.shade_legend(&strips), to)?;
    writeln!(to)?;
    match report.best() {
        None => paragraph("", "No start of these days keeps within the limits.", to),
        Some(best) => {
            let date = best.at.to_zoned_datetime(report.zone.clone()).strftime("%a %-d %B");
            text::full(&format!("Best of all, {date}"), best, report, to)
        }
    }
}
