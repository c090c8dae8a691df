//! Mud-gas separator: how much gas comes with the mud, what the vent line takes to let it out, and the leg of mud
//! that keeps it from going the other way.
//!
//! The remedy for too much gas is a slower kill rate, so that is what comes out. On blow-through: stop or divert,
//! never rely on the seal.

use super::gas::MOLAR_GAS_CONSTANT;
use crate::field::{DAY, FOOT, INCH, PSI};
use crate::numerics::root;
use crate::{Formula, FormulaRecord, Kind, Recorder, Root, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <GasRateAtStandard as Formula>::RECORD,
    <MudLegPressure as Formula>::RECORD,
    <VentLossMacDougall as Formula>::RECORD,
    <VentLossDarcy as Formula>::RECORD,
    <VentInletPressure as Formula>::RECORD,
    <GasMassRate as Formula>::RECORD,
    <LargestKillRate as Formula>::RECORD,
];

/// Standard temperature of gas rates in field units: 60 °F. [K]
const STANDARD_TEMPERATURE: f64 = 288.705_555_555_555_6;
/// Standard pressure of gas rates in field units: 14.696 psi absolute, one atmosphere. [Pa]
const STANDARD_PRESSURE: f64 = crate::STANDARD_ATMOSPHERE;

formula! {
    /// Gas rate at standard conditions when gas comes through the choke as fast as mud is pumped.
    pub struct GasRateAtStandard;
    slug "gas-rate-at-standard-conditions";
    equation "q = Q (p/p_s) (T_s/T) / z";
    law Homogeneous;
    source "equation of state of a real gas: a free slug at the choke, pushed at the kill rate";
    given {
        /// kill rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// absolute pressure upstream of the choke
        absolute_pressure "p" AbsolutePressure must NON_NEGATIVE;
        /// absolute temperature there
        temperature "T" Temperature must POSITIVE;
        /// compressibility factor there
        factor "z" Ratio must POSITIVE default 1.0;
        /// standard pressure, absolute
        standard_pressure "p_s" AbsolutePressure must POSITIVE default STANDARD_PRESSURE;
        /// standard temperature
        standard_temperature "T_s" Temperature must POSITIVE default STANDARD_TEMPERATURE;
    }
    /// gas rate at standard conditions
    gives "q" GasRate;
    value |f| {
        let by_pressure = f.flow_rate * (f.absolute_pressure / f.standard_pressure);
        by_pressure * (f.standard_temperature / f.temperature) / f.factor
    }
}

