//! Verdicts, groups and strips of starts made by hand.

use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::passage::Times;
use nav::{Length, Position, Speed};
use proptest::prelude::*;
use rstest::rstest;

use super::judge::Judge;
use super::starts::Day;
use super::*;
use crate::course::{Brief, BriefLeg};
use crate::passage::{HaltWhy, Halted, RaceMet, WaitFor};
use crate::{Limits, RaceState};

const LAUNCH: (f64, f64) = (57.0, -2.0);

fn day_start() -> Timestamp {
    "2026-06-14T00:00Z".parse().unwrap()
}

fn mins(minutes: i64) -> SignedDuration {
    SignedDuration::from_mins(minutes)
}

fn place((lat, lon): (f64, f64)) -> Position {
    Position::from_degrees(lat, lon).unwrap()
}

/// A passage of so long on one leg, without a stream.
fn walked(at: Timestamp, took: SignedDuration) -> Start {
    let arrives = at + took;
    let leg = BriefLeg {
        waited: mins(0),
        waited_for: None,
        departs: at,
        arrives,
        times: Times::default(),
        greatest: None,
        races: Vec::new(),
        gates: Vec::new(),
    };
    walk::start(Brief { departs: at, legs: vec![leg], halt: None })
}

/// The same with its leg changed.
fn with(start: Start, change: impl FnOnce(BriefLeg) -> BriefLeg) -> Start {
    let mut legs = start.legs;
    let leg = change(legs.remove(0));
    Start { legs: vec![leg], ..start }
}

fn day_at(
    day: Date,
    zone: &str,
    every: i64,
    limits: Limits,
    walk: impl Fn(Timestamp) -> Start,
) -> Starts {
    let zone = TimeZone::get(zone).unwrap();
    let (from, to) = civil_day(day, &zone).unwrap();
    let light = Lights::over(place(LAUNCH), from, to + mins(48 * 60)).unwrap();
    let judge = Judge { limits, launch: light.clone(), landing: light, tide: None };
    let every = Every::minutes(every).unwrap();
    Day { date: day, from, to, every, zone, port: None, waters: Vec::new(), gate: None }
        .judged(&judge, walk)
}

fn any_light() -> Limits {
    Limits { light_left: None, ..Limits::default() }
}

/// Longest at midnight and noon, shortest at six and eighteen.
fn by_the_tide(at: Timestamp) -> Start {
    let hours = (at.as_second() % 43_200) as f64 / 3600.0;
    let part = (hours / 12.0 * std::f64::consts::TAU).cos();
    walked(at, SignedDuration::from_secs_f64(7200.0 + 3600.0 * part))
}

#[test]
fn the_best_is_the_quickest_and_slow_is_a_quarter_longer() {
    let day = day_at(date(2026, 6, 14), "UTC", 10, any_light(), by_the_tide);
    assert_eq!(day.starts.len(), 144);
    // One hour at 06:00; 05:50 is 14 s longer, which is as good, and 05:40 54 s.
    let best = day.best().unwrap();
    assert_eq!((best.at - day.from).as_mins(), 350);
    // Of the two tides of the day the first is taken, and the latest is the day's last.
    assert_eq!(day.latest, Some(143));
    let slowest = day.slowest().unwrap().landing.unwrap();
    assert_eq!(slowest.took.as_mins(), 180);
    for start in &day.starts {
        let took = start.landing.unwrap().took.as_secs_f64();
        let (verdict, reasons) =
            if took > 4500.0 { (Verdict::Slow, 1) } else { (Verdict::Good, 0) };
        assert_eq!((start.verdict, start.reasons.len()), (verdict, reasons), "{took}");
    }
}

#[rstest]
#[case(date(2026, 3, 29), 23)]
#[case(date(2026, 10, 25), 25)]
#[case(date(2026, 6, 14), 24)]
fn a_day_has_as_many_hours_as_its_clock(#[case] day: Date, #[case] hours: usize) {
    let day = day_at(day, "Europe/London", 10, any_light(), by_the_tide);
    assert_eq!(day.starts.len(), 6 * hours);
    let strip = Strip::of(&day, mins(20));
    assert_eq!(strip.cells.len(), 3 * hours);
    let hours: Vec<String> = strip.hours(3).into_iter().map(|(_, hour)| hour).collect();
    assert_eq!(hours, ["00", "03", "06", "09", "12", "15", "18", "21"]);
    assert!(strip.cells.windows(2).all(|pair| pair[0].to == pair[1].from));
}

