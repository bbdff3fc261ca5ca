//! Where the user left off.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use practice::set::{Changed, Set};
use serde::{Deserialize, Serialize};

use crate::error::shown;
use crate::read::{self, Kind};
use crate::{FileError, Folders, Overwrite, Source, Why, save_text};

/// What the next start takes up again. All of it may be missing: it is a convenience, and a
/// program that starts without is none the worse.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Session {
    /// The chart that was open; nothing for the built-in one.
    pub chart: Option<PathBuf>,
    /// The route that was open.
    pub route: Option<PathBuf>,
    /// By the title of a chart: what was seen of it.
    pub seen: BTreeMap<String, Seen>,
    /// By the title of a chart: the trace on it that is no part of a route.
    pub traces: BTreeMap<String, KeptTrace>,
    /// By the title of a chart: the bearings on it that were taken for a fix.
    pub bearings: BTreeMap<String, KeptBearings>,
    /// By the title of a chart: the practice on it that was begun and not ended.
    pub sittings: BTreeMap<String, KeptSitting>,
    /// By the title of a coach's set: the set that was begun and not ended.
    pub sets: BTreeMap<String, KeptSet>,
    /// The user's choices, by name.
    pub settings: BTreeMap<String, String>,
}

/// What was seen of a chart, in metres on its grid.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Seen {
    /// The middle of the view.
    pub centre: (f64, f64),
    /// How much a column showed.
    pub metres_per_column: f64,
    /// Where the cursor stood.
    pub cursor: (f64, f64),
}

/// A trace along a shore: the points clicked, and how the line is laid by them.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct KeptTrace {
    /// The points clicked, in order.
    pub clicks: Vec<KeptClick>,
    /// How far off the shore the line is laid, in metres.
    pub stand_off_m: f64,
    /// The step that smooths it, in metres; zero for every vertex.
    pub step_m: f64,
}

/// A point clicked.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct KeptClick {
    /// Its latitude in degrees on WGS 84.
    pub lat: f64,
    /// Its longitude.
    pub lon: f64,
    /// Whether it lies off the shore.
    pub free: bool,
    /// Whether the piece that ends here runs the longer way round.
    pub other_way: bool,
}

/// Bearings of marks for a fix.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct KeptBearings {
    /// The bearings, in the order in which they were taken.
    pub taken: Vec<KeptBearing>,
    /// How far off each may be, in degrees; the usual where there is nothing.
    pub off_deg: Option<f64>,
}

/// A bearing of a mark.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct KeptBearing {
    /// Where the mark is, in metres on the chart's grid.
    pub at: (f64, f64),
    /// Its name, or its grid reference.
    pub name: String,
    /// Whether it has a name.
    pub named: bool,
    /// Its bearing from the boat as it is typed, with the letter of its north: `132.5M`.
    pub read: String,
}

/// A session that could not be used, and where it was put.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("where you left off could not be read and was set aside as {to}: {why}")]
pub struct SetAside {
    /// The name that the file was given.
    pub to: String,
    /// What was wrong with it.
    pub why: String,
}

/// Practice that was begun and not ended. What was answered is in the record of practice, too.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct KeptSitting {
    /// How many minutes it lasts, if it goes by time.
    pub minutes: Option<u16>,
    /// How many questions it has, if it does not.
    pub questions: Option<usize>,
    /// The kinds of exercise by their names; none for what is due.
    pub kinds: Vec<String>,
    /// How hard, from 1 to 3, where it is of kinds.
    pub level: u8,
    /// What its questions are thrown from, where it is of kinds.
    pub seed: u64,
    /// How many seconds are left of its time.
    pub left_s: Option<i64>,
    /// What was answered in it, as a record of practice is written.
    pub answered: String,
    /// The question that stood.
    pub asked: Option<KeptQuestion>,
}

/// A coach's set that was begun and not ended.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct KeptSet {
    /// The set as [`practice::set::write`] writes it, so that it is known whether it was changed since, and can be gone on with without
    /// its file.
    pub text: String,
    /// The title of its chart.
    pub chart: String,
    /// The chart's checksum: see [`sum_of`](crate::sum_of).
    pub sum: u32,
    /// How far it is.
    pub sitting: KeptSitting,
}

