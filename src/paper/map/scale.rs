//! Scales.

use std::fmt;

use crate::draw::Mm;

/// A scale: so many millimetres of ground to one of paper, at the middle of the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Scale(u32);

/// A scale that is none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a scale of 1:{one_to} cannot be drawn: take one from 1:1,000 to 1:200,000,000")]
pub struct ScaleError {
    /// One to how many.
    pub one_to: u32,
}

/// What the round scales begin with.
const ROUND: [u32; 12] = [100, 125, 150, 200, 250, 300, 400, 500, 600, 750, 800, 1_000];

impl Scale {
    /// The largest that is drawn.
    pub const LARGEST: Scale = Scale(1_000);
    /// The smallest.
    pub const SMALLEST: Scale = Scale(200_000_000);

    /// The scale of one to so many.
    ///
    /// # Errors
    /// [`ScaleError`] beyond [`Scale::LARGEST`] and [`Scale::SMALLEST`].
    pub const fn new(one_to: u32) -> Result<Scale, ScaleError> {
        if one_to < Self::LARGEST.0 || one_to > Self::SMALLEST.0 {
            return Err(ScaleError { one_to });
        }
        Ok(Scale(one_to))
    }

    /// The largest round scale, such as 1:25,000 or 1:40,000, that is no larger than one to so many.
    #[must_use]
    pub fn rounded(one_to: f64) -> Scale {
        let bounded = one_to.clamp(f64::from(Self::LARGEST.0), f64::from(Self::SMALLEST.0));
        let bounded = if bounded.is_finite() { bounded } else { f64::from(Self::SMALLEST.0) };
        let mut ten = 10;
        loop {
            let fits = |round: &&u32| f64::from(**round) * f64::from(ten) >= bounded;
            if let Some(round) = ROUND.iter().find(fits) {
                return Scale((round * ten).min(Self::SMALLEST.0));
            }
            ten *= 10;
        }
    }

    /// The next round scale that shows more.
    #[must_use]
    pub fn smaller(self) -> Scale {
        Scale::rounded(f64::from(self.0) + 1.0)
    }

    /// One to how many.
    #[must_use]
    pub const fn one_to(self) -> u32 {
        self.0
    }

    /// How long so many metres of ground are on paper.
    #[must_use]
    pub fn of_metres(self, metres: f64) -> Mm {
        Mm(metres * 1000.0 / f64::from(self.0))
    }
}

/// As printed maps write it: `1:50,000`.
impl fmt::Display for Scale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let digits = self.0.to_string();
        f.write_str("1:")?;
        for (index, digit) in digits.chars().enumerate() {
            if index > 0 && (digits.len() - index).is_multiple_of(3) {
                f.write_str(",")?;
            }
            write!(f, "{digit}")?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_are_rounded_to_show_no_less() {
        for (one_to, text) in [
            (24_000.0, "1:25,000"),
            (25_000.0, "1:25,000"),
            (25_001.0, "1:30,000"),
            (0.0, "1:1,000"),
            (910_000.0, "1:1,000,000"),
            (f64::NAN, "1:200,000,000"),
            (1e99, "1:200,000,000"),
        ] {
            assert_eq!(Scale::rounded(one_to).to_string(), text);
        }
        assert_eq!(Scale::rounded(50_000.0).smaller().to_string(), "1:60,000");
        assert_eq!(Scale::rounded(50_000.0).of_metres(1_852.0), Mm(37.04));
        assert!(Scale::new(0).is_err() && Scale::new(50_000).is_ok());
    }
}
