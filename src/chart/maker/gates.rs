//! When races run, and the narrows that the stream shuts.

use super::afloat::Breaking;
use super::basin::{Ends, way_round};
use super::compass;
use super::dice::Xy;
use super::finds::Strait;
use super::relief::CELL;
use super::scene::Scene;
use super::survey::Survey;
use super::tides::{Set, tenth};
use crate::model::Runs;

/// A stream at least so strong at springs makes a gate of a narrows, in knots.
const STRONG: f64 = 3.0;
/// A stream weaker than this at springs makes no race, in knots.
const BREAKS: f64 = 1.5;
/// A narrows with a way round it that is shorter is no gate; with one that is longer, the way round is
/// long. In metres.
const ROUND: (f64, f64) = (1_500.0, 6_000.0);

/// A gate before it is moved to the chart's grid.
pub(super) struct Door {
    pub(super) name: String,
    pub(super) line: (Xy, Xy),
    pub(super) limit: f64,
    pub(super) note: &'static str,
}

/// The narrows that the stream shuts: strong ones without a short way round them.
pub(super) fn doors(scene: &Scene<'_>, sets: &[Set]) -> Vec<Door> {
    let strong = |set: &&Set| set.springs >= STRONG;
    let door = |set: &Set| {
        let strait = scene.straits.iter().find(|strait| strait.at == set.at)?;
        let note = match set.ends {
            Ends::Basin { .. } => "No other way leads in.",
            Ends::Open => match way_round(scene.survey, strait.at, strait.through) {
                Some(metres) if metres < ROUND.0 => return None,
                Some(metres) if metres < ROUND.1 => "Be there at slack, or go round.",
                _ => "Be there at slack: the way round is long.",
            },
        };
        // Nobody paddles up against more than 2.5 knots for long.
        let limit = tenth(set.springs / 2.0).min(2.5);
        let line = across(scene.survey, strait)?;
        Some(Door { name: set.name.clone(), line, limit, note })
    };
    sets.iter().filter(strong).filter_map(door).collect()
}

/// The line across a strait, both ends ashore.
fn across(survey: &Survey<'_>, strait: &Strait) -> Option<(Xy, Xy)> {
    let (_, way) = survey.width(strait.at, 520.0);
    let end = |way: Xy| {
        let relief = survey.relief;
        let reach = (survey.fetch(strait.at, way, 520.0) / CELL) as i32;
        let places = (reach..reach + 5).map(|step| {
            let gone = f64::from(step) * CELL;
            relief.place(relief.node((strait.at.0 + way.0 * gone, strait.at.1 + way.1 * gone)))
        });
        // A node amid land, so that the shore's line lies between it and the water however it is
        // thinned.
        let land = |at: Xy| !survey.is_sea(at);
        let amid = |at: &Xy| {
            land(*at)
                && [(CELL, 0.0), (-CELL, 0.0), (0.0, CELL), (0.0, -CELL)]
                    .iter()
                    .all(|off| land((at.0 + off.0, at.1 + off.1)))
        };
        places.into_iter().find(amid)
    };
    Some((end(way)?, end((-way.0, -way.1))?))
}

/// When a race runs, by the stream that it breaks in.
pub(super) fn runs(race: &Breaking, sets: &[Set]) -> Option<Runs> {
    let set = sets.iter().find(|set| set.name == race.station)?;
    if set.springs < BREAKS {
        return None;
    }
    let ebb = compass::whole(set.flood_deg + 180.0);
    let wide = |middle: f64| (compass::whole(middle - 50.0), compass::whole(middle + 50.0));
    Some(Runs {
        station: set.name.clone(),
        quiet_under_kn: tenth(set.springs * 0.45),
        worst_over_kn: tenth(set.springs * 0.8),
        sets_deg: if race.both_ways { Vec::new() } else { vec![wide(ebb)] },
    })
}