impl KeptSet {
    /// What was changed since it was left, if it is opened as this set on the chart of this checksum.
    #[must_use]
    pub fn changed(&self, set: &Set, sum: u32) -> Option<Changed> {
        match practice::set::read(&self.text) {
            Ok(left) if left == *set => (self.sum != sum).then_some(Changed::Chart),
            _ => Some(Changed::Set),
        }
    }
}

/// A question that stood, by what it takes to put it again.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct KeptQuestion {
    /// The name of its kind.
    pub kind: String,
    /// How hard it is, from 1 to 3.
    pub level: u8,
    /// What it was thrown from.
    pub seed: u64,
    /// How many of its hints were shown.
    pub hints: usize,
    /// What was written of the answer.
    pub draft: String,
}

const SESSION: Kind = Kind { what: "session", most: 64 << 20, hint: "" };

/// More charts than anybody goes back to; the view of one is soon found again.
const MOST_SEEN: usize = 200;

/// More than anybody practises on by turns, and than a sitting has answers: together well below what a session may have.
const MOST_SITTINGS: usize = 20;
const MOST_ANSWERED: usize = 512 << 10;
/// More than anybody works on by turns; as it is written a set is always shorter than this.
const MOST_SETS: usize = 8;
const MOST_SET_TEXT: usize = 64 << 10;

impl Session {
    /// The session that was kept last, or an empty one with a word about why.
    pub fn open(folders: &Folders) -> (Session, Option<SetAside>) {
        let path = folders.session();
        let text = match read::text(Source::from(&path), SESSION) {
            Ok(text) => text,
            Err(FileError { why: Why::Missing, .. }) => return (Session::default(), None),
            Err(error) => {
                return (Session::default(), Some(set_aside(&path, error.why.to_string())));
            }
        };
        match ron::from_str::<Session>(&text) {
            Ok(session) => (session.usable(), None),
            Err(error) => (Session::default(), Some(set_aside(&path, error.to_string()))),
        }
    }

    /// Keeps the session for the next start.
    ///
    /// # Errors
    /// [`FileError`] when it cannot be written.
    pub fn keep(&self, folders: &Folders) -> Result<(), FileError> {
        let path = folders.session();
        let fail = |why| FileError::new(&path, why);
        fs::create_dir_all(&folders.state).map_err(|error| fail(Why::Unwritable(error)))?;
        let pretty = ron::ser::PrettyConfig::new();
        let text = ron::ser::to_string_pretty(self, pretty)
            .map_err(|error| fail(Why::Contents(error.to_string())))?;
        save_text(&path, &text, Overwrite::Yes)
    }

    /// Takes note of the practice on a chart that was begun and not ended, or that there is none.
    pub fn lay_down(&mut self, chart_title: &str, sitting: Option<KeptSitting>) {
        self.sittings.remove(chart_title);
        let Some(sitting) = sitting.filter(|it| it.answered.len() <= MOST_ANSWERED) else { return };
        while self.sittings.len() >= MOST_SITTINGS {
            self.sittings.pop_first();
        }
        self.sittings.insert(chart_title.to_owned(), sitting);
    }

    /// Takes note of the set of this title that was begun and not ended, or that it is not.
    pub fn lay_down_set(&mut self, title: &str, set: Option<KeptSet>) {
        self.sets.remove(title);
        let fits = |it: &KeptSet| {
            it.text.len() <= MOST_SET_TEXT && it.sitting.answered.len() <= MOST_ANSWERED
        };
        let Some(set) = set.filter(fits) else { return };
        while self.sets.len() >= MOST_SETS {
            self.sets.pop_first();
        }
        self.sets.insert(title.to_owned(), set);
    }

    /// Without what no screen can show.
    fn usable(mut self) -> Session {
        self.seen.retain(|_, seen| seen.is_finite());
        while self.traces.len() > MOST_SEEN {
            self.traces.pop_first();
        }
        while self.bearings.len() > MOST_SEEN {
            self.bearings.pop_first();
        }
        while self.seen.len() > MOST_SEEN {
            self.seen.pop_first();
        }
        self
    }
}

impl Seen {
    fn is_finite(&self) -> bool {
        let Seen { centre, metres_per_column, cursor } = *self;
        [centre.0, centre.1, metres_per_column, cursor.0, cursor.1].iter().all(|n| n.is_finite())
            && metres_per_column > 0.0
    }
}

