//! Durations, read as people write them.

use jiff::SignedDuration;

/// A text that is no duration.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{0}” is no time; write minutes, 40 min, or 1 h 10")]
pub struct DurationError(pub String);

/// The duration that `text` means: whole minutes (`20`, `20 min`) or hours and minutes (`1 h`,
/// `1 h 10`, `1:10`), as [`duration`](super::duration) writes it.
///
/// # Errors
/// [`DurationError`] for anything else, a negative one among it.
///
/// ```
/// use jiff::SignedDuration;
/// use nav::text;
/// assert_eq!(text::parse_duration("1 h 25"), Ok(SignedDuration::from_mins(85)));
/// assert_eq!(text::parse_duration("10min"), Ok(SignedDuration::from_mins(10)));
/// assert!(text::parse_duration("a while").is_err());
/// ```
pub fn parse_duration(text: &str) -> Result<SignedDuration, DurationError> {
    let minutes = in_minutes(&text.trim().to_lowercase());
    let wrong = || DurationError(text.to_owned());
    minutes.map(|minutes| SignedDuration::from_mins(minutes.into())).ok_or_else(wrong)
}

fn in_minutes(text: &str) -> Option<u32> {
    let number = |text: &str| {
        let text = text.trim();
        // A plus sign would be read, too.
        let plain = text.bytes().all(|byte| byte.is_ascii_digit());
        text.parse::<u32>().ok().filter(|_| plain)
    };
    let minutes = |text: &str| number(text.trim_end().strip_suffix("min").unwrap_or(text));
    match text.split_once(['h', ':']) {
        None => minutes(text),
        Some((hours, "")) => number(hours)?.checked_mul(60),
        Some((hours, rest)) => {
            let rest = minutes(rest).filter(|rest| *rest < 60)?;
            number(hours)?.checked_mul(60)?.checked_add(rest)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read_again() {
        for minutes in [0, 1, 59, 60, 61, 600, 1440, 10_000] {
            let time = SignedDuration::from_mins(minutes);
            assert_eq!(parse_duration(&super::super::duration(time)), Ok(time));
        }
    }

    #[test]
    fn what_is_no_duration_is_said() {
        for text in
            ["", "-5", "+5", "1 h 60", "1 h -5", "1.5 h", "h", ":", "99999999 h", "10 s", "1 h 2 h"]
        {
            assert_eq!(parse_duration(text), Err(DurationError(text.to_owned())), "{text}");
        }
    }
}
