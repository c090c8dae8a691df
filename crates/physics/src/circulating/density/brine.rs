//! Brines: density at one atmosphere and under pressure.
//!
//! For the chlorides the default is the fit to measured densities under pressure; Batzle & Wang is kept for comparison,
//! since it is too stiff when hot. Other salts start from their density at one atmosphere and are pressed like a sodium
//! chloride brine with the same share of salt. Heavy brines with calcium bromide or zinc bromide go by measured expansion and
//! compressibility.

use super::salts::{
    CALCIUM_CHLORIDE, Chloride, MAGNESIUM_CHLORIDE, POTASSIUM_CHLORIDE, SODIUM_CHLORIDE, Salt, WATER_SOFTNESS, WATER_STIFFNESS,
};
use super::water::{
    FreshWaterDensity, HIGHEST_PRESSURE, ICE_POINT, MEGAPASCAL, SaturatedWaterDensity, WaterVapourPressure, polynomial, tait,
};
use super::{COLDEST, HOTTEST, State};
use crate::{Formula, FormulaRecord, Off, Recorder, STANDARD_ATMOSPHERE, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    SodiumChlorideBrine::RECORD,
    PotassiumChlorideBrine::RECORD,
    CalciumChlorideBrine::RECORD,
    MagnesiumChlorideBrine::RECORD,
    SaltBrineDensity::RECORD,
    SaltApparentDensity::RECORD,
    BrineDensity::RECORD,
    LikenedDensity::RECORD,
    ExpandedBrine::RECORD,
    PressedBrine::RECORD,
];

/// Critical temperature that the coefficients of the chlorides go with. [K]
const CRITICAL_TEMPERATURE: f64 = 647.10;
/// Temperature and pressure that the paper on the chlorides vouches for.
const CHLORIDE_COLDEST: f64 = 298.15;
const CHLORIDE_HOTTEST: f64 = 473.15;
const CHLORIDE_PRESSURE: f64 = 68.5e6;

/// Density of a chloride brine. [kg/m³]
fn chloride(salt: &Chloride, salt_fraction: f64, absolute_pressure: f64, temperature: f64) -> f64 {
    let molality = salt_fraction / ((1.0 - salt_fraction) * salt.molar_mass);
    let t = temperature / CRITICAL_TEMPERATURE;
    // ρ(pσ) = ρw(pσ) + Σ m^((i+1)/2) (αi0 + Σ αij t^((j+1)/2))
    let by_temperature = |row: &[f64; 5]| {
        let rising = row[1..].iter().zip(1_i32..).map(|(alpha, j)| alpha * t.powf(0.5 * f64::from(j + 1)));
        row[0] + rising.sum::<f64>()
    };
    let by_molality = salt.alpha.iter().zip(1_i32..).map(|(row, i)| molality.powf(0.5 * f64::from(i + 1)) * by_temperature(row));
    let density = SaturatedWaterDensity { temperature }.value() + by_molality.sum::<f64>();
    // B = Σ (β0j + m β1j) t^j, C = γ0 + γ1 m + γ2 m^(3/2)
    let stiffness = polynomial(&WATER_STIFFNESS, t) + molality * polynomial(&salt.beta, t);
    let softness = WATER_SOFTNESS + salt.gamma[0] * molality + salt.gamma[1] * molality.powf(1.5);
    let reference = WaterVapourPressure { temperature }.value() / MEGAPASCAL;
    tait(density, [softness, stiffness], absolute_pressure / MEGAPASCAL, reference)
}

