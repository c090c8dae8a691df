//! Real gas: compressibility factor and density.
//!
//! A gas is its molar mass and its critical point (true for a pure gas, pseudo-critical for a mixture, see
//! [`super::criticals`]). The factor comes from a named correlation; each is solved by bracketing, so nothing
//! here can fail to converge. Pressure is absolute and temperature is in kelvin everywhere. No two-phase states: a gas
//! colder than 1.03 times its critical temperature is refused.

use super::gas_table::ZTabulated;
use crate::numerics::root;
use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <ReducedPressure as Formula>::RECORD,
    <ReducedTemperature as Formula>::RECORD,
    <ZDranchukAbouKassem as Formula>::RECORD,
    <ZHallYarborough as Formula>::RECORD,
    <RealGasDensity as Formula>::RECORD,
];

/// Molar gas constant, exact since 2019 (9th SI brochure). [J/(mol·K)]
pub const MOLAR_GAS_CONSTANT: f64 = 8.314_462_618_153_24;

/// Molar mass of dry air, to which the gravity of a gas refers (ISO 6976:2016). [kg/mol]
pub const AIR_MOLAR_MASS: f64 = 0.028_965_46;

/// Lowest reduced temperature: below it pressure does not grow with density all the way.
pub(super) const LOWEST_REDUCED_TEMPERATURE: f64 = 1.03;
/// Highest reduced temperature taken.
pub(super) const HIGHEST_REDUCED_TEMPERATURE: f64 = 20.0;
/// Highest reduced pressure taken.
pub(super) const HIGHEST_REDUCED_PRESSURE: f64 = 100.0;

/// What a gas is: all that a correlation of corresponding states asks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gas {
    /// Molar mass. [kg/mol]
    pub molar_mass: f64,
    /// Critical or pseudo-critical pressure, absolute. [Pa]
    pub critical_pressure: f64,
    /// Critical or pseudo-critical temperature. [K]
    pub critical_temperature: f64,
}

impl Gas {
    /// Methane; critical point of Setzmann and Wagner, J. Phys. Chem. Ref. Data 20 (1991).
    pub const METHANE: Gas = Gas { molar_mass: 0.016_042_8, critical_pressure: 4.5992e6, critical_temperature: 190.564 };
    /// Nitrogen; critical point of Span et al., J. Phys. Chem. Ref. Data 29 (2000).
    pub const NITROGEN: Gas = Gas { molar_mass: 0.028_013_48, critical_pressure: 3.3958e6, critical_temperature: 126.192 };

    /// Compressibility factor; `None` outside the range of the correlations.
    pub fn factor<R: Recorder>(&self, rec: &mut R, method: ZMethod, state: GasState) -> Option<f64> {
        let reduced_pressure =
            rec.take(ReducedPressure { absolute_pressure: state.pressure, critical_pressure: self.critical_pressure });
        let reduced_temperature =
            rec.take(ReducedTemperature { temperature: state.temperature, critical_temperature: self.critical_temperature });
        let inside = (0.0..=HIGHEST_REDUCED_PRESSURE).contains(&reduced_pressure)
            && (LOWEST_REDUCED_TEMPERATURE..=HIGHEST_REDUCED_TEMPERATURE).contains(&reduced_temperature);
        inside.then(|| match method {
            ZMethod::DranchukAbouKassem => rec.take(ZDranchukAbouKassem { reduced_pressure, reduced_temperature }),
            ZMethod::HallYarborough => rec.take(ZHallYarborough { reduced_pressure, reduced_temperature }),
            ZMethod::Tabulated => rec.take(ZTabulated { reduced_pressure, reduced_temperature }),
        })
    }

    /// Density; `None` outside the range of the correlations. [kg/m³]
    pub fn density<R: Recorder>(&self, rec: &mut R, method: ZMethod, state: GasState) -> Option<f64> {
        let factor = self.factor(rec, method, state)?;
        Some(rec.take(RealGasDensity {
            absolute_pressure: state.pressure,
            molar_mass: self.molar_mass,
            factor,
            temperature: state.temperature,
        }))
    }
}

/// Pressure and temperature of a gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GasState {
    /// Absolute pressure. [Pa]
    pub pressure: f64,
    /// Temperature. [K]
    pub temperature: f64,
}

/// Which correlation gives the compressibility factor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum ZMethod {
    /// Dranchuk and Abou-Kassem, from a table made once: for sweeps.
    #[default]
    Tabulated,
    /// Dranchuk and Abou-Kassem, solved each time.
    DranchukAbouKassem,
    /// Hall and Yarborough.
    HallYarborough,
}

formula! {
    /// Pressure as a multiple of the critical pressure.
    pub struct ReducedPressure;
    slug "reduced-pressure";
    equation "p_r = p / p_c";
    law Homogeneous;
    source "definition, law of corresponding states";
    given {
        /// absolute pressure
        absolute_pressure "p" AbsolutePressure must NON_NEGATIVE;
        /// critical or pseudo-critical pressure
        critical_pressure "p_c" AbsolutePressure must POSITIVE;
    }
    /// reduced pressure
    gives "p_r" Ratio;
    value |f| f.absolute_pressure / f.critical_pressure
}

