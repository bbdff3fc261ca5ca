//! The rule and its bounds.

use super::*;

fn wind(from: f64, knots: f64) -> Wind {
    Wind { from: Bearing::from_degrees(from).unwrap(), speed: Speed::from_knots(knots).unwrap() }
}

/// Common practice, no published source.
#[test]
fn three_hundredths_downwind() {
    for (from, knots, factor, set, drift) in [
        (0.0, 10.0, 1.0, 180.0, 0.3),
        (225.0, 16.0, 1.0, 45.0, 0.48),
        (90.0, 12.0, 0.5, 270.0, 0.18),
        (359.5, 8.0, 3.0, 179.5, 0.72),
        (10.0, 0.0, 1.0, 190.0, 0.0),
        (10.0, 16.0, 0.0, 190.0, 0.0),
    ] {
        let push = Leeway::from_factor(factor).unwrap().drift(wind(from, knots)).unwrap();
        assert!((push.set.as_degrees() - set).abs() < 1e-12, "{from} {push:?}");
        assert!((push.drift.as_knots() - drift).abs() < 1e-12, "{knots} {factor} {push:?}");
    }
    assert_eq!(Leeway::default(), Leeway::from_factor(1.0).unwrap());
}

#[test]
fn bounds_are_named() {
    let said = Leeway::RULE.drift(wind(0.0, 17.0)).unwrap_err().to_string();
    assert_eq!(
        said,
        "a wind of 17.0 kn is over force 4 (16 kn), where a mixed group stops making planned progress; no leeway is reckoned"
    );
    assert!(Leeway::NONE.drift(wind(0.0, 30.0)).is_err());
    let kmh = Speed::from_kmh(16.0 * 1.852).unwrap();
    let top = Wind { from: Bearing::NORTH, speed: kmh };
    assert!(Leeway::RULE.drift(top).is_ok(), "the bound itself in another unit");
    for bad in [-0.1, 3.01, f64::NAN] {
        let said = Leeway::from_factor(bad).unwrap_err().to_string();
        assert_eq!(said, format!("leeway factor {bad} is not within 0 to 3"));
    }
}
