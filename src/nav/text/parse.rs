//! Positions, read in every usual form.

use crate::{Latitude, Longitude, OutOfRange, Position};

mod coordinate;
mod token;

use coordinate::{Axis, Coordinate};
use token::{Mark, Token, tokens};

/// Why a text is not a position.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PositionError {
    /// There is nothing to read.
    #[error("no position given; write, say, 57°09.3′N 002°04.8′W")]
    Empty,
    /// A word or sign that belongs to no position.
    #[error("“{0}” is no part of a latitude or longitude")]
    Strange(String),
    /// Figures that make no number.
    #[error("“{0}” is not a number")]
    NotANumber(String),
    /// Commas that may be decimal commas or may divide.
    #[error(
        "“{0}” can be read in two ways; put a space or a semicolon between latitude and longitude"
    )]
    Comma(String),
    /// Only a latitude.
    #[error("there is a latitude but no longitude")]
    NoLongitude,
    /// Only a longitude.
    #[error("there is a longitude but no latitude")]
    NoLatitude,
    /// Two letters N or S.
    #[error("both are latitudes; one needs E or W")]
    TwoLatitudes,
    /// Two letters E or W.
    #[error("both are longitudes; one needs N or S")]
    TwoLongitudes,
    /// A letter at one of two that nothing else divides.
    #[error("only one of latitude and longitude has its letter; give both or none")]
    OneLetter,
    /// Nothing tells where the latitude ends.
    #[error(
        "where does the latitude end? put a comma between latitude and longitude, or N or S and E or W behind them"
    )]
    NoBoundary,
    /// More than two angles.
    #[error("more than one latitude and one longitude")]
    TooMany,
    /// An angle without degrees.
    #[error("the degrees are missing")]
    NoDegrees,
    /// Figures or marks out of order, or more than degrees, minutes and seconds.
    #[error("degrees, minutes and seconds are out of order")]
    Order,
    /// A fraction in a figure that another follows.
    #[error("{0} has a fraction, yet a smaller unit follows it; only the last figure may have one")]
    Fraction(f64),
    /// Sixty or more minutes.
    #[error("minutes {0} are not under 60")]
    Minutes(f64),
    /// Sixty or more seconds.
    #[error("seconds {0} are not under 60")]
    Seconds(f64),
    /// A minus and a letter at one angle.
    #[error("a sign and a letter at the same angle; give one of them")]
    SignAndLetter,
    /// A latitude or longitude that there is not.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
}

/// The position that a text names, in any usual form.
///
/// Degrees, degrees and minutes, or degrees, minutes and seconds; with letters before or
/// behind, or signs, latitude then first; with or without marks; divided by spaces, a comma,
/// a semicolon or nothing but the letters. A comma between figures is a decimal comma where it
/// cannot be anything else.
///
/// # Errors
/// [`PositionError`], which says what is wrong.
///
/// ```
/// use nav::text::parse_position;
/// let here = parse_position("57°09.3′N 002°04.8′W")?;
/// for same in ["57.155, -2.08", "57 09.3N 2 4.8W", "N57°09'18\" W002°04'48\"", "57,155 N; 2,08 W"] {
///     let there = parse_position(same)?;
///     assert!((there.lat.as_degrees() - here.lat.as_degrees()).abs() < 1e-12);
///     assert!((there.lon.as_degrees() - here.lon.as_degrees()).abs() < 1e-12);
/// }
/// assert_eq!(
///     parse_position("57°75′N 002°04.8′W").unwrap_err().to_string(),
///     "minutes 75 are not under 60"
/// );
/// # Ok::<(), nav::text::PositionError>(())
/// ```
pub fn parse_position(text: &str) -> Result<Position, PositionError> {
    let tokens = tokens(text)?;
    let tokens = trimmed(&tokens);
    if tokens.is_empty() {
        return Err(PositionError::Empty);
    }
    let (first, second) = tokens.split_at(boundary(tokens)?);
    let (first, second) = (Coordinate::read(first)?, Coordinate::read(second)?);
    let (lat, lon) = match (first.axis, second.axis) {
        (Some(Axis::Latitude), Some(Axis::Latitude)) => return Err(PositionError::TwoLatitudes),
        (Some(Axis::Longitude), Some(Axis::Longitude)) => return Err(PositionError::TwoLongitudes),
        (Some(Axis::Longitude), _) | (_, Some(Axis::Latitude)) => (second, first),
        _ => (first, second),
    };
    Ok(Position::new(Latitude::from_degrees(lat.degrees)?, Longitude::from_degrees(lon.degrees)?))
}

