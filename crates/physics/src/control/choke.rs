//! Choke size: the bore that passes the kill rate at a pressure, while mud comes and while gas does.
//!
//! A size from a liquid formula says nothing once gas arrives: gas goes through at the speed of sound as soon as the pressure
//! behind the choke is less than about half of that in front.

use crate::{Formula, FormulaRecord, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] =
    &[<ChokeBoreForMud as Formula>::RECORD, <ChokeBoreForGas as Formula>::RECORD, <PartialPressure as Formula>::RECORD];

/// Discharge coefficient of a choke: common practice.
pub const DISCHARGE: f64 = 0.85;

formula! {
    /// Bore of a choke that takes a pressure while mud goes through it.
    pub struct ChokeBoreForMud;
    slug "choke-bore-for-mud";
    equation "d = √(4 Q/(π C) √(ρ/(2 Δp)))";
    law Homogeneous;
    source "Bernoulli through an orifice; the discharge coefficient is common practice";
    given {
        /// flow rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// mud weight
        mud_weight "ρ" Density must POSITIVE;
        /// pressure that the choke takes
        pressure_drop "Δp" Pressure must POSITIVE;
        /// discharge coefficient
        discharge_coefficient "C" Ratio must EFFICIENCY valid between(0.6, 1.0) default DISCHARGE;
    }
    /// bore of the choke
    gives "d" Diameter;
    value |f| {
        let area = f.flow_rate / f.discharge_coefficient * (f.mud_weight / (2.0 * f.pressure_drop)).sqrt();
        (4.0 * area / PI).sqrt()
    }
}

formula! {
    /// Bore of a choke that passes gas at the speed of sound.
    ///
    /// The rate is that of the gas in front of the choke: as fast as mud is pumped below it.
    pub struct ChokeBoreForGas;
    slug "choke-bore-for-gas";
    equation "d = √(4 Q/(π C) √(ρ/(γ p k))), k = (2/(γ + 1))^((γ + 1)/(γ - 1))";
    law Homogeneous;
    source "critical flow of a gas through a nozzle; with air and C = 1 this is Fliegner's formula";
    given {
        /// flow rate of the gas in front of the choke
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// density of the gas there
        density "ρ" Density must NON_NEGATIVE;
        /// absolute pressure there
        absolute_pressure "p" AbsolutePressure must POSITIVE;
        /// ratio of specific heats
        heat_ratio "γ" Ratio must between(1.01, 2.0) valid between(1.1, 1.7) default 1.3;
        /// discharge coefficient
        discharge_coefficient "C" Ratio must EFFICIENCY valid between(0.6, 1.0) default DISCHARGE;
    }
    /// bore of the choke
    gives "d" Diameter;
    value |f| {
        let critical = (2.0 / (f.heat_ratio + 1.0)).powf((f.heat_ratio + 1.0) / (f.heat_ratio - 1.0));
        let area = f.flow_rate / f.discharge_coefficient * (f.density / (f.heat_ratio * f.absolute_pressure * critical)).sqrt();
        (4.0 * area / PI).sqrt()
    }
}

formula! {
    /// Partial pressure of one gas in a mixture.
    pub struct PartialPressure;
    slug "partial-pressure";
    equation "p_i = y_i p";
    law Homogeneous;
    source "Dalton's law; ISO 15156-2 asks for it with hydrogen sulphide";
    given {
        /// share of the gas, by moles
        fraction "y_i" Fraction must FRACTION;
        /// total pressure, absolute
        absolute_pressure "p" AbsolutePressure must NON_NEGATIVE;
    }
    /// partial pressure
    gives "p_i" AbsolutePressure;
    value |f| f.fraction * f.absolute_pressure
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_twice_the_rate_wants_twice_the_area() {
        let bore = |flow_rate| ChokeBoreForGas {
            flow_rate,
            density: 60.0,
            absolute_pressure: 8e6,
            heat_ratio: 1.3,
            discharge_coefficient: DISCHARGE,
        };
        assert!(((bore(0.02).value() / bore(0.01).value()).powi(2) - 2.0).abs() < 1e-12);
    }
}
