//! The hours of a leg, on the chart and as a line.

use chart::Point;
use nav::Pace;

use super::{number, unit_of};
use crate::Shown;
use crate::figure::{Figure, Line, Part, Read, Tick};
use crate::words::plain;

/// The minutes that are marked along a way: whole hours, and the tenths of the hour that is not full.
fn marks(minutes: f64) -> impl Iterator<Item = (f64, Option<i64>)> {
    let within = move |at: &i64| (*at as f64) < minutes;
    let hours = (1..).map(|hour| 60 * hour).take_while(within);
    let last = hours.clone().last().unwrap_or(0);
    let tenths = (1..10).map(move |tenth| last + 6 * tenth).take_while(within);
    let hours = hours.map(|at| (at as f64, Some(at / 60)));
    hours.chain(tenths.map(|at| (at as f64, None)))
}

/// A leg with the hours marked along it, and its end with what is asked for.
pub(super) fn way(from: Point, to: Point, minutes: f64, told: &str) -> Vec<Shown> {
    let mark = |(at, hour): (f64, Option<i64>)| Shown::Tick {
        at: from + (to - from) * (at / minutes),
        label: hour.map_or(String::new(), |hour| format!("{hour} h")),
    };
    let line = Shown::Line { from, to, label: String::new() };
    let end = Shown::Point { at: to, label: told.to_owned() };
    [line].into_iter().chain(marks(minutes).map(mark)).chain([end]).collect()
}

/// The same as a line of time: under each hour what is paddled till then.
pub(super) fn line(pace: Pace, minutes: f64, over: String, end: Vec<String>, read: f64) -> Figure {
    let net = 1.0 - pace.rest_per_hour().as_secs_f64() / 3600.0;
    let unit = unit_of(pace).sign();
    let mark = |(at, hour): (f64, Option<i64>)| Tick {
        at,
        sign: if hour.is_some() { "┼" } else { "┴" },
        words: hour.map_or_else(Vec::new, |hour| {
            let run = plain(number(pace) * net * hour as f64, 1);
            vec![format!("{hour} h"), format!("{run} {unit}")]
        }),
    };
    let end = Tick { at: minutes, sign: "┤", words: end };
    Figure::Line(Line {
        from: 0.0,
        parts: vec![Part { to: minutes, words: over, is_break: false }],
        ticks: [end].into_iter().chain(marks(minutes).map(mark)).collect(),
        right: Some(minutes),
        fixed: None,
        read: Read::Amount(read),
    })
}
