//! What lies on the desk: the chart, the route with its file, and where the reader left off.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use anyhow::{Context as _, anyhow};
use chart::clean::{NOTE, clean};
use chart::coast::Coast;
use chart::coast::detail::Shores;
use chart::trace::{MOST_STAND_OFF, MOST_STEP};
use chart::{Chart, Point, View};
use files::{
    Beside, Folders, KeptClick, KeptTrace, Lock, Progress, RouteFile, RouteLock, Seen, Session,
};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};
use nav::text::AngleForm;
use nav::{Figures, GridPoint, Length, Position};
use paper::card::Size;
use plan::{Departure, Document, Route, Through};
use practice::Plan;
use practice::memory::Answered;

use super::{Options, bearings, sittings};
use crate::action::Keymap;
use crate::job::Made;
use crate::state::{Access, Set, Settings, Thread};
use crate::{Msg, State};

/// What the runtime keeps beside the state.
pub(super) struct Desk {
    route: RouteFile,
    chart: Option<PathBuf>,
    /// What is practised at once; of a set chart and route are not those that the next start takes up.
    pub(super) begins: Option<Plan>,
    /// The checksum of the chart of the set that was opened.
    set_sum: Option<u32>,
    /// Held as long as the route may be written.
    _lock: Option<RouteLock>,
    folders: Option<Folders>,
    session: Session,
    cards: Beside,
}

/// Lays out chart and route as the options say, or as the reader left them.
pub(super) fn open(
    options: &Options,
    progress: &mut Progress<'_>,
) -> anyhow::Result<(State, Desk)> {
    let folders = Folders::of_user().ok();
    let (session, set_aside) = folders.as_ref().map(Session::open).unwrap_or_default();
    let (set, (chart, shores, chart_path)) = match &options.set {
        Some(path) => open_set(path)?,
        None => (None, open_chart(options, &session, folders.as_ref(), progress)?),
    };
    let route_path = route_path(options, &session, folders.as_ref(), &chart)?;
    let (access, lock) = access(&route_path);
    let now = now();
    let (file, route) = open_route(&route_path, &chart, &now)?;
    let document = Document::new(route)?;
    let keymap = keymap(options, folders.as_ref())?;
    let size = super::terminal::size()?;
    let mut state = State::on(size, (Arc::new(chart), shores), document, keymap, &now);
    state.access = access;
    state.settings = settings(&session, options);
    state.take_strip_as_set();
    // Without them a pace is typed as a speed; `compare --profiles` says what is wrong with the file.
    state.profiles =
        folders.as_ref().and_then(|at| files::open_profiles(at).ok()).unwrap_or_default();
    if let Some(seen) = session.seen.get(&state.chart.title) {
        let point = |(x, y)| Point { x, y };
        state.view = View::new(point(seen.centre), seen.metres_per_column);
        state.cursor = point(seen.cursor);
    }
    if let Some(set) = session.traces.get(&state.chart.title).and_then(|kept| set_of(&state, kept))
    {
        state.thread = Thread::of(set);
    }
    let kept = session.bearings.get(&state.chart.title);
    let taken = kept.and_then(|kept| bearings::take_out(&mut state, kept));
    let opened = set.as_ref().map(|(set, sum)| (set, *sum));
    let laid_down = sittings::take_out(&mut state, &session, opened, now.timestamp());
    let (set, set_sum) = set.unzip();
    if let Some(why) = state.read_only() {
        let why = format!("read-only: {why}");
        state.refuse(why);
    } else if let Some(set_aside) = set_aside {
        state.refuse(set_aside.to_string());
    } else if let Some(word) = laid_down.or(taken) {
        state.say(word);
    }
    Ok((
        state,
        Desk {
            route: file,
            chart: chart_path,
            set_sum,
            begins: set.map(Plan::Set),
            _lock: lock,
            folders,
            session,
            cards: Beside::default(),
        },
    ))
}

impl Desk {
    /// Saves the route and says what came of it.
    pub(super) fn save(&mut self, state: &State) -> Msg {
        match self.route.save(state.document.route()) {
            Ok(None) => Msg::Saved,
            Ok(Some(kept)) => Msg::SavedOver(clean(&kept.display().to_string(), NOTE)),
            Err(error) => Msg::SaveFailed(error.to_string()),
        }
    }

