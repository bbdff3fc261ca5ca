//! Crossings on one heading, against a walk in the plane of the grid by another way.

use jiff::SignedDuration;
use nav::{GridPoint, Position};

use super::lone::Lone;
use super::practice::instant;
use crate::Steering;

/// Where a boat comes to that holds a heading from a place for a time, the stream asked for at every
/// step: by small steps in the plane of the grid, with its own convergence and scale.
fn dead_reckoned(
    lone: &Lone,
    start: Position,
    heading_true: f64,
    knots: f64,
    (departs, seconds): (jiff::Timestamp, f64),
) -> Position {
    let grid = &lone.chart.grid;
    let shares = chart::water::Tides::only(0);
    let span = SignedDuration::from_hours(6);
    let flows = lone.tides.flows(departs - span, departs + span).unwrap();
    let on_grid = grid.forward(start).unwrap();
    let (mut x, mut y) = (on_grid.point.easting.as_metres(), on_grid.point.northing.as_metres());
    let steps = 20_000;
    let step = seconds / f64::from(steps);
    for index in 0..steps {
        let at = SignedDuration::from_secs_f64((f64::from(index) + 0.5) * step);
        let stream = flows.at(&shares, departs + at).unwrap();
        let position = grid.inverse(GridPoint::from_metres(x, y).unwrap()).unwrap().position;
        let there = grid.forward(position).unwrap();
        let turn = there.convergence.as_degrees_east();
        for (degrees, rate) in
            [(heading_true, knots), (stream.set.as_degrees(), stream.drift.as_knots())]
        {
            let (sin, cos) = (degrees - turn).to_radians().sin_cos();
            let metres = rate * 1852.0 / 3600.0 * step * there.scale;
            (x, y) = (x + metres * sin, y + metres * cos);
        }
    }
    grid.inverse(GridPoint::from_metres(x, y).unwrap()).unwrap().position
}

#[test]
fn one_heading_comes_out_at_the_end() {
    let mut farthest = 0.0_f64;
    for (flood, knots, pace, hour) in
        [(10.0, 2.0, 3.0, 0), (10.0, 2.0, 3.0, 3), (60.0, 1.5, 2.5, 5), (200.0, 2.6, 3.2, 9)]
    {
        let lone = Lone::tidal(flood, knots);
        let mut route = lone.route(&[(-3_600.0, -300.0), (3_400.0, 400.0)], &format!("{pace} kn"));
        route.points[1].steer = Steering::OneHeading;
        let departs = instant("2026-06-14T00:00Z") + SignedDuration::from_hours(hour);
        let passage = lone.passage(&route, departs, 0);
        let (leg, ends) = (&passage.legs[0], route.points[1].at);
        let heading = leg.headings.unwrap().mean.unwrap().from_true.as_degrees();
        let whole = leg.time().as_secs_f64();
        let came = dead_reckoned(&lone, route.points[0].at, heading, pace, (departs, whole));
        let off = nav::geodesic::inverse(came, ends).distance.as_metres();
        // 7 km: a heading held turns by the convergence between the ends, seven hundredths of a degree.
        assert!(off < 5.0, "{flood} {knots} {pace}: {off} m off");
        // The track on the way too, the middle of it and where it is farthest off.
        let half = leg.departs + SignedDuration::from_secs_f64(whole / 2.0);
        let came = dead_reckoned(&lone, route.points[0].at, heading, pace, (departs, whole / 2.0));
        let track = passage.at(half).unwrap();
        let off = nav::geodesic::inverse(came, track).distance.as_metres();
        assert!(off < 25.0, "{flood} {knots} {pace}: {off} m off half way");
        farthest = farthest.max(leg.off_line.unwrap().abs().as_metres());
        assert_eq!(leg.way.first().unwrap().at, route.points[0].at);
        let last = nav::geodesic::inverse(leg.way.last().unwrap().at, ends).distance;
        assert!(last.as_metres() < 0.1, "{last:?}");
    }
    assert!(farthest > 300.0, "{farthest}");
}

#[test]
fn a_crossing_without_a_heading_halts() {
    let lone = Lone::tidal(100.0, 6.0);
    let mut route = lone.route(&[(-3_000.0, 0.0), (3_000.0, 0.0)], "2 kn");
    route.points[1].steer = Steering::OneHeading;
    let mut halts = 0;
    for hour in 0..12 {
        let departs = instant("2026-06-14T00:00Z") + SignedDuration::from_hours(hour);
        let passage = lone.passage(&route, departs, 0);
        if let Some(halt) = &passage.halt {
            let words = halt.words(&lone.course(&route));
            assert!(words.starts_with("leg 1, left at "), "{words}");
            assert!(passage.arrives().is_none() && passage.legs.is_empty());
            halts += 1;
        }
    }
    assert!(halts > 2, "{halts}");
}
