//! Engines: brake efficiency from fuel, and what is left of a rating in thin or hot air.

use crate::{Formula, FormulaRecord, STANDARD_ATMOSPHERE, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <FuelPower as Formula>::RECORD,
    <EngineEfficiency as Formula>::RECORD,
    <IndicatedPowerRatio as Formula>::RECORD,
    <PowerAdjustment as Formula>::RECORD,
    <AirPressureAtElevation as Formula>::RECORD,
];

formula! {
    /// Heat that an engine is fed.
    pub struct FuelPower;
    slug "fuel-power";
    equation "Q = V̇ ρ H";
    law Homogeneous;
    source "definition of the heating value; Bourgoyne et al., Applied Drilling Engineering, SPE 1986, ch. 1";
    given {
        /// fuel used per time
        fuel_rate "V̇" FuelRate must NON_NEGATIVE;
        /// density of the fuel
        fuel_density "ρ" Density must POSITIVE;
        /// heating value of the fuel
        heating_value "H" HeatingValue must POSITIVE;
    }
    /// heat fed in
    gives "Q" Power;
    value |f| f.fuel_rate * f.fuel_density * f.heating_value
}

formula! {
    /// Efficiency of an engine: brake power over heat fed in.
    pub struct EngineEfficiency;
    slug "engine-efficiency";
    equation "η = P / Q";
    law Homogeneous;
    source "definition; Bourgoyne et al., Applied Drilling Engineering, SPE 1986, ch. 1";
    given {
        /// brake power
        brake_power "P" Power must NON_NEGATIVE;
        /// heat fed in
        fuel_power "Q" Power must POSITIVE;
    }
    /// efficiency
    gives "η" Ratio;
    value |f| f.brake_power / f.fuel_power
}

formula! {
    /// Indicated power of an engine on site over that at reference conditions.
    ///
    /// Exponents by kind of engine: naturally aspirated 1 and 0.75, turbocharged 0.7 and 2, turbocharged with charge
    /// air cooling 0.7 and 1.2 with the coolant's temperature unchanged. The maker's own curve overrides this.
    pub struct IndicatedPowerRatio;
    slug "indicated-power-ratio";
    equation "k = (p/p_r)^m (T_r/T)^n";
    law Homogeneous;
    source "ISO 3046-1, as quoted with these exponents in the ratings procedure of a maker of marine generator sets (2018)";
    given {
        /// air pressure on site, absolute
        air_pressure "p" AbsolutePressure must POSITIVE valid between(2e4, 1.2e5);
        /// reference air pressure, absolute
        reference_pressure "p_r" AbsolutePressure must POSITIVE valid between(2e4, 1.2e5) default 1e5;
        /// air temperature on site
        air_temperature "T" Temperature must POSITIVE valid between(200.0, 350.0);
        /// reference air temperature
        reference_temperature "T_r" Temperature must POSITIVE valid between(200.0, 350.0) default 298.15;
        /// exponent of pressure
        pressure_exponent "m" Ratio must between(0.0, 2.0);
        /// exponent of temperature
        temperature_exponent "n" Ratio must between(0.0, 3.0);
    }
    /// ratio of indicated power
    gives "k" Ratio;
    value |f| {
        let by_pressure = (f.air_pressure / f.reference_pressure).powf(f.pressure_exponent);
        by_pressure * (f.reference_temperature / f.air_temperature).powf(f.temperature_exponent)
    }
}

formula! {
    /// Brake power of an engine on site over that at reference conditions: friction does not shrink with thin air.
    pub struct PowerAdjustment;
    slug "power-adjustment";
    equation "α = k - 0.7 (1 - k) (1/η_m - 1)";
    law Homogeneous;
    source "ISO 3046-1, as quoted with η_m = 0.8 (k·1.175 - 0.175) in the ratings procedure of a maker of marine generator sets (2018)";
    given {
        /// ratio of indicated power
        indicated_ratio "k" Ratio must NON_NEGATIVE valid between(0.5, 1.2);
        /// mechanical efficiency of the engine
        mechanical_efficiency "η_m" Fraction must EFFICIENCY default 0.8;
    }
    /// ratio of brake power
    gives "α" Ratio;
    value |f| f.indicated_ratio - 0.7 * (1.0 - f.indicated_ratio) * (1.0 / f.mechanical_efficiency - 1.0)
}

formula! {
    /// Air pressure at a height above sea level in the standard atmosphere.
    pub struct AirPressureAtElevation;
    slug "air-pressure-at-elevation";
    equation "p = 101325 (1 - 0.0065 h/288.15)^5.25588";
    law Empirical("Pa, m, K");
    source "ISO 2533:1975, standard atmosphere, troposphere";
    given {
        /// height above sea level
        elevation "h" Depth must between(-500.0, 11000.0);
    }
    /// air pressure, absolute
    gives "p" AbsolutePressure;
    value |f| STANDARD_ATMOSPHERE * (1.0 - 0.0065 * f.elevation / 288.15).powf(5.255_88)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_at_reference_conditions_nothing_is_adjusted() {
        let indicated_ratio = IndicatedPowerRatio {
            air_pressure: 1e5,
            reference_pressure: 1e5,
            air_temperature: 298.15,
            reference_temperature: 298.15,
            pressure_exponent: 0.7,
            temperature_exponent: 1.2,
        }
        .value();
        assert!((indicated_ratio - 1.0).abs() < 1e-15);
        assert!((PowerAdjustment { indicated_ratio, mechanical_efficiency: 0.8 }.value() - 1.0).abs() < 1e-15);
    }

    #[test]
    fn law_the_quoted_form_is_the_general_one_at_four_fifths() {
        for step in 0..20 {
            let indicated_ratio = 0.5 + 0.03 * f64::from(step);
            let general = PowerAdjustment { indicated_ratio, mechanical_efficiency: 0.8 }.value();
            assert!((general - (1.175 * indicated_ratio - 0.175)).abs() < 1e-12);
        }
    }
}
