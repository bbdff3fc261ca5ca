//! A series of questions of one kind, or of all of them.

use anyhow::bail;
use jiff::Timestamp;
use practice::{Ground, Level, Plan, Question, Sheet, Sitting};

use super::Kinds;
use crate::day::Water;

/// The questions with all that is said about them.
pub(super) struct Drill {
    pub(super) kinds: Kinds,
    pub(super) level: Level,
    pub(super) seed: u64,
    pub(super) chart: String,
    pub(super) invented: bool,
    pub(super) sitting: Sitting,
    pub(super) questions: Vec<Question>,
}

impl Drill {
    /// So many questions on a chart; on a sheet of paper those of a part of it that such a sheet shows.
    pub(super) fn new(
        kinds: Kinds,
        level: Level,
        seed: Option<u64>,
        count: u16,
        (water, sheet): (&Water, Option<Sheet>),
    ) -> anyhow::Result<Drill> {
        let seed = seed.unwrap_or_else(|| {
            // Any number will do that is another one next time; small enough to be typed.
            Timestamp::now().as_microsecond().unsigned_abs() % 1_000_000
        });
        let (all, count) = (kinds.all().to_vec(), usize::from(count));
        let sitting = Sitting::new(Plan::Kinds { kinds: all, level, seed, count });
        let ground = Ground::new(&water.chart, &water.coast);
        let part = sheet.and_then(|sheet| sheet.part(&ground, seed, |on| sitting.rest(on)));
        let ground = part.map_or(ground.clone(), |part| ground.within(part));
        let questions = sitting.rest(&ground);
        if questions.is_empty() {
            bail!(
                "the chart “{}” has not what it takes to ask for {}; take another chart or kind",
                water.chart.title,
                kinds.what()
            );
        }
        let (chart, invented) = (water.chart.title.clone(), water.chart.invented);
        Ok(Drill { kinds, level, seed, chart, invented, sitting, questions })
    }

    pub(super) fn caution(&self) -> &'static str {
        caution(self.invented)
    }
}

/// What everything that is printed of practice ends with.
pub(super) fn caution(invented: bool) -> &'static str {
    if invented {
        "For practice, not for navigation. The chart is invented: no such place exists."
    } else {
        "For practice, not for navigation."
    }
}
