//! What came in: its height, its density, how fast it comes in and how fast it rises.

use crate::field::{FOOT, POUND_PER_GALLON};
use crate::{Formula, FormulaRecord, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <InfluxHeight as Formula>::RECORD,
    <InfluxDensity as Formula>::RECORD,
    <MigrationFromPressure as Formula>::RECORD,
    <MigrationFromWeight as Formula>::RECORD,
    <InfluxRate as Formula>::RECORD,
    <GasCutLoss as Formula>::RECORD,
];

formula! {
    /// Length along the hole that a volume fills.
    pub struct InfluxHeight;
    slug "influx-height";
    equation "h = V / C";
    law Homogeneous;
    source "definition of capacity";
    given {
        /// volume: pit gain at shut-in
        volume "V" Volume must NON_NEGATIVE;
        /// capacity of the annulus there
        capacity "C" VolumePerLength must POSITIVE;
    }
    /// length along the hole
    gives "h" Depth;
    value |f| f.volume / f.capacity
}

formula! {
    /// Density of the influx from the difference of the shut-in pressures.
    ///
    /// Gas reads 1 to 3 ppg, oil or a mixture 4 to 6, salt water 7 to 9 (from memory: Lapeyrouse, ch. 4). An error dV of the
    /// gain moves the result by about (MW - ρ) dV/V, so treat every kick as gas until proven otherwise.
    pub struct InfluxDensity;
    slug "influx-density";
    equation "ρ_inf = MW - (SICP - SIDPP) / (g h)";
    law Homogeneous;
    source "fluid statics; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4";
    given {
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// shut-in casing pressure
        casing_pressure "SICP" Pressure must NON_NEGATIVE;
        /// shut-in drill pipe pressure
        drill_pipe_pressure "SIDPP" Pressure must NON_NEGATIVE;
        /// vertical height of the influx
        height "h" Depth must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// density of the influx
    gives "ρ_inf" Density;
    value |f| f.mud_weight - (f.casing_pressure - f.drill_pipe_pressure) / (f.gravity * f.height)
}

formula! {
    /// Speed of gas migration from the rise of the shut-in casing pressure.
    ///
    /// Supposes a rigid well and mud that cannot be compressed: the gas is faster than this says. Never a proof
    /// that gas does not migrate.
    pub struct MigrationFromPressure;
    slug "gas-migration-from-pressure";
    equation "v = Δp / (MW g Δt)";
    law Homogeneous;
    source "fluid statics: a bubble that cannot grow keeps its pressure";
    given {
        /// rise of the shut-in casing pressure
        pressure_rise "Δp" Pressure must NON_NEGATIVE;
        /// time it took
        time "Δt" Time must POSITIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// speed of migration
    gives "v" Speed;
    value |f| f.pressure_rise / (f.mud_weight * f.gravity * f.time)
}

formula! {
    /// Speed of gas migration in a shut-in well, a screening figure from mud weight alone.
    ///
    /// Knows no geometry, gas fraction or rheology; measured rates reach several times as much.
    pub struct MigrationFromWeight;
    slug "gas-migration-from-mud-weight";
    equation "v = 12 exp(-0.37 MW)";
    law Empirical("ft/s, ppg");
    source "Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4, from memory";
    given {
        /// mud weight
        mud_weight "MW" Density must POSITIVE valid between(950.0, 2200.0);
    }
    /// speed of migration
    gives "v" Speed;
    value |f| 12.0 * (-0.37 * f.mud_weight / POUND_PER_GALLON).exp() * FOOT
}

formula! {
    /// Rate at which formation fluid flows in while the well is underbalanced.
    ///
    /// Darcy's law for a liquid, steady and radial; for gas it only tells how grave the matter is. Field handbooks
    /// print 0.007 k Δp L/(μ ln(r_e/r_w) 1440) in bbl/min, md, psi, ft and cP, where 0.00708 is the constant: 1.1 % less.
    pub struct InfluxRate;
    slug "influx-rate";
    equation "Q = 2 π k L Δp / (μ ln(r_e/r_w))";
    law Homogeneous;
    source "Darcy's law, steady radial flow; field form in Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4, from memory";
    given {
        /// permeability
        permeability "k" Permeability must NON_NEGATIVE;
        /// length of formation open to the well
        length "L" Depth must NON_NEGATIVE;
        /// underbalance
        underbalance "Δp" Pressure must NON_NEGATIVE;
        /// viscosity of the fluid that flows in
        viscosity "μ" Viscosity must POSITIVE;
        /// natural logarithm of drainage radius over hole radius
        log_radii "ln(r_e/r_w)" Ratio must POSITIVE valid between(1.0, 10.0);
    }
    /// rate of influx
    gives "Q" FlowRate;
    value |f| {
        2.0 * std::f64::consts::PI * f.permeability * f.length * f.underbalance / (f.viscosity * f.log_radii)
    }
}

formula! {
    /// Loss of hydrostatic pressure when a known volume of gas stands in the annulus.
    pub struct GasCutLoss;
    slug "gas-cut-loss";
    equation "Δp = MW g V / C";
    law Homogeneous;
    source "fluid statics: the gas takes the place of as much mud";
    given {
        /// volume of gas: the gain of the pits
        volume "V" Volume must NON_NEGATIVE;
        /// capacity of the annulus there
        capacity "C" VolumePerLength must POSITIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// loss of bottom-hole pressure
    gives "Δp" Pressure;
    value |f| f.mud_weight * f.gravity * f.volume / f.capacity
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_equal_shut_in_pressures_mean_an_influx_as_heavy_as_the_mud() {
        let density = InfluxDensity {
            mud_weight: 1500.0,
            casing_pressure: 3e6,
            drill_pipe_pressure: 3e6,
            height: 100.0,
            gravity: STANDARD_GRAVITY,
        };
        assert!((density.value() - 1500.0).abs() < 1e-9);
    }
}
