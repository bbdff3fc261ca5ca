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
use crate::model::{self, Constituent, PortTide, StreamRates};
use crate::printed::{Means, PrintedWater};

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
        "the tide at \"Port Ustorna\": no constituent is called \"MX2\"; the nearest name is MU2, and \
         all are those of the international lists"
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
    chart.races.clear();
    chart.gates.clear();
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

/// The practice chart whose standard port has a printed table for some days, from its own constants to
/// the minute and the centimetre; its other ports hang on it.
fn printed_chart(means: Option<Means>) -> Chart {
    let mut chart = PRACTICE.0.clone();
    let gauge = PRACTICE.1.gauge("Port Ustorna").unwrap();
    let turns = gauge.waters(time("2026-06-13T20:00Z"), time("2026-06-15T08:00Z")).unwrap();
    let line = |turn: &nav::tide::Turn| PrintedWater {
        time: turn.at.round(jiff::Unit::Minute).unwrap().to_string(),
        height_m: (turn.height.as_metres() * 100.0).round() / 100.0,
        water: None,
    };
    let waters = turns.iter().map(line).collect();
    chart.ports[0].tide = PortTide::Printed { zone: String::new(), means, waters };
    chart
}

const MEANS: Means = Means { springs_m: 3.94, neaps_m: 1.9, level_m: Some(2.63) };

#[test]
fn a_printed_table_tells_its_own_time_and_no_other() {
    let chart = printed_chart(Some(MEANS));
    let tides = Tides::of(&chart).unwrap();
    let (own, true_one) =
        (tides.gauge("Port Ustorna").unwrap(), PRACTICE.1.gauge("Port Ustorna").unwrap());
    let (from, to) = own.covers().unwrap();
    assert_eq!(true_one.covers(), None);
    let minute = SignedDuration::from_mins(1);
    for outside in [from - minute, to + minute, time("2026-07-01T00Z"), time("1850-01-01T00Z")] {
        assert_eq!(own.height(outside).unwrap(), None, "{outside}");
    }
    // Between its waters a cosine is near the true curve, and at them it is the table's own figure.
    let (curve, table) = (own.curve(from, to).unwrap(), own.between(from, to).unwrap().unwrap());
    for at in (0..100).map(|step| from + to.duration_since(from) * step / 100) {
        let (both, truth) = (table.height(at).unwrap(), true_one.height(at).unwrap().unwrap());
        assert!((both.cosine - truth).as_metres().abs() < 0.12, "{at} {both:?} {truth:?}");
        assert_eq!(curve.height(at), Some(both.cosine));
        assert!(both.difference().as_metres().abs() < 0.0256 * 4.1);
    }
    // A day's range and factor from what it has of the day.
    let zone = TimeZone::fixed(Offset::constant(-2));
    let (day, truth) = (
        own.day(date(2026, 6, 14), &zone).unwrap(),
        true_one.day(date(2026, 6, 14), &zone).unwrap(),
    );
    assert!((day.range.unwrap() - truth.range.unwrap()).as_metres().abs() < 0.02);
    assert!((day.factor.unwrap() - truth.factor.unwrap()).abs() < 0.02);
    let after = own.day(date(2026, 6, 20), &zone).unwrap();
    assert!(after.turns.is_empty() && after.range.is_none() && after.factor.is_none());
    assert_eq!(
        own.said(date(2026, 6, 14)),
        format!(
            "by {} printed high and low waters of Port Ustorna, invented",
            own.table().unwrap().turns().len()
        )
    );
}

