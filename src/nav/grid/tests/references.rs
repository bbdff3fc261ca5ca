//! References: published examples, every usual form, and what is wrong with the others.

use rstest::rstest;

use super::*;
use crate::Length;

/// tests/data/references/british.csv: published ten-figure references and what follows from them.
#[test]
fn british_references() {
    let grid = grid("EPSG:27700");
    let table = rows(include_str!("../../../../tests/data/references/british.csv"));
    assert_eq!(table.len(), 10);
    for row in &table {
        for figures in Figures::ALL {
            let printed = row.text(&format!("ref_{}fig", figures.count()));
            let written = grid.reference(point(row), figures).unwrap();
            assert_eq!(written, printed, "{}", row.text);
            let square = grid.parse_reference(printed, None).unwrap();
            assert_eq!(square.side, figures.side());
            assert!(square.contains(point(row)), "{}: {square:?}", row.text);
        }
    }
}

/// tests/data/references/reading.csv: how a reference is read off a map, from printed manuals.
#[test]
fn reading_a_grid() {
    let grid = grid("EPSG:27700");
    for row in &rows(include_str!("../../../../tests/data/references/reading.csv")) {
        let (point, printed) = (point(row), row.text("reference"));
        let written = grid.reference(point, Figures::Six).unwrap();
        assert!(written.ends_with(printed), "{}: {written}", row.text);
        let square = grid.parse_reference(printed, Some(point)).unwrap();
        assert!(square.contains(point), "{}: {square:?}", row.text);
    }
}

/// Truncated, never rounded; on a line exactly, and a nanometre short of it by the noise of a
/// round trip, it is the square that begins there.
#[rstest]
#[case(199_999.0, 149_999.9, "SR 999 499")]
#[case(199_999.999, 150_000.0, "SR 999 500")]
#[case(200_000.0, 150_000.0, "SS 000 500")]
#[case(199_999.999_999_9, 149_999.999_999_9, "SS 000 500")]
#[case(199_999.999_8, 150_000.0, "SR 999 500")]
fn truncated(#[case] easting: f64, #[case] northing: f64, #[case] expected: &str) {
    let point = GridPoint::metres(easting, northing);
    assert_eq!(grid("EPSG:27700").reference(point, Figures::Six).unwrap(), expected);
}

#[rstest]
#[case("QB731508")]
#[case("QB 731508")]
#[case("QB 731 508")]
#[case("qb 731 508")]
#[case("  Q B 731\t508 ")]
#[case("QB, 731, 508")]
#[case("731508")]
#[case("731 508")]
fn six_figures_in_every_form(#[case] text: &str) {
    let near = GridPoint::metres(760_000.0, 340_000.0);
    let square = chart_grid().parse_reference(text, Some(near)).unwrap();
    assert_eq!(square.south_west, GridPoint::metres(773_100.0, 350_800.0));
    assert_eq!(square.side, Length::metres(100.0));
    assert_eq!(square.centre(), GridPoint::metres(773_150.0, 350_850.0));
}

#[rstest]
#[case("qb 7310 5080", 773_100.0, 350_800.0, 10.0)]
#[case("QB7310050800", 773_100.0, 350_800.0, 1.0)]
#[case("QB 75", 770_000.0, 350_000.0, 10_000.0)]
#[case("73100 50800", 773_100.0, 350_800.0, 1.0)]
#[case("773100 350800", 773_100.0, 350_800.0, 1.0)]
#[case("773100, 350800", 773_100.0, 350_800.0, 1.0)]
#[case("773100,350800", 773_100.0, 350_800.0, 1.0)]
#[case("773100.25 350800.5", 773_100.25, 350_800.5, 0.01)]
#[case("773100, 50800", 773_100.0, 50_800.0, 1.0)]
#[case("-100, +50800", -100.0, 50_800.0, 1.0)]
fn other_forms(#[case] text: &str, #[case] e: f64, #[case] n: f64, #[case] side: f64) {
    let near = GridPoint::metres(760_000.0, 340_000.0);
    let square = chart_grid().parse_reference(text, Some(near)).unwrap();
    assert_eq!(square, Square { south_west: GridPoint::metres(e, n), side: Length::metres(side) });
}

/// Without letters it is the nearest of the chart's own squares, though one of its neighbours
/// without letters may bring the figures nearer.
#[test]
fn nearest_in_the_lettered_squares() {
    let grid = chart_grid();
    let read = |text: &str, e: f64, n: f64| {
        grid.parse_reference(text, Some(GridPoint::metres(e, n))).unwrap().south_west
    };
    assert_eq!(read("050050", 699_000.0, 399_000.0), GridPoint::metres(705_000.0, 405_000.0));
    assert_eq!(read("950950", 701_000.0, 401_000.0), GridPoint::metres(695_000.0, 395_000.0));
    assert_eq!(read("950 500", 601_000.0, 350_000.0), GridPoint::metres(695_000.0, 350_000.0));
}

