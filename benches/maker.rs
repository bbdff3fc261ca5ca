//! Charts made from a seed: one of 30 by 22 km of each character, and a small one.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench")]

use chart::Chart;
use chart::maker::{Character, Wishes, make};
use divan::Bencher;

fn main() {
    divan::main();
}

/// A chart of 30 by 22 km.
#[divan::bench(args = Character::ALL, sample_count = 10)]
fn practice_size(character: &Character) -> Chart {
    make(11, &Wishes { character: *character, ..Wishes::default() }).unwrap()
}

/// A chart of 7 by 6 km.
#[divan::bench(sample_count = 50)]
fn small(bencher: Bencher<'_, '_>) {
    let wishes = Wishes { width_km: 7, height_km: 6, ..Wishes::default() };
    bencher.bench(|| make(11, &wishes).unwrap());
}
