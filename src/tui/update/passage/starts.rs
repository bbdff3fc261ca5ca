//! The departure strip: every start judged beside the loop, one looked at, one taken.

use std::sync::Arc;

use jiff::{SignedDuration, ToSpan};
use plan::depart::{Days, DepartError, Departures, Every, Starts};
use plan::unrolled::Ground;
use plan::{Course, Departure, Edit, Route};
use ratatui::layout::{Position as Cell, Rect};

use super::sail::course_of;
use crate::action::Act;
use crate::job::{Outcome, Task};
use crate::state::{FORTNIGHT, Overlay, StartsAsked, StartsBox, StartsGrid};
use crate::update::route;
use crate::{Command, State};

/// How often a start is looked at.
const EVERY: Every = Every::TEN_MINUTES;

/// The starts an hour holds.
const AN_HOUR: usize = 6;

/// Opens the strip of the day of the departure, or of the day that is looked at.
pub(in crate::update) fn open(state: &mut State) {
    let departure = state.document.route().departure.as_ref();
    let moment = departure.map_or_else(|| state.moment_on_clock(), |at| at.moment().clone());
    let chosen = departure.map(|at| at.moment().timestamp());
    let open = StartsBox { first: moment.date(), days: 1, chosen };
    state.overlays.push(Overlay::Starts(open));
}

/// The strip that is open, also under another box.
fn opened(state: &State) -> Option<StartsBox> {
    state.overlays.iter().rev().find_map(|overlay| match overlay {
        Overlay::Starts(open) => Some(*open),
        _ => None,
    })
}

fn change(state: &mut State, changed: StartsBox) {
    for overlay in &mut state.overlays {
        if let Overlay::Starts(open) = overlay {
            *open = changed;
        }
    }
}

/// Asks for the starts that are looked at, if they are others than those last asked for.
pub(super) fn follow(state: &mut State) -> Vec<Command> {
    let wanted = opened(state).and_then(|open| asked(state, open));
    if state.starts.asked == wanted {
        return Vec::new();
    }
    state.starts.days = None;
    state.starts.asked.clone_from(&wanted);
    let (Some(asked), Some(tides)) = (wanted, state.tides().map(Arc::clone)) else {
        let ended = state.work.drop(Task::Starts).then_some(Command::Abandon(Task::Starts));
        return ended.into_iter().collect();
    };
    let of = course_of(&asked.route, Some(asked.zone.clone()));
    let kept = state.sailing.course.as_ref().filter(|(made_of, _)| *made_of == of);
    let course = kept.map(|(_, course)| Arc::clone(course));
    let (chart, shores) = (Arc::clone(&state.chart), Arc::clone(&state.shores));
    let job = state.work.ask(Task::Starts, move |watch| {
        let ground = Ground { chart: &chart, coast: shores.full(), tides: Some(&tides) };
        let course = course.unwrap_or_else(|| Arc::new(Course::new(&asked.route, &ground)));
        if !watch.go_on(None) {
            return None;
        }
        let days = days(&asked, &course, &ground);
        Some(Outcome::Starts(days.map(Arc::new).map_err(|error| error.to_string())))
    });
    vec![Command::Compute(job)]
}

/// What is asked for: nothing of it hangs on when the route is left.
fn asked(state: &State, open: StartsBox) -> Option<StartsAsked> {
    let route = Route { title: String::new(), departure: None, ..state.document.route().clone() };
    let zone = state.clock().clone();
    (route.points.len() > 1).then_some(StartsAsked {
        route,
        zone,
        first: open.first,
        days: open.days,
    })
}

/// The starts of each day.
fn days(
    asked: &StartsAsked,
    course: &Course,
    ground: &Ground<'_>,
) -> Result<Vec<Starts>, DepartError> {
    let days = Days {
        first: asked.first,
        count: asked.days.into(),
        zone: asked.zone.clone(),
        every: EVERY,
    };
    Departures::of(course, ground)?.days(&days, asked.route.limits)
}

/// Takes the starts that were judged, and looks at the one that was looked at, or at the best.
pub(in crate::update) fn judged(state: &mut State, judged: Result<Arc<Vec<Starts>>, String>) {
    state.starts.days = Some(judged);
    let (Some(open), Some(days)) = (opened(state), state.starts.days()) else { return };
    let known = open.picked(days).map(|(_, start)| start.at);
    let best = || days.iter().find_map(Starts::best).map(|start| start.at);
    let first = || days.first()?.starts.first().map(|start| start.at);
    let chosen = known.or_else(best).or_else(first);
    change(state, StartsBox { chosen, ..open });
}