#[rstest]
#[case("", "no grid reference was given")]
#[case("  ", "no grid reference was given")]
#[case("QB", "no figures follow the letters QB")]
#[case(
    "QB 73150",
    "an odd number of figures, 5: as many are needed for the easting as for the northing"
)]
#[case("7", "an odd number of figures, 1: as many are needed for the easting as for the northing")]
#[case("QB 731 50", "3 figures of easting and 2 of northing: as many are needed of each")]
#[case("QB 731 508 1", "3 groups of figures: a grid reference has an easting and a northing")]
#[case("QB 731000 508000", "12 figures are too many: a grid reference has 2, 4, 6, 8 or 10")]
#[case("QB 731/508", "'/' has no place in a grid reference")]
#[case("QB 73.1 50.8", "'.' has no place in a grid reference")]
#[case("QB 731\u{a0}508\u{202e}", "'\\u{202e}' has no place in a grid reference")]
#[case(
    "QX 731 508",
    "the letters QX name no square of this grid: the chart's squares are PA, QA, PB, QB"
)]
#[case("731508 QB", "no figures follow the letters 731508QB")]
#[case(
    "99999999 1",
    "99999999 1 is outside the grid: it reaches no farther than the projection and the lettered squares"
)]
#[case("12.3.4 50000", "\"12.3.4\" is not a number of metres")]
#[case("1-2 50000", "\"1-2\" is not a number of metres")]
fn what_is_wrong_on_a_chart(#[case] text: &str, #[case] message: &str) {
    let near = GridPoint::metres(760_000.0, 340_000.0);
    let error = chart_grid().parse_reference(text, Some(near)).unwrap_err();
    assert_eq!(error.to_string(), message);
}

#[rstest]
#[case("EPSG:27700", "SI 731 508", "the letter I is not used in this grid's letters")]
#[case(
    "EPSG:27700",
    "AA 731 508",
    "the letters AA name no square of this grid: its squares have two letters, from SV in the south-west to HP in the north"
)]
#[case(
    "EPSG:27700",
    "S 731 508",
    "the letters S name no square of this grid: its squares have two letters, from SV in the south-west to HP in the north"
)]
#[case(
    "EPSG:27700",
    "812000 100000",
    "812000 100000 is outside the grid: 0 to 700,000 east and 0 to 1,300,000 north are the British National Grid"
)]
#[case(
    "EPSG:27700",
    "731 508",
    "the letters of the square are missing, and there is no place near which to look"
)]
#[case("EPSG:29903", "I 731 508", "the letter I is not used in this grid's letters")]
#[case(
    "EPSG:29903",
    "SV 731 508",
    "the letters SV name no square of this grid: its squares have one letter, A to Z without I"
)]
#[case(
    "EPSG:2157",
    "O 731 508",
    "this grid has no letters, but O was given: give full easting and northing"
)]
#[case(
    "EPSG:2157",
    "315830 734697",
    "315830 734697 is outside the grid: 400,000 to 900,000 east and 500,000 to 1,000,000 north are the grid"
)]
#[case("UTM:30N", "31U DQ 731 508", "the reference is in zone 31U, this grid is of zone 30")]
#[case("UTM:30N", "30V WO 731 508", "the letter O is not used in this grid's letters")]
#[case(
    "UTM:30N",
    "30V AL 731 508",
    "the letters 30VAL name no square of this grid: columns of zone 30 are lettered S to Z"
)]
#[case(
    "UTM:30N",
    "30V WZ 731 508",
    "the letters 30VWZ name no square of this grid: rows are lettered A to V"
)]
#[case(
    "UTM:30N",
    "30V WA 731 508",
    "the letters 30VWA name no square of this grid: no such square touches band V of zone 30"
)]
#[case(
    "UTM:30N",
    "WL 731 508",
    "the zone is missing: a reference on this grid begins with its zone, as in 30V WL 060 571"
)]
#[case(
    "MGRS",
    "61V WL 731 508",
    "the letters 61VWL name no square of this grid: zones are numbered 1 to 60"
)]
#[case(
    "MGRS",
    "32X WL 731 508",
    "the letters 32XWL name no square of this grid: zones 32, 34 and 36 end at 72° N, south of band X"
)]
#[case(
    "MGRS",
    "506079 6557186",
    "the zone is missing: a reference on this grid begins with its zone, as in 30V WL 060 571"
)]
#[case(
    "MGRS",
    "30Y WL 731 508",
    "the letters 30YWL name no square of this grid: a band of latitude C to X and two letters for the square follow the zone, as in 30V WL"
)]
#[case(
    "UPS:N",
    "B AH 000 000",
    "the letters BAH name no square of this grid: Y or Z and two letters for the square, as in Z AH"
)]
fn what_is_wrong_elsewhere(#[case] name: &str, #[case] text: &str, #[case] message: &str) {
    let error = grid(name).find(text, None).unwrap_err();
    assert_eq!(error.to_string(), message);
}

