//! A route card with one wrong entry.

use nav::{Bearing, Pace, True, Variation};

use super::{Throw, leg, pace};
use crate::ground::Spot;
use crate::words::{clock, plain, whole};
use crate::{Answer, Choice, MistakeKind, Question, Shown, Table, Tolerance};

/// A leg as a card has it.
#[derive(Debug, Clone)]
struct Entry {
    to: String,
    from_true: i64,
    magnetic: i64,
    back: i64,
    tenths_of_mile: i64,
    minutes: i64,
}

/// What holds for the whole card.
struct Day {
    /// Degrees, east positive.
    variation: i64,
    pace: Pace,
    leaves: i64,
}

/// Which leg of this card is wrong?
pub(super) fn card(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let legs = throw.level.of([3, 4, 6]);
    let spots = way(throw, legs)?;
    let day = Day {
        variation: throw.dice.between(3, 12) * if throw.dice.coin() { 1 } else { -1 },
        pace: pace::pace(throw.dice.stepped(20, 40, throw.level.of([10, 5, 5])), true)?,
        leaves: throw.dice.stepped(8 * 60, 10 * 60, 5),
    };
    let mut entries: Vec<Entry> = Vec::new();
    for pair in spots.windows(2) {
        entries.push(entry(throw, pair[0], pair[1], &day)?);
    }
    let wrong = throw.dice.below(legs);
    let sound = entries.get(wrong)?.clone();
    let slips = slips(throw.level.number(), &sound, &day);
    let slip = throw.dice.pick(&slips)?;
    *entries.get_mut(wrong)? = slip.entry.clone();
    let degrees = day.variation;
    let side = if degrees < 0 { "west" } else { "east" };
    let text = format!(
        "One leg of this route card is wrong. It starts from {} at {} and goes at {}, with a variation of {}° {side}. Which \
         leg is it?",
        spots.first()?.name,
        clock(day.leaves),
        day.pace,
        degrees.abs()
    );
    let grid = &throw.ground.chart.grid;
    let mut question = Question::new(text, Answer::Choice(wrong), Tolerance::Exact, grid);
    question.basis = "each entry follows from the others, or from the chart";
    question.given = Some(table(&entries, day.leaves, (wrong, slip.late)));
    let choice = |number: usize| Choice { text: format!("leg {}", number + 1), at: None };
    question.choices = (0..legs).map(choice).collect();
    question.hints = hints(throw.level.number());
    question.hints.push(format!("It is in {}.", slip.column()));
    question.steps = vec![
        format!("Leg {}: {}.", wrong + 1, slip.kind),
        slip.right.clone(),
        slip.kind.advice().to_owned(),
    ];
    let point = |spot: &&Spot| Shown::Point { at: spot.at, label: spot.name.clone() };
    question.shown = spots.iter().map(point).collect();
    let (from, to) = (spots.get(wrong)?.at, spots.get(wrong + 1)?.at);
    question.drawn = vec![Shown::Line { from, to, label: format!("leg {}", wrong + 1) }];
    Some(question)
}

fn hints(level: u8) -> Vec<String> {
    let mut hints = vec![
        "From true to magnetic by the variation; the way back is half a turn away.".to_owned(),
        "Distance by pace is time; each arrival is the one before and the time.".to_owned(),
    ];
    if level == 3 {
        hints.push("Hold the true bearings against the chart as well.".to_owned());
    }
    hints
}

/// Places where a kayak calls, one after the other, each some kilometres over open water from the one before.
fn way<'a>(throw: &mut Throw<'a, '_>, legs: usize) -> Option<Vec<&'a Spot>> {
    let (spots, ground) = (throw.ground.calls(), throw.ground);
    let hops = if throw.choosy { &ground.hops().open } else { &ground.hops().any };
    let mut way = vec![throw.dice.below(spots.len())];
    while way.len() <= legs {
        let from = hops.get(*way.last()?)?;
        let left: Vec<usize> = from.iter().copied().filter(|to| !way.contains(to)).collect();
        way.push(*throw.dice.pick(&left)?);
    }
    way.into_iter().map(|index| spots.get(index)).collect()
}

/// The entries of a leg, each following from the ones that are printed.
fn entry(throw: &Throw<'_, '_>, from: &Spot, to: &Spot, day: &Day) -> Option<Entry> {
    let read = leg(throw.ground, from, to)?;
    let from_true = whole(read.bearings?.from_true.as_degrees(), 1.0)?.rem_euclid(360);
    let tenths_of_mile = whole(read.distance.as_nautical_miles(), 0.1)?;
    let (magnetic, back) = compass(from_true, day.variation)?;
    let minutes = minutes(tenths_of_mile, day.pace)?;
    Some(Entry { to: to.name.clone(), from_true, magnetic, back, tenths_of_mile, minutes })
}

