//! Nitrogen by its reference equation of state, for accumulators: density, pressure and entropy.
//!
//! The equation is a Helmholtz energy in reduced density δ = ρ/ρc and inverse reduced temperature τ = Tc/T, from
//! which everything else follows by differentiation, so pressure and entropy agree with each other. Taken here
//! above the critical point only (130 K to 600 K, up to 200 MPa), where pressure grows steadily with density.
//! Pressure is absolute.
//!
//! *Source*: R. Span, E. W. Lemmon, R. T Jacobsen, W. Wagner, A. Yokozeki, J. Phys. Chem. Ref. Data 29 (2000) 1361;
//! coefficients as in the fluid file of CoolProp 8.0.0 (MIT licence).

use crate::numerics::root;
use crate::{Formula, FormulaRecord, Kind, Recorder, Root, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] =
    &[<NitrogenDensity as Formula>::RECORD, <NitrogenPressure as Formula>::RECORD, <NitrogenEntropy as Formula>::RECORD];

/// Lowest temperature taken. [K]
const COLDEST: f64 = 130.0;
/// Highest temperature taken. [K]
const HOTTEST: f64 = 600.0;
/// Highest pressure taken. [Pa]
const HIGHEST_PRESSURE: f64 = 2e8;
/// Highest density taken: more than the highest pressure can bring about. [kg/m³]
const HIGHEST_DENSITY: f64 = 1200.0;

/// Critical temperature. [K]
const CRITICAL_TEMPERATURE: f64 = 126.192;
/// Critical density: 11.1839 mol/l in the paper, with more digits in the fluid file. [kg/m³]
const CRITICAL_DENSITY: f64 = 11_183.901_464_58 * MOLAR_MASS;
/// Molar mass. [kg/mol]
const MOLAR_MASS: f64 = 0.028_013_48;
/// Gas constant over molar mass, with the 8.31451 J/(mol·K) of the source. [J/(kg·K)]
const GAS_CONSTANT: f64 = 8.314_51 / MOLAR_MASS;

/// Terms n δ^d τ^t exp(-δ^l), without the exponential where l is 0: (n, t, d, l).
#[rustfmt::skip]
const TERMS: [(f64, f64, i32, i32); 32] = [
    (0.924_803_575_275, 0.25, 1, 0),
    (-0.492_448_489_428, 0.875, 1, 0),
    (0.661_883_336_938, 0.5, 2, 0),
    (-1.929_026_492_01, 0.875, 2, 0),
    (-0.062_246_930_962_9, 0.375, 3, 0),
    (0.349_943_957_581, 0.75, 3, 0),
    (0.564_857_472_498, 0.5, 1, 1),
    (-1.617_200_059_87, 0.75, 1, 1),
    (-0.481_395_031_883, 2.0, 1, 1),
    (0.421_150_636_384, 1.25, 3, 1),
    (-0.016_196_223_082_5, 3.5, 3, 1),
    (0.172_100_994_165, 1.0, 4, 1),
    (0.007_354_489_249_33, 0.5, 6, 1),
    (0.016_807_730_547_9, 3.0, 6, 1),
    (-0.001_076_266_641_79, 0.0, 7, 1),
    (-0.013_731_808_851_3, 2.75, 7, 1),
    (0.000_635_466_899_859, 0.75, 8, 1),
    (0.003_044_322_794_19, 2.5, 8, 1),
    (-0.043_576_233_604_5, 4.0, 1, 2),
    (-0.072_317_488_931_6, 6.0, 2, 2),
    (0.038_964_431_527_2, 6.0, 3, 2),
    (-0.021_220_136_391, 3.0, 4, 2),
    (0.004_088_229_815_09, 3.0, 5, 2),
    (-5.51990017984e-05, 6.0, 8, 2),
    (-0.046_201_671_647_9, 16.0, 4, 3),
    (-0.003_003_117_160_11, 11.0, 5, 3),
    (0.036_882_589_120_8, 15.0, 5, 3),
    (-0.002_558_568_462_2, 12.0, 8, 3),
    (0.008_969_152_645_58, 12.0, 3, 4),
    (-0.004_415_133_703_5, 7.0, 5, 4),
    (0.001_337_229_248_58, 4.0, 6, 4),
    (0.000_264_832_491_957, 16.0, 9, 4),
];

