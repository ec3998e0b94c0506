//! The exact (Garwood) interval for the mean of a Poisson count.
//!
//! For a whole number of things found, the chi-square quantile of the textbook formula is the mean
//! at which a Poisson tail reaches half the error; it is solved for here, so no gamma function is
//! needed.

/// Largest total count that is taken; beyond it a typing slip is far likelier than a count.
pub(super) const COUNT_MOST: u32 = 100_000;

/// Lower and upper bound of the mean, at `level` (0.95 for 95 %), after finding `count`.
///
/// Garwood, F. (1936), Biometrika 28, 437: `qchisq(a/2, 2n)/2` and `qchisq(1-a/2, 2n+2)/2`.
pub(super) fn garwood(count: u32, level: f64) -> (f64, f64) {
    let tail = (1.0 - level) / 2.0;
    let n = f64::from(count);
    // Ten standard deviations and a constant enclose both bounds with room to spare.
    let highest = n + 10.0 * n.sqrt() + 20.0;
    let lower = if count == 0 {
        0.0
    } else {
        // P(X >= n) grows with the mean.
        bisect(0.0, n, |mean| 1.0 - at_most(count - 1, mean) > tail)
    };
    let upper = bisect(n, highest, |mean| at_most(count, mean) < tail);
    (lower, upper)
}

/// P(X <= k) of a Poisson variable, summed downwards from k in units of the term at k, so that
/// nothing over- or underflows on the way.
fn at_most(k: u32, mean: f64) -> f64 {
    if mean <= 0.0 {
        return 1.0;
    }
    let mut terms = 1.0_f64;
    let mut term = 1.0_f64;
    for i in (1..=k).rev() {
        term *= f64::from(i) / mean;
        terms += term;
        // Below the mean the terms rise before they fall; past the peak they may be cut off.
        if f64::from(i) < mean && term < terms * 1e-17 {
            break;
        }
        if terms > 1e280 {
            // The term at k is vanishingly rare beside the rest: nearly all mass lies below it.
            return 1.0;
        }
    }
    let log_term_k = f64::from(k) * mean.ln() - mean - ln_factorial(k);
    (log_term_k + terms.ln()).exp().min(1.0)
}

/// ln(k!), by Stirling's series from 100 on, where what it leaves out is below 1e-17.
fn ln_factorial(k: u32) -> f64 {
    if k < 100 {
        return (2..=k).map(|i| f64::from(i).ln()).sum();
    }
    let n = f64::from(k);
    let correction = 1.0 / (12.0 * n) - 1.0 / (360.0 * n.powi(3)) + 1.0 / (1260.0 * n.powi(5));
    n * n.ln() - n + 0.5 * (2.0 * std::f64::consts::PI * n).ln() + correction
}

/// The point between `low` and `high` from which `holds` is true, to the last bits.
fn bisect(mut low: f64, mut high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if middle <= low || middle >= high {
            break;
        }
        if holds(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    f64::midpoint(low, high)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Count, lower and upper bound at 95 %; computed with the regularised incomplete gamma
    /// function of mpmath 1.4 at 40 digits, an implementation this one shares nothing with.
    const BOUNDS: [(u32, f64, f64); 12] = [
        (0, 0.0, 3.688_879_454_113_94),
        (1, 0.025_317_807_984_289_9, 5.571_643_390_938_9),
        (2, 0.242_209_278_543_965, 7.224_687_667_723_96),
        (5, 1.623_486_390_118_42, 11.668_332_079_322_7),
        (10, 4.795_388_696_132_43, 18.390_356_042_017_8),
        (18, 10.667_940_780_399_5, 28.447_760_267_528),
        (19, 11.439_241_164_366_7, 29.670_853_571_585_6),
        (20, 12.216_519_585_403_9, 30.888_377_902_674_6),
        (21, 12.999_330_984_076_2, 32.100_730_734_943_4),
        (100, 81.363_991_250_923_1, 121.626_793_792_426),
        (1_000, 938.973_018_407_695, 1_063.952_136_016_3),
        (COUNT_MOST, 99_381.152_663_744_7, 100_621.744_739_744),
    ];

    #[test]
    fn bounds_agree_with_an_independent_gamma_function() {
        for (count, low, high) in BOUNDS {
            let (lower, upper) = garwood(count, 0.95);
            assert!(
                (lower - low).abs() <= 1e-9 * (1.0 + low),
                "{count}: {lower} for {low}"
            );
            assert!(
                (upper - high).abs() <= 1e-9 * (1.0 + high),
                "{count}: {upper} for {high}"
            );
        }
    }

    #[test]
    fn stirling_meets_the_plain_sum_where_it_takes_over() {
        let plain: f64 = (2..=100).map(|i| f64::from(i).ln()).sum();
        assert!((ln_factorial(100) - plain).abs() < 1e-11);
    }
}
