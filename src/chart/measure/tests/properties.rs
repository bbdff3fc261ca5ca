//! What holds on every shore.

use proptest::prelude::*;

use super::super::walk::Legs;
use super::*;
use nav::geodesic::Reach;

/// A wandering line of short sides: a random walk, whose steps of a few hundred metres are turned
/// at random.
fn shore() -> impl Strategy<Value = Line> {
    let sides = proptest::collection::vec((-400.0..400.0f64, -300.0..500.0f64), 2..400);
    (sides, any::<bool>()).prop_map(|(sides, closed)| {
        let mut place = (0.0, 0.0);
        let step = |(east, north): (f64, f64)| {
            place = (place.0 + east, place.1 + north);
            near_equator(place.0, place.1)
        };
        Line::new(sides.into_iter().map(step), closed)
    })
}

/// The pieces of the line between the dividers' points, the piece of the remainder among them.
fn pieces(line: &Line, step: Length) -> Vec<Line> {
    let mut legs = Legs::new(line, Reach::new(step).unwrap(), Start::FIRST);
    let round = if line.closed { line.vertices.first() } else { None };
    let all: Vec<Vertex> = line.vertices.iter().chain(round).copied().collect();
    let (mut from, mut pieces) = ((all[0], 1), Vec::new());
    while let Some(place) = legs.next() {
        let between = all[from.1..=legs.passed()].iter().copied();
        let piece = std::iter::once(from.0).chain(between).chain([place]).collect();
        pieces.push(Line::through(piece, false));
        from = (place, legs.passed() + 1);
    }
    let rest = std::iter::once(from.0).chain(all[from.1..].iter().copied()).collect();
    pieces.push(Line::through(rest, false));
    pieces
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..Default::default() })]

    /// Dividers find no more than the line's length, and from the end as from the start no more.
    #[test]
    fn never_more_than_along(line in shore(), step in 50.0..5_000.0f64) {
        for start in [Start::FIRST, Start::LAST] {
            let walk = line.walk(metres(step), start).unwrap();
            prop_assert!(walk.remainder < walk.step);
            let leeway = 1e-6 * (walk.steps + 1) as f64;
            prop_assert!((walk.length() - line.length()).as_metres() < leeway, "{:?}", walk);
            let straight = line.straight().unwrap_or(Length::ZERO);
            prop_assert!((straight - walk.length()).as_metres() < leeway, "{:?}", walk);
        }
    }

    /// As the step shrinks, each wide step walked again with narrower dividers, the length never
    /// shrinks, but by what each of the wide steps is uncertain by, a tenth of a micrometre.
    #[test]
    fn never_less_with_narrower_dividers(line in shore(), widest in 400.0..5_000.0f64) {
        let mut wider = vec![line];
        let mut before = Length::ZERO;
        for halvings in 0..5 {
            let step = metres(widest * 0.5_f64.powi(halvings));
            let found = |piece: &Line| piece.walk(step, Start::FIRST).unwrap();
            let length: Length = wider.iter().map(|piece| found(piece).length()).sum();
            let steps: u64 = wider.iter().map(|piece| found(piece).steps + 1).sum();
            let leeway = 1e-6 * steps as f64;
            prop_assert!((before - length).as_metres() < leeway, "{:?} after {:?}", length, before);
            before = length;
            wider = wider.iter().flat_map(|piece| pieces(piece, step)).collect();
        }
    }

    /// The pieces are the line.
    #[test]
    fn pieces_make_the_line(line in shore(), step in 100.0..5_000.0f64) {
        let pieces = pieces(&line, metres(step));
        let whole: Length = pieces.iter().map(Line::length).sum();
        let leeway = 1e-6 * (pieces.len() + 1) as f64;
        prop_assert!((whole - line.length()).as_metres().abs() < leeway);
        for piece in &pieces[..pieces.len() - 1] {
            let off = piece.straight().unwrap() - metres(step);
            prop_assert!(off.as_metres().abs() < 1e-6, "{:?}", off);
        }
    }
}