#[test]
fn streams_and_differences_hang_on_a_printed_table_as_long_as_it_goes() {
    let (tides, truth) = (Tides::of(&printed_chart(Some(MEANS))).unwrap(), &PRACTICE.1);
    // A secondary port has its differences on the table's waters.
    let (own, true_one) =
        (tides.gauge("Galamond Quay").unwrap(), truth.gauge("Galamond Quay").unwrap());
    let (from, to) = own.covers().unwrap();
    let hours = SignedDuration::from_hours(7);
    let (own, true_waters) = (
        own.waters(from + hours, to - hours).unwrap(),
        true_one.waters(from + hours, to - hours).unwrap(),
    );
    assert_eq!(own.len(), true_waters.len());
    for (own, truth) in own.iter().zip(&true_waters) {
        assert!(own.at.duration_since(truth.at).abs() < SignedDuration::from_secs(60), "{own:?}");
        assert!((own.height - truth.height).as_metres().abs() < 0.012, "{own:?} {truth:?}");
    }
    // An hourly station runs from six hours before the table's first high water to six after its last.
    let index = tides.station("Ollillan Narrows").unwrap();
    let highs = tides.gauges()[0].table().unwrap().turns().iter();
    let highs: Vec<Timestamp> =
        highs.filter(|turn| turn.water == Water::High).map(|turn| turn.at).collect();
    let flows = tides.flows(time("2026-06-10T00Z"), time("2026-06-20T00Z")).unwrap();
    let run = flows.run(&Tides::only(index)).unwrap();
    let six = SignedDuration::from_hours(6);
    assert_eq!(run.start(), Some(highs[0] - six));
    assert_eq!(run.end(), Some(highs[highs.len() - 1] + six));
    let at = |at| flows.at(&Tides::only(index), at);
    assert_eq!(at(highs[0] - six - SignedDuration::from_secs(1)), None);
    let true_flows = &PRACTICE.3;
    let (own, truth) =
        (at(highs[0]).unwrap(), true_flows.at(&Tides::only(index), highs[0]).unwrap());
    assert!((own.drift.as_knots() - truth.drift.as_knots()).abs() < 0.2, "{own:?} {truth:?}");
    // A blend that has a share of it is unknown where it is.
    let share = Share { station: index, part: 0.5, away: nav::Length::ZERO };
    let other = Share { station: usize::from(index == 0), ..share };
    let shares = Shares::made_of(vec![share, other]);
    assert_eq!(flows.at(&shares, time("2026-06-19T12Z")), None);
}

#[test]
fn without_means_a_table_tells_heights_and_no_streams() {
    let mut chart = printed_chart(None);
    assert_eq!(
        Tides::of(&chart).unwrap_err().to_string(),
        "the tide at \"Delovhaven\": springs and neaps at \"Port Ustorna\" are needed: the table states no \
         mean ranges at springs and neaps"
    );
    let faults: Vec<String> =
        crate::check::faults(&chart).iter().map(|found| found.fault.to_string()).collect();
    assert_eq!(faults.len(), 4);
    assert!(faults[0].starts_with("the table of \"Port Ustorna\" states no means"), "{faults:?}");
    chart.ports.truncate(1);
    let tides = Tides::of(&chart).unwrap();
    let station = &tides.stations()[0];
    assert_eq!(station.goes_by(), Some(0));
    assert_eq!(
        station.unknown().unwrap().to_string(),
        "springs and neaps at \"Port Ustorna\" are needed: the table states no mean ranges at springs \
         and neaps"
    );
    let flows = tides.flows(time("2026-06-14T00Z"), time("2026-06-15T00Z")).unwrap();
    for hour in 0..24 {
        let at = time("2026-06-14T00Z") + SignedDuration::from_hours(hour);
        assert_eq!(flows.at(&Tides::only(0), at), None);
    }
    // Stations with constants of their own run on.
    let own = tides.stations().iter().position(|it| it.known() == Known::Constants).unwrap();
    assert!(tides.stations()[own].unknown().is_none());
    assert!(flows.at(&Tides::only(own), time("2026-06-14T12Z")).is_some());
}

#[test]
fn season_and_weather_are_put_on_when_asked() {
    let levels: Vec<f64> = (0..12).map(|month| 0.1 - 0.02 * f64::from(month)).collect();
    let tides = |change: &dyn Fn(&mut Chart)| {
        let mut chart = PRACTICE.0.clone();
        change(&mut chart);
        Tides::of(&chart).unwrap()
    };
    let day = date(2026, 6, 15);
    let (from, to) = (time("2026-06-14T00Z"), time("2026-06-16T00Z"));
    let with_levels = tides(&|chart| {
        chart.ports.iter_mut().for_each(|port| port.seasonal_m = levels.clone());
    });
    for name in ["Port Ustorna", "Galamond Quay"] {
        let (plain, gauge) = (PRACTICE.1.gauge(name).unwrap(), with_levels.gauge(name).unwrap());
        assert_eq!(plain.season(day), Err(SeasonError::NotStated(name.to_owned())));
        let season = gauge.season(day).unwrap();
        assert_eq!(season.taken_off, nav::Length::ZERO);
        let added = season.added.as_metres();
        // Mid-June.
        assert!(added.abs() < 0.001, "{added}");
        let raised = gauge.clone().in_season(season).raised(0.3 * nav::Length::METRE);
        let pairs =
            plain.waters(from, to).unwrap().into_iter().zip(raised.waters(from, to).unwrap());
        for (plain, raised) in pairs {
            assert_eq!(plain.at, raised.at);
            let by = (raised.height - plain.height).as_metres();
            assert!((by - 0.3 - added).abs() < 1e-9, "{by}");
        }
        let at = time("2026-06-14T13:10Z");
        let by = raised.height(at).unwrap().unwrap() - plain.height(at).unwrap().unwrap();
        assert!((by.as_metres() - 0.3 - added).abs() < 1e-9);
    }
    // Where the constants have the year in them it is not put on twice, and off before differences.
    let yearly = |chart: &mut Chart| {
        let PortTide::Constants { constituents, .. } = &mut chart.ports[0].tide else { panic!() };
        let name = "SA".to_owned();
        constituents.push(model::Constituent { name, amplitude: 0.05, phase_deg: 200.0 });
        let secondary = chart.ports.iter_mut().find(|port| port.name == "Galamond Quay").unwrap();
        secondary.seasonal_m = levels.clone();
    };
    let gauges = tides(&yearly);
    assert_eq!(
        gauges.gauge("Port Ustorna").unwrap().season(day).unwrap_err().to_string(),
        "the season is already in the heights of Port Ustorna, by its constituent SA; it is not put on \
         twice"
    );
    let secondary = gauges.gauge("Galamond Quay").unwrap();
    assert_eq!(secondary.season(day), Err(SeasonError::Standard("Port Ustorna".to_owned())));
    let gauges = tides(&|chart| {
        yearly(chart);
        chart.ports[0].seasonal_m = vec![0.1; 12];
    });
    let season = gauges.gauge("Galamond Quay").unwrap().season(day).unwrap();
    assert!((season.taken_off.as_metres() - 0.1).abs() < 1e-12);
}