formula! {
    /// Density of sodium chloride brine at pressure and temperature.
    ///
    /// Fit to densities measured between 10 and 199 °C: within 0.05 % of them.
    pub struct SodiumChlorideBrine;
    slug "sodium-chloride-brine-density";
    equation "ρ = ρσ(w,T) / (1 - C(w) ln((B(w,T) + p)/(B(w,T) + pσ(T))))";
    law Empirical("kg/m³, MPa, mol of salt per kg of water, T/647.10 K");
    source "Al Ghafri, Maitland & Trusler, J. Chem. Eng. Data 57 (2012) 1288, eqs. 7 and 9 to 11";
    given {
        /// share of salt in the mass of brine
        salt_fraction "w" Fraction must between(0.0, 0.28) valid between(0.0, 0.26);
        /// absolute pressure
        absolute_pressure "p" AbsolutePressure must between(0.0, HIGHEST_PRESSURE) valid between(0.0, CHLORIDE_PRESSURE);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST) valid between(CHLORIDE_COLDEST, CHLORIDE_HOTTEST);
    }
    /// density of the brine
    gives "ρ" Density;
    value |f| chloride(&SODIUM_CHLORIDE, f.salt_fraction, f.absolute_pressure, f.temperature)
}

formula! {
    /// Density of potassium chloride brine at pressure and temperature.
    pub struct PotassiumChlorideBrine;
    slug "potassium-chloride-brine-density";
    equation "ρ = ρσ(w,T) / (1 - C(w) ln((B(w,T) + p)/(B(w,T) + pσ(T))))";
    law Empirical("kg/m³, MPa, mol of salt per kg of water, T/647.10 K");
    source "Al Ghafri, Maitland & Trusler, J. Chem. Eng. Data 57 (2012) 1288, eqs. 7 and 9 to 11";
    given {
        /// share of salt in the mass of brine
        salt_fraction "w" Fraction must between(0.0, 0.28) valid between(0.0, 0.25);
        /// absolute pressure
        absolute_pressure "p" AbsolutePressure must between(0.0, HIGHEST_PRESSURE) valid between(0.0, CHLORIDE_PRESSURE);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST) valid between(CHLORIDE_COLDEST, CHLORIDE_HOTTEST);
    }
    /// density of the brine
    gives "ρ" Density;
    value |f| chloride(&POTASSIUM_CHLORIDE, f.salt_fraction, f.absolute_pressure, f.temperature)
}

formula! {
    /// Density of calcium chloride brine at pressure and temperature.
    pub struct CalciumChlorideBrine;
    slug "calcium-chloride-brine-density";
    equation "ρ = ρσ(w,T) / (1 - C(w) ln((B(w,T) + p)/(B(w,T) + pσ(T))))";
    law Empirical("kg/m³, MPa, mol of salt per kg of water, T/647.10 K");
    source "Al Ghafri, Maitland & Trusler, J. Chem. Eng. Data 57 (2012) 1288, eqs. 7 and 9 to 11";
    given {
        /// share of salt in the mass of brine
        salt_fraction "w" Fraction must between(0.0, 0.45) valid between(0.0, 0.40);
        /// absolute pressure
        absolute_pressure "p" AbsolutePressure must between(0.0, HIGHEST_PRESSURE) valid between(0.0, CHLORIDE_PRESSURE);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST) valid between(CHLORIDE_COLDEST, CHLORIDE_HOTTEST);
    }
    /// density of the brine
    gives "ρ" Density;
    value |f| chloride(&CALCIUM_CHLORIDE, f.salt_fraction, f.absolute_pressure, f.temperature)
}

formula! {
    /// Density of magnesium chloride brine at pressure and temperature.
    pub struct MagnesiumChlorideBrine;
    slug "magnesium-chloride-brine-density";
    equation "ρ = ρσ(w,T) / (1 - C(w) ln((B(w,T) + p)/(B(w,T) + pσ(T))))";
    law Empirical("kg/m³, MPa, mol of salt per kg of water, T/647.10 K");
    source "Al Ghafri, Maitland & Trusler, J. Chem. Eng. Data 57 (2012) 1288, eqs. 7 and 9 to 11";
    given {
        /// share of salt in the mass of brine
        salt_fraction "w" Fraction must between(0.0, 0.36) valid between(0.0, 0.32);
        /// absolute pressure
        absolute_pressure "p" AbsolutePressure must between(0.0, HIGHEST_PRESSURE) valid between(0.0, CHLORIDE_PRESSURE);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST) valid between(CHLORIDE_COLDEST, CHLORIDE_HOTTEST);
    }
    /// density of the brine
    gives "ρ" Density;
    value |f| chloride(&MAGNESIUM_CHLORIDE, f.salt_fraction, f.absolute_pressure, f.temperature)
}

