//! Triangles against printed answers, and all angles against the closed form.

use super::*;
use crate::published::rows;

fn degrees(degrees: f64) -> Bearing<True> {
    Bearing::from_degrees(degrees).unwrap()
}

fn knots(knots: f64) -> Speed {
    Speed::from_knots(knots).unwrap()
}

fn stream(set: f64, drift: f64) -> Stream {
    Stream { set: degrees(set), drift: knots(drift) }
}

#[test]
fn problems_with_printed_answers() {
    for row in rows(include_str!("../../../tests/data/sailings/current_triangles.csv")) {
        let (direction, speed) =
            (degrees(row.number("direction_deg")), knots(row.number("speed_kn")));
        let stream = stream(row.number("set_deg"), row.number("drift_kn"));
        let answer = match row.text("kind") {
            "made-good" => {
                let made = made_good(direction, speed, stream);
                made.track.zip(Some(made.ground_speed))
            }
            "required" => {
                let required = required(direction, speed, stream);
                required.heading.zip(Some(required.speed))
            }
            _ => match heading(direction, speed, stream) {
                Steer::MakesWay { heading, ground_speed } => Some((heading, ground_speed)),
                _ => None,
            },
        };
        let Some((answer, speed)) = answer else {
            assert_eq!(row.text("answer_deg"), "", "{}", row.text);
            continue;
        };
        let off = answer.turn_to(degrees(row.number("answer_deg"))).as_degrees().abs();
        assert!(off <= row.number("tolerance_deg"), "{answer} in {}", row.text);
        row.check("answer_kn", speed.as_knots(), row.number("tolerance_kn"));
    }
}

#[test]
fn computed_triangles() {
    let (mut held, mut lost) = (0, 0);
    for row in rows(include_str!("../../../tests/data/sailings/current_triangles_computed.csv")) {
        let stream = stream(row.number("set_deg"), row.number("drift_kn"));
        let track = degrees(row.number("track_deg"));
        match heading(track, knots(row.number("boat_speed_kn")), stream) {
            Steer::CannotHold => {
                assert_eq!(row.text("course_to_steer_deg"), "none", "{}", row.text);
                lost += 1;
            }
            Steer::MakesWay { heading, ground_speed } => {
                row.check_printed("course_to_steer_deg", heading.as_degrees());
                row.check_printed("speed_made_good_kn", ground_speed.as_knots());
                held += 1;
            }
            Steer::SetBack { heading, astern } => {
                row.check_printed("course_to_steer_deg", heading.as_degrees());
                row.check_printed("speed_made_good_kn", -astern.as_knots());
                held += 1;
            }
        }
    }
    assert!(held > 80 && lost > 10, "{held} {lost}");
}

#[test]
fn all_angles_close_the_triangle() {
    let boat = knots(3.0);
    for track in (0..360).step_by(15) {
        for set in (0..360).step_by(5) {
            for drift in [0.0, 0.5, 2.0, 2.999, 3.0, 3.001, 5.0] {
                let stream = stream(f64::from(set), drift);
                let line = degrees(f64::from(track));
                let across = (drift * f64::from(set - track).to_radians().sin()).abs();
                let (heading, way, expected) = match heading(line, boat, stream) {
                    Steer::CannotHold => {
                        assert!(across > 3.0 - 1e-9, "{track} {set} {drift}");
                        continue;
                    }
                    Steer::MakesWay { heading, ground_speed } => (heading, ground_speed, line),
                    Steer::SetBack { heading, astern } => (heading, astern, line.back()),
                };
                assert!(across <= 3.0 + 1e-9, "{track} {set} {drift}");
                let made = made_good(heading, boat, stream);
                assert!((made.ground_speed.as_knots() - way.as_knots()).abs() < 1e-7);
                if way.as_knots() > 1e-3 {
                    let off = made.track.unwrap().turn_to(expected).as_degrees().abs();
                    assert!(off < 1e-4, "{track} {set} {drift}: {off}");
                }
            }
        }
    }
}

#[test]
fn edges() {
    // A stream as fast as the boat, square across the line: held, without way.
    let held = heading(degrees(0.0), knots(2.5), stream(90.0, 2.5));
    let still = Steer::MakesWay { heading: degrees(270.0), ground_speed: knots(0.0) };
    assert_eq!(held, still);
    // Straight against it: carried backwards, bow along the line.
    let Steer::SetBack { heading: bow, astern } =
        heading(degrees(10.0), knots(2.0), stream(190.0, 3.0))
    else {
        panic!()
    };
    assert_eq!(bow, degrees(10.0));
    assert!((astern.as_knots() - 1.0).abs() < 1e-12);
    // At rest in still water, and adrift.
    let rest = heading(degrees(33.0), knots(0.0), stream(0.0, 0.0));
    assert_eq!(rest, Steer::MakesWay { heading: degrees(33.0), ground_speed: knots(0.0) });
    assert_eq!(made_good(degrees(33.0), knots(0.0), stream(0.0, 0.0)).track, None);
    let adrift = made_good(degrees(33.0), knots(0.0), stream(77.0, 1.5));
    assert!(adrift.track.unwrap().turn_to(degrees(77.0)).as_degrees().abs() < 1e-12);
    assert_eq!(heading(degrees(33.0), knots(0.0), stream(77.0, 1.5)), Steer::CannotHold);
    let alone = required(degrees(77.0), knots(1.5), stream(77.0, 1.5));
    assert_eq!((alone.heading, alone.speed), (None, knots(0.0)));
}
