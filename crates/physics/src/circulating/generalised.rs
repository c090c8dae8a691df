//! The building stones of API RP 13D: shear rate, wall stress and effective viscosity of the two editions.
//!
//! One geometry factor serves pipe (0) and annulus (1). In the generalised method the Reynolds number is taken with
//! the wall stress, so that 16/Re holds in both.

use super::passage::Passage;
use super::rheology::{LARGEST_INDEX, LEAST_INDEX};
use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    WallShearRate::RECORD,
    GeneralisedWallStress::RECORD,
    GeneralisedReynolds::RECORD,
    EffectiveViscosity::RECORD,
    BinghamApparentViscosity::RECORD,
    BinghamLaminarGradient::RECORD,
    SlotEquivalentDiameter::RECORD,
];

/// The geometry factor of a passage: 0 for a pipe, 1 for an annulus. [-]
pub const fn geometry_factor(passage: &Passage) -> f64 {
    match passage {
        Passage::Bore { .. } => 0.0,
        Passage::Annulus { .. } => 1.0,
    }
}

formula! {
    /// Shear rate at the wall, of a power-law fluid in a pipe or a slot.
    pub struct WallShearRate;
    slug "wall-shear-rate";
    equation "γw = 8 v/D (1 + α/2) ((3 - α) n + 1) / ((4 - α) n)";
    law Homogeneous;
    source "API RP 13D, 5th ed. 2006 (from memory); in field units 1.6 G v/D with v in ft/min";
    given {
        /// mean velocity
        velocity "v" Speed must NON_NEGATIVE;
        /// diameter of a pipe, hole less pipe diameter of an annulus
        width "D" Diameter must POSITIVE;
        /// flow index
        flow_index "n" Ratio must between(LEAST_INDEX, LARGEST_INDEX) valid between(0.2, 1.0);
        /// geometry factor: 0 pipe, 1 annulus
        geometry "α" Ratio must between(0.0, 1.0) default 0.0;
    }
    /// shear rate at the wall
    gives "γw" ShearRate;
    value |f| {
        let (n, a) = (f.flow_index, f.geometry);
        8.0 * f.velocity / f.width * (1.0 + a / 2.0) * ((3.0 - a) * n + 1.0) / ((4.0 - a) * n)
    }
}

formula! {
    /// Stress at the wall in laminar flow of a Herschel-Bulkley mud, approximately.
    ///
    /// Within -2.5 and +1.5 % of the exact stress while the yield stress is less than half of it and n <= 0.7; high near
    /// no flow, up to (3/2)^n times the yield stress in an annulus.
    pub struct GeneralisedWallStress;
    slug "generalised-wall-stress";
    equation "τw = ((4 - α)/(3 - α))^n τy + K γw^n";
    law Homogeneous;
    source "API RP 13D, 5th ed. 2006 (from memory)";
    given {
        /// yield stress
        yield_stress "τy" ShearStress must NON_NEGATIVE;
        /// consistency index
        consistency "K" Consistency must NON_NEGATIVE;
        /// flow index
        flow_index "n" Ratio must between(LEAST_INDEX, LARGEST_INDEX) valid between(0.2, 1.0);
        /// shear rate at the wall
        shear_rate "γw" ShearRate must NON_NEGATIVE;
        /// geometry factor: 0 pipe, 1 annulus
        geometry "α" Ratio must between(0.0, 1.0) default 0.0;
    }
    /// stress at the wall
    gives "τw" ShearStress;
    value |f| {
        let yielding = ((4.0 - f.geometry) / (3.0 - f.geometry)).powf(f.flow_index) * f.yield_stress;
        yielding + f.consistency * f.shear_rate.powf(f.flow_index)
    }
}

formula! {
    /// Generalised Reynolds number, from the stress that laminar flow would have at the wall.
    pub struct GeneralisedReynolds;
    slug "generalised-reynolds-number";
    equation "Re = 8 ρ v² / τw";
    law Homogeneous;
    source "API RP 13D, 5th ed. 2006 (from memory); in field units ρ v²/(19.36 τw)";
    given {
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// mean velocity
        velocity "v" Speed must NON_NEGATIVE;
        /// stress at the wall in laminar flow
        wall_stress "τw" ShearStress must POSITIVE;
    }
    /// Reynolds number
    gives "Re" Ratio;
    value |f| 8.0 * f.density * f.velocity * f.velocity / f.wall_stress
}

