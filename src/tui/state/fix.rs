//! Bearings of marks, and the fix that they give.
//!
//! The bearings as they were read, and the marks, are what a hand has set, with a history of their own. The fix follows
//! from them and from the route's variation whenever it is asked for: nothing of it is kept.

use chart::Point;
use nav::fix::{self, Fix, FixError, HAND_COMPASS, Reach, Sight};
use nav::{Bearing, GridNorth, Length, Magnetic, OutOfRange, Position, True, Turn, geodesic};

use super::State;

/// How near the cursor has to be to a mark to catch it, in columns.
const CATCH: f64 = 2.0;

/// The most bearings of a fix.
pub const MOST_BEARINGS: usize = 12;

/// How far off bearings may be said to be, in degrees.
pub(crate) const ERRORS: std::ops::RangeInclusive<f64> = 0.0..=15.0;

/// The bearings that were taken.
#[derive(Debug, Clone, PartialEq)]
pub struct Bearings {
    taken: Vec<Taken>,
    /// What was taken before, the last change last.
    past: Vec<Vec<Taken>>,
    /// What was taken back.
    future: Vec<Vec<Taken>>,
    /// Which of them is chosen.
    pub chosen: Option<usize>,
    /// How far off each may be.
    pub error: Turn,
}

impl Default for Bearings {
    fn default() -> Bearings {
        Bearings {
            taken: Vec::new(),
            past: Vec::new(),
            future: Vec::new(),
            chosen: None,
            error: HAND_COMPASS,
        }
    }
}

/// A bearing of a mark.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// The mark.
    pub mark: Mark,
    /// Its bearing from the boat.
    pub read: Read,
}

/// What a bearing is taken of.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Where it is on the chart's grid.
    pub at: Point,
    /// Where it is.
    pub position: Position,
    /// Its name, or its grid reference.
    pub name: String,
    /// Whether it has a name, and is not any place.
    pub named: bool,
}

/// A bearing as it was read off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Read {
    /// From true north.
    True(Bearing<True>),
    /// From the lines of the grid.
    Grid(Bearing<GridNorth>),
    /// From the north of a compass.
    Magnetic(Bearing<Magnetic>),
}

impl std::fmt::Display for Read {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Read::True(bearing) => bearing.fmt(f),
            Read::Grid(bearing) => bearing.fmt(f),
            Read::Magnetic(bearing) => bearing.fmt(f),
        }
    }
}

impl Read {
    /// The figures and the letter of its north, as they are typed: `132.5M`.
    pub fn typed(self) -> String {
        match self {
            Read::True(bearing) => format!("{}T", bearing.as_degrees()),
            Read::Grid(bearing) => format!("{}G", bearing.as_degrees()),
            Read::Magnetic(bearing) => format!("{}M", bearing.as_degrees()),
        }
    }
}

/// The fix of the bearings that were taken.
#[derive(Debug, Clone, PartialEq)]
pub struct Fixed {
    /// The lines, from true north.
    pub sights: Vec<Sight>,
    /// Where they cross, and how large the triangle is.
    pub fix: Fix,
    /// The widest angle at which two of them cut.
    pub cut: Turn,
    /// How far it moves if each is off by as much as is said.
    pub reach: Reach,
    /// For each, whether it crosses the others behind the mark's back, as a bearing does that was taken the other way round.
    pub turned: Vec<bool>,
}

impl Bearings {
    /// Bearings that were taken before, without a history.
    pub(crate) fn again(taken: Vec<Taken>, error: Turn) -> Bearings {
        Bearings { taken, error, ..Bearings::default() }
    }

    /// The bearings, in the order in which they were taken.
    pub fn taken(&self) -> &[Taken] {
        &self.taken
    }

    /// Whether there is a change to take back.
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is a change that was taken back.
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// Changes what is taken. What was taken back before is forgotten.
    pub(crate) fn change(&mut self, change: impl FnOnce(&mut Vec<Taken>)) {
        let before = self.taken.clone();
        change(&mut self.taken);
        if self.taken != before {
            self.past.push(before);
            self.future.clear();
        }
        self.chosen = self.chosen.filter(|index| *index < self.taken.len());
    }

    /// Takes the last change back, or makes it again. Whether there was one.
    pub(crate) fn step(&mut self, back: bool) -> bool {
        let (from, to) = match back {
            true => (&mut self.past, &mut self.future),
            false => (&mut self.future, &mut self.past),
        };
        let Some(taken) = from.pop() else { return false };
        to.push(std::mem::replace(&mut self.taken, taken));
        self.chosen = None;
        true
    }

    /// The bearing of a mark that stands at this point.
    pub fn of(&self, at: Point) -> Option<usize> {
        self.taken.iter().position(|taken| taken.mark.at == at)
    }
}

