//! One angle of a written position.

use super::PositionError;
use super::token::{Mark, Token};

/// Which of the two an angle is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Axis {
    Latitude,
    Longitude,
}

/// An angle as it was read; its range is not checked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Coordinate {
    /// Known where there was a letter.
    pub(super) axis: Option<Axis>,
    pub(super) degrees: f64,
}

impl Coordinate {
    pub(super) fn read(tokens: &[Token]) -> Result<Coordinate, PositionError> {
        let mut figures = Figures::default();
        let (mut letter, mut sign) = (None, None);
        for token in tokens {
            match token {
                Token::Number { value, whole } => figures.push(*value, *whole)?,
                Token::Mark(mark) => figures.mark(*mark)?,
                Token::Letter(one) if letter.is_none() => letter = Some(*one),
                Token::Sign(minus) if sign.is_none() && figures.is_empty() => sign = Some(*minus),
                Token::Letter(_) | Token::Sign(_) => return Err(PositionError::Order),
                Token::Divider => {}
            }
        }
        if letter.is_some() && sign.is_some() {
            return Err(PositionError::SignAndLetter);
        }
        let size = figures.degrees()?;
        let negative = letter.map_or(sign == Some(true), |letter| letter.is_negative());
        let degrees = if negative { -size } else { size };
        Ok(Coordinate { axis: letter.map(|letter| letter.axis()), degrees })
    }
}

/// Degrees, minutes and seconds as they come in.
#[derive(Debug, Default)]
struct Figures {
    values: [Option<f64>; 3],
    /// The place of the last figure: 0 for degrees.
    last: Option<usize>,
    /// Whether the last figure has had its mark.
    marked: bool,
    fraction: bool,
}

impl Figures {
    fn is_empty(&self) -> bool {
        self.last.is_none()
    }

    fn push(&mut self, value: f64, whole: bool) -> Result<(), PositionError> {
        let place = self.last.map_or(0, |last| last + 1);
        if self.fraction {
            let before = self.last.and_then(|last| self.values[last]);
            return Err(PositionError::Fraction(before.unwrap_or_default()));
        }
        *self.values.get_mut(place).ok_or(PositionError::Order)? = Some(value);
        self.last = Some(place);
        self.marked = false;
        self.fraction = !whole;
        Ok(())
    }

    /// The mark behind the last figure says what it is: 57°18″ has no minutes.
    fn mark(&mut self, mark: Mark) -> Result<(), PositionError> {
        let last = self.last.ok_or(PositionError::Order)?;
        let place = mark as usize;
        if self.marked || place < last {
            return Err(PositionError::Order);
        }
        let value = self.values[last].take();
        self.values[place] = value;
        self.last = Some(place);
        self.marked = true;
        Ok(())
    }

    fn degrees(&self) -> Result<f64, PositionError> {
        let [degrees, minutes, seconds] = self.values;
        let degrees = degrees.ok_or(PositionError::NoDegrees)?;
        let (minutes, seconds) = (minutes.unwrap_or(0.0), seconds.unwrap_or(0.0));
        if minutes >= 60.0 {
            return Err(PositionError::Minutes(minutes));
        }
        if seconds >= 60.0 {
            return Err(PositionError::Seconds(seconds));
        }
        Ok(degrees + (minutes + seconds / 60.0) / 60.0)
    }
}
