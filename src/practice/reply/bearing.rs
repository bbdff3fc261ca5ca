//! Bearings as people write them.

use super::{plainly, words};
use crate::{NorthOf, Reply};

/// The sixteen points of the compass, from north, each 22.5° on from the one before.
const POINTS: [&str; 16] = [
    "n", "nne", "ne", "ene", "e", "ese", "se", "sse", "s", "ssw", "sw", "wsw", "w", "wnw", "nw",
    "nnw",
];

/// `047`, `47 T`, `T 047`, `047°M`, `47 degrees magnetic`, `SW`, `north-east`.
pub(super) fn read(text: &str) -> Option<Reply> {
    let lower = text.to_lowercase().replace(',', ".");
    let text = plainly(&lower);
    if let Some(point) = point(text) {
        return Some(Reply::Bearing { degrees: point as f64 * 22.5, north: None });
    }
    // The letter may stand first.
    let (first, text) = match text.split_at_checked(1) {
        Some((letter, rest)) if rest.trim_start().starts_with(|c: char| c.is_ascii_digit()) => {
            match of(letter) {
                Some(north) => (Some(north), rest.trim_start()),
                None => (None, text),
            }
        }
        _ => (None, text),
    };
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
    let (number, rest) = text.split_at(end);
    let degrees = number.parse().ok().filter(|degrees: &f64| (0.0..=360.0).contains(degrees))?;
    let north = north(rest)?.or(first);
    Some(Reply::Bearing { degrees: degrees.rem_euclid(360.0), north })
}

/// The north that is said behind the number, if any is; nothing at all where something else is.
fn north(rest: &str) -> Option<Option<NorthOf>> {
    let rest = rest.replace(['°', '(', ')'], " ");
    let mut said = rest.split_whitespace().skip_while(|word| word.starts_with("deg"));
    let Some(word) = said.next() else { return Some(None) };
    let more: Vec<&str> = said.collect();
    let north = of(word)?;
    words(&more.join(" ")).then_some(Some(north))
}

fn of(word: &str) -> Option<NorthOf> {
    match word.trim_end_matches('.') {
        "t" | "true" => Some(NorthOf::True),
        "g" | "grid" => Some(NorthOf::Grid),
        "m" | "mag" | "magnetic" => Some(NorthOf::Magnetic),
        _ => None,
    }
}

/// The number of a point of the compass, in letters or in words.
fn point(text: &str) -> Option<usize> {
    let letters = text
        .replace("north", "n")
        .replace("east", "e")
        .replace("south", "s")
        .replace("west", "w")
        .replace([' ', '-', '.'], "");
    POINTS.iter().position(|point| *point == letters)
}
