//! Weeks drawn in characters: the same on the screen and on the command line.

use jiff::ToSpan;
use jiff::civil::Date;

/// Eight heights within a cell, the lowest first.
pub const BLOCKS: [char; 8] = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];

/// The same in characters of every keyboard, of four heights.
pub const PLAIN: [char; 8] = ['.', '.', ':', ':', '|', '|', '#', '#'];

/// How weeks are drawn as columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Columns {
    /// The heights within a cell: [`BLOCKS`] or [`PLAIN`].
    pub heights: [char; 8],
    /// How many rows are the whole height.
    pub rows: usize,
    /// How many cells a week is wide; of two and more the last stays free.
    pub wide: usize,
}

impl Columns {
    /// Values from 0 to 1, one for each week, in rows from the top. A week without one is free; one of nothing still has
    /// the lowest height.
    #[must_use]
    pub fn drawn(&self, values: &[Option<f64>]) -> Vec<String> {
        let cell = |value: &Option<f64>, row: usize| {
            let Some(value) = value else { return ' ' };
            let height = ((value * (8 * self.rows) as f64).round() as usize).max(1);
            match height.saturating_sub(8 * row) {
                0 => ' ',
                in_row => self.heights[in_row.min(8) - 1],
            }
        };
        let row = |row| {
            let week = |value| {
                let bar = cell(value, row).to_string().repeat(self.wide.max(2) - 1);
                if self.wide > 1 { bar + " " } else { bar }
            };
            values.iter().map(week).collect()
        };
        (0..self.rows).rev().map(row).collect()
    }

    /// The months under so many weeks, the last of them that of `monday`: each begins under the first week that begins in it,
    /// January as its year. What would touch the one before is left out.
    #[must_use]
    pub fn months(&self, monday: Date, weeks: usize) -> String {
        let mut line = String::new();
        let mut columns = 0;
        for (place, name) in months(monday, weeks) {
            let column = place * self.wide;
            if (columns == 0 || column > columns) && column + name.len() <= weeks * self.wide {
                line.push_str(&" ".repeat(column - columns));
                line.push_str(&name);
                columns = column + name.len();
            }
        }
        line
    }

    /// The line under so many weeks, with a tick where each month begins.
    #[must_use]
    pub fn axis(&self, monday: Date, weeks: usize) -> String {
        let mut line = vec!['─'; weeks * self.wide];
        for (place, _) in months(monday, weeks) {
            if let Some(tick) = line.get_mut(place * self.wide) {
                *tick = '┬';
            }
        }
        line.into_iter().collect()
    }
}

/// Shares in one letter a week, none as high as its row, so that rows stand apart; a dot for a week without.
#[must_use]
pub fn small(shares: &[Option<f64>]) -> String {
    let letter = |share: f64| BLOCKS[((share * 6.0).round() as usize).min(6)];
    shares.iter().map(|share| share.map_or('·', letter)).collect()
}

/// The weeks that are the first to begin in their months, with the months' names.
fn months(monday: Date, weeks: usize) -> Vec<(usize, String)> {
    let week = |place: usize| {
        let back = i64::try_from(weeks - 1 - place).ok()?.checked_mul(7)?;
        let monday = monday.checked_sub(back.days()).ok()?;
        let name = if monday.month() == 1 { "%Y" } else { "%b" };
        (monday.day() <= 7).then(|| (place, monday.strftime(name).to_string()))
    };
    (0..weeks).filter_map(week).collect()
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn columns_stand_as_high_as_their_values() {
        let values = [Some(0.0), None, Some(0.5), Some(0.55), Some(1.0)];
        let blocks = Columns { heights: BLOCKS, rows: 2, wide: 1 };
        assert_eq!(blocks.drawn(&values), ["   ▁█", "▁ ███"]);
        let plain = Columns { heights: PLAIN, rows: 2, wide: 3 };
        assert_eq!(plain.drawn(&values), ["         .. ## ", "..    ## ## ## "]);
        assert_eq!(small(&values), "▁·▄▄▇");
    }

    #[test]
    fn months_begin_under_their_first_mondays() {
        // Mondays from 8 December 2025 to 9 February 2026: of January the 5th, of February the 2nd.
        let columns = Columns { heights: BLOCKS, rows: 1, wide: 2 };
        let monday = date(2026, 2, 9);
        assert_eq!(columns.axis(monday, 10), "────────┬───────┬───");
        assert_eq!(columns.months(monday, 10), "        2026    Feb");
        // Five weeks of a cell each have no room for both names.
        let narrow = Columns { wide: 1, ..columns };
        assert_eq!(narrow.months(monday, 10), "    2026");
        assert_eq!(narrow.months(monday, 0), "");
    }
}