    /// Puts the card beside the route's file and says what came of it.
    pub(super) fn put_card(&mut self, Made { bytes, size, sides }: Made) -> Msg {
        match self.cards.save(&absolute(self.route.path()), "pdf", bytes) {
            Ok(path) => Msg::CardPut { path: clean(&from_home(&path), NOTE), size, sides },
            Err(error) => Msg::CardFailed(error.to_string()),
        }
    }

    /// What was ever answered in practice.
    pub(super) fn open_record(&self) -> Msg {
        let Some(folders) = &self.folders else {
            return Msg::Record(Err(files::NoHome.to_string()));
        };
        Msg::Record(files::open_results(folders).map(Arc::new).map_err(|error| error.to_string()))
    }

    /// Keeps what was answered in practice and says what came of it.
    pub(super) fn keep_result(&self, answered: Answered) -> Msg {
        let Some(folders) = &self.folders else {
            return Msg::ResultNotKept(files::NoHome.to_string());
        };
        match files::keep_result(folders, answered) {
            Ok(record) => Msg::ResultKept(Arc::new(record)),
            Err(error) => Msg::ResultNotKept(error.to_string()),
        }
    }

    /// Keeps where the reader left off.
    pub(super) fn keep_session(&mut self, state: &State) -> anyhow::Result<()> {
        let Some(folders) = &self.folders else { return Ok(()) };
        let pair = |point: Point| (point.x, point.y);
        let seen = Seen {
            centre: pair(state.view.centre),
            metres_per_column: state.view.metres_per_column,
            cursor: pair(state.cursor),
        };
        self.session.seen.insert(state.chart.title.clone(), seen);
        let title = state.chart.title.clone();
        match kept_trace(state) {
            Some(kept) => self.session.traces.insert(title, kept),
            None => self.session.traces.remove(&title),
        };
        let title = state.chart.title.clone();
        match bearings::kept(state) {
            Some(kept) => self.session.bearings.insert(title, kept),
            None => self.session.bearings.remove(&title),
        };
        sittings::keep(&mut self.session, state, self.set_sum, Timestamp::now());
        if self.set_sum.is_none() {
            self.session.chart = self.chart.as_deref().map(absolute);
            self.session.route = Some(absolute(self.route.path()));
        }
        self.session.settings.extend(kept_settings(&state.settings));
        self.session.keep(folders).context("where you left off could not be kept")
    }
}

/// The trace as a session keeps it; nothing without an anchor.
fn kept_trace(state: &State) -> Option<KeptTrace> {
    let set = state.thread.set();
    let clicks = state.clicks(set).filter(|clicks| !clicks.is_empty())?;
    let click = |click: &Through| KeptClick {
        lat: click.at.lat.as_degrees(),
        lon: click.at.lon.as_degrees(),
        free: click.free,
        other_way: click.other_way,
    };
    Some(KeptTrace {
        clicks: clicks.iter().map(click).collect(),
        stand_off_m: set.stand_off.as_metres(),
        step_m: set.step.as_metres(),
    })
}

/// What was kept of a trace, as far as it can be used.
fn set_of(state: &State, kept: &KeptTrace) -> Option<Set> {
    let click = |click: &KeptClick| {
        let at = Position::from_degrees(click.lat, click.lon).ok()?;
        Some(Through { at, free: click.free, other_way: click.other_way })
    };
    let clicks = kept.clicks.iter().map(click).collect::<Option<Vec<_>>>()?;
    let metres = |metres: f64, most: f64| {
        Length::from_metres(metres).ok().filter(|_| (0.0..=most).contains(&metres))
    };
    Some(Set {
        anchors: state.anchors_of(&clicks)?,
        stand_off: metres(kept.stand_off_m, MOST_STAND_OFF)?,
        step: metres(kept.step_m, MOST_STEP)?,
        leg: None,
    })
}

const FIGURES: &str = "figures";
const ANGLES: &str = "angles";
const NAMES: &str = "names";
const GRID: &str = "grid";
const DOTS: &str = "dots";
const STREAMS: &str = "streams";
const CARD: &str = "card";
const LEG_STRIP: &str = "leg strip";

