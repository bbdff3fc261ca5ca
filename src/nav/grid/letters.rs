//! Alphabets of grid squares.

use super::ReferenceError;

/// The alphabet without I, as national grids and MGRS count rows and columns of squares.
const WITHOUT_I: &[u8; 25] = b"ABCDEFGHJKLMNOPQRSTUVWXYZ";

/// The letter of a square in a block of five by five, A in the north-west and Z in the
/// south-east; columns count from the west and rows from the south. Nothing outside the block.
pub(super) fn in_block(column: i64, row: i64) -> Option<char> {
    if !(0..5).contains(&column) || !(0..5).contains(&row) {
        return None;
    }
    let index = usize::try_from((4 - row) * 5 + column).ok()?;
    WITHOUT_I.get(index).map(|&letter| char::from(letter))
}

/// The column from the west and the row from the south of a letter's square in its block.
pub(super) fn place_in_block(letter: char) -> Option<(i64, i64)> {
    let index = position(WITHOUT_I, letter)?;
    Some((index % 5, 4 - index / 5))
}

/// Where a letter stands in an alphabet.
pub(super) fn position(alphabet: &[u8], letter: char) -> Option<i64> {
    let index = alphabet.iter().position(|&l| char::from(l) == letter)?;
    i64::try_from(index).ok()
}

/// The error for letters that no grid with this alphabet has, if one of them is the cause.
pub(super) fn check_used(letters: &str, unused: &[char]) -> Result<(), ReferenceError> {
    match letters.chars().find(|letter| unused.contains(letter)) {
        Some(letter) => Err(ReferenceError::LetterNotUsed(letter)),
        None => Ok(()),
    }
}

/// The error for letters that name no square.
pub(super) fn unknown(letters: &str, expected: &str) -> ReferenceError {
    ReferenceError::Letters { letters: letters.to_owned(), expected: expected.to_owned() }
}
