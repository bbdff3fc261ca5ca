//! Tests of pictures of pixels.

use super::*;
use crate::draw::{Area, Size, Spot};
use crate::tests::rows;

#[test]
fn a_page_becomes_pixels_where_it_is_drawn() {
    let mut page = Page::new(Size::new(25.4, 12.7));
    let area = Area::at(Spot::new(2.54, 2.54), Size::new(5.08, 5.08));
    let all = Outline::rectangle(Area::of(page.size));
    page.items.push(Item::clipped(area, vec![Item::fill(all, Ink::Colour(1.0, 0.0, 0.0))]));
    let file = write(&page, 100.0).unwrap();
    assert!(file.starts_with(b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\x64\0\0\0\x32"));
    let rows = rows(&file, 100);
    assert_eq!(rows.len(), 50);
    for (y, row) in rows.iter().enumerate() {
        for (x, pixel) in row.chunks(3).enumerate() {
            let within = (10..30).contains(&x) && (10..30).contains(&y);
            assert_eq!(pixel, if within { [255, 0, 0] } else { [255; 3] }, "{x} {y}");
        }
    }
}

#[test]
fn no_picture_takes_all_memory() {
    let page = Page::new(Size::new(210.0, 297.0));
    for dots in [0.0, -3.0, f64::NAN, f64::INFINITY, 1e6] {
        assert!(write(&page, dots).is_err(), "{dots}");
    }
}
