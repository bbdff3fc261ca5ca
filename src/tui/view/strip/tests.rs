//! The leg strip as it is drawn.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use rstest::rstest;

use super::{Columns, place_at};
use crate::driver::Driver;
use crate::state::Chosen;
use crate::testing::driver;
use crate::theme::{Colours, Theme, Tone};
use crate::{Gesture, Msg, Pointer};

fn rows(driver: &Driver) -> Vec<String> {
    let buffer: Buffer = driver.buffer(&Theme::new(Tone::Dark, Colours::None));
    let area = driver.state.layout().strip;
    let row = |y| (area.left()..area.right()).map(|x| buffer[(x, y)].symbol()).collect::<String>();
    (area.top()..area.bottom()).map(row).collect()
}

/// A leg of 8 km past the west side of the island, 2 km off.
fn past_the_island(width: u16, height: u16) -> Driver {
    let mut driver = driver(width, height);
    let at = |y: f64| chart::Point { x: 506_000.0, y };
    for y in [5_506_000.0, 5_514_000.0] {
        driver.state.cursor = at(y);
        driver.keys("Enter").unwrap();
    }
    driver.keys("Esc ]").unwrap();
    driver
}

#[test]
fn the_rows_say_clock_distance_off_and_what_is_passed() {
    let rows = rows(&past_the_island(140, 40));
    assert_eq!(rows.len(), 4);
    assert!(rows[0].contains("Leg 1") && rows[0].contains("① 09:00"), "{}", rows[0]);
    assert!(rows[0].contains("┬10:00") && rows[0].contains("10:26 ②"), "{}", rows[0]);
    assert!(rows[1].contains("off land") && rows[1].contains("2.0 km to 2.8 km"), "{}", rows[1]);
    assert!(rows[2].contains("no stream known"), "{}", rows[2]);
    assert!(rows[3].contains("no landing in 1 NM"), "{}", rows[3]);
    // The corners of the island are as far from the ends as they are from the middle of none.
    let profile: Vec<char> = rows[1].chars().filter(|c| ('▁'..='█').contains(c)).collect();
    assert_eq!(profile.first(), Some(&'█'));
    assert_eq!(profile.get(profile.len() / 2), Some(&'▆'), "2.0 of 2.8 km");
}

#[rstest]
#[case(140, 40, 4, true)]
#[case(80, 24, 3, false)]
fn a_key_opens_and_closes_it(
    #[case] width: u16,
    #[case] height: u16,
    #[case] rows: u16,
    #[case] at_first: bool,
) {
    let mut driver = past_the_island(width, height);
    let strip = |driver: &Driver| driver.state.layout().strip.height;
    assert_eq!(strip(&driver) > 0, at_first);
    for _ in 0..2 {
        let before = strip(&driver);
        driver.keys("x").unwrap();
        assert_eq!(strip(&driver), rows - before);
        assert_eq!(driver.state.unrolled.is_some(), driver.state.strip);
    }
}

#[test]
fn a_screen_that_is_too_low_says_so() {
    let mut driver = past_the_island(60, 20);
    driver.keys("x").unwrap();
    assert!(driver.state.message.as_ref().unwrap().text.contains("24 rows"));
    assert!(driver.state.unrolled.is_none());
}

#[test]
fn a_click_goes_to_the_place() {
    let mut driver = past_the_island(140, 40);
    let area = driver.state.layout().strip;
    let leg = Columns::of(area).leg;
    driver.state.chosen = None;
    driver.state.cursor = chart::Point { x: 506_000.0, y: 5_514_000.0 };
    let press = |column| Msg::Pointer(Pointer { what: Gesture::Press, column, row: area.y + 1 });
    driver.send(press(leg.x));
    let at = driver.state.cursor;
    assert!((at.y - 5_506_000.0).abs() < 1.0 && (at.x - 506_000.0).abs() < 1.0, "{at:?}");
    assert_eq!(driver.state.chosen, Some(Chosen::Leg(0)));
    driver.send(press(area.x));
    assert_eq!(driver.state.cursor, at, "labels are no place");
}

#[test]
fn what_is_unrolled_is_kept_until_it_changes() {
    let mut driver = past_the_island(140, 40);
    let line =
        |driver: &Driver| std::sync::Arc::clone(&driver.state.unrolled.as_ref().unwrap().line);
    let before = line(&driver);
    driver.keys("n g").unwrap();
    assert!(std::sync::Arc::ptr_eq(&before, &line(&driver)));
    driver.keys("Space Left*3").unwrap();
    assert!(!std::sync::Arc::ptr_eq(&before, &line(&driver)), "now the pencil's");
    assert_eq!(driver.state.unrolled.as_ref().unwrap().to, None);
}

#[test]
fn columns_lie_in_the_band_at_every_width() {
    for width in 0..240 {
        let area = Rect::new(2, 3, width, 4);
        let leg = Columns::of(area).leg;
        for column in 0..=260 {
            if let Some(place) = place_at(area, column, 129) {
                assert!((leg.left()..leg.right()).contains(&column) && place < 129);
            }
        }
    }
    assert_eq!(
        place_at(Rect::new(0, 0, 140, 4), Columns::of(Rect::new(0, 0, 140, 4)).leg.x, 0),
        None
    );
}

#[rstest]
#[case::high(140, 40, true)]
#[case::low(80, 24, true)]
#[case::too_low(60, 20, false)]
fn it_is_opened_and_closed_as_it_was_left(
    #[case] width: u16,
    #[case] height: u16,
    #[case] fits: bool,
) {
    let mut driver = past_the_island(width, height);
    let at_first = driver.state.strip;
    driver.state.take_strip_as_set();
    assert_eq!(driver.state.strip, at_first, "nothing was set: the size has it");
    driver.keys("x").unwrap();
    // Where there is no room it was not opened, and that is no wish of the reader's.
    assert_eq!(driver.state.settings.leg_strip, fits.then_some(!at_first));
    for open in [true, false] {
        driver.state.settings.leg_strip = Some(open);
        driver.state.take_strip_as_set();
        assert_eq!(driver.state.strip, open && fits);
    }
}