impl State {
    /// What the cursor takes a bearing of: the nearest mark, landing, name or waypoint within reach, else the place itself. Nothing
    /// where the grid does not reach.
    pub fn sighted(&self) -> Option<Mark> {
        // What stands on one spot with a mark is less to be taken a bearing of, and the middle of a race nothing at all.
        let taken = self.bearings.taken.iter().map(|it| (it.mark.at, it.mark.name.clone(), 0));
        let named = self.chart.named().filter(|it| it.what != "race");
        let named = named.map(|it| {
            let rank = if it.what == "mark" { 1 } else { 2 };
            (it.at, it.name.to_owned(), rank)
        });
        let waypoints =
            self.document.route().points.iter().enumerate().filter_map(|(index, it)| {
                let name = match it.name.as_str() {
                    "" => format!("waypoint {}", index + 1),
                    name => name.to_owned(),
                };
                Some((self.point_of(it.at)?, name, 3))
            });
        let near = taken.chain(named).chain(waypoints).map(|(at, name, rank)| {
            let columns = self.columns_between(at, self.cursor);
            (columns, rank, at, name)
        });
        let near = near.filter(|it| it.0 <= CATCH);
        let nearest = near.min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let (at, name) = match nearest {
            Some((.., at, name)) => (at, Some(name)),
            None => (self.cursor, None),
        };
        let (position, named) = (self.position_of(at)?, name.is_some());
        let name = name.unwrap_or_else(|| crate::view::reference(self, position));
        Some(Mark { at, position, name, named })
    }

    /// The bearing that an action on one means: the one of the mark under the cursor, else the one chosen.
    pub fn aimed_bearing(&self) -> Option<usize> {
        let near = |taken: &Taken| self.columns_between(taken.mark.at, self.cursor) <= CATCH;
        let chosen = self.bearings.chosen;
        let on_chosen = chosen.filter(|index| self.bearings.taken.get(*index).is_some_and(near));
        on_chosen.or_else(|| self.bearings.taken.iter().position(near)).or(chosen)
    }

    /// The fix of the bearings taken, or why they make none; nothing for fewer than two.
    pub fn fixed(&self) -> Option<Result<Fixed, FixError>> {
        (self.bearings.taken.len() > 1).then(|| self.fix_of(&self.bearings.taken))
    }

    /// The bearings are told from true north first where their marks are, then where the boat is found: what a compass reads
    /// there is what was read.
    fn fix_of(&self, taken: &[Taken]) -> Result<Fixed, FixError> {
        let mut sights: Vec<Sight> = taken.iter().map(|it| self.sight(it, None)).collect();
        let mut found = fix::fix(&sights)?;
        for _ in 0..2 {
            sights = taken.iter().map(|it| self.sight(it, Some(found.position))).collect();
            found = fix::fix(&sights)?;
        }
        Ok(Fixed {
            fix: found,
            cut: fix::cut(&sights),
            reach: fix::reach(&sights, found.position, self.bearings.error)?,
            turned: sights.iter().map(|sight| !is_seen(sight, found.position)).collect(),
            sights,
        })
    }

    /// A bearing from true north: at the mark, or at the place that it was taken from.
    pub fn sight(&self, taken: &Taken, from: Option<Position>) -> Sight {
        let mark = taken.mark.position;
        let at_mark = Sight { mark, bearing: self.true_bearing(taken.read, mark) };
        match from.filter(|from| is_seen(&at_mark, *from)) {
            Some(from) => Sight { mark, bearing: self.true_bearing(taken.read, from) },
            None => at_mark,
        }
    }

    fn true_bearing(&self, read: Read, at: Position) -> Bearing<True> {
        match read {
            Read::True(bearing) => bearing,
            Read::Magnetic(bearing) => {
                let variation = self.document.route().variation.at(at, self.year()).variation;
                bearing.to_true(variation)
            }
            Read::Grid(bearing) => {
                let convergence = self.chart.grid.forward(at).map(|on| on.convergence);
                bearing.to_true(convergence.unwrap_or_default())
            }
        }
    }
}

/// Whether a sight is the bearing of the mark from a place, and not that of the place from the mark.
fn is_seen(sight: &Sight, from: Position) -> bool {
    let line = geodesic::inverse(from, sight.mark);
    let off = |bearing: Bearing<True>| bearing.turn_to(sight.bearing).as_degrees().abs();
    off(line.bearing_at_start) <= off(line.bearing_at_end.back())
}

/// A bearing as it is typed: figures, and the letter of its north, `M` if there is none.
///
/// # Errors
/// What is wrong with it, and what would be right.
pub(crate) fn read(text: &str) -> Result<Read, String> {
    let text = text.trim();
    let wrong = || match text {
        "" => "write the bearing from you to it: 132, or 132T, 132G, 132M".to_owned(),
        _ => format!("“{text}” is no bearing; write 132, or 132T, 132G, 132M"),
    };
    let bare = text.trim_end_matches(|c: char| c.is_ascii_alphabetic());
    let figures = bare.trim_end().trim_end_matches('°').trim_end();
    let degrees: f64 = figures.replace(',', ".").parse().map_err(|_| wrong())?;
    if !(0.0..=360.0).contains(&degrees) {
        return Err(format!("a bearing of {degrees}° is not within 0° to 360°"));
    }
    let told = |error: OutOfRange| error.to_string();
    match &text[bare.len()..] {
        "" | "m" | "M" => Bearing::from_degrees(degrees).map(Read::Magnetic).map_err(told),
        "t" | "T" => Bearing::from_degrees(degrees).map(Read::True).map_err(told),
        "g" | "G" => Bearing::from_degrees(degrees).map(Read::Grid).map_err(told),
        _ => Err(wrong()),
    }
}

impl Fixed {
    /// How large the triangle of three lines or more is; nothing for two.
    pub fn triangle(&self) -> Option<Length> {
        (self.sights.len() > 2).then_some(self.fix.error)
    }
}
