//! What one of the chart's own streams does at an hour of a day.

use super::Throw;
use crate::water::{DAY, StreamTable, Tide, factor};
use crate::words::whole;

/// A stream at an hour of a day of its port's table.
#[derive(Debug, Clone, Copy)]
pub(super) struct Flow<'a> {
    pub(super) of: &'a StreamTable,
    /// The minute of UTC from 1970.
    pub(super) when: i64,
    /// Whole degrees, true.
    pub(super) set: i64,
    /// Tenths of knots: never more than a group can cross, nor what counts as slack.
    pub(super) drift: i64,
}

impl<'a> Flow<'a> {
    /// One of them, by daylight; nothing where the chart has none, or where it runs too fast or hardly then.
    pub(super) fn thrown(throw: &mut Throw<'a, '_>) -> Option<Flow<'a>> {
        let waters = throw.ground.waters();
        let of = throw.dice.pick(&waters.streams)?;
        let hour = *throw.dice.pick(&of.hours)?;
        let port = waters.ports.get(of.port)?;
        let by_day =
            |tide: &Tide| (6 * 60..18 * 60).contains(&(tide.high + hour.later).rem_euclid(DAY));
        let tides: Vec<Tide> = port.tides().filter(by_day).collect();
        let tide = throw.dice.pick(&tides)?;
        let between = (hour.springs - hour.neaps) as f64 * factor(port.ranges?, tide.range)?;
        let drift = whole(hour.neaps as f64 + between, 1.0)?;
        // Whole and half knots at the first level.
        let step = throw.level.of([5, 1, 1]);
        let fits = (7..=24).contains(&drift) && drift % step == 0;
        fits.then_some(Flow { of, when: tide.high + hour.later, set: hour.set, drift })
    }
}
