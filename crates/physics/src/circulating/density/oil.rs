//! Base oils: density at pressure and temperature.
//!
//! The default needs one figure, the density at 60 °F. A supplier's table, where there is one, is better. Aromatic and
//! naphthenic oils expand by 1 to 4 % more than this says when hot.

use super::water::{HIGHEST_PRESSURE, ICE_POINT, MEGAPASCAL, polynomial, tait};
use super::{COLDEST, HOTTEST, State};
use crate::field::{POUND_PER_GALLON, PSI, RANKINE};
use crate::{Formula, FormulaRecord, Recorder, STANDARD_ATMOSPHERE, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] =
    &[BaseOilDensity::RECORD, DodecaneDensity::RECORD, DecaneDensity::RECORD, BaseFluidDensity::RECORD];

/// A temperature in degrees Fahrenheit.
fn fahrenheit(temperature: f64) -> f64 {
    (temperature - ICE_POINT) / RANKINE + 32.0
}

/// Softness of base oils in Tait's equation: 0.2000/ln 10 of Dymond & Malhotra, Int. J. Thermophys. 8 (1987) 541 (from memory).
const OIL_SOFTNESS: f64 = 0.0868;
/// Density at 60 °F above which an oil counts as a fuel oil, where the two groups of the standard meet. [kg/m³]
const FUEL_OIL_FROM: f64 = 838.3;

formula! {
    /// Density of a base oil at pressure and temperature from its density at 60 °F.
    ///
    /// Diesel counts as a fuel oil; mineral oils, olefins and paraffins go with the jet fuels. n-decane, n-undecane and
    /// n-dodecane are met within 0.72 % to 200 °F and 25,000 psi and within 1.3 % to 400 °F, an ester within 0.4 % to 300 °F.
    pub struct BaseOilDensity;
    slug "base-oil-density";
    equation "ρ = ρ60 exp(-a D (1 + 0.8 a D)) / (1 - C ln(1 + F p/C)), D = T - 60, a = (K0/ρ60 + K1)/ρ60, F = 1e-5 exp(-1.9947 + 0.00013427 T + (793920 + 2326 T)/ρ60²)";
    law Empirical("kg/m³, psi, °F");
    source "API MPMS ch. 11.1-2004 (ASTM D1250-04) for expansion and compressibility, F from memory; carried to high pressure by Tait's logarithm";
    given {
        /// density at 60 °F
        density_60 "ρ60" Density must between(650.0, 1000.0) valid between(740.0, 880.0);
        /// gauge pressure
        pressure "p" Pressure must between(-1e6, HIGHEST_PRESSURE) valid between(0.0, 172.4e6);
        /// temperature
        temperature "T" Temperature must between(250.0, HOTTEST) valid between(288.15, 477.6);
    }
    /// density of the oil
    gives "ρ" Density;
    value |f| {
        let t = fahrenheit(f.temperature);
        let [k_0, k_1] = if f.density_60 > FUEL_OIL_FROM { [103.8720, 0.2701] } else { [330.3010, 0.0] };
        let expansion = (k_0 / f.density_60 + k_1) / f.density_60 * (t - 60.0);
        let hot = f.density_60 * (-expansion * (1.0 + 0.8 * expansion)).exp();
        let square = f.density_60 * f.density_60;
        let compressibility = 1e-5 * (-1.9947 + 0.000_134_27 * t + (793_920.0 + 2326.0 * t) / square).exp();
        hot / (1.0 - OIL_SOFTNESS * (compressibility * f.pressure / PSI / OIL_SOFTNESS).ln_1p())
    }
}

formula! {
    /// Density of n-dodecane, a pure fluid that stands for a paraffin base oil.
    ///
    /// Own fit: within 0.063 % of the reference equation from 0 to 200 °C and 0.1 to 150 MPa.
    pub struct DodecaneDensity;
    slug "dodecane-density";
    equation "ρ = ρ0(T) / (1 - C ln((B(T) + p)/(B(T) + 0.101325))), C = 0.08886";
    law Empirical("kg/m³, MPa, °C");
    source "Tait's form fitted to the equation of Lemmon & Huber 2004 as in CoolProp 8.0.0";
    given {
        /// absolute pressure
        absolute_pressure "p" AbsolutePressure must between(0.0, HIGHEST_PRESSURE) valid between(0.0, 150e6);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST) valid between(COLDEST, 473.15);
    }
    /// density of the liquid
    gives "ρ" Density;
    value |f| {
        let t = f.temperature - ICE_POINT;
        let density = polynomial(&[763.923, -0.721_29, -2.4762e-5, -1.1885e-6], t);
        let stiffness = polynomial(&[106.248, -0.622_07, 1.0185e-3], t);
        tait(density, [0.088_86, stiffness], f.absolute_pressure / MEGAPASCAL, STANDARD_ATMOSPHERE / MEGAPASCAL)
    }
}

