//! Figures of known length.

use super::*;

fn walks(line: &Line, steps: impl IntoIterator<Item = f64>) -> Vec<Walk> {
    steps.into_iter().map(|step| line.walk(metres(step), Start::FIRST).unwrap()).collect()
}

#[test]
fn a_straight_line_is_as_long_at_every_step() {
    let line =
        Line::new((0..=40).map(|part| at(57.0, -2.0 - f64::from(part) * 1e-3)).take(2), false);
    let long = Line::new([at(0.0, 0.0), at(0.0, 3.0)], false);
    for (line, steps) in [(line, [3.0, 7.0, 20.0]), (long, [1e3, 1e4, 7e4])] {
        let walks = walks(&line, steps);
        for walk in &walks {
            let off = (walk.length() - line.length()).as_metres();
            assert!(off.abs() < 1e-6 * walk.steps as f64, "{walk:?}: {off:e}");
        }
        assert_eq!(line.indentation(), Some(1.0));
        let slope = slope(&walks).unwrap();
        assert!(slope.slope.abs() < 1e-9, "{slope:?}");
        assert_eq!(slope.narrowest, metres(steps[0]));
        assert_eq!(slope.widest, metres(steps[2]));
    }
}

/// A step over a third of it takes one third, of a fourth, and so on: 4ᵏ steps of 3⁻ᵏ (H. von
/// Koch 1904; Mandelbrot 1967 gives its dimension as log 4 / log 3, the slope as 1 less that).
#[test]
fn a_koch_curve_has_the_slope_of_its_dimension() {
    let side = 8_100.0;
    let mut points = vec![(0.0, 0.0), (side, 0.0)];
    for _ in 0..5 {
        let last = points[points.len() - 1];
        let broken = |pair: &[(f64, f64)]| {
            let [(x, y), (u, v)] = [pair[0], pair[1]];
            let (dx, dy) = ((u - x) / 3.0, (v - y) / 3.0);
            let peak = (dx / 2.0 - dy * 0.75_f64.sqrt(), dy / 2.0 + dx * 0.75_f64.sqrt());
            let third = (x + dx, y + dy);
            [(x, y), third, (third.0 + peak.0, third.1 + peak.1), (x + 2.0 * dx, y + 2.0 * dy)]
        };
        points = points.windows(2).flat_map(broken).chain([last]).collect();
    }
    let line = Line::new(points.iter().map(|&(x, y)| near_equator(x, y)), false);
    let grown = |k: i32| side * (4.0_f64 / 3.0).powi(k);
    assert!((line.length().as_metres() / grown(5) - 1.0).abs() < 1e-6, "{:?}", line.length());
    // A hair less than a third, so that what the plane is off by does not step over a corner.
    let walks = walks(&line, (1..5).map(|k| side * 3.0_f64.powi(-k) * (1.0 - 1e-6)));
    for (walk, k) in walks.iter().zip(1..) {
        assert_eq!(walk.steps, 4_u64.pow(k as u32), "{walk:?}");
        assert!((walk.length().as_metres() / grown(k) - 1.0).abs() < 1e-4, "{walk:?}");
    }
    let slope = slope(&walks).unwrap().slope;
    assert!((slope - (1.0 - 4.0_f64.ln() / 3.0_f64.ln())).abs() < 1e-4, "{slope}");
}

/// Round a circle of radius r each step is a chord of the angle 2 asin(step / 2r).
#[test]
fn dividers_on_a_circle_are_chords() {
    let radius = 3_000.0;
    let corner = |part: i32| {
        let (sin, cos) = (f64::from(part) / 3600.0 * std::f64::consts::TAU).sin_cos();
        near_equator(radius * sin, radius * cos)
    };
    let line = Line::new((0..3600).map(corner), true);
    for step in [100.0, 700.0, 2_500.0, 5_000.0] {
        let angle = 2.0 * (step / (2.0 * radius)).asin();
        let steps = (std::f64::consts::TAU / angle).floor();
        let left = 2.0 * radius * ((std::f64::consts::TAU - steps * angle) / 2.0).sin();
        for start in [Start::FIRST, Start::LAST, Start { vertex: 1234, way: Way::Back }] {
            let walk = line.walk(metres(step), start).unwrap();
            assert_eq!(walk.steps, steps as u64, "{walk:?}");
            // A side of the polygon lies up to 1.2 mm within the circle, which moves each end.
            assert!(
                (walk.remainder.as_metres() - left).abs() < 2e-3 * (steps + 1.0),
                "{walk:?} {left}"
            );
        }
    }
    assert_eq!((line.straight(), line.indentation()), (None, None));
    let area = line.area().unwrap().as_square_metres();
    let regular = 1800.0 * radius * radius * (std::f64::consts::TAU / 3600.0).sin();
    assert!((area / regular - 1.0).abs() < 1e-6, "{area}");
}

/// A step wider than the whole line makes none and leaves all as the remainder.
#[test]
fn dividers_wider_than_the_line() {
    let open = Line::new([at(57.0, -2.0), at(57.01, -2.0), at(57.0, -1.99)], false);
    let walk = open.walk(metres(5_000.0), Start::FIRST).unwrap();
    assert_eq!((walk.steps, walk.remainder), (0, open.straight().unwrap()));
    let ring = Line::new([at(57.0, -2.0), at(57.01, -2.0), at(57.0, -1.99)], true);
    let walk = ring.walk(metres(5_000.0), Start::LAST).unwrap();
    assert_eq!(walk.length(), Length::ZERO, "back where it began");
}

#[test]
fn lines_that_are_none() {
    for closed in [false, true] {
        for count in 0..=1 {
            let line = Line::new(std::iter::repeat_n(at(57.0, -2.0), count), closed);
            assert_eq!(line.length(), Length::ZERO);
            assert_eq!(line.indentation(), None);
            let walk = line.walk(metres(10.0), Start::LAST).unwrap();
            assert_eq!(walk.length(), Length::ZERO);
            assert_eq!(slope(&[walk, walk]), None);
        }
        let twice = Line::new([at(57.0, -2.0), at(57.0, -2.0)], closed);
        assert_eq!(twice.vertices(), if closed { 1 } else { 2 });
        assert_eq!(twice.walk(metres(10.0), Start::FIRST).unwrap().steps, 0);
    }
    assert!(Line::new([], false).walk(Length::ZERO, Start::FIRST).is_err());
    assert_eq!(slope(&[]), None);
}

/// Over the antimeridian and about a pole as anywhere.
#[test]
fn odd_places() {
    let here = Line::new([at(-17.0, 10.0), at(-16.9, 11.0), at(-17.1, 12.0)], false);
    let across = Line::new([at(-17.0, 179.0), at(-16.9, -180.0), at(-17.1, -179.0)], false);
    let pole = Line::new([0.0, 90.0, 180.0, -90.0].map(|lon| at(89.9, lon)), true);
    for step in [2_000.0, 30_000.0] {
        let [one, other] =
            [&here, &across].map(|line| line.walk(metres(step), Start::FIRST).unwrap());
        assert_eq!(one.steps, other.steps);
        assert!((one.length() - other.length()).as_metres().abs() < 1e-4);
    }
    let walk = pole.walk(metres(10.0), Start::FIRST).unwrap();
    assert!((walk.length() / pole.length() - 1.0).abs() < 1e-3, "{walk:?}");
}