formula! {
    /// Absolute temperature as a multiple of the critical temperature.
    pub struct ReducedTemperature;
    slug "reduced-temperature";
    equation "T_r = T / T_c";
    law Homogeneous;
    source "definition, law of corresponding states";
    given {
        /// absolute temperature
        temperature "T" Temperature must NON_NEGATIVE;
        /// critical or pseudo-critical temperature
        critical_temperature "T_c" Temperature must POSITIVE;
    }
    /// reduced temperature
    gives "T_r" Ratio;
    value |f| f.temperature / f.critical_temperature
}

formula! {
    /// Compressibility factor of natural gas after Dranchuk and Abou-Kassem.
    ///
    /// Solved for the reduced density r, in which pressure grows steadily, between 0 and 4. The fit reads up
    /// to 1.2 % low against the chart it was made from, at a reduced temperature of 3.
    pub struct ZDranchukAbouKassem;
    slug "z-factor-dranchuk-abou-kassem";
    equation "z = 1 + (A1 + A2/T_r + A3/T_r³ + A4/T_r⁴ + A5/T_r⁵) r + (A6 + A7/T_r + A8/T_r²) r² - A9 (A7/T_r + A8/T_r²) r⁵ + A10 (1 + A11 r²) (r²/T_r³) exp(-A11 r²), r = 0.27 p_r / (z T_r)";
    law Homogeneous;
    source "Dranchuk and Abou-Kassem, J. Can. Pet. Tech. 14 (July 1975) 34; constants from memory, they reproduce the values that the R package zFactor 0.1.9 prints to seven digits";
    given {
        /// reduced pressure
        reduced_pressure "p_r" Ratio must between(0.0, HIGHEST_REDUCED_PRESSURE) valid between(0.2, 30.0);
        /// reduced temperature
        reduced_temperature "T_r" Ratio must between(LOWEST_REDUCED_TEMPERATURE, HIGHEST_REDUCED_TEMPERATURE) valid between(LOWEST_REDUCED_TEMPERATURE, 3.0);
    }
    /// compressibility factor
    gives "z" Ratio;
    value |f| dranchuk_abou_kassem(f.reduced_pressure, f.reduced_temperature)
}

/// The temperature part of the equation, with z as a polynomial in the reduced density r.
struct Isotherm {
    first: f64,
    second: f64,
    fifth: f64,
    exponential: f64,
}

impl Isotherm {
    const A: [f64; 11] = [0.3265, -1.0700, -0.5339, 0.015_69, -0.051_65, 0.5475, -0.7361, 0.1844, 0.1056, 0.6134, 0.7210];

    fn at(reduced_temperature: f64) -> Isotherm {
        let [a1, a2, a3, a4, a5, a6, a7, a8, a9, a10, _] = Isotherm::A;
        let t = 1.0 / reduced_temperature;
        Isotherm {
            first: a1 + t * (a2 + t * t * (a3 + t * (a4 + t * a5))),
            second: a6 + t * (a7 + t * a8),
            fifth: a9 * t * (a7 + t * a8),
            exponential: a10 * t * t * t,
        }
    }

    fn factor(&self, density: f64) -> f64 {
        let a11 = Isotherm::A[10];
        let square = density * density;
        1.0 + self.first * density + self.second * square - self.fifth * square * square * density
            + self.exponential * square * (1.0 + a11 * square) * (-a11 * square).exp()
    }
}

fn dranchuk_abou_kassem(reduced_pressure: f64, reduced_temperature: f64) -> f64 {
    let isotherm = Isotherm::at(reduced_temperature);
    let scale = reduced_temperature / 0.27;
    // Inside the must-ranges the two ends always bracket one root: at density 4 every reduced pressure is above 100.
    let solved = root(|density| density * isotherm.factor(density) * scale - reduced_pressure, 0.0, 4.0);
    solved.map_or(1.0, |density| isotherm.factor(density))
}

formula! {
    /// Compressibility factor of natural gas after Hall and Yarborough.
    ///
    /// Solved for the reduced density y between 0 and 1.
    pub struct ZHallYarborough;
    slug "z-factor-hall-yarborough";
    equation "z = A p_r / y, A p_r = (y + y² + y³ - y⁴)/(1 - y)³ - (14.76 t - 9.76 t² + 4.58 t³) y² + (90.7 t - 242.2 t² + 42.4 t³) y^(2.18 + 2.82 t), A = 0.06125 t exp(-1.2 (1 - t)²), t = 1/T_r";
    law Homogeneous;
    source "Hall and Yarborough, Oil & Gas Journal, 18 June 1973, 82; constants from memory, they reproduce the value that the R package zFactor 0.1.9 prints";
    given {
        /// reduced pressure
        reduced_pressure "p_r" Ratio must between(0.0, HIGHEST_REDUCED_PRESSURE) valid between(0.0, 24.0);
        /// reduced temperature
        reduced_temperature "T_r" Ratio must between(LOWEST_REDUCED_TEMPERATURE, HIGHEST_REDUCED_TEMPERATURE) valid between(1.2, 3.0);
    }
    /// compressibility factor
    gives "z" Ratio;
    value |f| hall_yarborough(f.reduced_pressure, f.reduced_temperature)
}

