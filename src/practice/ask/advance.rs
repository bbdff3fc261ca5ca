//! Where a heading leads in a given time.

use chart::Point;
use jiff::SignedDuration;
use nav::triangle::{Stream, made_good};
use nav::{Bearing, Length, Magnetic, Position, Speed, True, Variation, rhumb, text};

use super::flow::Flow;
use super::{Throw, place};
use crate::ground::Ground;
use crate::water::moment;
use crate::words::{plain, whole};
use crate::{Answer, MistakeKind, NorthOf, Question, Shown, Tolerance};

/// Where a boat begins.
#[derive(Debug, Clone, Copy)]
struct Start<'a> {
    name: &'a str,
    at: Point,
    position: Position,
    /// The minute of UTC from 1970, where the stream is the chart's own.
    when: Option<i64>,
}

/// A boat that holds a heading.
#[derive(Clone)]
struct Asked<'a> {
    from: Start<'a>,
    /// Whole degrees, by compass where a variation is given.
    heading: i64,
    variation: Option<i64>,
    speed: Speed,
    stream: Option<Stream>,
    minutes: i64,
}

/// Where will we be after 40 minutes?
pub(super) fn after_a_while(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let asked = asked(throw)?;
    let ground = throw.ground;
    let grid = &ground.chart.grid;
    let (at, said) = place(grid, asked.end()?)?;
    if !on_the_water(ground, asked.from.at, at) {
        return None;
    }
    let run = (at - asked.from.at).x.hypot((at - asked.from.at).y);
    let near = Tolerance::Metres(whole(100.0 + run / 16.0, 50.0)? as f64 * 50.0);
    let mut question = Question::new(asked.text(), Answer::Place { at, text: said }, near, grid);
    question.basis =
        "some degrees in the line and a sixteenth of the run: common practice, no published source";
    question.shown = vec![Shown::Point { at: asked.from.at, label: asked.from.name.to_owned() }];
    question.hints = vec![
        "How far through the water in that time? Draw it along the heading.".to_owned(),
        match asked.stream {
            Some(_) => "From there draw on what the stream does in the same time.".to_owned(),
            None => "Draw true bearings: from a meridian, not from a grid line.".to_owned(),
        },
    ];
    asked.teach(&mut question, ground)?;
    asked.mistakes(&mut question, ground);
    Some(question)
}

/// How long at the first level. In less than an hour so many minutes as hundredths of an hour come to six tenths of the way,
/// and kilometres for miles to 0.54 of it, which no hand parts; over an hour they come to nine tenths and 0.54.
const MINUTES: [i64; 6] = [20, 30, 40, 50, 80, 90];

/// At a station of a stream.
fn at_a_station<'a>(ground: &Ground<'_>, flow: &Flow<'a>) -> Option<Start<'a>> {
    let (name, at) = (&flow.of.name, flow.of.at);
    Some(Start { name, at, position: ground.chart.position(at).ok()?, when: Some(flow.when) })
}

fn asked<'a>(throw: &mut Throw<'a, '_>) -> Option<Asked<'a>> {
    let level = throw.level.number();
    let flow = if level > 1 && throw.has_streams() { Some(Flow::thrown(throw)?) } else { None };
    let from = match flow {
        Some(flow) => at_a_station(throw.ground, &flow)?,
        None => {
            let spot = throw.dice.pick(throw.ground.afloat())?;
            Start { name: &spot.name, at: spot.at, position: spot.position, when: None }
        }
    };
    let tenths = throw.level.of([(30, 40, 10), (25, 45, 5), (25, 45, 1)]);
    let speed = throw.dice.stepped(tenths.0, tenths.1, tenths.2);
    let minutes = match level {
        1 => *throw.dice.pick(&MINUTES)?,
        2 => throw.dice.stepped(25, 85, 5),
        _ => throw.dice.between(22, 88),
    };
    let variation = throw.dice.between(2, 14) * if throw.dice.coin() { 1 } else { -1 };
    let (set, drift) = match flow {
        Some(flow) => (flow.set, flow.drift),
        None => (throw.dice.stepped(0, 350, 10), throw.dice.stepped(10, 20, 5)),
    };
    let stream = Stream {
        set: Bearing::from_degrees(set as f64).ok()?,
        drift: Speed::from_knots(drift as f64 / 10.0).ok()?,
    };
    Some(Asked {
        from,
        heading: throw.dice.stepped(0, 359, throw.level.of([10, 5, 1])),
        variation: (level == 3).then_some(variation),
        speed: Speed::from_knots(speed as f64 / 10.0).ok()?,
        stream: (level > 1).then_some(stream),
        minutes,
    })
}

/// Whether the way lies on the chart and, after its first tenth, crosses no shore.
fn on_the_water(ground: &Ground<'_>, from: Point, to: Point) -> bool {
    let extent = ground.chart.extent;
    let within = (extent.min().x..extent.max().x).contains(&to.x)
        && (extent.min().y..extent.max().y).contains(&to.y);
    let off = from + (to - from) / 10.0;
    within && !ground.coast.on_land(off) && !ground.coast.touches(off, to)
}

