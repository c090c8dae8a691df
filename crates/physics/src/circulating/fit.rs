//! Yield stress, consistency and index of a Herschel-Bulkley mud from all readings of the viscometer.
//!
//! Weighted least squares: the squares of the relative errors are summed, so that the slow readings count as much
//! as the fast ones. Bounds: yield stress from nought to the smallest stress read, index from 0.2 to 1. For a
//! given index the two other numbers follow from linear equations; the index itself is found by a scan, and then where the
//! slope of the sum by the index is nought: at the best of the two others that slope is the one with these held.

use super::casson::Casson;
use super::rheology::HerschelBulkley;
use crate::{Kind, Recorder, numerics};

/// Smallest and largest flow index that a fit may give.
pub const INDEX_BOUNDS: (f64, f64) = (0.2, 1.0);

/// A fitted curve and how well it goes through the readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// The curve.
    pub curve: HerschelBulkley,
    /// Root of the mean square of the relative errors. [-]
    pub mean_error: f64,
    /// Largest relative error of a reading, with its sign: curve less reading. [-]
    pub worst_error: f64,
}

const FIT: &[(&str, Kind)] = &[
    ("shear rate", Kind::ShearRate),
    ("stress read", Kind::ShearStress),
    ("stress of the curve", Kind::ShearStress),
    ("error", Kind::Fraction),
];

/// Fits a curve to points of shear rate [1/s] and stress [Pa]; stresses above nought.
///
/// With fewer than three points the index cannot be told from the yield stress: the scan then takes the smallest
/// index that fits best, and the errors are nought without meaning anything.
pub fn fit_herschel_bulkley<R: Recorder>(points: &[(f64, f64)], rec: &mut R) -> Fit {
    let curve = at_index(points, best_index(points));
    let error = |&(rate, stress): &(f64, f64)| curve.stress(rate) / stress - 1.0;
    let worst = points.iter().map(error).fold(0.0, |worst: f64, one| if one.abs() > worst.abs() { one } else { worst });
    let count = points.len().max(1) as f64;
    let squares = squares(points, &powers(points, curve.flow_index), &curve);
    let fit = Fit { curve, mean_error: (squares / count).sqrt(), worst_error: worst };
    rec.table("Herschel-Bulkley fit, least squares of relative errors", FIT, || {
        points.iter().map(|point| vec![point.0, point.1, curve.stress(point.0), error(point)]).collect()
    });
    rec.given("yield stress", curve.yield_stress, Kind::ShearStress);
    rec.given("consistency index", curve.consistency, Kind::Consistency);
    rec.given("flow index", curve.flow_index, Kind::Ratio);
    rec.given("mean error of the fit", fit.mean_error, Kind::Fraction);
    rec.given("worst error of the fit", fit.worst_error, Kind::Fraction);
    fit
}

/// Fits a Casson curve to points of shear rate [1/s] and stress [Pa]; stresses above nought.
///
/// The roots of stress and shear rate lie on a straight line: least squares of the relative errors of the roots, so that
/// slow readings count as much as fast ones. Neither yield stress nor viscosity falls below nought.
pub fn fit_casson<R: Recorder>(points: &[(f64, f64)], rec: &mut R) -> Casson {
    let roots: Vec<(f64, f64)> = points.iter().map(|(rate, stress)| (rate.sqrt(), stress.sqrt())).collect();
    let line = at_index(&roots, 1.0);
    let curve = Casson { yield_stress: line.yield_stress.powi(2), high_shear_viscosity: line.consistency.powi(2) };
    rec.given("yield stress of the Casson curve", curve.yield_stress, Kind::ShearStress);
    rec.given("its viscosity at high shear rate", curve.high_shear_viscosity, Kind::Viscosity);
    curve
}

/// Relative error of a point, of its rate to the power of the index.
fn relative_error(stress: f64, power: f64, curve: &HerschelBulkley) -> f64 {
    (curve.yield_stress + curve.consistency * power) / stress - 1.0
}

/// Sum of the squares of the relative errors.
fn squares(points: &[(f64, f64)], powers: &[f64], curve: &HerschelBulkley) -> f64 {
    points.iter().zip(powers).map(|((_, stress), power)| relative_error(*stress, *power, curve).powi(2)).sum()
}

/// Half the slope of that sum by the index, yield stress and consistency held.
fn slope(points: &[(f64, f64)], powers: &[f64], curve: &HerschelBulkley) -> f64 {
    let by_index = |rate: f64, stress: f64, power: f64| curve.consistency * power * rate.ln() / stress;
    let one =
        |((rate, stress), power): (&(f64, f64), &f64)| relative_error(*stress, *power, curve) * by_index(*rate, *stress, *power);
    points.iter().zip(powers).map(one).sum()
}

/// The rates to the power of an index: dear enough to be worked out once.
fn powers(points: &[(f64, f64)], flow_index: f64) -> Vec<f64> {
    points.iter().map(|point| point.0.powf(flow_index)).collect()
}

/// The index with the smallest sum of squares: the best of a scan, refined between its neighbours.
fn best_index(points: &[(f64, f64)]) -> f64 {
    const STEPS: u32 = 80;
    let step = (INDEX_BOUNDS.1 - INDEX_BOUNDS.0) / f64::from(STEPS);
    let index = |at: u32| INDEX_BOUNDS.0 + step * f64::from(at);
    let miss = |powers: &[f64], index: f64| squares(points, powers, &at_powers(points, powers, index));
    // From one index of the scan to the next each power grows by the same factor.
    let (mut scanned, factors) = (powers(points, index(0)), powers(points, step));
    let (mut best, mut least) = (0, miss(&scanned, index(0)));
    for at in 1..=STEPS {
        scanned.iter_mut().zip(&factors).for_each(|(power, factor)| *power *= factor);
        let next = miss(&scanned, index(at));
        if next < least {
            (best, least) = (at, next);
        }
    }
    let [low, high] = [index(best.saturating_sub(1)), index((best + 1).min(STEPS))];
    let slope = |index: f64| {
        let powers = powers(points, index);
        slope(points, &powers, &at_powers(points, &powers, index))
    };
    // Without a valley inside, the best of the scan is a bound of the whole range.
    numerics::root(slope, low, high).unwrap_or_else(|| index(best))
}

/// Yield stress and consistency that fit best at a given index.
fn at_index(points: &[(f64, f64)], flow_index: f64) -> HerschelBulkley {
    at_powers(points, &powers(points, flow_index), flow_index)
}

/// The same, of the rates to the power of the index.
fn at_powers(points: &[(f64, f64)], powers: &[f64], flow_index: f64) -> HerschelBulkley {
    let smallest = points.iter().map(|point| point.1).fold(f64::INFINITY, f64::min);
    // Normal equations of the relative errors: a = 1/τ, b = γⁿ/τ, aim 1.
    let (mut aa, mut ab, mut bb, mut a1, mut b1) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for ((_, stress), power) in points.iter().zip(powers) {
        let (a, b) = (1.0 / stress, power / stress);
        aa += a * a;
        ab += a * b;
        bb += b * b;
        a1 += a;
        b1 += b;
    }
    let determinant = aa * bb - ab * ab;
    let free = if determinant > 1e-12 * aa * bb { (a1 * bb - b1 * ab) / determinant } else { 0.0 };
    let yield_stress = if smallest.is_finite() { free.clamp(0.0, smallest) } else { 0.0 };
    let consistency = if bb > 0.0 { ((b1 - yield_stress * ab) / bb).max(0.0) } else { 0.0 };
    HerschelBulkley { yield_stress, consistency, flow_index }
}
