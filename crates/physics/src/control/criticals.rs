//! Pseudo-critical points of natural gases: from gravity alone, corrected for acid gas, and mixed in by Kay's
//! rule where nitrogen, carbon dioxide and hydrogen sulphide are known.
//!
//! Never take a pure gas by its gravity: nitrogen treated as a hydrocarbon of its gravity is more than half off.

use super::gas::{AIR_MOLAR_MASS, Gas};
use crate::field::{PSI, RANKINE};
use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <SuttonTemperature as Formula>::RECORD,
    <SuttonPressure as Formula>::RECORD,
    <StandingTemperature as Formula>::RECORD,
    <StandingPressure as Formula>::RECORD,
    <HydrocarbonGravity as Formula>::RECORD,
    <KayTemperature as Formula>::RECORD,
    <KayPressure as Formula>::RECORD,
    <WichertAzizCorrection as Formula>::RECORD,
    <CorrectedCriticalTemperature as Formula>::RECORD,
    <CorrectedCriticalPressure as Formula>::RECORD,
];

/// A natural gas by its gravity and its shares of what is not hydrocarbon.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NaturalGas {
    /// Density relative to air at the same state. [-]
    pub gas_gravity: f64,
    /// Mole fraction of nitrogen. [-]
    pub nitrogen: f64,
    /// Mole fraction of carbon dioxide. [-]
    pub carbon_dioxide: f64,
    /// Mole fraction of hydrogen sulphide. [-]
    pub hydrogen_sulphide: f64,
}

impl NaturalGas {
    /// Sweet gas without nitrogen.
    pub fn sweet(gas_gravity: f64) -> NaturalGas {
        NaturalGas { gas_gravity, nitrogen: 0.0, carbon_dioxide: 0.0, hydrogen_sulphide: 0.0 }
    }

    /// The gas with its pseudo-critical point: Sutton for the hydrocarbons, Kay's rule for the rest, then
    /// Wichert and Aziz for the acid gas.
    pub fn resolve<R: Recorder>(&self, rec: &mut R) -> Gas {
        let NaturalGas { gas_gravity, nitrogen, carbon_dioxide, hydrogen_sulphide } = *self;
        let molar_mass = gas_gravity * AIR_MOLAR_MASS;
        let impure = nitrogen + carbon_dioxide + hydrogen_sulphide > 0.0;
        if !impure {
            return Gas {
                molar_mass,
                critical_temperature: rec.take(SuttonTemperature { gas_gravity }),
                critical_pressure: rec.take(SuttonPressure { gas_gravity }),
            };
        }
        let gas_gravity = rec.take(HydrocarbonGravity { gas_gravity, nitrogen, carbon_dioxide, hydrogen_sulphide });
        let hydrocarbon_temperature = rec.take(SuttonTemperature { gas_gravity });
        let hydrocarbon_pressure = rec.take(SuttonPressure { gas_gravity });
        let mixed_temperature = rec.take(KayTemperature { hydrocarbon_temperature, nitrogen, carbon_dioxide, hydrogen_sulphide });
        let mixed_pressure = rec.take(KayPressure { hydrocarbon_pressure, nitrogen, carbon_dioxide, hydrogen_sulphide });
        let correction = rec.take(WichertAzizCorrection { carbon_dioxide, hydrogen_sulphide });
        let critical_temperature = rec.take(CorrectedCriticalTemperature { mixed_temperature, correction });
        let critical_pressure =
            rec.take(CorrectedCriticalPressure { mixed_pressure, mixed_temperature, correction, hydrogen_sulphide });
        Gas { molar_mass, critical_pressure, critical_temperature }
    }
}