/// Terms n δ^d τ^t exp(-η (δ - 1)² - β (τ - γ)²): (n, t, d, η, β, γ).
#[rustfmt::skip]
const BELLS: [(f64, f64, i32, f64, f64, f64); 4] = [
    (19.668_819_401_5, 0.0, 1, 20.0, 325.0, 1.16),
    (-20.911_560_073, 1.0, 1, 20.0, 325.0, 1.16),
    (0.016_778_830_698_9, 2.0, 3, 15.0, 300.0, 1.13),
    (2_627.675_662_74, 3.0, 2, 25.0, 275.0, 1.25),
];

formula! {
    /// Density of nitrogen by its reference equation of state.
    ///
    /// Solved for the density between 0 and 1200 kg/m³ at the given temperature.
    pub struct NitrogenDensity;
    slug "nitrogen-density";
    equation "p(ρ, T) = p, solved for ρ";
    law Empirical("Pa, K and kg/m³");
    source "Span et al., J. Phys. Chem. Ref. Data 29 (2000) 1361; coefficients as in CoolProp 8.0.0";
    given {
        /// absolute pressure
        absolute_pressure "p" AbsolutePressure must between(0.0, HIGHEST_PRESSURE);
        /// absolute temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST);
    }
    /// density of nitrogen
    gives "ρ" Density;
    value |f| {
        let isotherm = Isotherm::at(f.temperature);
        root(|density| isotherm.pressure(density) - f.absolute_pressure, 0.0, HIGHEST_DENSITY).unwrap_or(0.0)
    }
}

formula! {
    /// Pressure of nitrogen by its reference equation of state.
    pub struct NitrogenPressure;
    slug "nitrogen-pressure";
    equation "p = ρ (R/M) T (1 + δ ∂α_r/∂δ), δ = ρ/ρ_c";
    law Empirical("Pa, K and kg/m³");
    source "Span et al., J. Phys. Chem. Ref. Data 29 (2000) 1361; coefficients as in CoolProp 8.0.0";
    given {
        /// density of nitrogen
        density "ρ" Density must between(0.0, HIGHEST_DENSITY);
        /// absolute temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST);
    }
    /// absolute pressure
    gives "p" AbsolutePressure;
    value |f| Isotherm::at(f.temperature).pressure(f.density)
}

formula! {
    /// Specific entropy of nitrogen by its reference equation of state; only differences have meaning.
    pub struct NitrogenEntropy;
    slug "nitrogen-entropy";
    equation "s = (R/M) (τ ∂(α_0 + α_r)/∂τ - α_0 - α_r), τ = T_c/T, δ = ρ/ρ_c";
    law Empirical("K and kg/m³");
    source "Span et al., J. Phys. Chem. Ref. Data 29 (2000) 1361; coefficients as in CoolProp 8.0.0";
    given {
        /// density of nitrogen
        density "ρ" Density must between(1e-9, HIGHEST_DENSITY);
        /// absolute temperature
        temperature "T" Temperature must between(COLDEST, HOTTEST);
    }
    /// specific entropy
    gives "s" SpecificHeat;
    value |f| entropy(f.density, f.temperature)
}

/// The pressure equation at one temperature: the powers of τ are taken once.
struct Isotherm {
    temperature: f64,
    /// n τ^t of each term.
    terms: [f64; 32],
    /// n τ^t exp(-β (τ - γ)²) of each bell-shaped term.
    bells: [f64; 4],
}

impl Isotherm {
    fn at(temperature: f64) -> Isotherm {
        let tau = CRITICAL_TEMPERATURE / temperature;
        Isotherm {
            temperature,
            terms: TERMS.map(|(n, t, _, _)| n * tau.powf(t)),
            bells: BELLS.map(|(n, t, _, _, beta, gamma)| n * tau.powf(t) * (-beta * (tau - gamma) * (tau - gamma)).exp()),
        }
    }

    fn pressure(&self, density: f64) -> f64 {
        let delta = density / CRITICAL_DENSITY;
        // δ ∂α_r/∂δ: d - l δ^l for the terms, d - 2 η δ (δ - 1) for the bells.
        let mut slope = 0.0;
        for ((_, _, d, l), at) in TERMS.iter().zip(self.terms) {
            let (damping, power) = damping(delta, *l);
            slope += at * delta.powi(*d) * damping * (f64::from(*d) - f64::from(*l) * power);
        }
        for ((_, _, d, eta, _, _), at) in BELLS.iter().zip(self.bells) {
            let away = delta - 1.0;
            slope += at * delta.powi(*d) * (-eta * away * away).exp() * (f64::from(*d) - 2.0 * eta * delta * away);
        }
        density * GAS_CONSTANT * self.temperature * (1.0 + slope)
    }
}

