//! Tests of the deck card.

use nav::{GridPoint, Position};
use plan::Waypoint;
use plan::unrolled::Ground;

use super::*;
use crate::draw::{Mm, Pt};
use crate::pdf;

/// A day on the practice chart.
pub(crate) struct Day {
    pub(crate) chart: Chart,
    pub(crate) coast: Coast,
    pub(crate) tides: Tides,
    pub(crate) route: Route,
}

impl Day {
    /// A route of so many legs about the middle of the chart, points named in turn.
    pub(crate) fn new(legs: usize, names: &[&str]) -> Day {
        let chart = chart::practice().unwrap();
        let coast = Coast::of(&chart);
        let tides = Tides::of(&chart).unwrap();
        let mut route = Route::new(&chart.title);
        route.title = "Round the sound and home by the narrows".to_owned();
        route.departure = Some("2026-06-14T09:30[-02:00]".parse().unwrap());
        for index in 0..=legs {
            // A spiral over the water, whatever lies there: the card is what is tested.
            let turn = index as f64 * 0.9;
            let far = 1200.0 + 160.0 * index as f64;
            let (x, y) = (677_300.0 + far * turn.sin(), 350_000.0 + far * turn.cos());
            let at: Position =
                chart.grid.inverse(GridPoint::from_metres(x, y).unwrap()).unwrap().position;
            let name = names[index % names.len()];
            route.points.push(Waypoint::new(at).named(name));
        }
        Day { chart, coast, tides, route }
    }

    /// The route that the program brings along.
    pub(crate) fn demonstration() -> Day {
        Day { route: plan::demonstration().unwrap(), ..Day::new(0, SHORT) }
    }

    pub(crate) fn plan<'a>(&'a self, passage: Option<(&'a Course, &'a Passage)>) -> Plan<'a> {
        Plan {
            route: &self.route,
            chart: &self.chart,
            coast: &self.coast,
            tides: Some(&self.tides),
            passage,
            profile: None,
        }
    }

    pub(crate) fn course(&self) -> Course {
        let ground = Ground { chart: &self.chart, coast: &self.coast, tides: Some(&self.tides) };
        Course::new(&self.route, &ground)
    }

    pub(crate) fn passage(&self, course: &Course) -> Passage {
        let departs = self.route.departure.as_ref().unwrap().moment().timestamp();
        course.passage(Some(&self.tides), departs, jiff::SignedDuration::from_hours(2)).unwrap()
    }
}

pub(crate) const SHORT: &[&str] =
    &["Savassa Pool", "", "Delovan slip", "Galebra Sands", "Innagan Beach"];
pub(crate) const LONG: &[&str] =
    &["The landing under the old chapel on the north side of the narrows"];
pub(crate) const SCRIPTS: &[&str] =
    &["Ærøskøbing", "Ħal Għaxaq q\u{301}", "חוף השקט", "مرفأ السلام", "Ακτή", "Бухта"];

/// Letters of two columns, of none, and a word without a space that is longer than a line.
const WIDE: &[&str] = &[
    "海峡の北の浜と古い灯台の下の船着き場で昼まで潮を待つところ、そして南の岬",
    "e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}",
    "Abcdefghijklmnopqrstuvwxyzabcdefghijklmnopqrstuvwxyzabcdefghijklmnopqrstuvwxyzabcdefghij",
];

const SIZES: [Size; 3] = [Size::A4, Size::A5, Size::A6];

pub(crate) fn checked(pages: &[Page]) {
    for page in pages {
        let faults = super::fits::faults(page, Mm(4.5));
        assert!(faults.is_empty(), "{faults:#?}");
    }
}

#[test]
fn any_route_fits_its_pages() {
    for legs in [0, 1, 3, 12, 30] {
        for names in [SHORT, LONG, SCRIPTS] {
            let day = Day::new(legs, names);
            let course = day.course();
            let passage = day.passage(&course);
            for size in SIZES {
                for passage in [None, Some((&course, &passage))] {
                    let card = Card { size, ..Card::default() };
                    let pages = card.set(&day.plan(passage)).unwrap();
                    checked(&pages);
                    let all: String = pages
                        .iter()
                        .flat_map(|page| page.texts())
                        .map(|text| text.words.clone() + " ")
                        .collect();
                    let name = day.route.points[legs].name.split(' ').next().unwrap_or_default();
                    assert!(all.contains(name), "{name}");
                }
            }
        }
    }
}

