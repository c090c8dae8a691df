//! The Casson model: the roots of stress and shear rate in a line. For oil muds and low shear.
//!
//! A mud that was given this model loses in laminar flow what the exact velocities in pipe and slot say.

use super::laminar::widened;
use super::passage::Passage;
use crate::{Formula, FormulaRecord, Kind, Recorder, Root, formula, numerics};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[CassonStress::RECORD, CassonPipeVelocity::RECORD, CassonSlotVelocity::RECORD];

/// A Casson mud.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Casson {
    /// Yield stress. [Pa]
    pub yield_stress: f64,
    /// Viscosity at high shear rate. [Pa·s]
    pub high_shear_viscosity: f64,
}

impl Casson {
    /// Stress at a shear rate. [1/s], [Pa]
    pub fn stress(&self, shear_rate: f64) -> f64 {
        let Casson { yield_stress, high_shear_viscosity } = *self;
        CassonStress { yield_stress, high_shear_viscosity, shear_rate }.value()
    }

    /// Stress at the wall in laminar flow at a mean velocity: exact in a pipe and in a slot. [Pa]
    ///
    /// Without flow it is the yield stress.
    pub fn wall_stress<R: Recorder>(&self, passage: &Passage, mean_velocity: f64, rec: &mut R) -> f64 {
        let Casson { yield_stress, high_shear_viscosity } = *self;
        if mean_velocity <= 0.0 || high_shear_viscosity <= 0.0 {
            return yield_stress;
        }
        let velocity = |wall_stress: f64| match *passage {
            Passage::Bore { inner_diameter } => {
                CassonPipeVelocity { wall_stress, yield_stress, high_shear_viscosity, inner_diameter }.value()
            }
            Passage::Annulus { .. } => {
                let slot_height = passage.width() / 2.0;
                CassonSlotVelocity { wall_stress, yield_stress, high_shear_viscosity, slot_height }.value()
            }
        };
        let excess = |stress: f64| velocity(stress) - mean_velocity;
        // The stress of the shear rate of a Newtonian fluid in a slot: it lies above half of the root and below it doubled.
        let estimate = self.stress(12.0 * mean_velocity / passage.width());
        let (low, high) = widened(excess, (0.5 * estimate, 2.0 * estimate), yield_stress);
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
            let wall_stress = stress;
            match *passage {
                Passage::Bore { inner_diameter } => {
                    rec.take(CassonPipeVelocity { wall_stress, yield_stress, high_shear_viscosity, inner_diameter })
                }
                Passage::Annulus { .. } => {
                    let slot_height = passage.width() / 2.0;
                    rec.take(CassonSlotVelocity { wall_stress, yield_stress, high_shear_viscosity, slot_height })
                }
            };
        }
        stress
    }
}

formula! {
    /// Stress in a Casson mud.
    pub struct CassonStress;
    slug "casson-stress";
    equation "√τ = √τy + √(μ∞ γ)";
    law Homogeneous;
    source "Casson 1959; Chhabra & Richardson, Non-Newtonian Flow and Applied Rheology, ch. 1";
    given {
        /// yield stress
        yield_stress "τy" ShearStress must NON_NEGATIVE;
        /// viscosity at high shear rate
        high_shear_viscosity "μ∞" Viscosity must NON_NEGATIVE;
        /// shear rate
        shear_rate "γ" ShearRate must NON_NEGATIVE;
    }
    /// stress
    gives "τ" ShearStress;
    value |f| (f.yield_stress.sqrt() + (f.high_shear_viscosity * f.shear_rate).sqrt()).powi(2)
}

formula! {
    /// Mean velocity of a Casson mud in laminar flow through a pipe, from the stress at the wall.
    pub struct CassonPipeVelocity;
    slug "casson-pipe-velocity";
    equation "v = (τw d/(8 μ∞)) (1 - 16/7 √x + 4/3 x - 1/21 x⁴), x = τy/τw";
    law Homogeneous;
    source "integral of the shear rate over the pipe; Merrill et al. 1965 (from memory)";
    given {
        /// stress at the wall
        wall_stress "τw" ShearStress must POSITIVE;
        /// yield stress
        yield_stress "τy" ShearStress must NON_NEGATIVE;
        /// viscosity at high shear rate
        high_shear_viscosity "μ∞" Viscosity must POSITIVE;
        /// inside diameter
        inner_diameter "d" Diameter must POSITIVE;
    }
    /// mean velocity; nought up to the yield stress
    gives "v" Speed;
    value |f| {
        let x = (f.yield_stress / f.wall_stress).min(1.0);
        let shape = 1.0 - 16.0 / 7.0 * x.sqrt() + 4.0 / 3.0 * x - x.powi(4) / 21.0;
        f.wall_stress * f.inner_diameter / (8.0 * f.high_shear_viscosity) * shape
    }
}

formula! {
    /// Mean velocity of a Casson mud in laminar flow through a slot, from the stress at the wall.
    pub struct CassonSlotVelocity;
    slug "casson-slot-velocity";
    equation "v = (τw h/(6 μ∞)) (1 - 12/5 √x + 3/2 x - 1/10 x³), x = τy/τw";
    law Homogeneous;
    source "integral of the shear rate over the slot; narrow annuli count as slots";
    given {
        /// stress at the wall
        wall_stress "τw" ShearStress must POSITIVE;
        /// yield stress
        yield_stress "τy" ShearStress must NON_NEGATIVE;
        /// viscosity at high shear rate
        high_shear_viscosity "μ∞" Viscosity must POSITIVE;
        /// height of the slot: half of hole less pipe diameter
        slot_height "h" Diameter must POSITIVE;
    }
    /// mean velocity; nought up to the yield stress
    gives "v" Speed;
    value |f| {
        let x = (f.yield_stress / f.wall_stress).min(1.0);
        let shape = 1.0 - 12.0 / 5.0 * x.sqrt() + 1.5 * x - x.powi(3) / 10.0;
        f.wall_stress * f.slot_height / (6.0 * f.high_shear_viscosity) * shape
    }
}
