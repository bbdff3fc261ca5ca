//! The instant that is looked at, and what the water does about it.

mod day;
mod field;
mod wet;

pub use day::{PortDay, WaterDay};
pub(crate) use field::Field;
pub use field::{Arrow, Node};
pub use wet::Stand;
pub(crate) use wet::Wet;

use std::sync::Arc;

use chart::Point;
use chart::water::{Flows, Shares, Tides};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ZonedDateTime};

use super::State;

/// The instant that is looked at. Tides and streams on the screen are those of this instant.
#[derive(Debug, Clone)]
pub struct Moment {
    /// When.
    pub(crate) at: Timestamp,
    /// Whether it moves on by itself.
    pub(crate) playing: bool,
    /// The port that is told of; without one the nearest to the cursor.
    pub(crate) port: Option<usize>,
    /// The route's departure, as it was last followed.
    pub(crate) departs: Option<Timestamp>,
    /// When the program was started.
    pub(crate) started: Timestamp,
    /// What the water does on its day, or why that is not known.
    pub(crate) day: Result<Arc<WaterDay>, String>,
    /// Whose streams the cursor has, and where it was.
    pub(crate) here: Option<(Point, Shares)>,
    /// Whose streams the drawing shows.
    pub(crate) field: Field,
    /// Which drying ground is covered.
    pub(crate) wet: Wet,
}

impl Moment {
    /// How far it goes with each tick while it plays.
    pub const STEP: SignedDuration = SignedDuration::from_mins(10);

    /// The instant at which a route is first looked at: its departure, else now.
    pub(crate) fn first(departs: Option<Timestamp>, now: Timestamp, wet: Wet) -> Moment {
        Moment {
            at: departs.unwrap_or(now),
            playing: false,
            port: None,
            departs,
            started: now,
            day: Err(String::new()),
            here: None,
            field: Field::default(),
            wet,
        }
    }

    /// When it is.
    pub const fn at(&self) -> Timestamp {
        self.at
    }

    /// Whether it moves on by itself.
    pub const fn is_playing(&self) -> bool {
        self.playing
    }

    /// Why nothing is known of the water at the moment, if nothing is.
    pub fn why_unknown(&self) -> Option<&str> {
        self.day.as_ref().err().map(String::as_str)
    }

    /// When the program was started.
    pub const fn started(&self) -> Timestamp {
        self.started
    }
}

impl State {
    /// The tides of the chart; nothing where it has none, or none that can be told.
    pub fn tides(&self) -> Option<&Arc<Tides>> {
        let some = |tides: &&Arc<Tides>| !tides.gauges().is_empty() || !tides.stations().is_empty();
        self.tides.as_ref().ok().filter(some)
    }

    /// The zone of clock times: the departure's, else the planner's own.
    pub fn clock(&self) -> &TimeZone {
        let departure = self.document.route().departure.as_ref();
        departure.map_or(&self.zone, |departure| departure.zone())
    }

    /// The instant that is looked at, on the clock.
    pub fn moment_on_clock(&self) -> ZonedDateTime {
        self.moment.at.to_zoned_datetime(self.clock().clone())
    }

    /// What the water does on the day that is looked at; nothing where that is not known.
    pub fn water_day(&self) -> Option<&Arc<WaterDay>> {
        self.moment.day.as_ref().ok()
    }

    /// The streams of the day that is looked at, and of half a day and more about it.
    pub fn flows(&self) -> Option<&Flows> {
        self.water_day().map(|day| day.flows())
    }

    /// Whose streams the cursor has; nothing known where the chart has none.
    pub fn shares_here(&self) -> Option<&Shares> {
        let (at, shares) = self.moment.here.as_ref()?;
        (*at == self.cursor && !shares.is_empty()).then_some(shares)
    }

    /// The port whose height of tide is told: the one chosen, else the nearest to the cursor.
    pub fn port(&self) -> Option<usize> {
        self.moment.port.or_else(|| self.port_near(self.cursor))
    }

    /// The port nearest to a point of the chart.
    pub fn port_near(&self, point: Point) -> Option<usize> {
        wet::nearest(self.tides()?, point)
    }
}
