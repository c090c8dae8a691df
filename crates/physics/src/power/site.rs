//! An engine on its site: humid air, a warm coolant, and what is left of the rating of a set.
//!
//! Adds to `engine` what ISO 3046-1 asks for engines whose power hangs on humidity (naturally aspirated) or on the
//! coolant of their charge air (turbocharged and cooled). The maker's own derating curve overrides all of it.

use super::engine::{AirPressureAtElevation, IndicatedPowerRatio, PowerAdjustment};
use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <VapourPressure as Formula>::RECORD,
    <DryAirPressure as Formula>::RECORD,
    <CoolantRatio as Formula>::RECORD,
    <EmissionFactor as Formula>::RECORD,
];

/// Mass of carbon dioxide over the mass of the carbon in it, by the atomic weights of IUPAC (12.011 and 15.999). [-]
const CARBON_DIOXIDE_OVER_CARBON: f64 = (12.011 + 2.0 * 15.999) / 12.011;

formula! {
    /// Pressure of saturated water vapour over water.
    pub struct VapourPressure;
    slug "saturated-vapour-pressure";
    equation "p_s = 611.21 exp[17.502 t/(240.97 + t)]";
    law Empirical("Pa, °C");
    source "Buck, J. Applied Meteorology 20 (1981) 1527 (from memory)";
    given {
        /// air temperature
        air_temperature "t" Temperature must between(233.15, 373.15) valid between(253.15, 323.15);
    }
    /// pressure of saturated vapour, absolute
    gives "p_s" AbsolutePressure;
    value |f| {
        let celsius = f.air_temperature - 273.15;
        611.21 * (17.502 * celsius / (240.97 + celsius)).exp()
    }
}

formula! {
    /// Pressure of air that feeds an engine: without the share of its water vapour that counts for its kind.
    pub struct DryAirPressure;
    slug "dry-air-pressure";
    equation "p_d = p - a φ p_s";
    law Homogeneous;
    source "ISO 3046-1 (from memory); a is 1 for naturally aspirated engines that smoke at their limit and 0 for the others";
    given {
        /// air pressure, absolute
        air_pressure "p" AbsolutePressure must POSITIVE;
        /// weight of humidity for the kind of engine
        humidity_factor "a" Ratio must between(0.0, 1.0) default 0.0;
        /// relative humidity
        relative_humidity "φ" Fraction must FRACTION;
        /// pressure of saturated vapour, absolute
        vapour_pressure "p_s" AbsolutePressure must NON_NEGATIVE;
    }
    /// pressure of dry air, absolute
    gives "p_d" AbsolutePressure;
    value |f| f.air_pressure - f.humidity_factor * f.relative_humidity * f.vapour_pressure
}

formula! {
    /// Ratio of indicated power with the coolant of the charge air counted in.
    pub struct CoolantRatio;
    slug "indicated-power-ratio-cooled";
    equation "k_c = k (T_cr/T_c)^q";
    law Homogeneous;
    source "ISO 3046-1; exponent 1 for turbocharged four-strokes with charge air cooling, as used in the engine course of ULiège";
    given {
        /// ratio of indicated power by the air
        indicated_ratio "k" Ratio must NON_NEGATIVE valid between(0.5, 1.2);
        /// reference temperature of the coolant
        reference_coolant "T_cr" Temperature must POSITIVE valid between(270.0, 350.0) default 298.15;
        /// temperature of the coolant on site
        coolant "T_c" Temperature must POSITIVE valid between(270.0, 370.0);
        /// exponent of the coolant
        coolant_exponent "q" Ratio must between(0.0, 2.0);
    }
    /// ratio of indicated power
    gives "k_c" Ratio;
    value |f| f.indicated_ratio * (f.reference_coolant / f.coolant).powf(f.coolant_exponent)
}

formula! {
    /// Mass of carbon dioxide per volume of fuel, from the carbon in it.
    ///
    /// The default carbon is that of the IPCC's gas oil: 20.2 kg of carbon per GJ and 43.0 GJ/t, 0.8686 of the mass. All
    /// of it burns.
    pub struct EmissionFactor;
    slug "emission-factor-of-fuel";
    equation "c = ρ w 44.009/12.011";
    law Homogeneous;
    source "IPCC Guidelines for National Greenhouse Gas Inventories 2006, vol. 2, tables 1.2 and 1.3 (from memory)";
    given {
        /// density of the fuel
        fuel_density "ρ" Density must NON_NEGATIVE valid between(780.0, 1010.0);
        /// carbon as a share of the mass
        carbon_share "w" Fraction must FRACTION valid between(0.8, 0.9) default 0.8686;
    }
    /// mass of carbon dioxide per volume
    gives "c" Density;
    value |f| f.fuel_density * f.carbon_share * CARBON_DIOXIDE_OVER_CARBON
}

/// Kinds of diesel engine that ISO 3046-1 tells apart, with its exponents (from memory; two of them in print in the
/// engine course of ULiège).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aspiration {
    /// Without turbocharger, power limited by excess air.
    Natural,
    /// Turbocharged, charge air not cooled.
    Turbocharged,
    /// Turbocharged, charge air cooled.
    Cooled,
}

