//! Latitude and longitude of a mark.

use nav::Position;
use nav::text::{latitude, longitude};

use super::Throw;
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
    ];
    question.steps = vec![
        format!("Across to the side of the chart: latitude {}.", latitude(at.lat, MINUTES)),
        format!("Up or down to its edge: longitude {}.", longitude(at.lon, MINUTES)),
    ];
    question.drawn = question.shown.clone();
    mistakes(&mut question, at.lat.as_degrees(), at.lon.as_degrees());
    Some(question)
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
