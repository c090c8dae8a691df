//! Laminar flow, exactly: Newtonian, Bingham and Herschel-Bulkley in a pipe and between two plates.
//!
//! The closed forms give the mean velocity from the stress at the wall; the stress for a wanted velocity is the
//! root of a rising function ([`wall_stress`]). An annulus is taken as a slot of its own width: against the
//! concentric annulus ([`annulus`](super::annulus)) the slot reads high by 2.3 % at a diameter ratio of 0.3, 1.4 % at 0.4, 0.1 % at 0.8.

use super::passage::Passage;
use super::rheology::{HerschelBulkley, LARGEST_INDEX, LEAST_INDEX};
use crate::{Formula, FormulaRecord, Kind, Recorder, Root, formula, numerics};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    HagenPoiseuille::RECORD,
    BuckinghamReiner::RECORD,
    LaminarPipeVelocity::RECORD,
    LaminarSlotVelocity::RECORD,
    WallStressGradient::RECORD,
];

formula! {
    /// Pressure gradient of a Newtonian fluid in laminar flow through a pipe.
    pub struct HagenPoiseuille;
    slug "hagen-poiseuille-gradient";
    equation "G = 32 μ v / d²";
    law Homogeneous;
    source "Hagen 1839, Poiseuille 1840; White, Fluid Mechanics";
    given {
        /// viscosity
        viscosity "μ" Viscosity must NON_NEGATIVE;
        /// mean velocity
        velocity "v" Speed must NON_NEGATIVE;
        /// inside diameter
        inner_diameter "d" Diameter must POSITIVE;
    }
    /// pressure lost per length
    gives "G" PressureGradient;
    value |f| 32.0 * f.viscosity * f.velocity / (f.inner_diameter * f.inner_diameter)
}

formula! {
    /// Mean velocity of a Bingham mud in laminar flow through a pipe, from the stress at the wall.
    pub struct BuckinghamReiner;
    slug "buckingham-reiner-velocity";
    equation "v = (τw d / (8 PV)) (1 - 4/3 x + 1/3 x⁴), x = YP/τw";
    law Homogeneous;
    source "Buckingham 1921, Reiner 1926; Chhabra & Richardson, Non-Newtonian Flow and Applied Rheology, ch. 3";
    given {
        /// stress at the wall
        wall_stress "τw" ShearStress must POSITIVE;
        /// plastic viscosity
        plastic_viscosity "PV" Viscosity must POSITIVE;
        /// yield point
        yield_point "YP" ShearStress must NON_NEGATIVE;
        /// inside diameter
        inner_diameter "d" Diameter must POSITIVE;
    }
    /// mean velocity; nought up to the yield point
    gives "v" Speed;
    value |f| {
        let x = (f.yield_point / f.wall_stress).min(1.0);
        f.wall_stress * f.inner_diameter / (8.0 * f.plastic_viscosity) * (1.0 - 4.0 / 3.0 * x + x.powi(4) / 3.0)
    }
}

formula! {
    /// Mean velocity of a Herschel-Bulkley mud in laminar flow through a pipe, from the stress at the wall.
    pub struct LaminarPipeVelocity;
    slug "laminar-pipe-velocity";
    equation "v = (d/2) n ((τw-τy)/K)^(1/n) (τw-τy)/τw³ ((τw-τy)²/(3n+1) + 2 τy (τw-τy)/(2n+1) + τy²/(n+1))";
    law Homogeneous;
    source "Chhabra & Richardson, Non-Newtonian Flow and Applied Rheology, ch. 3: integral of the shear rate over the pipe";
    given {
        /// stress at the wall
        wall_stress "τw" ShearStress must POSITIVE;
        /// yield stress
        yield_stress "τy" ShearStress must NON_NEGATIVE;
        /// consistency index
        consistency "K" Consistency must POSITIVE;
        /// flow index
        flow_index "n" Ratio must between(LEAST_INDEX, LARGEST_INDEX) valid between(0.2, 1.0);
        /// inside diameter
        inner_diameter "d" Diameter must POSITIVE;
    }
    /// mean velocity; nought up to the yield stress
    gives "v" Speed;
    value |f| {
        let n = f.flow_index;
        // Stresses as shares of the stress at the wall.
        let x = (f.yield_stress / f.wall_stress).min(1.0);
        let flowing = 1.0 - x;
        let wall_rate = (flowing * f.wall_stress / f.consistency).powf(1.0 / n);
        let shape = flowing * flowing / (3.0 * n + 1.0) + 2.0 * x * flowing / (2.0 * n + 1.0) + x * x / (n + 1.0);
        f.inner_diameter / 2.0 * n * wall_rate * flowing * shape
    }
}

