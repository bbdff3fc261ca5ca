//! How far off an answer is, in words.

use super::{later, turn};
use crate::ground::on_chart;
use crate::words::plain;
use crate::{Answer, Reply, Unit};

/// How far a reply is from an answer; nothing where it is the answer itself, or cannot be compared.
pub(super) fn off(answer: &Answer, reply: &Reply) -> Option<String> {
    match (answer, reply) {
        (Answer::Reference { square, .. }, Reply::Reference(given)) => {
            let alike = (square.side - given.side).as_metres().abs() < 0.5;
            let apart = on_chart(given.south_west) - on_chart(square.south_west);
            alike.then(|| sideways(apart.x, apart.y)).flatten()
        }
        (Answer::Square { square, .. }, Reply::At(given)) => {
            let (west, south) = (square.south_west.easting, square.south_west.northing);
            let beyond = |at: f64, from: nav::Length| {
                let edge = at.clamp(from.as_metres(), (from + square.side).as_metres());
                at - edge
            };
            sideways(beyond(given.x, west), beyond(given.y, south))
        }
        (Answer::Place { at, .. }, Reply::At(given)) => {
            let apart = *given - *at;
            sideways(apart.x, apart.y)
        }
        (Answer::Bearing { degrees, .. }, Reply::Bearing { degrees: given, .. }) => {
            let turned = turn(*degrees, *given);
            let way = if turned > 0.0 { "too far clockwise" } else { "too far anticlockwise" };
            some(turned.abs(), 0.05, |by| format!("{}° {way}", plain(by, 1)))
        }
        (Answer::Amount { value, unit, decimals }, Reply::Amount(given)) => {
            let (by, half) = (given - value, 0.5 * 0.1_f64.powi(*decimals as i32));
            let way = if by > 0.0 { "too much" } else { "too little" };
            some(by.abs(), half, |by| match unit {
                Unit::Minutes => format!("{} min {way}", plain(by, 0)),
                _ => format!("{by:.decimals$} {} {way}", unit.sign()),
            })
        }
        (Answer::Clock(minute), Reply::Clock(given)) => {
            let by = later(*minute, *given);
            let way = if by > 0 { "too late" } else { "too early" };
            (by != 0).then(|| format!("{} min {way}", by.abs()))
        }
        (Answer::Position(at), Reply::Position(given)) => {
            let north = (given.lat.as_degrees() - at.lat.as_degrees()) * 60.0;
            let east = given.lon.degrees_east_of(at.lon) * 60.0;
            let north = some(north.abs(), 0.05, |by| {
                format!("{by:.1}′ too far {}", if north > 0.0 { "north" } else { "south" })
            });
            let east = some(east.abs(), 0.05, |by| {
                format!("{by:.1}′ too far {}", if east > 0.0 { "east" } else { "west" })
            });
            both(north, east)
        }
        _ => None,
    }
}

/// `200 m too far east and 100 m too far north`
fn sideways(east: f64, north: f64) -> Option<String> {
    let way = |by: f64, up: &str, down: &str| {
        let way = if by > 0.0 { up } else { down };
        some(by.abs(), 0.5, |by| format!("{} too far {way}", metres(by)))
    };
    both(way(east, "east", "west"), way(north, "north", "south"))
}

fn metres(metres: f64) -> String {
    if metres < 1000.0 {
        format!("{metres:.0} m")
    } else {
        format!("{} km", plain(metres / 1000.0, 1))
    }
}

/// What is said of an amount, unless it is less than `least`.
fn some(by: f64, least: f64, said: impl Fn(f64) -> String) -> Option<String> {
    (by > least + 1e-9).then(|| said(by))
}

fn both(one: Option<String>, other: Option<String>) -> Option<String> {
    match (one, other) {
        (Some(one), Some(other)) => Some(format!("{one} and {other}")),
        (one, other) => one.or(other),
    }
}