#[test]
fn a_usual_day_takes_the_sides_that_it_should() {
    for (legs, size, sides) in [
        (3, Size::A6, Sides::Two),
        (12, Size::A5, Sides::Two),
        (12, Size::A4, Sides::One),
        (30, Size::A4, Sides::Two),
    ] {
        let day = Day::new(legs, SHORT);
        let card = Card { size, sides, ..Card::default() };
        let pages = card.set(&day.plan(None)).unwrap();
        let most = if sides == Sides::One { 1 } else { 2 };
        assert!(pages.len() <= most, "{legs} {size:?}: {}", pages.len());
    }
}

#[test]
fn a_route_without_points_is_a_card_without_legs() {
    let mut day = Day::new(0, SHORT);
    day.route.points.clear();
    day.route.departure = None;
    checked(&Card::default().set(&day.plan(None)).unwrap());
    let text = Content::of(&day.plan(None)).text();
    assert!(text.contains("Not for navigation"), "{text}");
}

#[test]
fn a_single_point_has_its_surroundings_and_nothing_of_a_way() {
    let day = Day::new(0, SHORT);
    let content = Content::of(&day.plan(None));
    let names: Vec<&str> = content.facts.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["Leave", "Pace", "Light"]);
    assert_eq!(content.notes, [""; 0]);
    let around = around(Some(&day.route), &day.chart.grid).unwrap();
    assert!((around.max().x - around.min().x - 2000.0).abs() < 0.01);
}

#[test]
fn a_crossing_says_that_it_is_on_one_heading_and_how_far_off_it_goes() {
    let day = Day::demonstration();
    let course = day.course();
    let passage = day.passage(&course);
    let content = Content::of(&day.plan(Some((&course, &passage))));
    for (line, made) in content.legs.iter().zip(&passage.legs) {
        let said =
            line.notes.iter().any(|note| note.starts_with("on one heading, at the farthest "));
        assert_eq!(said, made.off_line.is_some(), "{line:?}");
    }
    assert!(passage.legs.iter().any(|made| made.off_line.is_some()));
}

#[test]
fn a_crossing_without_a_departure_says_what_it_needs() {
    let mut day = Day::new(2, SHORT);
    day.route.points[2].steer = plan::Steering::OneHeading;
    let note = |day: &Day| Content::of(&day.plan(None)).legs[1].notes.join("; ");
    assert_eq!(
        note(&day),
        "on one heading: which one is not known, as no stream is told for the day"
    );
    day.route.departure = None;
    assert_eq!(note(&day), "on one heading: which one is known once a departure is set");
    assert_eq!(Content::of(&day.plan(None)).legs[0].notes, [""; 0]);
}

#[test]
fn the_pace_of_a_profile_is_told_by_its_name() {
    use plan::profile::{Profile, Trip, WaterPace, of_pace};
    let day = Day::new(2, SHORT);
    let speed = day.route.pace.speed();
    let hours = jiff::SignedDuration::from_hours;
    let began: jiff::Timestamp = "2026-05-02T09:00:00Z".parse().unwrap();
    let trip = |number: i64, speed| Trip {
        date: jiff::civil::date(2026, 5, 2),
        began: began + hours(24 * number),
        title: String::new(),
        moving: hours(2),
        distance: nav::Length::KILOMETRE,
        over_ground: speed,
        through_water: Some(WaterPace { speed, time: hours(2), spread: speed }),
        wind: None,
    };
    let mut others = Profile::named("Others").unwrap();
    others.keep(trip(0, nav::Speed::from_knots(2.1).unwrap())).unwrap();
    let mut own = Profile::named("Thursdays").unwrap();
    own.keep(trip(0, speed)).unwrap();
    own.keep(trip(1, speed)).unwrap();
    let profiles = [others, own];
    let profile = of_pace(&profiles, day.route.pace);
    let plan = Plan { profile, ..day.plan(None) };
    let facts = Content::of(&plan).facts;
    let pace = facts.iter().find(|(name, _)| name == "Pace").map(|(_, words)| words.as_str());
    let said = format!("{}, as “Thursdays” made on 2 trips", day.route.pace);
    assert_eq!(pace, Some(said.as_str()));
    assert_eq!(of_pace(&profiles[..1], day.route.pace), None);
}

/// What the ways out of a route say, in the order of its stages.
fn ways(day: &Day) -> Vec<WayOut> {
    Content::of(&day.plan(None)).ways_out
}

