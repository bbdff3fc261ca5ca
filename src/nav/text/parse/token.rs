//! The pieces of a written position.

use super::PositionError;
use super::coordinate::Axis;

/// One piece.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Token {
    Number {
        value: f64,
        whole: bool,
    },
    Mark(Mark),
    Letter(Letter),
    /// Whether it is a minus.
    Sign(bool),
    /// A comma or semicolon between latitude and longitude.
    Divider,
}

/// The mark behind a figure, in the order of their size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Mark {
    Degree,
    Minute,
    Second,
}

/// A quarter of the compass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Letter {
    North,
    South,
    East,
    West,
}

impl Letter {
    pub(super) fn axis(self) -> Axis {
        match self {
            Letter::North | Letter::South => Axis::Latitude,
            Letter::East | Letter::West => Axis::Longitude,
        }
    }

    pub(super) fn is_negative(self) -> bool {
        matches!(self, Letter::South | Letter::West)
    }
}

/// The pieces of `text`, in order.
pub(super) fn tokens(text: &str) -> Result<Vec<Token>, PositionError> {
    let chars: Vec<char> = text.chars().map(plain).collect();
    let commas = Commas::of(&chars);
    let lettered =
        chars.iter().any(|&c| matches!(c, 'N' | 'S' | 'E' | 'W' | 'n' | 's' | 'e' | 'w'));
    let mut tokens = Vec::new();
    let mut at = 0;
    while let Some(&c) = chars.get(at) {
        let tight = at > 0 && chars[at - 1].is_ascii_digit() && digit_at(&chars, at + 1);
        let mut length = 1;
        match c {
            '0'..='9' | '.' => {
                length = run(&chars[at..], |c| {
                    c.is_ascii_digit() || c == '.' || (c == ',' && commas == Commas::Decimal)
                });
                // A comma behind a number divides, whatever those within one do.
                length -= usize::from(chars[at + length - 1] == ',');
                tokens.push(number(&chars[at..at + length])?);
            }
            ',' | ';' => tokens.push(Token::Divider),
            '°' => tokens.push(Token::Mark(Mark::Degree)),
            '"' => tokens.push(Token::Mark(Mark::Second)),
            '\'' if chars.get(at + 1) == Some(&'\'') => {
                length = 2;
                tokens.push(Token::Mark(Mark::Second));
            }
            '\'' => tokens.push(Token::Mark(Mark::Minute)),
            // In 57-09.3N the dash only joins.
            '-' if tight && lettered => {}
            '-' | '+' => tokens.push(Token::Sign(c == '-')),
            ' ' | ':' | '=' => {}
            _ if c.is_alphabetic() => {
                length = run(&chars[at..], char::is_alphabetic);
                tokens.extend(word(&chars[at..at + length])?);
            }
            _ => return Err(PositionError::Strange(c.to_string())),
        }
        at += length;
    }
    Ok(tokens)
}

/// What the commas between two figures are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Commas {
    Decimal,
    Divider,
}

impl Commas {
    /// A comma between figures divides, unless something else shows that it does not: a letter,
    /// another comma, a semicolon. Where there is a decimal point there is no decimal comma.
    fn of(chars: &[char]) -> Commas {
        let is_tight = |&at: &usize| {
            chars[at] == ',' && at > 0 && chars[at - 1].is_ascii_digit() && digit_at(chars, at + 1)
        };
        let all = chars.iter().filter(|&&c| matches!(c, ',' | ';')).count();
        let tight = (0..chars.len()).filter(is_tight).count();
        let shown = all > 1 || chars.iter().any(|c| c.is_alphabetic());
        if tight > 0 && shown && !chars.contains(&'.') { Commas::Decimal } else { Commas::Divider }
    }
}

fn digit_at(chars: &[char], at: usize) -> bool {
    chars.get(at).is_some_and(char::is_ascii_digit)
}

fn run(chars: &[char], belongs: impl Fn(char) -> bool) -> usize {
    chars.iter().take_while(|&&c| belongs(c)).count()
}

fn number(chars: &[char]) -> Result<Token, PositionError> {
    let text: String = chars.iter().collect();
    if text.matches(',').count() > 1 {
        return Err(PositionError::Comma(text));
    }
    let figures = text.replace(',', ".");
    match figures.parse() {
        Ok(value) => Ok(Token::Number { value, whole: !figures.contains('.') }),
        Err(_) => Err(PositionError::NotANumber(text)),
    }
}

/// A letter of the compass; nothing for a word that only says which of the two follows.
fn word(chars: &[char]) -> Result<Option<Token>, PositionError> {
    let text: String = chars.iter().collect();
    Ok(Some(Token::Letter(match text.to_lowercase().as_str() {
        "n" | "north" => Letter::North,
        "s" | "south" => Letter::South,
        "e" | "east" => Letter::East,
        "w" | "west" => Letter::West,
        "lat" | "latitude" | "lon" | "long" | "longitude" => return Ok(None),
        _ => return Err(PositionError::Strange(text)),
    })))
}

/// One sign for each of the many that are used for it.
fn plain(c: char) -> char {
    match c {
        '′' | '’' | '‘' | 'ʹ' | 'ʼ' | '´' | '`' => '\'',
        '″' | '”' | '“' | 'ʺ' => '"',
        'º' | '˚' | 'ᵒ' => '°',
        '−' | '–' | '‐' | '‑' => '-',
        _ if c.is_whitespace() => ' ',
        _ => c,
    }
}
