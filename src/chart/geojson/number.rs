//! Numbers as JSON writes them, to the nearest binary fraction.

/// The powers of ten that a binary fraction holds exactly.
const POWERS: [f64; 23] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
    1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
];

/// Whether a byte may be part of a number.
pub(super) fn is_part(byte: u8) -> bool {
    byte.is_ascii_digit() || b"+-.eE".contains(&byte)
}

/// The number at the beginning of `text` and how many bytes it takes; nothing where there is none.
#[inline]
pub(super) fn read(text: &[u8]) -> Option<(f64, usize)> {
    let negative = text.first() == Some(&b'-');
    let start = usize::from(negative);
    let (mut mantissa, whole) = digits(text.get(start..)?, 0);
    // A nought before other figures is no number in JSON.
    if whole == 0 || (whole > 1 && text.get(start) == Some(&b'0')) {
        return None;
    }
    let mut at = start + whole;
    let mut figures = whole;
    let mut exponent = 0;
    if text.get(at) == Some(&b'.') {
        let (more, fraction) = digits(text.get(at + 1..)?, mantissa);
        if fraction == 0 {
            return None;
        }
        mantissa = more;
        figures += fraction;
        exponent = -(fraction as i64);
        at += 1 + fraction;
    }
    if let Some(b'e' | b'E') = text.get(at) {
        let sign = text.get(at + 1).filter(|sign| b"+-".contains(sign));
        let from = at + 1 + usize::from(sign.is_some());
        let (power, count) = digits(text.get(from..)?, 0);
        if count == 0 {
            return None;
        }
        // Beyond the reach of any number, however long its mantissa may be.
        let power = if count > 9 { 10_000_000 } else { power as i64 };
        exponent += if sign == Some(&b'-') { -power } else { power };
        at = from + count;
    }
    // Both are exact, so that their product or quotient is the nearest (Clinger 1990).
    let magnitude = match usize::try_from(exponent.unsigned_abs()).map(|e| POWERS.get(e)) {
        Ok(Some(power)) if figures <= 19 && mantissa <= 1 << 53 => {
            if exponent < 0 {
                mantissa as f64 / power
            } else {
                mantissa as f64 * power
            }
        }
        _ => std::str::from_utf8(text.get(start..at)?).ok()?.parse().ok()?,
    };
    Some((if negative { -magnitude } else { magnitude }, at))
}

/// The digits at the beginning of `text` behind those of `before`, and how many they are. Of more
/// than nineteen in all, the number is none.
#[inline]
fn digits(text: &[u8], before: u64) -> (u64, usize) {
    let mut number = before;
    let mut count = 0;
    for byte in text {
        let digit = byte.wrapping_sub(b'0');
        if digit > 9 {
            break;
        }
        number = number.wrapping_mul(10).wrapping_add(u64::from(digit));
        count += 1;
    }
    (number, count)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// The standard library's reading is the nearest.
        #[test]
        fn numbers_are_read_as_the_standard_library_reads_them(
            text in "-?(0|[1-9][0-9]{0,20})(\\.[0-9]{1,20})?([eE][+-]?[0-9]{1,3})?",
        ) {
            let expected: f64 = text.parse().unwrap();
            let (found, length) = read(text.as_bytes()).unwrap();
            prop_assert_eq!(length, text.len());
            prop_assert_eq!(found.to_bits(), expected.to_bits());
        }

        #[test]
        fn degrees_come_back(degrees in -180.0..180.0f64) {
            let text = degrees.to_string();
            prop_assert_eq!(read(text.as_bytes()), Some((degrees, text.len())));
        }
    }

    #[test]
    fn what_json_takes_for_no_number_is_none() {
        for text in ["", "-", "+1", ".5", "1.", "01", "-01", "1e", "1e+", "NaN", "x"] {
            assert_eq!(read(text.as_bytes()), None, "{text}");
        }
        assert_eq!(read(b"1,2"), Some((1.0, 1)));
        assert_eq!(read(b"1e999"), Some((f64::INFINITY, 5)));
        assert_eq!(read(b"0e99999999999"), Some((0.0, 13)));
    }
}
