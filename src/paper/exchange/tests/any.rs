//! Routes of any kind, for the tests of what goes out and comes back.

use chart::clean::clean;
use jiff::tz::{Offset, TimeZone};
use jiff::{SignedDuration, Timestamp};
use nav::leeway::{Leeway, Wind};
use nav::magnetic::{DecimalYear, PerYear, PrintedVariation, VariationSource};
use nav::{Bearing, Length, Position, Speed, Variation};
use plan::{
    Along, Departure, Kept, Limit, Limits, Line, Link, Route, Steering, Through, Waypoint, Weather,
};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;

/// Text in any script, with what XML, JSON, CSV and RON must escape, clean and no longer than a name.
pub(super) fn any_script() -> impl Strategy<Value = String> {
    let named = prop::sample::select(vec![
        "Öxarárfoss",
        "مرسى القوارب",
        "נמל קטן",
        "礁の浜",
        "Ἰθάκη",
        "ท่าเรือ",
        "a & b < c > d",
        "]]> \"quoted\" 'and' so",
        "=1+1,\"x\";y",
        "&amp; &#65; \\u0041 #\"\"#",
        "two  spaces and\u{a0}hard\u{3000}ones",
        "😀 𝔸",
    ]);
    prop_oneof![named.prop_map(str::to_owned), "\\PC{0,40}", Just(String::new())]
        .prop_map(|text| chart::clean::clean(&text, Waypoint::MOST_NAME))
}

fn any_position() -> impl Strategy<Value = Position> {
    (-90.0..=90.0, -179.9999..179.9999)
        .prop_map(|(lat, lon)| Position::from_degrees(lat, lon).unwrap())
}

fn metres(metres: f64) -> Length {
    Length::from_metres(metres).unwrap()
}

fn any_along() -> impl Strategy<Value = Along> {
    let clicks = vec((any_position(), any::<bool>(), any::<bool>()), 2..6);
    (vec(any_position(), 0..12), clicks, 0.0..=2000.0, 0.0..=5000.0).prop_map(
        |(line, clicks, stand_off, step)| {
            let clicks = clicks.into_iter().map(|(at, free, other_way)| Through {
                at: plan::rounded(at),
                free,
                other_way,
            });
            let clicks: Vec<_> = clicks.collect();
            Along::new(Line::new(line).unwrap(), &clicks, metres(stand_off), metres(step))
        },
    )
}

/// What another program may say of a point.
fn any_kept() -> impl Strategy<Value = Kept> {
    let text = || any_script().prop_map(|text| clean(&text, Kept::MOST_WORDS));
    let address =
        "[a-z]{1,9}:[\\w&<>\"' =?/#%]{0,40}x".prop_map(|text| clean(&text, Kept::MOST_TEXT));
    let link =
        (address, text(), text()).prop_map(|(address, text, kind)| Link { address, text, kind });
    (option::of(-500.0..9000.0), (text(), text(), text()), vec(link, 0..4)).prop_map(
        |(height, (symbol, class, description), links)| Kept {
            height: height.map(metres),
            symbol,
            class,
            description,
            links,
        },
    )
}

fn any_waypoint() -> impl Strategy<Value = Waypoint> {
    let texts = (any_script(), any_script(), option::weighted(0.3, any_kept()));
    let runs = (option::weighted(0.4, any_along()), any::<bool>());
    (any_position(), texts, 0i64..7 * 24 * 60, runs).prop_map(
        |(at, (name, note, kept), stop, (along, heading))| {
            let one = heading && along.is_none();
            Waypoint {
                stop: SignedDuration::from_mins(stop / 3 * i64::from(stop % 3 == 0)),
                note,
                steer: if one { Steering::OneHeading } else { Steering::Line },
                along,
                kept: kept.and_then(Kept::some),
                ..Waypoint::new(at).named(&name)
            }
        },
    )
}

fn any_departure() -> impl Strategy<Value = Departure> {
    let zones = prop_oneof![
        (-25i32..=25).prop_map(|half| TimeZone::fixed(Offset::from_seconds(half * 1800).unwrap())),
        Just(TimeZone::get("America/St_Johns").unwrap()),
    ];
    (0i64..4_000_000_000, zones).prop_map(|(second, zone)| {
        let moment = Timestamp::from_second(second).unwrap();
        Departure::at(&moment.to_zoned_datetime(zone)).unwrap()
    })
}

fn any_variation() -> impl Strategy<Value = VariationSource> {
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

fn any_weather() -> impl Strategy<Value = Weather> {
    (0.0..360.0, 0.0..16.0, 0.0..=3.0).prop_map(|(from, knots, factor)| {
        let wind = Wind {
            from: Bearing::from_degrees(from).unwrap(),
            speed: Speed::from_knots(knots).unwrap(),
        };
        Weather { wind, leeway: Leeway::from_factor(factor).unwrap() }.checked().unwrap()
    })
}

fn any_limits() -> impl Strategy<Value = Limits> {
    let texts =
        [(Limit::Wait, "20"), (Limit::Light, "none"), (Limit::Race, "quiet"), (Limit::Day, "8 h")];
    vec(prop::sample::select(texts.to_vec()), 0..3).prop_map(|texts| {
        texts
            .into_iter()
            .fold(Limits::default(), |limits, (limit, text)| limits.with(limit, text).unwrap())
    })
}

/// A route within every bound, of one point at least.
pub(super) fn any_route() -> impl Strategy<Value = Route> {
    let texts = (any_script(), any_script());
    let pace = (1i32..2000, any::<bool>(), 0i64..60).prop_map(|(hundredths, knots, rest)| {
        let unit = if knots { "kn" } else { "km/h" };
        let pace: nav::Pace = format!("{} {unit}", f64::from(hundredths) / 100.0).parse().unwrap();
        pace.with_rest_per_hour(SignedDuration::from_mins(rest)).unwrap()
    });
    let day = (option::of(any_departure()), option::of(any_weather()), any_limits());
    (texts, vec(any_waypoint(), 1..8), pace, any_variation(), day).prop_map(
        |((title, chart), mut points, pace, variation, (departure, wind, limits))| {
            points[0].along = None;
            points[0].steer = Steering::Line;
            let usual = Route::new(&chart);
            Route { title, points, pace, variation, departure, wind, limits, ..usual }
        },
    )
}