/// The settings as a session keeps them.
fn kept_settings(settings: &Settings) -> impl Iterator<Item = (String, String)> {
    let Settings { figures, angles, names, grid, dots, streams, card, leg_strip } = settings;
    let shown = |shown: bool| if shown { "shown" } else { "hidden" }.to_owned();
    let set = [
        (FIGURES, (2 * figures.each()).to_string()),
        (ANGLES, angles.name().to_owned()),
        (NAMES, shown(*names)),
        (GRID, shown(*grid)),
        (DOTS, dots.name().to_owned()),
        (STREAMS, shown(*streams)),
        (CARD, card.name().to_owned()),
    ];
    let strip = leg_strip.map(|open| (LEG_STRIP, shown(open)));
    set.into_iter().chain(strip).map(|(name, value)| (name.to_owned(), value))
}

/// The settings of the session, as far as they can be read, with those of the options in place.
fn settings(session: &Session, options: &Options) -> Settings {
    let mut settings = Settings::default();
    let set = |name: &str| session.settings.get(name).map(String::as_str);
    let count = set(FIGURES).and_then(|count| count.parse::<usize>().ok());
    let figures = Figures::ALL.into_iter().find(|figures| Some(2 * figures.each()) == count);
    settings.figures = figures.unwrap_or(settings.figures);
    let angles = AngleForm::ALL.into_iter().find(|form| Some(form.name()) == set(ANGLES));
    settings.angles = angles.unwrap_or(settings.angles);
    settings.names = set(NAMES) != Some("hidden");
    settings.grid = set(GRID) != Some("hidden");
    settings.streams = set(STREAMS) != Some("hidden");
    let card = Size::ALL.into_iter().find(|size| Some(size.name()) == set(CARD));
    settings.card = card.unwrap_or(settings.card);
    settings.leg_strip = match set(LEG_STRIP) {
        Some("shown") => Some(true),
        Some("hidden") => Some(false),
        _ => None,
    };
    let dots = set(DOTS).and_then(|name| name.parse().ok());
    settings.dots = options.dots.or(dots).unwrap_or(settings.dots);
    settings
}

/// A chart with its shores, and its file where it has one.
type Opened = (Chart, Arc<Shores>, Option<PathBuf>);

/// A set with the checksum of its chart, and its chart.
type OpenedSet = (Option<(practice::set::Set, u32)>, Opened);

fn open_set(path: &Path) -> anyhow::Result<OpenedSet> {
    let files::OpenedSet { set, chart, sum, .. } = files::open_set(path)?;
    let shores = Shores::of(Arc::new(Coast::of(&chart)));
    Ok((Some((set, sum)), (chart, Arc::new(shores), None)))
}

/// The chart named, the one of the last time, or the built-in one; its shores, and its file.
fn open_chart(
    options: &Options,
    session: &Session,
    folders: Option<&Folders>,
    progress: &mut Progress<'_>,
) -> anyhow::Result<Opened> {
    let path = match (&options.chart, &options.route) {
        (Some(path), _) => Some(path.clone()),
        (None, None) => session.chart.clone().filter(|path| path.exists()),
        (None, Some(_)) => None,
    };
    match path {
        Some(path) => {
            let opened = files::open_coast(path.as_path(), folders, progress)?;
            Ok((opened.chart, opened.shores, Some(path)))
        }
        None => {
            let chart = chart::practice()?;
            let shores = Shores::of(Arc::new(Coast::of(&chart)));
            Ok((chart, Arc::new(shores), None))
        }
    }
}

/// The file of the route named, of the last time, or of the chart.
fn route_path(
    options: &Options,
    session: &Session,
    folders: Option<&Folders>,
    chart: &Chart,
) -> anyhow::Result<PathBuf> {
    if let Some(path) = &options.route {
        return Ok(path.clone());
    }
    // The last route goes with the last chart: without that chart's file, neither is taken up.
    let chart_there = session.chart.as_ref().is_none_or(|path| path.exists());
    if let (None, None, Some(path)) = (&options.set, &options.chart, &session.route)
        && chart_there
        && path.exists()
    {
        return Ok(path.clone());
    }
    let folders = folders.ok_or_else(|| anyhow!(files::NoHome))?;
    Ok(folders.route_for(&chart.title)?)
}

