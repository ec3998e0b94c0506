//! How much more the samples of one look differ than counts that fall at random would, and an
//! interval that allows for it.

use super::density::INTERVAL_LEVEL;
use super::poisson::garwood;

/// The dispersion: Pearson's chi-square over its degrees of freedom, 1 where the variance equals the
/// mean. Samples may differ in size. None with fewer than two samples, or where nothing was found.
///
/// McCullagh and Nelder 1989, Generalized Linear Models, chapter 6.
pub(super) fn dispersion(counts: &[u32], areas_ft2: &[f64]) -> Option<f64> {
    let searched_ft2: f64 = areas_ft2.iter().sum();
    let found: f64 = counts.iter().copied().map(f64::from).sum();
    if counts.len() < 2 || found <= 0.0 || searched_ft2 <= 0.0 {
        return None;
    }
    let per_ft2 = found / searched_ft2;
    let chi_square: f64 = counts
        .iter()
        .zip(areas_ft2)
        .map(|(count, area_ft2)| {
            let expected = per_ft2 * area_ft2;
            (f64::from(*count) - expected).powi(2) / expected
        })
        .sum();
    let freedom = u32::try_from(counts.len() - 1).ok()?;
    // To nine decimals, so that samples which differ just as chance has it are not above 1.
    Some((chi_square / f64::from(freedom) * 1e9).round() / 1e9)
}

/// Lower and upper bound of a total, each moved away from it on the log scale by the square root of
/// a dispersion above 1. One below 1 narrows nothing: few samples often differ little by chance.
pub(super) fn widened(count: u32, dispersion: Option<f64>) -> (f64, f64) {
    let (lower, upper) = garwood(count, INTERVAL_LEVEL);
    let by = dispersion.filter(|d| *d > 1.0).map_or(1.0, f64::sqrt);
    if count == 0 || by <= 1.0 {
        return (lower, upper);
    }
    let mean = f64::from(count);
    (
        mean * (lower / mean).powf(by),
        mean * (upper / mean).powf(by),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_dispersion_of_known_counts() {
        // Mean 4, squares of the differences 0+4+4+16+16 = 40, /4 = 10, over 5 - 1.
        let counts = [4, 2, 6, 0, 8];
        assert!((dispersion(&counts, &[0.25; 5]).unwrap() - 2.5).abs() < 1e-12);
        // In samples of one size their size does not matter.
        assert!((dispersion(&counts, &[9.0; 5]).unwrap() - 2.5).abs() < 1e-12);
        // Twice the count on twice the area is no difference at all.
        assert!(dispersion(&[2, 4], &[1.0, 2.0]).unwrap().abs() < 1e-12);
        // Mean 2/3, chi-square 5 over 5.
        let by_chance = dispersion(&[1, 0, 2, 0, 1, 0], &[0.196; 6]);
        assert_eq!(by_chance, Some(1.0));
        for too_few in [&[][..], &[7], &[0, 0, 0]] {
            assert_eq!(dispersion(too_few, &vec![1.0; too_few.len()]), None);
        }
    }

    #[test]
    fn only_a_dispersion_above_one_widens() {
        let plain = garwood(20, INTERVAL_LEVEL);
        for dispersion in [None, Some(0.2), Some(1.0)] {
            assert_eq!(widened(20, dispersion), plain);
        }
        let (lower, upper) = widened(20, Some(4.0));
        // Twice as far on the log scale: 20 * (bound / 20)^2.
        assert!((lower - plain.0 * plain.0 / 20.0).abs() < 1e-12);
        assert!((upper - plain.1 * plain.1 / 20.0).abs() < 1e-12);
        assert_eq!(widened(0, Some(4.0)), garwood(0, INTERVAL_LEVEL));
    }
}