formula! {
    /// Density of sodium chloride brine at pressure and temperature, by the polynomial of seismic work.
    ///
    /// Measured brine is softer: at 150 °C this gives about a fifth too little compression, and at one atmosphere and 100 °C
    /// it is 0.4 % heavy. For comparison, and for figures that were made with it.
    pub struct SaltBrineDensity;
    slug "salt-brine-density";
    equation "ρ = ρw(T,p) + w (0.668 + 0.44 w + 1e-6 (300 p - 2400 p w + T (80 + 3 T - 3300 w - 13 p + 47 p w)))";
    law Empirical("g/cm³, MPa absolute, °C");
    source "Batzle & Wang, Geophysics 57 (1992) 1396, eq. 27 (from memory)";
    given {
        /// share of salt in the mass of brine
        salt_fraction "w" Fraction must between(0.0, 0.35) valid between(0.0, 0.26);
        /// gauge pressure
        pressure "p" Pressure must between(-1e6, HIGHEST_PRESSURE) valid between(0.0, 100e6);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST) valid between(293.15, 473.15);
    }
    /// density of the brine
    gives "ρ" Density;
    value |f| {
        let (t, p, w) = (f.temperature - ICE_POINT, (f.pressure + STANDARD_ATMOSPHERE) / MEGAPASCAL, f.salt_fraction);
        let alone = -80.0 * t - 3.3 * t * t + 0.001_75 * t.powi(3) + 489.0 * p - 2.0 * t * p + 0.016 * t * t * p
            - 1.3e-5 * t.powi(3) * p - 0.333 * p * p - 0.002 * t * p * p;
        let with_salt = 300.0 * p - 2400.0 * p * w + t * (80.0 + 3.0 * t - 3300.0 * w - 13.0 * p + 47.0 * p * w);
        1000.0 * (1.0 + 1e-6 * alone + w * (0.668 + 0.44 * w + 1e-6 * with_salt))
    }
}

formula! {
    /// Density that dissolved salt seems to have in a brine at one atmosphere.
    ///
    /// The coefficients of a salt are in [`Salt::laliberte`].
    pub struct SaltApparentDensity;
    slug "salt-apparent-density";
    equation "ρs = (c0 w + c1) exp(1e-6 (T + c4)²) / (w + c2 + c3 T)";
    law Empirical("kg/m³, °C");
    source "Laliberté, J. Chem. Eng. Data 54 (2009) 1725";
    given {
        /// share of salt in the mass of brine
        salt_fraction "w" Fraction must between(0.0, 0.7);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST) valid between(COLDEST, 413.15);
        /// first coefficient of the salt
        c_0 "c0" Ratio must ANY valid between(-10.0, 760.0);
        /// second coefficient
        c_1 "c1" Ratio must ANY valid between(0.0, 2600.0);
        /// third coefficient
        c_2 "c2" Ratio must at_least(0.1) valid between(0.7, 6.0);
        /// fourth coefficient, per degree
        c_3 "c3" Ratio must NON_NEGATIVE valid between(0.0, 0.05);
        /// fifth coefficient, in degrees
        c_4 "c4" Ratio must between(0.0, 5000.0) valid between(600.0, 3400.0);
    }
    /// apparent density of the salt
    gives "ρs" Density;
    value |f| {
        let t = f.temperature - ICE_POINT;
        let swelling = (1e-6 * (t + f.c_4) * (t + f.c_4)).exp();
        (f.c_0 * f.salt_fraction + f.c_1) * swelling / (f.salt_fraction + f.c_2 + f.c_3 * t)
    }
}