#[test]
fn what_a_chart_is_told_from_is_said_once_for_each_port_that_stands_alone() {
    let on = date(2026, 6, 14);
    assert_eq!(PRACTICE.1.told(on), ["by 11 constants of Port Ustorna, invented"]);
    let tides = Tides::of(&printed_chart(Some(MEANS))).unwrap();
    let told = tides.told(on).remove(0);
    assert!(told.starts_with(
        "by 6 printed high and low waters of Port Ustorna, invented, for 2026-06-13T"
    ));
    assert!(told.ends_with(" alone"), "{told}");
    let narrows = tides.station("Ollillan Narrows").unwrap();
    assert_eq!(tides.goes_by(&Tides::only(narrows)), [0]);
    let axis = tides.stations().iter().position(|it| it.known() == Known::Constants).unwrap();
    assert!(tides.goes_by(&Tides::only(axis)).is_empty());
    // A real place's chart, whose ports state their own source and years.
    let stated = changed(|chart| {
        chart.invented = false;
        chart.ports[0].source = "the port's own survey".to_owned();
        chart.ports[0].years = Some((1998, 2004));
    });
    let stated = stated.unwrap();
    assert_eq!(
        stated.told(on),
        [
            "by 11 constants of Port Ustorna, of 1998 to 2004, 22 years before this date; source: the \
             port's own survey"
        ]
    );
    let secondary = stated.gauge("Galamond Quay").unwrap().said(on);
    assert!(
        secondary.starts_with("by differences on Port Ustorna, source: Made by"),
        "{secondary}"
    );
    assert!(secondary.ends_with("and its 11 constants, of 1998 to 2004, 22 years before this date; source: the port's own survey"), "{secondary}");
}

/// As much across the flood as along it, a quarter of a period later: the stream keeps its rate and goes
/// round the clock to the right.
#[test]
fn a_stream_with_constituents_across_goes_round_the_clock() {
    let m2 = |phase_deg| Constituent { name: "M2".to_owned(), amplitude: 1.0, phase_deg };
    let (constituents, across) = (vec![m2(40.0)], vec![m2(130.0)]);
    let tides = changed(|chart| {
        chart.streams[0].rates = StreamRates::Axis { flood_deg: 20.0, constituents, across };
    })
    .unwrap();
    let from = time("2026-06-14T00:00Z");
    let flows = tides.flows(from, from + SignedDuration::from_hours(13)).unwrap();
    // A quarter of 12.4206 h.
    let quarter = SignedDuration::from_secs(11_179);
    let streams: Vec<_> = (0..5).map(|n| flows.at(&Tides::only(0), from + quarter * n)).collect();
    for pair in streams.windows(2) {
        let (before, after) = (pair[0].unwrap(), pair[1].unwrap());
        assert!((before.drift.as_knots() - after.drift.as_knots()).abs() < 0.002, "{pair:?}");
        let turned = (after.set.as_degrees() - before.set.as_degrees()).rem_euclid(360.0);
        assert!((turned - 90.0).abs() < 0.1, "{turned}");
    }
}