formula! {
    /// Mean velocity of a Herschel-Bulkley mud in laminar flow through a slot, from the stress at the wall.
    pub struct LaminarSlotVelocity;
    slug "laminar-slot-velocity";
    equation "v = (h/(2 τw²)) ((τw-τy)/K)^(1/n) (n/(2n+1) (τw-τy)² + n/(n+1) τy (τw-τy))";
    law Homogeneous;
    source "Chhabra & Richardson, Non-Newtonian Flow and Applied Rheology, ch. 3: integral of the shear rate over the slot";
    given {
        /// stress at the wall
        wall_stress "τw" ShearStress must POSITIVE;
        /// yield stress
        yield_stress "τy" ShearStress must NON_NEGATIVE;
        /// consistency index
        consistency "K" Consistency must POSITIVE;
        /// flow index
        flow_index "n" Ratio must between(LEAST_INDEX, LARGEST_INDEX) valid between(0.2, 1.0);
        /// height of the slot: half of hole less pipe diameter
        slot_height "h" Diameter must POSITIVE;
    }
    /// mean velocity; nought up to the yield stress
    gives "v" Speed;
    value |f| {
        let n = f.flow_index;
        let x = (f.yield_stress / f.wall_stress).min(1.0);
        let flowing = 1.0 - x;
        let wall_rate = (flowing * f.wall_stress / f.consistency).powf(1.0 / n);
        f.slot_height / 2.0 * n * wall_rate * flowing * (flowing / (2.0 * n + 1.0) + x / (n + 1.0))
    }
}

formula! {
    /// Pressure gradient that a stress at the wall stands for: the force balance of a length of pipe or annulus.
    pub struct WallStressGradient;
    slug "wall-stress-gradient";
    equation "G = 4 τw / D";
    law Homogeneous;
    source "force balance; in field units τw/(300 D) psi/ft";
    given {
        /// stress at the wall
        wall_stress "τw" ShearStress must NON_NEGATIVE;
        /// diameter of a pipe, hole less pipe diameter of an annulus
        width "D" Diameter must POSITIVE;
    }
    /// pressure lost per length
    gives "G" PressureGradient;
    value |f| 4.0 * f.wall_stress / f.width
}

/// Mean velocity in a passage under a stress at the wall. [m/s]
fn velocity(curve: &HerschelBulkley, passage: &Passage, wall_stress: f64) -> f64 {
    let HerschelBulkley { yield_stress, consistency, flow_index } = *curve;
    match *passage {
        Passage::Bore { inner_diameter } => {
            LaminarPipeVelocity { wall_stress, yield_stress, consistency, flow_index, inner_diameter }.value()
        }
        Passage::Annulus { .. } => {
            let slot_height = passage.width() / 2.0;
            LaminarSlotVelocity { wall_stress, yield_stress, consistency, flow_index, slot_height }.value()
        }
    }
}

/// Stress at the wall in laminar flow at a mean velocity: exact in a pipe and in a slot. [Pa]
///
/// The velocity rises with the stress, so the root is the only one. The search starts from the estimate of API RP
/// 13D, which lies between 0.95 and 1.5 times the root for the indices in use, and widens until it holds the root.
/// Without flow the stress is the yield stress.
pub fn wall_stress<R: Recorder>(curve: &HerschelBulkley, passage: &Passage, mean_velocity: f64, rec: &mut R) -> f64 {
    if mean_velocity <= 0.0 || curve.consistency <= 0.0 {
        return curve.yield_stress;
    }
    let estimate = stress_estimate(curve, passage, mean_velocity);
    let excess = |stress: f64| velocity(curve, passage, stress) - mean_velocity;
    let (low, high) = widened(excess, (estimate / 1.55, 1.05 * estimate), curve.yield_stress);
    let stress = numerics::root(excess, low, high).unwrap_or_else(|| {
        rec.note(|| "no stress between the ends looked at gives this velocity: the estimate stands".to_owned());
        estimate
    });
    if R::ON {
        rec.root(Root {
            equation: "laminar velocity under the wall stress = mean velocity",
            sign: "τw",
            meaning: "stress at the wall",
            kind: Kind::ShearStress,
            value: stress,
            residual: excess(stress),
            residual_kind: Kind::Speed,
        });
        let HerschelBulkley { yield_stress, consistency, flow_index } = *curve;
        match *passage {
            Passage::Bore { inner_diameter } => {
                rec.take(LaminarPipeVelocity { wall_stress: stress, yield_stress, consistency, flow_index, inner_diameter })
            }
            Passage::Annulus { .. } => {
                let slot_height = passage.width() / 2.0;
                rec.take(LaminarSlotVelocity { wall_stress: stress, yield_stress, consistency, flow_index, slot_height })
            }
        };
    }
    stress
}

/// Ends that hold the root of a velocity in excess that rises with the stress: those given, widened; never below the yield stress. [Pa]
pub(super) fn widened(excess: impl Fn(f64) -> f64, (low, high): (f64, f64), yield_stress: f64) -> (f64, f64) {
    let (mut low, mut high) = (low.max(yield_stress), high);
    for _ in 0..60 {
        if excess(high) > 0.0 {
            break;
        }
        low = high;
        high *= 2.0;
    }
    for _ in 0..60 {
        if low <= yield_stress || excess(low) < 0.0 {
            break;
        }
        low = (low / 2.0).max(yield_stress);
    }
    (low.max(f64::MIN_POSITIVE), high)
}

/// The wall stress of API RP 13D 2006: a start for the search, within a half of the root.
pub(super) fn stress_estimate(curve: &HerschelBulkley, passage: &Passage, velocity: f64) -> f64 {
    use super::generalised::{GeneralisedWallStress, WallShearRate, geometry_factor};
    let HerschelBulkley { yield_stress, consistency, flow_index } = *curve;
    let geometry = geometry_factor(passage);
    let shear_rate = WallShearRate { velocity, width: passage.width(), flow_index, geometry }.value();
    GeneralisedWallStress { yield_stress, consistency, flow_index, shear_rate, geometry }.value()
}
