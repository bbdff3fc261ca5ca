//! The starts of a day or of a fortnight, looked at one by one.

use std::sync::Arc;

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use plan::Route;
use plan::depart::{Start, Starts};
use ratatui::layout::Rect;

use crate::layout::window;

/// The days of a fortnight.
pub const FORTNIGHT: u8 = 14;

/// What is looked at in the departure strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StartsBox {
    /// The first day.
    pub first: Date,
    /// How many days: one, or [`FORTNIGHT`].
    pub days: u8,
    /// The start that is looked at; none until the starts are known.
    pub chosen: Option<Timestamp>,
}

/// What starts are asked for: the route but for its departure, and the days.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct StartsAsked {
    pub(crate) route: Route,
    pub(crate) zone: TimeZone,
    pub(crate) first: Date,
    pub(crate) days: u8,
}

/// The starts last asked for, and what came of it.
#[derive(Debug, Clone, Default)]
pub struct StartsFound {
    pub(crate) asked: Option<StartsAsked>,
    pub(crate) days: Option<Result<Arc<Vec<Starts>>, String>>,
}

impl StartsFound {
    /// The starts of each day; nothing until they are known.
    pub fn days(&self) -> Option<&[Starts]> {
        self.days.as_ref()?.as_ref().ok().map(|days| &days[..])
    }

    /// Why they cannot be told.
    pub fn wrong(&self) -> Option<&str> {
        self.days.as_ref()?.as_ref().err().map(String::as_str)
    }
}

impl StartsBox {
    /// Which day, and which start of it, is looked at.
    pub fn pick(&self, days: &[Starts]) -> Option<(usize, usize)> {
        let chosen = self.chosen?;
        let day = days.iter().position(|day| (day.from..day.to).contains(&chosen))?;
        let start = days.get(day)?.starts.partition_point(|start| start.at <= chosen);
        Some((day, start.checked_sub(1)?))
    }

    /// The start that is looked at, and its day.
    pub fn picked<'a>(&self, days: &'a [Starts]) -> Option<(&'a Starts, &'a Start)> {
        let (day, start) = self.pick(days)?;
        let day = days.get(day)?;
        Some((day, day.starts.get(start)?))
    }
}

/// Where the cells of the strip stand in the rows of its box.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StartsGrid {
    /// What stands before the cells: labels, or the days.
    pub labels: Rect,
    /// The hours along the top.
    pub hours: Rect,
    /// The cells, a row for each day; two rows for a single day.
    pub cells: Rect,
    /// What stands below.
    pub below: Rect,
    /// How much time a cell covers.
    pub slice: SignedDuration,
}

/// The columns before the cells.
const LABELS: u16 = 7;

/// The minutes that a cell may cover.
const SLICES: [i64; 6] = [10, 12, 15, 20, 30, 60];

impl StartsGrid {
    /// How `rows` are divided for so many days, of which as many are seen as there is room for.
    pub fn of(rows: Rect, days: u8) -> StartsGrid {
        let room = rows.width.saturating_sub(LABELS);
        let fits = |minutes: &&i64| 24 * 60 / **minutes <= i64::from(room);
        let slice = SLICES.iter().find(fits).copied().unwrap_or(60);
        let width = u16::try_from(24 * 60 / slice).unwrap_or(24).min(room);
        let x = rows.x.saturating_add(LABELS).min(rows.right());
        let least_below = if days > 1 { 6 } else { 10 };
        let wanted = if days > 1 { u16::from(days) } else { 2 };
        let height = wanted.min(rows.height.saturating_sub(1 + least_below)).max(1);
        let height = height.min(rows.height.saturating_sub(1));
        let hours = Rect { x, width, height: rows.height.min(1), ..rows };
        let y = hours.bottom();
        let cells = Rect { x, y, width, height };
        let below = Rect {
            y: cells.bottom(),
            height: rows.bottom().saturating_sub(cells.bottom()),
            ..rows
        };
        let labels = Rect { y, width: LABELS.min(rows.width), height, ..rows };
        StartsGrid { labels, hours, cells, below, slice: SignedDuration::from_mins(slice) }
    }

    /// The first day that is shown, of so many, so that the one that is looked at is seen.
    pub fn first(&self, looked_at: Option<usize>, days: usize) -> usize {
        window(days, looked_at.unwrap_or(0), self.cells.height)
    }

    /// The column of the cells, from their left, in which an instant of a day falls.
    pub fn column(&self, day: &Starts, at: Timestamp) -> Option<u16> {
        let past = at.duration_since(day.from).as_secs();
        let column = u16::try_from(past / self.slice.as_secs().max(1)).ok()?;
        (past >= 0 && column < self.cells.width).then_some(column)
    }

    /// The first instant of the cell in a column.
    pub fn instant(&self, day: &Starts, column: u16) -> Option<Timestamp> {
        let at = day.from.checked_add(self.slice * i32::from(column)).ok()?;
        (at < day.to).then_some(at)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_fit_every_size_and_are_as_fine_as_there_is_room_for() {
        for width in 0..200 {
            for height in 0..60 {
                for days in [1, FORTNIGHT] {
                    let rows = Rect::new(3, 2, width, height);
                    let grid = StartsGrid::of(rows, days);
                    for part in [grid.labels, grid.hours, grid.cells, grid.below] {
                        assert_eq!(part.intersection(rows), part, "{width}x{height} {part:?}");
                    }
                    assert!(
                        !grid.cells.intersects(grid.below) && !grid.cells.intersects(grid.hours)
                    );
                }
            }
        }
        let minutes = |width| StartsGrid::of(Rect::new(0, 0, width, 40), 1).slice.as_mins();
        assert_eq!((minutes(151), minutes(103), minutes(79), minutes(55)), (10, 15, 20, 30));
    }
}
