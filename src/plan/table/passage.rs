//! The legs of a passage in words.

use chart::water::RaceState;
use jiff::{SignedDuration, Timestamp};
use nav::passage::Times;
use nav::triangle::Stream;
use nav::{Speed, text};

use crate::course::Steered;
use crate::passage::{GatePassed, Headings, LegPassage, RaceMet, WaitFor};
use crate::{Course, Passage};

/// A leg of a passage in words. What is not known is empty, and everything is of a leg that the passage
/// does not come to.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PassageRow {
    /// The leg's number, from one.
    pub number: String,
    /// The heading to steer by compass, `052°M`: the mean of a leg that holds its line, the one of a
    /// crossing. On a traced leg, which has none, `along`.
    pub steer: String,
    /// The same from true north, `048°T`.
    pub steer_true: String,
    /// What is steered where the leg sets out, `044°M`.
    pub first: String,
    /// What is steered where it comes in, `061°M`.
    pub last: String,
    /// The mean speed over the ground, `2.4 kn`.
    pub ground_speed: String,
    /// Where the mean of the stream sets, `214°T`; empty where nothing is known, or it is still.
    pub set: String,
    /// Its rate, `1.3 kn`.
    pub drift: String,
    /// The most that the water runs, `2.6 kn`.
    pub greatest: String,
    /// When that is.
    pub greatest_at: String,
    /// What the stream does for most of the leg's time: `with`, `against`, `across`, `slack`, or
    /// `no data`.
    pub word: String,
    /// How long it does so, `40 min`.
    pub word_time: String,
    /// The time under way, `1 h 05`.
    pub time: String,
    /// How long the group waits before the leg, `20 min`; empty where it does not.
    pub wait: String,
    /// What for, `the stream` or a gate's name.
    pub wait_for: String,
    /// When it sets out.
    pub departs: String,
    /// When it gets to the end.
    pub arrives: String,
    /// How much of the leg has no stream data, `1.2 km`; empty where there is none of it.
    pub no_data: String,
    /// The farthest off its line that a crossing goes, `340 m left`.
    pub off_line: String,
    /// Its races, `Ustorna Race 10:40 to 11:05, running`.
    pub races: Vec<String>,
    /// Its gates, `Ollillan Narrows 11:40, open`.
    pub gates: Vec<String>,
}

/// The whole of a passage in words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PassageTotalRow {
    /// When the group gets to the last point; empty where it does not.
    pub arrives: String,
    /// The time from first to last.
    pub time: String,
    /// The time under way.
    pub under_way: String,
    /// All waits together; empty where there are none.
    pub waits: String,
    /// The time with the stream.
    pub with: String,
    /// The time against it.
    pub against: String,
    /// The time with the stream across.
    pub across: String,
    /// The time in slack water.
    pub slack: String,
    /// The time in which nothing is known of the stream; empty where there is none.
    pub no_data: String,
    /// The distance through the water.
    pub through_water: String,
    /// Why it does not arrive: a sentence without its stop.
    pub halt: String,
}

/// The rows of all legs of a course: those that the passage makes, and the others with their number alone.
pub fn passage(course: &Course, passage: &Passage) -> Vec<PassageRow> {
    let made = passage.legs.iter().map(Some).chain(std::iter::repeat(None));
    let legs = course.legs().iter().zip(made).enumerate();
    legs.map(|(index, (leg, made))| PassageRow {
        number: (index + 1).to_string(),
        ..made.map(|made| row(course, leg.steered, made)).unwrap_or_default()
    })
    .collect()
}

/// The sums of a passage; those of the legs that are made.
pub fn passage_total(course: &Course, passage: &Passage) -> PassageTotalRow {
    let sums = passage.sums();
    let Times { with, against, across, slack, without_data } = sums.times;
    PassageTotalRow {
        arrives: passage.arrives().map(|at| clock(course, at)).unwrap_or_default(),
        time: super::duration(passage.time()),
        under_way: text::duration(passage.under_way()),
        waits: super::stay(passage.waited()),
        with: text::duration(with),
        against: text::duration(against),
        across: text::duration(across),
        slack: text::duration(slack),
        no_data: super::stay(without_data),
        through_water: text::kilometres(sums.through_water),
        halt: passage.halt.as_ref().map(|halt| halt.words(course)).unwrap_or_default(),
    }
}