/// The kilometres of a way.
fn kilometres(lies: &Lies) -> Option<f64> {
    match lies {
        Lies::Way { distance, .. } => distance.strip_suffix(" km")?.parse().ok(),
        _ => None,
    }
}

#[test]
fn no_way_out_is_shorter_than_the_straight_line() {
    let mut round = 0;
    for day in to_look_at().map(|(_, day)| day) {
        for way in ways(&day) {
            let landing = day.chart.landings.iter().find(|it| it.name == way.name).unwrap();
            let landing = day.chart.position(landing.at).unwrap();
            let (first, last) = way.stage.split_once('–').unwrap();
            for (number, lies) in [(first, &way.from_first), (last, &way.from_last)] {
                let from = day.route.points[number.parse::<usize>().unwrap() - 1].at;
                let straight = nav::rhumb::inverse(from, landing);
                let Some(by_water) = kilometres(lies) else { continue };
                let by_eye = nav::text::kilometres(straight.distance);
                let by_eye: f64 = by_eye.strip_suffix(" km").unwrap().parse().unwrap();
                assert!(by_water >= by_eye, "{way:?}: {by_eye} km straight");
                match lies {
                    Lies::Way { round: true, .. } => round += 1,
                    // A beach may lie beside the line.
                    _ => assert!(by_water < by_eye + 0.11, "{way:?}: {by_eye} km straight"),
                }
            }
        }
    }
    assert!(round > 10, "{round}");
}

#[test]
fn a_point_well_ashore_has_no_way_out() {
    let mut day = Day::new(1, SHORT);
    let land =
        |at: &chart::Point| day.coast.on_land(*at) && day.coast.nearest(*at, 300.0).is_none();
    let spots = (0..40_000).map(|n| chart::Point {
        x: 665_000.0 + f64::from(n % 200) * 125.0,
        y: 340_000.0 + f64::from(n / 200) * 125.0,
    });
    let inland: Vec<chart::Point> = spots.filter(land).take(1).collect();
    let at = day.chart.position(inland[0]).unwrap();
    day.route.points = vec![Waypoint::new(at), Waypoint::new(at)];
    let content = Content::of(&day.plan(None));
    let way = &content.ways_out[0];
    assert_eq!((&way.from_first, way.off.as_str()), (&Lies::Nowhere, "no way"));
    assert!(content.ways_legend().contains("lies on land, or none was found by water"));
    assert!(content.text().contains("from point 1: no way"), "{}", content.text());
}

#[test]
fn along_a_shore_no_single_heading_is_told() {
    let mut day = Day::new(2, SHORT);
    let from = day.route.points[0].at;
    let bend = nav::rhumb::direct(from, nav::Bearing::NORTH, nav::Length::KILOMETRE).unwrap();
    let line = plan::Line::new([bend]).unwrap();
    let none = nav::Length::ZERO;
    day.route.points[1].along = Some(plan::Along::new(line, &[], none, none));
    let course = day.course();
    let passage = day.passage(&course);
    let content = Content::of(&day.plan(Some((&course, &passage))));
    assert_eq!(content.legs[0].steer, "");
    let note = content.legs[0].notes.iter().find(|note| note.starts_with("steer "));
    assert!(note.is_some_and(|note| note.contains("°M at its start, ")), "{:?}", content.legs[0]);
    assert_ne!(content.legs[1].steer, "");
}

#[test]
fn each_side_says_which_it_is_and_of_what_and_no_leg_is_parted() {
    let day = Day::new(30, LONG);
    let course = day.course();
    let passage = day.passage(&course);
    let pages = Card::default().set(&day.plan(Some((&course, &passage)))).unwrap();
    assert!(pages.len() > 2);
    let content = Content::of(&day.plan(Some((&course, &passage))));
    let words: Vec<Vec<&str>> = pages
        .iter()
        .map(|page| page.texts().iter().map(|text| text.words.as_str()).collect())
        .collect();
    for (index, page) in words.iter().enumerate() {
        let number = format!("side {} of {}", index + 1, pages.len());
        assert!(page.contains(&number.as_str()), "{page:?}");
        let all = page.join(" ");
        for said in [day.route.title.as_str(), "Not for navigation", "no such place"] {
            assert!(all.contains(said), "{said}: {all}");
        }
    }
    // What belongs to a leg stands on one side: its clock time and its reference.
    let bare = |words: &str| words.split_whitespace().collect::<String>();
    for PointLine { clock, reference, .. } in content.legs.iter().map(|leg| &leg.to) {
        // The letters of the square may stand over the table, for all of them.
        let reference = reference.trim_start_matches(|c: char| !c.is_ascii_digit());
        // A point that the passage does not come to has no clock time.
        let on = words.iter().filter(|page| clock.is_empty() || page.contains(&clock.as_str()));
        let whole = on.map(|page| bare(&page.concat())).any(|all| all.contains(&bare(reference)));
        assert!(whole, "{clock} {reference}");
    }
    assert!(content.legs.iter().filter(|leg| !leg.to.clock.is_empty()).count() > 9);
}