/// What the compass shows on the way out and on the way back.
fn compass(from_true: i64, variation: i64) -> Option<(i64, i64)> {
    let variation = Variation::from_degrees_east(variation as f64).ok()?;
    let out = Bearing::<True>::from_degrees(from_true as f64).ok()?.to_magnetic(variation);
    Some((i64::from(out.figures()), i64::from(out.back().figures())))
}

fn minutes(tenths_of_mile: i64, pace: Pace) -> Option<i64> {
    let way = nav::Length::from_nautical_miles(tenths_of_mile as f64 / 10.0).ok()?;
    whole(pace.time_for(way)?.as_secs_f64() / 60.0, 1.0)
}

/// A way in which an entry can be wrong.
struct Slip {
    kind: MistakeKind,
    entry: Entry,
    /// How many minutes too late the arrival is put down.
    late: i64,
    /// What would be right.
    right: String,
}

impl Slip {
    /// Where on the card it shows.
    fn column(&self) -> &'static str {
        match self.kind {
            MistakeKind::VariationWrongWay | MistakeKind::TrueForMagnetic => {
                "the magnetic bearings"
            }
            MistakeKind::QuarterTurn => "the bearings back",
            MistakeKind::KilometresForMiles => "the distances",
            MistakeKind::MinutesForTenths => "the minutes",
            MistakeKind::HourByZone => "the times of arrival",
            _ => "the true bearings",
        }
    }
}

/// Every slip that shows in the card's own figures; at the third level also one that shows on the chart alone.
fn slips(level: u8, sound: &Entry, day: &Day) -> Vec<Slip> {
    let mut slips = Vec::new();
    let mut slip =
        |kind, entry: Entry, late, right: String| slips.push(Slip { kind, entry, late, right });
    let Entry { from_true, magnetic, back, tenths_of_mile, minutes, .. } = *sound;
    let right = format!("It should be {magnetic:03}°M, and {back:03}°M back.");
    if let Some((magnetic, back)) = compass(from_true, -day.variation) {
        let entry = Entry { magnetic, back, ..sound.clone() };
        slip(MistakeKind::VariationWrongWay, entry, 0, right.clone());
    }
    if let Some((magnetic, back)) = compass(from_true, 0) {
        let entry = Entry { magnetic, back, ..sound.clone() };
        slip(MistakeKind::TrueForMagnetic, entry, 0, right);
    }
    let turned = Entry { back: (back + 90).rem_euclid(360), ..sound.clone() };
    slip(MistakeKind::QuarterTurn, turned, 0, format!("The way back should be {back:03}°M."));
    let kilometres = (tenths_of_mile as f64 * 1.852).round() as i64;
    let entry = Entry { tenths_of_mile: kilometres, ..sound.clone() };
    let right = format!("It should be {} NM.", plain(tenths_of_mile as f64 / 10.0, 1));
    slip(MistakeKind::KilometresForMiles, entry, 0, right);
    for wrong in pace::tenths_as_minutes(minutes as f64 / 60.0).map(|wrong| wrong as i64) {
        if wrong.abs_diff(minutes) > 4 {
            let entry = Entry { minutes: wrong, ..sound.clone() };
            let right = format!("It should take {minutes} min.");
            slip(MistakeKind::MinutesForTenths, entry, 0, right);
        }
    }
    let right = "The arrival should be an hour earlier.".to_owned();
    slip(MistakeKind::HourByZone, sound.clone(), 60, right);
    let reversed = (from_true + 180).rem_euclid(360);
    if let (3, Some((magnetic, back))) = (level, compass(reversed, day.variation)) {
        let entry = Entry { from_true: reversed, magnetic, back, ..sound.clone() };
        let right = format!("On the chart the leg runs {from_true:03}°T.");
        slip(MistakeKind::BackForBearing, entry, 0, right);
    }
    slips
}

/// The card; arrivals follow from what is put down, but for the slip's own lateness.
fn table(entries: &[Entry], leaves: i64, (wrong, late): (usize, i64)) -> Table {
    let mut arrives = leaves;
    let row = |(index, entry): (usize, &Entry)| {
        arrives += entry.minutes + if index == wrong { late } else { 0 };
        vec![
            (index + 1).to_string(),
            entry.to.clone(),
            format!("{:03}", entry.from_true),
            format!("{:03}", entry.magnetic),
            format!("{:03}", entry.back),
            format!("{:.1}", entry.tenths_of_mile as f64 / 10.0),
            entry.minutes.to_string(),
            clock(arrives),
        ]
    };
    let head = ["leg", "to", "°T", "°M", "back °M", "NM", "min", "arrive"];
    Table {
        head: head.map(str::to_owned).to_vec(),
        rows: entries.iter().enumerate().map(row).collect(),
    }
}