/// exp(-δ^l) and δ^l; 1 and 1 where l is 0.
fn damping(delta: f64, l: i32) -> (f64, f64) {
    if l == 0 {
        return (1.0, 1.0);
    }
    let power = delta.powi(l);
    ((-power).exp(), power)
}

fn entropy(density: f64, temperature: f64) -> f64 {
    let (delta, tau) = (density / CRITICAL_DENSITY, CRITICAL_TEMPERATURE / temperature);
    // Ideal part: ln δ + a1 + a2 τ + 2.5 ln τ + Σ n τ^t + 1.012941 ln(1 - exp(-θ τ)); a1 and a2 τ drop out of
    // differences of entropy, yet are kept so that the value is that of the source.
    let theta = 3_364.011 / CRITICAL_TEMPERATURE;
    let powers = [(-0.000_193_481_9, -1), (-1.247_742e-5, -2), (6.678_326e-8, -3)];
    let ideal = delta.ln() - 12.769_527_08 - 0.007_841_63 * tau
        + 2.5 * tau.ln()
        + powers.iter().map(|(n, t)| n * tau.powi(*t)).sum::<f64>()
        + 1.012_941 * (-(-theta * tau).exp()).ln_1p();
    let ideal_slope = -0.007_841_63 * tau
        + 2.5
        + powers.iter().map(|(n, t)| n * f64::from(*t) * tau.powi(*t)).sum::<f64>()
        + 1.012_941 * theta * tau / (theta * tau).exp_m1();
    let (mut residual, mut residual_slope) = (0.0, 0.0);
    for (n, t, d, l) in TERMS {
        let term = n * tau.powf(t) * delta.powi(d) * damping(delta, l).0;
        residual += term;
        residual_slope += t * term;
    }
    for (n, t, d, eta, beta, gamma) in BELLS {
        let (away, off) = (delta - 1.0, tau - gamma);
        let term = n * tau.powf(t) * delta.powi(d) * (-eta * away * away - beta * off * off).exp();
        residual += term;
        residual_slope += term * (t - 2.0 * beta * tau * off);
    }
    GAS_CONSTANT * (ideal_slope + residual_slope - ideal - residual)
}

/// A state of nitrogen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NitrogenState {
    /// Absolute pressure. [Pa]
    pub pressure: f64,
    /// Temperature. [K]
    pub temperature: f64,
    /// Density. [kg/m³]
    pub density: f64,
}

/// Nitrogen at a pressure and temperature; `None` outside 130 K to 600 K and 0 to 200 MPa.
pub fn nitrogen<R: Recorder>(rec: &mut R, pressure: f64, temperature: f64) -> Option<NitrogenState> {
    let inside = (0.0..=HIGHEST_PRESSURE).contains(&pressure) && (COLDEST..=HOTTEST).contains(&temperature);
    inside.then(|| NitrogenState {
        pressure,
        temperature,
        density: rec.take(NitrogenDensity { absolute_pressure: pressure, temperature }),
    })
}

/// Nitrogen at a density and temperature; `None` outside 130 K to 600 K and 0 to 1200 kg/m³.
pub fn nitrogen_of_density<R: Recorder>(rec: &mut R, density: f64, temperature: f64) -> Option<NitrogenState> {
    let inside = (0.0..=HIGHEST_DENSITY).contains(&density) && (COLDEST..=HOTTEST).contains(&temperature);
    inside.then(|| NitrogenState { pressure: rec.take(NitrogenPressure { density, temperature }), temperature, density })
}

/// Nitrogen let down to a lower pressure so fast that no heat comes in; `None` when it would get colder than
/// 130 K, where part of it may condense.
pub fn nitrogen_expanded<R: Recorder>(rec: &mut R, from: NitrogenState, pressure: f64) -> Option<NitrogenState> {
    if !(pressure > 0.0 && pressure <= from.pressure) {
        return None;
    }
    let before = rec.take(NitrogenEntropy { density: from.density, temperature: from.temperature });
    let residual = |temperature: f64| {
        let density = NitrogenDensity { absolute_pressure: pressure, temperature }.value();
        entropy(density, temperature) - before
    };
    let temperature = root(residual, COLDEST, from.temperature)?;
    let state = nitrogen(rec, pressure, temperature)?;
    rec.root(Root {
        equation: "s(ρ(p, T), T) = s before",
        sign: "T",
        meaning: "temperature after expansion without heat",
        kind: Kind::Temperature,
        value: temperature,
        residual: residual(temperature),
        residual_kind: Kind::SpecificHeat,
    });
    Some(state)
}