formula! {
    /// Density of n-decane, a pure fluid that stands for a light paraffin base oil.
    ///
    /// Own fit: within 0.044 % of the reference equation from 0 to 165 °C and 0.1 to 150 MPa.
    pub struct DecaneDensity;
    slug "decane-density";
    equation "ρ = ρ0(T) / (1 - C ln((B(T) + p)/(B(T) + 0.101325))), C = 0.08881";
    law Empirical("kg/m³, MPa, °C");
    source "Tait's form fitted to the equation of Lemmon & Span 2006 as in CoolProp 8.0.0";
    given {
        /// absolute pressure
        absolute_pressure "p" AbsolutePressure must between(0.0, HIGHEST_PRESSURE) valid between(0.0, 150e6);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST) valid between(COLDEST, 438.15);
    }
    /// density of the liquid
    gives "ρ" Density;
    value |f| {
        let t = f.temperature - ICE_POINT;
        let density = polynomial(&[745.791, -0.759_93, -1.1616e-4, -1.0522e-6], t);
        let stiffness = polynomial(&[95.299, -0.602_46, 1.0895e-3], t);
        tait(density, [0.088_81, stiffness], f.absolute_pressure / MEGAPASCAL, STANDARD_ATMOSPHERE / MEGAPASCAL)
    }
}

/// Coefficients of a base fluid in the form that has six of them.
///
/// Only fluids that agree with [`BaseOilDensity`] or with the brine models within 1.5 % are listed; the rows for diesel and paraffin, as
/// remembered, do not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SixCoefficients {
    /// a₁, b₁, c₁: without temperature. [ppg, psi]
    constant: [f64; 3],
    /// a₂, b₂, c₂: per degree. [ppg, psi, °F]
    per_degree: [f64; 3],
}

impl SixCoefficients {
    /// Mineral oil.
    pub const MINERAL_OIL: SixCoefficients =
        SixCoefficients { constant: [6.9912, 2.25e-5, -1e-10], per_degree: [-3.28e-3, 1.17e-7, -3e-12] };
    /// Internal olefin.
    pub const INTERNAL_OLEFIN: SixCoefficients =
        SixCoefficients { constant: [6.8358, 2.23e-5, -2e-10], per_degree: [-3.39e-3, 1.12e-7, -2e-12] };
    /// Calcium chloride brine with 19.3 % of salt by mass; 0.5 % heavy at 60 °F, 1.4 % when hot.
    pub const CALCIUM_CHLORIDE_19: SixCoefficients =
        SixCoefficients { constant: [9.9952, 1.77e-5, 6e-11], per_degree: [-2.75e-3, 3.49e-8, -9e-13] };

    pub(super) fn density<R: Recorder>(self, state: State, rec: &mut R) -> f64 {
        let ([coefficient_a1, coefficient_b1, coefficient_c1], [coefficient_a2, coefficient_b2, coefficient_c2]) =
            (self.constant, self.per_degree);
        rec.take(BaseFluidDensity {
            pressure: state.pressure(),
            temperature: state.temperature(),
            coefficient_a1,
            coefficient_b1,
            coefficient_c1,
            coefficient_a2,
            coefficient_b2,
            coefficient_c2,
        })
    }
}

formula! {
    /// Density of a base fluid at pressure and temperature from six coefficients, those of mineral oil by default.
    pub struct BaseFluidDensity;
    slug "base-fluid-density";
    equation "ρ = (a1 + b1 p + c1 p²) + (a2 + b2 p + c2 p²) T";
    law Empirical("ppg, psi, °F");
    source "form and coefficients of API RP 13D, 5th ed. 2006 (from memory)";
    given {
        /// gauge pressure
        pressure "p" Pressure must between(-1e6, HIGHEST_PRESSURE) valid between(0.0, 137.9e6);
        /// temperature
        temperature "T" Temperature must between(250.0, HOTTEST) valid between(288.15, 449.8);
        /// density at no pressure and no degree
        coefficient_a1 "a1" Ratio must ANY valid between(6.0, 11.0) default 6.9912;
        /// its growth with pressure
        coefficient_b1 "b1" Ratio must ANY valid between(1e-5, 6e-5) default 2.25e-5;
        /// its growth with pressure squared
        coefficient_c1 "c1" Ratio must ANY valid between(-1e-9, 1e-9) default -1e-10;
        /// growth with temperature
        coefficient_a2 "a2" Ratio must ANY valid between(-4e-3, -2e-3) default -3.28e-3;
        /// growth with temperature and pressure
        coefficient_b2 "b2" Ratio must ANY valid between(-2e-8, 2e-7) default 1.17e-7;
        /// growth with temperature and pressure squared
        coefficient_c2 "c2" Ratio must ANY valid between(-4e-12, 1e-12) default -3e-12;
    }
    /// density of the fluid
    gives "ρ" Density;
    value |f| {
        let p = f.pressure / PSI;
        let constant = polynomial(&[f.coefficient_a1, f.coefficient_b1, f.coefficient_c1], p);
        let per_degree = polynomial(&[f.coefficient_a2, f.coefficient_b2, f.coefficient_c2], p);
        POUND_PER_GALLON * (constant + per_degree * fahrenheit(f.temperature))
    }
}
