//! The passage of a route as JSON.

use jiff::Timestamp;
use nav::passage::Times;
use plan::Course;
use plan::course::Steered;
use plan::passage::{Heading, Headings, LegPassage};
use plan::table::{PassageRow, passage, passage_total};
use serde::Serialize;

use crate::day::Through;

/// The route through the stream; of legs that it does not come to nothing is known.
#[derive(Serialize)]
pub(super) struct PassageOut {
    departs: String,
    arrives: Option<String>,
    elapsed_s: Option<f64>,
    under_way_s: f64,
    waits_s: f64,
    longest_wait_s: f64,
    through_water_m: f64,
    times_s: TimesOut,
    legs: Vec<LegOut>,
    halt: Option<HaltOut>,
    notes: Vec<String>,
    told: Vec<String>,
    left_out: &'static str,
}

#[derive(Serialize)]
struct LegOut {
    number: usize,
    steered: &'static str,
    waits_s: f64,
    waits_for: Option<String>,
    departs: String,
    arrives: String,
    time_s: f64,
    ground_speed_kn: Option<f64>,
    heading_true_deg: Option<f64>,
    heading_magnetic_deg: Option<f64>,
    first_heading_true_deg: Option<f64>,
    first_heading_magnetic_deg: Option<f64>,
    last_heading_true_deg: Option<f64>,
    last_heading_magnetic_deg: Option<f64>,
    set_true_deg: Option<f64>,
    drift_kn: Option<f64>,
    greatest_kn: Option<f64>,
    greatest_set_true_deg: Option<f64>,
    greatest_at: Option<String>,
    times_s: TimesOut,
    through_water_m: f64,
    without_data_m: f64,
    off_line_m: Option<f64>,
    races: Vec<RaceOut>,
    gates: Vec<GateOut>,
    /// Latitude, longitude and time of places on the way.
    way: Vec<(f64, f64, String)>,
    text: RowOut,
}

#[derive(Serialize)]
struct TimesOut {
    with: f64,
    against: f64,
    across: f64,
    slack: f64,
    without_data: f64,
}

#[derive(Serialize)]
struct RaceOut {
    name: String,
    from: String,
    to: String,
    state: Option<String>,
}

#[derive(Serialize)]
struct GateOut {
    name: String,
    at: String,
    open: Option<bool>,
}

#[derive(Serialize)]
struct HaltOut {
    leg: usize,
    at: String,
    lat_deg: f64,
    lon_deg: f64,
    along_m: f64,
    why: String,
}

#[derive(Serialize)]
struct RowOut {
    steer: String,
    ground_speed: String,
    set: String,
    drift: String,
    mostly: String,
    mostly_time: String,
    time: String,
    wait: String,
    departs: String,
    arrives: String,
}

impl PassageOut {
    pub(super) fn of(through: &Through, longest_wait: jiff::SignedDuration) -> PassageOut {
        let Through { course, passage: made, told } = through;
        let moment = |at: Timestamp| moment(course, at);
        let total = passage_total(course, made);
        let rows = passage(course, made);
        let legs = made.legs.iter().zip(course.legs()).zip(rows).enumerate();
        let sums = made.sums();
        PassageOut {
            departs: moment(made.departs),
            arrives: made.arrives().map(moment),
            elapsed_s: made.time().map(|time| time.as_secs_f64()),
            under_way_s: made.under_way().as_secs_f64(),
            waits_s: made.waited().as_secs_f64(),
            longest_wait_s: longest_wait.as_secs_f64(),
            through_water_m: sums.through_water.as_metres(),
            times_s: sums.times.into(),
            legs: legs
                .map(|(index, ((leg, on), row))| LegOut {
                    number: index + 1,
                    ..LegOut::of(course, on.steered, leg, row)
                })
                .collect(),
            halt: made.halt.as_ref().map(|halt| HaltOut {
                leg: halt.leg + 1,
                at: moment(halt.at),
                lat_deg: halt.place.lat.as_degrees(),
                lon_deg: halt.place.lon.as_degrees(),
                along_m: halt.along.as_metres(),
                why: total.halt.clone(),
            }),
            notes: through.notes(),
            told: told.clone(),
            left_out: Through::LEFT_OUT,
        }
    }
}