formula! {
    /// Pseudo-critical temperature of a sweet natural gas after Sutton.
    pub struct SuttonTemperature;
    slug "pseudo-critical-temperature-sutton";
    equation "T_pc = 169.2 + 349.5 G - 74.0 G²";
    law Empirical("°R");
    source "Sutton, SPE 14265 (1985), from memory; range after Mokhatab et al., Handbook of Natural Gas Transmission and Processing, p. 38";
    given {
        /// gas gravity, air = 1
        gas_gravity "G" Ratio must between(0.3, 3.0) valid between(0.57, 1.68);
    }
    /// pseudo-critical temperature
    gives "T_pc" Temperature;
    value |f| (169.2 + f.gas_gravity * (349.5 - 74.0 * f.gas_gravity)) * RANKINE
}

formula! {
    /// Pseudo-critical pressure of a sweet natural gas after Sutton.
    pub struct SuttonPressure;
    slug "pseudo-critical-pressure-sutton";
    equation "p_pc = 756.8 - 131.0 G - 3.6 G²";
    law Empirical("psi, absolute");
    source "Sutton, SPE 14265 (1985), from memory; range after Mokhatab et al., Handbook of Natural Gas Transmission and Processing, p. 38";
    given {
        /// gas gravity, air = 1
        gas_gravity "G" Ratio must between(0.3, 3.0) valid between(0.57, 1.68);
    }
    /// pseudo-critical pressure
    gives "p_pc" AbsolutePressure;
    value |f| (756.8 - f.gas_gravity * (131.0 + 3.6 * f.gas_gravity)) * PSI
}

formula! {
    /// Pseudo-critical temperature of a dry natural gas after Standing.
    pub struct StandingTemperature;
    slug "pseudo-critical-temperature-standing";
    equation "T_pc = 168 + 325 G - 12.5 G²";
    law Empirical("°R");
    source "Standing, Volumetric and Phase Behavior of Oil Field Hydrocarbon Systems, SPE 1977, dry gas, from memory";
    given {
        /// gas gravity, air = 1
        gas_gravity "G" Ratio must between(0.3, 3.0) valid between(0.55, 1.0);
    }
    /// pseudo-critical temperature
    gives "T_pc" Temperature;
    value |f| (168.0 + f.gas_gravity * (325.0 - 12.5 * f.gas_gravity)) * RANKINE
}

formula! {
    /// Pseudo-critical pressure of a dry natural gas after Standing.
    pub struct StandingPressure;
    slug "pseudo-critical-pressure-standing";
    equation "p_pc = 677 + 15 G - 37.5 G²";
    law Empirical("psi, absolute");
    source "Standing, Volumetric and Phase Behavior of Oil Field Hydrocarbon Systems, SPE 1977, dry gas, from memory";
    given {
        /// gas gravity, air = 1
        gas_gravity "G" Ratio must between(0.3, 3.0) valid between(0.55, 1.0);
    }
    /// pseudo-critical pressure
    gives "p_pc" AbsolutePressure;
    value |f| (677.0 + f.gas_gravity * (15.0 - 37.5 * f.gas_gravity)) * PSI
}

formula! {
    /// Gravity of the hydrocarbons in a gas with nitrogen, carbon dioxide and hydrogen sulphide.
    pub struct HydrocarbonGravity;
    slug "hydrocarbon-gravity";
    equation "G_hc = (G - 0.967 y_N2 - 1.520 y_CO2 - 1.177 y_H2S) / (1 - y_N2 - y_CO2 - y_H2S)";
    law Homogeneous;
    source "molar balance; 0.967, 1.520 and 1.177 are molar masses over that of air";
    given {
        /// gas gravity, air = 1
        gas_gravity "G" Ratio must between(0.3, 3.0);
        /// mole fraction of nitrogen
        nitrogen "y_N2" Fraction must between(0.0, 0.2) default 0.0;
        /// mole fraction of carbon dioxide
        carbon_dioxide "y_CO2" Fraction must between(0.0, 0.5) default 0.0;
        /// mole fraction of hydrogen sulphide
        hydrogen_sulphide "y_H2S" Fraction must between(0.0, 0.25) default 0.0;
    }
    /// gravity of the hydrocarbons
    gives "G_hc" Ratio;
    value |f| (f.gas_gravity - 0.967 * f.nitrogen - 1.520 * f.carbon_dioxide - 1.177 * f.hydrogen_sulphide)
        / (1.0 - f.nitrogen - f.carbon_dioxide - f.hydrogen_sulphide)
}

