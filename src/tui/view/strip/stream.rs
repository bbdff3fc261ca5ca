//! The third row: the stream as the group meets it. Marks say which way it runs, figures among them
//! how fast, so that the row reads in one colour.

use plan::unrolled::{Met, Way};
use ratatui::buffer::Buffer;
use ratatui::style::Style;

use super::Band;
use crate::view::inks::Inks;

/// From this rate on, in knots, a mark is doubled.
const STRONG: f64 = 1.0;

/// A run of columns with one way is told its rate from so many columns on, and again after so many.
const LEAST_RUN: usize = 5;
const LONG_RUN: usize = 22;

pub(super) fn draw(band: &Band<'_>, buffer: &mut Buffer) {
    let columns: Vec<Option<Met>> =
        band.places().map(|(_, place)| band.leg.met.get(place).copied().flatten()).collect();
    for (column, met) in (0..).zip(&columns) {
        if let Some(met) = met {
            band.pen(column, buffer).write(mark(met), style(met.way(), band.inks));
        }
    }
    let mut begins = 0;
    for run in columns.chunk_by(|a, b| a.map(|met| met.way()) == b.map(|met| met.way())) {
        rates(band, begins, run, buffer);
        begins += run.len();
    }
}

/// Writes the rate into a run of marks, once or as often as its length allows.
fn rates(band: &Band<'_>, begins: usize, run: &[Option<Met>], buffer: &mut Buffer) {
    let way = run.first().copied().flatten().map(|met| met.way());
    let Some(way) = way.filter(|way| *way != Way::Slack) else { return };
    if run.len() < LEAST_RUN {
        return;
    }
    let parts = run.len().div_ceil(LONG_RUN);
    for part in 0..parts {
        let (from, to) = (run.len() * part / parts, run.len() * (part + 1) / parts);
        let Some(met) = run.get((from + to) / 2).copied().flatten() else { continue };
        let rate = format!("{:.1}", rate(&met));
        let at = begins + (from + to).saturating_sub(rate.len()) / 2;
        let at = u16::try_from(at).unwrap_or(u16::MAX);
        band.pen(at, buffer).write(&rate, style(way, band.inks));
    }
}

/// The rate of the greater part, in knots.
fn rate(met: &Met) -> f64 {
    met.with_knots().abs().max(met.across_knots().abs())
}

fn mark(met: &Met) -> &'static str {
    let strong = rate(met) >= STRONG;
    match (met.way(), strong) {
        (Way::Slack, _) => "·",
        (Way::With, false) => "›",
        (Way::With, true) => "»",
        (Way::Against, false) => "‹",
        (Way::Against, true) => "«",
        (Way::ToPort, false) => "↑",
        (Way::ToPort, true) => "⇑",
        (Way::ToStarboard, false) => "↓",
        (Way::ToStarboard, true) => "⇓",
    }
}

fn style(way: Way, inks: &Inks) -> Style {
    match way {
        Way::Slack => inks.quiet,
        Way::With => inks.with,
        Way::Against => inks.against,
        Way::ToPort | Way::ToStarboard => inks.across,
    }
}

/// The most that it runs with, against and across.
pub(super) fn figures(band: &Band<'_>) -> String {
    let known: Vec<&Met> = band.leg.met.iter().flatten().collect();
    if known.is_empty() {
        return "no stream known".to_owned();
    }
    let most = |ways: &[Way]| {
        let of = known.iter().filter(|met| ways.contains(&met.way())).map(|met| rate(met));
        of.fold(0.0, f64::max)
    };
    let named = [
        ("with", most(&[Way::With])),
        ("against", most(&[Way::Against])),
        ("across", most(&[Way::ToPort, Way::ToStarboard])),
    ];
    let parts: Vec<String> = named
        .iter()
        .filter(|(_, knots)| *knots > 0.0)
        .map(|(word, knots)| format!("{word} {knots:.1}"))
        .collect();
    if parts.is_empty() { "slack".to_owned() } else { format!("{} kn", parts.join(", ")) }
}
