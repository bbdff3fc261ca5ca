//! What the screen shows after some keys, without a terminal.

use std::ops::ControlFlow;
use std::path::PathBuf;
use std::sync::Arc;

use anyhow::Context as _;
use chart::Chart;
use chart::coast::Coast;
use chart::coast::detail::Shores;
use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use plan::{Departure, Document, Route};
use practice::Plan;
use ratatui::buffer::Buffer;
use ratatui::layout::Size;

use crate::action::Keymap;
use crate::driver::Driver;
use crate::glyphs::DotSet;
use crate::runtime::{middle, with_keys};
use crate::theme::{Colours, Theme, Tone};
use crate::{Msg, State, picture};

/// What is drawn without a terminal.
#[derive(Debug, Clone, Default)]
pub struct Shot {
    /// The chart's file; without one the built-in chart.
    pub chart: Option<PathBuf>,
    /// The route's file; without one a route without points. It is not changed.
    pub route: Option<PathBuf>,
    /// A coach's exercise set, which is begun on its own chart.
    pub set: Option<PathBuf>,
    /// The record of practice; without one nothing was practised. It is not changed.
    pub results: Option<PathBuf>,
    /// The user's keys; without one those of the table.
    pub key_file: Option<PathBuf>,
    /// The size of the screen.
    pub size: (u16, u16),
    /// The keys pressed before, as [`script`](crate::action::script) reads them.
    pub keys: String,
    /// How many colours.
    pub colours: Colours,
    /// Light on dark or dark on light.
    pub tone: Tone,
    /// What the chart is drawn with.
    pub dots: DotSet,
}

/// The day on which a new route departs here, where there is no clock: one in summer.
const DAY: Date = date(2026, 6, 14);

impl Shot {
    /// The screen after the keys. The same for the same files everywhere: no clock, no time
    /// zone, no session of the user's comes into it.
    ///
    /// # Errors
    /// When chart, route or keys cannot be read.
    pub fn take(&self) -> anyhow::Result<Buffer> {
        Ok(self.driver()?.buffer(&self.theme()))
    }

    /// The screen after the keys, to be driven on.
    ///
    /// # Errors
    /// As [`Shot::take`].
    pub fn driver(&self) -> anyhow::Result<Driver> {
        let mut begins = None;
        let chart = match (&self.set, &self.chart) {
            (Some(path), _) => {
                let files::OpenedSet { set, chart, .. } = files::open_set(path)?;
                begins = Some(Plan::Set(set));
                let shores = Shores::of(Arc::new(Coast::of(&chart)));
                (chart, Arc::new(shores))
            }
            (None, Some(path)) => {
                let opened =
                    files::open_coast(path.as_path(), None, &mut |_, _| ControlFlow::Continue(()))?;
                (opened.chart, opened.shores)
            }
            (None, None) => {
                let chart = chart::practice()?;
                let shores = Shores::of(Arc::new(Coast::of(&chart)));
                (chart, Arc::new(shores))
            }
        };
        let mut driver = Driver::new(self.state(chart)?);
        if let Some(path) = &self.results {
            driver.record = files::open_record(path)?;
        }
        // As on a terminal, whose size comes first: what follows from the route is found by it.
        driver.send(Msg::Resize(driver.state.size));
        if let Some(plan) = begins {
            driver.send(Msg::Practise(plan));
        }
        driver.keys(&self.keys).context("--keys")?;
        Ok(driver)
    }

    /// The screen after the keys, as a picture in SVG.
    ///
    /// # Errors
    /// As [`Shot::take`].
    pub fn svg(&self) -> anyhow::Result<String> {
        Ok(picture::svg(&self.take()?, &self.theme()))
    }

    /// The screen after the keys, as text.
    ///
    /// # Errors
    /// As [`Shot::take`].
    pub fn text(&self) -> anyhow::Result<String> {
        Ok(picture::text(&self.take()?))
    }

    fn theme(&self) -> Theme {
        Theme::new(self.tone, self.colours)
    }

    fn state(&self, (chart, shores): (Chart, Arc<Shores>)) -> anyhow::Result<State> {
        let departure = match middle(&chart) {
            Some(place) => Departure::usual(DAY, place)?,
            None => Departure::new(DAY.at(9, 0, 0, 0), TimeZone::UTC)?,
        };
        let now = departure.moment().clone();
        let route = match &self.route {
            Some(path) => {
                let route = files::open_route(path)?;
                route.check_chart(&chart).with_context(|| path.display().to_string())?;
                route
            }
            None => Route { departure: Some(departure), ..Route::new(&chart.title) },
        };
        let mut keymap = Keymap::standard()?;
        if let Some(path) = &self.key_file {
            keymap = with_keys(&keymap, path)?;
        }
        let (width, height) = self.size;
        let size = Size { width, height };
        let mut state =
            State::on(size, (Arc::new(chart), shores), Document::new(route)?, keymap, &now);
        state.settings.dots = self.dots;
        Ok(state)
    }
}