/// Critical temperatures of nitrogen, carbon dioxide and hydrogen sulphide. [K]
const CRITICAL_TEMPERATURES: [f64; 3] = [126.192, 304.1282, 373.1];
/// Their critical pressures, absolute. [Pa]
const CRITICAL_PRESSURES: [f64; 3] = [3.3958e6, 7.3773e6, 9.0e6];

fn mixed(hydrocarbon: f64, others: [f64; 3], fractions: [f64; 3]) -> f64 {
    let rest = 1.0 - fractions.iter().sum::<f64>();
    rest * hydrocarbon + others.iter().zip(fractions).map(|(other, fraction)| other * fraction).sum::<f64>()
}

formula! {
    /// Pseudo-critical temperature of a gas mixture by Kay's mole-fraction average.
    pub struct KayTemperature;
    slug "pseudo-critical-temperature-kay";
    equation "T_pc = (1 - y_N2 - y_CO2 - y_H2S) T_hc + 126.192 y_N2 + 304.128 y_CO2 + 373.1 y_H2S";
    law Empirical("K");
    source "Kay, Ind. Eng. Chem. 28 (1936) 1014, from memory; critical points of the reference equations of state as in CoolProp 8.0.0";
    given {
        /// pseudo-critical temperature of the hydrocarbons
        hydrocarbon_temperature "T_hc" Temperature must POSITIVE;
        /// mole fraction of nitrogen
        nitrogen "y_N2" Fraction must FRACTION default 0.0;
        /// mole fraction of carbon dioxide
        carbon_dioxide "y_CO2" Fraction must FRACTION default 0.0;
        /// mole fraction of hydrogen sulphide
        hydrogen_sulphide "y_H2S" Fraction must FRACTION default 0.0;
    }
    /// pseudo-critical temperature of the mixture
    gives "T_pc" Temperature;
    value |f| mixed(f.hydrocarbon_temperature, CRITICAL_TEMPERATURES, [f.nitrogen, f.carbon_dioxide, f.hydrogen_sulphide])
}

formula! {
    /// Pseudo-critical pressure of a gas mixture by Kay's mole-fraction average.
    pub struct KayPressure;
    slug "pseudo-critical-pressure-kay";
    equation "p_pc = (1 - y_N2 - y_CO2 - y_H2S) p_hc + 3.3958 y_N2 + 7.3773 y_CO2 + 9.0 y_H2S";
    law Empirical("MPa, absolute");
    source "Kay, Ind. Eng. Chem. 28 (1936) 1014, from memory; critical points of the reference equations of state as in CoolProp 8.0.0";
    given {
        /// pseudo-critical pressure of the hydrocarbons
        hydrocarbon_pressure "p_hc" AbsolutePressure must POSITIVE;
        /// mole fraction of nitrogen
        nitrogen "y_N2" Fraction must FRACTION default 0.0;
        /// mole fraction of carbon dioxide
        carbon_dioxide "y_CO2" Fraction must FRACTION default 0.0;
        /// mole fraction of hydrogen sulphide
        hydrogen_sulphide "y_H2S" Fraction must FRACTION default 0.0;
    }
    /// pseudo-critical pressure of the mixture
    gives "p_pc" AbsolutePressure;
    value |f| mixed(f.hydrocarbon_pressure, CRITICAL_PRESSURES, [f.nitrogen, f.carbon_dioxide, f.hydrogen_sulphide])
}

