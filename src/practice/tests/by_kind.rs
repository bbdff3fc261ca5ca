//! The answer of each kind of question, found again from its words by another method.

use super::again::{
    apart, azimuth, clock_after, direct, geodesic, named, numbers, position, signed,
};
use super::walk::walked;
use crate::{Answer, Ground, Kind, Question, Shown};

pub(super) fn found_again(it: &Question, ground: &Ground<'_>) {
    match it.kind {
        Kind::Reference => reference(it, ground),
        Kind::Find => find(it, ground),
        Kind::Figures => figures(it),
        Kind::Letters => letters(it),
        Kind::LatLon => latlon(it, ground),
        Kind::ByEye | Kind::Bearing => bearing(it, ground),
        Kind::Back => assert_eq!(degrees(it), (numbers(&it.text)[0] + 180.0).rem_euclid(360.0)),
        Kind::ToMagnetic | Kind::ToGrid => norths(it),
        Kind::DistanceByEye | Kind::DistanceBySquares => distance(it, ground),
        Kind::AlongShore => shore(it),
        Kind::Time => time(it, ground),
        Kind::Distance => how_far(it, ground),
        Kind::Twelfths => twelfths(it),
        Kind::Rate => rate(it),
        Kind::Heading => heading(it),
        Kind::Fix => fix(it, ground),
        Kind::Where => advance(it, ground),
        Kind::Leave => leave(it),
        Kind::Card => card(it, ground),
    }
}

fn degrees(it: &Question) -> f64 {
    match it.answer {
        Answer::Bearing { degrees, .. } => degrees,
        _ => panic!("{it:?}"),
    }
}

fn value(it: &Question) -> f64 {
    match it.answer {
        Answer::Amount { value, .. } => value,
        _ => panic!("{it:?}"),
    }
}

/// The figures of a coordinate within its square of 100 km, by cutting its digits.
fn cut(metres: f64, figures: usize) -> String {
    let digits = format!("{:05.0}", (metres + 1e-6).floor() % 100_000.0);
    digits[..figures].to_owned()
}

fn reference(it: &Question, ground: &Ground<'_>) {
    let at = named(it, ground)[0].at;
    assert_eq!(it.answer.to_string(), format!("QB {} {}", cut(at.x, 3), cut(at.y, 3)));
}

fn find(it: &Question, ground: &Ground<'_>) {
    let reference = it.text.split(" at ").nth(1).unwrap().split('?').next().unwrap();
    let each = (reference.len() - "QB  ".len()) / 2;
    let stands = |name: &str| {
        let spot = ground.spots().iter().find(|spot| spot.name == name).unwrap();
        format!("QB {} {}", cut(spot.at.x, each), cut(spot.at.y, each)) == reference
    };
    let there: Vec<&str> =
        it.choices.iter().map(|choice| &*choice.text).filter(|name| stands(name)).collect();
    assert_eq!(there, [it.told()]);
}

fn figures(it: &Question) {
    let found = numbers(&it.text);
    let each = [("four-", 2), ("six-", 3), ("eight-", 4)];
    let each = each.iter().find(|(word, _)| it.text.contains(word)).unwrap().1;
    assert_eq!(
        it.answer.to_string(),
        format!("QB {} {}", cut(found[0], each), cut(found[1], each))
    );
}

fn letters(it: &Question) {
    let found = numbers(&it.text);
    let (column, row) = ((found[3] - found[1]) / 1e5, (found[4] - found[2]) / 1e5);
    let rows = &it.given.as_ref().unwrap().rows;
    let letters = &rows[rows.len() - 1 - row as usize][column as usize];
    assert_eq!(it.answer, Answer::Letters(letters.clone()));
}

fn latlon(it: &Question, ground: &Ground<'_>) {
    let Answer::Position(said) = it.answer else { panic!() };
    let (lat, lon) = position(ground.chart, named(it, ground)[0].at);
    assert!((said.lat.as_degrees() - lat).abs() < 1e-8, "{it:?}");
    assert!((said.lon.as_degrees() - lon).abs() < 1e-8, "{it:?}");
}

/// The direction of a straight line on the plane of the grid, which leaves a rhumb line by some hundredths of a degree at most.
fn bearing(it: &Question, ground: &Ground<'_>) {
    let [from, to] = named(it, ground)[..] else { panic!("{it:?}") };
    let plane = (to.at.x - from.at.x).atan2(to.at.y - from.at.y).to_degrees();
    assert!(apart(plane, degrees(it)) < 0.55, "{plane} {it:?}");
}

