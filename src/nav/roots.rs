//! Where a smooth function is zero: every place, found from a bound on how it bends.

/// A function of one number whose second derivative is nowhere more than `bend`.
pub(crate) struct Smooth<F> {
    /// The function.
    pub(crate) value: F,
    /// No less than its second derivative anywhere.
    pub(crate) bend: f64,
    /// Zeros closer to one another than this may be missed, in pairs.
    pub(crate) finest: f64,
}

impl<F: Fn(f64) -> f64> Smooth<F> {
    /// Every place between `from` and `to` where the function changes its sign, in order.
    ///
    /// Between two ends the function is within `bend`·width²/8 of the chord. A stretch whose ends
    /// are both further than that on one side of zero holds no root; one whose chord is steeper
    /// than `bend`·width/2 holds one at most; any other is halved. So nothing is missed but a
    /// pair of roots within `finest`, where the function no more than touches zero.
    pub(crate) fn roots(&self, from: f64, to: f64) -> Vec<f64> {
        let mut found = Vec::new();
        if from < to {
            self.between((from, (self.value)(from)), (to, (self.value)(to)), &mut found);
        }
        found
    }

    fn between(&self, a: (f64, f64), b: (f64, f64), found: &mut Vec<f64>) {
        let width = b.0 - a.0;
        let crosses = (a.1 < 0.0) != (b.1 < 0.0);
        let sagitta = self.bend * width * width / 8.0;
        let clear = !crosses && a.1.abs().min(b.1.abs()) > sagitta;
        let steep = (b.1 - a.1).abs() > self.bend * width * width / 2.0;
        if clear || steep || width <= self.finest {
            if crosses {
                found.push(self.bracketed(a, b));
            }
            return;
        }
        let middle = f64::midpoint(a.0, b.0);
        let middle = (middle, (self.value)(middle));
        self.between(a, middle, found);
        self.between(middle, b, found);
    }

    /// The root between two ends of different signs, by false position with the Illinois change
    /// (Dowell and Jarratt 1971): the end that stays twice has its value halved.
    fn bracketed(&self, mut a: (f64, f64), mut b: (f64, f64)) -> f64 {
        // Far more than it ever takes from ends that close.
        for _ in 0..60 {
            let at = (a.0 * b.1 - b.0 * a.1) / (b.1 - a.1);
            let value = (self.value)(at);
            if value == 0.0 || (b.0 - a.0).abs() < self.finest * 1e-6 {
                return at;
            }
            if (value < 0.0) == (b.1 < 0.0) {
                a.1 /= 2.0;
            } else {
                a = b;
            }
            if (at - b.0).abs() < self.finest * 1e-6 {
                return at;
            }
            b = (at, value);
        }
        b.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_of_many_and_none_of_none() {
        let sine = Smooth { value: f64::sin, bend: 1.0, finest: 1e-3 };
        let found = sine.roots(0.5, 100.0);
        assert_eq!(found.len(), 31);
        for (index, root) in (1_u32..).zip(found) {
            assert!((root - f64::from(index) * std::f64::consts::PI).abs() < 1e-9, "{root}");
        }
        let above = Smooth { value: |x: f64| x.cos() + 1.001, bend: 1.0, finest: 1e-3 };
        assert!(above.roots(0.0, 100.0).is_empty());
    }

    #[test]
    fn two_that_lie_close_together() {
        // 1 - 1e-4 is dipped under for 0.028 either side of π.
        let dip = Smooth { value: |x: f64| x.cos() + 1.0 - 1e-4, bend: 1.0, finest: 1e-3 };
        let found = dip.roots(0.0, 6.0);
        assert_eq!(found.len(), 2, "{found:?}");
        let half = 2.0 * (0.5e-4_f64).sqrt().asin();
        assert!((found[0] - (std::f64::consts::PI - half)).abs() < 1e-7, "{found:?}");
        assert!(dip.roots(2.0, 1.0).is_empty());
    }
}