/// Nitrogen let out to a lower density so fast that no heat comes in; `None` when it would get colder than 130 K.
pub fn nitrogen_expanded_to_density<R: Recorder>(rec: &mut R, from: NitrogenState, density: f64) -> Option<NitrogenState> {
    if !(density > 0.0 && density <= from.density) {
        return None;
    }
    let before = rec.take(NitrogenEntropy { density: from.density, temperature: from.temperature });
    let residual = |temperature: f64| entropy(density, temperature) - before;
    let temperature = root(residual, COLDEST, from.temperature)?;
    rec.root(Root {
        equation: "s(ρ, T) = s before",
        sign: "T",
        meaning: "temperature after expansion without heat",
        kind: Kind::Temperature,
        value: temperature,
        residual: residual(temperature),
        residual_kind: Kind::SpecificHeat,
    });
    nitrogen_of_density(rec, density, temperature)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    fn temperatures() -> impl Iterator<Item = f64> {
        (0..48).map(|step| COLDEST + 10.0 * f64::from(step))
    }

    #[test]
    fn law_pressure_grows_with_density_so_that_the_root_is_the_only_one() {
        for temperature in temperatures() {
            let isotherm = Isotherm::at(temperature);
            let pressures: Vec<f64> = (0..=2400).map(|step| isotherm.pressure(f64::from(step) * 0.5)).collect();
            assert!(pressures.is_sorted(), "at {temperature} K");
            assert!(pressures[2400] > HIGHEST_PRESSURE, "at {temperature} K");
        }
    }

    #[test]
    fn law_thin_nitrogen_is_ideal() {
        for temperature in temperatures() {
            let density = NitrogenDensity { absolute_pressure: 1.0, temperature }.value();
            let ideal = 1.0 / (GAS_CONSTANT * temperature);
            assert!((density / ideal - 1.0).abs() < 1e-6, "at {temperature} K");
        }
    }

    #[test]
    fn law_pressure_and_density_are_inverse() {
        for temperature in temperatures() {
            for pressure in [1e5, 5e6, 2.1e7, 6.9e7, 2e8] {
                let density = NitrogenDensity { absolute_pressure: pressure, temperature }.value();
                let again = NitrogenPressure { density, temperature }.value();
                assert!((again / pressure - 1.0).abs() < 1e-11, "{pressure} Pa, {temperature} K: {again}");
            }
        }
    }

    #[test]
    fn law_entropy_and_pressure_come_from_one_energy() {
        // Maxwell: (∂s/∂ρ) at constant T = -(1/ρ²) (∂p/∂T) at constant ρ.
        for temperature in [220.0, 300.0, 350.0] {
            for density in [10.0, 100.0, 300.0, 600.0] {
                let (dr, dt) = (density * 1e-4, 1e-2);
                let by_density = (entropy(density + dr, temperature) - entropy(density - dr, temperature)) / (2.0 * dr);
                let pressure = |t| Isotherm::at(t).pressure(density);
                let by_temperature = (pressure(temperature + dt) - pressure(temperature - dt)) / (2.0 * dt);
                let maxwell = -by_temperature / (density * density);
                assert!((by_density / maxwell - 1.0).abs() < 1e-6, "{density} {temperature}: {by_density} {maxwell}");
            }
        }
    }

    #[test]
    fn law_expansion_keeps_entropy_and_cools() {
        let full = nitrogen(&mut Off, 2.1e7, 294.0).unwrap();
        let low = nitrogen_expanded(&mut Off, full, 8.4e6).unwrap();
        assert!(low.temperature < full.temperature);
        let (before, after) = (entropy(full.density, full.temperature), entropy(low.density, low.temperature));
        assert!((before - after).abs() < 1e-8, "{before} {after}");
        let by_density = nitrogen_expanded_to_density(&mut Off, full, low.density).unwrap();
        assert!((by_density.temperature - low.temperature).abs() < 1e-8);
        assert!((by_density.pressure / low.pressure - 1.0).abs() < 1e-9);
        assert_eq!(nitrogen_expanded(&mut Off, full, 1.0), None);
        assert_eq!(nitrogen_expanded(&mut Off, full, 3e7), None);
    }
}