formula! {
    /// Correction of the pseudo-critical temperature for acid gas after Wichert and Aziz.
    pub struct WichertAzizCorrection;
    slug "acid-gas-correction";
    equation "ε = 120 (A^0.9 - A^1.6) + 15 (B^0.5 - B⁴), A = y_CO2 + y_H2S, B = y_H2S";
    law Empirical("°R");
    source "Wichert and Aziz, Hydrocarbon Processing 51 (May 1972) 119, from memory";
    given {
        /// mole fraction of carbon dioxide
        carbon_dioxide "y_CO2" Fraction must between(0.0, 0.5) valid between(0.0, 0.5) default 0.0;
        /// mole fraction of hydrogen sulphide
        hydrogen_sulphide "y_H2S" Fraction must between(0.0, 0.5) valid between(0.0, 0.5) default 0.0;
    }
    /// correction of the pseudo-critical temperature
    gives "ε" Temperature;
    value |f| {
        let acid = f.carbon_dioxide + f.hydrogen_sulphide;
        let sour = f.hydrogen_sulphide;
        (120.0 * (acid.powf(0.9) - acid.powf(1.6)) + 15.0 * (sour.sqrt() - sour.powi(4))) * RANKINE
    }
}

formula! {
    /// Pseudo-critical temperature of a sour gas.
    pub struct CorrectedCriticalTemperature;
    slug "pseudo-critical-temperature-sour";
    equation "T_pc' = T_pc - ε";
    law Homogeneous;
    source "Wichert and Aziz, Hydrocarbon Processing 51 (May 1972) 119, from memory";
    given {
        /// pseudo-critical temperature of the mixture
        mixed_temperature "T_pc" Temperature must POSITIVE;
        /// correction for acid gas
        correction "ε" Temperature must NON_NEGATIVE;
    }
    /// corrected pseudo-critical temperature
    gives "T_pc'" Temperature;
    value |f| f.mixed_temperature - f.correction
}

formula! {
    /// Pseudo-critical pressure of a sour gas.
    pub struct CorrectedCriticalPressure;
    slug "pseudo-critical-pressure-sour";
    equation "p_pc' = p_pc (T_pc - ε) / (T_pc + y_H2S (1 - y_H2S) ε)";
    law Homogeneous;
    source "Wichert and Aziz, Hydrocarbon Processing 51 (May 1972) 119, from memory";
    given {
        /// pseudo-critical pressure of the mixture
        mixed_pressure "p_pc" AbsolutePressure must POSITIVE;
        /// pseudo-critical temperature of the mixture
        mixed_temperature "T_pc" Temperature must POSITIVE;
        /// correction for acid gas
        correction "ε" Temperature must NON_NEGATIVE;
        /// mole fraction of hydrogen sulphide
        hydrogen_sulphide "y_H2S" Fraction must FRACTION;
    }
    /// corrected pseudo-critical pressure
    gives "p_pc'" AbsolutePressure;
    value |f| {
        let sour = f.hydrogen_sulphide;
        f.mixed_pressure * (f.mixed_temperature - f.correction)
            / (f.mixed_temperature + sour * (1.0 - sour) * f.correction)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    #[test]
    fn law_a_gas_with_nothing_but_hydrocarbons_needs_no_correction() {
        let sweet = NaturalGas::sweet(0.65).resolve(&mut Off);
        let trace = NaturalGas { hydrogen_sulphide: 1e-12, ..NaturalGas::sweet(0.65) }.resolve(&mut Off);
        assert!((sweet.critical_temperature - trace.critical_temperature).abs() < 1e-3);
        assert!((sweet.critical_pressure / trace.critical_pressure - 1.0).abs() < 1e-5);
        assert!((sweet.molar_mass - 0.65 * AIR_MOLAR_MASS).abs() < 1e-15);
    }

    #[test]
    fn law_acid_gas_lowers_the_critical_temperature() {
        let mut last = 0.0;
        for step in 1..=20 {
            let hydrogen_sulphide = f64::from(step) * 0.0125;
            let correction = WichertAzizCorrection { carbon_dioxide: 0.05, hydrogen_sulphide }.value();
            assert!(correction > last);
            last = correction;
        }
    }
}