/// Whether the route at `path` may be written, and the lock that says so to others.
fn access(path: &Path) -> (Access, Option<RouteLock>) {
    match RouteLock::take(path) {
        Lock::Held(lock) => (Access::Full, Some(lock)),
        Lock::Busy(holder) => (Access::ReadOnly(holder.to_string()), None),
        Lock::Impossible(error) => {
            (Access::ReadOnly(format!("no lock can be kept beside the route: {error}")), None)
        }
    }
}

/// The route at `path`, which must be laid on `chart`; a new one if there is no file yet.
fn open_route(
    path: &Path,
    chart: &Chart,
    now: &ZonedDateTime,
) -> anyhow::Result<(RouteFile, Route)> {
    let (file, route) = RouteFile::open(path)?;
    let Some(route) = route else {
        let route = Route { departure: departure(chart, now), ..Route::new(&chart.title) };
        return Ok((file, route));
    };
    route.check_chart(chart).with_context(|| path.display().to_string())?;
    Ok((file, route))
}

/// Nine in the morning of the day after `now`, since plans are made the evening before: on the
/// clock of the place where it does not exist, else on the planner's own.
fn departure(chart: &Chart, now: &ZonedDateTime) -> Option<Departure> {
    let day = now.date().tomorrow().ok()?;
    if !chart.invented {
        return Departure::new(day.at(9, 0, 0, 0), now.time_zone().clone()).ok();
    }
    Departure::usual(day, middle(chart)?).ok()
}

/// The position in the middle of a chart.
pub(crate) fn middle(chart: &Chart) -> Option<Position> {
    let Point { x, y } = chart.extent.center();
    Some(chart.grid.inverse(GridPoint::from_metres(x, y).ok()?).ok()?.position)
}

/// The moment, in the system's time zone.
fn now() -> ZonedDateTime {
    Timestamp::now().to_zoned_datetime(TimeZone::try_system().unwrap_or(TimeZone::UTC))
}

/// The keys of the table, with those of the user's key file in their place.
fn keymap(options: &Options, folders: Option<&Folders>) -> anyhow::Result<Keymap> {
    let standard = Keymap::standard()?;
    let usual = folders.map(|folders| folders.config.join("keys.ron"));
    let path = match (&options.key_file, usual) {
        (Some(path), _) => path.clone(),
        (None, Some(path)) if path.exists() => path,
        (None, _) => return Ok(standard),
    };
    with_keys(&standard, &path)
}

/// `standard` with the keys of the file at `path` in their place.
pub(crate) fn with_keys(standard: &Keymap, path: &Path) -> anyhow::Result<Keymap> {
    let name = path.display();
    let text = std::fs::read_to_string(path).with_context(|| name.to_string())?;
    standard.with_file(&text).map_err(|error| anyhow!("{name}:{error}"))
}

/// A path in short, as a shell reads it: `~/day.pdf`.
fn from_home(path: &Path) -> String {
    let home = std::env::home_dir().filter(|home| home.parent().is_some());
    match home.and_then(|home| path.strip_prefix(home).ok().map(Path::to_path_buf)) {
        Some(rest) => Path::new("~").join(rest).display().to_string(),
        None => path.display().to_string(),
    }
}

fn absolute(path: &Path) -> PathBuf {
    std::path::absolute(path).unwrap_or_else(|_| path.to_path_buf())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn settings_are_found_as_they_were_kept() {
        let options = Options::default();
        let found = |session: &Session| settings(session, &options);
        // A session of before has no word about the leg strip, and one that is not understood is none.
        let mut session = Session::default();
        assert_eq!(found(&session), Settings::default());
        session.settings.insert(LEG_STRIP.to_owned(), "ajar".to_owned());
        assert_eq!(found(&session).leg_strip, None);
        for leg_strip in [Some(true), Some(false)] {
            let set = Settings { names: false, streams: false, leg_strip, ..Settings::default() };
            session.settings.extend(kept_settings(&set));
            assert_eq!(found(&session), set);
        }
    }
}
