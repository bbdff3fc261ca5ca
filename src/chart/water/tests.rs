//! Ports against their constants, stations against their rows, and the blend's properties.

use std::sync::LazyLock;

use jiff::civil::date;
use jiff::tz::{Offset, TimeZone};
use jiff::{SignedDuration, Timestamp};
use nav::tide::Water;
use nav::triangle::Stream;
use proptest::prelude::*;

use super::*;
use crate::Point;
use crate::coast::Coast;
use crate::model::{PortTide, StreamRates};

static PRACTICE: LazyLock<(Chart, Tides, Coast, Flows)> = LazyLock::new(|| {
    let chart = crate::practice().unwrap();
    let tides = Tides::of(&chart).unwrap();
    let coast = Coast::of(&chart);
    let flows = tides.flows(time("2026-06-14T00:00Z"), time("2026-06-15T00:00Z")).unwrap();
    (chart, tides, coast, flows)
});

fn time(text: &str) -> Timestamp {
    text.parse().unwrap()
}

fn changed(change: impl FnOnce(&mut Chart)) -> Result<Tides, WaterError> {
    let mut chart = PRACTICE.0.clone();
    change(&mut chart);
    Tides::of(&chart)
}

fn said(change: impl FnOnce(&mut Chart)) -> String {
    changed(change).unwrap_err().to_string()
}

#[test]
fn a_day_at_the_standard_port() {
    let gauge = PRACTICE.1.gauge("port ustorna").unwrap();
    let zone = TimeZone::fixed(Offset::constant(-3));
    let day = gauge.day(date(2026, 6, 14), &zone).unwrap();
    assert_eq!((day.from, day.to), (time("2026-06-14T03:00Z"), time("2026-06-15T03:00Z")));
    assert!((3..=4).contains(&day.turns.len()), "{day:?}");
    for turn in &day.turns {
        let height = gauge.height(turn.at).unwrap().unwrap();
        assert!((height - turn.height).as_metres().abs() < 1e-6);
        // Neither rises nor falls: within a millimetre a minute to either side.
        for minute in [-1, 1] {
            let beside =
                gauge.height(turn.at + SignedDuration::from_mins(minute)).unwrap().unwrap();
            let off = (beside - turn.height).as_metres();
            assert!(off.abs() < 1e-3 && (off < 0.0) == (turn.water == Water::High), "{turn:?}");
        }
    }
    // The day before a new moon in June 2026, so near springs: 2 (M2 + S2) is 3.94 m.
    let ranges = gauge.ranges().unwrap();
    assert!((ranges.springs().as_metres() - 3.94).abs() < 1e-9);
    let (range, factor) = (day.range.unwrap(), day.factor.unwrap());
    assert!((factor - ranges.factor(range)).abs() < 1e-12);
    assert!((0.5..1.4).contains(&factor), "{factor}");
}

#[test]
fn a_secondary_port_has_its_differences() {
    let (chart, tides, ..) = &*PRACTICE;
    let [standard, secondary] =
        ["Port Ustorna", "Galamond Quay"].map(|name| tides.gauge(name).unwrap());
    assert!(secondary.is_secondary() && !standard.is_secondary());
    let (from, to) = (time("2026-06-14T00:00Z"), time("2026-06-18T00:00Z"));
    let (own, theirs) = (secondary.waters(from, to).unwrap(), standard.waters(from, to).unwrap());
    let port = chart.ports.iter().find(|port| port.name == "Galamond Quay").unwrap();
    let PortTide::Differences { high_water_min, low_water_min, .. } = &port.tide else { panic!() };
    assert_eq!((*high_water_min, *low_water_min), ((-10.0, -5.0), (0.0, -5.0)));
    for turn in &own {
        let nearest = theirs.iter().min_by_key(|other| turn.at.duration_since(other.at).abs());
        let Some(other) = nearest else { continue };
        let later = turn.at.duration_since(other.at).as_secs_f64() / 60.0;
        // Between springs and neaps and a little beyond; a high by -0.2 to -0.1 m, a low by up to 0.1.
        let (least, most) = if turn.water == Water::High { (-12.0, -4.0) } else { (-6.0, 2.0) };
        assert!((least..most).contains(&later), "{turn:?} {later}");
        let higher = (turn.height - other.height).as_metres();
        let (least, most) = if turn.water == Water::High { (-0.24, -0.08) } else { (-0.02, 0.15) };
        assert!((least..most).contains(&higher), "{turn:?} {higher}");
        let height = secondary.height(turn.at).unwrap().unwrap();
        assert!((height - turn.height).as_metres().abs() < 1e-6);
    }
    // Springs: 3.94 - 0.2 - 0.1 m.
    assert!((secondary.ranges().unwrap().springs().as_metres() - 3.64).abs() < 1e-9);
}

