//! A leg along the shore as JSON.

use plan::table::{AlongRow, StretchRow};
use plan::{LegReading, Route, Stretch};
use serde::Serialize;

use super::degrees;

/// The shortest line between the ends, how many times longer the leg is, how it was laid, its main
/// stretches, and its whole line.
#[derive(Serialize)]
pub(super) struct Along {
    straight_m: f64,
    times_longer: Option<f64>,
    stand_off_m: f64,
    step_m: f64,
    stretches: Vec<StretchOut>,
    /// Latitude and longitude of every vertex, both ends of the leg included.
    line_lat_lon_deg: Vec<[f64; 2]>,
    text: AlongText,
}

#[derive(Serialize)]
struct StretchOut {
    from_lat_deg: f64,
    from_lon_deg: f64,
    to_lat_deg: f64,
    to_lon_deg: f64,
    distance_m: f64,
    bearing_true_deg: Option<f64>,
    bearing_grid_deg: Option<f64>,
    bearing_magnetic_deg: Option<f64>,
    strays_m: f64,
    text: StretchText,
}

#[derive(Serialize)]
struct AlongText {
    straight_nautical_miles: String,
    straight_kilometres: String,
    times_longer: String,
    stand_off: String,
    step: String,
    strays: String,
}

#[derive(Serialize)]
struct StretchText {
    number: String,
    from_true: String,
    from_grid: String,
    from_magnetic: String,
    back_true: String,
    back_grid: String,
    back_magnetic: String,
    nautical_miles: String,
    kilometres: String,
    to: String,
}

impl Along {
    /// Of leg `index`; nothing if it is straight.
    pub(super) fn of(
        route: &Route,
        index: usize,
        leg: &LegReading,
        row: Option<&AlongRow>,
    ) -> Option<Along> {
        let (read, row) = (leg.along.as_ref()?, row?.clone());
        let laid = route.points.get(index + 1)?.along.as_ref()?;
        let line = route.line_of(index)?.map(|at| [at.lat.as_degrees(), at.lon.as_degrees()]);
        Some(Along {
            straight_m: read.straight.as_metres(),
            times_longer: leg.times_longer(),
            stand_off_m: laid.stand_off.as_metres(),
            step_m: laid.step.as_metres(),
            stretches: read.stretches.iter().zip(row.stretches).map(StretchOut::of).collect(),
            line_lat_lon_deg: line.collect(),
            text: AlongText {
                straight_nautical_miles: row.straight_nautical_miles,
                straight_kilometres: row.straight_kilometres,
                times_longer: row.times_longer,
                stand_off: row.stand_off,
                step: row.step,
                strays: row.strays,
            },
        })
    }
}

impl StretchOut {
    fn of((stretch, row): (&Stretch, StretchRow)) -> StretchOut {
        let [bearing_true_deg, bearing_grid_deg, bearing_magnetic_deg] = degrees(stretch.bearings);
        StretchOut {
            from_lat_deg: stretch.from.lat.as_degrees(),
            from_lon_deg: stretch.from.lon.as_degrees(),
            to_lat_deg: stretch.to.lat.as_degrees(),
            to_lon_deg: stretch.to.lon.as_degrees(),
            distance_m: stretch.distance.as_metres(),
            bearing_true_deg,
            bearing_grid_deg,
            bearing_magnetic_deg,
            strays_m: stretch.strays.as_metres(),
            text: StretchText {
                number: row.number,
                from_true: row.from_true,
                from_grid: row.from_grid,
                from_magnetic: row.from_magnetic,
                back_true: row.back_true,
                back_grid: row.back_grid,
                back_magnetic: row.back_magnetic,
                nautical_miles: row.nautical_miles,
                kilometres: row.kilometres,
                to: row.to,
            },
        }
    }
}
