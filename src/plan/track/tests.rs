//! Segments, times, and the bound on a track's size.

use super::*;

fn fix(lat: f64, when: Option<&str>) -> Fix {
    let when = when.map(|when| when.parse().unwrap());
    Fix::new(Position::from_degrees(lat, -27.0).unwrap(), when)
}

#[test]
fn a_fix_is_small_and_keeps_its_time_to_the_microsecond() {
    assert_eq!(size_of::<Fix>(), 24);
    for when in ["2026-06-14T09:30:00.123456Z", "1969-12-31T23:59:59.5Z", "9999-01-01T00:00Z"] {
        let told = fix(52.0, Some(when));
        assert_eq!(told.when().unwrap(), when.parse().unwrap());
    }
    assert_eq!(fix(52.0, None).when(), None);
    assert_eq!(fix(52.0, None).micros(), None);
}

#[test]
fn segments_are_parted_and_empty_ones_are_none() {
    let mut track = Track::named("  a\u{1b}[31m b ");
    assert!(!track.name().contains('\u{1b}'));
    assert_eq!(track.segments().len(), 0);
    track.push(fix(1.0, None)).unwrap();
    track.begin_segment();
    track.begin_segment();
    track.push(fix(2.0, None)).unwrap();
    track.push(fix(3.0, None)).unwrap();
    track.begin_segment();
    let sizes: Vec<usize> = track.segments().map(<[Fix]>::len).collect();
    assert_eq!(sizes, [1, 2]);
    track.begin_segment();
    track.push(fix(4.0, None)).unwrap();
    assert_eq!(track.segments().len(), 3);
    assert_eq!(track.fixes().len(), 4);
}

#[test]
fn a_track_is_bounded() {
    let mut track = Track::named("long");
    for _ in 0..Track::MOST {
        track.push(fix(1.0, None)).unwrap();
    }
    let error = track.push(fix(1.0, None)).unwrap_err();
    assert!(error.to_string().contains("10000000"), "{error}");
}
