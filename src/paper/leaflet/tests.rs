//! Tests of documents on pages, in text and in Markdown.

use proptest::prelude::*;
use unicode_width::UnicodeWidthStr;

use super::*;
use crate::draw::{Area, Item};
use crate::map::LEAST;

fn words() -> impl Strategy<Value = String> {
    let pieces = ["the ", "q\u{301}", "חוף ", "slip", " ", "A|B*", "Wwwwwwwwwwww", "1.2 NM "];
    prop::collection::vec(prop::sample::select(pieces.to_vec()), 0..30).prop_map(|all| all.concat())
}

fn table() -> impl Strategy<Value = Table> {
    (1_usize..12).prop_flat_map(|columns| {
        let row = prop::collection::vec(words(), columns);
        (prop::collection::vec(words(), columns), prop::collection::vec(row, 0..12), any::<bool>())
            .prop_map(|(heads, rows, pen)| Table {
                columns: heads.into_iter().map(Column::words).collect(),
                rows,
                pen,
            })
    })
}

fn one() -> impl Strategy<Value = Block<'static>> {
    let many = || prop::collection::vec(words(), 0..9);
    prop_oneof![
        words().prop_map(Block::Heading),
        words().prop_map(Block::Paragraph),
        words().prop_map(Block::Strong),
        many().prop_map(Block::List),
        many().prop_map(Block::Steps),
        many().prop_map(|all| Block::Boxes(all.into_iter().map(Tick::new).collect())),
        prop::collection::vec((words(), words()), 0..4).prop_map(|all| Block::Fields(
            all.into_iter().map(|(label, written)| Field { label, written }).collect()
        )),
        (0_usize..40).prop_map(Block::Rules),
        table().prop_map(Block::Table),
        (1.0..400.0, words()).prop_map(|(high, caption)| Block::Figure(Figure::new(
            High::Of(Mm(high)),
            caption,
            |area| Ok(vec![Item::clipped(area, Vec::new())])
        ))),
        Just(Block::NewPage),
    ]
}

fn blocks() -> impl Strategy<Value = Vec<Block<'static>>> {
    let together = prop::collection::vec(one(), 0..5).prop_map(Block::Together);
    prop::collection::vec(prop_oneof![6 => one(), 1 => together], 0..12)
}

fn leaflet(title: &str, blocks: Vec<Block<'static>>) -> Leaflet<'static> {
    let foot = vec!["Invented chart: no such place.".to_owned(), nav::text::CAUTION.to_owned()];
    Leaflet { title: title.to_owned(), blocks, foot, ..Leaflet::default() }
}

/// Every letter that is drawn, without spaces, sorted: nothing is lost and nothing comes twice.
fn letters<'a>(words: impl IntoIterator<Item = &'a str>) -> Vec<char> {
    let mut all: Vec<char> =
        words.into_iter().flat_map(str::chars).filter(|c| c.is_alphanumeric()).collect();
    all.sort_unstable();
    all
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn nothing_is_cut_small_or_off_the_page(blocks in blocks(), title in words()) {
        let leaflet = leaflet(&title, blocks);
        for paper in [Paper::A5, Paper::A4, Paper::LETTER.turned(), Paper::A4.in_pages(1)] {
            let pages = leaflet.set(&paper).unwrap();
            let all = Area::of(paper.sheet).inset(Mm(4.0));
            for page in &pages {
                for item in &page.items {
                    prop_assert!(item.area().is_none_or(|area| all.holds(&area)), "{item:?}");
                }
                prop_assert!(page.texts().iter().all(|text| text.size >= LEAST));
                let said: Vec<&str> = page.texts().iter().map(|text| text.words.as_str()).collect();
                let said = said.join(" ");
                prop_assert!(said.contains("no such place") && said.contains("Not for navigation"));
                prop_assert!(!said.contains('…'));
            }
        }
    }

    #[test]
    fn text_keeps_to_its_columns(blocks in blocks(), title in words()) {
        let text = leaflet(&title, blocks).text();
        prop_assert!(text.lines().all(|line| line.width() <= 80), "{text}");
    }

    #[test]
    fn every_word_of_a_paragraph_is_on_the_page(said in words()) {
        let one = leaflet("", vec![Block::Paragraph(said.clone())]);
        let with = one.set(&Paper::A5).unwrap();
        let without = leaflet("", vec![Block::Paragraph("x".into())]).set(&Paper::A5).unwrap();
        let drawn = |pages: &[Page]| {
            let texts: Vec<String> = pages
                .iter()
                .flat_map(|page| page.texts())
                .map(|text| text.words.clone())
                .collect();
            letters(texts.iter().map(String::as_str))
        };
        let mut both = letters([said.as_str()]);
        both.extend(drawn(&without));
        both.sort_unstable();
        let mut with = drawn(&with);
        with.push('x');
        with.sort_unstable();
        if !said.trim().is_empty() {
            prop_assert_eq!(with, both);
        }
    }
}

