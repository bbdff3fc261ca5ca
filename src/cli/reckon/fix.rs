//! A position from bearings of known marks, as many as the header has.

use nav::fix::{Sight, fix};

use super::question::{Answers, bearing, degrees, position};
use super::table::{Fault, Row};

/// The most marks of a row.
pub(super) const MOST: usize = 12;

/// What is read of each mark.
const COLUMNS: [&str; 3 * MOST] = [
    "lat1",
    "lon1",
    "bearing1_deg",
    "lat2",
    "lon2",
    "bearing2_deg",
    "lat3",
    "lon3",
    "bearing3_deg",
    "lat4",
    "lon4",
    "bearing4_deg",
    "lat5",
    "lon5",
    "bearing5_deg",
    "lat6",
    "lon6",
    "bearing6_deg",
    "lat7",
    "lon7",
    "bearing7_deg",
    "lat8",
    "lon8",
    "bearing8_deg",
    "lat9",
    "lon9",
    "bearing9_deg",
    "lat10",
    "lon10",
    "bearing10_deg",
    "lat11",
    "lon11",
    "bearing11_deg",
    "lat12",
    "lon12",
    "bearing12_deg",
];

/// The columns of so many marks.
pub(super) const fn reads(marks: usize) -> &'static [&'static str] {
    let (read, _) = COLUMNS.split_at(3 * if marks < MOST { marks } else { MOST });
    read
}

/// How many marks a header has: two, or as many as the last of its columns says.
pub(super) fn marks(has: impl Fn(&str) -> bool) -> usize {
    let last = COLUMNS.iter().rposition(|name| has(name));
    last.map_or(2, |last| last / 3 + 1).max(2)
}

/// The first of a header's columns that is of one mark more than are read.
pub(super) fn one_too_many(names: &[String]) -> Option<usize> {
    let further = ["lat", "lon", "bearing"].map(|what| format!("{what}{}", MOST + 1));
    names.iter().position(|name| {
        further.iter().any(|it| name.strip_suffix("_deg").unwrap_or(name) == it.as_str())
    })
}

/// The fix of a row. A further mark whose cells are all empty is none.
pub(super) fn answer(marks: usize, row: &Row<'_>, answers: &mut Answers) -> Result<(), Fault> {
    let mut sights = Vec::with_capacity(marks);
    for first in (0..marks).map(|mark| 3 * mark) {
        if first >= 6 && (first..first + 3).all(|read| row.is_empty(read)) {
            continue;
        }
        let bearing = bearing(row, first + 2)?;
        sights.push(Sight { mark: position(row, first)?, bearing });
    }
    let found = fix(&sights).or_else(|error| row.fault(2, error.to_string()))?;
    answers.numbers(degrees(found.position));
    answers.numbers([found.error.as_metres()]);
    Ok(())
}

#[cfg(test)]
mod tests {
    use crate::reckon::tests::{answered, refused};

    const TWO: &str = "lat1,lon1,bearing1_deg,lat2,lon2,bearing2_deg";

    /// The last row's last three cells.
    fn found(table: &str) -> [f64; 3] {
        let last = table.lines().last().unwrap();
        let mut cells = last.rsplit(',').map(|cell| cell.parse().unwrap());
        let [error, lon, lat] = [(); 3].map(|()| cells.next().unwrap());
        [lat, lon, error]
    }

    /// Bearings by GeographicLib's GeodSolve from 55°N 3°W of marks 5 km due north, 7 km due east and 9 km at 225°.
    const NORTH: &str = "55.044907706188,-3,0";
    const EAST: &str = "54.999957,-2.890586,90";

    #[test]
    fn two_marks_and_three() {
        let table = answered("reckon fix", &format!("{TWO}\n{NORTH},{EAST}\n"));
        assert_eq!(table.lines().next().unwrap(), format!("{TWO},lat,lon,error_m"));
        let [lat, lon, error] = found(&table);
        assert!((lat - 55.0).abs() < 1e-5 && (lon + 3.0).abs() < 1e-9 && error == 0.0, "{table}");
        let header = format!("{TWO},lat3,lon3,bearing3_deg");
        // The third line passes some tens of metres off: a triangle.
        let table = answered("reckon fix", &format!("{header}\n{NORTH},{EAST},54.9,-3.1,30\n"));
        assert!((20.0..100.0).contains(&found(&table)[2]), "{table}");
        // A row may leave it out.
        let table = answered("reckon fix", &format!("{header}\n{NORTH},{EAST},,,\n"));
        assert_eq!(found(&table)[2], 0.0);
    }

    /// A third line at 2° from the first and some tens of metres beside it crosses it a kilometre and more away, which tells nothing
    /// of the fix between them: the corners counted are on the second.
    #[test]
    fn a_narrow_corner_does_not_count() {
        let header = format!("{TWO},lat3,lon3,bearing3_deg");
        let third = "55.0449,-2.9965,2";
        let table = answered("reckon fix", &format!("{header}\n{NORTH},{EAST},{third}\n"));
        // By hand: the third mark is 224 m east of the first (0.0035° × 63.99 km at 55.04°), and its line 5 km × sin 2° = 175 m less so at
        // the second's: 49 m, and the fix is half as far from either.
        assert!((found(&table)[2] - 24.6).abs() < 1.0, "{table}");
    }

    #[test]
    fn what_makes_no_fix_is_told_with_its_place() {
        let said = refused("reckon fix", format!("{TWO}\n55,-3,10,55,-3.1,190.5\n"));
        assert_eq!(
            said,
            "stdin:2:7: the bearings cross at 0.50° at most; under 1° they make no fix"
        );
        let said =
            refused("reckon fix", format!("{TWO},lat4,lon4,bearing4_deg\n{NORTH},{EAST},1,2,3\n"));
        assert!(said.starts_with("stdin:1:1: no column lat3;"), "{said}");
        let said = refused("reckon fix", format!("{TWO},x,bearing13_deg\n"));
        assert_eq!(said, "stdin:1:49: a mark too many: 12 are the most");
        let said = refused("reckon fix", format!("{TWO},lat3\n{NORTH},{EAST},55\n"));
        assert!(said.starts_with("stdin:1:1: no column lon3;"), "{said}");
    }
}
