//! A day of starts in cells, for whoever draws it.

use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::tide::Water;

use super::{Kind, Sky, Start, Starts, Verdict};

/// A day in cells of equal time, in order.
///
/// A start stands for the time up to the next one. A cell shows the worst of the starts that stand for a
/// part of it, so that a whole cell is good only where all of it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// The cells.
    pub cells: Vec<Cell>,
    /// How much time each covers.
    pub slice: SignedDuration,
    zone: TimeZone,
}

/// A slice of the day.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// When it begins.
    pub from: Timestamp,
    /// When the next one does.
    pub to: Timestamp,
    /// The worst verdict in it.
    pub verdict: Verdict,
    /// The weightiest reason of the start that has that verdict.
    pub kind: Option<Kind>,
    /// Whether the day's best start is in it.
    pub best: bool,
    /// Whether the day's latest acceptable start is in it.
    pub latest: bool,
    /// The high or low water in it at the landing's port.
    pub water: Option<Water>,
    /// What the sky is like in its middle.
    pub sky: Sky,
    /// Whether the first gate on the way is open in its middle; nothing without one.
    pub gate: Option<bool>,
}

impl Cell {
    /// The mark of the day's best start.
    pub const BEST: char = '*';
    /// The mark of the day's latest acceptable start.
    pub const LATEST: char = '<';

    /// Its mark, beside the shade of its verdict: that of the best or the latest start, else that of its
    /// reason, else none. A letter of every keyboard.
    pub fn mark(&self) -> Option<char> {
        match (self.best, self.latest) {
            (true, _) => Some(Cell::BEST),
            (_, true) => Some(Cell::LATEST),
            _ => self.kind.map(Kind::mark),
        }
    }
}

impl Strip {
    /// The day in cells of `slice`, at least a minute.
    pub fn of(day: &Starts, slice: SignedDuration) -> Strip {
        let slice = slice.max(SignedDuration::from_mins(1));
        let mut cells = Vec::new();
        let mut from = day.from;
        while from < day.to
            && let Ok(to) = from.checked_add(slice)
        {
            cells.extend(cell(day, from, to));
            from = to;
        }
        Strip { cells, slice, zone: day.zone.clone() }
    }

    /// Every `hours` on the clock, with the number of the cell that it falls in: `03`, `06`.
    pub fn hours(&self, hours: i8) -> Vec<(usize, String)> {
        let shown = |cell: &Cell| cell.from.to_zoned_datetime(self.zone.clone());
        let mut labels = Vec::new();
        let mut before = None;
        for (index, cell) in self.cells.iter().enumerate() {
            let hour = shown(cell).hour();
            if before != Some(hour) && hour % hours.max(1) == 0 {
                labels.push((index, format!("{hour:02}")));
            }
            before = Some(hour);
        }
        labels
    }
}

fn cell(day: &Starts, from: Timestamp, to: Timestamp) -> Option<Cell> {
    let every = day.every.duration();
    // A start stands for the time up to the next one.
    let first = day.starts.partition_point(|start| start.at + every <= from);
    let last = day.starts.partition_point(|start| start.at < to);
    let worst = day.starts.get(first..last)?.iter().max_by_key(|start| start.verdict)?;
    let within = |at: Timestamp| (from..to).contains(&at);
    let holds = |start: Option<&Start>| start.is_some_and(|start| within(start.at));
    let middle = from + to.duration_since(from) / 2;
    let water = day.waters.iter().find(|turn| within(turn.at)).map(|turn| turn.water);
    Some(Cell {
        from,
        to,
        verdict: worst.verdict,
        kind: worst.reasons.first().map(super::Reason::kind),
        best: holds(day.best()),
        latest: holds(day.latest()),
        water,
        sky: day.light.sky(middle),
        gate: day.gate.as_ref().map(|gate| gate.is_open(middle)),
    })
}