fn norths(it: &Question) {
    let text = &it.text;
    let (convergence, variation) = if text.contains("of grid north") {
        (0.0, signed(text, "lies "))
    } else if text.contains("prints") {
        let apart = signed(text, "lies ");
        let found = numbers(text.split("prints: variation ").nth(1).unwrap());
        let west = text.contains("′W (");
        let printed = (found[0] + found[1] / 60.0) * if west { -1.0 } else { 1.0 };
        let moved = if text.contains("no change") {
            0.0
        } else {
            let years = found[found.len().min(5) - 1] - found[2];
            let way = if text.contains("west a year") { -1.0 } else { 1.0 };
            // The year now is the number behind the change.
            assert!(years > 0.0, "{found:?}");
            years * found[3] / 60.0 * way
        };
        (apart, ((printed + moved) * 2.0).round() / 2.0)
    } else {
        (signed(text, "lies "), signed(text, "variation is "))
    };
    let given = text
        .split('°')
        .filter_map(|part| part.get(part.len().saturating_sub(3)..)?.parse::<f64>().ok());
    let given = given.collect::<Vec<f64>>().pop().unwrap();
    let right = match it.kind {
        Kind::ToMagnetic => given + convergence - variation,
        _ => given + variation - convergence,
    };
    assert!(apart(right, degrees(it)) <= 0.5, "{right} {it:?}");
}

fn distance(it: &Question, ground: &Ground<'_>) {
    let [from, to] = named(it, ground)[..] else { panic!("{it:?}") };
    let (from, to) = (position(ground.chart, from.at), position(ground.chart, to.at));
    let metres = geodesic(from, to).0;
    let right = if it.text.contains("nautical") { metres / 1852.0 } else { metres / 1000.0 };
    assert!((right - value(it)).abs() < 0.0502, "{right} {it:?}");
}

/// The dividers walked on the plane, whose scale is within 0.05 % of the ground's there.
fn shore(it: &Question) {
    let Shown::Path(line) = &it.drawn[0] else { panic!() };
    let step = if it.text.contains("250 m") { 250.0 } else { 500.0 };
    let right = walked(line, step) / 1000.0;
    assert!((right - value(it)).abs() < 0.06 + 0.02 * right, "{right} {it:?}");
    // From the other end it is another walk: the tolerance lets it pass.
    let back: Vec<_> = line.iter().rev().copied().collect();
    let back = format!("{:.1}", walked(&back, step) / 1000.0);
    assert!(it.mark(&back).unwrap().right, "{back} {it:?}");
}

fn miles_an_hour(text: &str, number: f64) -> f64 {
    if text.contains("km/h") { number / 1.852 } else { number }
}

/// The miles of the leg that is paddled, by its ends on the chart; nothing where it is none of the chart's.
fn leg_of(it: &Question, ground: &Ground<'_>) -> Option<f64> {
    let [from, to] = named(it, ground)[..] else { return None };
    Some(geodesic(position(ground.chart, from.at), position(ground.chart, to.at)).0 / 1852.0)
}

/// The hours that are marked along a way lie where the pace leads in them, to a thousandth of the way.
fn hours_are_marked(it: &Question, hours: f64) {
    let Some(Shown::Line { from, to, .. }) = it.drawn.first() else { return };
    let mut marked = 0;
    for shown in &it.drawn {
        let Shown::Tick { at, label } = shown else { continue };
        let part = (*at - *from).x.hypot((*at - *from).y) / (*to - *from).x.hypot((*to - *from).y);
        match label.strip_suffix(" h") {
            Some(hour) => {
                assert!((part - hour.parse::<f64>().unwrap() / hours).abs() < 1e-3, "{it:?}");
                marked += 1;
            }
            // A tenth of an hour.
            None => assert!(
                (part * hours * 10.0).fract().min(1.0 - (part * hours * 10.0).fract()) < 0.05
            ),
        }
    }
    assert_eq!(marked, (hours - 1e-9).floor() as usize, "{it:?}");
}

fn time(it: &Question, ground: &Ground<'_>) {
    let found = numbers(&it.text);
    let miles = if it.text.contains(" km. ") { found[0] / 1.852 } else { found[0] };
    if let Some(leg) = leg_of(it, ground) {
        assert!((miles - leg).abs() < 0.0502, "{leg} {it:?}");
    }
    let hours = miles / miles_an_hour(&it.text, found[1]);
    let rest = if it.text.contains("rest") { found[2] } else { 0.0 };
    let right = hours * 60.0 * 60.0 / (60.0 - rest);
    assert!((right - value(it)).abs() < 0.501, "{right} {it:?}");
    hours_are_marked(it, right / 60.0);
}