#[test]
fn a_day_that_a_zone_left_out_is_no_day() {
    let apia = TimeZone::get("Pacific/Apia").unwrap();
    let wanted = "there is no 2011-12-30 in this zone: its clocks go from the day before to the day \
                  after";
    assert_eq!(civil_day(date(2011, 12, 30), &apia).unwrap_err().to_string(), wanted);
}

#[rstest]
#[case(0)]
#[case(-10)]
#[case(1441)]
#[case(i64::MAX)]
fn a_start_comes_every_minute_or_once_a_day(#[case] minutes: i64) {
    let wanted =
        format!("a start every {minutes} min is not within every minute and every 1440 min");
    assert_eq!(Every::minutes(minutes).unwrap_err().to_string(), wanted);
    assert!(Every::minutes(1).is_ok() && Every::minutes(1440).is_ok());
}

proptest! {
    #[test]
    fn best_and_latest_are_what_they_are_called(
        took in prop::collection::vec(30i64..400, 24),
        wait in prop::collection::vec(0i64..120, 24),
        slow in 1u16..100,
    ) {
        let limits = Limits {
            longest_day: Some(mins(300)),
            slow_percent: slow,
            ..any_light()
        };
        let walk = |at: Timestamp| {
            let hour = (at.as_second() / 3600 % 24) as usize;
            with(walked(at, mins(took[hour])), |leg| BriefLeg {
                waited: mins(wait[hour]),
                waited_for: Some(WaitFor::Stream),
                ..leg
            })
        };
        let day = day_at(date(2026, 6, 14), "UTC", 60, limits, walk);
        for (index, start) in day.starts.iter().enumerate() {
            let within = took[index] <= 300;
            prop_assert_eq!(start.verdict.is_acceptable(), within);
            prop_assert_eq!(start.reasons.is_empty(), start.verdict == Verdict::Good);
            prop_assert!(start.reasons.is_sorted_by_key(Reason::kind));
            if within {
                let best = took[day.best.unwrap()];
                prop_assert!(best < took[index] || (best == took[index] && day.best <= Some(index)));
                prop_assert!(Some(index) <= day.latest);
                let is_slow = start.reasons.iter().any(|it| it.kind() == Kind::Slow);
                prop_assert_eq!(is_slow, took[index] * 100 > best * i64::from(100 + slow));
                prop_assert_eq!(start.verdict == Verdict::HeldUp, wait[index] > 0);
            }
        }
        prop_assert_eq!(day.best.is_none(), day.latest.is_none());
        prop_assert!(day.best <= day.latest);
        // The groups are the starts.
        let groups = day.groups();
        prop_assert_eq!(groups.iter().map(|group| group.count).sum::<usize>(), 24);
        prop_assert!(groups.windows(2).all(|pair| pair[0].to < pair[1].from));
    }
}

#[test]
fn a_start_is_refused_for_all_that_is_wrong_the_weightiest_first() {
    let tumble = |from: Timestamp, state| RaceMet {
        name: "Quelild Tumble".into(),
        race: 0,
        from,
        to: from + mins(25),
        state: Some(state),
    };
    let limits = Limits {
        greatest_drift: Some(Speed::from_knots(3.0).unwrap()),
        longest_day: Some(mins(60)),
        ..Limits::default()
    };
    let shut = |leg| Halted {
        leg,
        ready: day_start(),
        at: day_start(),
        place: place(LAUNCH),
        along: Length::ZERO,
        waits: mins(60),
        why: HaltWhy::Shut { gate: "The Gates".into(), opens: Some(day_start() + mins(130)) },
    };
    let walk = |at: Timestamp| {
        let start = with(walked(at, mins(200)), |leg| BriefLeg {
            greatest: Some(Speed::from_knots(3.4).unwrap()),
            races: vec![
                tumble(at + mins(40), RaceState::Worst),
                tumble(at + mins(90), RaceState::Running),
            ],
            ..leg
        });
        let halted = walk::start(Brief { departs: at, legs: Vec::new(), halt: Some(shut(1)) });
        Start { reasons: halted.reasons, ..start }
    };
    let day = day_at(date(2026, 6, 14), "UTC", 60, limits, walk);
    let words = |hour: usize| {
        let reasons = day.starts[hour].reasons.iter();
        reasons.map(|reason| reason.words(&day.zone)).collect::<Vec<_>>()
    };
    assert_eq!(
        words(12),
        [
            "meets Quelild Tumble at its worst, 12:40 to 13:05",
            "The Gates shut, would wait 2 h 10, 00:00",
            "water of 3.4 kn on leg 1",
            "a day of 3 h 20",
        ]
    );
    let sun = nav::sun::day(place(LAUNCH), date(2026, 6, 14)).unwrap();
    let start = |hour: i64| day.from + mins(hour * 60);
    let long = nav::text::duration;
    let after = long(start(19) + mins(200) - sun.dusk.unwrap());
    assert_eq!(words(19)[2], format!("lands {after} after the end of civil twilight"));
    let before = long(sun.dusk.unwrap() - (start(18) + mins(200)));
    let wanted = format!("lands {before} before the end of civil twilight, 1 h 00 wanted");
    assert_eq!(words(18)[2], wanted);
    let before = long(sun.dawn.unwrap() - start(1));
    assert_eq!(words(1)[2], format!("leaves {before} before civil twilight begins"));
    assert!(day.best().is_none() && day.latest().is_none());
    let strip = Strip::of(&day, mins(20));
    assert!(strip.cells.iter().all(|cell| cell.verdict == Verdict::Refused));
    assert!(strip.cells.iter().all(|cell| cell.mark() == Some('r')));
}

