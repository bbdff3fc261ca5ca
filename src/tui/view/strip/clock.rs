//! The first row: the leg as a line between its two waypoints, with clock times along it.

use jiff::{SignedDuration, Timestamp};
use nav::text;
use ratatui::buffer::Buffer;

use super::Band;
use crate::glyphs::waypoint_number;

/// The columns between two clock times, at least.
const APART: u16 = 10;

/// The minutes from one clock time to the next, the shortest first.
const STEPS: [i64; 8] = [5, 10, 15, 30, 60, 120, 240, 480];

pub(super) fn draw(band: &Band<'_>, buffer: &mut Buffer) {
    let inks = band.inks;
    band.pen(0, buffer).rule("─", inks.quiet);
    let (start, end) = (band.leg.times.first().copied(), band.leg.times.last().copied());
    let word = |time: Option<Option<Timestamp>>| clock(band, time.flatten());
    let (begins, ends) = (word(start), word(end));
    let left = format!("{}{}", number(band, band.leg.from), spaced(&begins));
    let right = format!("{}{}", spaced(&ends), band.leg.to.map_or('○', |to| number(band, to)));
    let (left_width, right_width) = (columns(&left), columns(&right));
    if left_width + right_width >= band.area.width {
        return;
    }
    band.pen(0, buffer).write(&left, inks.figure);
    let room = left_width + 1..band.area.width - right_width;
    for (column, time) in ticks(band) {
        let word = format!("┬{time}");
        if room.contains(&column) && column + columns(&word) < room.end {
            band.pen(column, buffer).write("┬", inks.quiet).write(&time, inks.plain);
        }
    }
    band.pen(band.area.width - right_width, buffer).write(&right, inks.figure);
    if let Some(column) = moment(band).filter(|column| room.contains(column)) {
        band.pen(column, buffer).write("▼", inks.key);
    }
}

/// A waypoint's number in a circle, or a dot.
fn number(band: &Band<'_>, index: usize) -> char {
    waypoint_number(index + 1, band.state.settings.dots).unwrap_or('●')
}

fn spaced(word: &str) -> String {
    if word.is_empty() { String::new() } else { format!(" {word} ") }
}

fn columns(text: &str) -> u16 {
    super::super::ink::width(text)
}

fn clock(band: &Band<'_>, at: Option<Timestamp>) -> String {
    let on_clock = at.map(|at| at.to_zoned_datetime(band.state.clock().clone()));
    on_clock.map(|at| text::clock(&at)).unwrap_or_default()
}

/// The column in which the group is at the moment that is looked at.
fn moment(band: &Band<'_>) -> Option<u16> {
    passed_at(band, band.state.moment.at())
}

/// The column in which the leg is at an instant; nothing before and after it.
fn passed_at(band: &Band<'_>, at: Timestamp) -> Option<u16> {
    let times = &band.leg.times;
    let (first, last) = (times.first().copied().flatten()?, times.last().copied().flatten()?);
    let next = times.iter().position(|time| time.is_some_and(|time| time >= at))?;
    let after = times.get(next).copied().flatten()?;
    let places = &band.leg.line.places;
    let along = match next.checked_sub(1).and_then(|before| Some((before, times[before]?))) {
        Some((before, from)) if after > from => {
            let part =
                at.duration_since(from).as_secs_f64() / after.duration_since(from).as_secs_f64();
            places[before].along + (places[next].along - places[before].along) * part
        }
        _ => places[next].along,
    };
    (first..=last).contains(&at).then(|| band.column(along))
}

/// The whole clock times at which ticks stand, as far apart as there is room for.
fn ticks(band: &Band<'_>) -> Vec<(u16, String)> {
    let (Some(Some(first)), Some(Some(last))) = (band.leg.times.first(), band.leg.times.last())
    else {
        return Vec::new();
    };
    let all = STEPS.iter().map(|step| every(band, *step, *first, *last));
    let apart = |ticks: &Vec<(u16, String)>| {
        ticks.windows(2).all(|pair| pair[1].0 >= pair[0].0.saturating_add(APART))
    };
    all.into_iter().find(apart).unwrap_or_default()
}

/// The ticks every so many minutes of the clock.
fn every(band: &Band<'_>, step: i64, first: Timestamp, last: Timestamp) -> Vec<(u16, String)> {
    let length = SignedDuration::from_mins(step);
    let count = last.duration_since(first).as_mins() / step + 1;
    // More than a column can hold are too many in any case.
    if count > i64::from(band.area.width) {
        return vec![(0, String::new()), (0, String::new())];
    }
    let zone = band.state.clock();
    let begins = first.to_zoned_datetime(zone.clone());
    let past = i64::from(begins.hour()) * 60 + i64::from(begins.minute());
    let to_next = (step - past.rem_euclid(step)) * 60 - i64::from(begins.second());
    let next = first.checked_add(SignedDuration::from_secs(to_next)).ok();
    std::iter::successors(next, |at| at.checked_add(length).ok())
        .take_while(|at| *at < last)
        .filter_map(|at| Some((passed_at(band, at)?, clock(band, Some(at)))))
        .collect()
}