fn how_far(it: &Question, ground: &Ground<'_>) {
    let found = numbers(&it.text);
    let time = it.text.split("get in ").nth(1).unwrap();
    let minutes = match numbers(time)[..] {
        [hours, minutes, ..] => hours * 60.0 + minutes,
        [minutes] => minutes,
        _ => panic!(),
    };
    let miles = miles_an_hour(&it.text, found[0]) * minutes / 60.0;
    let right = if it.text.contains("nautical") { miles } else { miles * 1.852 };
    assert!((right - value(it)).abs() < 0.0501, "{right} {it:?}");
    if let Some(leg) = leg_of(it, ground) {
        // Not beyond the place that is made for; a minute's way for its rounding.
        assert!(miles < leg + 0.08, "{leg} {it:?}");
    }
    hours_are_marked(it, minutes / 60.0);
}

/// The twelfths that are over after so many sixths of the time, and between them in proportion.
fn over(sixths: f64) -> f64 {
    let whole = sixths.floor().min(5.0);
    let sum: [f64; 7] = [0.0, 1.0, 3.0, 6.0, 9.0, 11.0, 12.0];
    sum[whole as usize] + (sum[whole as usize + 1] - sum[whole as usize]) * (sixths - whole)
}

fn twelfths(it: &Question) {
    let text = &it.text;
    let dries =
        if text.contains("dries") { numbers(text.split("dries ").nth(1).unwrap())[0] } else { 0.0 };
    let ahead = if text.contains("UTC+1") { 60 } else { 0 };
    let at = clock_after(text, if ahead == 0 { "tide at " } else { "over it at " }) - ahead;
    let minutes = |row: &Vec<String>| clock_after(&format!("at {}", row[1]), "at ");
    let rows = &it.given.as_ref().unwrap().rows;
    // The table may run over midnight.
    let mut times: Vec<i64> = rows.iter().map(minutes).collect();
    for index in 1..times.len() {
        if times[index] < times[index - 1] {
            times[index] += 24 * 60;
        }
    }
    let at = if at < times[0] { at + 24 * 60 } else { at };
    let index =
        (0..rows.len() - 1).find(|index| (times[*index]..=times[index + 1]).contains(&at)).unwrap();
    let height = |index: usize| numbers(&rows[index][2])[0];
    let sixths = (at - times[index]) as f64 * 6.0 / (times[index + 1] - times[index]) as f64;
    let right = height(index) + (height(index + 1) - height(index)) * over(sixths) / 12.0 - dries;
    assert!((right - value(it)).abs() < 0.0501, "{right} {it:?}");
}

fn rate(it: &Question) {
    let rows = &it.given.as_ref().unwrap().rows;
    let cell = |row: usize, column: usize| numbers(&rows[row][column])[0];
    let range = numbers(it.text.split(" m. It is slack").next().unwrap()).pop().unwrap();
    let part = (range - cell(1, 1)) / (cell(0, 1) - cell(1, 1));
    let greatest = cell(1, 2) + (cell(0, 2) - cell(1, 2)) * part;
    let (at, slack) = (clock_after(&it.text, "run at "), clock_after(&it.text, "slack at "));
    let hours = (at - slack) / 60;
    let right = greatest * [0.0, 0.5, 0.9, 1.0, 0.9, 0.5][hours as usize];
    assert!((right - value(it)).abs() < 0.0501, "{right} {it:?}");
}

/// The triangle by its sides: the root that goes forwards of |k·track − stream| = speed.
fn heading(it: &Question) {
    let found = numbers(it.text.split("You paddle at ").nth(1).unwrap());
    let [speed, track, set, drift] = found[..4] else { panic!() };
    let variation =
        if it.text.contains("variation") { signed(&it.text, "variation of ") } else { 0.0 };
    let unit = |degrees: f64| (degrees.to_radians().sin(), degrees.to_radians().cos());
    let (along, stream) = (unit(track), unit(set));
    let dot = (along.0 * stream.0 + along.1 * stream.1) * drift;
    let over_ground = dot + (dot * dot - drift * drift + speed * speed).sqrt();
    let bow = (along.0 * over_ground - stream.0 * drift, along.1 * over_ground - stream.1 * drift);
    let right = bow.0.atan2(bow.1).to_degrees() - variation;
    assert!(apart(right, degrees(it)) < 0.51, "{right} {it:?}");
}

/// From the answer the marks bear as the question says: to a metre aside of each line.
fn fix(it: &Question, ground: &Ground<'_>) {
    let Answer::Place { at, .. } = it.answer else { panic!() };
    let from = position(ground.chart, at);
    let variation =
        if it.text.contains("variation") { signed(&it.text, "variation of ") } else { 0.0 };
    for mark in named(it, ground) {
        let rest = it.text.split(&format!("{} bears ", mark.name)).nth(1).unwrap();
        let to = position(ground.chart, mark.at);
        let off = apart(azimuth(from, to), numbers(rest)[0] + variation);
        let aside = off.to_radians() * geodesic(from, to).0;
        assert!(aside < 1.0, "{aside} m {it:?}");
    }
}