/// Without dividers at the ends.
fn trimmed(mut tokens: &[Token]) -> &[Token] {
    while let [Token::Divider, rest @ ..] | [rest @ .., Token::Divider] = tokens {
        tokens = rest;
    }
    tokens
}

/// Where the second angle begins.
fn boundary(tokens: &[Token]) -> Result<usize, PositionError> {
    let mut dividers = places(tokens, |token| matches!(token, Token::Divider));
    let letters: Vec<usize> = places(tokens, |token| matches!(token, Token::Letter(_))).collect();
    match (dividers.next(), dividers.next(), letters.as_slice()) {
        (Some(_), Some(_), _) | (_, _, [_, _, _, ..]) => Err(PositionError::TooMany),
        (Some(divider), None, _) => Ok(divider),
        (None, _, [0, second]) => Ok(*second),
        (None, _, [first, _]) => Ok(first + 1),
        (None, _, [letter]) => beside_one_letter(tokens, *letter),
        (None, _, _) => by_figures(tokens),
    }
}

/// With one letter in all, the other angle may be missing, or begin after it with a sign.
fn beside_one_letter(tokens: &[Token], letter: usize) -> Result<usize, PositionError> {
    let figures = places(tokens, |token| matches!(token, Token::Number { .. }));
    let fractions = places(tokens, |token| matches!(token, Token::Number { whole: false, .. }));
    if (1..tokens.len() - 1).contains(&letter) {
        return Ok(letter + 1);
    }
    if figures.count() > 3 || fractions.count() > 1 {
        return Err(PositionError::OneLetter);
    }
    Err(match tokens[letter] {
        Token::Letter(letter) if letter.axis() == Axis::Longitude => PositionError::NoLatitude,
        _ => PositionError::NoLongitude,
    })
}

/// Without letters: at the second degree mark, at a sign, or in the middle.
fn by_figures(tokens: &[Token]) -> Result<usize, PositionError> {
    let mut marks = places(tokens, |token| matches!(token, Token::Mark(Mark::Degree)));
    if let (Some(_), Some(second)) = (marks.next(), marks.next()) {
        let number = second.saturating_sub(1);
        let signed = number > 0 && matches!(tokens[number - 1], Token::Sign(_));
        return Ok(if signed { number - 1 } else { number });
    }
    if let Some(sign) = places(tokens, |token| matches!(token, Token::Sign(_))).find(|&at| at > 0) {
        return Ok(sign);
    }
    let numbers: Vec<usize> =
        places(tokens, |token| matches!(token, Token::Number { .. })).collect();
    match numbers.as_slice() {
        [_] => Err(PositionError::NoLongitude),
        [_, second] => Ok(*second),
        [_, _, third, _] => Ok(*third),
        [_, _, _, fourth, _, _] => Ok(*fourth),
        [_, _, _, _, _, _, _, ..] => Err(PositionError::TooMany),
        _ => Err(PositionError::NoBoundary),
    }
}

fn places(tokens: &[Token], wanted: fn(&Token) -> bool) -> impl Iterator<Item = usize> {
    tokens.iter().enumerate().filter(move |(_, token)| wanted(token)).map(|(place, _)| place)
}
