//! Routes for the crate's tests.

use jiff::tz::{Offset, TimeZone};
use jiff::{SignedDuration, Timestamp};
use nav::leeway::{Leeway, Wind};
use nav::magnetic::{DecimalYear, PerYear, PrintedVariation, VariationSource};
use nav::{Bearing, Length, Pace, Position, Speed, Variation};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;

use crate::{
    Along, Departure, Edit, Kept, Limit, Limits, Line, Link, Route, Steering, Through, Waypoint,
    Weather,
};

/// Any position on the globe.
pub(crate) fn any_position() -> impl Strategy<Value = Position> {
    (-90.0..=90.0, -180.0..=180.0).prop_map(|(lat, lon)| Position::from_degrees(lat, lon).unwrap())
}

/// A point as a careful person would make it.
pub(crate) fn any_waypoint() -> impl Strategy<Value = Waypoint> {
    let along = option::weighted(0.4, any_along());
    let steer = any_steering();
    let kept = option::weighted(0.2, any_kept());
    (any_position(), any_text(60), 0i64..7 * 24 * 60, any_text(400), along, steer, kept).prop_map(
        |(at, name, stop, note, along, steer, kept)| Waypoint {
            stop: SignedDuration::from_mins(stop),
            note,
            steer: if along.is_some() { Steering::Line } else { steer },
            along,
            kept: kept.and_then(Kept::some),
            ..Waypoint::new(at).named(&name)
        },
    )
}

/// What another program may say.
fn any_kept() -> impl Strategy<Value = Kept> {
    let link = (any_text(60), any_text(60), any_text(60)).prop_map(|(address, text, kind)| Link {
        address,
        text,
        kind,
    });
    let texts = (any_text(60), any_text(60), any_text(400));
    (option::of(-500.0..9000.0), texts, vec(link, 0..4)).prop_map(
        |(height, (symbol, class, description), links)| {
            let height = height.map(|metres| Length::from_metres(metres).unwrap());
            Kept { height, symbol, class, description, links }
        },
    )
}

fn any_steering() -> impl Strategy<Value = Steering> {
    prop_oneof![3 => Just(Steering::Line), 1 => Just(Steering::OneHeading)]
}

/// How a leg may run, near or far.
pub(crate) fn any_along() -> impl Strategy<Value = Along> {
    let clicks = vec((any_position(), any::<bool>(), any::<bool>()), 2..6);
    (vec(any_position(), 0..12), clicks, 0.0..=2000.0, 0.0..=5000.0).prop_map(
        |(line, clicks, stand_off, step)| {
            let clicks = clicks.into_iter().map(|(at, free, other_way)| Through {
                at: crate::rounded(at),
                free,
                other_way,
            });
            let line = Line::new(line).unwrap();
            let [stand_off, step] = [stand_off, step].map(|m| Length::from_metres(m).unwrap());
            Along::new(line, &clicks.collect::<Vec<_>>(), stand_off, step)
        },
    )
}

/// Clean text within a bound, with characters that a writer must escape.
pub(crate) fn any_text(most: usize) -> impl Strategy<Value = String> {
    prop_oneof![Just(String::new()), "[a-zæøå\"\\\\{}#é ']{1,30}"]
        .prop_map(move |text| chart::clean::clean(&text, most))
}

/// A departure on a clock of any kind.
pub(crate) fn any_departure() -> impl Strategy<Value = Departure> {
    let zones = prop_oneof![
        Just(TimeZone::UTC),
        (-25i32..=25)
            .prop_map(|half| { TimeZone::fixed(Offset::from_seconds(half * 1800).unwrap()) }),
        prop::sample::select(vec!["Europe/London", "America/St_Johns", "Pacific/Chatham"])
            .prop_map(|name| TimeZone::get(name).unwrap()),
    ];
    (0i64..4_000_000_000, zones).prop_map(|(second, zone)| {
        let moment = Timestamp::from_second(second).unwrap();
        Departure::at(&moment.to_zoned_datetime(zone)).unwrap()
    })
}

