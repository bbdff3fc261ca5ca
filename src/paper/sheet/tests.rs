//! Tests of the sheet for the contact ashore.

use jiff::SignedDuration;
use nav::text::AngleForm;
use unicode_width::UnicodeWidthStr;

use super::told::Told;
use super::*;
use crate::card::tests::{Day, LONG, SCRIPTS, SHORT, checked, to_look_at};
use crate::leaflet::Paper;

fn people() -> People {
    let person = |name: &str, clothing: &str| Person {
        name: name.into(),
        clothing: clothing.into(),
        ..Person::default()
    };
    let boat = |kind: &str, colours: &str, crew: Vec<Person>| Boat {
        kind: kind.into(),
        colours: colours.into(),
        crew,
    };
    People {
        group: "Thursday evening group".into(),
        boats: vec![
            boat(
                "single sea kayak",
                "yellow deck, white hull",
                vec![person("Aino Example", "red jacket")],
            ),
            boat(
                "double sea kayak",
                "orange",
                vec![person("Cleo Sample", "purple jacket"), person("Dov Instance", "")],
            ),
        ],
        kit: vec![
            Carried { what: Kit::Radio, details: "two, handheld".into() },
            Carried { what: Kit::TowLine, details: String::new() },
        ],
        experience: "several seasons".into(),
        contact: Contact { name: "Edda Placeholder".into(), ..Contact::default() },
        vehicles: vec![Vehicle { what: "blue van".into(), parked: "the slip".into() }],
        ..People::default()
    }
}

/// A sheet as text, of a day with its passage or without.
fn text(day: &Day, with_passage: bool, sheet: &Sheet, people: Option<&People>) -> String {
    let course = day.course();
    let passage = with_passage.then(|| day.passage(&course));
    let passage = passage.as_ref().map(|passage| (&course, passage));
    sheet.leaflet(&day.plan(passage), people).text()
}

#[test]
fn a_sheet_in_plain_text() {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path(concat!(env!("CARGO_MANIFEST_DIR"), "/../../snapshots"));
    settings.set_prepend_module_to_snapshot(false);
    let day = Day::demonstration();
    let mut undated = Day::new(3, SHORT);
    undated.route.departure = None;
    settings.bind(|| {
        insta::assert_snapshot!(
            "sheet-in-text",
            text(&day, true, &Sheet::default(), Some(&people()))
        );
        insta::assert_snapshot!("sheet-undated", text(&undated, false, &Sheet::default(), None));
        let leaflet = Sheet::default().leaflet(&day.plan(None), Some(&people()));
        insta::assert_snapshot!("sheet-in-markdown", leaflet.markdown());
    });
}

#[test]
fn any_route_fits_its_pages() {
    for legs in [0, 1, 3, 30] {
        for names in [SHORT, LONG, SCRIPTS] {
            let mut day = Day::new(legs, names);
            let course = day.course();
            let passage = day.passage(&course);
            let mut crowd = people();
            crowd.boats[0].crew[0].name = names[0].to_owned();
            let group = [None, Some(&crowd)];
            for paper in [Paper::A4, Paper::A5] {
                for passage in [None, Some((&course, &passage))] {
                    let leaflet = Sheet::default().leaflet(&day.plan(passage), group[legs % 2]);
                    checked(&leaflet.set(&paper).unwrap());
                    assert!(leaflet.text().lines().all(|line| line.width() <= 80));
                }
            }
            day.route.departure = None;
            let bare = Plan { tides: None, ..day.plan(None) };
            let leaflet = Sheet::default().leaflet(&bare, None);
            checked(&leaflet.set(&Paper::A5).unwrap());
            assert!(leaflet.text().contains("Not for navigation"));
        }
    }
}

#[test]
fn a_route_without_points_still_says_what_to_do() {
    let mut day = Day::new(0, SHORT);
    day.route.points.clear();
    let leaflet = Sheet::default().leaflet(&day.plan(None), None);
    checked(&leaflet.set(&Paper::A4).unwrap());
    assert!(leaflet.text().contains("The route has no leg yet"));
}