formula! {
    /// Pressure of the mud leg that seals the separator, with the lightest fluid that may fill it.
    pub struct MudLegPressure;
    slug "mud-leg-pressure";
    equation "p = ρ_leg g h";
    law Homogeneous;
    source "fluid statics; SPE 20430 (MacDougall, 1991), from memory";
    given {
        /// density of the lightest fluid that may fill the leg
        leg_density "ρ_leg" Density must NON_NEGATIVE;
        /// height of the leg
        height "h" Depth must NON_NEGATIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// pressure that the leg holds
    gives "p" Pressure;
    value |f| f.leg_density * f.gravity * f.height
}

formula! {
    /// Friction loss of the vent line after MacDougall.
    ///
    /// The constant hides a Darcy factor of 0.0187 and gas of gravity 0.6 at standard density.
    pub struct VentLossMacDougall;
    slug "vent-loss-macdougall";
    equation "Δp = 5.0e-12 L_e q² / d⁵";
    law Empirical("psi, ft, ft³/d, in");
    source "MacDougall, Mud/gas separator sizing and evaluation, SPE 20430, SPE Drilling Engineering (Dec 1991), from memory";
    given {
        /// equivalent length of the vent line, bends included
        length "L_e" Depth must NON_NEGATIVE;
        /// gas rate at standard conditions
        gas_rate "q" GasRate must NON_NEGATIVE;
        /// inside diameter of the vent line
        inner_diameter "d" Diameter must POSITIVE;
    }
    /// friction loss
    gives "Δp" Pressure;
    value |f| {
        let per_day = f.gas_rate * DAY / (FOOT * FOOT * FOOT);
        let loss = 5.0e-12 * (f.length / FOOT) * per_day * per_day / (f.inner_diameter / INCH).powi(5);
        loss * PSI
    }
}

formula! {
    /// Friction loss of the vent line with gas of one density, Darcy and Weisbach.
    pub struct VentLossDarcy;
    slug "vent-loss-darcy";
    equation "Δp = f (L_e/d) ρ v²/2, v = 4 q/(π d²)";
    law Homogeneous;
    source "Darcy and Weisbach";
    given {
        /// Darcy friction factor
        friction_factor "f" Ratio must NON_NEGATIVE valid between(0.008, 0.1);
        /// equivalent length of the vent line, bends included
        length "L_e" Depth must NON_NEGATIVE;
        /// inside diameter of the vent line
        inner_diameter "d" Diameter must POSITIVE;
        /// density of the gas
        density "ρ" Density must NON_NEGATIVE;
        /// gas rate at that density
        flow_rate "q" FlowRate must NON_NEGATIVE;
    }
    /// friction loss
    gives "Δp" Pressure;
    value |f| {
        let speed = f.flow_rate / (std::f64::consts::FRAC_PI_4 * f.inner_diameter * f.inner_diameter);
        f.friction_factor * (f.length / f.inner_diameter) * 0.5 * f.density * speed * speed
    }
}

formula! {
    /// Pressure in the separator when gas expands along the vent line at one temperature, acceleration left out.
    pub struct VentInletPressure;
    slug "vent-inlet-pressure";
    equation "p₁ = √(p₂² + f (L_e/d) (p₂/ρ₂) G²), G = 4 m/(π d²)";
    law Homogeneous;
    source "isothermal compressible pipe flow, ideal gas";
    given {
        /// absolute pressure at the outlet
        outlet_pressure "p₂" AbsolutePressure must NON_NEGATIVE;
        /// density of the gas at the outlet
        outlet_density "ρ₂" Density must POSITIVE;
        /// mass rate of gas
        mass_rate "m" MassFlow must NON_NEGATIVE;
        /// Darcy friction factor
        friction_factor "f" Ratio must NON_NEGATIVE valid between(0.008, 0.1);
        /// equivalent length of the vent line, bends included
        length "L_e" Depth must NON_NEGATIVE;
        /// inside diameter of the vent line
        inner_diameter "d" Diameter must POSITIVE;
    }
    /// absolute pressure in the separator
    gives "p₁" AbsolutePressure;
    value |f| {
        let flux = f.mass_rate / (std::f64::consts::FRAC_PI_4 * f.inner_diameter * f.inner_diameter);
        let friction = f.friction_factor * f.length / f.inner_diameter;
        (f.outlet_pressure * f.outlet_pressure + friction * (f.outlet_pressure / f.outlet_density) * flux * flux).sqrt()
    }
}

formula! {
    /// Mass rate of a gas from its rate at standard conditions.
    pub struct GasMassRate;
    slug "gas-mass-rate";
    equation "m = q p_s M / (R T_s)";
    law Empirical("J, mol and K, in the molar gas constant; one atmosphere and 60 °F");
    source "ideal gas at standard conditions";
    given {
        /// gas rate at standard conditions
        gas_rate "q" GasRate must NON_NEGATIVE;
        /// molar mass of the gas
        molar_mass "M" MolarMass must NON_NEGATIVE;
    }
    /// mass rate
    gives "m" MassFlow;
    value |f| f.gas_rate * STANDARD_PRESSURE * f.molar_mass / (MOLAR_GAS_CONSTANT * STANDARD_TEMPERATURE)
}

formula! {
    /// Largest kill rate that the vent line and the mud leg bear: the loss grows with its square.
    pub struct LargestKillRate;
    slug "largest-kill-rate";
    equation "Q_max = Q √((p_leg - m) / Δp)";
    law Homogeneous;
    source "loss in proportion to the square of the rate";
    given {
        /// kill rate looked at
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// pressure of the mud leg less the margin wanted
        allowed "p_leg - m" Pressure must NON_NEGATIVE;
        /// vent loss at that rate
        loss "Δp" Pressure must POSITIVE;
    }
    /// largest kill rate
    gives "Q_max" FlowRate;
    value |f| f.flow_rate * (f.allowed / f.loss).sqrt()
}

/// A vent line with gas flowing out of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VentLine {
    /// Equivalent length, bends included. [m]
    pub length: f64,
    /// Inside diameter. [m]
    pub inner_diameter: f64,
    /// Darcy friction factor. [-]
    pub friction_factor: f64,
    /// Absolute pressure at the outlet. [Pa]
    pub outlet_pressure: f64,
    /// Density of the gas at the outlet. [kg/m³]
    pub outlet_density: f64,
}

