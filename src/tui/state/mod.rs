//! Everything that the screen shows, as a value. It changes through `update` alone.

mod anchors;
mod clicks;
mod drill;
mod fix;
mod hand;
mod line;
mod moment;
mod overlay;
mod passage;
mod place;
mod reading;
mod thread;
mod tracks;
mod work;

pub use drill::{
    Again, Drill, DrillChoice, DrillList, DrillRow, Practice, ProgressPage, Put, Stage, Told,
};
pub use fix::{Bearings, Fixed, MOST_BEARINGS, Mark, Read, Taken};
pub(crate) use fix::{ERRORS, read as read_bearing};
pub use hand::{Chosen, Hand, Held};
pub use line::Line;
pub(crate) use moment::Wet;
pub use moment::{Arrow, Moment, Node, PortDay, Stand, WaterDay};
pub use overlay::{Answer, Ask, Change, Found, FoundKind, Jump, List, Overlay, Question};
pub(crate) use passage::{CourseOf, MadeOf, StartsAsked};
pub use passage::{
    FORTNIGHT, GatePassed, Of, RacePassed, Sailed, Sailing, StartsBox, StartsFound, StartsGrid,
    UnrolledLeg,
};
pub use reading::Reading;
pub use thread::{Caught, CaughtOn, Set, Thread};
pub use tracks::Tracks;
pub use work::Work;

use std::sync::Arc;

use chart::coast::Coast;
use chart::coast::detail::Shores;
use chart::dots::Shapes;
use chart::water::{Tides, WaterError};
use chart::whereabouts::On;
use chart::{Cells, Chart, Point, View};
use jiff::ZonedDateTime;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use nav::Figures;
use nav::magnetic::DecimalYear;
use nav::text::AngleForm;
use plan::Document;
use plan::profile::Profile;
use ratatui::layout::Size;

use crate::action::{Context, Keymap};
use crate::draw;
use crate::glyphs::DotSet;
use crate::layout::{Layout, Shown};

/// What the screen is about and how it is looked at.
#[derive(Debug, Clone)]
pub struct State {
    /// The size of the screen.
    pub size: Size,
    /// The chart.
    pub chart: Arc<Chart>,
    /// Its shapes, as they are drawn.
    pub shapes: Arc<Shapes>,
    /// Its shore, indexed, at every level of detail.
    pub shores: Arc<Shores>,
    /// Its tides, or why they cannot be told.
    pub tides: Result<Arc<Tides>, WaterError>,
    /// The instant that is looked at.
    pub moment: Moment,
    /// Whether the leg strip is open, along the foot of the chart.
    pub strip: bool,
    /// The passage of the route.
    pub sailing: Sailing,
    /// The starts that the departure strip shows.
    pub starts: StartsFound,
    /// The leg that is read, unrolled; nothing while the strip is closed.
    pub unrolled: Option<UnrolledLeg>,
    /// The route on it, with its history.
    pub document: Document,
    /// Whether the route may be changed.
    pub access: Access,
    /// How the last save went.
    pub saving: Saving,
    /// What part of the chart is looked at.
    pub view: View,
    /// Where the cursor is on the chart's grid.
    pub cursor: Point,
    /// What is in hand.
    pub hand: Hand,
    /// What of the route is chosen.
    pub chosen: Option<Chosen>,
    /// What the pointer holds while its button is down.
    pub held: Option<Held>,
    /// What lies open on top of the chart, the topmost last.
    pub overlays: Vec<Overlay>,
    /// What the program last had to say; gone with the next key.
    pub message: Option<Message>,
    /// What the reader set.
    pub settings: Settings,
    /// The line along a shore that is being traced, or was.
    pub thread: Thread,
    /// The bearings of marks that were taken for a fix.
    pub bearings: Bearings,
    /// The lines of the traced legs, on the chart's grid.
    pub(crate) tracks: Tracks,
    /// Practice: the record, and the sitting.
    pub practice: Practice,
    /// What is being done beside the loop.
    pub work: Work,
    /// The keys in force.
    pub keymap: Keymap,
    /// The paces that the reader has kept, as they were when the program was started.
    pub profiles: Vec<Profile>,
    /// The day on which the program was started.
    pub today: Date,
    /// The time zone of clock times while the route has no departure that says it.
    pub zone: TimeZone,
    /// Whether the program leaves as soon as the route is saved.
    pub(crate) leaving: bool,
    /// Whether the last change was a nudge, which the next one of the same waypoint joins.
    pub(crate) nudging: bool,
}