fn hall_yarborough(reduced_pressure: f64, reduced_temperature: f64) -> f64 {
    let t = 1.0 / reduced_temperature;
    let left = 0.061_25 * t * (-1.2 * (1.0 - t) * (1.0 - t)).exp() * reduced_pressure;
    let second = t * (14.76 + t * (-9.76 + t * 4.58));
    let last = t * (90.7 + t * (-242.2 + t * 42.4));
    let power = 2.18 + 2.82 * t;
    let right = |y: f64| {
        let rest = 1.0 - y;
        y * (1.0 + y * (1.0 + y * (1.0 - y))) / (rest * rest * rest) - second * y * y + last * y.powf(power)
    };
    // At 0.99 the first term alone is 3 million, far above any left side; at nought there is no gas and z is 1.
    match root(|y| right(y) - left, 0.0, 0.99) {
        Some(y) if y > 0.0 => left / y,
        _ => 1.0,
    }
}

formula! {
    /// Density of a real gas.
    pub struct RealGasDensity;
    slug "real-gas-density";
    equation "ρ = p M / (z R T)";
    law Empirical("J, mol and K, in the molar gas constant R = 8.314463 J/(mol·K)");
    source "equation of state of a real gas; R exact by the 9th SI brochure (2019)";
    given {
        /// absolute pressure
        absolute_pressure "p" AbsolutePressure must NON_NEGATIVE;
        /// molar mass
        molar_mass "M" MolarMass must POSITIVE;
        /// compressibility factor
        factor "z" Ratio must POSITIVE;
        /// absolute temperature
        temperature "T" Temperature must POSITIVE;
    }
    /// density of the gas
    gives "ρ" Density;
    value |f| f.absolute_pressure * f.molar_mass / (f.factor * MOLAR_GAS_CONSTANT * f.temperature)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    /// Reduced temperatures from the lowest to beyond the fits.
    fn temperatures() -> impl Iterator<Item = f64> {
        (0..60).map(|step| LOWEST_REDUCED_TEMPERATURE * 1.05f64.powi(step))
    }

    #[test]
    fn law_factor_tends_to_one_as_pressure_tends_to_nought() {
        for reduced_temperature in temperatures() {
            for reduced_pressure in [0.0, 1e-9, 1e-4] {
                let dak = ZDranchukAbouKassem { reduced_pressure, reduced_temperature }.value();
                let hy = ZHallYarborough { reduced_pressure, reduced_temperature }.value();
                assert!((dak - 1.0).abs() <= reduced_pressure, "{reduced_pressure} {reduced_temperature}: {dak}");
                assert!((hy - 1.0).abs() <= reduced_pressure, "{reduced_pressure} {reduced_temperature}: {hy}");
            }
        }
    }

    #[test]
    fn law_pressure_grows_with_density_so_that_the_root_is_the_only_one() {
        for reduced_temperature in temperatures() {
            let isotherm = Isotherm::at(reduced_temperature);
            let pressure = |density: f64| density * isotherm.factor(density) * reduced_temperature / 0.27;
            let pressures: Vec<f64> = (0..=4000).map(|step| pressure(f64::from(step) * 1e-3)).collect();
            assert!(pressures.is_sorted(), "at reduced temperature {reduced_temperature}");
            assert!(pressures[4000] > HIGHEST_REDUCED_PRESSURE);
        }
    }

    #[test]
    fn law_solved_factor_puts_back_into_its_equation() {
        for reduced_temperature in temperatures() {
            for reduced_pressure in [0.2, 1.0, 3.0, 10.0, 30.0, 100.0] {
                let z = ZDranchukAbouKassem { reduced_pressure, reduced_temperature }.value();
                let density = 0.27 * reduced_pressure / (z * reduced_temperature);
                let again = Isotherm::at(reduced_temperature).factor(density);
                assert!((z - again).abs() < 1e-12 * z, "{reduced_pressure} {reduced_temperature}: {z} {again}");
            }
        }
    }

    #[test]
    fn law_gas_colder_than_its_range_is_refused() {
        let state = |temperature| GasState { pressure: 1e7, temperature };
        for method in [ZMethod::Tabulated, ZMethod::DranchukAbouKassem, ZMethod::HallYarborough] {
            assert_eq!(Gas::METHANE.density(&mut Off, method, state(195.0)), None);
            assert!(Gas::METHANE.density(&mut Off, method, state(197.0)).is_some());
            assert_eq!(Gas::METHANE.density(&mut Off, method, GasState { pressure: -1.0, temperature: 300.0 }), None);
        }
    }
}
