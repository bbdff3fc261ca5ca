//! What comes of one start.

use std::sync::Arc;

use chart::water::Tides;
use jiff::SignedDuration;
use nav::text;
use plan::course::BriefLeg;
use plan::depart::{Kind, Light, Start, Starts, Verdict};
use plan::passage::{GatePassed, RaceMet};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

use super::clock;
use crate::view::ink::{self, Pen};
use crate::view::inks::Inks;

/// The columns of a label, with the gap behind it.
const LABEL: u16 = 10;

/// What is left out, and whose word counts; and the same where there is little room.
const LEAVES_OUT: &str = "Streams between stations are a blend; eddies close in, weather, waves, surge \
    and rivers are left out. The official tables decide.";
const LEAVES_OUT_IN_SHORT: &str = "No eddies, weather, waves, surge. The tables decide.";

/// A line: its label, what it says, how.
struct Line {
    label: &'static str,
    words: String,
    style: Style,
}

pub(super) fn draw(
    tides: Option<&Arc<Tides>>,
    (day, start): (&Starts, Option<&Start>),
    area: Rect,
    inks: &Inks,
    buffer: &mut Buffer,
) {
    let mut lines = vec![marked(day, area.width.saturating_sub(LABEL), inks)];
    if let Some(start) = start {
        lines.extend(of(day, start, inks));
    }
    let caution = caution(tides, day, area);
    let kept = u16::try_from(caution.len()).unwrap_or(0).min(area.height);
    let above = Rect { height: area.height.saturating_sub(kept), ..area };
    let mut pen = Pen::new(buffer, above);
    for Line { label, words, style } in lines {
        if pen.lines_left() == 0 {
            break;
        }
        pen.write(label, inks.quiet);
        for words in ink::wrapped(&words, above.width.saturating_sub(LABEL)) {
            pen.to(LABEL).write(&words, style).down();
        }
    }
    let foot = Rect { y: above.bottom(), height: area.height - above.height, ..area };
    let mut pen = Pen::new(buffer, foot);
    for line in &caution {
        pen.write(line, inks.warn).down();
    }
}

/// The best and the latest start of the day.
fn marked(day: &Starts, room: u16, inks: &Inks) -> Line {
    let at = |start: &Start| clock(day, start.at);
    let words = match (day.best(), day.latest()) {
        (Some(best), Some(latest)) => {
            let took = best.landing.map(|landing| text::duration(landing.took));
            let took = took.map(|took| format!(", {took}")).unwrap_or_default();
            let forms = ["latest within your limits", "latest"]
                .map(|word| format!("best {}{took}; {word} {}", at(best), at(latest)));
            let [whole, short] = forms;
            if ink::width(&whole) <= room { whole } else { short }
        }
        _ => "no start keeps within your limits".to_owned(),
    };
    Line { label: "the day", words, style: inks.plain }
}

fn of(day: &Starts, start: &Start, inks: &Inks) -> Vec<Line> {
    let line = |label, words: String| Line { label, words, style: inks.plain };
    let mut lines = vec![Line {
        label: "start",
        words: verdict(day, start),
        style: match start.verdict {
            Verdict::Good | Verdict::Slow => inks.figure,
            Verdict::HeldUp => inks.warn,
            Verdict::Refused => inks.wrong,
        },
    }];
    let reasons = start.reasons.iter().map(|reason| reason.words(&day.zone));
    lines.extend(reasons.enumerate().map(|(index, words)| Line {
        label: if index == 0 { "why" } else { "" },
        words,
        style: inks.warn,
    }));
    lines.push(line("legs", legs(day, start)));
    lines.push(line("stream", stream(start)));
    let passes = passes(day, start);
    if !passes.is_empty() {
        lines.push(line("passes", passes));
    }
    lines.push(line("landing", landing(day, start)));
    lines
}

/// `09:40 good: lands 12:35, 2 h 55`.
fn verdict(day: &Starts, start: &Start) -> String {
    let at = clock(day, start.at);
    match start.landing {
        Some(landing) => {
            let (lands, took) = (clock(day, landing.at), text::duration(landing.took));
            format!("{at} {}: lands {lands}, after {took}", start.verdict)
        }
        None => format!("{at} {}: does not get there", start.verdict),
    }
}

/// `1 to 09:58  2 to 10:41, waits 12 min`.
fn legs(day: &Starts, start: &Start) -> String {
    let leg = |(index, leg): (usize, &BriefLeg)| {
        let waits = match leg.waited {
            SignedDuration::ZERO => String::new(),
            wait => format!(", waits {}", text::duration(wait)),
        };
        format!("{} to {}{waits}", index + 1, clock(day, leg.arrives))
    };
    let all: Vec<String> = start.legs.iter().enumerate().map(leg).collect();
    if all.is_empty() { "none is made".to_owned() } else { all.join(" · ") }
}

