//! A comparison as JSON.

use std::io::Write;

use jiff::{SignedDuration, Timestamp};
use nav::text::CAUTION;
use nav::{Length, Position};
use plan::compare::{Beside, Cleaning, Figures, GapWhy, Mean, Stage, Times};
use plan::profile::Profile;
use serde_json::{Value, json};

use super::{Report, words};
use crate::when;

pub(super) fn write(report: &Report<'_>, to: &mut dyn Write) -> anyhow::Result<()> {
    serde_json::to_writer_pretty(&mut *to, &value(report))?;
    writeln!(to)?;
    Ok(())
}

fn value(report: &Report<'_>) -> Value {
    let compared = report.compared;
    let Cleaning { fixes, untimed, same_time, backwards, wild, used } = compared.cleaning;
    json!({
        "route": report.route.title,
        "chart": report.water.chart.title,
        "invented": report.water.chart.invented,
        "track": report.track.name(),
        "recorded": compared.recorded.map(|(from, to)| json!({ "from_utc": when::utc(from), "to_utc": when::utc(to) })),
        "fixes": {
            "recorded": fixes, "used": used, "untimed": untimed, "same_time": same_time,
            "backwards": backwards, "wild": wild,
        },
        "off_limit_m": report.settings.off.as_metres(),
        "off_at_least_s": report.settings.off_for.as_secs(),
        "planned_pace_kn": report.route.pace.speed().as_knots(),
        "whole": figures(&compared.whole),
        "on_route": figures(&compared.on_route),
        "points": points(report),
        "stages": compared.stages.iter().map(stage).collect::<Vec<_>>(),
        "strays": compared.strays.iter().map(|stray| json!({
            "left": beside(report, &stray.left),
            "farthest": beside(report, &stray.farthest),
            "off_m": stray.off.as_metres(),
            "side": if stray.right { "right" } else { "left" },
            "back": stray.back.as_ref().map(|back| beside(report, back)),
        })).collect::<Vec<_>>(),
        "stops": compared.stops.iter().map(|stop| json!({
            "from_utc": when::utc(stop.from), "to_utc": when::utc(stop.to),
            "time_s": seconds(stop.to.duration_since(stop.from)), "at": at(report, stop.at),
        })).collect::<Vec<_>>(),
        "gaps": compared.gaps.iter().map(|gap| json!({
            "from_utc": gap.from.map(when::utc), "to_utc": gap.to.map(when::utc),
            "at": at(report, gap.at), "straight_m": gap.straight.as_metres(), "why": why(gap.why),
        })).collect::<Vec<_>>(),
        "ground_pace": compared.ground_pace.as_ref().map(mean),
        "water_pace": compared.water_pace.as_ref().map(mean),
        "stream": {
            "known_s": seconds(compared.stream.known),
            "no_station_s": seconds(compared.stream.no_station),
            "other_day_s": seconds(compared.stream.other_day),
        },
        "runs_back": compared.runs_back,
        "kept": report.kept.map(profile),
        "notes": words::notes(report),
        "method": words::method(report),
        "caution": CAUTION,
    })
}

fn seconds(time: SignedDuration) -> f64 {
    time.as_secs_f64()
}

const fn why(why: GapWhy) -> &'static str {
    match why {
        GapWhy::NoFix => "no fix",
        GapWhy::Jump => "jump",
        GapWhy::Parted => "parted",
    }
}

fn metres(length: Length) -> f64 {
    length.as_metres()
}

fn figures(figures: &Figures) -> Value {
    json!({
        "made_m": metres(figures.made),
        "moving_s": seconds(figures.moving),
        "stopped_s": seconds(figures.stopped),
        "unseen_s": seconds(figures.unseen),
        "across_gaps_m": metres(figures.across),
        "ground_kn": figures.over_ground().map(|speed| speed.as_knots()),
        "water_m": figures.through_water().map(|_| metres(figures.water)),
        "water_s": seconds(figures.water_time),
        "water_kn": figures.through_water().map(|speed| speed.as_knots()),
    })
}

fn stage(stage: &Stage) -> Value {
    let Stage { from, to, planned, departs, arrives, figures: way, off } = stage;
    json!({
        "from_point": from + 1,
        "to_point": to + 1,
        "planned_m": metres(*planned),
        "departs_utc": departs.map(when::utc),
        "arrives_utc": arrives.map(when::utc),
        "figures": figures(way),
        "farthest_off_m": metres(*off),
    })
}

fn points(report: &Report<'_>) -> Vec<Value> {
    let compared = report.compared;
    let planned = |times: &Option<Times>, index: usize| -> Option<Timestamp> {
        times.as_ref()?.arrives.get(index).copied().flatten()
    };
    let all = report.route.points.iter().zip(&compared.points).enumerate();
    all.map(|(index, (point, passing))| {
        json!({
            "number": index + 1,
            "name": point.name,
            "at": at(report, point.at),
            "passed": passing.passed,
            "nearest_m": passing.nearest.map(metres),
            "came_utc": passing.arrives.map(when::utc),
            "went_utc": passing.leaves.map(when::utc),
            "planned_utc": planned(&compared.planned, index).map(when::utc),
            "by_start_utc": planned(&compared.from_start, index).map(when::utc),
        })
    })
    .collect()
}

fn at(report: &Report<'_>, at: Position) -> Value {
    json!({
        "lat": at.lat.as_degrees(),
        "lon": at.lon.as_degrees(),
        "reference": words::place(report, at),
    })
}

fn beside(report: &Report<'_>, beside: &Beside) -> Value {
    json!({
        "utc": beside.when.map(when::utc),
        "at": at(report, beside.at),
        "leg": beside.leg + 1,
        "along_m": metres(beside.along),
    })
}

fn mean(mean: &Mean) -> Value {
    json!({
        "kn": mean.speed.as_knots(),
        "spread_kn": mean.spread.as_knots(),
        "moving_s": seconds(mean.time),
    })
}

/// A profile with its trips.
pub(super) fn profile(profile: &Profile) -> Value {
    let trips = profile.trips().iter().map(|trip| {
        json!({
            "date": trip.date.to_string(),
            "began_utc": when::utc(trip.began),
            "title": trip.title,
            "moving_s": seconds(trip.moving),
            "distance_m": metres(trip.distance),
            "ground_kn": trip.over_ground.as_knots(),
            "water_kn": trip.through_water.map(|water| water.speed.as_knots()),
            "water_spread_kn": trip.through_water.map(|water| water.spread.as_knots()),
            "water_s": trip.through_water.map(|water| seconds(water.time)),
            "wind": trip.wind.map(|wind| json!({
                "from_deg": wind.from.as_degrees(), "kn": wind.speed.as_knots(),
            })),
        })
    });
    json!({
        "name": profile.name(),
        "pace": profile.pace().map(|pace| json!({
            "kn": pace.mean.as_knots(),
            "slowest_kn": pace.slowest.as_knots(),
            "trips": pace.trips,
            "moving_s": seconds(pace.time),
            "through": if pace.through_water { "water" } else { "ground" },
        })),
        "trips": trips.collect::<Vec<_>>(),
    })
}
