//! The day's tide at a port as a curve, laid over the chart: heights at the side, hours along the
//! foot with the light above them, high and low waters, means, the route's own times, the moment.

mod events;
mod page;
mod plot;

use chart::water::Gauge;
use jiff::Timestamp;
use nav::tide::{Height, Turn};
use plan::depart::{Lights, Sky};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::ink::Pen;
use super::inks::Inks;
use super::overlay::frame;
use super::water::words::{self, Said};
use crate::layout::{OverlayLayout, tide_plot};
use crate::state::{PortDay, State};
use page::Page;

/// Draws the box.
pub(super) fn draw(
    state: &State,
    said: Option<&Said>,
    parts: &OverlayLayout,
    inks: &Inks,
    buffer: &mut Buffer,
) {
    let port = state.port().zip(state.tides()).zip(state.water_day());
    let port = port.and_then(|((index, tides), day)| {
        Some((tides.gauges().get(index)?, day.ports().get(index)?))
    });
    let (Some((gauge, port)), Some(said)) = (port, said) else {
        frame(parts.area, "Tide", "", inks, buffer);
        let why = state.moment.why_unknown().unwrap_or("the chart has no ports");
        return Pen::new(buffer, parts.note.union(parts.rows)).words(why, inks.wrong);
    };
    let title = format!("Tide at {}", gauge.name());
    frame(parts.area, &title, &source(state, gauge), inks, buffer);
    let light = light(state, gauge, port);
    head(state, said, light.as_ref(), parts.note, inks, buffer);
    let plot = tide_plot(parts.rows);
    if plot.is_empty() {
        return;
    }
    let scale = Scale::of(gauge, port, plot);
    let mut page = Page::new(plot, state.settings.dots, inks, buffer);
    plot::curve(port, &scale, &mut page);
    plot::moment(state, port, &scale, &mut page);
    plot::turns(state, port, &scale, &mut page);
    events::draw(state, port, &scale, &mut page);
    plot::mean_levels(gauge, &scale, &mut page);
    plot::drying(state, &scale, &mut page);
    plot::heights(&scale, &mut page);
    plot::hours(state, port, &scale, &mut page);
    plot::light(light.as_ref(), &scale, &mut page);
}

/// What is left out, and where the tide is known from.
fn source(state: &State, gauge: &Gauge) -> String {
    let said = gauge.said(state.moment_on_clock().date());
    format!("weather and surge left out; {said}")
}

/// The light of the day at the port.
fn light(state: &State, gauge: &Gauge, port: &PortDay) -> Option<Lights> {
    let place = state.position_of(gauge.at().unwrap_or(state.cursor))?;
    Lights::over(place, port.day.from, port.day.to).ok()
}

/// Two lines of words over the plot: the day, then the moment.
fn head(
    state: &State,
    said: &Said,
    light: Option<&Lights>,
    area: Rect,
    inks: &Inks,
    buffer: &mut Buffer,
) {
    let mut pen = Pen::new(buffer, area);
    let day = state.moment_on_clock().strftime("%a %-d %b %Y").to_string();
    pen.write(&day, inks.figure);
    if !said.range.is_empty() {
        pen.write("  range ", inks.quiet).write(&said.range, inks.figure);
    }
    if !said.factor.is_empty() {
        pen.write(", ", inks.quiet).write(&said.factor, inks.figure);
        pen.write(" (neaps 0, springs 1)", inks.quiet);
    }
    pen.write_last(&format!("clock {}", said.zone), inks.quiet).down();
    pen.write(&said.clock, inks.figure).skip(1).write(&said.height, inks.figure).skip(1);
    pen.write(said.tendency, inks.plain);
    if let Some(light) = light {
        let sky = match light.sky(state.moment.at()) {
            Sky::Day => "daylight",
            Sky::Twilight => "twilight",
            Sky::Dark => "dark",
        };
        pen.write(", ", inks.quiet).write(sky, inks.plain);
    }
    pen.write("  above chart datum", inks.quiet);
    pen.write_last(&said.of, inks.plain);
}

/// How time and height lie on the plot.
struct Scale {
    from: Timestamp,
    /// Of the day, in seconds.
    seconds: f64,
    /// The heights at foot and top, in metres.
    low: f64,
    high: f64,
    plot: Rect,
}

impl Scale {
    fn of(gauge: &Gauge, port: &PortDay, plot: Rect) -> Scale {
        let (from, to) = (port.day.from, port.day.to);
        let heights = port.turns.iter().map(|turn| turn.height.as_metres());
        let about = heights.chain(means(gauge).into_iter().flatten().map(|mean| mean.height_m));
        let (low, high) =
            about.fold((0.0_f64, 1.0_f64), |(low, high), m| (low.min(m), high.max(m)));
        // Room for a label at the foot and at the top.
        let label = (high - low) / f64::from(plot.height.saturating_sub(4).max(1));
        let seconds = to.duration_since(from).as_secs_f64();
        Scale { from, seconds, low: low - 1.2 * label, high: high + 1.2 * label, plot }
    }

    /// The part of the day that has gone by at an instant; nothing outside the day.
    fn part(&self, at: Timestamp) -> Option<f64> {
        let part = at.duration_since(self.from).as_secs_f64() / self.seconds;
        (0.0..1.0).contains(&part).then_some(part)
    }

    /// The column of an instant of the day, counted from the left of the plot.
    fn column(&self, at: Timestamp) -> Option<u16> {
        self.part(at).map(|part| (part * f64::from(self.plot.width)) as u16)
    }

    /// The row of a height, counted from the top of the plot.
    fn row(&self, metres: f64) -> u16 {
        let down = (self.high - metres) / (self.high - self.low);
        ((down * f64::from(self.plot.height)) as u16).min(self.plot.height - 1)
    }

    fn at(&self, part: f64) -> Timestamp {
        let seconds = jiff::SignedDuration::from_secs((part * self.seconds) as i64);
        self.from.checked_add(seconds).unwrap_or(self.from)
    }
}

/// A mean height of the port.
struct Mean {
    words: &'static str,
    height_m: f64,
}

/// Mean high and low waters at springs and neaps, half a mean range above and below mean level;
/// nothing of a port that is known by differences, whose own mean level is not known.
fn means(gauge: &Gauge) -> Option<[Mean; 4]> {
    let ranges = gauge.ranges().ok().filter(|_| !gauge.is_secondary())?;
    let level = gauge.constants()?.mean_level();
    let mean = |words, height: Height| Mean { words, height_m: height.as_metres() };
    Some([
        mean("MHWS", level + ranges.springs() / 2.0),
        mean("MHWN", level + ranges.neaps() / 2.0),
        mean("MLWN", level - ranges.neaps() / 2.0),
        mean("MLWS", level - ranges.springs() / 2.0),
    ])
}

/// `13:42 4.6 m`.
fn turn_words(state: &State, turn: &Turn) -> String {
    format!("{} {}", words::clock(state, turn.at), words::metres(turn.height))
}
