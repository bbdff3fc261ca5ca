//! Numbers as the questions print them.

/// `value` rounded to a multiple of `step`; nothing where it lies so close to the middle between two of them that the last bit
/// of a sine, which is not alike on every machine, could decide which.
pub(crate) fn steady(value: f64, step: f64) -> Option<f64> {
    let steps = value / step;
    let whole = steps.round();
    let to_the_middle = 0.5 - (steps - whole).abs();
    (value.is_finite() && to_the_middle > 1e-4).then_some(whole * step)
}

/// The same as a whole number of steps.
pub(crate) fn whole(value: f64, step: f64) -> Option<i64> {
    // Far within what an i64 holds: metres, minutes and degrees of one chart.
    steady(value, step).map(|value| (value / step).round() as i64)
}

/// A number with as many decimals as it needs, at most `most`: `3`, `4.5`.
pub(crate) fn plain(value: f64, most: usize) -> String {
    let text = format!("{value:.most$}");
    if !text.contains('.') {
        return text;
    }
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// Hours and minutes of the day: `09:05`.
pub(crate) fn clock(minute: i64) -> String {
    let minute = minute.rem_euclid(24 * 60);
    format!("{:02}:{:02}", minute / 60, minute % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_near_the_middle_is_not_decided() {
        assert_eq!(steady(47.2, 1.0), Some(47.0));
        assert_eq!(steady(47.5, 1.0), None);
        assert_eq!(steady(47.499_999_99, 1.0), None);
        assert_eq!(steady(f64::NAN, 1.0), None);
        assert_eq!(whole(0.34, 0.1), Some(3));
        assert_eq!(whole(-0.34, 0.1), Some(-3));
    }

    #[test]
    fn numbers_are_plain() {
        assert_eq!(plain(3.0, 2), "3");
        assert_eq!(plain(30.0, 0), "30");
        assert_eq!(plain(4.50, 2), "4.5");
        assert_eq!(plain(-0.001, 2), "0");
        assert_eq!(clock(-5), "23:55");
        assert_eq!(clock(24 * 60 + 65), "01:05");
    }
}
