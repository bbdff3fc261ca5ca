//! Tests that the cautions stand on every page that can be carried, whatever makes it.

use crate::card::tests::{Day, SHORT};
use crate::card::{Card, Content, Sides, Size};
use crate::draw::{self, Page};
use crate::leaflet::{Leaflet, Paper};
use crate::map::{Chartlet, Inks, Scale};
use crate::sheet;
use crate::words::INVENTED;
use crate::worksheet::{Water, Wishes, Worksheet};
use crate::{Sheet, picture};

/// The chart is invented, and nothing is for navigation: all of both, wherever lines break.
fn cautioned(words: &str, what: &str) {
    let bare = |words: &str| words.split_whitespace().collect::<String>();
    // Markdown has signs of its own.
    let words = bare(words).replace('\\', "");
    for caution in [INVENTED, nav::text::CAUTION] {
        assert!(words.contains(&bare(caution)), "{what} without {caution:?}: {words}");
    }
}

fn pages(pages: &[Page], what: &str) {
    assert!(!pages.is_empty(), "{what}");
    for page in pages {
        let words: Vec<&str> = page.texts().iter().map(|text| text.words.as_str()).collect();
        cautioned(&words.join(" "), what);
    }
}

fn leaflet(leaflet: &Leaflet<'_>, what: &str) {
    for paper in [Paper::A4, Paper::A5] {
        pages(&leaflet.set(&paper).unwrap(), what);
    }
    cautioned(&leaflet.text(), what);
    cautioned(&leaflet.markdown(), what);
}

#[test]
fn every_page_has_its_cautions() {
    for legs in [0, 1, 3, 30] {
        let day = Day::new(legs, SHORT);
        for size in [Size::A4, Size::A5, Size::A6] {
            for sides in [Sides::One, Sides::Two] {
                let card = Card { size, sides, ..Card::default() };
                pages(&card.set(&day.plan(None)).unwrap(), "a card");
            }
        }
        let content = Content::of(&day.plan(None));
        cautioned(&content.text(), "a card in text");
        cautioned(&content.markdown(), "a card in Markdown");
        leaflet(&sheet::Sheet::default().leaflet(&day.plan(None), None), "a sheet");
        let chartlet = Chartlet::of(&day.chart, &day.coast, Some(&day.route));
        for one_to in [60_000, 100_000, 1_000_000, 200_000_000] {
            let at = Sheet::At(Scale::new(one_to).unwrap());
            pages(&[picture(&chartlet, day.chart.extent, at).unwrap()], "a picture");
        }
        let on = Sheet::On(draw::Size::new(85.0, 70.0));
        pages(&[picture(&chartlet, day.chart.extent, on).unwrap()], "a small picture");
    }
}

#[test]
fn every_practice_sheet_has_its_cautions() {
    let day = Day::demonstration();
    let water = Water { chart: &day.chart, coast: &day.coast };
    let wishes = Wishes { paper: Paper::A4, scale: None, inks: Inks::Black };
    let sheet = Worksheet::of_route(water, &day.route, &wishes).unwrap();
    for part in [sheet.whole(), sheet.questions(), sheet.answers()] {
        pages(&sheet.pages(&part).unwrap(), "a practice sheet");
        cautioned(&part.text(), "a practice sheet in text");
        cautioned(&part.markdown(), "a practice sheet in Markdown");
    }
}
