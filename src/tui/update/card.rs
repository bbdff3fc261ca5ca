//! The deck card, made beside the loop and put beside the route's file.

#[cfg(test)]
mod tests;

use std::sync::Arc;

use chart::Chart;
use chart::coast::detail::Shores;
use chart::water::Tides;
use paper::card::{Card, Plan, Size};
use paper::pdf;
use plan::Route;
use plan::profile::{self, Profile};
use plan::unrolled::Ground;

use crate::job::{Made, Outcome, Task, Watch};
use crate::{Command, State};

/// Asks for the card of the route as it stands.
pub(super) fn make(state: &mut State) -> Vec<Command> {
    let day = Day {
        route: state.document.route().clone(),
        chart: Arc::clone(&state.chart),
        shores: Arc::clone(&state.shores),
        tides: state.tides().map(Arc::clone),
        profile: profile::of_pace(&state.profiles, state.document.route().pace).cloned(),
        size: state.settings.card,
    };
    vec![Command::Compute(state.work.ask(Task::Card, move |watch| day.card(watch)))]
}

/// The card is made, and to be put where it belongs; or it is not, and why.
pub(super) fn made(state: &mut State, made: Result<Made, String>) -> Vec<Command> {
    match made {
        Ok(made) => vec![Command::PutCard(made)],
        Err(why) => {
            failed(state, &why);
            Vec::new()
        }
    }
}

/// Says where it is, and how large.
pub(super) fn put(state: &mut State, path: &str, size: Size, sides: usize) {
    let sides = if sides == 1 { "1 side".to_owned() } else { format!("{sides} sides") };
    state.say(format!("card: {path}, {sides} of {}", size.name()));
}

pub(super) fn failed(state: &mut State, why: &str) {
    state.refuse(format!("no card: {why}"));
}

/// What a card is made of.
struct Day {
    route: Route,
    chart: Arc<Chart>,
    shores: Arc<Shores>,
    tides: Option<Arc<Tides>>,
    profile: Option<Profile>,
    size: Size,
}

impl Day {
    fn card(self, watch: &dyn Watch) -> Option<Outcome> {
        let (chart, coast, tides) = (&self.chart, self.shores.full(), self.tides.as_deref());
        // A day that no tide is told of has a card without.
        let sailed = plan::sail(&self.route, &Ground { chart, coast, tides }).ok().flatten();
        if !watch.go_on(None) {
            return None;
        }
        let passage = sailed.as_ref().map(|(course, passage)| (course, passage));
        let profile = self.profile.as_ref();
        let plan = Plan { route: &self.route, chart, coast, tides, passage, profile };
        let size = self.size;
        let pages = Card { size, ..Card::default() }.set(&plan);
        let made = pages.map(|pages| {
            let title = plan.title();
            let about = pdf::About { title: &title, made: None };
            Made { bytes: pdf::write(&pages, &about).bytes, size, sides: pages.len() }
        });
        Some(Outcome::Card(made.map_err(|error| error.to_string())))
    }
}