formula! {
    /// Density of a brine from the densities of water and of salt in it.
    pub struct BrineDensity;
    slug "brine-density";
    equation "1/ρ = (1 - w)/ρw + w/ρs";
    law Homogeneous;
    source "volume balance; Laliberté, J. Chem. Eng. Data 54 (2009) 1725";
    given {
        /// share of salt in the mass of brine
        salt_fraction "w" Fraction must FRACTION;
        /// density of the water at the same temperature
        water_density "ρw" Density must POSITIVE;
        /// apparent density of the salt
        salt_density "ρs" Density must POSITIVE;
    }
    /// density of the brine
    gives "ρ" Density;
    value |f| 1.0 / ((1.0 - f.salt_fraction) / f.water_density + f.salt_fraction / f.salt_density)
}

formula! {
    /// Density under pressure of a brine that is taken to give way like another one.
    pub struct LikenedDensity;
    slug "likened-density";
    equation "ρ = ρ0 ρn / ρn0";
    law Homogeneous;
    source "assumption: the same share of another salt is pressed by the same ratio; calcium chloride and potassium chloride differ from sodium chloride by less than 0.2 % at 70 MPa (Al Ghafri, Maitland & Trusler, J. Chem. Eng. Data 57 (2012) 1288)";
    given {
        /// density at one atmosphere
        surface_density "ρ0" Density must NON_NEGATIVE;
        /// density of the other brine under pressure
        known_density "ρn" Density must NON_NEGATIVE;
        /// density of the other brine at one atmosphere
        known_surface_density "ρn0" Density must POSITIVE;
    }
    /// density under pressure
    gives "ρ" Density;
    value |f| f.surface_density * f.known_density / f.known_surface_density
}

formula! {
    /// Density of a heavy brine at another temperature, by its mean expansion.
    pub struct ExpandedBrine;
    slug "expanded-brine-density";
    equation "ρT = ρ0 / (1 + α (T - T0))";
    law Homogeneous;
    source "API RP 13J after Krook & Boyce 1984, as printed in Well Control for Completions and Interventions, p. 192, eq. 5.2";
    given {
        /// density at the reference temperature
        density "ρ0" Density must NON_NEGATIVE;
        /// mean thermal expansion
        thermal_expansion "α" Expansion must between(0.0, 1e-3) valid between(4e-4, 5e-4);
        /// temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST);
        /// reference temperature
        reference_temperature "T0" Temperature must between(COLDEST, HOTTEST);
    }
    /// density at the temperature
    gives "ρT" Density;
    value |f| f.density / (1.0 + f.thermal_expansion * (f.temperature - f.reference_temperature))
}

formula! {
    /// Density of a heavy brine under pressure, by its mean compressibility.
    pub struct PressedBrine;
    slug "pressed-brine-density";
    equation "ρp = ρT / (1 - β p)";
    law Homogeneous;
    source "API RP 13J after Krook & Boyce 1984, as printed in Well Control for Completions and Interventions, p. 193, eq. 5.3";
    given {
        /// density at the temperature, without pressure
        density "ρT" Density must NON_NEGATIVE;
        /// mean compressibility
        compressibility "β" Compressibility must between(0.0, 1e-9) valid between(1.9e-10, 3e-10);
        /// gauge pressure
        pressure "p" Pressure must between(-1e6, HIGHEST_PRESSURE) valid between(0.0, 85e6);
    }
    /// density under pressure
    gives "ρp" Density;
    value |f| f.density / (1.0 - f.compressibility * f.pressure)
}

/// A brine heavier than the chlorides make, by what was measured of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeavyBrine {
    /// Density at the reference temperature and one atmosphere. [kg/m³]
    pub density: f64,
    /// Reference temperature. [K]
    pub reference_temperature: f64,
    /// Mean thermal expansion. [1/K]
    pub thermal_expansion: f64,
    /// Mean compressibility. [1/Pa]
    pub compressibility: f64,
}