#[test]
fn a_short_route_is_set_large() {
    let day = Day::new(3, SHORT);
    let card = Card { size: Size::A4, ..Card::default() };
    let pages = card.set(&day.plan(None)).unwrap();
    let texts = pages.iter().flat_map(|page| page.texts());
    let clock = texts.filter(|text| text.words == "09:30").map(|text| text.size);
    assert!(clock.fold(Pt::ZERO, Pt::max) >= Pt(11.0));
}

#[test]
fn a_card_in_plain_text() {
    let mut day = Day::new(3, SHORT);
    day.route.points[1].stop = jiff::SignedDuration::from_mins(20);
    day.route.points[2].note = "Ask at the slip before landing.".to_owned();
    let course = day.course();
    let passage = day.passage(&course);
    let text = Content::of(&day.plan(Some((&course, &passage)))).text();
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path(concat!(env!("CARGO_MANIFEST_DIR"), "/../../snapshots"));
    settings.set_prepend_module_to_snapshot(false);
    settings.bind(|| {
        insta::assert_snapshot!("card-in-text", text);
        insta::assert_snapshot!("card-in-markdown", Content::of(&day.plan(None)).markdown());
    });
}

#[test]
fn no_line_of_plain_text_is_over_eighty_columns() {
    use unicode_width::UnicodeWidthStr;
    for names in [SHORT, LONG, SCRIPTS, WIDE] {
        let text = Content::of(&Day::new(30, names).plan(None)).text();
        assert!(text.lines().all(|line| line.width() <= 80), "{text}");
        assert!(text.contains("no such place") && text.contains("Not for navigation"));
    }
}

#[test]
fn nothing_in_a_name_is_a_sign_of_markdown() {
    let day = Day::new(2, &["A|B *c* <b> [d](e) #1", "`x` ~y~ _z_ \\ & !"]);
    let text = Content::of(&day.plan(None)).markdown();
    assert!(text.contains(r"\`x\` \~y\~ \_z\_ \\ &amp; !"), "{text}");
    // A bar in a name parts no cells: every row of a table has as many as its head.
    let bars = |line: &str| line.replace(r"\|", "").matches('|').count();
    for table in text.split("\n\n").filter(|part| part.starts_with('|')) {
        let head = bars(table.lines().next().unwrap());
        assert!(table.lines().all(|line| bars(line) == head), "{table}");
    }
    assert!(text.contains(r"A\|B \*c\* &lt;b&gt; \[d\](e) \#1"), "{text}");
}

/// Days of many kinds, for a look by eye.
pub(crate) fn to_look_at() -> [(&'static str, Day); 6] {
    [
        ("3", Day::new(3, SHORT)),
        ("12", Day::new(12, SHORT)),
        ("30", Day::new(30, SHORT)),
        ("long", Day::new(6, LONG)),
        ("scripts", Day::new(12, SCRIPTS)),
        ("demonstration", Day::demonstration()),
    ]
}

/// For a look by eye.
#[test]
#[ignore = "writes files to look at"]
fn show() {
    for (name, day) in to_look_at() {
        let course = day.course();
        let passage = day.passage(&course);
        for size in SIZES {
            let card = Card { size, ..Card::default() };
            for (kind, passage) in [("", None), ("-stream", Some((&course, &passage)))] {
                let pages = card.set(&day.plan(passage)).unwrap();
                let about = pdf::About { title: &day.route.title, made: None };
                let set = pdf::write(&pages, &about);
                crate::tests::show(&format!("card-{name}-{size:?}{kind}.pdf"), &set.bytes);
                if name == "demonstration" {
                    let svg = crate::svg::write(&pages[0], &day.route.title);
                    crate::tests::show(&format!("card-{size:?}{kind}.svg"), svg.as_bytes());
                    let png = crate::png::write(&pages[0], 110.0).unwrap();
                    crate::tests::show(&format!("card-{size:?}{kind}.png"), &png);
                }
            }
        }
    }
}