impl Asked<'_> {
    fn time(&self) -> SignedDuration {
        SignedDuration::from_mins(self.minutes)
    }

    fn heading_true(&self) -> Option<Bearing<True>> {
        let variation = Variation::from_degrees_east(self.variation.unwrap_or(0) as f64).ok()?;
        Some(Bearing::<Magnetic>::from_degrees(self.heading as f64).ok()?.to_true(variation))
    }

    /// Where it leads.
    fn end(&self) -> Option<Position> {
        let heading = self.heading_true()?;
        let (track, speed) = match self.stream {
            Some(stream) => {
                let made = made_good(heading, self.speed, stream);
                (made.track?, made.ground_speed)
            }
            None => (heading, self.speed),
        };
        rhumb::direct(self.from.position, track, speed.over(self.time())).ok()
    }

    fn text(&self) -> String {
        let north = if self.variation.is_some() { NorthOf::Magnetic } else { NorthOf::True };
        let heading = Answer::bearing(self.heading as f64, north);
        let from = match self.from.when {
            Some(when) => format!("{}, {}. From there", self.from.name, moment(when)),
            None => format!("From {}", self.from.name),
        };
        let knots = plain(self.speed.as_knots(), 1);
        let compass = if self.variation.is_some() { " by compass" } else { "" };
        let mut said = format!("{from} you head {heading}{compass} at {knots} kn");
        if let Some(degrees) = self.variation {
            let side = if degrees < 0 { "west" } else { "east" };
            said += &format!(", with a variation of {}° {side}", degrees.abs());
        }
        said += ".";
        if let Some(stream) = self.stream {
            let drift = plain(stream.drift.as_knots(), 1);
            said += &format!(" All the while the stream sets {} at {drift} kn.", stream.set);
        }
        let time = text::duration(self.time());
        format!("{said} Where will you be after {time}? A six-figure reference will do.")
    }

    fn teach(&self, question: &mut Question, ground: &Ground<'_>) -> Option<()> {
        let miles =
            |way: Length| Some(plain(whole(way.as_nautical_miles(), 0.01)? as f64 / 100.0, 2));
        let heading = self.heading_true()?;
        let run = self.speed.over(self.time());
        if self.variation.is_some() {
            question.steps.push(format!("On the chart the heading is {heading}."));
        }
        question.steps.push(format!(
            "In {} you make {} NM through the water along {heading}.",
            text::duration(self.time()),
            miles(run)?
        ));
        if let Some(stream) = self.stream {
            let carried = miles(stream.drift.over(self.time()))?;
            let set = stream.set;
            question
                .steps
                .push(format!("In the same time the stream carries you {carried} NM along {set}."));
        }
        question.hints.extend(question.steps.iter().rev().take(1).cloned());
        question.steps.push(format!("That is at {}.", question.told()));
        question.drawn = self.drawn(ground)?;
        Some(())
    }

    /// The boat's way through the water, then the stream's, and where they end.
    fn drawn(&self, ground: &Ground<'_>) -> Option<Vec<Shown>> {
        let line =
            |from: Point, to: Point, label: &str| Shown::Line { from, to, label: label.to_owned() };
        let (at, label) = place(&ground.chart.grid, self.end()?)?;
        let still = Asked { stream: None, ..self.clone() };
        let (dry, _) = place(&ground.chart.grid, still.end()?)?;
        let mut drawn = vec![line(self.from.at, dry, "through the water")];
        if self.stream.is_some() {
            drawn.push(line(dry, at, "stream"));
        }
        drawn.push(Shown::Point { at, label });
        Some(drawn)
    }

    fn mistakes(&self, question: &mut Question, ground: &Ground<'_>) {
        let mut mistake = |kind, wrong: Option<Asked<'_>>| {
            let drawn = wrong.and_then(|wrong| wrong.drawn(ground)).unwrap_or_default();
            if let Some(Shown::Point { at, label }) = drawn.last() {
                let answer = Answer::Place { at: *at, text: label.clone() };
                question.mistake_drawn(kind, answer, drawn);
            }
        };
        let same = || self.clone();
        if let Some(stream) = self.stream {
            mistake(MistakeKind::StreamLeftOut, Some(Asked { stream: None, ..same() }));
            let back = Stream { set: stream.set.back(), ..stream };
            mistake(MistakeKind::StreamReversed, Some(Asked { stream: Some(back), ..same() }));
        }
        if let Some(variation) = self.variation {
            let wrong = Asked { variation: Some(-variation), ..same() };
            mistake(MistakeKind::VariationWrongWay, Some(wrong));
            mistake(MistakeKind::MagneticForTrue, Some(Asked { variation: None, ..same() }));
        }
        mistake(MistakeKind::BackForBearing, Some(Asked { heading: self.heading + 180, ..same() }));
        mistake(MistakeKind::WholeHour, Some(Asked { minutes: 60, ..same() }));
        // 40 minutes as 0.40 of an hour, 1 h 25 as 1.25 hours.
        let decimal = (self.minutes / 60) * 60 + (self.minutes % 60) * 60 / 100;
        mistake(MistakeKind::MinutesForTenths, Some(Asked { minutes: decimal, ..same() }));
        let slower = Speed::from_kmh(self.speed.as_knots()).ok();
        mistake(MistakeKind::KilometresForMiles, slower.map(|speed| Asked { speed, ..same() }));
    }
}