/// A pace in either unit.
pub(crate) fn any_pace() -> impl Strategy<Value = Pace> {
    (1i32..2000, any::<bool>(), 0i64..60).prop_map(|(hundredths, knots, rest)| {
        let unit = if knots { "kn" } else { "km/h" };
        let pace: Pace = format!("{} {unit}", f64::from(hundredths) / 100.0).parse().unwrap();
        pace.with_rest_per_hour(SignedDuration::from_mins(rest)).unwrap()
    })
}

/// The model or a printed variation.
pub(crate) fn any_variation() -> impl Strategy<Value = VariationSource> {
    let printed =
        (-180.0..=180.0, 1900.0..2100.0, -1.0..=1.0).prop_map(|(degrees, year, change)| {
            VariationSource::Printed(PrintedVariation {
                variation: Variation::from_degrees_east(degrees).unwrap(),
                year: DecimalYear::new(year).unwrap(),
                change_per_year: PerYear::from_degrees_east(change).unwrap(),
            })
        });
    prop_oneof![Just(VariationSource::Model), printed]
}

/// A wind that a leeway is reckoned for, as it is written.
fn any_weather() -> impl Strategy<Value = Weather> {
    (0.0..360.0, 0.0..16.0, 0.0..=3.0).prop_map(|(from, knots, factor)| {
        let from = Bearing::from_degrees(from).unwrap();
        let wind = Wind { from, speed: Speed::from_knots(knots).unwrap() };
        Weather { wind, leeway: Leeway::from_factor(factor).unwrap() }.checked().unwrap()
    })
}

/// Limits of which one or two are not usual.
fn any_limits() -> impl Strategy<Value = Limits> {
    let texts = [
        (Limit::Wait, "20"),
        (Limit::Light, "none"),
        (Limit::Race, "quiet"),
        (Limit::Drift, "2.5"),
        (Limit::Height, "1.25"),
        (Limit::Day, "8 h"),
        (Limit::Slow, "50"),
    ];
    vec(prop::sample::select(texts.to_vec()), 0..3).prop_map(|texts| {
        let set = |limits: Limits, (limit, text)| limits.with(limit, text).unwrap();
        texts.into_iter().fold(Limits::default(), set)
    })
}

/// A route within every bound.
pub(crate) fn any_route() -> impl Strategy<Value = Route> {
    let points = vec(any_waypoint(), 0..8);
    let texts = (any_text(80), any_text(80));
    let water = (option::of(any_weather()), any_limits());
    (texts, points, any_pace(), any_variation(), option::of(any_departure()), water).prop_map(
        |((title, chart), mut points, pace, variation, departure, (wind, limits))| {
            if let Some(first) = points.first_mut() {
                first.along = None;
                first.steer = Steering::Line;
            }
            let usual = Route::new(&chart);
            Route { pace, variation, title, points, departure, wind, limits, ..usual }
        },
    )
}

/// An edit that may or may not fit the route.
pub(crate) fn any_edit() -> impl Strategy<Value = Edit> {
    let index = 0usize..8;
    prop_oneof![
        4 => (index.clone(), any_waypoint())
            .prop_map(|(index, waypoint)| Edit::Insert { index, waypoint }),
        2 => (index.clone(), any_position()).prop_map(|(index, to)| Edit::Move { index, to }),
        2 => index.clone().prop_map(|index| Edit::Delete { index }),
        3 => (index.clone(), option::of(any_along()))
            .prop_map(|(index, along)| Edit::SetAlong { index, along }),
        1 => (index.clone(), any_text(70)).prop_map(|(index, name)| Edit::Rename { index, name }),
        1 => (index.clone(), -1i64..200)
            .prop_map(|(index, m)| Edit::SetStop { index, stop: SignedDuration::from_mins(m) }),
        1 => (index, any_text(40)).prop_map(|(index, note)| Edit::SetNote { index, note }),
        2 => (0usize..8, any_steering())
            .prop_map(|(index, steer)| Edit::SetSteering { index, steer }),
        1 => Just(Edit::Reverse),
        1 => option::of(any_departure()).prop_map(Edit::SetDeparture),
        1 => any_pace().prop_map(Edit::SetPace),
        1 => any_variation().prop_map(Edit::SetVariation),
        1 => option::of(any_weather()).prop_map(Edit::SetWind),
        1 => any_limits().prop_map(Edit::SetLimits),
        1 => any_text(100).prop_map(Edit::SetTitle),
    ]
}