#[test]
fn letters_of_every_grid() {
    // The Irish Grid's squares, one letter: A in the north-west, V in the south-west, Z in the south-east.
    for (name, e, n, expected) in [
        ("EPSG:29903", 15_904.0, 234_671.0, "L 15904 34671"),
        ("EPSG:29903", 0.0, 0.0, "V 00000 00000"),
        ("EPSG:29903", 499_999.0, 499_999.0, "E 99999 99999"),
        ("EPSG:2157", 715_830.9, 734_697.2, "715830 734697"),
        ("UTM:30N", 506_079.0, 6_557_186.0, "30V WL 06079 57186"),
        ("UPS:S", 2_000_000.0, 2_000_000.0, "B AN 00000 00000"),
    ] {
        let written = grid(name).reference(GridPoint::metres(e, n), Figures::Ten).unwrap();
        assert_eq!(written, expected, "{name}");
    }
    let outside = [
        ("EPSG:27700", -1.0, 0.0),
        ("EPSG:27700", 700_000.0, 0.0),
        ("EPSG:29903", 0.0, 500_000.0),
        ("UTM:30N", 99_999.0, 6e6),
        ("UTM:30N", 5e5, 9.4e6),
        ("UPS:N", 1_299_999.0, 2e6),
    ];
    for (name, e, n) in outside {
        let error = grid(name).reference(GridPoint::metres(e, n), Figures::Six).unwrap_err();
        assert!(matches!(error, GridError::Outside { .. }), "{name} {e} {n}: {error}");
    }
    let chart = chart_grid();
    assert!(chart.reference(GridPoint::metres(599_999.0, 350_000.0), Figures::Two).is_err());
}

/// On a zone's own chart the zone and band may be left out, and MGRS takes them from the place
/// that is near.
#[test]
fn zone_left_out() {
    let near = GridPoint::metres(520_000.0, 6_540_000.0);
    let utm = grid("UTM:30N");
    for text in ["30VWL060571", "WL060571", "WL 060 571", "060571", "060 571"] {
        let square = utm.parse_reference(text, Some(near)).unwrap();
        assert_eq!(square.south_west, GridPoint::metres(506_000.0, 6_557_100.0), "{text}");
        let found = Grid::Mgrs.find(text, Some(position(59.1, -2.9))).unwrap();
        assert_eq!(found.square, square);
        assert_eq!(found.grid, utm);
    }
    assert_eq!(Grid::Mgrs.parse_reference("30VWL060571", None), Err(ReferenceError::NoZone));
    assert_eq!(Grid::Mgrs.inverse(near), Err(GridError::NoZone));
    assert_eq!(Grid::Mgrs.reference(near, Figures::Six), Err(GridError::NoZone));
}

/// A place on the edge of two bands exactly is in the northern one, whatever the projection made
/// of its latitude; and the equator and the meridian between zones likewise.
#[test]
fn bands_and_their_edges() {
    for (index, band) in (0..).zip("CDEFGHJKLMNPQRSTUVWX".chars()) {
        let south = f64::from(index) * 8.0 - 80.0;
        for lon in (-58..=58).map(|steps| f64::from(steps) * 3.1) {
            for lat in [south, south + 7.999_99] {
                let written = Grid::Mgrs.reference_at(position(lat, lon), Figures::Ten).unwrap();
                assert_eq!(written.chars().nth(2), Some(band), "{lat} {lon}: {written}");
            }
        }
    }
    let either_side = [180.0, -180.0]
        .map(|lon| Grid::Mgrs.reference_at(position(0.0, lon), Figures::Ten).unwrap());
    assert_eq!(either_side[0], either_side[1]);
}

/// South of the equator on a northern zone's chart, and north of it on a southern one's.
#[test]
fn across_the_equator() {
    let place = position(-0.5, -38.0);
    let there = Grid::Mgrs.reference_at(place, Figures::Ten).unwrap();
    let north = grid("UTM:24N");
    let point = north.forward(place).unwrap().point;
    assert!(point.northing < Length::ZERO);
    assert_eq!(north.reference(point, Figures::Ten).unwrap(), there);
    let square = north.parse_reference(&there, None).unwrap();
    assert!(square.contains(point), "{square:?}");
}