/// At mean springs and neaps the printed differences themselves come out: means by closed form.
#[test]
fn differences_at_the_means_are_those_given() {
    let tides = &PRACTICE.1;
    let (own, standard) =
        (tides.gauge("Galamond Quay").unwrap(), tides.gauge("Port Ustorna").unwrap());
    let (own, standard) = (own.ranges().unwrap(), standard.ranges().unwrap());
    let neaps = (own.neaps() - standard.neaps()).as_metres();
    assert!((neaps - (-0.1 - 0.0)).abs() < 1e-9, "{neaps}");
}

#[test]
fn an_hourly_station_has_its_rows_about_high_water() {
    let (chart, tides, _, flows) = &*PRACTICE;
    let index = tides.station("ollillan narrows").unwrap();
    assert_eq!(tides.stations()[index].known(), Known::Hourly);
    let gauge = tides.gauge("Port Ustorna").unwrap();
    let waters = gauge.waters(time("2026-06-14T00:00Z"), time("2026-06-15T00:00Z")).unwrap();
    let high = waters.iter().find(|turn| turn.water == Water::High).unwrap();
    let StreamRates::Hourly { rows, .. } = &chart.streams[index].rates else { panic!() };
    let day = gauge.day(date(2026, 6, 14), &TimeZone::UTC).unwrap();
    for hour in [-1_i64, 0, 2] {
        let found = flows.at(&Tides::only(index), high.at + SignedDuration::from_hours(hour));
        let (found, row) = (found.unwrap(), rows[usize::try_from(hour + 6).unwrap()]);
        let expected = row.neaps_kn + (row.springs_kn - row.neaps_kn) * day.factor.unwrap();
        // The factor of this tide is not quite that of the day.
        assert!((found.drift.as_knots() - expected).abs() < 0.15 * expected + 1e-9, "{hour}");
        if row.springs_kn > 0.0 {
            assert!((found.set.as_degrees() - row.set_deg).abs() < 1e-6);
        }
    }
}

#[test]
fn a_station_of_the_greatest_rate_goes_by_the_days_range() {
    let (chart, tides, ..) = &*PRACTICE;
    let index = tides.station("Off Polawen Point").unwrap();
    let StreamRates::Greatest { flood_deg, springs_kn, .. } = chart.streams[index].rates else {
        panic!()
    };
    let month = tides.flows(time("2026-06-01T00:00Z"), time("2026-07-01T00:00Z")).unwrap();
    let run = month.run(&Tides::only(index)).unwrap();
    let greatest: Vec<f64> =
        run.greatest().iter().map(|greatest| greatest.stream.drift.as_knots()).collect();
    let most = greatest.iter().copied().fold(0.0, f64::max);
    let least = greatest[1..greatest.len() - 1].iter().copied().fold(f64::INFINITY, f64::min);
    // Neaps have 0.95 of 1.97 m; perigee adds a quarter or takes it.
    assert!((0.9..1.35).contains(&(most / springs_kn)), "{most} of {springs_kn}");
    assert!((0.25..0.75).contains(&(least / springs_kn)), "{least} of {springs_kn}");
    let axis = run.main_axis().unwrap().as_degrees();
    let off = (axis - flood_deg).rem_euclid(180.0);
    assert!(off.min(180.0 - off) < 1e-6, "{axis}");
}

