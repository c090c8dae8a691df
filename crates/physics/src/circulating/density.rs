//! Density of mud and its liquids under pressure and heat, and the still column that follows.
//!
//! A mud is oil, water or brine, and solids that do not give: volumes add up. Base oil needs one number, its density at 60 °F;
//! a supplier's table, where there is one, is better. Pressures are gauge. The mud weight is that of the pit at its own temperature.

use crate::field::{POUND_PER_GALLON, PSI};
use crate::{Formula, FormulaRecord, STANDARD_ATMOSPHERE, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    BaseOilDensity::RECORD,
    BaseFluidDensity::RECORD,
    SaltBrineDensity::RECORD,
    CalciumBrineDensity::RECORD,
    CompositeDensity::RECORD,
];

/// Coldest and hottest that the correlations are asked for. [K]
const COLDEST: f64 = 255.0;
const HOTTEST: f64 = 500.0;
/// Highest pressure that the correlations are asked for. [Pa]
const HIGHEST: f64 = 3e8;

fn fahrenheit(temperature: f64) -> f64 {
    temperature * 1.8 - 459.67
}

fn celsius(temperature: f64) -> f64 {
    temperature - 273.15
}

formula! {
    /// Density of a base oil from its density at 60 °F: thermal expansion and compressibility of petroleum, carried to high pressure by a logarithm.
    ///
    /// Against equations of state of n-decane to n-dodecane within 0.75 % to 200 °F and 1.3 % to 400 °F, up to 25,000 psi. Not for
    /// aromatics and naphthenes.
    pub struct BaseOilDensity;
    slug "base-oil-density";
    equation "ρ = ρ60 exp(-a D (1 + 0.8 a D)) / (1 - C ln(1 + F p/C)), D = T - 60, a = (K0/ρ60 + K1)/ρ60, F = 1e-5 exp(-1.9947 + 0.00013427 T + (793920 + 2326 T)/ρ60²), C = 0.0868";
    law Empirical("kg/m³, °F, psi");
    source "API MPMS ch. 11.1-2004 (K0, K1 read, its formulas from memory); logarithm after Dymond & Malhotra, Int. J. Thermophys. 8 (1987) 541";
    given {
        /// density at 60 °F and no pressure
        density_60 "ρ60" Density must between(650.0, 1000.0) valid between(740.0, 900.0);
        /// pressure
        pressure "p" Pressure must between(0.0, HIGHEST) valid between(0.0, 1.75e8);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST) valid between(280.0, 478.0);
    }
    /// density
    gives "ρ" Density;
    value |f| {
        let (r60, t, p) = (f.density_60, fahrenheit(f.temperature), f.pressure / PSI);
        // Diesel above 838.3 kg/m³, light mineral oil, olefin and paraffin below.
        let (k0, k1) = if r60 > 838.3 { (103.8720, 0.2701) } else { (330.3010, 0.0) };
        let expansion = (k0 / r60 + k1) / r60 * (t - 60.0);
        let unpressed = r60 * (-expansion * (1.0 + 0.8 * expansion)).exp();
        let compressibility = 1e-5 * (-1.9947 + 0.000_134_27 * t + (793_920.0 + 2326.0 * t) / (r60 * r60)).exp();
        const C: f64 = 0.0868;
        unpressed / (1.0 - C * (1.0 + compressibility * p / C).ln())
    }
}

formula! {
    /// Density of a base fluid by six coefficients, those of mineral oil by default.
    ///
    /// Internal olefin: 6.8358, 2.23e-5, -2e-10, -3.39e-3, 1.12e-7, -2e-12. The rows for diesel and paraffin that go round with these fail an
    /// independent check by up to 8 % and are left out.
    pub struct BaseFluidDensity;
    slug "base-fluid-density";
    equation "ρ = a1 + b1 p + c1 p² + (a2 + b2 p + c2 p²) T";
    law Empirical("ppg, psi, °F");
    source "API RP 13D 2006 and 2010, table of base fluids (from memory), after Zamora et al.";
    given {
        /// pressure
        pressure "p" Pressure must between(0.0, HIGHEST) valid between(0.0, 1.4e8);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST) valid between(280.0, 450.0);
        /// first coefficient
        coefficient_a1 "a1" Ratio must between(0.0, 20.0) default 6.9912;
        /// second coefficient
        coefficient_b1 "b1" Ratio must between(-1.0, 1.0) default 2.25e-5;
        /// third coefficient
        coefficient_c1 "c1" Ratio must between(-1.0, 1.0) default -1e-10;
        /// fourth coefficient
        coefficient_a2 "a2" Ratio must between(-1.0, 1.0) default -3.28e-3;
        /// fifth coefficient
        coefficient_b2 "b2" Ratio must between(-1.0, 1.0) default 1.17e-7;
        /// sixth coefficient
        coefficient_c2 "c2" Ratio must between(-1.0, 1.0) default -3e-12;
    }
    /// density
    gives "ρ" Density;
    value |f| {
        let (p, t) = (f.pressure / PSI, fahrenheit(f.temperature));
        let cold = f.coefficient_a1 + f.coefficient_b1 * p + f.coefficient_c1 * p * p;
        let hot = f.coefficient_a2 + f.coefficient_b2 * p + f.coefficient_c2 * p * p;
        (cold + hot * t) * POUND_PER_GALLON
    }
}