/// Looks at another start, another day, or at a fortnight.
pub(in crate::update) fn act(state: &mut State, act: Act) {
    let Some(open) = opened(state) else { return };
    match moved(state, open, act) {
        Ok(open) => change(state, open),
        Err(why) => state.refuse(why),
    }
}

fn moved(state: &State, open: StartsBox, act: Act) -> Result<StartsBox, &'static str> {
    let days = state.starts.days().ok_or("the starts are not judged yet")?;
    let (day, start) = open.pick(days).ok_or("no start is looked at")?;
    let at = |start: usize| Some(days.get(day)?.starts.get(start)?.at);
    let last = days.get(day).map_or(0, |day| day.starts.len().saturating_sub(1));
    let none = "no start of this day keeps within your limits";
    let marked = |of: Option<&plan::depart::Start>| of.map(|start| start.at).ok_or(none);
    let chosen = match act {
        Act::StartBack => at(start.saturating_sub(1)),
        Act::StartOn => at((start + 1).min(last)),
        Act::StartHourBack => at(start.saturating_sub(AN_HOUR)),
        Act::StartHourOn => at((start + AN_HOUR).min(last)),
        Act::BestStart => Some(marked(days.get(day).and_then(Starts::best))?),
        Act::LatestStart => Some(marked(days.get(day).and_then(Starts::latest))?),
        Act::DayBack | Act::DayOn => return next_day(open, act == Act::DayOn),
        _ if open.days == 1 => return Ok(StartsBox { days: FORTNIGHT, ..open }),
        // The one day that is looked at.
        _ => {
            let first = days.get(day).map_or(open.first, |day| day.date);
            return Ok(StartsBox { first, days: 1, ..open });
        }
    };
    Ok(StartsBox { chosen: chosen.or(open.chosen), ..open })
}

/// The same time of the day after or before; the days shown go along where it is none of them.
fn next_day(open: StartsBox, on: bool) -> Result<StartsBox, &'static str> {
    let end = "the calendar ends here";
    let chosen = open.chosen.ok_or("no start is looked at")?;
    let day = SignedDuration::from_hours(if on { 24 } else { -24 });
    let chosen = chosen.checked_add(day).map_err(|_| end)?;
    let shifted =
        open.first.checked_add(if on { 1.day() } else { (-1).days() }).map_err(|_| end)?;
    let moved = StartsBox { chosen: Some(chosen), ..open };
    Ok(if open.days == 1 { StartsBox { first: shifted, ..moved } } else { moved })
}

/// Looks at the start in a cell that was pressed.
pub(in crate::update) fn press(state: &mut State, cell: Cell, rows: Rect) {
    let Some(open) = opened(state) else { return };
    let Some(days) = state.starts.days() else { return };
    let grid = StartsGrid::of(rows, open.days);
    if !grid.cells.contains(cell) {
        return;
    }
    let row = usize::from(cell.y - grid.cells.y);
    let first = grid.first(open.pick(days).map(|pick| pick.0), days.len());
    let day = if open.days == 1 { days.first() } else { days.get(first + row) };
    let at = day.and_then(|day| grid.instant(day, cell.x - grid.cells.x));
    if let Some(at) = at {
        change(state, StartsBox { chosen: Some(at), ..open });
    }
}

/// Takes the start that is looked at as the departure, and says so.
pub(in crate::update) fn take(state: &mut State, open: StartsBox) -> Vec<Command> {
    let picked = state.starts.days().and_then(|days| open.picked(days));
    let Some((day, start)) = picked else {
        state.overlays.push(Overlay::Starts(open));
        state.refuse("no start is looked at");
        return Vec::new();
    };
    let at = start.at.to_zoned_datetime(day.zone.clone());
    let words = at.strftime("departs %A %-d %B %Y, %H:%M").to_string();
    let refused = (!start.verdict.is_acceptable()).then(|| {
        let why = start.reasons.first().map(|reason| reason.words(&day.zone));
        format!(": not within your limits: {}", why.unwrap_or_default())
    });
    let departure = match Departure::at(&at) {
        Ok(departure) => departure,
        Err(error) => {
            state.refuse(error.to_string());
            return Vec::new();
        }
    };
    let commands = route::edit(state, Edit::SetDeparture(Some(departure)));
    if !commands.is_empty() {
        state.say(format!("{words}{}", refused.unwrap_or_default()));
    }
    commands
}