/// Exponents of one kind of engine.
struct Exponents {
    humidity: f64,
    pressure: f64,
    temperature: f64,
    coolant: f64,
}

impl Aspiration {
    fn exponents(self) -> Exponents {
        match self {
            Aspiration::Natural => Exponents { humidity: 1.0, pressure: 1.0, temperature: 0.75, coolant: 0.0 },
            Aspiration::Turbocharged => Exponents { humidity: 0.0, pressure: 0.7, temperature: 2.0, coolant: 0.0 },
            Aspiration::Cooled => Exponents { humidity: 0.0, pressure: 0.7, temperature: 1.2, coolant: 1.0 },
        }
    }
}

/// Air and coolant that an engine runs in.
#[derive(Clone, Copy, Debug)]
pub struct Ambient {
    /// Air pressure, absolute. [Pa]
    pub air_pressure: f64,
    /// Air temperature. [K]
    pub air_temperature: f64,
    /// Relative humidity. [-]
    pub relative_humidity: f64,
    /// Temperature of the coolant of the charge air. [K]
    pub coolant: f64,
}

impl Ambient {
    /// Reference conditions of ISO 3046-1: 100 kPa, 25 °C, 30 %, coolant 25 °C.
    pub const REFERENCE: Ambient =
        Ambient { air_pressure: 1e5, air_temperature: 298.15, relative_humidity: 0.3, coolant: 298.15 };

    /// A site by its height, in the standard atmosphere.
    pub fn at_elevation<R: Recorder>(elevation: f64, air_temperature: f64, relative_humidity: f64, rec: &mut R) -> Ambient {
        let air_pressure = rec.take(AirPressureAtElevation { elevation });
        Ambient { air_pressure, air_temperature, relative_humidity, coolant: air_temperature }
    }

    fn dry<R: Recorder>(&self, humidity_factor: f64, rec: &mut R) -> f64 {
        let Ambient { air_pressure, air_temperature, relative_humidity, .. } = *self;
        if humidity_factor <= 0.0 {
            return air_pressure;
        }
        let vapour_pressure = rec.take(VapourPressure { air_temperature });
        rec.take(DryAirPressure { air_pressure, humidity_factor, relative_humidity, vapour_pressure })
    }
}

/// Brake power of an engine on its site over its rating at the conditions of the rating. A site that is better than
/// those earns nothing unless the maker says so: cap the ratio at one where it is used as a limit.
pub fn site_power_ratio<R: Recorder>(
    aspiration: Aspiration,
    rating: &Ambient,
    site: &Ambient,
    mechanical_efficiency: f64,
    rec: &mut R,
) -> f64 {
    let Exponents { humidity, pressure, temperature, coolant } = aspiration.exponents();
    let (reference_pressure, air_pressure) = (rating.dry(humidity, rec), site.dry(humidity, rec));
    let by_air = rec.take(IndicatedPowerRatio {
        air_pressure,
        reference_pressure,
        air_temperature: site.air_temperature,
        reference_temperature: rating.air_temperature,
        pressure_exponent: pressure,
        temperature_exponent: temperature,
    });
    let indicated_ratio = if coolant > 0.0 {
        rec.take(CoolantRatio {
            indicated_ratio: by_air,
            reference_coolant: rating.coolant,
            coolant: site.coolant,
            coolant_exponent: coolant,
        })
    } else {
        by_air
    };
    rec.take(PowerAdjustment { indicated_ratio, mechanical_efficiency })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    const KINDS: [Aspiration; 3] = [Aspiration::Natural, Aspiration::Turbocharged, Aspiration::Cooled];

    /// On a site like the rating nothing is lost; height, heat and a warm coolant only take power away.
    #[test]
    fn law_worse_air_gives_less_power() {
        for kind in KINDS {
            let ratio = |site: Ambient| site_power_ratio(kind, &Ambient::REFERENCE, &site, 0.85, &mut Off);
            assert!((ratio(Ambient::REFERENCE) - 1.0).abs() < 1e-12);
            let mut last = f64::INFINITY;
            for height in [0.0, 500.0, 1500.0, 3000.0] {
                let here = ratio(Ambient::at_elevation(height, 308.15, 0.4, &mut Off));
                assert!(here < last && here > 0.3, "{kind:?} at {height} m: {here}");
                last = here;
            }
            let hot = Ambient { air_temperature: 318.15, ..Ambient::REFERENCE };
            assert!(ratio(hot) < 1.0);
        }
        let warm = Ambient { coolant: 318.15, ..Ambient::REFERENCE };
        assert!(site_power_ratio(Aspiration::Cooled, &Ambient::REFERENCE, &warm, 0.85, &mut Off) < 0.95);
        let humid = Ambient { relative_humidity: 1.0, air_temperature: 313.15, ..Ambient::REFERENCE };
        let dry = Ambient { relative_humidity: 0.0, ..humid };
        let natural = |site| site_power_ratio(Aspiration::Natural, &Ambient::REFERENCE, &site, 0.85, &mut Off);
        assert!(natural(humid) < natural(dry));
    }
}
