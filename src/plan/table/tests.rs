//! Rows whose words are known.

use super::*;
use crate::reckon;

#[test]
fn text_is_cut_to_the_columns_that_it_takes() {
    for (text, columns, fits) in [
        ("Skerry", 6, "Skerry"),
        ("Skerry", 5, "Sker…"),
        ("礁礁礁", 5, "礁礁…"),
        ("礁礁礁", 4, "礁…"),
        ("e\u{301}e\u{301}", 1, "…"),
        ("Skerry", 0, ""),
    ] {
        assert_eq!(fitted(text, columns), fits);
    }
}

#[test]
fn every_figure_of_a_leg_is_in_its_row() {
    let text = r#"(version: 1, chart: "C", pace: "3 kn", departure: "2026-06-14T09:30[-02:00]", points: [
        (name: "Slip", lat: 57.0, lon: -3.0), (lat: 57.05, lon: -3.0, stop_min: 20),
        (name: "Bay", lat: 57.05, lon: -3.0, stop_min: 60)])"#;
    let route = crate::format::read(text).unwrap();
    let grid = Grid::parse("UTM:30N").unwrap();
    let reckoning = reckon(&route, &grid);
    let [first, second] = &legs(&route, &reckoning, &grid, Style::default())[..] else {
        panic!("two legs")
    };
    let shown =
        [format!("{first:#?}"), format!("{second:#?}"), format!("{:#?}", total(&reckoning))];
    let shown = shown.join("\n").replace(['"', ','], "");
    insta::assert_snapshot!(shown, @r"
    LegRow {
        number: 1
        from_true: 000°T
        from_magnetic: 000°M
        from_grid: 000°G
        back_true: 180°T
        back_magnetic: 180°M
        back_grid: 180°G
        nautical_miles: 3.0 NM
        kilometres: 5.6 km
        time: 1 h 00
        departs: 09:30
        to: PointRow {
            number: 2
            name: 
            reference: 30V WJ 000 229
            position: 57°03.00′N  003°00.00′W
            stop: 20 min
            elapsed: 1 h 00
            clock: 10:30
        }
        along: None
    }
    LegRow {
        number: 2
        from_true: 
        from_magnetic: 
        from_grid: 
        back_true: 
        back_magnetic: 
        back_grid: 
        nautical_miles: 0.0 NM
        kilometres: 0 m
        time: 0 min
        departs: 10:50
        to: PointRow {
            number: 3
            name: Bay
            reference: 30V WJ 000 229
            position: 57°03.00′N  003°00.00′W
            stop: 
            elapsed: 1 h 20
            clock: 10:50
        }
        along: None
    }
    TotalRow {
        nautical_miles: 3.0 NM
        kilometres: 5.6 km
        under_way: 1 h 00
        stops: 20 min
        elapsed: 1 h 20
        clock: 10:50
    }
    ");
}
