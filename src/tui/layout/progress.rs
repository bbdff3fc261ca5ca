//! Where the parts of the page of progress stand.

use ratatui::layout::Rect;

use super::window;

/// The parts of the page, from the top; one that there is no room for has no height.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ProgressParts {
    /// The heading of the list.
    pub head: Rect,
    /// The rows to choose from, or as many as there is room for.
    pub list: Rect,
    /// What the plot is of.
    pub title: Rect,
    /// The plot with its scale beside it: the per cent, and a line under them.
    pub plot: Rect,
    /// The months under it.
    pub months: Rect,
    /// How many questions were put, under the months.
    pub put: Rect,
    /// The kinds of exercise, and what recurs.
    pub below: Rect,
}

/// From this height on nothing is cut short.
const HIGH: u16 = 34;
/// From this height on there is room for the questions put.
const MIDDLE: u16 = 20;
/// From this width on what recurs stands beside the kinds.
const BROAD: u16 = 70;
/// The least columns of the kinds beside it, and a gap.
const KINDS: u16 = 40;

impl ProgressParts {
    /// The parts of a page in this area whose list has so many rows.
    pub fn of(area: Rect, rows: usize) -> ProgressParts {
        let rows = u16::try_from(rows).unwrap_or(u16::MAX);
        let (list, plot, put, gap) = match area.height {
            HIGH.. => (rows, 9, 2, 1),
            MIDDLE.. => (rows.min(6), 5, 1, 0),
            _ => (rows.min(4), 4, 0, 0),
        };
        let mut from = area.y;
        let mut next = |height: u16| {
            let height = height.min(area.bottom() - from);
            let part = Rect { y: from, height, ..area };
            from += height;
            part
        };
        let (head, list) = (next(1), next(list));
        next(gap);
        let (title, plot, months, put) = (next(1), next(plot), next(1), next(put));
        next(gap);
        ProgressParts { head, list, title, plot, months, put, below: next(u16::MAX) }
    }

    /// The place of so many kinds, and of what recurs beside or below them, for which so many lines are wished.
    pub fn below(&self, kinds: usize, recurs: usize) -> (Rect, Rect) {
        let area = self.below;
        if let Some(width) = self.recurs_beside() {
            let right = Rect { x: area.right() - width, width, ..area };
            return (Rect { width: area.width - width - 2, ..area }, right);
        }
        let lines = |count: usize| u16::try_from(count).unwrap_or(u16::MAX);
        // What recurs gives way to two kinds, and no further.
        let kept = area.height.saturating_sub(lines(recurs)).max(2);
        let kept = kept.min(lines(kinds)).min(area.height);
        let rest = Rect { y: area.y + kept, height: area.height - kept, ..area };
        (Rect { height: kept, ..area }, rest)
    }

    /// How wide what recurs is where it stands beside the kinds.
    fn recurs_beside(&self) -> Option<u16> {
        let kinds = (self.below.width / 2).max(KINDS);
        (self.below.width >= BROAD).then_some(self.below.width.saturating_sub(kinds))
    }

    /// How wide what recurs is.
    pub fn recurs_width(&self) -> u16 {
        self.recurs_beside().unwrap_or(self.below.width)
    }

    /// Which of so many rows of the list is at a row of the screen while one is chosen.
    pub fn row_at(&self, y: u16, rows: usize, chosen: usize) -> Option<usize> {
        let inside = (self.list.y..self.list.bottom()).contains(&y);
        let row = window(rows, chosen, self.list.height) + usize::from(y.checked_sub(self.list.y)?);
        (inside && row < rows).then_some(row)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_lie_in_the_page_and_apart_at_every_size() {
        for width in 0..140 {
            for height in 0..50 {
                let area = Rect::new(3, 2, width, height);
                for (kinds, recurs) in [(4, 0), (2, 3), (22, 9)] {
                    let of = ProgressParts::of(area, 11);
                    let (kinds, recurs) = of.below(kinds, recurs);
                    let all = [of.head, of.list, of.title, of.plot, of.months, of.put];
                    let all = all.into_iter().chain([kinds, recurs]);
                    let all: Vec<Rect> = all.filter(|part| !part.is_empty()).collect();
                    for (i, part) in all.iter().enumerate() {
                        assert_eq!(part.intersection(area), *part, "{width}x{height}");
                        assert!(all[i + 1..].iter().all(|o| !o.intersects(*part)));
                    }
                }
            }
        }
    }

    #[test]
    fn a_row_of_the_screen_is_a_row_of_the_list() {
        let of = ProgressParts::of(Rect::new(2, 2, 56, 17), 11);
        assert_eq!(of.list.height, 4);
        assert_eq!(of.row_at(of.list.y, 11, 0), Some(0));
        assert_eq!(of.row_at(of.list.y + 1, 11, 8), Some(7));
        assert_eq!(of.row_at(of.list.bottom(), 11, 0), None);
        assert_eq!(of.row_at(of.head.y, 11, 0), None);
    }
}