impl HeavyBrine {
    pub(super) fn density<R: Recorder>(self, state: State, rec: &mut R) -> f64 {
        let HeavyBrine { density, reference_temperature, thermal_expansion, compressibility } = self;
        let hot = rec.take(ExpandedBrine { density, thermal_expansion, temperature: state.temperature(), reference_temperature });
        rec.take(PressedBrine { density: hot, compressibility, pressure: state.absolute_pressure() - STANDARD_ATMOSPHERE })
    }

    pub(super) fn is_sane(self) -> bool {
        let hot = ExpandedBrine {
            density: self.density,
            thermal_expansion: self.thermal_expansion,
            temperature: COLDEST,
            reference_temperature: self.reference_temperature,
        };
        let pressed = PressedBrine { density: self.density, compressibility: self.compressibility, pressure: 0.0 };
        ExpandedBrine::RECORD.outside_must(hot.inputs().as_ref()).is_empty()
            && PressedBrine::RECORD.outside_must(pressed.inputs().as_ref()).is_empty()
    }
}

/// Density of a brine. [kg/m³]
pub(super) fn brine_density<R: Recorder>(salt: Salt, salt_fraction: f64, state: State, rec: &mut R) -> f64 {
    let (absolute_pressure, temperature) = (state.absolute_pressure(), state.temperature());
    match salt {
        Salt::SodiumChloride => rec.take(SodiumChlorideBrine { salt_fraction, absolute_pressure, temperature }),
        Salt::PotassiumChloride => rec.take(PotassiumChlorideBrine { salt_fraction, absolute_pressure, temperature }),
        Salt::CalciumChloride => rec.take(CalciumChlorideBrine { salt_fraction, absolute_pressure, temperature }),
        Salt::MagnesiumChloride => rec.take(MagnesiumChlorideBrine { salt_fraction, absolute_pressure, temperature }),
        _ => {
            let surface_density = surface_brine_density(salt, salt_fraction, temperature, rec);
            let salt_fraction = salt_fraction.min(Salt::SodiumChloride.most());
            let known_density = rec.take(SodiumChlorideBrine { salt_fraction, absolute_pressure, temperature });
            let absolute_pressure = STANDARD_ATMOSPHERE;
            let known_surface_density = rec.take(SodiumChlorideBrine { salt_fraction, absolute_pressure, temperature });
            rec.note(|| format!("{} brine is taken to be pressed like sodium chloride brine", salt.name()));
            rec.take(LikenedDensity { surface_density, known_density, known_surface_density })
        }
    }
}

/// Density of a brine at one atmosphere. [kg/m³]
pub fn surface_brine_density<R: Recorder>(salt: Salt, salt_fraction: f64, temperature: f64, rec: &mut R) -> f64 {
    let absolute_pressure = STANDARD_ATMOSPHERE;
    let Some(laliberte) = salt.laliberte() else {
        return rec.take(MagnesiumChlorideBrine { salt_fraction, absolute_pressure, temperature });
    };
    let [c_0, c_1, c_2, c_3, c_4] = laliberte.coefficients;
    let water_density = rec.take(FreshWaterDensity { absolute_pressure, temperature });
    let salt_density = rec.take(SaltApparentDensity { salt_fraction, temperature, c_0, c_1, c_2, c_3, c_4 });
    rec.take(BrineDensity { salt_fraction, water_density, salt_density })
}

/// Share of salt that a brine of a density holds at one atmosphere; `None` when no share gives it. [-]
pub fn salt_fraction_for(salt: Salt, density: f64, temperature: f64) -> Option<f64> {
    let excess = |salt_fraction: f64| surface_brine_density(salt, salt_fraction, temperature, &mut Off) - density;
    crate::numerics::root(excess, 0.0, salt.most())
}
