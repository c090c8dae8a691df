//! Buckled pipe against its parts: marched drag, the single criteria, the geometry of a helix.

use super::*;
use crate::Off;
use crate::rotating::{HelicalBuckling, HelicalBucklingFull, SinusoidalBuckling};

const E: f64 = 206.8e9;
const I: f64 = 5.93e-6;

fn pipe(inclination: f64, build: f64) -> CompressedPipe {
    CompressedPipe { youngs_modulus: E, second_moment: I, buoyed_weight: 260.0, clearance: 0.044, inclination, build }
}

/// Solving for the compression gives what the criterion of its own side force asks for.
#[test]
fn law_bend_formula_solves_the_side_force_criterion() {
    for buckling_coefficient in [SNAKING, HELIX_ONSET, HELIX_FULL] {
        for (inclination, curvature) in [(0.3, 0.0), (1.2, 2e-3), (0.8, -1e-3), (1.5, 5e-3)] {
            let p = pipe(inclination, curvature);
            let compression = CurvedHelicalBuckling {
                buckling_coefficient,
                youngs_modulus: E,
                second_moment: I,
                buoyed_weight: p.buoyed_weight,
                inclination,
                curvature,
                clearance: p.clearance,
            }
            .value();
            let side_force = p.buoyed_weight * inclination.sin() + compression * curvature;
            let (youngs_modulus, second_moment, clearance) = (E, I, p.clearance);
            let at = BucklingUnderSideForce { buckling_coefficient, youngs_modulus, second_moment, side_force, clearance };
            assert!((at.value() / compression - 1.0).abs() < 1e-9, "{inclination} {curvature}");
        }
    }
}

/// In a straight inclined hole the band is the three formulas in print.
#[test]
fn law_band_of_a_straight_hole() {
    let p = pipe(1.0, 0.0);
    let band = buckling_band(&p, &mut Off);
    let (youngs_modulus, second_moment, buoyed_weight, inclination, clearance) = (E, I, 260.0, 1.0, 0.044);
    let snaking = SinusoidalBuckling { youngs_modulus, second_moment, buoyed_weight, inclination, clearance }.value();
    let onset = HelicalBuckling { youngs_modulus, second_moment, buoyed_weight, inclination, clearance }.value();
    let full = HelicalBucklingFull { youngs_modulus, second_moment, buoyed_weight, inclination, clearance }.value();
    for (a, b) in [(band.snaking, snaking), (band.helix_onset, onset), (band.helix_full, full)] {
        assert!((a / b - 1.0).abs() < 1e-12);
    }
}

/// The band keeps its order everywhere, never falls to nought, and passes into the vertical criterion without a jump.
#[test]
fn law_band_is_ordered_and_smooth() {
    let mut last: Option<BucklingBand> = None;
    for step in 0..=1570 {
        let inclination = f64::from(step) * 1e-3;
        for build in [-2e-3, 0.0, 2e-3] {
            let band = buckling_band(&pipe(inclination, build), &mut Off);
            assert!(band.snaking > 0.0 && band.snaking < band.helix_onset && band.helix_onset <= band.helix_full);
            if build == 0.0 {
                if let Some(last) = last {
                    assert!((band.snaking - last.snaking).abs() < 2e3, "at {inclination}");
                }
                last = Some(band);
            }
        }
    }
    let vertical = buckling_band(&pipe(0.0, 0.0), &mut Off);
    assert!((vertical.snaking / (E * I * 260.0 * 260.0).cbrt() - 1.94).abs() < 1e-12);
}

/// A helix is a curve of curvature r (2π/p)², and its bending stress is that of this curvature.
#[test]
fn law_helix_bends_by_its_pitch() {
    let (compression, clearance, outer_diameter) = (1.5e5, 0.05, 0.127);
    let pitch = HelixPitch { youngs_modulus: E, second_moment: I, compression }.value();
    let curvature = clearance * (2.0 * PI / pitch).powi(2);
    let stress = HelixBendingStress { outer_diameter, clearance, compression, second_moment: I }.value();
    assert!((stress / (0.5 * E * outer_diameter * curvature) - 1.0).abs() < 1e-12);
}

fn pushed(length: f64) -> PushedPipe {
    let helix_onset = 9.0e4;
    PushedPipe {
        youngs_modulus: E,
        second_moment: I,
        clearance: 0.044,
        friction_factor: 0.3,
        lying_drag: 78.0,
        helix_onset,
        length,
    }
}

/// The closed form is what marching the drag in small steps gives; the transfer is its slope.
#[test]
fn law_arrival_is_the_march_of_the_drag() {
    let march = |push: f64, p: &PushedPipe| {
        let steps = 200_000;
        let step = p.length / f64::from(steps);
        let rate = |compression: f64| {
            let mut drag = p.lying_drag;
            if compression > p.helix_onset {
                drag += p.friction_factor * p.clearance * compression * compression / (4.0 * E * I);
            }
            drag
        };
        let mut compression = push;
        for _ in 0..steps {
            compression -= step * rate(compression - 0.5 * step * rate(compression));
        }
        compression
    };
    for push in [8.0e4, 1.2e5, 2.0e5, 6.0e5] {
        for length in [300.0, 900.0] {
            let p = pushed(length);
            let here = arrival(&p, push, &mut Off);
            let marched = march(push, &p);
            assert!((here.weight - marched).abs() < 3e-5 * push, "{push} {length}: {} {marched}", here.weight);
            let more = arrival(&p, push + 10.0, &mut Off);
            assert!(((more.weight - here.weight) / 10.0 - here.transfer).abs() < 1e-3, "{push} {length}");
        }
    }
}

/// More push brings less and less: never above the largest weight, and at last the string is locked up.
#[test]
fn law_pushing_ends_in_lock_up() {
    let p = pushed(1500.0);
    let PushedPipe { youngs_modulus, second_moment, clearance, friction_factor, lying_drag, length, .. } = p;
    let helix = LargestWeightThroughHelix { lying_drag, friction_factor, clearance, youngs_modulus, second_moment, length };
    let most = helix.value();
    let mut last = Arrival { weight: -1.0, wound: -1.0, transfer: 2.0 };
    for step in 1..60 {
        let here = arrival(&PushedPipe { helix_onset: 0.0, ..p }, 1e4 * 1.2f64.powi(step), &mut Off);
        assert!(here.weight >= last.weight && here.weight < most);
        assert!(here.transfer < last.transfer || here.weight == 0.0);
        last = if here.weight > 0.0 { here } else { Arrival { transfer: 2.0, ..here } };
    }
    assert!(last.locked_up() && last.weight > 0.99 * most);
    let short = arrival(&pushed(10.0), 5e4, &mut Off);
    assert!(!short.locked_up() && (short.transfer - 1.0).abs() < 1e-12, "lying pipe hands on every newton");
}