/// A speed to a tenth of a knot: `2.4 kn`.
pub fn knots(speed: Speed) -> String {
    format!("{:.1} kn", speed.as_knots())
}

/// A stream by its set and drift: `214°T 1.3 kn`.
pub fn set_and_drift(stream: Stream) -> String {
    format!("{} {}", stream.set, knots(stream.drift))
}

/// What the stream does for most of the time, and how long; the first of equals.
pub fn mostly(times: Times) -> Option<(&'static str, SignedDuration)> {
    let Times { with, against, across, slack, without_data } = times;
    let each = [
        ("with", with),
        ("against", against),
        ("across", across),
        ("slack", slack),
        ("no data", without_data),
    ];
    let most = each.iter().map(|(_, time)| *time).max()?;
    each.into_iter().find(|(_, time)| *time == most && !most.is_zero())
}

fn row(course: &Course, steered: Steered, leg: &LegPassage) -> PassageRow {
    let sums = &leg.sums;
    let mean = sums.mean();
    let drift = mean.map(|mean| knots(mean.drift)).unwrap_or_default();
    // What is still sets nowhere.
    let set = mean.filter(|_| drift != "0.0 kn").map(|mean| mean.set.to_string());
    let greatest = sums.greatest.map(|greatest| (knots(greatest.stream.drift), greatest.at));
    let (greatest, greatest_at) = greatest.unzip();
    let (word, word_time) = mostly(sums.times).unzip();
    PassageRow {
        ground_speed: leg.ground_speed().map(knots).unwrap_or_default(),
        set: set.unwrap_or_default(),
        drift,
        greatest: greatest.unwrap_or_default(),
        greatest_at: greatest_at.map(|at| clock(course, at)).unwrap_or_default(),
        word: word.unwrap_or_default().to_owned(),
        word_time: super::duration(word_time),
        time: text::duration(leg.time()),
        wait: super::stay(leg.waited),
        wait_for: leg.waited_for.as_ref().map(waited_for).unwrap_or_default(),
        departs: clock(course, leg.departs),
        arrives: clock(course, leg.arrives),
        no_data: match sums.length_without_data {
            length if length.as_metres() < 0.5 => String::new(),
            length => text::kilometres(length),
        },
        off_line: leg.off_line.map(off_line).unwrap_or_default(),
        races: leg.races.iter().map(|race| race_words(course, race)).collect(),
        gates: leg.gates.iter().map(|gate| gate_words(course, gate)).collect(),
        ..leg.headings.map(|headings| steer(steered, &headings)).unwrap_or_default()
    }
}

fn steer(steered: Steered, headings: &Headings) -> PassageRow {
    let (steer, steer_true) = match (steered, headings.mean) {
        (Steered::Along, _) | (_, None) => ("along".to_owned(), String::new()),
        (_, Some(mean)) => (mean.from_magnetic.to_string(), mean.from_true.to_string()),
    };
    PassageRow {
        steer,
        steer_true,
        first: headings.first.from_magnetic.to_string(),
        last: headings.last.from_magnetic.to_string(),
        ..PassageRow::default()
    }
}

fn waited_for(what: &WaitFor) -> String {
    match what {
        WaitFor::Stream => "the stream".to_owned(),
        WaitFor::Gate(name) => name.to_string(),
    }
}

/// How far off its line a crossing goes, positive to the right: `340 m left`.
#[must_use]
pub fn off_line(across: nav::Length) -> String {
    let side = if across < nav::Length::ZERO { "left" } else { "right" };
    format!("{} {side}", text::kilometres(across.abs()))
}

fn race_words(course: &Course, race: &RaceMet) -> String {
    let RaceMet { name, from, to, state, .. } = race;
    let state =
        state.map_or_else(|| "state not known".to_owned(), |state: RaceState| state.to_string());
    format!("{name} {} to {}, {state}", clock(course, *from), clock(course, *to))
}

fn gate_words(course: &Course, gate: &GatePassed) -> String {
    let state = match gate.open {
        Some(true) => "open",
        Some(false) => "shut",
        None => "not known whether open",
    };
    format!("{} {}, {state}", gate.name, clock(course, gate.at))
}

fn clock(course: &Course, at: Timestamp) -> String {
    text::clock(&at.to_zoned_datetime(course.zone().clone()))
}
