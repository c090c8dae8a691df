//! Hole cleaning: what the rising mud carries, how much rock hangs in it, and the flow that keeps the hole clean.
//!
//! Near the vertical a cutting must rise faster than it falls; above 55 degrees it lies down and must be stirred up, by the
//! correlation of Larsen, Pilehvari and Azar. Between them the velocity is interpolated by the inclination, as SPE
//! 143675 does (from memory). None of these knows rotation, the main help above 30 degrees: 120 rpm and more in
//! 12 1/4 in hole is a rule of the field (common practice).

use super::passage::square_difference;
use crate::field::{CENTIPOISE, FOOT, FOOT_PER_HOUR, FOOT_PER_MINUTE, INCH, POUND_PER_100_FEET_SQUARED, POUND_PER_GALLON};
use crate::{Formula, FormulaRecord, formula};
use std::f64::consts::{FRAC_PI_2, PI};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    TransportRatio::RECORD,
    CuttingsRate::RECORD,
    CuttingsConcentration::RECORD,
    DensityWithCuttings::RECORD,
    TransportVelocity::RECORD,
    BinghamFlowIndex::RECORD,
    CarryingConsistency::RECORD,
    CarryingCapacityIndex::RECORD,
    LarsenCutVelocity::RECORD,
    LarsenEquivalentSlip::RECORD,
    LarsenAngleFactor::RECORD,
    LarsenSizeFactor::RECORD,
    LarsenWeightFactor::RECORD,
    LarsenVelocity::RECORD,
    LarsenConcentration::RECORD,
];

/// Inclination from which cuttings lie down and Larsen's correlation holds. [rad]
pub const LARSEN_FROM: f64 = 55.0 / 180.0 * PI;

formula! {
    /// Transport ratio: share of the annular velocity with which cuttings rise.
    pub struct TransportRatio;
    slug "transport-ratio";
    equation "R = 1 - vs/va";
    law Homogeneous;
    source "Sifferman et al. 1974 (from memory)";
    given {
        /// slip velocity of the cuttings
        slip_velocity "vs" Speed must NON_NEGATIVE;
        /// annular velocity
        annular_velocity "va" Speed must POSITIVE;
    }
    /// transport ratio; below nought the cuttings fall
    gives "R" Ratio;
    value |f| 1.0 - f.slip_velocity / f.annular_velocity
}

formula! {
    /// Volume of rock drilled per time.
    pub struct CuttingsRate;
    slug "cuttings-rate";
    equation "Qc = π/4 D² ROP";
    law Homogeneous;
    source "plane geometry; in field units ROP D²/1471 gpm";
    given {
        /// hole diameter
        hole_diameter "D" Diameter must NON_NEGATIVE;
        /// rate of penetration
        penetration_rate "ROP" DrillingRate must NON_NEGATIVE;
    }
    /// cuttings rate
    gives "Qc" FlowRate;
    value |f| PI / 4.0 * f.hole_diameter * f.hole_diameter * f.penetration_rate
}

formula! {
    /// Share of cuttings in the annulus: the feed of rock over the flow that carries it, made larger by the slip.
    pub struct CuttingsConcentration;
    slug "cuttings-concentration";
    equation "c = Qc / (Q R)";
    law Homogeneous;
    source "continuity; in field units ROP D²/(1471 Q R); 5 % at most near the vertical is common practice";
    given {
        /// cuttings rate
        cuttings_rate "Qc" FlowRate must NON_NEGATIVE;
        /// flow rate
        flow_rate "Q" FlowRate must POSITIVE;
        /// transport ratio
        transport_ratio "R" Ratio must POSITIVE valid between(0.0, 1.0);
    }
    /// share of cuttings by volume
    gives "c" Fraction;
    value |f| f.cuttings_rate / (f.flow_rate * f.transport_ratio)
}

formula! {
    /// Weight of mud with cuttings in it.
    pub struct DensityWithCuttings;
    slug "density-with-cuttings";
    equation "ρc = ρ (1 - c) + ρs c";
    law Homogeneous;
    source "mass balance";
    given {
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// density of the rock
        cutting_density "ρs" Density must NON_NEGATIVE;
        /// share of cuttings by volume
        cuttings_concentration "c" Fraction must FRACTION valid between(0.0, 0.1);
    }
    /// weight of the mud with its cuttings
    gives "ρc" Density;
    value |f| f.density * (1.0 - f.cuttings_concentration) + f.cutting_density * f.cuttings_concentration
}

