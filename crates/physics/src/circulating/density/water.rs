//! Fresh water: its density under pressure, and the pressure and density at which it boils.
//!
//! The equation for the liquid is our own fit to the reference equation of state; the two for the boiling line are the
//! published ones. No salt, no steam.

use crate::{Formula, FormulaRecord, STANDARD_ATMOSPHERE, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[FreshWaterDensity::RECORD, WaterVapourPressure::RECORD, SaturatedWaterDensity::RECORD];

/// Ice point. [K]
pub(super) const ICE_POINT: f64 = 273.15;
/// A megapascal. [Pa]
pub(super) const MEGAPASCAL: f64 = 1e6;
/// Highest pressure that densities are reckoned at: three times that of the deepest wells. [Pa]
pub(super) const HIGHEST_PRESSURE: f64 = 5e8;

/// Critical temperature, pressure and density of water. (IAPWS R2-83)
const CRITICAL_TEMPERATURE: f64 = 647.096;
const CRITICAL_PRESSURE: f64 = 22.064e6;
const CRITICAL_DENSITY: f64 = 322.0;

/// A polynomial, constant first.
pub(super) fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, coefficient| sum * x + coefficient)
}

/// Density of a liquid that is squeezed, after Tait. [unit of `density`]
///
/// All pressures in one unit; `density` is that at the `reference` pressure.
pub(super) fn tait(density: f64, [softness, stiffness]: [f64; 2], pressure: f64, reference: f64) -> f64 {
    density / (1.0 - softness * ((stiffness + pressure) / (stiffness + reference)).ln())
}

formula! {
    /// Density of fresh water at pressure and temperature.
    ///
    /// Own fit to IAPWS-95: within 0.014 % of it from 0 to 250 °C and from the boiling pressure, or one atmosphere, to
    /// 150 MPa. Below the boiling pressure it gives what water would weigh if it stayed liquid.
    pub struct FreshWaterDensity;
    slug "fresh-water-density";
    equation "ρ = ρ0(T) / (1 - C(T) ln((B(T) + p)/(B(T) + 0.101325)))";
    law Empirical("kg/m³, MPa, °C");
    source "Tait's form fitted to IAPWS-95 as in CoolProp 8.0.0; the reference equation: Wagner & Pruss, J. Phys. Chem. Ref. Data 31 (2002) 387";
    given {
        /// absolute pressure
        absolute_pressure "p" AbsolutePressure must between(0.0, HIGHEST_PRESSURE) valid between(0.0, 150e6);
        /// temperature
        temperature "T" Temperature must between(250.0, 550.0) valid between(ICE_POINT, 523.15);
    }
    /// density of the water
    gives "ρ" Density;
    value |f| {
        // In hundreds of degrees, so that the coefficients show how much each term gives.
        let t = (f.temperature - ICE_POINT) / 100.0;
        let at_one_atmosphere = polynomial(&[999.9464, 3.5034, -71.2313, 42.3256, -21.5281, 6.2095, -0.8024], t);
        let stiffness = polynomial(&[275.5275, 140.2414, -226.7529, 78.7105, -9.4333], t);
        let softness = 0.139_834 - 0.013_404 * t;
        let reference = STANDARD_ATMOSPHERE / MEGAPASCAL;
        tait(at_one_atmosphere, [softness, stiffness], f.absolute_pressure / MEGAPASCAL, reference)
    }
}

formula! {
    /// Pressure below which water of a temperature boils.
    pub struct WaterVapourPressure;
    slug "water-vapour-pressure";
    equation "ln(p/pc) = (Tc/T)(a1 θ + a2 θ^1.5 + a3 θ³ + a4 θ^3.5 + a5 θ⁴ + a6 θ^7.5), θ = 1 - T/Tc";
    law Empirical("K, with the critical point of water");
    source "IAPWS SR1-86(1992); Wagner & Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783";
    given {
        /// temperature
        temperature "T" Temperature must between(ICE_POINT, CRITICAL_TEMPERATURE);
    }
    /// absolute vapour pressure
    gives "p" AbsolutePressure;
    value |f| {
        let theta = 1.0 - f.temperature / CRITICAL_TEMPERATURE;
        let sum = -7.859_517_83 * theta + 1.844_082_59 * theta.powf(1.5) - 11.786_649_7 * theta.powi(3)
            + 22.680_741_1 * theta.powf(3.5) - 15.961_871_9 * theta.powi(4) + 1.801_225_02 * theta.powf(7.5);
        CRITICAL_PRESSURE * (CRITICAL_TEMPERATURE / f.temperature * sum).exp()
    }
}

formula! {
    /// Density of water that is about to boil.
    pub struct SaturatedWaterDensity;
    slug "saturated-water-density";
    equation "ρ/ρc = 1 + b1 θ^(1/3) + b2 θ^(2/3) + b3 θ^(5/3) + b4 θ^(16/3) + b5 θ^(43/3) + b6 θ^(110/3), θ = 1 - T/Tc";
    law Empirical("K, with the critical point of water");
    source "IAPWS SR1-86(1992); Wagner & Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783";
    given {
        /// temperature
        temperature "T" Temperature must between(ICE_POINT, CRITICAL_TEMPERATURE);
    }
    /// density of the liquid
    gives "ρ" Density;
    value |f| {
        let root = (1.0 - f.temperature / CRITICAL_TEMPERATURE).cbrt();
        let sum = 1.992_740_64 * root + 1.099_653_42 * root.powi(2) - 0.510_839_303 * root.powi(5)
            - 1.754_934_79 * root.powi(16) - 45.517_035_2 * root.powi(43) - 6.746_944_5e5 * root.powi(110);
        CRITICAL_DENSITY * (1.0 + sum)
    }
}
