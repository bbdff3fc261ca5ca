//! The sheet for the contact ashore: who goes, where they should be and when, when to worry, and what to tell
//! the rescue service.
//!
//! It is a [`Leaflet`], so that its pages, its text and its Markdown say the same. What it knows of people comes
//! from a [`People`] that the caller hands over and that is no part of any route; what is not known is left for a
//! pen. No telephone number but those in it is ever printed.

mod alarm;
mod day;
mod group;
mod people;
mod place;
mod schedule;
#[cfg(test)]
mod tests;
mod told;
mod worry;

pub use people::{Boat, Carried, Contact, Kit, People, Person, Vehicle};

use jiff::SignedDuration;
use nav::text::AngleForm;

use crate::card::Plan;
use crate::leaflet::Leaflet;
use crate::words;
use told::Told;

/// How a sheet is made.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// How long after the time at which the group is expected the alarm is raised.
    pub overdue: SignedDuration,
    /// How latitudes and longitudes are written.
    pub form: AngleForm,
    /// For how many people it has lines, where nobody is named.
    pub lines: usize,
}

impl Sheet {
    /// The margin where nobody says otherwise: common practice, no published source. It is the leader's to choose.
    pub const USUAL_OVERDUE: SignedDuration = SignedDuration::from_hours(1);
    /// The longest margin: two days.
    pub const LONGEST_OVERDUE: SignedDuration = SignedDuration::from_hours(48);
    /// How many people there are lines for where nobody says otherwise.
    pub const USUAL_LINES: usize = 6;
    /// The most people that there are lines for.
    pub const MOST_LINES: usize = 60;

    /// What the sheet says.
    #[must_use]
    pub fn leaflet(&self, plan: &Plan<'_>, people: Option<&People>) -> Leaflet<'static> {
        let told = Told::new(plan, people, self);
        let parts = [
            worry::part(&told),
            group::who(&told),
            group::kit(&told),
            alarm::part(&told),
            day::plan(&told),
            day::by_the_clock(&told),
            day::ways_out(&told),
            day::notes(&told),
        ];
        let title = match plan.route.title.as_str() {
            "" => "For the contact ashore".to_owned(),
            title => format!("For the contact ashore: {title}"),
        };
        Leaflet {
            title,
            subtitle: plan.chart.title.clone(),
            blocks: parts.into_iter().flatten().collect(),
            foot: words::cautions(plan.chart),
        }
    }
}

impl Default for Sheet {
    fn default() -> Sheet {
        Sheet {
            overdue: Sheet::USUAL_OVERDUE,
            form: AngleForm::default(),
            lines: Sheet::USUAL_LINES,
        }
    }
}
