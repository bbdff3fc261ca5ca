//! A series of questions of one kind, or of all of them.

use anyhow::bail;
use jiff::Timestamp;
use practice::{Ground, Kind, Level, Question, ask, kind_of, seed_of};

use super::Kinds;
use crate::day::Water;

/// The questions with all that is said about them.
pub(super) struct Drill {
    pub(super) kinds: Kinds,
    pub(super) level: Level,
    pub(super) seed: u64,
    pub(super) chart: String,
    pub(super) invented: bool,
    pub(super) questions: Vec<Question>,
}

impl Drill {
    pub(super) fn new(
        kinds: Kinds,
        level: Level,
        seed: Option<u64>,
        count: u16,
        water: &Water,
    ) -> anyhow::Result<Drill> {
        let seed = seed.unwrap_or_else(|| {
            // Any number will do that is another one next time; small enough to be typed.
            Timestamp::now().as_microsecond().unsigned_abs() % 1_000_000
        });
        let ground = Ground::new(&water.chart, &water.coast);
        let count = usize::from(count);
        // In a mixed series the kinds that the chart has not are left out.
        let asked = (0..count * 2 + Kind::ALL.len()).filter_map(|number| {
            let kind = kind_of(kinds.all(), seed, number)?;
            ask(kind, &ground, seed_of(seed, number as u64), level)
        });
        let questions: Vec<Question> = asked.take(count).collect();
        if questions.is_empty() {
            bail!(
                "the chart “{}” has not what it takes to ask for {}; take another chart or kind",
                water.chart.title,
                kinds.what()
            );
        }
        let (chart, invented) = (water.chart.title.clone(), water.chart.invented);
        Ok(Drill { kinds, level, seed, chart, invented, questions })
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