impl LegOut {
    fn of(course: &Course, steered: Steered, leg: &LegPassage, row: PassageRow) -> LegOut {
        let moment = |at: Timestamp| moment(course, at);
        let headings = leg.headings.as_ref();
        let mean = degrees(headings.and_then(|headings| headings.mean));
        let of = |which: fn(&Headings) -> Heading| degrees(headings.map(which));
        let (first, last) = (of(|headings| headings.first), of(|headings| headings.last));
        let (sums, stream) = (&leg.sums, leg.sums.mean());
        let greatest = sums.greatest;
        LegOut {
            number: 0,
            steered: match steered {
                Steered::Line => "on its line",
                Steered::OneHeading => "on one heading",
                Steered::Along => "along the shore",
            },
            waits_s: leg.waited.as_secs_f64(),
            waits_for: Some(row.wait_for).filter(|what| !what.is_empty()),
            departs: moment(leg.departs),
            arrives: moment(leg.arrives),
            time_s: leg.time().as_secs_f64(),
            ground_speed_kn: leg.ground_speed().map(|speed| speed.as_knots()),
            heading_true_deg: mean[0],
            heading_magnetic_deg: mean[1],
            first_heading_true_deg: first[0],
            first_heading_magnetic_deg: first[1],
            last_heading_true_deg: last[0],
            last_heading_magnetic_deg: last[1],
            set_true_deg: stream.map(|stream| stream.set.as_degrees()),
            drift_kn: stream.map(|stream| stream.drift.as_knots()),
            greatest_kn: greatest.map(|greatest| greatest.stream.drift.as_knots()),
            greatest_set_true_deg: greatest.map(|greatest| greatest.stream.set.as_degrees()),
            greatest_at: greatest.map(|greatest| moment(greatest.at)),
            times_s: sums.times.into(),
            through_water_m: sums.through_water.as_metres(),
            without_data_m: sums.length_without_data.as_metres(),
            off_line_m: leg.off_line.map(|off| off.as_metres()),
            races: races(course, leg),
            gates: gates(course, leg),
            way: way(course, leg),
            text: RowOut {
                steer: row.steer,
                ground_speed: row.ground_speed,
                set: row.set,
                drift: row.drift,
                mostly: row.word,
                mostly_time: row.word_time,
                time: row.time,
                wait: row.wait,
                departs: row.departs,
                arrives: row.arrives,
            },
        }
    }
}

fn races(course: &Course, leg: &LegPassage) -> Vec<RaceOut> {
    let race = |race: &plan::passage::RaceMet| RaceOut {
        name: race.name.to_string(),
        from: moment(course, race.from),
        to: moment(course, race.to),
        state: race.state.map(|state| state.to_string()),
    };
    leg.races.iter().map(race).collect()
}

fn gates(course: &Course, leg: &LegPassage) -> Vec<GateOut> {
    let gate = |gate: &plan::passage::GatePassed| GateOut {
        name: gate.name.to_string(),
        at: moment(course, gate.at),
        open: gate.open,
    };
    leg.gates.iter().map(gate).collect()
}

fn way(course: &Course, leg: &LegPassage) -> Vec<(f64, f64, String)> {
    let place = |mark: &plan::passage::Mark| {
        let at = mark.at;
        (at.lat.as_degrees(), at.lon.as_degrees(), moment(course, mark.when))
    };
    leg.way.iter().map(place).collect()
}

/// From true and from magnetic north.
fn degrees(heading: Option<Heading>) -> [Option<f64>; 2] {
    [
        heading.map(|heading| heading.from_true.as_degrees()),
        heading.map(|heading| heading.from_magnetic.as_degrees()),
    ]
}

/// On the course's clock, with offset and zone.
fn moment(course: &Course, at: Timestamp) -> String {
    at.to_zoned_datetime(course.zone().clone()).to_string()
}

impl From<Times> for TimesOut {
    fn from(times: Times) -> TimesOut {
        let Times { with, against, across, slack, without_data } = times;
        let [with, against, across, slack, without_data] =
            [with, against, across, slack, without_data].map(|time| time.as_secs_f64());
        TimesOut { with, against, across, slack, without_data }
    }
}