formula! {
    /// Density of water and of sodium chloride brine under pressure and heat.
    ///
    /// Water within 0.35 % of IAPWS-95 from 20 to 200 °C and 2 to 140 MPa; brine without pressure within 0.25 %.
    pub struct SaltBrineDensity;
    slug "salt-brine-density";
    equation "ρ = ρw + S (0.668 + 0.44 S + 1e-6 (300 p - 2400 p S + T (80 + 3 T - 3300 S - 13 p + 47 p S)))";
    law Empirical("g/cm³, °C, MPa absolute");
    source "Batzle & Wang, Geophysics 57 (1992) 1396 (coefficients from memory)";
    given {
        /// share of salt by mass
        salt_fraction "S" Fraction must between(0.0, 0.35) valid between(0.0, 0.26);
        /// pressure
        pressure "p" Pressure must between(0.0, HIGHEST) valid between(0.0, 1.4e8);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST) valid between(283.0, 473.0);
    }
    /// density
    gives "ρ" Density;
    value |f| {
        let (s, p, t) = (f.salt_fraction, (f.pressure + STANDARD_ATMOSPHERE) / 1e6, celsius(f.temperature));
        let water = 1.0
            + 1e-6
                * (-80.0 * t - 3.3 * t * t + 0.00175 * t.powi(3) + 489.0 * p - 2.0 * t * p + 0.016 * t * t * p
                    - 1.3e-5 * t.powi(3) * p
                    - 0.333 * p * p
                    - 0.002 * t * p * p);
        let hot = t * (80.0 + 3.0 * t - 3300.0 * s - 13.0 * p + 47.0 * p * s);
        1000.0 * (water + s * (0.668 + 0.44 * s + 1e-6 * (300.0 * p - 2400.0 * p * s + hot)))
    }
}

formula! {
    /// Density of calcium chloride brine without pressure.
    pub struct CalciumBrineDensity;
    slug "calcium-brine-density";
    equation "1/ρ = (1 - S)/ρw + S/ρs, ρs = (c0 S + c1) exp(1e-6 (T + c4)²)/(S + c2 + c3 T)";
    law Empirical("kg/m³, °C");
    source "M. Laliberté, J. Chem. Eng. Data 54 (2009) 1725, coefficients as carried by the Python library thermo 0.6.1";
    given {
        /// share of salt by mass
        salt_fraction "S" Fraction must between(0.0, 0.55) valid between(0.0, 0.513);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST) valid between(288.0, 400.0);
    }
    /// density
    gives "ρ" Density;
    value |f| {
        let (s, t) = (f.salt_fraction, celsius(f.temperature));
        let grow = ((((-2.805_425_3e-10 * t + 1.055_630_2e-7) * t - 4.617_046_1e-5) * t - 0.007_987_040_1) * t + 16.945_176) * t;
        let water = (grow + 999.839_52) / (1.0 + 0.016_879_85 * t);
        let shrink = s + 4.190_333_415 + 0.039_740_363_44 * t;
        let salt = (-9.728_937_47 * s + 14.700_535_3) * (1e-6 * (t + 2_708.127_789).powi(2)).exp() / shrink;
        1.0 / ((1.0 - s) / water + s / salt)
    }
}

formula! {
    /// Weight of a mud under pressure and heat from that of the pit: its liquids shrink and swell, its solids do not.
    pub struct CompositeDensity;
    slug "composite-density";
    equation "ρ = ρ0 / (1 + fo (ρo0/ρo - 1) + fw (ρw0/ρw - 1))";
    law Homogeneous;
    source "volume balance; Hoberock, Thomas & Nickens 1982 (from memory)";
    given {
        /// mud weight in the pit
        density "ρ0" Density must NON_NEGATIVE;
        /// share of oil
        oil_fraction "fo" Fraction must FRACTION;
        /// density of the oil in the pit
        oil_density_pit "ρo0" Density must POSITIVE;
        /// density of the oil in the hole
        oil_density "ρo" Density must POSITIVE;
        /// share of water or brine
        water_fraction "fw" Fraction must FRACTION;
        /// density of the water in the pit
        water_density_pit "ρw0" Density must POSITIVE;
        /// density of the water in the hole
        water_density "ρw" Density must POSITIVE;
    }
    /// weight in the hole
    gives "ρ" Density;
    value |f| {
        let (oil, water) = (f.oil_density_pit / f.oil_density, f.water_density_pit / f.water_density);
        // Shares above one together are nonsense: the volume that is left is then kept from vanishing.
        let volume = (1.0 - f.oil_fraction - f.water_fraction).max(0.0) + f.oil_fraction * oil + f.water_fraction * water;
        f.density / volume.max(1e-12)
    }
}

/// Pressure at the bottom of a still column whose density depends on pressure and depth, from its top down. [Pa]
///
/// The classical fourth-order march with equal steps; with steps of 30 m the error is far below a pascal per kilometre.
pub fn still_column(height: f64, top_pressure: f64, gravity: f64, density: impl Fn(f64, f64) -> f64) -> f64 {
    const STEP: f64 = 30.0;
    let steps = (height / STEP).ceil().clamp(1.0, 1e6);
    let step = height / steps;
    let slope = |depth: f64, pressure: f64| density(pressure, depth) * gravity;
    let mut pressure = top_pressure;
    for at in 0..steps as u64 {
        let depth = at as f64 * step;
        let a = slope(depth, pressure);
        let b = slope(depth + step / 2.0, pressure + a * step / 2.0);
        let c = slope(depth + step / 2.0, pressure + b * step / 2.0);
        let d = slope(depth + step, pressure + c * step);
        pressure += step / 6.0 * (a + 2.0 * b + 2.0 * c + d);
    }
    pressure
}