/// The boat's way and the stream's one after the other, by geodesics. They leave rhumb lines by the square of the way times the
/// latitude's tangent, under 1.2 here, over the Earth's diameter.
fn advance(it: &Question, ground: &Ground<'_>) {
    let text = &it.text;
    // At a station of the chart's, or at something that has a name.
    let station = ground.waters().streams.iter().find(|stream| text.starts_with(&stream.name));
    let from = station.map_or_else(|| named(it, ground)[0].at, |stream| stream.at);
    let found = numbers(text.split("you head ").nth(1).unwrap());
    let variation = if text.contains("variation") { signed(text, "variation of ") } else { 0.0 };
    let minutes = match numbers(text.split("after ").nth(1).unwrap())[..] {
        [hours, minutes] => hours * 60.0 + minutes,
        [minutes] => minutes,
        _ => panic!(),
    };
    let run = |knots: f64| knots * 1852.0 * minutes / 60.0;
    let mut ways = run(found[1]);
    let mut end = direct(position(ground.chart, from), found[0] + variation, ways);
    if let Some(stream) = text.split("stream sets ").nth(1) {
        let stream = numbers(stream);
        ways += run(stream[1]);
        end = direct(end, stream[0], run(stream[1]));
    }
    let Answer::Place { at, .. } = it.answer else { panic!() };
    let off = geodesic(position(ground.chart, at), end).0;
    assert!(off < 1.0 + ways * ways * 1.2 / 12_742e3, "{off} m {it:?}");
}

fn leave(it: &Question) {
    let text = &it.text;
    let miles = numbers(text.split(" NM to ").next().unwrap()).pop().unwrap();
    let wish = if text.contains("slack at ") { "slack at " } else { "mean to be at " };
    let there = clock_after(text, wish);
    let pace = numbers(text.split("You make ").nth(1).unwrap())[0];
    let stream = match text.split("stream of ").nth(1) {
        Some(rest) if text.contains("against you") => -numbers(rest)[0],
        Some(rest) => numbers(rest)[0],
        None => 0.0,
    };
    let stop = text.split("stop for ").nth(1).map_or(0.0, |rest| numbers(rest)[0]);
    let ahead = if text.contains("UTC+1") { 60.0 } else { 0.0 };
    let right = there as f64 + ahead - miles / (pace + stream) * 60.0 - stop;
    let Answer::Clock(said) = it.answer else { panic!() };
    assert!((right - said as f64).abs() < 0.51, "{right} {it:?}");
}

/// Every leg of a card but one holds together, and holds with the chart.
fn card(it: &Question, ground: &Ground<'_>) {
    let text = &it.text;
    let variation = signed(text, "variation of ");
    let leaves = clock_after(text, " at ");
    let pace = numbers(text.split(" kn, ").next().unwrap().rsplit(" at ").next().unwrap())[0];
    let spot = |name: &str| ground.spots().iter().find(|spot| spot.name == name).unwrap();
    let (mut from, mut arrives) = (named(it, ground)[0], leaves);
    let mut wrong = Vec::new();
    for (index, row) in it.given.as_ref().unwrap().rows.iter().enumerate() {
        let to = spot(&row[1]);
        let number = |column: usize| numbers(&row[column])[0];
        let (metres, bearing) =
            geodesic(position(ground.chart, from.at), position(ground.chart, to.at));
        arrives += number(6) as i64;
        let printed = clock_after(&format!("at {}", row[7]), "at ");
        let holds = [
            apart(number(2), bearing) < 0.51,
            apart(number(3), number(2) - variation) < 0.01,
            apart(number(4), number(3) + 180.0) < 0.01,
            (number(5) - metres / 1852.0).abs() < 0.0502,
            (number(6) - number(5) / pace * 60.0).abs() < 0.51,
            printed == arrives % (24 * 60),
        ];
        if holds.contains(&false) {
            wrong.push(index);
        }
        (from, arrives) = (to, printed);
    }
    assert_eq!(Answer::Choice(wrong[0]), it.answer, "{it:#?}");
    assert_eq!(wrong.len(), 1, "{it:#?}");
}

#[test]
fn the_other_methods_are_no_others_than_they_seem() {
    assert_eq!(numbers("At 3.5 kn, 1 h 05."), [3.5, 1.0, 5.0]);
    assert_eq!(signed("a variation of 6° west", "variation of "), -6.0);
    assert_eq!(over(2.5), 4.5);
}
