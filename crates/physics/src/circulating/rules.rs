//! Short rules for friction loss, kept for cross-checks.
//!
//! Each is a fit for turbulent flow that knows no yield stress and asks for no regime. No question rests on them; the main
//! methods are in [`generalised`](super::generalised), [`laminar`](super::laminar) and [`losses`](super::losses).

use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[StringLossRule::RECORD, AnnulusLossRule::RECORD];

/// 0.000061 psi ppg^-0.86 ft^-1 gpm^-1.86 in^4.86 cP^-0.14 with exact units: free of them, as it turns out. [-]
const STRING: f64 = 0.067_895_56;
/// 1.4327e-7 psi ppg^-1 ft^-1 (ft/min)^-2 in with exact units. [-]
const ANNULUS: f64 = 0.026_620_30;

formula! {
    /// Friction loss in a pipe by a rule for turbulent flow, for a cross-check.
    ///
    /// It knows no yield point and no laminar flow.
    pub struct StringLossRule;
    slug "string-loss-rule";
    equation "Δp = 0.06790 ρ L Q^1.86/d^4.86 (μp/ρ)^0.14";
    law Homogeneous;
    source "drillingformulas.com, pressure losses through drill string: 0.000061 in psi, ppg, ft, gpm, in and cP, found back from the printed results";
    given {
        /// mud weight
        density "ρ" Density must POSITIVE;
        /// length of the pipe
        length "L" Depth must NON_NEGATIVE;
        /// flow rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// inside diameter
        inner_diameter "d" Diameter must at_least(1e-6);
        /// plastic viscosity
        plastic_viscosity "μp" Viscosity must NON_NEGATIVE;
    }
    /// friction loss
    gives "Δp" Pressure;
    value |f| {
        let thickness = (f.plastic_viscosity / f.density).powf(0.14);
        STRING * f.density * f.length * f.flow_rate.powf(1.86) / f.inner_diameter.powf(4.86) * thickness
    }
}

formula! {
    /// Friction loss in an annulus by a rule for turbulent flow, for a cross-check.
    ///
    /// It is a friction factor of 0.0133 whatever the mud: far below the laminar loss of a thick one.
    pub struct AnnulusLossRule;
    slug "annulus-loss-rule";
    equation "Δp = 0.02662 ρ L v²/D";
    law Homogeneous;
    source "Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, ch. 5: 1.4327e-7 in psi, ppg, ft, ft/min and in";
    given {
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// length of the annulus
        length "L" Depth must NON_NEGATIVE;
        /// mean velocity
        velocity "v" Speed must NON_NEGATIVE;
        /// hole less pipe diameter
        width "D" Diameter must at_least(1e-6);
    }
    /// friction loss
    gives "Δp" Pressure;
    value |f| ANNULUS * f.density * f.length * f.velocity * f.velocity / f.width
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circulating::friction::FrictionGradient;

    /// The rule is the gradient of one friction factor: 1.4327e-7 x 25.80627 x 3600 is 0.0133102.
    #[test]
    fn law_the_annulus_rule_is_one_friction_factor() {
        for (density, velocity, width) in [(1000.0, 0.4, 0.05), (1900.0, 2.0, 0.12)] {
            let rule = AnnulusLossRule { density, length: 1200.0, velocity, width }.value();
            let gradient = FrictionGradient { friction_factor: 0.013_310_2, density, velocity, width }.value();
            assert!((rule / (gradient * 1200.0) - 1.0).abs() < 1e-5, "{rule} {gradient}");
        }
    }
}
