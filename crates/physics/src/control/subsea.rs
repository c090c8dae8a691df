//! What a floating rig adds: friction of a long choke line, and the mud column that goes with a lost riser.

use crate::field::{FOOT, GALLON, INCH, MINUTE, POUND_PER_GALLON, PSI};
use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <ChokeLineFriction as Formula>::RECORD,
    <FrictionWithWeight as Formula>::RECORD,
    <CasingPressureOnRate as Formula>::RECORD,
    <RiserMargin as Formula>::RECORD,
    <GasInChokeLine as Formula>::RECORD,
];

formula! {
    /// Friction loss in a choke line, estimated; a measured one overrides it.
    ///
    /// No viscosity: turbulent flow of a water-like mud.
    pub struct ChokeLineFriction;
    slug "choke-line-friction";
    equation "CLF = 0.000061 MW L Q^1.86 / d^4.86";
    law Empirical("psi, ppg, ft, gpm, in");
    source "Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4, from memory";
    given {
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// length of the line
        length "L" Depth must NON_NEGATIVE;
        /// flow rate
        flow_rate "Q" FlowRate must between(0.0, 10.0);
        /// inside diameter of the line
        inner_diameter "d" Diameter must between(0.01, 1.0) valid between(0.05, 0.127);
    }
    /// choke line friction
    gives "CLF" Pressure;
    value |f| {
        let rate = (f.flow_rate / (GALLON / MINUTE)).powf(1.86);
        let diameter = (f.inner_diameter / INCH).powf(4.86);
        0.000_061 * (f.mud_weight / POUND_PER_GALLON) * (f.length / FOOT) * rate / diameter * PSI
    }
}

formula! {
    /// A friction loss with another mud weight at the same rate.
    pub struct FrictionWithWeight;
    slug "friction-with-mud-weight";
    equation "Δp₂ = Δp₁ MW₂ / MW₁";
    law Homogeneous;
    source "friction in proportion to density, common practice";
    given {
        /// friction loss with the first mud
        loss "Δp₁" Pressure must NON_NEGATIVE;
        /// weight of the first mud
        mud_weight "MW₁" Density must POSITIVE;
        /// weight of the other mud
        other_weight "MW₂" Density must POSITIVE;
    }
    /// friction loss with the other mud
    gives "Δp₂" Pressure;
    value |f| f.loss * f.other_weight / f.mud_weight
}

formula! {
    /// Casing pressure to hold when the pump is at the slow rate and the choke line takes its friction.
    ///
    /// Never below nought: with more friction than shut-in casing pressure the well is overbalanced by the rest.
    pub struct CasingPressureOnRate;
    slug "casing-pressure-on-rate";
    equation "p_c = max(SICP - CLF, 0)";
    law Homogeneous;
    source "Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4, subsea";
    given {
        /// shut-in casing pressure
        casing_pressure "SICP" Pressure must NON_NEGATIVE;
        /// choke line friction
        choke_line_friction "CLF" Pressure must NON_NEGATIVE;
    }
    /// casing pressure to hold
    gives "p_c" Pressure;
    value |f| (f.casing_pressure - f.choke_line_friction).max(0.0)
}

formula! {
    /// Mud weight to be added so that the well stays balanced when the riser is lost.
    pub struct RiserMargin;
    slug "riser-margin";
    equation "m = (ρ_b (D_w + a) - ρ_sw D_w) / h, h = D - D_w - a";
    law Homogeneous;
    source "fluid statics: mud from sea bed to total depth and sea water above must balance what mud to the rotary table did";
    given {
        /// mud weight that balances the formation with the riser on
        balance_weight "ρ_b" Density must POSITIVE;
        /// density of sea water
        sea_water "ρ_sw" Density must POSITIVE;
        /// water depth
        water_depth "D_w" Depth must NON_NEGATIVE;
        /// height of the rotary table above sea
        air_gap "a" Depth must NON_NEGATIVE default 0.0;
        /// vertical height from sea bed down to total depth
        height "h" Depth must POSITIVE;
    }
    /// riser margin
    gives "m" Density;
    value |f| {
        (f.balance_weight * (f.water_depth + f.air_gap) - f.sea_water * f.water_depth) / f.height
    }
}

formula! {
    /// Pressure to put on the choke while gas takes the place of mud in the choke line, to hold the bottom as it was.
    ///
    /// The weight of the mud is lost and with it its friction; that of the gas is left out. The same comes off again when mud
    /// follows the gas.
    pub struct GasInChokeLine;
    slug "gas-in-choke-line";
    equation "Δp = (ρ - ρ_g) g L + CLF";
    law Homogeneous;
    source "fluid statics; common practice in naming the choke line friction";
    given {
        /// mud weight
        mud_weight "ρ" Density must NON_NEGATIVE;
        /// density of the gas
        gas_density "ρ_g" Density must NON_NEGATIVE;
        /// height of the choke line
        height "L" Depth must NON_NEGATIVE;
        /// choke line friction with mud
        choke_line_friction "CLF" Pressure must NON_NEGATIVE default 0.0;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default crate::STANDARD_GRAVITY;
    }
    /// pressure to put on the choke
    gives "Δp" Pressure;
    value |f| (f.mud_weight - f.gas_density) * f.gravity * f.height + f.choke_line_friction
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_with_the_riser_margin_on_the_well_stays_balanced_without_its_riser() {
        let (balance_weight, sea_water, water_depth, air_gap, height) = (1250.0, 1030.0, 1500.0, 25.0, 2500.0);
        let margin = RiserMargin { balance_weight, sea_water, water_depth, air_gap, height }.value();
        let without = sea_water * water_depth + (balance_weight + margin) * height;
        let with = balance_weight * (water_depth + air_gap + height);
        assert!((without - with).abs() < 1e-6);
    }

    #[test]
    fn law_two_choke_lines_in_parallel_cut_the_friction_as_the_exponent_says() {
        let loss = |flow_rate| ChokeLineFriction { mud_weight: 1500.0, length: 900.0, flow_rate, inner_diameter: 0.0762 }.value();
        assert!((loss(0.02) / loss(0.01) - 2f64.powf(1.86)).abs() < 1e-9);
    }
}
