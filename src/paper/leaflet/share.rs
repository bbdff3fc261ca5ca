//! How columns share a width.

/// The widths of columns of which each has at least `least` and would like `wanted`: those that want little have it,
/// the others share what is left evenly. Nothing where not even the least has room.
pub(super) fn shares(least: &[f64], wanted: &[f64], total: f64) -> Option<Vec<f64>> {
    let room = total - least.iter().sum::<f64>();
    if room < 0.0 {
        return None;
    }
    let more: Vec<f64> =
        least.iter().zip(wanted).map(|(least, wanted)| (wanted - least).max(0.0)).collect();
    let level = level(&more, room);
    Some(least.iter().zip(&more).map(|(least, more)| least + more.min(level)).collect())
}

/// How much each may have at most so that all together have `room`.
fn level(more: &[f64], room: f64) -> f64 {
    let mut sorted = more.to_vec();
    sorted.sort_by(f64::total_cmp);
    let mut left = room;
    for (index, more) in sorted.iter().enumerate() {
        let each = left / (sorted.len() - index) as f64;
        if *more > each {
            return each;
        }
        left -= more;
    }
    f64::INFINITY
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_wants_little_has_it() {
        assert_eq!(shares(&[1.0, 1.0], &[2.0, 3.0], 10.0), Some(vec![2.0, 3.0]));
        assert_eq!(shares(&[1.0, 1.0, 1.0], &[2.0, 90.0, 90.0], 10.0), Some(vec![2.0, 4.0, 4.0]));
        assert_eq!(shares(&[6.0, 6.0], &[6.0, 6.0], 10.0), None);
        assert_eq!(shares(&[], &[], 10.0), Some(vec![]));
    }
}
