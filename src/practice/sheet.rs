//! The part of a chart that a sheet of paper shows at a scale that can be worked on.

#[cfg(test)]
mod tests;

use std::collections::HashSet;

use chart::{Extent, Point};
use nav::GridPoint;

use crate::dice::Dice;
use crate::{Ground, Kind, Question};

/// A sheet of paper (ISO 216) with a chart on it that is worked on with pencil, ruler and protractor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sheet {
    /// 210 by 297 mm.
    A4,
    /// 297 by 420 mm.
    A3,
}

/// How often the scale is made smaller where a part has not all that is asked for: 1:75,000, 1:100,000, 1:150,000.
const TIMES: [f64; 4] = [1.0, 1.5, 2.0, 3.0];
/// How many parts of one size are looked at.
const PARTS: usize = 6;

impl Sheet {
    /// Both.
    pub const ALL: &'static [Sheet] = &[Sheet::A4, Sheet::A3];

    /// One to how many its chart is drawn, where the part has all that is asked for: a grid square of a kilometre is two
    /// centimetres, and half a millimetre is 25 m.
    pub const ONE_TO: u32 = 50_000;

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Sheet::A4 => "A4",
            Sheet::A3 => "A3",
        }
    }

    /// How many kilometres it has room for across and up at that scale, upright and on its side, without the frame, its numbers and
    /// what stands over and under it.
    #[must_use]
    pub const fn kilometres(self) -> [(f64, f64); 2] {
        match self {
            Sheet::A4 => [(8.0, 10.6), (12.3, 6.2)],
            Sheet::A3 => [(12.3, 16.6), (18.5, 10.5)],
        }
    }

    /// The part of a chart that questions are drawn from so that they can be worked on this sheet: as large as it shows at 1:50,000,
    /// and only where no such part has all that is asked for of the whole chart, at a smaller scale. Of the parts with the most on
    /// them the seed takes one. Nothing where the whole chart has room, or no part has it all.
    ///
    /// `ask` gives the questions on a ground; those of the ground's part lie on it.
    ///
    /// ```
    /// use practice::{Ground, Kind, Level, Plan, Sheet, Sitting};
    /// let chart = chart::practice()?;
    /// let coast = chart::coast::Coast::of(&chart);
    /// let ground = Ground::new(&chart, &coast);
    /// let kinds = vec![Kind::Reference, Kind::Bearing];
    /// let sitting = Sitting::new(Plan::Kinds { kinds, level: Level::First, seed: 7, count: 6 });
    /// let part = Sheet::A4.part(&ground, 7, |ground| sitting.rest(ground)).unwrap();
    /// assert_eq!((part.width(), part.height()), (12_300.0, 6_200.0));
    /// assert_eq!(sitting.rest(&ground.within(part)).len(), 6);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn part(
        self,
        ground: &Ground<'_>,
        seed: u64,
        ask: impl Fn(&Ground<'_>) -> Vec<Question>,
    ) -> Option<Extent> {
        let all = Asked::of(&ask(ground));
        for (step, times) in (0..).zip(TIMES) {
            let sizes = self.sizes(ground, times)?;
            let chart = ground.chart.extent;
            if sizes.iter().any(|size| size.0 >= chart.width() && size.1 >= chart.height()) {
                return None;
            }
            let parts = parts(ground, &sizes, &mut Dice::new(seed, "sheet", step));
            let has_all = |part: &Extent| Asked::of(&ask(&ground.within(*part))).has(&all);
            if let Some(part) = parts.into_iter().find(has_all) {
                return Some(part);
            }
        }
        None
    }

    /// What it has room for in grid metres, upright and on its side; nothing where the grid does not reach the middle of the chart.
    fn sizes(self, ground: &Ground<'_>, times: f64) -> Option<[(f64, f64); 2]> {
        let middle = ground.middle();
        let at = GridPoint::from_metres(middle.x, middle.y).ok()?;
        let scale = ground.chart.grid.inverse(at).ok()?.scale;
        // Whole hundreds of metres, parted where no usual scale lies: the last bit of a sine decides nothing.
        let whole = |km: f64| (km * 10.0 * times * scale + 0.37).floor() * 100.0;
        Some(self.kilometres().map(|(across, up)| (whole(across), whole(up))))
    }
}

/// The parts of these sizes about things on the chart that have at least three quarters as many of them as the one with most, some
/// of them, in the order of the dice.
fn parts(ground: &Ground<'_>, sizes: &[(f64, f64)], dice: &mut Dice) -> Vec<Extent> {
    let spots = ground.spots();
    let about = |size: &(f64, f64)| {
        let size = *size;
        spots.iter().map(move |spot| about(ground.chart.extent, spot.at, size))
    };
    let counted = |part: Extent| {
        let count = spots.iter().filter(|spot| holds(&part, spot.at)).count();
        (count, part)
    };
    let mut all: Vec<(usize, Extent)> = sizes.iter().flat_map(about).map(counted).collect();
    let most = all.iter().map(|(count, _)| *count).max().unwrap_or(0);
    all.retain(|(count, _)| 4 * count >= 3 * most);
    dice.shuffle(&mut all);
    all.into_iter().map(|(_, part)| part).take(PARTS).collect()
}

/// The part of this size about a point, moved so that it lies on the chart; no larger than the chart.
fn about(chart: Extent, middle: Point, (width, height): (f64, f64)) -> Extent {
    let one = |middle: f64, size: f64, low: f64, high: f64| {
        let half = size.min(high - low) / 2.0;
        let middle = middle.clamp(low + half, (high - half).max(low + half));
        (middle - half, middle + half)
    };
    let (low, high) = (chart.min(), chart.max());
    let (west, east) = one(middle.x, width, low.x, high.x);
    let (south, north) = one(middle.y, height, low.y, high.y);
    Extent::new(Point { x: west, y: south }, Point { x: east, y: north })
}

/// Whether a point lies in a part.
pub(crate) fn holds(part: &Extent, at: Point) -> bool {
    let (low, high) = (part.min(), part.max());
    (low.x..=high.x).contains(&at.x) && (low.y..=high.y).contains(&at.y)
}

/// What was asked, as far as a part of the chart may have less of it.
struct Asked {
    kinds: HashSet<Kind>,
    questions: usize,
    /// How many of them are not the same.
    different: usize,
}

impl Asked {
    fn of(questions: &[Question]) -> Asked {
        let texts: HashSet<&str> = questions.iter().map(|it| it.text.as_str()).collect();
        let kinds = questions.iter().map(|it| it.kind).collect();
        Asked { kinds, questions: questions.len(), different: texts.len() }
    }

    fn has(&self, all: &Asked) -> bool {
        self.questions >= all.questions
            && self.different >= all.different
            && self.kinds.is_superset(&all.kinds)
    }
}