formula! {
    /// Speed at which cuttings must rise so that their share stays at a limit.
    pub struct TransportVelocity;
    slug "cuttings-transport-velocity";
    equation "vt = Qc / (c A)";
    law Homogeneous;
    source "continuity; Guo & Liu, Applied Drilling Circulation Systems 2011, p. 56";
    given {
        /// cuttings rate
        cuttings_rate "Qc" FlowRate must NON_NEGATIVE;
        /// share of cuttings allowed
        cuttings_concentration "c" Fraction must EFFICIENCY;
        /// cross-section of the annulus
        annular_area "A" Area must POSITIVE;
    }
    /// net velocity of the cuttings
    gives "vt" Speed;
    value |f| f.cuttings_rate / (f.cuttings_concentration * f.annular_area)
}

formula! {
    /// Flow index of a mud from plastic viscosity and yield point.
    pub struct BinghamFlowIndex;
    slug "bingham-flow-index";
    equation "n = 3.322 log((2 PV + YP)/(PV + YP))";
    law Empirical("cP, lbf/100 ft²");
    source "L. Robinson, Cuttings Carrying Index note, tdaweb.com";
    given {
        /// plastic viscosity
        plastic_viscosity "PV" Viscosity must POSITIVE;
        /// yield point
        yield_point "YP" ShearStress must NON_NEGATIVE;
    }
    /// flow index
    gives "n" Ratio;
    value |f| {
        let (pv, yp) = (f.plastic_viscosity / CENTIPOISE, f.yield_point / POUND_PER_100_FEET_SQUARED);
        3.322 * (1.0 + pv / (pv + yp)).log10()
    }
}

formula! {
    /// Consistency that the carrying capacity index takes.
    pub struct CarryingConsistency;
    slug "carrying-consistency";
    equation "K = 511^(1-n) (PV + YP)";
    law Empirical("cP, lbf/100 ft²");
    source "L. Robinson, Cuttings Carrying Index note, tdaweb.com";
    given {
        /// plastic viscosity
        plastic_viscosity "PV" Viscosity must NON_NEGATIVE;
        /// yield point
        yield_point "YP" ShearStress must NON_NEGATIVE;
        /// flow index
        flow_index "n" Ratio must between(0.0, 1.5) valid between(0.2, 1.0);
    }
    /// consistency in equivalent centipoise
    gives "K" Viscosity;
    value |f| {
        let sum = f.plastic_viscosity / CENTIPOISE + f.yield_point / POUND_PER_100_FEET_SQUARED;
        511f64.powf(1.0 - f.flow_index) * sum * CENTIPOISE
    }
}

formula! {
    /// Carrying capacity index: 1 or more cleans well, 0.5 or less poorly; for holes below 35 degrees only.
    pub struct CarryingCapacityIndex;
    slug "carrying-capacity-index";
    equation "CCI = K va ρ / 400000";
    law Empirical("cP, ft/min, ppg");
    source "L. Robinson, Cuttings Carrying Index note, tdaweb.com";
    given {
        /// consistency in equivalent centipoise
        carrying_consistency "K" Viscosity must NON_NEGATIVE;
        /// annular velocity
        annular_velocity "va" Speed must NON_NEGATIVE;
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
    }
    /// carrying capacity index
    gives "CCI" Ratio;
    value |f| {
        let velocity = f.annular_velocity / FOOT_PER_MINUTE;
        f.carrying_consistency / CENTIPOISE * velocity * (f.density / POUND_PER_GALLON) / 400_000.0
    }
}

