//! Lines thinned to what paper shows.

use crate::draw::{Mm, Spot};

/// How far a thinned line may stray: half of the finest that a good printer sets.
pub(super) const STRAYS: Mm = Mm(0.025);

/// A line without the places that it does not need: none left out is farther from the line that is left than
/// [`STRAYS`] and the 0.01 mm below which neighbours are one place (Douglas and Peucker 1973).
pub(super) fn line(spots: &[Spot]) -> Vec<Spot> {
    let spots = apart(spots);
    let mut keeps = vec![false; spots.len()];
    let Some(last) = spots.len().checked_sub(1) else { return spots };
    (keeps[0], keeps[last]) = (true, true);
    let mut todo = vec![(0, last)];
    while let Some((from, to)) = todo.pop() {
        let far = |index: &usize| off(spots[*index], spots[from], spots[to]);
        let farthest = (from + 1..to).max_by(|a, b| far(a).0.total_cmp(&far(b).0));
        if let Some(middle) = farthest.filter(|index| far(index) > STRAYS) {
            keeps[middle] = true;
            todo.extend([(from, middle), (middle, to)]);
        }
    }
    spots.into_iter().zip(keeps).filter_map(|(spot, keep)| keep.then_some(spot)).collect()
}

/// A ring thinned so: cut where it begins and farthest from there.
pub(super) fn ring(spots: &[Spot]) -> Vec<Spot> {
    let Some(&first) = spots.first() else { return Vec::new() };
    let far = |index: &usize| spots[*index].distance(first).0;
    let cut = (0..spots.len()).max_by(|a, b| far(a).total_cmp(&far(b))).unwrap_or(0);
    let mut thinned = line(&spots[..=cut]);
    let back: Vec<Spot> = spots[cut..].iter().copied().chain([first]).collect();
    let back = line(&back);
    thinned.extend(back.into_iter().skip(1));
    // The first place is there again at the end.
    thinned.pop();
    thinned
}

/// The places without those next to the one before.
fn apart(spots: &[Spot]) -> Vec<Spot> {
    const NEXT: Mm = Mm(0.01);
    let mut kept: Vec<Spot> = Vec::new();
    for (index, spot) in spots.iter().enumerate() {
        let ends = index + 1 == spots.len();
        if ends || kept.last().is_none_or(|last| last.distance(*spot) > NEXT) {
            kept.push(*spot);
        }
    }
    kept
}

/// How far a place is from a side.
fn off(spot: Spot, a: Spot, b: Spot) -> Mm {
    let (dx, dy) = ((b.x - a.x).0, (b.y - a.y).0);
    let length = dx * dx + dy * dy;
    if length == 0.0 {
        return spot.distance(a);
    }
    let part = ((spot.x - a.x).0 * dx + (spot.y - a.y).0 * dy) / length;
    let part = part.clamp(0.0, 1.0);
    spot.distance(a.moved(Mm(dx * part), Mm(dy * part)))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn no_place_left_out_is_far_from_the_line(
            places in prop::collection::vec((-0.1..0.1, -0.1..0.1), 1..80),
        ) {
            let mut at = Spot::default();
            let spots: Vec<Spot> = places.into_iter().map(|(dx, dy)| {
                at = at.moved(Mm(dx), Mm(dy));
                at
            }).collect();
            let thinned = line(&spots);
            prop_assert!(thinned.len() <= spots.len());
            prop_assert_eq!((thinned.first(), thinned.last()), (spots.first(), spots.last()));
            for spot in &spots {
                let sides = thinned.windows(2).map(|side| off(*spot, side[0], side[1]).0);
                let near = sides.fold(spot.distance(thinned[0]).0, f64::min);
                prop_assert!(near <= STRAYS.0 + 0.01 + 1e-9, "{near}");
            }
        }
    }

    #[test]
    fn a_fine_circle_needs_few_places() {
        let spots: Vec<Spot> = (0..3600)
            .map(|n| Spot::new(50.0, 50.0).towards(f64::from(n) / 10.0, Mm(20.0)))
            .collect();
        let thinned = ring(&spots);
        assert!((40..110).contains(&thinned.len()), "{}", thinned.len());
    }
}
