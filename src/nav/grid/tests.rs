//! Grids against tables of published and computed values.

use super::*;

/// Rows of a table under tests/data/, comment lines left out, each with its line for messages.
pub(super) fn rows(text: &str) -> Vec<csv::StringRecord> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .has_headers(false)
        .from_reader(text.as_bytes());
    reader.records().skip(1).map(Result::unwrap).collect()
}

pub(super) fn position(lat: f64, lon: f64) -> Position {
    Position::from_degrees(lat, lon).unwrap()
}

/// tests/data/utm/utm_mgrs_230.csv, computed with GeographicLib 2.1.2: printed to 1 mm, 1e-11
/// degrees and 1e-13, of which half is allowed, and in convergence and scale its own rounding.
#[test]
fn utm_rows() {
    let table = rows(include_str!("../../../tests/data/utm/utm_mgrs_230.csv"));
    let mut checked = 0;
    for row in &table {
        let number = |i: usize| -> f64 { row[i].parse().unwrap() };
        let place = position(number(0), number(1));
        let Some(zone) = UtmZone::parse(&row[3]) else { continue };
        assert_eq!(UtmZone::of(place), Some(zone), "{row:?}");
        let grid = Grid::Utm(Utm::new(zone));
        let found = grid.forward(place).unwrap();
        let off_e = (found.point.easting.as_metres() - number(4)).abs();
        let off_n = (found.point.northing.as_metres() - number(5)).abs();
        assert!(off_e < 0.000_501 && off_n < 0.000_501, "{row:?}: {found:?}");
        let off = (found.convergence.as_degrees_east() - number(6)).abs();
        assert!(off < 2e-11, "{row:?}: {found:?}");
        assert!((found.scale - number(7)).abs() < 2e-13, "{row:?}: {found:?}");
        let back = grid.inverse(GridPoint::metres(number(4), number(5))).unwrap().position;
        // Half a millimetre of the printed coordinates.
        assert!((back.lat.as_degrees() - number(0)).abs() < 1e-8, "{row:?}: {back:?}");
        let lon_off = back.lon.degrees_east_of(place.lon).abs() * back.lat.as_radians().cos();
        assert!(lon_off < 1e-8, "{row:?}: {back:?}");
        checked += 1;
    }
    assert_eq!(checked, 110, "the other five rows are polar");
}