#[test]
fn the_order_is_that_of_the_published_lists() {
    let day = Day::new(3, SHORT);
    let (plan, sheet) = (day.plan(None), Sheet::default());
    let told = Told::new(&plan, None, &sheet);
    let ours: Vec<&str> = alarm::asked(&told).into_iter().map(|(asked, _)| asked).collect();
    let text = include_str!("../../../tests/data/alarm/order.csv");
    let mut before: Option<(String, usize)> = None;
    let mut rows = 0;
    for line in text.lines().filter(|line| !line.starts_with('#')).skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let (source, ordered, row) = (cells[0], cells[1], cells[cells.len() - 1]);
        let at = ours.iter().position(|asked| *asked == row);
        let at = at.unwrap_or_else(|| panic!("{line}: no such row on the sheet"));
        if ordered == "yes" {
            if let Some((last, was)) = before.as_ref().filter(|(last, _)| last == source) {
                assert!(at > *was, "{line}: the sheet asks this before what {last} has first");
            }
            before = Some((source.to_owned(), at));
        }
        rows += 1;
    }
    assert_eq!(rows, 30);
}

#[test]
fn the_alarm_is_the_time_ashore_and_the_margin() {
    let day = Day::demonstration();
    let course = day.course();
    let passage = day.passage(&course);
    let arrives = passage.arrives().unwrap().to_zoned_datetime(course.zone().clone());
    let clock = |at: &jiff::ZonedDateTime| nav::text::clock(at);
    for minutes in [0, 60, 95] {
        let overdue = SignedDuration::from_mins(minutes);
        let said = text(&day, true, &Sheet { overdue, ..Sheet::default() }, None);
        let table = said.split("Who goes").next().unwrap();
        assert!(table.contains(&format!("{} on", clock(&arrives))), "{table}");
        let alarm = arrives.checked_add(overdue).unwrap();
        assert!(table.contains(&format!("{} on", clock(&alarm))), "{table}");
    }
}

#[test]
fn by_the_pace_alone_the_times_are_those_of_the_readings() {
    for legs in [1, 3, 12] {
        let mut day = Day::new(legs, SHORT);
        day.route.points[legs / 2].stop = SignedDuration::from_mins(25);
        day.route.pace = day.route.pace.with_rest_per_hour(SignedDuration::from_mins(10)).unwrap();
        let plan = day.plan(None);
        let schedule = schedule::Schedule::of(&plan).unwrap();
        let reckoning = plan::reckon(&day.route, &day.chart.grid);
        for point in 1..=legs {
            let read = reckoning.points[point].arrives.as_ref().unwrap().timestamp();
            let off = schedule.reached(point).unwrap().duration_since(read).as_secs_f64();
            assert!(off.abs() < 1.0, "{point} of {legs}: {off} s");
        }
    }
}

#[test]
fn places_by_the_clock_lie_on_the_way_at_whole_steps() {
    let day = Day::demonstration();
    let course = day.course();
    let passage = day.passage(&course);
    let plan = day.plan(Some((&course, &passage)));
    let schedule = schedule::Schedule::of(&plan).unwrap();
    // The day is short: every half hour.
    let step = SignedDuration::from_mins(30);
    assert_eq!(schedule.step(), step);
    let spells = schedule.spells();
    assert!(spells.len() > 4);
    for pair in spells.windows(2) {
        assert_eq!(pair[1].when.duration_since(pair[0].when), step);
    }
    for spell in &spells {
        let local = spell.when.to_zoned_datetime(course.zone().clone());
        assert_eq!((local.minute() % 30, local.second()), (0, 0));
        assert_eq!(passage.at(spell.when), Some(spell.at));
    }
    let (first, last) = (spells[0].when, spells[spells.len() - 1].when);
    assert!(first > passage.departs && first.duration_since(passage.departs) <= step);
    assert!(passage.ends().duration_since(last) < step);
}