#[test]
fn alike_starts_are_grouped_with_their_worst_figures() {
    let walk = |at: Timestamp| walked(at, mins(300 + at.as_second() / 60 % 60));
    let limits = Limits { longest_day: Some(mins(200)), ..any_light() };
    let day = day_at(date(2026, 6, 14), "UTC", 10, limits, walk);
    let groups = day.groups();
    assert_eq!((groups.len(), groups[0].count), (1, 144));
    assert_eq!(groups[0].words(&day.zone), "a day of up to 5 h 50");
}

#[test]
fn a_cell_shows_the_worst_start_that_stands_for_a_part_of_it() {
    let refused =
        |at: Timestamp| walked(at, mins(if at.as_second() % 3600 == 0 { 900 } else { 60 }));
    let limits = Limits { longest_day: Some(mins(200)), ..any_light() };
    let day = day_at(date(2026, 6, 14), "UTC", 30, limits, refused);
    let verdicts = |slice| {
        let cells = Strip::of(&day, mins(slice)).cells;
        cells[..6].iter().map(|cell| cell.verdict.ascii()).collect::<String>()
    };
    assert_eq!(verdicts(10), "...###");
    assert_eq!(verdicts(20), "..#..#");
    assert_eq!(verdicts(60), "......");
    let cells = Strip::of(&day, mins(10)).cells;
    assert_eq!(cells.iter().filter(|cell| cell.best).count(), 1);
    assert_eq!(cells.iter().position(|cell| cell.best), Some(3));
    assert_eq!(cells.iter().position(|cell| cell.latest), Some(141));
}

#[test]
fn a_passage_of_more_than_two_days_never_lands() {
    let day = day_at(date(2026, 6, 14), "UTC", 720, any_light(), |at| walked(at, mins(2881)));
    let words: Vec<String> =
        day.starts[0].reasons.iter().map(|reason| reason.words(&day.zone)).collect();
    assert_eq!(words, ["has not landed after 48 h 00"]);
    assert!(day.starts.iter().all(|start| start.landing.is_none()));
    assert_eq!((day.best, day.latest), (None, None));
}

#[rstest]
#[case(date(2026, 6, 14), Light::AllDay, None)]
#[case(date(2026, 12, 14), Light::NoDay, Some(Dark::AllDay))]
fn far_north_there_may_be_no_night_and_no_day(
    #[case] day: Date,
    #[case] light: Light,
    #[case] dark: Option<Dark>,
) {
    let (from, to) = civil_day(day, &TimeZone::UTC).unwrap();
    let lights = Lights::over(place((78.0, 15.0)), from, to).unwrap();
    let noon = from + mins(720);
    assert_eq!((lights.at(noon), lights.dark(noon)), (light, dark));
    let sky = if dark.is_some() { Sky::Dark } else { Sky::Day };
    assert_eq!(lights.sky(noon), sky);
    assert_eq!(lights.twilights(from, to).count(), 0);
}

#[test]
fn a_night_is_told_by_its_nearer_end() {
    let (from, to) = civil_day(date(2026, 3, 20), &TimeZone::UTC).unwrap();
    let lights = Lights::over(place(LAUNCH), from, to).unwrap();
    let [dawn, dusk] = {
        let mut both = lights.twilights(from, to);
        [both.next().unwrap().at, both.next().unwrap().at]
    };
    assert_eq!(lights.dark(dawn - mins(30)), Some(Dark::Before(mins(30))));
    assert_eq!(lights.dark(dusk + mins(30)), Some(Dark::After(mins(30))));
    assert_eq!(lights.dark(dawn + mins(30)), None);
    assert_eq!(lights.at(dusk - mins(30)), Light::Left(mins(30)));
    assert!(matches!(lights.at(dawn - mins(30)), Light::Gone(_)));
}