/// Whether the route may be changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Access {
    /// It may.
    Full,
    /// It may not, and why.
    ReadOnly(String),
}

/// How the last save went.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Saving {
    /// All is on disk, or is about to be.
    #[default]
    Well,
    /// It failed; this is why. It is tried again.
    Failed(String),
    /// It failed, and the reader asked to leave: asked again, the program leaves without it.
    FailedLeaving(String),
}

/// What the program says in a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Message {
    /// How much it matters.
    pub tone: Tone,
    /// The words.
    pub text: String,
}

/// How much a message matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// A word about what was done.
    Word,
    /// Something that could not be done.
    Refusal,
}

/// What the reader set, kept for the next start.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Settings {
    /// The figures of grid references.
    pub figures: Figures,
    /// How latitudes and longitudes are written.
    pub angles: AngleForm,
    /// Whether names are shown.
    pub names: bool,
    /// Whether grid lines are shown.
    pub grid: bool,
    /// Whether streams are drawn as arrows.
    pub streams: bool,
    /// Whether the leg strip is open; nothing where the reader leaves it to the size of the screen.
    pub leg_strip: Option<bool>,
    /// What the chart is drawn with.
    pub dots: DotSet,
    /// How large the pages of a card are.
    pub card: paper::card::Size,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            figures: Figures::Six,
            angles: AngleForm::default(),
            names: true,
            grid: true,
            streams: true,
            leg_strip: None,
            dots: DotSet::default(),
            // Legible on a deck, and with room for a day.
            card: paper::card::Size::A5,
        }
    }
}

impl State {
    /// The state in which `document` is first seen on `chart`, on a screen of `size`: all of the
    /// chart, with the cursor on the water.
    pub fn new(
        size: Size,
        chart: Arc<Chart>,
        document: Document,
        keymap: Keymap,
        now: &ZonedDateTime,
    ) -> State {
        let shores = Arc::new(Shores::of(Arc::new(Coast::of(&chart))));
        State::on(size, (chart, shores), document, keymap, now)
    }

    /// The same on a chart whose shores are indexed already.
    pub fn on(
        size: Size,
        (chart, shores): (Arc<Chart>, Arc<Shores>),
        document: Document,
        keymap: Keymap,
        now: &ZonedDateTime,
    ) -> State {
        let view = View::fit(chart.extent, Cells::default());
        let departs = document.route().departure.as_ref().map(|at| at.moment().timestamp());
        let tides = Tides::of(&chart).map(Arc::new);
        let wet = Wet::of(&chart, tides.as_deref().ok());
        let mut state = State {
            size,
            cursor: sea(&chart, shores.full()),
            shapes: Arc::new(Shapes::new(&chart)),
            shores,
            tides,
            moment: Moment::first(departs, now.timestamp(), wet),
            strip: Layout::new(size, Shown::default()).shape.has_column(),
            sailing: Sailing::default(),
            starts: StartsFound::default(),
            unrolled: None,
            chart,
            document,
            access: Access::Full,
            saving: Saving::Well,
            view,
            hand: Hand::Look,
            chosen: None,
            held: None,
            overlays: Vec::new(),
            message: None,
            settings: Settings::default(),
            thread: Thread::default(),
            bearings: Bearings::default(),
            tracks: Tracks::default(),
            practice: Practice::default(),
            work: Work::default(),
            keymap,
            profiles: Vec::new(),
            today: now.date(),
            zone: now.time_zone().clone(),
            leaving: false,
            nudging: false,
        };
        state.view = View::fit(state.chart.extent, state.cells());
        state.follow_tracks();
        crate::update::follow_moment(&mut state);
        if let Err(why) = &state.tides {
            let why = why.to_string();
            state.refuse(why);
        }
        state
    }

    /// The date for which variation is taken: the day of departure, else today.
    pub fn year(&self) -> DecimalYear {
        let departure = self.document.route().departure.as_ref();
        DecimalYear::from_date(departure.map_or(self.today, |at| at.moment().date()))
    }

    /// How far apart the dots of the drawing lie, across and down, in metres.
    pub fn dot(&self) -> (f64, f64) {
        let (across, down) = self.settings.dots.size();
        (
            self.view.metres_per_column / f64::from(across),
            self.view.metres_per_row() / f64::from(down),
        )
    }

