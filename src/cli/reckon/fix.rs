//! A position from bearings of known marks, as many as the header has.

use nav::Bearing;
use nav::fix::{Sight, fix};

use super::question::{Answers, degrees, position};
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

/// How many marks a header has: two, and those whose columns follow on.
pub(super) fn marks(has: impl Fn(&str) -> bool) -> usize {
    let further = COLUMNS.chunks(3).skip(2);
    2 + further.take_while(|group| group.iter().any(|name| has(name))).count()
}

/// The fix of a row. A further mark whose cells are all empty is none.
pub(super) fn answer(marks: usize, row: &Row<'_>, answers: &mut Answers) -> Result<(), Fault> {
    let mut sights = Vec::with_capacity(marks);
    for first in (0..marks).map(|mark| 3 * mark) {
        if first >= 6 && (first..first + 3).all(|read| row.is_empty(read)) {
            continue;
        }
        let bearing = row.value(first + 2, Bearing::from_degrees)?;
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

    #[test]
    fn what_makes_no_fix_is_told_with_its_place() {
        let said = refused("reckon fix", format!("{TWO}\n55,-3,10,55,-3.1,190.5\n"));
        assert_eq!(
            said,
            "stdin:2:7: the bearings cross at 0.50° at most; under 1° they make no fix"
        );
        let said = refused("reckon fix", format!("{TWO},lat3\n{NORTH},{EAST},55\n"));
        assert!(said.starts_with("stdin:1:1: no column lon3;"), "{said}");
    }
}