#[test]
fn what_cannot_be_told_is_named() {
    let first = |chart: &mut Chart, with: &str| {
        let PortTide::Constants { constituents, .. } = &mut chart.ports[0].tide else { panic!() };
        if with.is_empty() { constituents.clear() } else { constituents[1].name = with.to_owned() }
    };
    assert_eq!(
        said(|chart| first(chart, "MX2")),
        "the tide at \"Port Ustorna\": no constituent is called \"MX2\"; the names are those of \
         the international lists, M2, K1, MS4 or LAMBDA2"
    );
    assert_eq!(
        said(|chart| first(chart, "N4")),
        "the tide at \"Delovhaven\": springs and neaps at \"Port Ustorna\" are needed: the port has \
         no S2; springs and neaps are told from M2 and S2"
    );
    assert!(said(|chart| first(chart, "")).contains("has no constituents"));
    let rates = |chart: &mut Chart, rates| chart.streams[0].rates = rates;
    let rows = |rows: Vec<crate::model::StreamRow>, port: &str| StreamRates::Hourly {
        port: port.to_owned(),
        rows,
    };
    let StreamRates::Hourly { rows: whole, .. } = &PRACTICE.0.streams[0].rates else { panic!() };
    assert!(
        said(|chart| rates(chart, rows(whole[..12].to_vec(), "Port Ustorna")))
            .starts_with("the stream at \"Ollillan Narrows\": no row for the hour +6;")
    );
    let more = [&whole[..], &whole[..1]].concat();
    assert!(
        said(|chart| rates(chart, rows(more, "Port Ustorna"))).contains("a row for the hour +7;")
    );
    assert_eq!(
        said(|chart| rates(chart, rows(whole.clone(), "Nowhere"))),
        "the stream at \"Ollillan Narrows\": the chart has no port \"Nowhere\""
    );
    assert!(PRACTICE.1.flows(time("2200-01-01T00Z"), time("2200-01-02T00Z")).is_err());
}

fn vector(stream: Stream) -> (f64, f64) {
    let (sin, cos) = stream.set.as_degrees().to_radians().sin_cos();
    (stream.drift.as_knots() * sin, stream.drift.as_knots() * cos)
}

fn known(point: Point, at: Timestamp) -> Option<(f64, f64)> {
    let (_, tides, coast, flows) = &*PRACTICE;
    flows.at(&tides.shares(coast, point), at).map(vector)
}

fn places() -> impl Strategy<Value = Point> {
    (660_000.0..690_000.0, 340_000.0..362_000.0).prop_map(Point::from)
}

fn hours() -> impl Strategy<Value = Timestamp> {
    (0..1440_i64).prop_map(|minute| time("2026-06-14T00:00Z") + SignedDuration::from_mins(minute))
}