impl VentLine {
    /// Absolute pressure in the separator for a mass rate, at one temperature, with what it takes to speed the gas
    /// up. `None` when the line is choked: the gas would leave faster than sound. [Pa]
    pub fn inlet_pressure<R: Recorder>(&self, rec: &mut R, mass_rate: f64) -> Option<f64> {
        let VentLine { length, inner_diameter, friction_factor, outlet_pressure, outlet_density } = *self;
        let flux = mass_rate / (std::f64::consts::FRAC_PI_4 * inner_diameter * inner_diameter);
        let dynamic = flux * flux * outlet_pressure / outlet_density;
        // Isothermal speed of sound: G²/(ρ p) must stay below one at the outlet.
        if !(outlet_pressure > 0.0 && dynamic < outlet_pressure * outlet_pressure) {
            return None;
        }
        let without =
            rec.take(VentInletPressure { outlet_pressure, outlet_density, mass_rate, friction_factor, length, inner_diameter });
        let friction = friction_factor * length / inner_diameter;
        let residual = |pressure: f64| {
            let speeding = 2.0 * (pressure / outlet_pressure).ln();
            pressure * pressure - outlet_pressure * outlet_pressure - dynamic * (friction + speeding)
        };
        // With the speeding-up the pressure is higher, by less than the dynamic pressure allows four times over.
        let pressure = root(residual, without, 4.0 * without + 4.0 * outlet_pressure)?;
        rec.root(Root {
            equation: "p₁² - p₂² = (p₂/ρ₂) G² (f L_e/d + 2 ln(p₁/p₂))",
            sign: "p₁",
            meaning: "absolute pressure in the separator",
            kind: Kind::AbsolutePressure,
            value: pressure,
            residual: residual(pressure) / pressure,
            residual_kind: Kind::Pressure,
        });
        Some(pressure)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    const LINE: VentLine = VentLine {
        length: 91.44,
        inner_diameter: 0.1778,
        friction_factor: 0.0187,
        outlet_pressure: STANDARD_PRESSURE,
        outlet_density: 0.735,
    };

    #[test]
    fn law_a_line_without_flow_has_no_loss() {
        assert!((LINE.inlet_pressure(&mut Off, 0.0).unwrap() - STANDARD_PRESSURE).abs() < 1e-6);
    }

    #[test]
    fn law_slow_gas_loses_what_darcy_says() {
        let mass_rate = 0.05;
        let loss = LINE.inlet_pressure(&mut Off, mass_rate).unwrap() - STANDARD_PRESSURE;
        let darcy = VentLossDarcy {
            friction_factor: LINE.friction_factor,
            length: LINE.length,
            inner_diameter: LINE.inner_diameter,
            density: LINE.outlet_density,
            flow_rate: mass_rate / LINE.outlet_density,
        };
        assert!((loss / darcy.value() - 1.0).abs() < 1e-3);
    }

    #[test]
    fn law_speeding_up_costs_pressure_and_a_choked_line_is_refused() {
        let mass_rate = 2.4;
        let with = LINE.inlet_pressure(&mut Off, mass_rate).unwrap();
        let without = VentInletPressure {
            outlet_pressure: LINE.outlet_pressure,
            outlet_density: LINE.outlet_density,
            mass_rate,
            friction_factor: LINE.friction_factor,
            length: LINE.length,
            inner_diameter: LINE.inner_diameter,
        };
        assert!(with > without.value());
        assert_eq!(LINE.inlet_pressure(&mut Off, 50.0), None);
    }

    #[test]
    fn law_at_the_largest_kill_rate_the_leg_just_holds() {
        let loss = |flow_rate: f64| VentLossMacDougall { length: 90.0, gas_rate: flow_rate * 60.0, inner_diameter: 0.18 }.value();
        let largest = LargestKillRate { flow_rate: 0.01, allowed: 3e4, loss: loss(0.01) }.value();
        assert!((loss(largest) / 3e4 - 1.0).abs() < 1e-12);
    }
}