fn sample() -> Leaflet<'static> {
    let cells = |words: &[&str]| words.iter().map(ToString::to_string).collect::<Vec<_>>();
    leaflet(
        "What to take",
        vec![
            Block::Paragraph("Everything that the group carries, and who has it.".into()),
            Block::Fields(vec![Field::blank("Name"), Field::of("Boat", "red over white")]),
            Block::Heading("Kit".into()),
            Block::Boxes(vec![Tick::new("tow line"), Tick { ticked: true, ..Tick::new("pump") }]),
            Block::Heading("Legs".into()),
            Block::Table(Table::new(
                vec![Column::words("to"), Column::figures("NM")],
                vec![cells(&["Innagan Beach", "2.0"]), cells(&["Delovan slip", "11.4"])],
            )),
            Block::Table(Table::for_a_pen(
                vec![Column::words("leg"), Column::words("bearing"), Column::words("by whom")],
                vec![cells(&["1", "066°M", ""]), cells(&["2", "", ""])],
            )),
            Block::Steps(vec!["Call.".into(), "Say where you are.".into()]),
            Block::Rules(2),
        ],
    )
}

#[test]
fn all_forms_say_the_same() {
    let sample = sample();
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path(concat!(env!("CARGO_MANIFEST_DIR"), "/../../snapshots"));
    settings.set_prepend_module_to_snapshot(false);
    settings.bind(|| {
        insta::assert_snapshot!("leaflet-in-text", sample.text());
        insta::assert_snapshot!("leaflet-in-markdown", sample.markdown());
    });
    let pages = sample.set(&Paper::A5).unwrap();
    let all: Vec<String> = pages[0].texts().iter().map(|text| text.words.clone()).collect();
    for words in ["What to take", "Innagan Beach", "11.4", "066°M", "by whom", "tow line"] {
        assert!(all.iter().any(|line| line.contains(words)), "{words}");
        assert!(sample.text().contains(words) && sample.markdown().contains(words), "{words}");
    }
}

#[test]
fn a_heading_is_never_alone_at_the_end_of_a_page() {
    for lines in 0..90 {
        let mut blocks = vec![Block::Paragraph("word ".repeat(4 * lines))];
        blocks.push(Block::Heading("Legs".into()));
        let row = vec!["row".to_owned()];
        blocks.push(Block::Table(Table::new(vec![Column::words("head")], vec![row])));
        let pages = leaflet("", blocks).set(&Paper::A5).unwrap();
        let on = |words: &str| {
            pages.iter().position(|page| page.texts().iter().any(|text| text.words == words))
        };
        assert_eq!(on("Legs"), on("row"), "{lines}");
        assert_eq!(on("head"), on("row"), "{lines}");
    }
}

#[test]
fn what_belongs_together_is_on_one_page_and_heads_come_again() {
    let together = Block::Together(vec![
        Block::Paragraph("first".into()),
        Block::Rules(6),
        Block::Paragraph("last".into()),
    ]);
    let pages = leaflet("", vec![Block::Rules(20), together]).set(&Paper::A5).unwrap();
    assert_eq!(pages.len(), 2);
    assert!(pages[1].texts().iter().any(|text| text.words == "first"));
    let rows = vec![vec!["row".to_owned()]; 200];
    let long = Block::Table(Table::new(vec![Column::words("head")], rows));
    let pages = leaflet("", vec![long]).set(&Paper::A4).unwrap();
    assert!(pages.len() > 1);
    assert!(pages.iter().all(|page| page.texts().iter().any(|text| text.words == "head")));
}

#[test]
fn type_gives_way_to_the_number_of_pages() {
    let long = || leaflet("", vec![Block::Paragraph("some words ".repeat(700))]);
    assert_eq!(long().set(&Paper::A4).unwrap().len(), 2);
    let pages = long().set(&Paper::A4.in_pages(1)).unwrap();
    assert_eq!(pages.len(), 1);
    assert!(pages[0].texts().iter().any(|text| text.size > LEAST));
}