fn stream(start: &Start) -> String {
    let unknown = start.without_data();
    let against = match start.against() {
        // Where nothing is known of it, nothing is said of which way it sets.
        _ if start.legs.iter().all(|leg| leg.greatest.is_none()) => return "not known".to_owned(),
        time if time.as_mins() == 0 && unknown.as_mins() == 0 => "never against".to_owned(),
        time if time.as_mins() == 0 => "not against where it is known".to_owned(),
        time => format!("against for {}", text::duration(time)),
    };
    let unknown = match unknown {
        time if time.as_mins() == 0 => String::new(),
        time => format!("; not known for {}", text::duration(time)),
    };
    let drift = start
        .worst_drift()
        .map(|(rate, leg)| format!("; at most {:.1} kn, on leg {}", rate.as_knots(), leg + 1));
    format!("{against}{}{unknown}", drift.unwrap_or_default())
}

fn passes(day: &Starts, start: &Start) -> String {
    let race = |(_, race): (usize, RaceMet)| {
        let state = race.state.map_or("state not known".to_owned(), |state| state.to_string());
        format!("{} {state}, {} to {}", race.name, clock(day, race.from), clock(day, race.to))
    };
    let gate = |(_, gate): (usize, &GatePassed)| {
        let state = match gate.open {
            Some(true) => "open",
            Some(false) => "shut",
            None => "not known whether open",
        };
        format!("{} {state}, {}", gate.name, clock(day, gate.at))
    };
    let all = start.races().into_iter().map(race).chain(start.gates().map(gate));
    all.collect::<Vec<_>>().join(" · ")
}

fn landing(day: &Starts, start: &Start) -> String {
    let Some(landing) = start.landing else { return "none".to_owned() };
    let port = day.port.as_ref().map(|port| {
        let away = text::kilometres(port.away);
        let land = if port.clear { "" } else { " with land between" };
        format!("tide of {}, {away} away{land}, ", port.name)
    });
    let height = landing.height.map(|height| format!("{:.1} m; ", height.as_metres()));
    let light = match landing.light {
        Light::Left(time) => format!("{} of light left", text::duration(time)),
        Light::AllDay => "light all day".to_owned(),
        Light::Gone(time) => format!("{} after the end of civil twilight", text::duration(time)),
        Light::NoDay => "dark all day".to_owned(),
    };
    let tide = port.zip(height).map(|(port, height)| format!("{port}{height}"));
    format!("{}{light}", tide.unwrap_or_default())
}

/// What the strip leaves out, what its tide is told from, and what its marks mean, in as many words as
/// two fifths of the room hold. In the least room the source of the tide gives way, and nothing else.
fn caution(tides: Option<&Arc<Tides>>, day: &Starts, room: Rect) -> Vec<String> {
    let told = tides.map(|tides| tides.told(day.date)).unwrap_or_default();
    let told = if told.is_empty() { String::new() } else { format!("Tide {}.", told.join("; ")) };
    let [long, short] = [Kind::meaning, Kind::in_short].map(|word| marks(day, word));
    let forms = [
        [LEAVES_OUT, &told, &long],
        [LEAVES_OUT, &told, &short],
        [LEAVES_OUT_IN_SHORT, &told, &short],
        [LEAVES_OUT_IN_SHORT, "", &short],
    ];
    let lines = |form: [&str; 3]| -> Vec<String> {
        let said = form.into_iter().filter(|words| !words.is_empty());
        said.flat_map(|words| ink::wrapped(words, room.width)).collect()
    };
    let most = usize::from(room.height * 2 / 5);
    let [first, second, third, last] = forms.map(lines);
    let fits = |lines: &Vec<String>| lines.len() <= most;
    [first, second, third].into_iter().find(fits).unwrap_or(last)
}

/// What the marks of a day mean.
fn marks(day: &Starts, word: fn(Kind) -> &'static str) -> String {
    let mut kinds: Vec<Kind> = Kind::ALL.to_vec();
    kinds.retain(|kind| day.starts.iter().any(|start| is_of(start, *kind)));
    kinds.dedup_by_key(|kind| kind.mark());
    let marks = kinds.iter().map(|kind| format!("{} {}", kind.mark(), word(*kind)));
    let marks = ["* best", "< latest"].map(str::to_owned).into_iter().chain(marks);
    marks.collect::<Vec<_>>().join(" · ")
}

fn is_of(start: &Start, kind: Kind) -> bool {
    start.reasons.first().is_some_and(|reason| reason.kind() == kind)
}