formula! {
    /// Effective viscosity of a power-law mud: what a Newtonian fluid would need to lose the same in laminar flow.
    pub struct EffectiveViscosity;
    slug "effective-viscosity";
    equation "μe = K (4 (2 + α) v/D)^(n-1) (((3 - α) n + 1) / ((4 - α) n))^n";
    law Homogeneous;
    source "API RP 13D, 3rd ed. 1995: 96 v/d in a pipe, 144 v/(D - d) in an annulus";
    given {
        /// consistency index
        consistency "K" Consistency must NON_NEGATIVE;
        /// flow index
        flow_index "n" Ratio must between(LEAST_INDEX, LARGEST_INDEX) valid between(0.2, 1.0);
        /// mean velocity
        velocity "v" Speed must POSITIVE;
        /// diameter of a pipe, hole less pipe diameter of an annulus
        width "D" Diameter must POSITIVE;
        /// geometry factor: 0 pipe, 1 annulus
        geometry "α" Ratio must between(0.0, 1.0) default 0.0;
    }
    /// effective viscosity
    gives "μe" Viscosity;
    value |f| {
        let (n, a) = (f.flow_index, f.geometry);
        let newtonian_rate = 4.0 * (2.0 + a) * f.velocity / f.width;
        let shape = ((3.0 - a) * n + 1.0) / ((4.0 - a) * n);
        f.consistency * newtonian_rate.powf(n - 1.0) * shape.powf(n)
    }
}

formula! {
    /// Apparent viscosity of a Bingham mud: 1/6 of the yield point over v/D in a pipe, 1/8 in an annulus.
    pub struct BinghamApparentViscosity;
    slug "bingham-apparent-viscosity";
    equation "μa = PV + YP D / ((6 + 2 α) v)";
    law Homogeneous;
    source "Guo & Liu, Applied Drilling Circulation Systems 2011, p. 30; 6.66 and 5 in field units";
    given {
        /// plastic viscosity
        plastic_viscosity "PV" Viscosity must NON_NEGATIVE;
        /// yield point
        yield_point "YP" ShearStress must NON_NEGATIVE;
        /// diameter of a pipe, hole less pipe diameter of an annulus, diameter of a falling cutting
        width "D" Diameter must POSITIVE;
        /// mean velocity
        velocity "v" Speed must POSITIVE;
        /// geometry factor: 0 pipe, 1 annulus
        geometry "α" Ratio must between(0.0, 1.0) default 0.0;
    }
    /// apparent viscosity
    gives "μa" Viscosity;
    value |f| f.plastic_viscosity + f.yield_point * f.width / ((6.0 + 2.0 * f.geometry) * f.velocity)
}

formula! {
    /// Pressure gradient of a Bingham mud in laminar flow, without the fourth power of the yield ratio.
    ///
    /// High by 4 % where the yield point is 0.6 of the wall stress, by a third (pipe) or a half (annulus) near no flow.
    pub struct BinghamLaminarGradient;
    slug "bingham-laminar-gradient";
    equation "G = 16 (2 + α) PV v/D² + 4 (4 - α)/(3 - α) YP/D";
    law Homogeneous;
    source "Guo & Liu, Applied Drilling Circulation Systems 2011, p. 41: PV v/(1500 d²) + YP/(225 d), PV v/(1000 w²) + YP/(200 w)";
    given {
        /// plastic viscosity
        plastic_viscosity "PV" Viscosity must NON_NEGATIVE;
        /// yield point
        yield_point "YP" ShearStress must NON_NEGATIVE;
        /// mean velocity
        velocity "v" Speed must NON_NEGATIVE;
        /// diameter of a pipe, hole less pipe diameter of an annulus
        width "D" Diameter must POSITIVE;
        /// geometry factor: 0 pipe, 1 annulus
        geometry "α" Ratio must between(0.0, 1.0) default 0.0;
    }
    /// pressure lost per length
    gives "G" PressureGradient;
    value |f| {
        let a = f.geometry;
        let viscous = 16.0 * (2.0 + a) * f.plastic_viscosity * f.velocity / (f.width * f.width);
        viscous + 4.0 * (4.0 - a) / (3.0 - a) * f.yield_point / f.width
    }
}

formula! {
    /// Diameter of the pipe that stands for a slot in the field method.
    pub struct SlotEquivalentDiameter;
    slug "slot-equivalent-diameter";
    equation "De = √(2/3) w";
    law Homogeneous;
    source "Guo & Liu, Applied Drilling Circulation Systems 2011, p. 30: 0.816 w, and 757 = 928 √(2/3)";
    given {
        /// hole less pipe diameter
        width "w" Diameter must NON_NEGATIVE;
    }
    /// equivalent diameter
    gives "De" Diameter;
    value |f| (2f64 / 3.0).sqrt() * f.width
}