fn set_aside(path: &Path, why: String) -> SetAside {
    let to = path.with_extension("ron.broken");
    // If it cannot be moved it will be written over, which is as well.
    let _ = fs::rename(path, &to);
    SetAside { to: shown(&to), why: chart::clean::clean(&why, chart::clean::NOTE) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn folders(home: &Path) -> Folders {
        let folder = |name| home.join(name);
        Folders {
            data: folder("data"),
            state: folder("state"),
            config: folder("config"),
            cache: folder("cache"),
        }
    }

    fn bearings() -> KeptBearings {
        let bearing = KeptBearing {
            at: (0.1 + 0.2, -4e5),
            name: "Saint Oran’s \"Light\"".to_owned(),
            named: true,
            read: "132.5M".to_owned(),
        };
        KeptBearings { taken: vec![bearing], off_deg: Some(2.5) }
    }

    fn session() -> Session {
        let seen = Seen { centre: (1.5, 2.0), metres_per_column: 40.0, cursor: (3.0, -4.0) };
        Session {
            chart: Some(PathBuf::from("a/b.ron")),
            seen: BTreeMap::from([("Ternhaven \"Sound\"".to_owned(), seen)]),
            settings: BTreeMap::from([("dots".to_owned(), "sextant".to_owned())]),
            bearings: BTreeMap::from([("Ternhaven \"Sound\"".to_owned(), bearings())]),
            ..Session::default()
        }
    }

    #[test]
    fn what_is_kept_is_found_again() {
        let home = tempfile::tempdir().unwrap();
        let folders = folders(home.path());
        assert_eq!(Session::open(&folders), (Session::default(), None));
        session().keep(&folders).unwrap();
        assert_eq!(Session::open(&folders), (session(), None));
    }

    /// As it was written before bearings were kept.
    #[test]
    fn an_older_session_opens() {
        let home = tempfile::tempdir().unwrap();
        let folders = folders(home.path());
        fs::create_dir_all(&folders.state).unwrap();
        let text = r#"(chart: Some("a/b.ron"), route: None, seen: {}, traces: {}, sittings: {}, sets: {},
            settings: {"dots": "sextant"})"#;
        fs::write(folders.session(), text).unwrap();
        let (session, word) = Session::open(&folders);
        assert_eq!((session.chart, word), (Some(PathBuf::from("a/b.ron")), None));
        assert!(session.bearings.is_empty());
    }

    #[test]
    fn practice_is_laid_down_by_chart_within_bounds() {
        let home = tempfile::tempdir().unwrap();
        let folders = folders(home.path());
        let mut session = session();
        let answered = "x".repeat(MOST_ANSWERED);
        let asked = Some(KeptQuestion { kind: "back".to_owned(), level: 1, ..Default::default() });
        let sitting = KeptSitting { answered, asked, left_s: Some(70), ..Default::default() };
        for chart in 0..50 {
            session.lay_down(&format!("Chart {chart:02}"), Some(sitting.clone()));
        }
        assert_eq!(session.sittings.len(), MOST_SITTINGS);
        assert!(session.sittings.contains_key("Chart 49"));
        session.keep(&folders).unwrap();
        assert_eq!(Session::open(&folders), (session.clone(), None));
        session.lay_down("Chart 49", None);
        let longer = KeptSitting { answered: "x".repeat(MOST_ANSWERED + 1), ..sitting };
        session.lay_down("Chart 48", Some(longer));
        assert_eq!(session.sittings.len(), MOST_SITTINGS - 2);
    }

    #[test]
    fn sets_are_laid_down_by_title_within_bounds() {
        let home = tempfile::tempdir().unwrap();
        let folders = folders(home.path());
        let mut session = session();
        let sitting = KeptSitting { answered: "x".repeat(MOST_ANSWERED), ..Default::default() };
        // What needs two characters where it is written.
        let text = "\n".repeat(MOST_SET_TEXT);
        let set = KeptSet { text, chart: "Chart".to_owned(), sum: 7, sitting };
        for week in 0..20 {
            session.lay_down_set(&format!("Week {week:02}"), Some(set.clone()));
        }
        assert_eq!(session.sets.len(), MOST_SETS);
        // With as much practice of other kinds as there may be it is read again.
        for chart in 0..MOST_SITTINGS {
            session.lay_down(&format!("Chart {chart:02}"), Some(set.sitting.clone()));
        }
        session.keep(&folders).unwrap();
        assert_eq!(Session::open(&folders), (session.clone(), None));
        let longer = KeptSet { text: "x".repeat(MOST_SET_TEXT + 1), ..set };
        session.lay_down_set("Week 19", Some(longer));
        session.lay_down_set("Week 18", None);
        assert_eq!(session.sets.len(), MOST_SETS - 2);
    }

    /// Two hundred questions with the longest titles, answered with the most to say, of as many parts as there may be.
    #[test]
    fn the_largest_set_is_kept_when_it_is_left() {
        let letters = "\u{1f6f6}".repeat(79);
        let part =
            "(kinds: [\"distance-eye\", \"to-magnetic\", \"bearing-eye\"], count: 4, level: 3),"
                .repeat(50);
        let comments = "// Read this first.\n".repeat(10_000);
        let text = format!("{comments}(version: 1, title: \"A{letters}\", parts: [{part}])");
        let set = practice::set::read(&text).unwrap();
        assert_eq!(set.count(), 200);
        let chart = chart::practice().unwrap();
        let coast = chart::coast::Coast::of(&chart);
        let question = set.question(&practice::Ground::new(&chart, &coast), 0).unwrap();
        let mut record = practice::memory::Record::default();
        for _ in 0..200 {
            let answered = practice::memory::Answered {
                off: "\"123° too far\", \"45° too far\"".to_owned(),
                hints: u32::MAX,
                ..practice::memory::Answered::new(
                    &question,
                    &format!("\"{letters}"),
                    None,
                    jiff::Timestamp::UNIX_EPOCH,
                    jiff::SignedDuration::from_secs(90_000),
                )
            };
            assert!(record.keep(answered.of_set(&set.title)));
        }
        let answered = practice::memory::write(&record);
        let sitting = KeptSitting { answered, ..KeptSitting::default() };
        let kept = KeptSet { text: practice::set::write(&set), sitting, ..KeptSet::default() };
        let mut session = session();
        session.lay_down_set(&set.title, Some(kept.clone()));
        assert_eq!(session.sets.get(&set.title), Some(&kept));
    }

    #[test]
    fn what_was_changed_of_a_set_is_told_apart() {
        let text = "(version: 1, title: \"T\", parts: [(kinds: [\"back\"], count: 1)])";
        let set = practice::set::read(text).unwrap();
        let kept = KeptSet { text: practice::set::write(&set), sum: 7, ..KeptSet::default() };
        assert_eq!(kept.changed(&set, 7), None);
        assert_eq!(kept.changed(&set, 8), Some(Changed::Chart));
        let edited = Set { seed: 9, ..set };
        assert_eq!(kept.changed(&edited, 7), Some(Changed::Set));
        assert_eq!(kept.changed(&edited, 8), Some(Changed::Set));
        assert_eq!(KeptSet::default().changed(&edited, 0), Some(Changed::Set));
    }

    #[test]
    fn a_broken_session_is_set_aside_and_never_stops_the_start() {
        let home = tempfile::tempdir().unwrap();
        let folders = folders(home.path());
        fs::create_dir_all(&folders.state).unwrap();
        for broken in [&b"(chart: Some("[..], b"\xFF\xFE", b"(seen: 5)"] {
            fs::write(folders.session(), broken).unwrap();
            let (session, word) = Session::open(&folders);
            assert_eq!(session, Session::default());
            assert!(word.unwrap().to_string().contains("session.ron.broken"));
            assert!(!folders.session().exists());
        }
    }

    #[test]
    fn what_later_versions_add_is_passed_over_and_nonsense_dropped() {
        let home = tempfile::tempdir().unwrap();
        let folders = folders(home.path());
        fs::create_dir_all(&folders.state).unwrap();
        let text =
            "(new: 5, seen: {\"C\": (centre: (NaN, 0), metres_per_column: 1, cursor: (0, 0))})";
        fs::write(folders.session(), text).unwrap();
        assert_eq!(Session::open(&folders), (Session::default(), None));
    }
}