    /// A tenth of a square of the grid as it is drawn, in metres.
    pub fn tenth(&self) -> f64 {
        draw::grid_interval(&self.view, &self.chart.grid) / 10.0
    }

    /// Opens or closes the leg strip as the settings have it, if they say so and there is room.
    pub fn take_strip_as_set(&mut self) {
        let Some(open) = self.settings.leg_strip else { return };
        self.strip = open;
        self.strip &= !self.layout().strip.is_empty();
    }

    /// Where everything stands on the screen.
    pub fn layout(&self) -> Layout {
        let drill = (self.hand == Hand::Drill).then(|| crate::view::drill_rows(self));
        Layout::new(self.size, Shown { water: self.tides().is_some(), strip: self.strip, drill })
    }

    /// The whole shore, on which lines are laid and measured.
    pub fn coast(&self) -> &Arc<Coast> {
        self.shores.full()
    }

    /// What has the keys.
    pub fn context(&self) -> Context {
        match (self.overlays.last(), &self.hand) {
            (Some(overlay), _) => overlay.context(),
            (None, Hand::Look) => Context::Look,
            (None, Hand::Plot { carried: None }) => Context::Plot,
            (None, Hand::Plot { carried: Some(_) }) => Context::Carry,
            (None, Hand::Trace { carried: None }) => Context::Trace,
            (None, Hand::Trace { carried: Some(_) }) => Context::Anchor,
            (None, Hand::Fix) => Context::Fix,
            (None, Hand::Drill) => self.practice.context(),
        }
    }

    /// Why the route may not be changed; nothing if it may.
    pub fn read_only(&self) -> Option<&str> {
        match &self.access {
            Access::Full => None,
            Access::ReadOnly(why) => Some(why),
        }
    }

    /// Whether everything that was done is on disk.
    pub fn is_saved(&self) -> bool {
        self.document.is_saved() || self.read_only().is_some()
    }

    /// The size of the drawing within the chart's frame.
    pub fn cells(&self) -> Cells {
        let sea = self.layout().sea();
        Cells { columns: sea.width, rows: sea.height }
    }

    pub(crate) fn say(&mut self, text: impl Into<String>) {
        self.message = Some(Message { tone: Tone::Word, text: text.into() });
    }

    pub(crate) fn refuse(&mut self, text: impl Into<String>) {
        self.message = Some(Message { tone: Tone::Refusal, text: text.into() });
    }
}

/// Sea to begin on: the middle of the chart, or the first sea met on widening rings around it.
fn sea(chart: &Chart, coast: &Coast) -> Point {
    let middle = chart.extent.center();
    let step = chart.extent.width().min(chart.extent.height()) / 50.0;
    let ring = |ring: u8| {
        (0..8_u8).map(move |eighth| {
            let (sin, cos) = (std::f64::consts::FRAC_PI_4 * f64::from(eighth)).sin_cos();
            middle + Point { x: cos, y: sin } * (step * f64::from(ring))
        })
    };
    // Water with a shore all around it is a lake.
    let mut around = Vec::new();
    let mut is_sea = |point: &Point| {
        coast.rings_around(*point, &mut around);
        around.is_empty() && chart.whereabouts(coast, *point).on == On::Water
    };
    (0..25).flat_map(ring).find(|point| is_sea(point)).unwrap_or(middle)
}

#[cfg(test)]
mod tests {
    use super::*;
    use chart::Ring;
    use chart::model::Land;

    /// A lake in the middle of the chart, land around it, and the sea around that.
    #[test]
    fn the_cursor_begins_on_the_sea_and_not_in_a_lake() {
        let chart = chart::practice().unwrap();
        let (middle, width) = (chart.extent.center(), chart.extent.width());
        let square = |part: f64| {
            let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
            let corner = |(x, y)| middle + Point { x, y } * (width * part);
            Ring(corners.map(corner).to_vec())
        };
        let land = Land { name: String::new(), shore: square(0.1), lakes: vec![square(0.05)] };
        let chart = Chart { land: vec![land], drying: Vec::new(), ..chart };
        let begins = sea(&chart, &Coast::of(&chart));
        let off = begins - middle;
        assert!(off.x.abs().max(off.y.abs()) > 0.1 * width, "{begins:?}");
    }
}
