//! The frame: numbers, degrees, scale and norths.

use super::figures::number;
use super::norths::Norths;
use super::scale::bars;
use super::*;
use nav::{Convergence, Speed, Variation};
use rstest::rstest;

#[rstest]
#[case(673_000.0, 1_000.0, "⁶73", "673")]
#[case(670_000.0, 10_000.0, "⁶70", "670")]
#[case(673_500.0, 100.0, "⁶73₅", "673.5")]
#[case(673_520.0, 10.0, "⁶73₅₂", "673.52")]
#[case(1_204_000.0, 1_000.0, "¹²04", "1204")]
#[case(5_000.0, 1_000.0, "05", "05")]
#[case(-205_000.0, 1_000.0, "⁻²05", "-205")]
fn the_principal_figures_are_large(
    #[case] metres: f64,
    #[case] interval: f64,
    #[case] glyphs: &str,
    #[case] ascii: &str,
) {
    assert_eq!(number(metres, interval, false), glyphs);
    assert_eq!(number(metres, interval, true), ascii);
}

#[test]
fn bars_have_round_lengths_that_fit() {
    let pace = Speed::from_knots(3.0).ok();
    for scale in [0.5, 3.0, 17.0, 60.0, 193.0, 900.0, 20_000.0] {
        for bar in bars(scale, pace, 26) {
            let words = bar.words(false);
            assert!(words.chars().count() <= 27, "{words} at {scale}");
            assert!(words.starts_with('┣') && words.ends_with('┫'), "{words}");
        }
    }
    // 1 NM is 1,852 m: 18.52 columns of 100 m, so the bar reaches over 19 from middle to middle.
    let words: Vec<String> = bars(100.0, pace, 26).iter().map(|bar| bar.words(false)).collect();
    assert_eq!(words[0], "┣━━━━━━ 1 NM ━━━━━━┫");
    assert!(words[1].contains(" 2 km ") && words[1].chars().count() == 21);
    // Three knots are 92.6 m a minute: 20 minutes are 18.52 columns.
    assert!(words[2].contains(" 20 min ") && words[2].chars().count() == 20);
}

#[rstest]
#[case(0.4, -9.1, " G│ T│ 0.4°E M╲ 9.1°W ")]
#[case(-2.0, 12.0, " G│ T╱ 2.0°W M╱ 12.0°E ")]
#[case(2.0, 1.0, " G│ T╲ 2.0°E M╲ 1.0°E ")]
fn ticks_lean_as_on_the_chart(
    #[case] convergence: f64,
    #[case] variation: f64,
    #[case] words: &str,
) {
    let norths = Norths {
        convergence: Convergence::from_degrees_east(convergence).unwrap(),
        variation: Variation::from_degrees_east(variation).unwrap(),
    };
    let [long, short, least] = norths.words(false);
    assert!(long.contains("variation"));
    assert_eq!(short, words);
    assert!(least.chars().count() < short.chars().count());
    assert!(norths.words(true).iter().all(|words| words.is_ascii()));
}

#[test]
fn the_chart_lies_within_its_frame() {
    assert_eq!(inner(Rect::new(2, 3, 80, 24)), Rect::new(6, 5, 75, 21));
    assert!(inner(Rect::new(0, 0, 3, 2)).is_empty());
}