#[test]
fn figures_and_letters_apart() {
    assert_eq!(Figures::from_count(6), Some(Figures::Six));
    assert_eq!(Figures::from_count(7), None);
    assert_eq!(Figures::from_count(0), None);
    assert_eq!(Figures::from_count(12), None);
    for figures in Figures::ALL {
        assert_eq!(Figures::from_count(figures.count()), Some(figures));
    }
    let at = |e: f64, n: f64| chart_grid().square_letters(GridPoint::metres(e, n));
    assert_eq!(at(773_100.0, 350_800.0).as_deref(), Some("QB"));
    assert_eq!(at(773_100.0, 550_800.0), None);
    let on_utm = grid("UTM:30N").square_letters(GridPoint::metres(506_079.0, 6_557_186.0));
    assert_eq!(on_utm.as_deref(), Some("30V WL"));
    assert_eq!(grid("EPSG:2157").square_letters(GridPoint::metres(6e5, 7e5)), None);
}

#[test]
fn letterings() {
    let corner = GridPoint::metres(600_000.0, 300_000.0);
    let errors = [
        (
            GridPoint::metres(650_000.0, 300_000.0),
            vec!["QB"],
            "the lettering's corner 650000 300000 is not on a multiple of 100,000 m",
        ),
        (corner, vec![], "the lettering names no square"),
        (corner, vec![" "], "the lettering names no square"),
        (corner, vec!["QA RA", "QB"], "row 2 of the lettering has 1 squares, the first has 2"),
        (corner, vec!["QA qb"], "the square name \"qb\" is not one to three letters A to Z"),
        (corner, vec!["Q1"], "the square name \"Q1\" is not one to three letters A to Z"),
        (corner, vec!["QA QA"], "the square name QA is given twice"),
        (corner, vec!["A"; 26], "the lettering has 26 rows or columns, 25 is the most"),
    ];
    for (corner, names, message) in errors {
        assert_eq!(Lettering::rows(corner, &names).unwrap_err().to_string(), message);
    }
    let two = Lettering::rows(corner, &["QA RA", "QB RB"]).unwrap();
    assert_eq!(two.to_rows(), ["QA RA", "QB RB"]);
    assert_eq!(two.south_west(), corner);
    assert!(!Lettering::NONE.is_lettered());
}

#[test]
fn a_chart_without_letters_has_full_coordinates() {
    let origin = position(47.3, -38.6);
    let false_origin = GridPoint::metres(50_000.0, 50_000.0);
    let grid = ChartGrid::new("Plain", origin, 1.0, false_origin, Lettering::NONE).unwrap();
    let grid = Grid::Chart(grid);
    assert_eq!(grid.reference(false_origin, Figures::Six).unwrap(), "50000 50000");
    assert_eq!(grid.parse_reference("50000, 50000", None).unwrap().south_west, false_origin);
    let near = Some(GridPoint::metres(61_000.0, 44_000.0));
    let square = grid.parse_reference("500500", near).unwrap();
    assert_eq!(square.south_west, false_origin);
    let error = grid.parse_reference("QB 500500", near).unwrap_err();
    assert_eq!(error, ReferenceError::Unlettered("QB".to_owned()));
}

#[test]
fn chart_grids_that_cannot_be() {
    let here = position(47.3, -38.6);
    let zero = GridPoint::metres(0.0, 0.0);
    let new = |title, origin, scale, false_origin| {
        ChartGrid::new(title, origin, scale, false_origin, Lettering::NONE)
            .map_err(|e| e.to_string())
    };
    let errors = [
        (new(" ", here, 1.0, zero), "the grid has no title"),
        (new("T", here, 3.0, zero), "scale on the central meridian 3 is not within 0.5 to 2"),
        (
            new("T", position(89.5, 0.0), 1.0, zero),
            "latitude of the origin 89.5 is not within -89 to 89 degrees",
        ),
        (
            new("T", here, 1.0, GridPoint::metres(2e7, 0.0)),
            "false easting 20000000 is not within -10,000 to 10,000 km",
        ),
    ];
    for (result, message) in errors {
        assert_eq!(result.unwrap_err(), message);
    }
}

/// A band's edge lies further from the equator the further off the meridian it is met: squares
/// at the sides of a zone touch bands that they would miss on its meridian.
#[test]
fn squares_at_the_sides_of_a_zone_are_in_the_bands_that_they_touch() {
    let zone = grid("UTM:8S");
    let mut read = 0;
    for easting in [101_000.0, 166_000.0, 299_999.0, 834_000.0, 899_000.0] {
        for kilometres in (1_120..10_000).step_by(3) {
            let point = GridPoint::metres(easting, f64::from(kilometres) * 1000.0);
            let Ok(written) = zone.reference(point, Figures::Six) else { continue };
            let square = zone.parse_reference(&written, None);
            assert!(square.is_ok_and(|square| square.contains(point)), "{written} {point:?}");
            read += 1;
        }
    }
    assert!(read > 12_000, "{read}");
}