#[test]
fn a_long_day_keeps_to_a_page_of_places() {
    let mut day = Day::new(30, SHORT);
    day.route.points[4].stop = SignedDuration::from_hours(40);
    day.route.departure = Some("2026-06-14T09:30[-02:30]".parse().unwrap());
    let plan = day.plan(None);
    let schedule = schedule::Schedule::of(&plan).unwrap();
    let spells = schedule.spells();
    assert!((6..=25).contains(&spells.len()), "{}", spells.len());
    for spell in &spells {
        assert!(schedule.words(spell.when).ends_with(":00"), "a whole hour of that clock");
    }
    let late = schedule.words(schedule.arrives().unwrap());
    assert!(late.starts_with("Tue ") || late.starts_with("Mon "), "the day is said: {late}");
    assert!(spells.iter().any(|spell| matches!(spell.doing, schedule::Doing::Stays(4))));
}

#[test]
fn of_a_passage_that_does_not_arrive_no_time_is_given() {
    let mut day = Day::demonstration();
    // A pace at which the stream in the narrows is too fast, and no patience.
    day.route.pace = "1 kn".parse().unwrap();
    let course = day.course();
    let departs = day.route.departure.as_ref().unwrap().moment().timestamp();
    let passage = course.passage(Some(&day.tides), departs, SignedDuration::ZERO).unwrap();
    assert!(passage.halt.is_some());
    let said = Sheet::default().leaflet(&day.plan(Some((&course, &passage))), None).text();
    let said: String = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("the passage does not arrive"), "{said}");
    assert!(said.contains("nothing is known"), "{said}");
    let worry = said.split("Who goes").next().unwrap();
    assert_eq!(worry.matches(" on Sunday").count(), 1, "the launch alone has a time: {worry}");
}

#[test]
fn nothing_is_called_what_it_is_not_and_no_number_is_made_up() {
    let day = Day::demonstration();
    for people in [None, Some(&people())] {
        let said = text(&day, true, &Sheet::default(), people).to_lowercase();
        assert!(!said.contains("safe"), "{said}");
        for number in ["112", "999", "911", "+44", "000 "] {
            assert!(!said.split_whitespace().any(|word| word == number), "{number}");
        }
        assert!(said.contains("look up the local number"));
    }
}

#[test]
fn positions_are_written_as_asked() {
    let day = Day::demonstration();
    let first = day.route.points[0].at;
    for form in AngleForm::ALL {
        let said = text(&day, true, &Sheet { form, ..Sheet::default() }, None);
        let style = plan::table::Style::new(nav::Figures::Six, form).angles;
        let latitude = nav::text::latitude(first.lat, style);
        assert!(said.contains(&latitude), "{latitude}");
    }
}

#[test]
fn the_bearing_is_from_the_named_place_to_the_group() {
    let day = Day::demonstration();
    let plan = day.plan(None);
    let places = place::Places::new(&plan, AngleForm::default());
    let landing = &day.chart.landings[0];
    let at = nav::GridPoint::from_metres(landing.at.x, landing.at.y).unwrap();
    let at = day.chart.grid.inverse(at).unwrap().position;
    assert_eq!(places.place(at).from, format!("at {}", landing.name));
    // A fifth of a mile to the north: no other named place is as near.
    let north =
        nav::rhumb::direct(at, nav::Bearing::NORTH, 0.2 * nav::Length::NAUTICAL_MILE).unwrap();
    assert_eq!(places.place(north).from, format!("0.2 NM 000°T from {}", landing.name));
}

/// For a look by eye.
#[test]
#[ignore = "writes files to look at"]
fn show() {
    for (name, day) in to_look_at() {
        let course = day.course();
        let passage = day.passage(&course);
        let plan = day.plan(Some((&course, &passage)));
        for (size, paper) in [("A4", Paper::A4), ("A5", Paper::A5)] {
            for (kind, people) in [("", None), ("-people", Some(&people()))] {
                let leaflet = Sheet::default().leaflet(&plan, people);
                let about = crate::pdf::About { title: &leaflet.title, made: None };
                let set = crate::pdf::write(&leaflet.set(&paper).unwrap(), &about);
                crate::tests::show(&format!("sheet-{name}-{size}{kind}.pdf"), &set.bytes);
            }
        }
    }
}