/// Finds a jump between two places by halving: a step that stays large however short it is.
fn jump(a: Point, b: Point, at: Timestamp) -> Option<Point> {
    let (Some(here), Some(there)) = (known(a, at), known(b, at)) else { return None };
    let apart = (here.0 - there.0).hypot(here.1 - there.1);
    let length = (b - a).x.hypot((b - a).y);
    // A step of the walk is no longer than the shadow of a skerry.
    if length < 100.0 && apart < 0.3 {
        return None;
    }
    if length < 1e-5 {
        return Some(a);
    }
    let middle = (a + b) / 2.0;
    jump(a, middle, at).or_else(|| jump(middle, b, at))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn never_faster_than_the_fastest_and_never_from_behind_land(point in places(), at in hours()) {
        let (_, tides, coast, flows) = &*PRACTICE;
        let shares = tides.shares(coast, point);
        let sum: f64 = shares.parts().iter().map(|share| share.part).sum();
        prop_assert!(shares.is_empty() || (sum - 1.0).abs() < 1e-12);
        let mut fastest = 0.0_f64;
        for share in shares.parts() {
            let station = &tides.stations()[share.station];
            prop_assert!(!coast.touches(point, station.at()), "{}", station.name());
            prop_assert!(share.away.as_metres() < REACH && share.part > 0.0);
            let own = flows.at(&Tides::only(share.station), at).unwrap();
            fastest = fastest.max(own.drift.as_knots());
        }
        match flows.at(&shares, at) {
            Some(stream) => prop_assert!(stream.drift.as_knots() <= fastest + 1e-9),
            None => prop_assert!(shares.is_empty()),
        }
        // The blended run is the blend of the runs.
        if let (Some(run), Some(stream)) = (flows.run(&shares), flows.at(&shares, at)) {
            let (one, other) = (vector(run.at(at).unwrap()), vector(stream));
            prop_assert!((one.0 - other.0).hypot(one.1 - other.1) < 1e-6);
        }
    }

    #[test]
    fn no_jump_on_a_way_over_water(a in places(), way in (-1500.0..1500.0, -1500.0..1500.0), at in hours()) {
        let b = a + Point::from(way);
        prop_assume!(!PRACTICE.2.on_land(a) && !PRACTICE.2.touches(a, b));
        prop_assert_eq!(jump(a, b, at), None);
    }
}

#[test]
fn at_a_station_it_is_the_stations_own() {
    let (_, tides, coast, flows) = &*PRACTICE;
    let at = time("2026-06-14T09:20Z");
    for (index, station) in tides.stations().iter().enumerate() {
        assert_eq!(tides.shares(coast, station.at()), Tides::only(index));
        let own = vector(flows.at(&Tides::only(index), at).unwrap());
        // And close to it very nearly.
        let beside = station.at() + Point { x: 0.01, y: 0.0 };
        if coast.touches(station.at(), beside) {
            continue;
        }
        let near = known(beside, at).unwrap();
        assert!((own.0 - near.0).hypot(own.1 - near.1) < 1e-3, "{}", station.name());
    }
}

/// The practice chart with two stations alone, and one wall of land between them, 40 m thick.
#[test]
fn nothing_leaks_through_a_wall_and_nothing_is_known_far_off() {
    let mut chart = PRACTICE.0.clone();
    let corners = [
        (675_000.0, 345_000.0),
        (675_040.0, 345_000.0),
        (675_040.0, 357_000.0),
        (675_000.0, 357_000.0),
    ];
    let shore = crate::Ring(corners.map(Point::from).to_vec());
    chart.land = vec![crate::model::Land { shore, ..Default::default() }];
    chart.streams.truncate(2);
    chart.streams[0].at = Point { x: 674_000.0, y: 351_000.0 };
    chart.streams[1].at = Point { x: 676_000.0, y: 351_000.0 };
    let (tides, coast) = (Tides::of(&chart).unwrap(), Coast::of(&chart));
    let whose = |x: f64, y: f64| -> Vec<usize> {
        let shares = tides.shares(&coast, Point { x, y });
        shares.parts().iter().map(|share| share.station).collect()
    };
    assert_eq!(whose(674_990.0, 351_000.0), [0]);
    assert_eq!(whose(675_050.0, 351_000.0), [1]);
    assert_eq!(whose(676_000.0, 353_000.0), [1]);
    // On the wall, and beyond 5 km.
    assert_eq!(whose(675_020.0, 351_000.0), [0; 0]);
    assert_eq!(whose(668_990.0, 351_000.0), [0; 0]);
    assert_eq!(whose(669_010.0, 351_000.0), [0]);
    // Without the wall both have a share, half each in the middle.
    chart.land.clear();
    let coast = Coast::of(&chart);
    let shares = tides.shares(&coast, Point { x: 675_000.0, y: 351_000.0 });
    assert!(shares.parts().iter().all(|share| (share.part - 0.5).abs() < 1e-3), "{shares:?}");
    assert_eq!(shares.parts().len(), 2);
}
