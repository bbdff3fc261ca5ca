//! Latitude and longitude of a mark.

use chart::Point;
use nav::Position;
use nav::text::{latitude, longitude};

use super::Throw;
use crate::ground::{Ground, Spot};
use crate::question::MINUTES;
use crate::words::whole;
use crate::{Answer, MistakeKind, Question, Shown, Tolerance};

/// What are latitude and longitude of Long Ness light?
pub(super) fn of_a_mark(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let spot = throw.dice.pick(throw.ground.spots())?;
    let at = spot.position;
    for degrees in [at.lat.as_degrees(), at.lon.as_degrees()] {
        // In tenths of minutes, as they are printed.
        whole(degrees * 600.0, 1.0)?;
    }
    let near = Tolerance::ArcMinutes(throw.level.of([0.3, 0.2, 0.1]));
    let text = format!("Give the latitude and longitude of {}, to a tenth of a minute.", spot.name);
    let grid = &throw.ground.chart.grid;
    let mut question = Question::new(text, Answer::Position(at), near, grid);
    question.basis = "a margin divided into minutes is read to a tenth or two: common practice, no published source";
    question.shown = vec![Shown::Point { at: spot.at, label: spot.name.clone() }];
    question.hints = vec![
        "Latitude from the side of the chart first, then longitude from the top or the foot."
            .to_owned(),
        "Count the whole minutes from the last figure printed, then judge the tenths.".to_owned(),
        format!("The latitude is {}.", latitude(at.lat, MINUTES)),
    ];
    question.steps = vec![
        format!("Across to the side of the chart: latitude {}.", latitude(at.lat, MINUTES)),
        format!("Up or down to its edge: longitude {}.", longitude(at.lon, MINUTES)),
    ];
    question.drawn = to_the_margins(throw.ground, spot);
    mistakes(&mut question, at.lat.as_degrees(), at.lon.as_degrees());
    Some(question)
}

/// Across to the side of the chart along the parallel, up to its top along the meridian, and the point.
fn to_the_margins(ground: &Ground<'_>, spot: &Spot) -> Vec<Shown> {
    let (position, extent) = (spot.position, ground.chart.extent);
    let grid = &ground.chart.grid;
    // Along a parallel or a meridian, which the grid turns by its convergence.
    let turned = |to: Point| {
        let north = grid.forward(position).ok()?.convergence.as_degrees_east().to_radians();
        let (way, tilt) = (to - spot.at, north.tan());
        Some(spot.at + Point { x: way.x - way.y * tilt, y: way.y + way.x * tilt })
    };
    let line =
        |to: Point, label: String| Some(Shown::Line { from: spot.at, to: turned(to)?, label });
    let side = Point { x: extent.min().x, y: spot.at.y };
    let top = Point { x: spot.at.x, y: extent.max().y };
    let lines =
        [line(side, latitude(position.lat, MINUTES)), line(top, longitude(position.lon, MINUTES))];
    let point = Shown::Point { at: spot.at, label: spot.name.clone() };
    lines.into_iter().flatten().chain([point]).collect()
}

fn mistakes(question: &mut Question, lat: f64, lon: f64) {
    let mut mistake = |kind, lat: f64, lon: f64| {
        if let Ok(at) = Position::from_degrees(lat, lon) {
            question.mistake(kind, Answer::Position(at));
        }
    };
    mistake(MistakeKind::LatLonSwapped, lon, lat);
    // The letters where they belong, the figures not.
    mistake(MistakeKind::LatLonSwapped, lon.abs().copysign(lat), lat.abs().copysign(lon));
    for [lat, lon] in [[lat, lon].map(minutes_as_decimals), [lat, lon].map(decimals_as_minutes)] {
        mistake(MistakeKind::MinutesForDecimals, lat, lon);
    }
    for (lat, lon) in [(lat, -lon), (-lat, lon), (-lat, -lon)] {
        mistake(MistakeKind::WrongHemisphere, lat, lon);
    }
    let minute = 1.0 / 60.0;
    for (north, east) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)] {
        mistake(MistakeKind::MinuteOffByOne, lat + north * minute, lon + east * minute);
    }
}

/// 57°09.3′ written as 57.093.
fn minutes_as_decimals(degrees: f64) -> f64 {
    let (whole, part) = (degrees.trunc(), degrees.fract());
    whole + part * 0.6
}

/// 57.155 read as 57°15.5′.
fn decimals_as_minutes(degrees: f64) -> f64 {
    let (whole, part) = (degrees.trunc(), degrees.fract());
    whole + part / 0.6
}