formula! {
    /// Speed of the cuttings in a hole of 55 to 90 degrees at the critical flow.
    pub struct LarsenCutVelocity;
    slug "larsen-cuttings-velocity";
    equation "vc = 1 / ((1 - (d/D)²) (0.64 + 18.16/ROP))";
    law Empirical("ft/s, ft/h");
    source "Larsen, Pilehvari & Azar, SPE Drill. & Compl. 12 (1997) 129 (from memory)";
    given {
        /// rate of penetration
        penetration_rate "ROP" DrillingRate must POSITIVE valid between(0.001, 0.02);
        /// hole diameter
        hole_diameter "D" Diameter must POSITIVE;
        /// pipe diameter
        pipe_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// cuttings velocity
    gives "vc" Speed;
    value |f| {
        let open = square_difference(f.hole_diameter, f.pipe_diameter) / (f.hole_diameter * f.hole_diameter);
        FOOT / (open * (0.64 + 18.16 / (f.penetration_rate / FOOT_PER_HOUR)))
    }
}

formula! {
    /// Slip that stands for the bed in a hole of 55 to 90 degrees, before corrections.
    pub struct LarsenEquivalentSlip;
    slug "larsen-equivalent-slip";
    equation "ve = 0.00516 μa + 3.006 (μa < 53), 0.02554 (μa - 53) + 3.28 above";
    law Empirical("ft/s, cP");
    source "Larsen, Pilehvari & Azar, SPE Drill. & Compl. 12 (1997) 129 (from memory)";
    given {
        /// apparent viscosity at the critical velocity
        viscosity "μa" Viscosity must NON_NEGATIVE;
    }
    /// equivalent slip velocity
    gives "ve" Speed;
    value |f| {
        let mu = f.viscosity / CENTIPOISE;
        FOOT * if mu < 53.0 { 0.00516 * mu + 3.006 } else { 0.02554 * (mu - 53.0) + 3.28 }
    }
}

formula! {
    /// Correction of the equivalent slip for inclination.
    pub struct LarsenAngleFactor;
    slug "larsen-angle-factor";
    equation "Ca = 0.0342 (180 θ/π) - 0.000233 (180 θ/π)² - 0.213";
    law Homogeneous;
    source "Larsen, Pilehvari & Azar, SPE Drill. & Compl. 12 (1997) 129 (from memory)";
    given {
        /// inclination
        inclination "θ" Angle must between(0.0, FRAC_PI_2) valid between(LARSEN_FROM, FRAC_PI_2);
    }
    /// factor
    gives "Ca" Ratio;
    value |f| {
        let angle = f.inclination.to_degrees();
        0.0342 * angle - 0.000233 * angle * angle - 0.213
    }
}

formula! {
    /// Correction of the equivalent slip for the size of the cuttings.
    pub struct LarsenSizeFactor;
    slug "larsen-size-factor";
    equation "Cs = 1.286 - 1.04 d";
    law Empirical("in");
    source "Larsen, Pilehvari & Azar, SPE Drill. & Compl. 12 (1997) 129 (from memory)";
    given {
        /// mean diameter of the cuttings
        cutting_size "d" Diameter must between(0.0, 0.03) valid between(0.002, 0.01);
    }
    /// factor
    gives "Cs" Ratio;
    value |f| 1.286 - 1.04 * f.cutting_size / INCH
}

formula! {
    /// Correction of the equivalent slip for the mud weight.
    pub struct LarsenWeightFactor;
    slug "larsen-weight-factor";
    equation "Cw = 1 - 0.0333 (ρ - 8.7) above 8.7 ppg, else 1";
    law Empirical("ppg");
    source "Larsen, Pilehvari & Azar, SPE Drill. & Compl. 12 (1997) 129 (from memory)";
    given {
        /// mud weight
        density "ρ" Density must between(0.0, 3000.0) valid between(1000.0, 1800.0);
    }
    /// factor
    gives "Cw" Ratio;
    value |f| 1.0 - 0.0333 * (f.density / POUND_PER_GALLON - 8.7).max(0.0)
}

formula! {
    /// Annular velocity that keeps a hole of 55 to 90 degrees free of a bed.
    pub struct LarsenVelocity;
    slug "larsen-critical-velocity";
    equation "v = vc + ve Ca Cs Cw";
    law Homogeneous;
    source "Larsen, Pilehvari & Azar, SPE Drill. & Compl. 12 (1997) 129 (from memory)";
    given {
        /// cuttings velocity
        cuttings_velocity "vc" Speed must NON_NEGATIVE;
        /// equivalent slip
        equivalent_slip "ve" Speed must NON_NEGATIVE;
        /// correction for inclination
        angle_factor "Ca" Ratio must ANY;
        /// correction for the size of the cuttings
        size_factor "Cs" Ratio must ANY;
        /// correction for the mud weight
        weight_factor "Cw" Ratio must ANY;
    }
    /// critical annular velocity
    gives "v" Speed;
    value |f| f.cuttings_velocity + f.equivalent_slip * f.angle_factor * f.size_factor * f.weight_factor
}

formula! {
    /// Share of cuttings in the annulus of a hole of 55 to 90 degrees at the critical flow.
    pub struct LarsenConcentration;
    slug "larsen-cuttings-concentration";
    equation "c = 0.01778 ROP + 0.505";
    law Empirical("%, ft/h");
    source "Larsen, Pilehvari & Azar, SPE Drill. & Compl. 12 (1997) 129 (from memory)";
    given {
        /// rate of penetration
        penetration_rate "ROP" DrillingRate must NON_NEGATIVE valid between(0.001, 0.02);
    }
    /// share of cuttings by volume
    gives "c" Fraction;
    value |f| (0.01778 * f.penetration_rate / FOOT_PER_HOUR + 0.505) / 100.0
}
