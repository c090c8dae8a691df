//! Laminar flow in a concentric annulus, exactly: the check on the slot, and the choice for wide annuli.
//!
//! The stress is τ(r) = (G/2)(r - λ²/r), nought at r = λ. A plug of unyielded mud spans the radii where it stays below the
//! yield stress. λ is the one value that leaves both walls at rest; the flow follows from the shear rates outside the
//! plug. Two nested bracketed roots over Gauss-Legendre sums: meant for checks and single figures, not for sweeps.

use super::passage::gap;
use super::rheology::HerschelBulkley;
use crate::{Formula, FormulaRecord, Kind, Recorder, Root, formula, numerics};
use std::f64::consts::PI;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[AnnulusConstant::RECORD];

formula! {
    /// Laminar friction of a Newtonian fluid in a concentric annulus: Darcy's factor times the Reynolds number with hole less pipe diameter.
    ///
    /// A slot has 96, which reads 2.3 % high at a diameter ratio of 0.3 and 0.1 % at 0.8.
    pub struct AnnulusConstant;
    slug "annulus-friction-constant";
    equation "f Re = 64 (1 - k)² / (1 + k² + (1 - k²)/ln k)";
    law Homogeneous;
    source "White, Fluid Mechanics, laminar flow in a concentric annulus (from memory); Shah & London 1978";
    given {
        /// pipe diameter over hole diameter
        diameter_ratio "k" Ratio must between(1e-9, 0.99);
    }
    /// Darcy friction factor times Reynolds number
    gives "f Re" Ratio;
    value |f| {
        let k = f.diameter_ratio;
        64.0 * (1.0 - k) * (1.0 - k) / (1.0 + k * k + (1.0 - k * k) / k.ln())
    }
}

/// Pressure gradient of laminar flow in a concentric annulus at a mean velocity. [Pa/m]
///
/// The velocity rises with the gradient, so the root is the only one. `None` for a fluid without consistency or an annulus without room.
pub fn annulus_gradient<R: Recorder>(
    curve: &HerschelBulkley,
    hole_diameter: f64,
    pipe_diameter: f64,
    mean_velocity: f64,
    rec: &mut R,
) -> Option<f64> {
    let width = gap(hole_diameter, pipe_diameter);
    if curve.consistency <= 0.0 || pipe_diameter <= 0.0 || hole_diameter - pipe_diameter < width {
        return None;
    }
    // Up to here the yield stress holds the mud: the wall stresses balance the gradient over the gap.
    let still = 4.0 * curve.yield_stress / width;
    if mean_velocity <= 0.0 {
        return Some(still);
    }
    let ring = Ring { inner: pipe_diameter / 2.0, outer: hole_diameter / 2.0, curve };
    let excess = |gradient: f64| ring.mean_velocity(gradient) - mean_velocity;
    let newtonian_rate = 12.0 * mean_velocity / width;
    let low = still.max(f64::MIN_POSITIVE);
    let mut high = still + 4.0 * curve.stress(newtonian_rate) / width;
    for _ in 0..60 {
        if excess(high) > 0.0 {
            break;
        }
        high *= 2.0;
    }
    let gradient = numerics::root(excess, low, high)?;
    rec.root(Root {
        equation: "mean velocity in the concentric annulus at the gradient = mean velocity",
        sign: "G",
        meaning: "pressure gradient",
        kind: Kind::PressureGradient,
        value: gradient,
        residual: excess(gradient),
        residual_kind: Kind::Speed,
    });
    Some(gradient)
}

/// The room between two circles and what flows in it.
struct Ring<'a> {
    inner: f64,
    outer: f64,
    curve: &'a HerschelBulkley,
}

impl Ring<'_> {
    fn mean_velocity(&self, gradient: f64) -> f64 {
        let Some(square) = self.turning_square(gradient) else { return 0.0 };
        let flux = |r: f64| PI * r * r * self.shear_rate(gradient, square, r);
        let (plug_inner, plug_outer) = self.plug(gradient, square);
        // By parts: both walls at rest.
        let outside = integral(&flux, self.outer, plug_outer) - integral(&flux, self.inner, plug_inner);
        outside / (PI * (self.outer * self.outer - self.inner * self.inner))
    }

    /// λ², the square of the radius without stress; `None` when nothing flows.
    ///
    /// Moving it outwards moves the plug with it: the inner wall drives more, the outer less, and the difference of the
    /// plug's speed as seen from the two walls crosses nought once.
    fn turning_square(&self, gradient: f64) -> Option<f64> {
        let mismatch = |square: f64| {
            let rate = |r: f64| self.shear_rate(gradient, square, r);
            let (plug_inner, plug_outer) = self.plug(gradient, square);
            integral(&rate, self.inner, plug_inner) - integral(&rate, self.outer, plug_outer)
        };
        let square = numerics::root(mismatch, self.inner * self.inner, self.outer * self.outer)?;
        let (plug_inner, plug_outer) = self.plug(gradient, square);
        (plug_inner > self.inner && plug_outer < self.outer).then_some(square)
    }

    /// Radii at which the stress reaches the yield stress, kept between the walls.
    fn plug(&self, gradient: f64, square: f64) -> (f64, f64) {
        let a = 2.0 * self.curve.yield_stress / gradient;
        let root = (a * a + 4.0 * square).sqrt();
        let keep = |r: f64| r.clamp(self.inner, self.outer);
        // The smaller radius without the difference of near-equal numbers.
        (keep(2.0 * square / (root + a)), keep((root + a) / 2.0))
    }

    /// Magnitude of the shear rate at a radius.
    fn shear_rate(&self, gradient: f64, square: f64, r: f64) -> f64 {
        self.curve.shear_rate((gradient / 2.0 * (r - square / r)).abs())
    }
}

/// Integral of a function from a wall to the edge of the plug, as a magnitude.
///
/// The shear rate leaves the plug like a power above one; squaring the distance from the plug makes it smooth there.
fn integral(f: &impl Fn(f64) -> f64, wall: f64, plug: f64) -> f64 {
    let span = wall - plug;
    let sum: f64 = GAUSS
        .iter()
        .flat_map(|(x, weight)| [(0.5 + 0.5 * x, weight), (0.5 - 0.5 * x, weight)])
        .map(|(s, weight)| 0.5 * weight * 2.0 * s * f(plug + span * s * s))
        .sum();
    sum * span.abs()
}

/// Abscissae and weights of Gauss-Legendre integration with 20 points on -1 to 1, by symmetry (Abramowitz & Stegun, table 25.4).
const GAUSS: [(f64, f64); 10] = [
    (0.076_526_521_133_497_33, 0.152_753_387_130_725_85),
    (0.227_785_851_141_645_08, 0.149_172_986_472_603_75),
    (0.373_706_088_715_419_56, 0.142_096_109_318_382_05),
    (0.510_867_001_950_827_1, 0.131_688_638_449_176_63),
    (0.636_053_680_726_515, 0.118_194_531_961_518_42),
    (0.746_331_906_460_150_8, 0.101_930_119_817_240_44),
    (0.839_116_971_822_218_8, 0.083_276_741_576_704_75),
    (0.912_234_428_251_326, 0.062_672_048_334_109_06),
    (0.963_971_927_277_913_8, 0.040_601_429_800_386_94),
    (0.993_128_599_185_094_9, 0.017_614_007_139_152_12),
];
