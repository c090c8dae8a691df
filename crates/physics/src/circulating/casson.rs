//! The Casson model: the roots of stress and shear rate in a line. For oil muds and low shear; no loss method uses it.

use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[CassonStress::RECORD, CassonPipeVelocity::RECORD];

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
